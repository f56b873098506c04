"""Where what is written goes: names of files, standard output, links, folders; lists of orders in more than one sheet."""
import csv
import os
import re
import sys
import time
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
import openpyxl  # noqa: E402
from program import SHOP, folder, run, text_of  # noqa: E402
from small_week_test import PART, SMALL  # noqa: E402

PIN = "part: {{number: {}}}\nmaterial: C45\nquantities: [10]\noutside: [30 x40, 40 x20]\n"


def written(work, name, text):
    path = os.path.join(work, name)
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


class Names(unittest.TestCase):
    def test_a_part_number_is_made_a_name_that_every_disk_takes(self):
        # Names of devices stay free, what a folder or a shell reads otherwise becomes _, long ones are cut.
        numbers = {'"COM1"': "COM1_", '"lpt9"': "lpt9_", '"nul"': "nul_", '"com1a"': "com1a", '"a/b:c d"': "a_b_c_d", '"../x"': "___x",
                   '"' + "7" * 300 + '"': "7" * 120, '"Ä-1_"': "__-1_"}
        with folder() as work:
            parts = [written(work, f"{i}.yaml", PIN.format(number)) for i, number in enumerate(numbers)]
            out = os.path.join(work, "out")
            os.mkdir(out)
            status, _, err = run("quote", *parts, "--shop", SHOP, "--output", out)
            self.assertEqual(status, 0, err)
            self.assertEqual(sorted(os.listdir(out)), sorted(name + ".xlsx" for name in numbers.values()))

    def test_a_dash_is_standard_output(self):
        with folder() as work:
            part = written(work, "p.yaml", PIN.format("P-1"))
            self.assertEqual(run("quote", part, "--shop", SHOP, "--output", "-", cwd=work), run("quote", part, "--shop", SHOP, cwd=work))
            self.assertEqual(os.listdir(work), ["p.yaml"])

    def test_a_link_stays_and_what_it_stands_for_is_replaced(self):
        with folder() as work:
            part = written(work, "p.yaml", PIN.format("P-1"))
            written(work, "real.txt", "old\n")
            os.symlink("real.txt", os.path.join(work, "one.txt"))
            os.symlink(os.path.join(work, "one.txt"), os.path.join(work, "two.txt"))
            self.assertEqual(run("quote", part, "--shop", SHOP, "--output", os.path.join(work, "two.txt"))[0], 0)
            self.assertTrue(os.path.islink(os.path.join(work, "two.txt")) and os.path.islink(os.path.join(work, "one.txt")))
            self.assertTrue(text_of(os.path.join(work, "real.txt")).startswith("P-1"))
            # One that leads round to itself stands for nothing.
            os.symlink("round.txt", os.path.join(work, "round.txt"))
            self.assertEqual(run("quote", part, "--shop", SHOP, "--output", os.path.join(work, "round.txt"))[0], 0)
            self.assertTrue(text_of(os.path.join(work, "round.txt")).startswith("P-1"))

    def test_what_a_killed_run_left_is_swept_a_day_later_and_nothing_else(self):
        with folder() as work:
            part = written(work, "p.yaml", PIN.format("P-1"))
            for name in (".turnwright-1234.part", ".turnwright-5678.part", ".turnwright-1234.txt", "mine.part"):
                written(work, name, "left\n")
            os.mkdir(os.path.join(work, ".turnwright-9.part"))
            old = time.time() - 2 * 24 * 3600
            for name in (".turnwright-1234.part", ".turnwright-1234.txt", "mine.part", ".turnwright-9.part"):
                os.utime(os.path.join(work, name), (old, old))
            self.assertEqual(run("quote", part, "--shop", SHOP, "--output", os.path.join(work, "p.txt"))[0], 0)
            self.assertEqual(sorted(os.listdir(work)), sorted([".turnwright-1234.txt", ".turnwright-5678.part", ".turnwright-9.part", "mine.part", "p.txt", "p.yaml"]))


class OrderLists(unittest.TestCase):
    def week(self, work, orders):
        written(work, "p.yaml", PART)
        return written(work, "w.yaml", re.sub("orders: .*", "orders: " + orders, SMALL))

    def test_rows_above_the_head_other_sheets_and_formulas_are_said(self):
        with folder() as work:
            book = openpyxl.Workbook()
            for row in (["Orders of the week"], [], ["order", "part", "quantity", "due"], ["8", "P-1", "=2+3", "2026-12-10"], ["9", "p.yaml", 4, "2026-12-10"]):
                book.active.append(row)
            book.create_sheet("Notes")["A1"] = "nothing"
            book.save(os.path.join(work, "orders.xlsx"))
            path = self.week(work, "orders.xlsx")
            status, _, err = run("load", path, "--shop", SHOP)
            self.assertEqual(status, 1, err)
            for said in ("Notes", "1 row above", "formula"):
                self.assertIn(said, err)

    def test_two_lists_have_what_was_refused_in_two_files(self):
        with folder() as work:
            written(work, "a.csv", "order,part,quantity,due\n8,P-1,five,2026-12-10\n9,P-1,5,2026-12-10\n")
            written(work, "b.csv", "order,part,quantity,due\n10,gone,5,2026-12-10\n")
            path, to = self.week(work, "[a.csv, b.csv]"), os.path.join(work, "plan.csv")
            status, _, err = run("load", path, "--shop", SHOP, "--output", to)
            self.assertEqual(status, 1, err)
            refused = {}
            for name in ("a", "b"):
                with open(os.path.join(work, f"plan.{name}.again.csv"), encoding="utf-8") as file:
                    refused[name] = [row[0] for row in csv.reader(file)]
            self.assertEqual(refused, {"a": ["order", "8"], "b": ["order", "10"]})

    def test_a_list_that_is_none_is_refused_with_its_place(self):
        with folder() as work:
            for text, said in (("", "no rows"), ("one,two,three\n1,2,3\n", "lacks the column 'order'"), ("order,part,due\n8,P-1,2026-12-10\n", "quantity"),
                               ("order,part,quantity,due,Order\n8,P-1,5,2026-12-10,9\n", "order")):
                written(work, "orders.csv", text)
                path = self.week(work, "orders.csv")
                status, out, err = run("load", path, "--shop", SHOP)
                self.assertEqual((status, out), (2, ""), text + err)
                self.assertIn("orders.csv", err)
                self.assertIn(said, err)
            os.remove(os.path.join(work, "orders.csv"))
            os.mkdir(os.path.join(work, "orders.csv"))
            status, out, err = run("load", path, "--shop", SHOP)
            self.assertEqual((status, out), (2, ""))
            self.assertIn("w.yaml:5:", err)


if __name__ == "__main__":
    unittest.main()
