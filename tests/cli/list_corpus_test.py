"""Forty lists as customers send them, workbooks and tables: each must give the rows of the plain list."""
import csv
import io
import os
import sys
import unittest

import openpyxl

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import SHOP, folder, run  # noqa: E402

# Invented parts; the oddities are those that lists have.
COLUMNS = ["number", "name", "material", "stock", "quantities", "Ra", "outside", "notes"]
PARTS = [
    ["K-1", "pin", "C45", "round 20, drawn", "20 100", "3.2", "16 h9 x30.5, chamfer 0.5x45 both", ""],
    ["K-2", "bush", "CuZn39Pb3", "round 36, drawn, bar", "50 250", "1.6", "34.5 x22, chamfer 1x45 right", "first lot urgent"],
    ["K-3", "shaft", "42CrMo4 +QT", "", "10 50", "3.2", "35 h7 x55 | 43 x110 | 35 h7 x55.5", ""],
    ["K-4", "cap", "C45", "hexagon 36, drawn", "12", "6.3", "28 x12.5 | hexagon 36 x20", ""]]
ENGLISH = ["Part No.", "Description", "Material", "Raw material", "Qty", "Ra", "Contour", "Remarks"]
GERMAN = ["Zeichnungs-Nr.", "Benennung", "Werkstoff", "Halbzeug", "Stückzahl", "Rauheit", "Außenkontur", "Bemerkung"]
# Nine and more spellings of a 36 mm drawn bar that is fed.
BARS = ["round 36, drawn, bar", "round 36 drawn bar", "bar round 36, drawn", "bar 36 drawn", "round bar 36, drawn", "dia 36 drawn, from bar",
        "Ø36 drawn bar", "Ø 36 mm, drawn, fed from bar", "drawn bar 36", "Rund 36, gezogen, Stange", "Stange Ø36 gezogen"]


def commas(cell):
    return "".join("," if c == "." and 0 < i < len(cell) - 1 and cell[i - 1].isdigit() and cell[i + 1].isdigit() else c for i, c in enumerate(cell))


def quoted(text):
    """What `quote` makes of a list that holds this text: exit status, output, errors."""
    with folder() as work:
        path = os.path.join(work, "list.csv")
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        return run("quote", path, "--shop", SHOP)


class Corpus(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with folder() as work:
            path = os.path.join(work, "plain.csv")
            with open(path, "w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows([COLUMNS, *PARTS])
            status, out, err = run("quote", path, "--shop", SHOP)
        assert status == 0, err
        cls.wanted = [[r[c] for c in ("number", "qty", "price each", "total")] for r in csv.DictReader(io.StringIO(out))]

    def check(self, rows, name, said=(), kind="xlsx", change=lambda sheet: None, separator=","):
        with folder() as work:
            path = os.path.join(work, "list." + kind)
            if kind == "csv":
                with open(path, "w", encoding="utf-8-sig", newline="") as file:
                    csv.writer(file, delimiter=separator).writerows(rows)
            else:
                book = openpyxl.Workbook()
                for row in rows:
                    book.active.append(row)
                change(book.active)
                book.save(path)
            status, out, err = run("quote", path, "--shop", SHOP)
        self.assertEqual(status, 0, f"{name}: {err}")
        found = [[r[c] for c in ("number", "qty", "price each", "total")] for r in csv.DictReader(io.StringIO(out))]
        self.assertEqual(found, self.wanted, name)
        for words in said:
            self.assertIn(words, err, name)
        return 1

    def test_forty_lists(self):
        done = 0
        width = len(COLUMNS)
        titles = {"": [], "a title": [["Request 4711"]], "an address": [["Orrin Winches", "", "", "", "", "", "", "01.12.2026"], [], ["Please quote:"]]}
        for language, head in (("file words", COLUMNS), ("English", ENGLISH), ("German", GERMAN)):
            for title, above in titles.items():
                said = [f"{len([r for r in above if r])} row"] if above else []
                merge = (lambda sheet: sheet.merge_cells(start_row=1, start_column=1, end_row=1, end_column=width)) if above else (lambda sheet: None)
                done += self.check([*above, head, *PARTS], f"{language}, {title}", said, change=merge)
                comma = [[*p[:5], commas(p[5]), commas(p[6]), p[7]] for p in PARTS]
                done += self.check([*above, head, *comma], f"{language}, {title}, decimal commas", [*said, "decimal commas"])
                padded = [(row + [""] * width)[:width] for row in [*above, head, *comma]]
                done += self.check(padded, f"{language}, {title}, semicolons", [*said, "decimal commas"], "csv", separator=";")
        wide = [["Pos.", *row[:3], "", *row[3:], "Target price"] for row in [ENGLISH]] + [[i + 1, *p[:3], None, *p[3:], 9.5] for i, p in enumerate(PARTS)]
        done += self.check(wide, "positions, an empty column, a column that is not ours", ["columns not read: E and Target price"])
        done += self.check([COLUMNS, *[[*p[:4], p[4].replace(" ", "; "), *p[5:]] for p in PARTS]], "quantities by semicolons")
        done += self.check([COLUMNS, *[[*p[:4], p[4].replace(" ", "/"), *p[5:]] for p in PARTS]], "quantities by strokes")
        done += self.check([COLUMNS, *[[*p[:4], p[4].replace(" ", ", "), *p[5:]] for p in PARTS]], "quantities by commas")
        done += self.check([COLUMNS, *[[*p[:4], p[4] + " pcs", *p[5:]] for p in PARTS]], "quantities in pieces")
        done += self.check([COLUMNS, *[[*p[:5], float(p[5]), *p[6:]] for p in PARTS]], "roughness as numbers")
        for bar in BARS:
            rows = [list(p) for p in PARTS]
            rows[1][3] = bar
            done += self.check([COLUMNS, *rows], bar)
        self.assertGreaterEqual(done, 40)

    def test_a_layout_of_the_customer_s_names_sheet_headings_and_units(self):
        with folder() as work:
            book = openpyxl.Workbook()
            book.active.title = "Cover"
            book.active.append(["Orrin Winches"])
            sheet = book.create_sheet("Teile 7")
            sheet.append(["Sachnr", "Wst", "Drehkontur"])
            sheet.append(["A", "C45", "1.25 x1"])
            path, layout = os.path.join(work, "list.xlsx"), os.path.join(work, "orrin.yaml")
            book.save(path)
            with open(layout, "w", encoding="utf-8") as file:
                file.write("sheet: Teile 7\nunits: inch\ncolumns: {Sachnr: number, Wst: material, Drehkontur: outside}\n")
            status, out, err = run("quote", path, "--shop", SHOP, "--columns", layout)
            self.assertEqual(status, 0, err)
            self.assertIn("sheets not read: Cover", err)
            with open(os.path.join(work, "same.csv"), "w", encoding="utf-8") as file:
                file.write("number,material,outside (inch)\nA,C45,1.25 x1\n")
            status, same, err = run("quote", os.path.join(work, "same.csv"), "--shop", SHOP)
            self.assertEqual((status, same), (0, out), err)
            self.assertIn("sizes are in inches", err)
            for text, what in (("sheet: Tiele\n", "no sheet named 'Tiele'"), ("columns: {Sachnr: numbr}\n", "did you mean 'number'"),
                               ("colums: {}\n", "did you mean 'columns'")):
                with open(layout, "w", encoding="utf-8") as file:
                    file.write(text)
                status, out, err = run("quote", path, "--shop", SHOP, "--columns", layout)
                self.assertEqual((status, out), (2, ""), err)
                self.assertIn(what, err)

    def test_two_units_in_one_list_are_not_guessed(self):
        status, _, err = quoted("number,material,outside [inch],bore [mm]\nA,C45,1.25 x1,\n")
        self.assertEqual(status, 2, err)
        self.assertIn("sizes in inches in one column and in millimetres in another", err)

    def test_what_stands_twice_is_said(self):
        status, _, err = quoted("number,material,outside,quantities\nA,C45,30 x20,10\nA,C45,30 x20,50\nA,C45,30 x25,10\n")
        self.assertEqual(status, 0, err)
        self.assertIn("row 3: A stands in row 2 as well, the same part", err)
        self.assertIn("row 4: A stands in row 2 as well, as another part", err)

    def test_both_marks_in_one_list_are_not_guessed(self):
        status, out, err = quoted('number,material,outside\nA,C45,"30,5 x20"\nB,C45,30.5 x20\n')
        self.assertEqual(status, 1, err)
        self.assertIn("commas are not read as decimal marks", err)
        self.assertIn("1 priced, 1 refused", err)

    def test_a_text_with_an_apostrophe_comes_back_unchanged(self):
        with folder() as work:
            path, out = os.path.join(work, "list.csv"), os.path.join(work, "out.csv")
            notes = ["'tis urgent", "''quoted''", "'=1+1", "''=1"]
            with open(path, "w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows([["number", "material", "outside", "notes"], *[[f"A{i}", "C45", f"30 x2{i}", n] for i, n in enumerate(notes)]])
            self.assertEqual(run("quote", path, "--shop", SHOP, "--output", out)[0], 0)
            with open(out, encoding="utf-8") as file:
                self.assertEqual([r["notes"] for r in csv.DictReader(file)], notes)


if __name__ == "__main__":
    unittest.main()
