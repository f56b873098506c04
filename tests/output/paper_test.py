"""Documents for paper: the PDF says what the page says, in its order; the same bytes every time; fonts
embedded; title, language and structure; A4 or Letter; and without the plug-in one line that says so."""
import datetime
import html
import os
import re
import shutil
import subprocess
import sys
import unittest
import zipfile

ROOT, TURNWRIGHT = os.environ["ROOT"], os.environ["TURNWRIGHT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from blocks_test import BALL, BUSH, FLANGE, SHAFT  # noqa: E402
from program import SHOP, folder, run, sample, text_of  # noqa: E402

WEEK = ["load", sample("12-week.yaml"), "--shop", SHOP, "--effort", "0.01"]  # any plan does
OFFER = ["offer", sample("10-request.yaml"), "--shop", SHOP]
PARTS = ["01-winch-spindle.yaml", "02-bush-blank.yaml", "03-pivot-pin-inch.yaml", "04-two-cuts.yaml", "05-hoist-spindle.yaml",
         "06-guide-bush.yaml", "07-cover-flange.yaml", "09-clevis-pin.yaml"]
MACHINES = ["Tarn CNC 1", "Tarn bar lathe", "Tarn geared lathe", "Tarn heavy lathe"]


def shown(*command):
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def together(text):
    return re.sub(r"[\s\u00a0•]", "", text)


def text_of_page(path):
    """What stands in the body of a page."""
    body = re.sub(r"<head>.*?</head>", "", text_of(path), flags=re.S)
    body = re.sub(r'<svg class="across".*?</svg>', "", body, flags=re.S)
    return together(html.unescape(re.sub(r"<[^>]*>", " ", body)))


def text_of_pdf(path, foot=""):
    """Of all pages in the order of drawing, without their feet."""
    text = ""
    for page in shown("pdftotext", "-raw", path, "-").split("\f")[:-1]:
        page = re.sub(r"(Page|Seite)\d+(of|von)\d+$", "", together(page))
        text += page.removesuffix(together(foot))
    return text


def title_of(path):
    return html.unescape(re.search("<title>(.*?)</title>", text_of(path))[1])


def drawings(book):
    with zipfile.ZipFile(book) as parts:
        return {name: parts.read(name) for name in parts.namelist() if name.startswith("xl/media/")}


class Paper(unittest.TestCase):
    def shop(self, work, files):
        """The folder of a shop with these templates."""
        templates = os.path.join(work, "shop", "templates")
        os.makedirs(templates)
        shutil.copy(os.path.join(SHOP, "shop.yaml"), os.path.join(work, "shop"))
        for name, text in {"sender.txt": "We and sons\nRoad 1\n", **files}.items():
            with open(os.path.join(templates, name), "w", encoding="utf-8") as file:
                file.write(text)
        return os.path.join(work, "shop")

    def write(self, work, words, name="a"):
        out = os.path.join(work, name)
        status, _, err = run(*words, "--output", out)
        self.assertIn(status, (0, 1), err)
        return out

    def pages(self, path):
        return int(re.search(r"Pages: +(\d+)", shown("pdfinfo", path))[1])

    def size(self, path):
        width, height = re.search(r"Page size: +([\d.]+) x ([\d.]+)", shown("pdfinfo", path)).groups()
        return round(float(width)), round(float(height))

    def both(self, work, words):
        return self.write(work, words, "a.pdf"), self.write(work, words, "a.html")

    def test_a_quotation_says_what_its_page_says_on_one_sheet(self):
        for language in ("en", "de"):
            with self.subTest(language), folder() as work:
                pdf, page = self.both(work, OFFER + ["--language", language])
                self.assertEqual(text_of_pdf(pdf, title_of(page)), text_of_page(page))
                self.assertEqual((self.pages(pdf), self.size(pdf)), (1, (595, 842)))

    def test_the_paper_of_a_shop_is_that_of_every_command(self):
        with folder() as work:
            shop = ["--shop", self.shop(work, {"words.en.yaml": "offer.paper: Letter\n"})]
            for words in (["load", sample("12-week.yaml"), "--effort", "0.02"], ["route", sample("01-winch-spindle.yaml")]):
                with self.subTest(words[0]):
                    self.assertEqual(sorted(self.size(self.write(work, words + shop, "a.pdf"))), [612, 792])

    def test_a_long_quotation_repeats_its_head_and_a_shop_says_its_paper(self):
        with folder() as work:
            templates = os.path.join(work, "shop", "templates")
            os.makedirs(templates)
            for path, text in ((os.path.join(work, "shop", "shop.yaml"), text_of(os.path.join(SHOP, "shop.yaml"))),
                               (os.path.join(templates, "sender.txt"), "We and sons\nRoad 1\n"),
                               (os.path.join(templates, "words.en.yaml"), "offer.paper: Letter\n"),
                               (os.path.join(work, "pin.yaml"), "part: {number: P-1, name: pin}\nmaterial: C45\noutside: [30 x40]\n"),
                               (os.path.join(work, "request.yaml"), "request: {customer: A, our number: N, date: 2026-12-01}\nparts:\n"
                                + "  - {part: pin.yaml, quantities: [10, 50, 250]}\n" * 24)):
                with open(path, "w", encoding="utf-8") as file:
                    file.write(text)
            words = ["offer", os.path.join(work, "request.yaml"), "--shop", os.path.join(work, "shop")]
            pdf, page = self.both(work, words)
            self.assertEqual(self.size(pdf), (612, 792))
            pages, text = self.pages(pdf), text_of_pdf(pdf, title_of(page))
            self.assertGreater(pages, 1)
            head = "PartQuantityUnitprice,EURTotal,EUR"
            self.assertEqual(text.count(head), pages)
            self.assertEqual(text.replace(head, ""), text_of_page(page).replace(head, ""))

    def test_a_paragraph_longer_than_a_page_is_parted_and_nothing_of_it_lost(self):
        clauses = [f"Clause {i}: what is agreed by word of mouth holds once it is written, and not before." for i in range(1, 121)]
        for name, text in (("a line a clause", "\n".join(clauses)), ("running on", " ".join(clauses)), ("many", "\n\n".join(clauses))):
            with self.subTest(name), folder() as work:
                pdf, page = self.both(work, ["offer", sample("10-request.yaml"), "--shop", self.shop(work, {"terms.en.txt": text + "\n"})])
                self.assertEqual(text_of_pdf(pdf, title_of(page)), text_of_page(page))
                for clause in clauses:
                    self.assertIn(together(clause), text_of_page(page))
                self.assertLessEqual(self.pages(pdf), 5)
                first = shown("pdftotext", "-l", "1", pdf, "-")
                self.assertIn("Clause 1:", first, "what is left of the first page is used")
                lowest = [float(y) for y in re.findall(r'<word [^>]*yMax="([\d.]+)"', shown("pdftotext", "-bbox", pdf, "-"))]
                self.assertLess(max(lowest), 842)

    def test_what_cannot_be_parted_and_is_higher_than_a_page_is_an_error(self):
        with folder() as work:
            shop = self.shop(work, {"sender.txt": "".join(f"line {i}\n" for i in range(120))})
            for language, words in (("en", "higher than a page"), ("de", "höher als eine Seite")):
                out = os.path.join(work, "a.pdf")
                status, _, err = run("offer", sample("10-request.yaml"), "--shop", shop, "--language", language, "--output", out)
                self.assertEqual((status, os.path.exists(out)), (3, False), err)
                self.assertIn(words, err)
                self.assertEqual(run("offer", sample("10-request.yaml"), "--shop", shop, "--output", os.path.join(work, "a.html"))[0], 0)

    def test_a_speed_card_says_what_its_page_says_on_one_sheet(self):
        for machine in MACHINES:
            for more in ([], ["--units", "inch"], ["--language", "de"]):
                with self.subTest(machine, more=more), folder() as work:
                    pdf, page = self.both(work, ["card", "--machine", machine, "--shop", SHOP, *more])
                    self.assertEqual(text_of_pdf(pdf, title_of(page)), text_of_page(page))
                    self.assertEqual((self.pages(pdf), self.size(pdf)), (1, (792, 612) if "inch" in more else (842, 595)))

    def test_a_step_sheet_has_a_page_an_operation_and_says_what_its_page_says(self):
        for part in PARTS:
            with self.subTest(part), folder() as work:
                words = ["route", sample(part), "--shop", SHOP]
                pdf, page = self.both(work, words)
                operations = len(re.findall(r"^Op \d+ ", run(*words)[1], flags=re.M))
                self.assertGreaterEqual(operations, 1)
                self.assertEqual(self.pages(pdf), operations)
                self.assertEqual(text_of_pdf(pdf, title_of(page)), text_of_page(page))

    def test_what_holds_the_work_is_said_on_paper_as_on_the_page(self):
        for part, machine in ((BALL, "CNC lathe, medium"), (BUSH, "CNC lathe, medium"), (FLANGE, "geared lathe, medium"), (SHAFT, "geared lathe, medium")):
            for language in ("en", "de"):
                with self.subTest(part[:30], language=language), folder() as work:
                    path = os.path.join(work, "p.yaml")
                    with open(path, "w", encoding="utf-8") as file:
                        file.write(part)
                    pdf, page = self.both(work, ["route", path, "--machine", machine, "--language", language])
                    self.assertEqual(text_of_pdf(pdf, title_of(page)), text_of_page(page))

    def test_the_lists_of_a_week_are_a_page_a_machine_and_week_with_every_run(self):
        with folder() as work:
            pdf, table = self.write(work, WEEK, "w.pdf"), self.write(work, WEEK, "w.csv")
            text = text_of_pdf(pdf)
            rows = [row.split(",") for row in text_of(table).splitlines()[1:]]
            self.assertGreater(len(rows), 40)
            # What runs on into the next week stands there too.
            def week(moment, less=0):
                return (datetime.datetime.fromisoformat(moment) - datetime.timedelta(minutes=less)).isocalendar()[1]
            sheets = [(row[0], w) for row in rows for w in range(week(row[3]), week(row[5], 1) + 1)]
            self.assertEqual(len(re.findall(r"Op\d+", text)), len(sheets))
            # Once more where a sheet goes on behind its page.
            self.assertIn(len(re.findall(r"Setup,min", text)), range(len(set(sheets)), self.pages(pdf)))
            for name in ("TarnCNC2", "Tarnheavylathe", "Dueout", "Outsidework", "down:service", "Toolstoload", "HS-520hoistspindle"):
                self.assertIn(name, text)
            self.assertEqual(self.size(pdf), (842, 595))
            # One week of it.
            self.assertIn("after", text_of_pdf(self.write(work, [*WEEK, "--weeks", "1"], "one.pdf")))

    def test_the_same_bytes_whatever_the_clock_the_place_and_the_tongue(self):
        for words in (OFFER, ["card", "--machine", "Tarn geared lathe", "--shop", SHOP], ["route", sample(PARTS[0]), "--shop", SHOP]):
            with self.subTest(words[0]), folder() as work:
                first = self.write(work, words, "a.pdf")
                out = os.path.join(work, "b.pdf")
                env = {**os.environ, "TZ": "Asia/Tokyo", "LC_ALL": "de_DE.UTF-8", "SOURCE_DATE_EPOCH": "1"}
                subprocess.run([TURNWRIGHT, *words, "--output", out], env=env, cwd=work, check=True, capture_output=True)
                with open(first, "rb") as a, open(out, "rb") as b:
                    self.assertEqual(a.read(), b.read())

    def test_fonts_are_embedded_and_title_language_and_structure_said(self):
        with folder() as work:
            pdf = self.write(work, OFFER + ["--language", "de"], "a.pdf")
            fonts = shown("pdffonts", pdf).splitlines()[2:]
            self.assertGreaterEqual(len(fonts), 2)
            for font in fonts:
                self.assertEqual(font.split()[-5:-2], ["yes", "yes", "yes"], font)
            about = shown("pdfinfo", pdf)
            self.assertRegex(about, r"Title: +Angebot Q-0117")
            self.assertRegex(about, r"Tagged: +yes")
            self.assertRegex(about, r"CreationDate: +\w+ Dec +1 ")
            with open(pdf, "rb") as file:
                self.assertIn(b"/Lang (de)", file.read())
            structure = shown("pdfinfo", "-struct", pdf)
            for tag in ("H1", "Table", "TR", "TH", "TD", "P"):
                self.assertRegex(structure, rf"\b{tag}\b")
            card = shown("pdfinfo", self.write(work, ["card", "--machine", "Tarn CNC 1", "--shop", SHOP], "c.pdf"))
            self.assertNotIn("CreationDate", card)

    def test_provisional_stands_across_every_page(self):
        with folder() as work:
            for language, word in (("en", "PROVISIONAL"), ("de", "VORLÄUFIG")):
                pdf = self.write(work, OFFER + ["--provisional", "--language", language], "a.pdf")
                self.assertIn(word, together(shown("pdftotext", "-raw", pdf, "-")))
                self.assertIn(f">{word}</text>", text_of(self.write(work, OFFER + ["--provisional", "--language", language], "a.html")))

    def test_without_the_plugin_it_is_said_what_to_build_it_with(self):
        with folder() as work:
            alone = shutil.copy(TURNWRIGHT, os.path.join(work, "turnwright"))
            out = os.path.join(work, "a.pdf")
            done = subprocess.run([alone, *OFFER, "--output", out], capture_output=True, text=True, check=False)
            self.assertEqual(done.returncode, 2)
            self.assertEqual(len(done.stderr.splitlines()), 1)
            self.assertIn("libpango1.0-dev", done.stderr)
            self.assertFalse(os.path.exists(out))
            self.assertEqual(subprocess.run([alone, *OFFER], capture_output=True, check=False).returncode, 0)
            book = os.path.join(work, "a.xlsx")
            done = subprocess.run([alone, "quote", sample(PARTS[0]), "--shop", SHOP, "--output", book], capture_output=True,
                                  text=True, check=True)
            self.assertIn("without its drawing", done.stderr)
            self.assertEqual(drawings(book), {})
            # A file of that name that is none, and one that is another's.
            beside = os.path.join(work, "libturnwright-pdf.so")
            other = subprocess.run(["sh", "-c", "ldconfig -p | sed -n 's/.*=> //p' | grep libz.so | head -n 1"], capture_output=True, text=True, check=True).stdout.strip()
            with open(beside, "w", encoding="utf-8") as file:
                file.write("no library")
            for words, copied in (("libpangocairo-1.0-0", None), ("of another version", other)):
                if copied:
                    shutil.copy(copied, beside)
                done = subprocess.run([alone, *OFFER, "--output", out], capture_output=True, text=True, check=False)
                self.assertEqual((done.returncode, os.path.exists(out)), (2, False), done.stderr)
                self.assertEqual(len(done.stderr.splitlines()), 1)
                self.assertIn(words, done.stderr)

    def test_a_quote_s_workbook_has_the_part_drawn_the_same_each_time(self):
        sizes = {}
        with folder() as work:
            for part in PARTS:
                book = os.path.join(work, "a.xlsx")
                self.assertEqual(run("quote", sample(part), "--shop", SHOP, "--output", book)[0], 0)
                once = drawings(book)
                run("quote", sample(part), "--shop", SHOP, "--output", book)
                self.assertEqual(drawings(book), once)
                [png] = once.values()
                self.assertEqual(png[:8], b"\x89PNG\r\n\x1a\n")
                sizes[part] = tuple(int.from_bytes(png[at:at + 4], "big") for at in (16, 20))
        self.assertEqual({width for width, _ in sizes.values()}, {1085}, "1.75 pixels a unit of 620")
        self.assertGreater(sizes["07-cover-flange.yaml"][1], sizes["01-winch-spindle.yaml"][1], "a flange is high, a spindle is long")


if __name__ == "__main__":
    unittest.main()
