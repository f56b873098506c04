"""A list of parts: all that can be priced is, the rest comes back to be corrected."""
import csv
import datetime
import io
import os
import re
import sys
import unittest
import zipfile

import openpyxl

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
            self.assertEqual(cents("price each") * int(r["qty"]), cents("total"))
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

    def test_what_the_drawing_was_read_as_stands_beside_the_price(self):
        with folder() as work:
            status, err, out = self.quote('number,material,quantities,outside [inch],Ra\nA,C45,50,1 x2.5,3.2\nB,C45,50,1 x2.5,125\n', work)
            self.assertEqual(status, 0, err)
            said = {r["number"]: r["not confirmed"] for r in table(text_of(out))}
            self.assertIn("Ra 3.2 is read in µin", said["A"])
            self.assertNotIn("Ra", said["B"])

    def test_wrong_lists(self):
        head = "number,material,outside\n"
        for text, words in (("", "no rows"), ("number,materiel,outside\nA,C45,30 x20\n", "did you mean 'material'"),
                            ("number,material\nA,C45\n", "lacks the column 'outside'"), ("number,,material,outside\n", "columns not read: B"),
                            ("number,number,material,outside\n", "there twice"), (head + "A,C54,30 x20\n", "0 priced, 1 refused"), (head, "no part below the headings of line 1"),
                            (head + "A,C45,30 x20,more\n", "beyond the last column"), ("number,bore,bore from right,material,outside\n", "there twice")):
            with folder() as work:
                status, err, out = self.quote(text, work)
                self.assertEqual(status, 2, text)
                self.assertIn(words, err)
                self.assertEqual(os.listdir(work), ["list.csv"])
        self.assertIn("expected one of the endings .csv and .xlsx", run("quote", LIST, "--shop", SHOP, "--output", "x.json")[2])
        self.assertEqual(run("quote", LIST, "--shop", SHOP, "--jobs", "0")[0], 2)
        for path in ("/no/such.csv", "/no/such.xlsx"):
            self.assertEqual(run("quote", path, "--shop", SHOP)[0], 3)
        self.assertIn("is a list of parts: 'route' does not take it", run("route", LIST, "--shop", SHOP)[2])
        self.assertIn("expected a folder", run("quote", LIST, "--shop", SHOP, "--workbooks", "/no/such")[2])


class Workbooks(unittest.TestCase):
    """Lists as workbooks, in and out."""

    def book(self, work, rows, name="list.xlsx", change=lambda sheet: None):
        book = openpyxl.Workbook()
        for row in rows:
            book.active.append(row)
        for cell in (c for row in book.active.iter_rows() for c in row):
            if cell.data_type == "f":
                cell.data_type = "s"  # a text that looks like a formula
        change(book.active)
        path = os.path.join(work, name)
        book.save(path)
        return path

    def test_a_workbook_is_priced_as_the_same_table_of_text(self):
        def typed(cell):
            return float(cell) if re.fullmatch(r"[0-9.]+", cell) else cell
        with folder() as work:
            path = self.book(work, [[typed(c) for c in row] for row in csv.reader(io.StringIO(text_of(LIST)))])
            a, b = run("quote", LIST, "--shop", SHOP), run("quote", path, "--shop", SHOP)
            self.assertEqual(a[:2], b[:2])
            self.assertIn("list.xlsx, cell D8: unknown material 'C54'", b[2])
            self.assertIn("list.xlsx, cell F24: found 'some'", b[2])

    def test_the_priced_workbook_holds_what_the_priced_text_holds(self):
        with folder() as work:
            for jobs in ("1", "5"):
                out = os.path.join(work, jobs + ".xlsx")
                self.assertEqual(run("quote", LIST, "--shop", SHOP, "--output", out, "--jobs", jobs)[0], 1)
            with open(os.path.join(work, "1.xlsx"), "rb") as one, open(os.path.join(work, "5.xlsx"), "rb") as five:
                self.assertEqual(one.read(), five.read())
            wanted = list(csv.reader(io.StringIO(run("quote", LIST, "--shop", SHOP)[1])))
            found = [[c.value for c in row] for row in openpyxl.load_workbook(out).active.iter_rows()]
            self.assertEqual(len(wanted), len(found))
            # The headings of the text are names for programs, those of the workbook words for people.
            words = {"price unit": "price per, pieces", "total": "total price", "minimum surcharge": "minimum order surcharge",
                     "margin share": "margin, share", "cost each P10": "cost each, 10 % confidence", "cost each P50": "cost each, 50 % confidence",
                     "cost each P90": "cost each, 90 % confidence", "cycle time min": "cycle time, min", "operator time min": "operator time, min",
                     "setup min": "setup, min"}
            self.assertEqual([(w := words.get(name, name))[0].upper() + w[1:] for name in wanted[0]], found[0])
            for a, b in zip(wanted[1:], found[1:]):
                for x, y in zip(a, b):
                    if isinstance(y, (int, float)):
                        self.assertAlmostEqual(float(x), y, delta=0.5000001 * 10.0 ** -len(x.partition(".")[2]))
                    else:
                        self.assertEqual(x.removeprefix("'") if x.startswith("'=") else x, y or "")
            self.assertTrue(os.path.exists(os.path.join(work, "5.again.csv")))

    def test_texts_stay_texts_and_formulas_are_not_worked_out(self):
        with folder() as work:
            rows = [["number", "material", "outside", "notes"], ["A", "C45", "30 x20", '=1+1,"a"'], ["B", "C45", "30 x20", "@SUM(1)"]]
            path, out = os.path.join(work, "list.csv"), os.path.join(work, "out.xlsx")
            with open(path, "w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows(rows)
            self.assertEqual(run("quote", path, "--shop", SHOP, "--output", out)[0], 0)
            cells = list(openpyxl.load_workbook(out).active.iter_rows(min_row=2))
            self.assertEqual([(r[-1].value, r[-1].data_type) for r in cells], [('=1+1,"a"', "s"), ("@SUM(1)", "s")])
            # A formula in the list: its saved value is read, and that is said; without one it is a problem.
            plain = self.book(work, [["number", "material", "outside", "quantities"], ["A", "C45", "30 x20", 40], ["B", "C45", "30 x20", 50]])
            saved = os.path.join(work, "saved.xlsx")
            with zipfile.ZipFile(plain) as old, zipfile.ZipFile(saved, "w") as new:
                for info in old.infolist():
                    data = old.read(info)
                    if info.filename == "xl/worksheets/sheet1.xml":
                        data = data.replace(b'<v>40</v>', b'<f>20*2</f><v>40</v>').replace(b'<v>50</v>', b'<f>WEBSERVICE("http://x")</f>')
                    new.writestr(info, data)
            status, out, err = run("quote", saved, "--shop", SHOP)
            self.assertEqual(status, 1, err)
            self.assertIn(",40,", out)
            self.assertIn("1 cell holds a formula; it is not worked out", err)
            self.assertIn("cell D3: a formula without a saved value", err)

    def test_number_cells_have_no_decimal_mark_and_days_are_refused(self):
        def change(sheet):
            for cell in ("C4", "E5"):
                sheet[cell] = datetime.date(2026, 10, 5)  # what a spreadsheet makes of "5/10"
        rows = [["number", "material", "quantities", "outside", "Ra"], ["A", "C45", 50, "16 h9 x30,5", 3.2], ["B", "C45", "1.000", "16 h9 x30", 1.6],
                ["C", "C45", None, "16 h9 x30", 1.6], ["D", "C45", 50, "16 h9 x30", None], ["E", "C45", None, "16 h9 x30,5", 0.8], ["F", "C45", 50, "16 h9 x1.000", 1.6]]
        with folder() as work:
            path, out = self.book(work, rows, change=change), os.path.join(work, "out.csv")
            status, _, err = run("quote", path, "--shop", SHOP, "--output", out)
            self.assertEqual(status, 1, err)
            self.assertIn("3,2 is read as 3.2, and 1.000 pieces as 1000", err)
            self.assertEqual([(r["number"], r["qty"]) for r in table(text_of(out))], [("A", "50"), ("B", "1000")])
            for said in ("cell C4: a date: 2026-10-05", "cell E5: a date: 2026-10-05", "cell C6: no quantity in this row", "cell D7: '16 h9 x1.000' may be thousands"):
                self.assertIn(said, err)
            # What comes back is text throughout, in the list's own marks: corrected, it is read again.
            again = text_of(os.path.join(work, "out.again.csv"))
            self.assertIn('E,C45,,"16 h9 x30,5","0,8",', again)
            again = again.replace("E,C45,,", "E,C45,1.000,").replace("C,C45,2026-10-05,", "C,C45,5 / 10,").replace('2026-10-05,"a', '"3,2","a').replace("x1.000", "x10")
            path = os.path.join(work, "again.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write(again)
            status, out, err = run("quote", path, "--shop", SHOP)
            self.assertEqual(status, 0, err)
            self.assertEqual([(r["number"], r["qty"]) for r in table(out)], [("C", "5"), ("C", "10"), ("D", "50"), ("E", "1000"), ("F", "50")])

    def test_wrong_workbooks(self):
        head, row = ["number", "material", "outside", "notes"], ["A", "C45", "30 x20", ""]
        with folder() as work:
            merged = self.book(work, [head, row], change=lambda s: s.merge_cells("C1:D1"))
            status, _, err = run("quote", merged, "--shop", SHOP)
            self.assertEqual(status, 2)
            self.assertIn("cell C1: merged cells C1:D1 in the head", err)
            error = self.book(work, [head, ["A", "C45", "#REF!", ""]])
            self.assertIn("cell C2: the error #REF!", run("quote", error, "--shop", SHOP)[2])
            wide = self.book(work, [head, row, row + ["x"] * 300])
            self.assertIn("more than 256 columns", run("quote", wide, "--shop", SHOP)[2])
            for name, data in (("text.xlsx", b"number,material\n"), ("empty.xlsx", b""), ("cut.xlsx", open(merged, "rb").read()[:900])):
                path = os.path.join(work, name)
                with open(path, "wb") as file:
                    file.write(data)
                status, _, err = run("quote", path, "--shop", SHOP)
                self.assertEqual(status, 2, name)
                self.assertIn("no workbook that can be read", err)

    def test_an_archive_that_unpacks_to_two_gigabytes_is_refused(self):
        with folder() as work:
            plain, bomb = self.book(work, [["number", "material", "outside"], ["A", "C45", "30 x20"]]), os.path.join(work, "bomb.xlsx")
            with zipfile.ZipFile(plain) as old, zipfile.ZipFile(bomb, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as new:
                for info in old.infolist():
                    if info.filename != "xl/worksheets/sheet1.xml":
                        new.writestr(info, old.read(info))
                with new.open("xl/worksheets/sheet1.xml", "w", force_zip64=True) as member:
                    for _ in range(2048):
                        member.write(b" " * (1 << 20))
            self.assertLess(os.path.getsize(bomb), 20 << 20)
            status, out, err = run("quote", bomb, "--shop", SHOP)
            self.assertEqual((status, out), (2, ""))
            self.assertIn("'xl/worksheets/sheet1.xml' unpacks to more than can be read here", err)

    def test_a_workbook_a_part_on_request(self):
        with folder() as work:
            path = os.path.join(work, "list.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write("number,material,outside\nA/1,C45,30 x20\nA/1,C45,30 x25\nB,C54,30 x20\n")
            books = os.path.join(work, "books")
            os.mkdir(books)
            self.assertEqual(run("quote", path, "--shop", SHOP, "--workbooks", books)[0], 1)
            self.assertEqual(sorted(os.listdir(books)), ["A_1-2.xlsx", "A_1.xlsx"])
            self.assertIn("Quote", openpyxl.load_workbook(os.path.join(books, "A_1.xlsx")).sheetnames)


class Families(unittest.TestCase):
    FAMILY = sample("11-bush-family.yaml")

    def quote(self, work, rows, family=None):
        with open(os.path.join(work, "bush.yaml"), "w", encoding="utf-8") as file:
            file.write(family or text_of(self.FAMILY))
        path = os.path.join(work, "list.csv")
        with open(path, "w", encoding="utf-8") as file:
            file.write(rows)
        return run("quote", path, "--shop", SHOP)

    def test_a_row_of_a_family_is_priced_as_the_part_with_its_sizes_written_out(self):
        part = text_of(self.FAMILY)
        for name, value in (("bar", "32"), ("d1", "22"), ("d2", "28"), ("l1", "24"), ("l2", "3"), ("d", "16")):
            part = part.replace(f"<{name}>", value)
        part = part.replace("part: {name", "part: {number: FB-16, name")
        want = [p["each"] for p in run_json("quote", "-", "--shop", SHOP, stdin=part)["prices"]]
        status, out, err = run("quote", sample("11-family.csv"), "--shop", SHOP)
        self.assertEqual(status, 0, err)
        self.assertEqual([r["price each"] for r in table(out) if r["number"] == "FB-16"], want)
        # A row may say otherwise.
        self.assertEqual([r["qty"] for r in table(out) if r["number"] == "FB-20"], ["10"])
        self.assertEqual({r["name"] for r in table(out)}, {"flanged bush"})

    def test_wrong_families_and_sizes(self):
        head, good = "number,family,bar,d,d1,d2,l1,l2,more\n", "A,bush.yaml,32,16,22,28,24,3,\n"
        with folder() as work:
            for rows, words in ((head + good + "B,bush.yaml,32,16,22,,24,3,\n", "list.csv:3:3: the size 'd2' of the family has no value"),
                                (head + good + "B,bush.yaml,32,16,22,28,24,3,9\n", "list.csv:3:30: the family has no size 'more'; expected one of bar, d1"),
                                (head + good + "B,buhs.yaml,32,16,22,28,24,3,\n", "list.csv:3:3: there is no family file 'buhs.yaml'"),
                                (head + good + "B,,32,16,22,28,24,3,\n", "list.csv:3:4: the size 'bar' of a row without a family"),
                                (head + good + "B,bush.yaml,32,16,22,28,x,3,\n", "list.csv:3:3: no length after 'xx' (of the family 'bush.yaml' with these sizes)")):
                status, out, err = self.quote(work, rows)
                self.assertEqual(status, 1, rows)
                self.assertIn(words, err)
                self.assertTrue(table(out))
            status, _, err = self.quote(work, head + good, "part: {name: x}\nmaterial: [a\n")
            self.assertEqual(status, 2)
            self.assertIn("bush.yaml:", err)
            status, _, err = self.quote(work, "number,family,a b\nA,bush.yaml,1\n")
            self.assertIn("unknown column 'a b'", err)


if __name__ == "__main__":
    unittest.main()
