"""Blocks of documents that few parts, shops and weeks have: what holds the work, arcs, prices for a hundred, names that
a format has its own use for. Parts and shops are invented."""
import json
import math
import os
import re
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
import icalendar  # noqa: E402
import openpyxl  # noqa: E402
from program import SHOP, folder, run, run_json, text_of  # noqa: E402

BUSH = """part: {number: M, name: bush}
material: C45
quantities: [20]
stock: {round: 60, condition: drawn}
drawing: {Ra: 3.2}
outside: [40 x30, "55 x20", "45 h6 x25, Ra 0.8, runout 0.01 to A"]
bore from right: ["25 H7 through, seat A"]
"""
FLANGE = """part: {number: F, name: flange}
material: EN-GJL-250
quantities: [1]
stock: {casting: 4}
drawing: {Ra: 3.2}
outside: [210 x20, 220 x20, 210 x40]
bore from right: [60 H7 through]
"""
SHAFT = """part: {number: S, name: shaft}
material: 42CrMo4 +QT
stock: {round: 55, condition: hot rolled}
quantities: [10]
drawing: {general: ISO 2768-mK, Ra: 3.2, edges: 0.3}
overall: 296
outside: ["25 h9 x28, chamfer 1.5x45", "30 k6 x42, Ra 0.8, relief F, seat A", 40 x78, "50 x38, chamfer 1x45 both",
          "35 h6 x110, Ra 0.8, relief F, runout 0.01 to A, chamfer 1x45 left"]
centres: {both ends: B, keep: yes}
"""
BALL = """part: {number: B, name: ball pin}
material: C45
quantities: [10]
outside: ["arc R10 from 0 to 20 x10", "20 x30, groove 3 wide to 17 at 25", "30 x10"]
faces: {left: {as: machined, groove: [{width: 3, depth: 2, from: 22}]}}
"""


def written(folder_, name, text):
    path = os.path.join(folder_, name)
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def labels(page):
    """What stands in the drawings of a page."""
    return re.findall(r"<text[^>]*>([^<]*)</text>", page)


class Clampings(unittest.TestCase):
    # Part, machine, JSON's support of its operations, labels of what holds it: English, German. The lathe's own are drawn
    # once an operation, a centre at each end.
    HELD = [(BUSH, "CNC lathe, medium", ["none", "between-centres"], {"mandrel": 1, "centre": 2}, {"Dorn": 1, "Spitze": 2}),
            (FLANGE, "geared lathe, medium", ["none", "none"], {"face plate": 2}, {"Planscheibe": 2}),
            (SHAFT, "geared lathe, medium", ["none", "none", "between-centres", "between-centres"], {"centre": 4}, {"Spitze": 4})]

    def test_what_holds_the_work_is_drawn_and_named(self):
        for part, machine, support, english, german in self.HELD:
            with self.subTest(part[:20]), folder() as work:
                words = ["route", written(work, "p.yaml", part), "--machine", machine]
                found = [o["support"] for o in run_json(*words)["operations"]]
                self.assertEqual(found, support)
                for language, wanted in (("en", english), ("de", german)):
                    page = os.path.join(work, language + ".html")
                    self.assertEqual(run(*words, "--language", language, "--output", page)[0], 0)
                    there = labels(text_of(page))
                    for label, times in wanted.items():
                        self.assertEqual(there.count(label), times, there)
                # Between centres there are no jaws.
                if support[-1] == "between-centres" and "mandrel" not in english:
                    self.assertEqual(len([label for label in labels(text_of(os.path.join(work, "en.html"))) if "jaws" in label]), 2)

    def test_an_arc_is_an_arc_on_the_page_and_points_of_its_circle_in_the_json(self):
        with folder() as work:
            part = written(work, "p.yaml", BALL)
            profile = run_json("route", part, "--machine", "CNC lathe, medium")["part"]["profile"]["outer"]
            # The ball's centre is 10 mm behind its top, which is the right-hand face.
            ball = [(z, r) for z, r in profile if z > -0.010 + 1e-9]
            self.assertGreater(len(ball), 20)
            for z, r in ball:
                self.assertAlmostEqual(math.hypot(z + 0.010, r), 0.010, places=9)
            page = os.path.join(work, "p.html")
            self.assertEqual(run("quote", part, "--machine", "CNC lathe, medium", "--output", page)[0], 0)
            body = re.search(r'class="fill-body pen" d="([^"]*)"', text_of(page))[1]
            self.assertEqual(len(re.findall(r"A", body)), 2, "above the centre line and below it")
            # The groove in the left-hand face is a rectangle of its own in each half.
            self.assertEqual(len(re.findall(r"M[^MLA]*L[^MLA]*L[^MLA]*L[^MLA]*z", body)), 2, body)


class ForAHundred(unittest.TestCase):
    SHOP = ("units: metric\npolicy:\n- {name: price unit, value: 100, source: own, basis: own records}\n"
            "- {name: markup, value: 0.20, source: own, basis: own records}\n")
    PIN = ('part: {number: P-1, name: pin}\nmaterial: C45\nstock: {round: 40, condition: drawn, fed from: bar}\n'
           'quantities: [5, 40]\noutside: ["30 h9 x40, chamfer 1x45", 38 x20]\n')

    def setUp(self):
        self.folder = folder()
        self.work = self.folder.name
        os.mkdir(os.path.join(self.work, "shop"))
        written(self.work, "shop/shop.yaml", self.SHOP)
        self.words = (written(self.work, "p.yaml", self.PIN), "--shop", os.path.join(self.work, "shop"))

    def tearDown(self):
        self.folder.cleanup()

    def test_no_price_for_a_hundred_is_called_each(self):
        for command in (["quote", "--full"], ["explain"], ["explain", "price", "40"], ["tune"],
                        ["compare", "--methods", "high-speed steel"]):
            for language, each, hundred in (("en", r"price each|\d each", r"per 100"), ("de", r"Preis je Stück|\d je Stück", r"je 100 Stück")):
                words = [command[0], self.words[0], *[w for w in command[1:]], *self.words[1:], "--language", language]
                status, out, err = run(*words)
                self.assertEqual(status, 0, err)
                said = [line for line in out.splitlines() if re.search(each, line, re.IGNORECASE) and not re.search(hundred, line)]
                # The step from a piece's cost to its price is of one piece.
                said = [line for line in said if not re.match(r"From |Von ", line)]
                self.assertEqual(said, [], words)
                self.assertRegex(out, hundred)

    def test_nor_on_the_page_or_in_the_workbook(self):
        page, book = (os.path.join(self.work, "p." + kind) for kind in ("html", "xlsx"))
        for to in (page, book):
            self.assertEqual(run("quote", *self.words, "--output", to)[0], 0)
        prices = run_json("quote", *self.words)["prices"]
        text = re.sub(r"<[^>]*>", " ", text_of(page))
        self.assertIn("Price per 100 at 40", text)
        self.assertNotIn("Price each at", text)
        sheets = openpyxl.load_workbook(book, data_only=True)
        cells = [c.value for sheet in sheets for row in sheet.iter_rows() for c in row if isinstance(c.value, str)]
        self.assertFalse([c for c in cells if c.lower().startswith("price each")])
        self.assertIn("Price per 100, EUR", cells)
        # And the number under the heading is that price.
        rows = list(sheets["Prices"].iter_rows(values_only=True))
        head = next(i for i, row in enumerate(rows) if "Price per 100, EUR" in row)
        column = rows[head].index("Price per 100, EUR")
        self.assertEqual([f"{row[column]:.2f}" for row in rows[head + 1:head + 3]], [p["each"] for p in prices])
        self.assertEqual([p["price_unit"] for p in prices], [100, 100])

    def test_markup_is_markup_in_every_form(self):
        answer = run_json("quote", *self.words)
        self.assertEqual(answer["pricing"]["by"], "markup")
        # A hundred times cost each and a fifth of it, to the next 0.05 (the policy's step): worked by hand.
        for price in answer["prices"]:
            self.assertAlmostEqual(float(price["each"]), round(100 * 1.2 * float(price["cost"]) / price["quantity"] / 0.05) * 0.05, delta=0.051)
        page = os.path.join(self.work, "p.html")
        run("quote", *self.words, "--output", page)
        self.assertIn("price-from-markup", text_of(page))
        self.assertNotIn("price-from-margin", text_of(page))
        rests_on = re.findall(r"<tr>\s*<td[^>]*>(margin|markup)</td>", text_of(page))
        self.assertEqual(rests_on, ["markup"])


class Names(unittest.TestCase):
    def test_names_that_a_calendar_has_its_own_use_for_come_back_as_they_are(self):
        week = """week: {from: 2026-12-07, to: 2026-12-18, now: "2026-12-07 06:00"}
shifts: [{name: early, from: "06:00", to: "14:00"}]
machines: [{machine: Tarn CNC 1, shifts: [early]}]
people: [{name: "Žofie, Ines; \\\\ Lise", shifts: [early], machines: all, sets: yes}]
orders: [{order: "7,a;b", part: p.yaml, quantity: 20, due: 2026-12-10, customer: "Müller, Söhne; Ärger \\\\ ÄÖÜ äöüß ÄÖÜ äöüß ÄÖÜ äöüß ÄÖÜ"}]
"""
        with folder() as work:
            written(work, "p.yaml", "part: {number: P-1}\nmaterial: C45\noutside: [30 x40, 40 x20]\n")
            path, to = written(work, "w.yaml", week), os.path.join(work, "w.ics")
            self.assertEqual(run("load", path, "--shop", SHOP, "--events", "operations", "--output", to)[0], 0)
            with open(to, "rb") as file:
                raw = file.read()
            for line in raw.split(b"\r\n"):
                self.assertLessEqual(len(line), 75)
                line.decode("utf-8")  # no line ends within a letter
            events = icalendar.Calendar.from_ical(raw).walk("VEVENT")
            self.assertTrue(all(": 7,a;b Op " in str(e["SUMMARY"]) for e in events), [str(e["SUMMARY"]) for e in events])
            told = "\n".join(str(e["DESCRIPTION"]) for e in events)
            self.assertIn("sets up: Žofie, Ines; \\ Lise", told)
            self.assertIn("Müller, Söhne; Ärger \\ ÄÖÜ äöüß ÄÖÜ äöüß ÄÖÜ äöüß ÄÖÜ", told)


if __name__ == "__main__":
    unittest.main()
