"""Inputs made to harm: bombs, endless files, control characters, links, pipes, and who they belong to."""
import os
import resource
import shutil
import stat
import subprocess
import sys
import time
import unittest
import zipfile

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import PROGRAM, SANITIZED, SHOP, folder, run, sample, text_of  # noqa: E402

PIN = ("part: {number: X, name: pin}\nmaterial: C45\nstock: {round: 30, condition: drawn}\nquantities: [10]\n"
       "outside: [20 x30, 25 x20]\n")
HEAD = "number,material,outside,stock\n"
ROW = "X,C45,20 x30,\"round 25, drawn\"\n"
SLOW = 10 if SANITIZED else 1


def write(path, text):
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def cpu(*words, **more):
    """What a run takes of the processor and of memory (MB), with its answer."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    answer = run(*words, **more)
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before, answer


class Bounds(unittest.TestCase):
    def refused(self, name, text, *words, seconds=3, kilobytes=200):
        with folder() as work:
            path = write(os.path.join(work, name), text)
            took, (status, out, err) = cpu(*(words or ("quote", path, "--shop", SHOP)), cwd=work)
            self.assertEqual(status, 2, err[:500])
            self.assertLess(took, seconds * SLOW)
            self.assertLess(len(err), kilobytes * 1000)
            return err

    def test_a_hundred_thousand_keys(self):
        err = self.refused("p.yaml", "part: {number: X}\n" + "".join(f"k{i}: 1\n" for i in range(100000)))
        self.assertRegex(err.splitlines()[-1], r"^and 99,\d\d\d more problems$")

    def test_a_hundred_thousand_features_of_one_element(self):
        err = self.refused("p.yaml", PIN.replace("20 x30", "'20 x30" + ", chamfer 1x45" * 100000 + "'"))
        self.assertIn("more than 100 pieces in one text", err)

    def test_a_hundred_thousand_elements_in_one_cell(self):
        self.refused("l.csv", HEAD + "X,C45," + "20 x1|" * 100000 + ",\"round 25, drawn\"\n", "quote", "l.csv", "--shop", SHOP)

    def test_a_hundred_thousand_wrong_elements(self):
        err = self.refused("p.yaml", PIN.split("outside")[0] + "outside:\n" + "- 20 y1\n" * 100000)
        self.assertIn("more problems", err)

    def test_a_hundred_thousand_of_anything_in_a_week(self):
        week = {"shifts": "[]", "machines": "[]", "orders": "[]"}
        entries = {"orders": "{order: A%d, part: x.yaml, quantity: 1, due: 2026-12-09}", "machines": "{machine: M%d, shifts: []}",
                   "people": "{name: P%d, shifts: []}", "shifts": "{name: s%d, from: '06:00', to: '07:00'}", "holidays": "12-%02d"}
        for key, entry in entries.items():
            lists = dict(week, **{key: "\n" + "".join("- " + entry % (i % 30 + 1 if key == "holidays" else i) + "\n" for i in range(100000))})
            text = "week: {from: 2026-12-01, to: 2026-12-10}\n" + "".join(f"{k}: {v}\n" for k, v in lists.items())
            err = self.refused("w.yaml", text, "load", "w.yaml", "--shop", SHOP, seconds=8)
            self.assertRegex(err, f"more than [0-9,]+ entries of '{key}'")

    def test_a_hundred_thousand_columns(self):
        head = "number,family," + ",".join(f"d{i}" for i in range(100000))
        for first in (head, HEAD.strip() + ",\u00c4" * 300000):
            err = self.refused("l.csv", first + "\n" + ROW, "quote", "l.csv", "--shop", SHOP, kilobytes=4000)
            self.assertIn("more than 256 columns", err[:200])

    def test_a_hundred_thousand_records_of_a_shop(self):
        with folder() as work:
            for name in ("X", "X%d"):  # of one name, and of as many
                records = "".join(f"- {{name: {name % i if '%' in name else name}, group: P, like: C45, source: own, basis: typical}}\n" for i in range(100000))
                write(os.path.join(work, "m.yaml"), "materials:\n" + records)
                took, (status, _, err) = cpu("check", work)
                self.assertIn(status, (0, 2), err[:300])
                self.assertLess(took, 8 * SLOW)
            methods = "".join(f"- {{name: X, source: own, basis: typical}}\n" for _ in range(100000))
            write(os.path.join(work, "m.yaml"), "methods:\n" + methods)
            status, _, err = run("check", work)
            self.assertEqual(status, 2, err[:300])

    def test_sizes_that_nobody_turns(self):
        for work in ("ream 12 x0.000001", "bore 30 to 32 x0.0000001", "drill 0.0000001 x4", "50 to 42 x0.00001 um"):
            status, _, err = run("cut", "C45", work)
            self.assertEqual(status, 2, err)
            self.assertIn("which is no size on a lathe", err)
        with folder() as work:
            for length in ("0.000001", "0.001 um", "0.0009 um"):
                part = write(os.path.join(work, "p.yaml"), PIN + f"bore from right: [12 x{length}]\n")
                status, _, err = run("quote", part, "--shop", SHOP)
                self.assertEqual(status, 2, err)
                self.assertIn("an element without a length", err)

    def test_times_that_no_work_takes(self):
        with folder() as work:
            for line in ("bore from right: [20 H7 through, allow 2147483647 min]", "bore from right: [20 H7 through, allow -1 min]",
                         "other work: [{what: plating, each: 3 EUR, days: 1e300}]"):
                part = write(os.path.join(work, "p.yaml"), PIN.replace("round: 30", "round: 50").replace("[20 x30, 25 x20]", "[40 x30, 45 x20]") + line + "\n")
                status, _, err = run("quote", part, "--shop", SHOP)
                self.assertEqual(status, 2, line)
                self.assertIn("an absurd time or price", err)
            os.remove(part)
            write(os.path.join(work, "s.yaml"), "outside work:\n- {name: hardening, each: 3 EUR, days: 1e300, source: own, basis: typical}\n")
            status, _, err = run("check", work)
            self.assertEqual(status, 2)
            self.assertIn("s.yaml:2:40: found '1e300'; expected from 0 to 3,650", err)

    def test_a_list_of_wrong_rows_says_how_many_more(self):
        err = self.refused("l.csv", HEAD + "X,C4,20 x30,\n" * 10000, "quote", "l.csv", "--shop", SHOP, seconds=10)
        self.assertIn("and 9,800 more problems", err)

    def test_a_quote_that_is_never_closed(self):
        self.refused("l.csv", HEAD + "\"X," + "C45,20 x30,\n" * 1000000, "quote", "l.csv", "--shop", SHOP, seconds=60)

    def test_more_values_than_anybody_writes(self):
        err = self.refused("p.yaml", "part: [" + "a," * 2000000 + "]\n", seconds=10)
        self.assertIn("more than 1,000,000 values", err)

    def test_a_sentence_of_the_shop_that_would_fill_memory(self):
        with folder() as work:
            shop = shutil.copytree(SHOP, os.path.join(work, "shop"))
            own = os.path.join(shop, "templates", "words.en.yaml")
            words = ("offer", sample("10-request.yaml"), "--shop", shop)
            for place in ("{day:>1000000000}", "{day:{day}}", "{day:.5}", "{day", "day}", "{{day}"):
                write(own, f"date.day: '{place} d'\n")
                status, out, err = run(*words)
                self.assertEqual((status, out), (2, ""), place)
                self.assertRegex(err, r"words\.en\.yaml:1:11: found '.*' in a sentence; expected \{name:0>2\}", place)
            write(own, "date.day: '{{{day:_>4}}} d'\n")
            self.assertIn("{___1} d", run(*words)[1])

    def test_a_text_of_the_shop_that_is_nothing_but_braces(self):
        with folder() as work:
            shop = shutil.copytree(SHOP, os.path.join(work, "shop"))
            write(os.path.join(shop, "templates", "terms.en.txt"), "{" * 2000000)
            took, (status, _, err) = cpu("offer", sample("10-request.yaml"), "--shop", shop, "--output", os.path.join(work, "o.html"))
            self.assertEqual(status, 0, err)
            self.assertLess(took, 8 * SLOW)

    def test_standard_input_without_end(self):
        with open("/dev/zero", "rb") as zero:
            done = subprocess.run([PROGRAM, "quote", "-", "--shop", SHOP], stdin=zero, capture_output=True, timeout=60 * SLOW)
        self.assertEqual(done.returncode, 2)
        self.assertIn(b"larger than 16 MiB", done.stderr)

    def test_a_device_is_no_list(self):
        with folder() as work:
            os.symlink("/dev/zero", os.path.join(work, "l.csv"))
            status, _, err = run("quote", "l.csv", "--shop", SHOP, cwd=work)
            self.assertEqual(status, 3)
            self.assertIn("is no plain file", err)


class Bombs(unittest.TestCase):
    BOOK = {
        "xl/workbook.xml": '<workbook xmlns:r="r"><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": '<Relationships><Relationship Id="rId1" Type="t/worksheet" Target="worksheets/sheet1.xml"/>'
                                      '<Relationship Id="rId2" Type="t/sharedStrings" Target="sharedStrings.xml"/></Relationships>',
    }

    def memory_of(self, sheet, strings):
        with folder() as work:
            path = os.path.join(work, "l.xlsx")
            with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as book:
                for name, text in self.BOOK.items():
                    book.writestr(name, text)
                book.writestr("xl/sharedStrings.xml", strings)
                book.writestr("xl/worksheets/sheet1.xml", sheet)
            script = (f"import resource, subprocess; r = subprocess.run([{PROGRAM!r}, 'quote', {path!r}, '--shop', {SHOP!r}], capture_output=True);"
                      "print(r.returncode, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1000, r.stderr.decode()[:300])")
            done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=120 * SLOW)
            status, megabytes, err = done.stdout.split(" ", 2)
            self.assertEqual(int(status), 2, err)
            return int(megabytes), err

    def test_small_archives_stay_small(self):
        sheet = "<worksheet><sheetData>%s</sheetData></worksheet>"
        strings = "<sst>%s</sst>"
        for cells, texts in (("<row>" + "<c/>" * 10000000 + "</row>", "<si/>"),
                             ("<row/>", "<si/>" * 12000000),
                             ("<row/>" * 5000000, "<si><t>a</t></si>" * 3500000),
                             ("<row" + ' a=""' * 10000000 + "/>", "<si/>"),
                             ("<row><c t=\"inlineStr\"><is><t>" + "a" * 60000000 + "</t></is></c></row>", "<si><t>" + "b" * 60000000 + "</t></si>")):
            megabytes, err = self.memory_of(sheet % cells, strings % texts)
            self.assertIn("unpacks to more than can be read here", err)
            if not SANITIZED:
                self.assertLess(megabytes, 700)


class Characters(unittest.TestCase):
    # A part's name as YAML escapes write it: a cursor command, a C1 command, a right-to-left override.
    ODD = ("\\x1b[31mred", "a\\x9b31m", "\\u202egnp.exe", "\\u2066x", "a\\rb", "a\\x7fb", "\\u2028b")

    def clean(self, text):
        for line in text.split("\n"):
            for c in line:
                code = ord(c)
                self.assertFalse((code < 32 and c != "\t") or 0x7F <= code < 0xA0 or 0x2028 <= code <= 0x202E
                                 or 0x2066 <= code <= 0x2069 or 0xD800 <= code < 0xE000, ascii(line))

    def test_no_name_repaints_the_terminal(self):
        with folder() as work:
            for odd in self.ODD:
                part = write(os.path.join(work, "p.yaml"), PIN.replace("name: pin", f'name: "{odd}"'))
                status, out, err = run("quote", part, "--shop", SHOP)
                self.assertEqual(status, 2, odd)
                self.assertIn("control character", err)
                self.clean(out + err)

    def test_no_file_name_and_no_word_of_the_command_line(self):
        with folder() as work:
            for odd in (b"\x1b[31mred", b"\xc2\x9b31m", b"\xe2\x80\xaegnp", b"a\xffb", b"a\rb", b"\xed\xa0\x80"):
                path = os.path.join(work.encode(), odd + b".yaml")
                with open(path, "w", encoding="utf-8") as file:
                    file.write(PIN)
                for words in ([b"quote", path, b"--json"], [b"quote", path, b"--why"], [b"quote", path, b"--machine", odd], [odd],
                              [b"quote", b"--" + odd], [b"quote", path + odd], [b"figure", odd], [b"cut", odd, b"50 to 46"],
                              [b"quote", path, b"--language", odd], [b"quote", path, b"--jobs", odd]):
                    done = subprocess.run([PROGRAM.encode(), *words], capture_output=True, timeout=60)
                    self.assertIn(done.returncode, (0, 1, 2, 3))
                    self.clean(done.stdout.decode("utf-8") + done.stderr.decode("utf-8"))

    def test_cells_of_lists_and_of_workbooks(self):
        with folder() as work:
            rows = write(os.path.join(work, "l.csv"), HEAD + ROW.replace("X", "\u202egnp"))
            status, out, err = run("quote", rows, "--shop", SHOP)
            self.assertEqual(status, 2)
            self.clean(out + err)

    def test_a_calendar_has_no_line_of_ours_from_a_name(self):
        with folder() as work:
            write(os.path.join(work, "pin.yaml"), PIN)
            week = write(os.path.join(work, "w.yaml"),
                         "week: {from: 2026-12-01, to: 2026-12-10}\nshifts: [{name: early, from: '06:00', to: '14:00'}]\n"
                         "machines: [{machine: Tarn CNC 1, shifts: early}]\n"
                         "orders: [{order: \"A\\rBEGIN:VALARM\", part: pin.yaml, quantity: 5, due: 2026-12-09}]\n")
            status, _, err = run("load", week, "--shop", SHOP, "--output", os.path.join(work, "w.ics"))
            self.assertEqual(status, 2, err)
            self.clean(err)


class Files(unittest.TestCase):
    def test_the_mode_stays(self):
        with folder() as work:
            path = write(os.path.join(work, "q.html"), "old")
            for mode in (0o600, 0o640, 0o664):
                os.chmod(path, mode)
                self.assertEqual(run("quote", sample("02-bush-blank.yaml"), "--shop", SHOP, "--output", path)[0], 0)
                self.assertEqual(stat.S_IMODE(os.stat(path).st_mode), mode)
                self.assertNotEqual(text_of(path), "old")
            self.assertEqual(os.listdir(work), ["q.html"])

    def test_a_link_stays_one_and_its_target_is_new(self):
        with folder() as work:
            os.mkdir(os.path.join(work, "far"))
            target = write(os.path.join(work, "far", "q.html"), "old")
            link = os.path.join(work, "q.html")
            os.symlink("far/q.html", link)
            for _ in range(2):
                self.assertEqual(run("quote", sample("02-bush-blank.yaml"), "--shop", SHOP, "--output", link)[0], 0)
                self.assertTrue(os.path.islink(link))
                self.assertIn("<html", text_of(target))
                os.unlink(target)  # then it leads nowhere
            self.assertEqual(run("quote", sample("02-bush-blank.yaml"), "--shop", SHOP, "--output", link)[0], 0)
            self.assertTrue(os.path.islink(link) and os.path.exists(target))

    def test_pipes_are_no_outputs_and_no_inputs_unless_somebody_writes(self):
        with folder() as work:
            for name in ("q.html", "p.yaml", "l.csv", "l.xlsx"):
                os.mkfifo(os.path.join(work, name))
            for words in (("quote", sample("02-bush-blank.yaml"), "--output", "q.html"), ("quote", "p.yaml"), ("quote", "l.csv")):
                status, _, err = run(*words, "--shop", SHOP, cwd=work)
                self.assertEqual(status, 3, err)
                self.assertEqual(err.count("\n"), 1)
            self.assertTrue(stat.S_ISFIFO(os.stat(os.path.join(work, "q.html")).st_mode))
            done = subprocess.run(["bash", "-c", f"'{PROGRAM}' quote <(sleep 3; cat '{sample('02-bush-blank.yaml')}') --shop '{SHOP}'"],
                                  capture_output=True, timeout=60)
            self.assertEqual(done.returncode, 0, done.stderr)

    def test_what_killed_runs_left_is_swept_a_day_later(self):
        with folder() as work:
            old = write(os.path.join(work, ".turnwright-1234.part"), "x")
            new = write(os.path.join(work, ".turnwright-5678.part"), "x")
            other = write(os.path.join(work, "mine.part"), "x")
            for path in (old, other):
                os.utime(path, (time.time() - 90000,) * 2)
            self.assertEqual(run("quote", sample("02-bush-blank.yaml"), "--shop", SHOP, "--output", os.path.join(work, "q.html"))[0], 0)
            self.assertEqual([os.path.exists(p) for p in (old, new, other)], [False, True, True])

    def test_a_list_is_never_its_own_workbook(self):
        with folder() as work:
            write(os.path.join(work, "l.csv"), HEAD + ROW)
            self.assertEqual(run("quote", "l.csv", "--shop", SHOP, "--output", "X.xlsx", "--workbooks", ".", cwd=work)[0], 0)
            self.assertEqual(sorted(os.listdir(work)), ["X-2.xlsx", "X.xlsx", "l.csv"])

    def test_corrections_replace_no_other_file_of_the_shop(self):
        with folder() as work:
            shop = os.path.join(work, "shop")
            os.mkdir(shop)
            for name in os.listdir(SHOP):
                if name.endswith(".yaml"):
                    write(os.path.join(shop, name), text_of(os.path.join(SHOP, name)))
            extra = write(os.path.join(shop, "policy.yaml"), "policy:\n- {name: language, value: en, source: own, basis: own records}\n")
            words = ("actuals", sample("12-week.yaml"), sample("12-booked.csv"), "--shop", shop, "--output")
            status, _, err = run(*words, extra)
            self.assertEqual(status, 2, err)
            self.assertIn("nothing is overwritten", err)
            corrections = os.path.join(shop, "corrections.yaml")
            self.assertIn(run(*words, corrections)[0], (0, 1))
            self.assertIn(run(*words, corrections)[0], (0, 1))  # the former proposal may be

    def test_nothing_to_correct_spoils_no_shop(self):
        with folder() as work:
            booked = text_of(sample("12-booked.csv")).splitlines()
            out = os.path.join(work, "c.yaml")
            with open(os.path.join(work, "b.csv"), "w", encoding="utf-8") as file:
                # Times many times off are slips, none is counted.
                head = booked[0].split(",")
                file.write(booked[0] + "\n")
                for day, line in enumerate(booked[1:3], 7):
                    cells = line.split(",")
                    cells[head.index("start")] = f"2026-12-0{day}T06:00"
                    cells[head.index("end")] = f"2026-12-0{day}T21:00"
                    file.write(",".join(cells) + "\n")
            status, _, err = run("actuals", sample("12-week.yaml"), file.name, "--shop", SHOP, "--output", out)
            self.assertIn(status, (0, 1), err)
            shop = os.path.join(work, "shop")
            os.mkdir(shop)
            write(os.path.join(shop, "shop.yaml"), text_of(os.path.join(SHOP, "shop.yaml")))
            os.replace(out, os.path.join(shop, "c.yaml"))
            self.assertEqual(run("check", shop)[0], 0)


class Cells(unittest.TestCase):
    def test_numbers_below_nothing_stay_numbers(self):
        with folder() as work:
            shop = os.path.join(work, "shop")
            os.mkdir(shop)
            text = text_of(os.path.join(SHOP, "shop.yaml"))
            write(os.path.join(shop, "shop.yaml"), text)
            rows = write(os.path.join(work, "l.csv"), "number,material,outside,stock,notes\n"
                         "X,C45,20 x30,\"round 25, drawn\",-12.5\nY,C45,20 x30,\"round 25, drawn\",-1+2\n")
            status, out, err = run("quote", rows, "--shop", SHOP)
            self.assertEqual(status, 0, err)
            lines = out.splitlines()
            self.assertTrue(lines[1].endswith(",-12.5"), lines[1])
            self.assertTrue(lines[-1].endswith(",'-1+2"), lines[-1])

    def test_no_message_of_a_library_shows(self):
        with folder() as work:
            part = write(os.path.join(work, "p.yaml"), "part: {number: X\nmaterial: C45\n")
            for language, raw in (("en", "end of map flow not found"), ("de", "not")):
                status, _, err = run("quote", part, "--language", language)
                self.assertEqual(status, 2)
                self.assertNotIn(raw, err)


if __name__ == "__main__":
    unittest.main()
