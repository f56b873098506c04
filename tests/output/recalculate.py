"""Recalculation of a workbook by two other programs, for tests. LibreOffice trusts cached values
unless told otherwise, so a private profile says 'always'."""
import os
import re
import shutil
import subprocess
import tempfile
import zipfile

import openpyxl

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>"""


def with_libreoffice(paths, out):
    with tempfile.TemporaryDirectory() as profile:
        os.makedirs(os.path.join(profile, "user"))
        with open(os.path.join(profile, "user", "registrymodifications.xcu"), "w", encoding="utf-8") as file:
            file.write(PROFILE)
        subprocess.run(["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", "xlsx",
                        "--outdir", out, *paths], check=True, capture_output=True, timeout=500)


def with_gnumeric(path, out):
    subprocess.run(["ssconvert", "--recalc", path, out], check=True, capture_output=True, timeout=500)


def formulas(path):
    """(sheet, cell) of every formula."""
    book = openpyxl.load_workbook(path)
    return {(s.title, c.coordinate): c.value for s in book for row in s.iter_rows() for c in row
            if isinstance(c.value, str) and c.value.startswith("=")}


def values(path):
    book = openpyxl.load_workbook(path, data_only=True)
    return {(s.title, c.coordinate): c.value for s in book for row in s.iter_rows() for c in row if c.value is not None}


def cell_named(path, name):
    """(sheet, cell) of a defined name."""
    with zipfile.ZipFile(path) as z:
        book = z.read("xl/workbook.xml").decode()
    sheet, column, row = re.search(rf'<definedName name="{name}">([^<]+)!\$([A-Z]+)\$([0-9]+)</definedName>', book).groups()
    return sheet.strip("'"), column + row


def sheet_file(path, name):
    with zipfile.ZipFile(path) as z:
        book = z.read("xl/workbook.xml").decode()
    names = re.findall(r'<sheet name="([^"]+)"', book)
    return f"xl/worksheets/sheet{names.index(name) + 1}.xml"


def edit(path, out, sheet, cell, value):
    """Puts a number into a cell of the file, as a user would, without recalculating."""
    part = sheet_file(path, sheet)
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == part:
                text, n = re.subn(rf'(<c r="{cell}"[^>]*>(?:<f>[^<]*</f>)?<v>)[^<]*(</v>)', rf"\g<1>{value!r}\g<2>", data.decode())
                assert n == 1, f"{sheet}!{cell} not found"
                data = text.encode()
            new.writestr(name, data)
