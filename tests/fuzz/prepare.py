"""What a target begins with: files of the repository as they are, each reader its own kind, and a dictionary of the
words that it knows, from the schemas, the names of the rates and the reader's source.
usage: prepare.py TARGET FOLDER   (writes FOLDER/seeds/ and FOLDER/words.dict)"""
import glob
import json
import os
import re
import shlex
import sys

import yaml

ROOT = os.path.normpath(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
sys.path.insert(0, os.path.join(ROOT, "tests"))
from schema_words import words_of  # noqa: E402

LONGEST_WORD = 40
RECORDS = 3  # of a section of the rates, in a seed


def read(path):
    with open(os.path.join(ROOT, path), encoding="utf-8") as file:
        return file.read()


def files(*patterns):
    return [os.path.relpath(p, ROOT) for pattern in patterns for p in sorted(glob.glob(os.path.join(ROOT, pattern)))]


# ---- words

def of_schema(name):
    return words_of(json.loads(read(f"rates/schema/{name}.json")))


def of_rates(*sections):
    """The names of records, of these sections or of all, with what else they are called."""
    words = set()
    for path in files("rates/*.yaml", "rates/methods/*.yaml", "samples/shop/shop.yaml"):
        for section, records in yaml.safe_load(read(path)).items():
            if not isinstance(records, list) or (sections and section not in sections):
                continue
            for record in records:
                words.add(str(record.get("name", "")))
                also = record.get("also", [])
                words.update(map(str, also if isinstance(also, list) else [also]))
    return words


def of_source(*paths):
    """The short texts of a reader, without ids of the catalogue."""
    found = re.findall(r'"((?:[^"\\\n]|\\.)*)"', "\n".join(read(p) for p in paths))
    return {w for w in found if "\\" not in w and "/" not in w.strip("/") and not re.fullmatch(r"[\w-]+(\.[\w-]+)+|.*\.hpp", w)}


def of_columns():
    titles = yaml.safe_load(read("templates/words/en/part.yaml"))
    return {w.strip() for id, text in titles.items() if id.startswith("column.") for w in text.split("|")}


def of_catalogue():
    words = set()
    for path in files("templates/words/en/*.yaml"):
        for id, text in yaml.safe_load(read(path)).items():
            words.add(id)
            words.update(re.findall(r"\{[^{}]*\}", str(text)))
    return words


def figures():
    return yaml.safe_load(read("tests/evidence/figures.yaml"))


def of_figures():
    words = set()
    for f in figures():
        words |= {f["figure"], f["result"] + "="}
        words.update(word.split("=")[0] + "=" for word in f["inputs"].split() if "=" in word)
    return words


UNITS = ("src/quantity/unit.cpp",)
PART_READERS = files("src/part/read_*.cpp", "src/part/element_text.cpp", "src/part/pieces.cpp")


def part_words():
    return (of_schema("part") | of_source(*PART_READERS, *UNITS) |
            of_rates("materials", "stock conditions", "fits", "general tolerances", "reliefs", "centre holes", "knurls", "outside work"))


def week_words():
    return of_schema("week") | of_rates("machines") | {os.path.basename(p) for p in files("samples/0*.yaml")}


WORDS = {
    "part": part_words, "plan": part_words, "write": part_words,
    "shop": lambda: of_schema("shop") | of_source(*UNITS),
    "overlay": lambda: of_schema("shop") | of_rates() | of_source(*UNITS),
    "week": week_words, "load": week_words,
    "posted": lambda: of_rates("machines") | of_source("src/week/read_posted.cpp"),
    "bookings": lambda: of_rates("machines") | of_source("src/week/read_bookings.cpp"),
    "list": lambda: of_columns() | part_words(),
    "workbook": lambda: of_columns() | of_source("src/document/workbook_table.cpp"),
    "request": lambda: of_schema("request") | of_rates("stock conditions", "customers"),
    "offer": lambda: set(re.findall(r"\{[^{}]*\}", "".join(map(read, files("templates/offer/*.txt"))))) | of_source("src/output/offer_texts.cpp"),
    "words": of_catalogue,
    "figure": lambda: of_figures() | of_source(*UNITS),
    "cut": lambda: of_source("src/part/read_bench_work.cpp", *UNITS),
    "bench": lambda: of_source("src/part/read_bench_work.cpp") | of_rates("materials", "machines", "tools"),
    "options": lambda: {w if " " in w else "--" + w for w in of_source("src/cli/commands/commands.cpp")},
    "model": lambda: of_source("src/draft/read_recognition.cpp", "include/turnwright/draft/model_words.hpp"),
    "text": lambda: of_source(*UNITS),
    "cells": lambda: {"\"\"", "'=", "'+", "\r\n", ": ", "- ", " #", "'-1", "\ufeff"},
}


def dictionary(words):
    def quoted(word):
        return "".join(chr(b) if 32 <= b < 127 and b not in (34, 92) else f"\\x{b:02x}" for b in word.encode())
    return "".join(f'"{quoted(w)}"\n' for w in sorted(words) if 0 < len(w) <= LONGEST_WORD)


# ---- seeds

def some_records(path):
    """A file of the rates with the first records of each section."""
    lines, n = [], 0
    for line in read(path).splitlines():
        if not line.startswith((" ", "-", "#")):
            n = 0
        n += line.startswith("- ")
        if n <= RECORDS:
            lines.append(line)
    return "\n".join(lines) + "\n"


def commands():
    return [shlex.split(re.split(" [|>&] ", line[2:])[0])[1:] for path in files("tests/transcripts/*.txt") for line in read(path).splitlines()
            if line.startswith("$ turnwright") and line.count("'") % 2 == 0 and line.count('"') % 2 == 0]


def parts():
    return list(map(read, files("samples/0*.yaml", "templates/new/part.yaml", "tests/document/every-key.yaml", "tests/parts/everyday/*.yaml")))


def shops():
    return [some_records(p) for p in files("rates/*.yaml", "rates/methods/*.yaml")] + list(map(read, files("samples/shop/*.yaml", "templates/new/shop.yaml")))


def weeks():
    return list(map(read, files("samples/12-week.yaml", "templates/new/week.yaml")))


def catalogues():
    texts = [read(p).splitlines() for p in files("templates/words/en/*.yaml")]
    return ["\n".join(lines[i:i + 30]) + "\n" for lines in texts for i in range(0, len(lines), 90)]


SEEDS = {
    "part": parts, "plan": parts, "write": parts,
    "shop": lambda: [t + "\n---\n" + t for t in shops()], "overlay": shops,
    "week": weeks, "load": weeks,
    "bookings": lambda: [read("samples/12-booked.csv")],
    "list": lambda: list(map(read, files("samples/*-list.csv", "samples/*-family.csv"))),
    "request": lambda: list(map(read, files("samples/10-request.yaml", "templates/new/request.yaml"))),
    "offer": lambda: list(map(read, files("templates/offer/*.txt"))),
    "words": catalogues,
    "figure": lambda: [f"{f['figure']} {f['inputs']}{how}" for f in figures() for how in ("", " --json --why")],
    "options": lambda: ["\n".join(words) for words in commands()],
    "bench": lambda: ["\n".join(words[1:3]) for words in commands() if words[:1] == ["cut"] and len(words) > 2],
    "cut": lambda: [words[2] for words in commands() if words[:1] == ["cut"] and len(words) > 2],
}


def main():
    target, folder = sys.argv[1:]
    seeds = os.path.join(folder, "seeds")
    os.makedirs(seeds, exist_ok=True)
    for i, text in enumerate(SEEDS.get(target, list)()):
        with open(os.path.join(seeds, f"{i:03}"), "w", encoding="utf-8") as file:
            file.write(text)
    with open(os.path.join(folder, "words.dict"), "w", encoding="utf-8") as file:
        file.write(dictionary(WORDS[target]()))


if __name__ == "__main__":
    main()
