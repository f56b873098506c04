"""The workbook's live cells, recalculated by LibreOffice and gnumeric with inputs changed in the
file, against the engine working the same frozen route out again."""
import os
import subprocess
import sys
import unittest
import warnings

import openpyxl

ROOT = os.environ["ROOT"]
sys.path[:0] = [os.path.join(ROOT, "tests"), os.path.join(ROOT, "tests/output")]
from program import SHOP, folder, run, sample  # noqa: E402
from recalculate import cell_named, edit, formulas, values, with_gnumeric, with_libreoffice  # noqa: E402

warnings.simplefilter('ignore')  # other programs' files lack a default style
REWORK, FUZZ = os.environ["REWORK"], os.environ["PRINTER_FUZZ"]
SHOP_FILE = os.path.join(SHOP, "shop.yaml")
# Steps, Prices and the heading of the quantities, by language.
SHEETS = {"en": ("Steps", "Prices", "Qty"), "de": ("Schritte", "Preise", "Menge")}
# Part, machine, units, language, change; the cell: of the steps, a defined name or "qty:INDEX"; a factor or a value.
CASES = [
    ("01-winch-spindle.yaml", "Tarn CNC 1", "metric", "en", "none", None, None),
    ("01-winch-spindle.yaml", "Tarn CNC 1", "metric", "en", "speed:2:1.1", "D7", 1.1),
    ("01-winch-spindle.yaml", "Tarn CNC 1", "metric", "de", "speed:3:0.7", "D8", 0.7),
    ("01-winch-spindle.yaml", "Tarn CNC 1", "inch", "en", "feed:3:1.3", "E8", 1.3),
    ("01-winch-spindle.yaml", "Tarn CNC 1", "metric", "de", "rate:1.17", "machine_rate", 1.17),
    ("01-winch-spindle.yaml", "Tarn CNC 1", "metric", "en", "margin:0.22", "margin_share", "0.22"),
    ("01-winch-spindle.yaml", "Tarn CNC 1", "inch", "de", "quantity:1:73", "qty:1", "73"),
    ("02-bush-blank.yaml", "Tarn bar lathe", "metric", "en", "speed:1:1.25", "D6", 1.25),
    ("03-pivot-pin-inch.yaml", "Tarn geared lathe", "inch", "en", "feed:1:0.8", "E6", 0.8),
    ("04-two-cuts.yaml", "Tarn geared lathe", "metric", "en", "rate:0.9", "machine_rate", 0.9),
    ("05-hoist-spindle.yaml", "Tarn CNC 1", "metric", "en", "feed:4:0.9", "E9", 0.9),
    ("06-guide-bush.yaml", "Tarn bar lathe", "inch", "en", "speed:2:1.2", "D7", 1.2),
    ("09-clevis-pin.yaml", "Tarn CNC 1", "metric", "en", "quantity:1:100", "qty:1", "100"),
    ("09-clevis-pin.yaml", "Tarn CNC 1", "metric", "en", "rate:1.4", "machine_rate", 1.4),
    ("07-cover-flange.yaml", "Tarn heavy lathe", "metric", "en", "quantity:1:9", "qty:1", "9"),
    # Two methods in one list: each price follows the steps and rates of its own.
    ("04-two-cuts.yaml", "any", "metric", "en", "none", None, None),
    ("04-two-cuts.yaml", "any", "metric", "en", "speed:1:1.2", "D6", 1.2),
    ("04-two-cuts.yaml", "any", "inch", "de", "rate:1.3", "machine_rate", 1.3),
    ("04-two-cuts.yaml", "any", "metric", "en", "quantity:0:3", "qty:0", "3"),
]


def cell_of(path, language, what):
    """(sheet, cell) of an input that a case changes."""
    steps, prices, quantity = SHEETS[language]
    if what[0].isupper():
        return steps, what
    if not what.startswith("qty:"):
        return cell_named(path, what)
    head = next(cell for (sheet, cell), value in values(path).items() if sheet == prices and value == quantity)
    return prices, f"A{int(head[1:]) + 1 + int(what[4:])}"


STEPS_BY_SIZE = """
- {name: price step, below: [10, 100], value: [0.01, 0.05, 0.50], source: invented for the test, basis: typical}
- {name: price unit, value: 100, source: invented for the test, basis: typical}
- {name: bars, value: whole, source: invented for the test, basis: typical}
"""


class Workbook(unittest.TestCase):
    def compare(self, recalculated, fresh, cells, label):
        worst = 0.0
        for cell in cells:
            a, b = recalculated.get(cell), fresh.get(cell)
            self.assertIsInstance(a, (int, float), f"{label}: {cell} is {a!r}")
            off = abs(a - b) / max(abs(b), 1e-12) if abs(b) > 1e-9 else abs(a - b)
            worst = max(worst, off)
            self.assertLess(off, 1e-9, f"{label}: {cell} {a!r} against {b!r}")
        return worst

    def test_changed_inputs_are_followed(self):
        compared = moved = 0
        worst = 0.0
        with folder() as work:
            plans = []
            steps = os.path.join(work, "steps.yaml")
            with open(SHOP_FILE, encoding="utf-8") as plain, open(steps, "w", encoding="utf-8") as out:
                out.write(plain.read() + STEPS_BY_SIZE)
            for i, (part, machine, units, language, change, what, factor) in enumerate(CASES):
                shop = steps if part.startswith("09") else SHOP_FILE
                base, fresh, edited = (os.path.join(work, f"{kind}{i}.xlsx") for kind in ("base", "fresh", "edited"))
                for target, changed in ((base, "none"), (fresh, change)):
                    subprocess.run([REWORK, sample(part), shop, machine, units, language, changed, target], check=True, timeout=60)
                # A wrong cached value proves that the recalculation happened.
                first_machine_time = (SHEETS[language][0], "I5")
                edit(base, edited, *first_machine_time, 12345.0)
                if what:
                    sheet, cell = cell_of(base, language, what)
                    value = float(factor) if isinstance(factor, str) else values(base)[(sheet, cell)] * factor
                    edit(edited, edited + ".2", sheet, cell, value)
                    os.replace(edited + ".2", edited)
                plans.append((change, base, fresh, edited, first_machine_time))
            out = os.path.join(work, "lo")
            with_libreoffice([p[3] for p in plans], out)
            for change, base, fresh, edited, first_machine_time in plans:
                cells, before, after = formulas(base), values(base), values(fresh)
                recalculated = values(os.path.join(out, os.path.basename(edited)))
                self.assertNotEqual(recalculated[first_machine_time], 12345.0)
                worst = max(worst, self.compare(recalculated, after, cells, f"LibreOffice {change}"))
                second = edited + ".gnumeric.xlsx"
                with_gnumeric(edited, second)
                worst = max(worst, self.compare(values(second), after, cells, f"gnumeric {change}"))
                compared += 2 * len(cells)
                changed = sum(1 for c in cells if abs(before[c] - after[c]) > 1e-12)
                moved += changed
                if change != "none":
                    self.assertGreater(changed, 5, f"{change} moved nothing")
        print(f"\n{compared} recalculated cells equal, {moved} of them moved, worst {worst:.1e}")

    def test_random_expressions_print_right(self):
        terms = cells = 0
        with folder() as work:
            paths = []
            # More seeds for a longer run: PRINTER_SEEDS=1,2,…
            for seed in os.environ.get("PRINTER_SEEDS", "1,2,3").split(","):
                path = os.path.join(work, f"fuzz{seed}.xlsx")
                done = subprocess.run([FUZZ, seed, "6000", path], check=True, capture_output=True, text=True, timeout=120)
                terms += int(done.stdout.split()[0])
                paths.append(path)
            out = os.path.join(work, "lo")
            with_libreoffice(paths, out)
            for path in paths:
                printed, engine = formulas(path), values(path)
                for name, found in (("LibreOffice", values(os.path.join(out, os.path.basename(path)))),):
                    for cell, text in printed.items():
                        a, b = found.get(cell), engine[cell]
                        self.assertIsInstance(a, (int, float), f"{name} {cell} {text}: {a!r}")
                        self.assertLess(abs(a - b), 1e-9 * max(abs(b), 1e-9), f"{name} {cell} {text}: {a!r} against {b!r}")
                        cells += 1
                second = path + ".gnumeric.xlsx"
                with_gnumeric(path, second)
                found = values(second)
                for cell, text in printed.items():
                    self.assertLess(abs(found[cell] - engine[cell]), 1e-9 * max(abs(engine[cell]), 1e-9), f"gnumeric {cell} {text}")
        print(f"\n{terms} terms in {cells} formulas equal in two programs")

    def test_the_first_sheet_adds_up_where_an_order_is_below_the_minimum(self):
        part = ("part: {number: X, name: pin}\nmaterial: C45\nstock: {round: 30, condition: drawn}\n"
                "quantities: [1, 400]\noutside: [20 x30, 25 x20]\n")
        for rebate in (0, 0.03):
            with folder() as work:
                shop, book = os.path.join(work, "shop"), os.path.join(work, "x.xlsx")
                os.mkdir(shop)
                with open(SHOP_FILE, encoding="utf-8") as old, open(os.path.join(shop, "shop.yaml"), "w", encoding="utf-8") as new:
                    new.write(old.read().replace("policy:\n", f"policy:\n- {{name: rebate, value: {rebate}, source: invented, basis: typical}}\n"))
                self.assertEqual(run("quote", "-", "--shop", shop, "--output", book, stdin=part)[0], 0)
                again = os.path.join(work, "again")
                with_libreoffice([book], again)
                sheet = openpyxl.load_workbook(os.path.join(again, "x.xlsx"), data_only=True).worksheets[0]
                rows = {row[0].value: [cell.value for cell in row[1:3]] for row in sheet.iter_rows() if row[0].value}
            off = rows.get("Rebate", [0, 0])
            surcharge = rows["Minimum order surcharge"]
            self.assertEqual(surcharge[1], 0)
            for i in range(2):
                self.assertAlmostEqual(rows["Cost"][i] + rows["Margin"][i], rows["Total price"][i] + off[i] + surcharge[i], places=6)
                self.assertAlmostEqual(off[i], -round(rows["Total price"][i] * rebate, 2), delta=0.0051)
            # The minimum of the shop, 90.00, is what is left after the rebate.
            self.assertAlmostEqual(rows["Total price"][0] + off[0] + surcharge[0], 90, places=6)

    def test_inch_and_metric_workbooks_price_the_same(self):
        with folder() as work:
            found = []
            for units in ("metric", "inch"):
                path = os.path.join(work, units + ".xlsx")
                status, _, err = run("quote", sample("01-winch-spindle.yaml"), "--shop", SHOP, "--units", units, "--output", path)
                self.assertEqual(status, 0, err)
                found.append({c: v for c, v in values(path).items() if c[0] == "Prices" and c[1][0] in "DEFGHIJKLMNO" and isinstance(v, float)})
            self.assertEqual(found[0], found[1])


if __name__ == "__main__":
    unittest.main()
