"""A list of parts: all that can be priced is, the rest comes back to be corrected."""
import csv
import io
import os
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import SHOP, folder, run, run_json, sample, text_of  # noqa: E402

LIST = sample("08-list.csv")
BAD = {"FV-406", "FV-414", "FV-422"}


def table(text):
    return list(csv.DictReader(io.StringIO(text)))


class Lists(unittest.TestCase):
    def quote(self, text, work, name="list.csv", *more):
        path, out = os.path.join(work, name), os.path.join(work, "priced.csv")
        with open(path, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        status, _, err = run("quote", path, "--shop", SHOP, "--output", out, *more)
        return status, err, out

    def test_three_bad_rows_of_two_hundred_come_back_and_are_priced_when_corrected(self):
        head, *rows = text_of(LIST).splitlines()
        good = [r for r in rows if r.split(",")[0] not in BAD]
        bad = [r for r in rows if r.split(",")[0] in BAD]
        many = [good[i % len(good)].replace("FV-", f"L{i}-") for i in range(197)]
        many[10:10], many[100:100], many[190:190] = bad[:1], bad[1:2], bad[2:]
        with folder() as work:
            status, err, out = self.quote("\n".join([head, *many]) + "\n", work)
            self.assertEqual(status, 1, err)
            self.assertIn("197 priced, 3 refused", err)
            priced = table(text_of(out))
            order = list(dict.fromkeys(r["number"] for r in priced))
            self.assertEqual(order, [r.split(",")[0] for r in many if r not in bad])
            again = os.path.join(work, "priced.again.csv")
            rest = table(text_of(again))
            self.assertEqual([r["number"] for r in rest], [r.split(",")[0] for r in bad])
            self.assertTrue(all(r["problem"] for r in rest))
            for place in ("list.csv:12:", "list.csv:102:", "list.csv:192:"):
                self.assertIn(place, err)
            text = text_of(again)
            for wrong, right in (("C54", "C45"), ("hh7 X", "h7 x"), ("50 some", "50")):
                self.assertIn(wrong, text)
                text = text.replace(wrong, right)
            status, err, out = self.quote(text, work, "second.csv")
            self.assertEqual(status, 0, err)
            self.assertIn("3 priced, 0 refused", err)

    def test_lines_add_up_and_prices_never_rise(self):
        _, out, _ = run("quote", LIST, "--shop", SHOP)
        last = {}
        rows = table(out)
        self.assertGreater(len(rows), 60)
        for r in rows:
            cents = lambda key: round(float(r[key]) * 100)  # noqa: B023, E731
            self.assertEqual(cents("price each") * int(r["good pieces"]), cents("total"))
            self.assertLessEqual(cents("cost each P10"), cents("cost each P90"))
            self.assertLessEqual(cents("price each"), last.get(r["number"], 10**9))
            last[r["number"]] = cents("price each")

    def test_a_row_is_priced_as_its_part_file(self):
        part = text_of(sample("01-winch-spindle.yaml"))
        want = run_json("quote", "-", "--shop", SHOP, stdin=part)["prices"]
        outside = " | ".join(line.strip()[2:] for line in part.split("outside:\n")[1].split("\ncentres")[0].splitlines() if line.strip().startswith("- "))
        line = io.StringIO()
        csv.writer(line).writerow(["WF-310", "new", "42CrMo4 +QT", "round 55, hot rolled", "10;50;250", "ISO 2768-mK", "3.2", "0.3", outside, "keyway 10 P9 x36 on 35 h6, 6 min"])
        with folder() as work:
            status, err, out = self.quote("number,order,material,stock,quantities,general,Ra,edges,outside,other work\n" + line.getvalue(), work)
            self.assertEqual(status, 0, err)
            found = table(text_of(out))
        without = run_json("quote", "-", "--shop", SHOP, stdin=part.replace("centres: {both ends: B, keep: yes}\n", ""))["prices"]
        self.assertEqual([r["price each"] for r in found], [p["each"] for p in without])
        self.assertEqual(len(want), len(found))

    def test_the_same_bytes_with_one_job_and_many_and_in_two_halves(self):
        one = run("quote", LIST, "--shop", SHOP, "--jobs", "1")[1]
        self.assertEqual(one, run("quote", LIST, "--shop", SHOP, "--jobs", "7")[1])
        head, *rows = text_of(LIST).splitlines()
        with folder() as work:
            halves = []
            for name, part in (("a.csv", rows[:13]), ("b.csv", rows[13:])):
                self.quote("\n".join([head, *part]) + "\n", work, name)
                halves.append(text_of(os.path.join(work, "priced.csv")))
            self.assertEqual(one, halves[0] + halves[1].split("\n", 1)[1])

    def test_a_text_that_looks_like_a_formula_is_inert_and_unchanged(self):
        with folder() as work:
            text = 'number,material,outside,notes\nA,C45,30 x20,"=1+1,""a"""\nB,C54,30 x20,@x\n'
            _, _, out = self.quote(text, work)
            written = text_of(out)
            self.assertIn("'=1+1", written)
            again = text_of(os.path.join(work, "priced.again.csv"))
            self.assertIn("'@x", again)
            self.quote(again.replace("C54", "C45"), work, "again.csv")
            self.assertIn(",'@x\n", text_of(out))

    def test_wrong_lists(self):
        head = "number,material,outside\n"
        for text, words in (("", "no rows"), ("number,materiel,outside\nA,C45,30 x20\n", "did you mean 'material'"),
                            ("number,material\nA,C45\n", "lacks the column 'outside'"), ("number,,material,outside\n", "cells merged?"),
                            ("number,number,material,outside\n", "there twice"), (head + "A,C54,30 x20\n", "0 priced, 1 refused"),
                            (head + "A,C45,30 x20,more\n", "beyond the last column"), ("number,bore,bore from right,material,outside\n", "there twice")):
            with folder() as work:
                status, err, out = self.quote(text, work)
                self.assertEqual(status, 2, text)
                self.assertIn(words, err)
                self.assertEqual(os.listdir(work), ["list.csv"])
        self.assertIn("a list saved as CSV", run("quote", "list.xlsx", "--shop", SHOP)[2])
        self.assertIn("expected a name ending in .csv", run("quote", LIST, "--shop", SHOP, "--output", "x.json")[2])
        self.assertEqual(run("quote", LIST, "--shop", SHOP, "--jobs", "0")[0], 2)
        self.assertEqual(run("quote", "/no/such.csv", "--shop", SHOP)[0], 3)


if __name__ == "__main__":
    unittest.main()
