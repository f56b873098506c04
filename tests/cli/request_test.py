"""A request and the customer's copy of it: the arithmetic the customer can do, what he must not see,
and wrong requests."""
import html
import os
import re
import shutil
import subprocess
import sys
import unittest
import zipfile

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
import openpyxl  # noqa: E402
from program import SHOP, folder, run, run_json, sample, text_of  # noqa: E402

REQUEST = sample("10-request.yaml")
PROVISIONAL = ("--provisional",)
# Where it can be drawn and read.
PDF = ["pdf"] if shutil.which("pdftotext") and os.path.exists(os.path.join(os.path.dirname(os.environ["TURNWRIGHT"]), "libturnwright-pdf.so")) else []
# Words and figures of the inside, one in every field that has one. Invented for the test.
SHOP_YAML = """
machines:
- name: CANARY-MACHINE
  kind: CNC
  slowest: 35 rev/min
  fastest: 4500 rev/min
  power: 15 kW
  largest torque: 320 Nm
  swing over cross slide: 320
  largest diameter: 320
  largest length: 600
  spindle bore: 65
  heaviest work: 150 kg
  rapid: 24 m/min
  acceleration time: 0.4 s
  chuck: {diameter: 200, rated speed: 4200 rev/min, jaw clearance: 3, grip force: 60 kN}
  tailstock: yes
  stations: 12
  rate: {machine: 41.7717 EUR/h, person: 37.1937 EUR/h, overhead: 0.2173}
  operator share: 0.8317
  source: CANARY-MACHINE-SOURCE
  basis: typical
tools:
- {name: CANARY-TOOL, insert: CNMG 120408, kind: rough, grade: coated carbide, lead angle: 95 deg, nose radius: 0.8, depth: {from: 0.8, to: 5}, feed: {from: 0.15, to: 0.5}, copying angle: 3 deg, edges: 4, price: 7.3719 EUR, source: CANARY-TOOL-SOURCE, basis: typical}
materials:
- {name: C45, group: medium carbon steel, hardness: 170-200 HB, density: 7850 kg/m3, elastic modulus: 207 GPa, kc1.1: 1500 N/mm2, mc: 0.22, chips: long, price: 1.6173 EUR/kg, price status: confirmed, price date: 2026-11-16, source: CANARY-MATERIAL-SOURCE, basis: typical}
outside work:
- {name: grinding between centres, each: 3.1173, lot: 41.1173, days: 5, source: CANARY-OUTSIDE-SOURCE, basis: typical}
policy:
- {name: margin, value: 0.17317, source: CANARY-MARGIN-SOURCE, basis: typical}
- {name: scrap share, value: 0.03717, source: CANARY-SCRAP-SOURCE, basis: typical}
- {name: overhead on material, value: 0.12717, source: CANARY-OVERHEAD-SOURCE, basis: typical}
book people:
- {name: CANARY-PERSON, number: 1, wage: 27.1731 EUR/h, paid hours: 2080, at machines: 0.8, source: CANARY-BOOKS, basis: typical}
"""
PART_YAML = """# CANARY-COMMENT
part: {number: OK-1, name: shaft, revision: A, order: new}
material: C45
stock: {round: 50, condition: hot rolled}
quantities: [10, 50]
drawing: {general: ISO 2768-m, Ra: 3.2}
outside: [30 x42, 45 x60]
other work:
  - CANARY-WORK, 7.31 min
  - {what: CANARY-PLATED, price: 2.7713, per: dm2, area: 4.1719 dm2}
  - {what: CANARY-BOUGHT, price: 3.7319, certificate: 31.1931, scrap: 0.0173}
one-offs:
  - {what: CANARY-FIXTURE, price: 241.7319, paid: in the first order}
  - {what: CANARY-GAUGE, minutes: 91.7, paid: over pieces, pieces: 517}
  - jaws for you, 100 EUR
"""
REQUEST_YAML = """# CANARY-REQUEST-COMMENT
request: {customer: Orrin Winches, our number: Q-9, date: 2026-12-01}
delivery: {terms: ex works, wanted: 2027-02-03}
parts:
  - {part: CANARY-FOLDER/CANARY-FILE.yaml, week: 2027-W31, margin: 23.719 %, discount: 3.1713 %}
"""
INSIDE_FIGURES = ["41.77", "37.19", "0.2173", "21.73", "0.8317", "83.17", "7.3719", "1.6173", "3.1173", "17.317",
                  "0.173", "0.0371", "3.717", "0.127", "12.717", "27.17", "7.31", "3.73", "31.19", "241.73", "91.7", "517",
                  "23.7", "3.171", "4.17", "2.77"]


def everything_in(path):
    """All text of a file: of an archive every member, names and properties too, entities decoded."""
    if path.endswith(".pdf"):
        return subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True).stdout
    if not zipfile.is_zipfile(path):
        return path + html.unescape(text_of(path))
    text = ""
    with zipfile.ZipFile(path) as z:
        text += z.comment.decode("latin-1")
        for info in z.infolist():
            text += info.filename + info.comment.decode("latin-1") + html.unescape(z.read(info).decode("utf-8", "replace"))
    return text


class CustomerCopy(unittest.TestCase):
    def test_nothing_of_the_inside_is_in_it(self):
        with folder() as work:
            shop, parts = os.path.join(work, "shop"), os.path.join(work, "CANARY-FOLDER")
            os.makedirs(os.path.join(shop, "templates")), os.mkdir(parts)
            for path, text in ((os.path.join(shop, "templates", "sender.txt"), "We and sons\n"), (os.path.join(shop, "CANARY-SHOP.yaml"), SHOP_YAML),
                               (os.path.join(parts, "CANARY-FILE.yaml"), PART_YAML), (os.path.join(work, "request.yaml"), REQUEST_YAML)):
                with open(path, "w", encoding="utf-8") as file:
                    file.write(text)
            request = os.path.join(work, "request.yaml")
            # The inside is full of them: the test would see a leak.
            status, inside, err = run("quote", request, "--shop", shop, "--why")
            self.assertEqual(status, 0, err)
            inside += run("explain", os.path.join(parts, "CANARY-FILE.yaml"), "price", "10", "--shop", shop)[1]
            for name in ("MACHINE", "WORK", "BOUGHT", "MARGIN-SOURCE", "SCRAP-SOURCE", "MATERIAL-SOURCE"):
                self.assertIn("CANARY-" + name, inside)
            read = 0
            for kind in ("html", "xlsx", *PDF):
                out = os.path.join(work, "offer." + kind)
                status, _, err = run("offer", request, "--shop", shop, "--output", out)
                self.assertEqual(status, 0, err)
                text = everything_in(out)
                read += len(text)
                self.assertIn("OK-1", text)
                self.assertIn("jaws for you", text)
                text = text.replace(out, "")
                self.assertNotIn("CANARY", text.upper(), kind)
                for figure in INSIDE_FIGURES + ["W31", "2027-02-03"]:
                    self.assertNotIn(figure, re.sub(r"<style>.*?</style>", "", text, flags=re.S) if kind == "html" else
                                     re.sub(r"xl/(styles|theme)[^<]*<.*", "", text, flags=re.S), f"{figure} in {kind}")
            print(f"\n{read} characters of the customer's copies read, no canary")

    def test_each_times_quantity_is_total_in_page_and_workbook(self):
        with folder() as work:
            page, book = os.path.join(work, "o.html"), os.path.join(work, "o.xlsx")
            for out in (page, book):
                status, _, err = run("offer", REQUEST, "--shop", SHOP, "--output", out)
                self.assertEqual(status, 0, err)
            rows = re.findall(r'<td class="n tight"[^>]*>([\d,]+)(?:<small>[^<]*</small>)?</td><td class="n tight"[^>]*>([\d.,]+)(?:<small>[^<]*</small>)?</td>'
                              r'<td class="n tight bold"[^>]*>([\d.,]+)</td></tr>', text_of(page))
            self.assertEqual(len(rows), 8)
            cells = [[c.value for c in row] for row in openpyxl.load_workbook(book).active.iter_rows()]
            in_book = [(r[1], r[2], r[3], r[4]) for r in cells if isinstance(r[1], (int, float))]
            self.assertEqual(len(in_book), 8)
            for (quantity, price, total), (q, e, unit, t) in zip(rows, in_book):
                each = float(price.replace(",", ""))
                self.assertEqual((float(quantity.replace(",", "")), each, float(total.replace(",", ""))), (q, e, t))
                self.assertEqual(round(each * 100) * q / unit, round(t * 100))
            # Values only: no formula, no second sheet, no defined name.
            with zipfile.ZipFile(book) as z:
                self.assertEqual([n for n in z.namelist() if "worksheets/sheet" in n], ["xl/worksheets/sheet1.xml"])
                sheet, names = z.read("xl/worksheets/sheet1.xml").decode(), z.read("xl/workbook.xml").decode()
            self.assertNotIn("<f>", sheet)
            self.assertNotRegex(names.replace("_xlnm.Print_Titles", ""), "<definedName name=\"(?!\")")

    def test_the_offer_has_the_prices_of_the_quote_and_two_runs_the_same_bytes(self):
        status, first, err = run("offer", REQUEST, "--shop", SHOP)
        self.assertEqual(status, 0, err)
        self.assertEqual(first, run("offer", REQUEST, "--shop", SHOP)[1])
        plain = first.replace(",", "")
        status, out, err = run("quote", REQUEST, "--shop", SHOP, "--json")
        decoder, at, quotes = __import__("json").JSONDecoder(), 0, []
        while at < len(out.rstrip()):
            quote, at = decoder.raw_decode(out, at + (len(out[at:]) - len(out[at:].lstrip())))
            quotes.append(quote)
        self.assertEqual(len(quotes), 3)
        for quote in quotes:
            self.assertEqual(quote["request"], {"customer": "Orrin Winches", "number": "Q-0117", "revision": 2, "date": "2026-12-01", "valid_days": 30})
            for price in quote["prices"]:
                self.assertIn(f'>{price["total"]}<', plain)
        self.assertEqual(quotes[2]["prices"][0]["price_unit"], 100)
        self.assertIn("at_once_each", quotes[1]["prices"][1])

    def test_no_quotation_without_a_sender_unless_it_is_provisional(self):
        with folder() as work:
            shop, out = os.path.join(work, "shop"), os.path.join(work, "o.html")
            self.assertEqual(run("offer", REQUEST, "--output", out)[0], 2)
            status, printed, err = run("new", "shop", shop)
            self.assertEqual(status, 0, err)
            sender = os.path.join(shop, "templates", "sender.txt")
            self.assertIn(sender, printed)
            starter = text_of(sender)

            def refused(text, words):
                with open(sender, "w", encoding="utf-8", newline="") as file:
                    file.write(text)
                status, _, err = run("offer", REQUEST, "--shop", shop, "--output", out)
                self.assertEqual((status, os.path.exists(out)), (2, False), err)
                self.assertIn(words, err)
                self.assertIn(sender, err)
                self.assertIn("--provisional", err)

            refused(starter, "still says 'Your firm'")
            refused(starter.replace("\n", "\r\n"), "still says 'Your firm'")
            refused(starter.replace("\n", " \t\n"), "still says 'Your firm'")
            refused("We and sons\n" + starter.splitlines()[-1] + "\n", starter.splitlines()[-1])
            refused(" \n\n", "no sender for the quotation")
            os.remove(sender)
            status, _, err = run("offer", REQUEST, "--shop", shop, "--output", out)
            self.assertEqual(status, 2)
            for kind in ("html", "xlsx"):
                copy = os.path.join(work, "p." + kind)
                self.assertNotEqual(run("offer", REQUEST, "--shop", shop, "--provisional", "--output", copy)[0], 2)
                self.assertIn("Provisional: not a binding quotation", everything_in(copy))
                self.assertNotIn("Your firm", everything_in(copy))
            with open(sender, "w", encoding="utf-8") as file:
                file.write("We and sons\nRoad 1\n")
            self.assertNotEqual(run("offer", REQUEST, "--shop", shop, "--output", out)[0], 2)
            self.assertIn("We and sons", text_of(out))

    def test_words_marks_paper_and_dates_are_the_language_s(self):
        german = run("offer", REQUEST, "--shop", SHOP, "--language", "de")[1]
        for text in ("Angebot", "1. Dez. 2026", "11.000,00", "von Ihnen beigestellt", "size: A4", 'lang="de"'):
            self.assertIn(text, german)
        with folder() as work:
            shop = os.path.join(work, "shop", "templates")
            os.makedirs(shop)
            with open(os.path.join(SHOP, "shop.yaml"), encoding="utf-8") as f, open(os.path.join(work, "shop", "s.yaml"), "w", encoding="utf-8") as g:
                g.write(f.read())
            words = 'offer.title: "Bid \\"}}</style><b>"\n'
            def write(name, text):
                with open(os.path.join(shop, name), "w", encoding="utf-8") as file:
                    file.write(text)
            write("sender.txt", "We and sons\nRoad 1\n")
            write("words.en.yaml", words)
            write("opening.en.txt", "<script>alert(1)</script> {customer} & co, {their reference}\n")
            out = run("offer", REQUEST, "--shop", os.path.join(work, "shop"))[1]
            self.assertIn("&lt;script&gt;alert(1)&lt;/script&gt; Orrin Winches &amp; co, RFQ 4471", out)
            self.assertEqual(out.count("</style>"), 1)
            self.assertEqual(out.count("<b>"), 0)
            self.assertIn("Bid &quot;}&lt;/style&gt;&lt;b&gt;", out)
            write("opening.en.txt", "Dear {customr}\n")
            status, _, err = run("offer", REQUEST, "--shop", os.path.join(work, "shop"))
            self.assertEqual(status, 2)
            self.assertIn("opening.en.txt:1:6: unknown name '{customr}'", err)
            self.assertIn("did you mean 'customer'", err)
            write("opening.en.txt", "")
            write("words.en.yaml", words + "offer.titel: x\n")
            status, _, err = run("offer", REQUEST, "--shop", os.path.join(work, "shop"))
            self.assertEqual(status, 2)
            self.assertIn("words.en.yaml:2:1: ", err)
            self.assertIn("did you mean 'offer.title'", err)
            write("words.en.yaml", 'offer.paper: Letter\ndate.day: "{month}/{day:0>2}/{year}"\nmonth.12: "12"\n'
                                   'number.decimal-mark: ","\nnumber.thousands-mark: "."\n')
            out = run("offer", REQUEST, "--shop", os.path.join(work, "shop"))[1]
            for text in ("size: letter", "12/01/2026", "11.000,00"):
                self.assertIn(text, out)
            write("words.en.yaml", words + "offer.paper: A0\n")
            status, _, err = run("offer", REQUEST, "--shop", os.path.join(work, "shop"))
            self.assertEqual(status, 2)
            self.assertIn("words.en.yaml:2:14: found 'A0'; expected one of A4, Letter", err)
        self.assertIn("size: letter", run("offer", REQUEST, "--shop", SHOP, "--units", "inch")[1])
        status, _, err = run("offer", REQUEST, "--shop", SHOP, "--language", "xx")
        self.assertEqual(status, 2)
        self.assertIn("expected en or de", err)


TERMS = """request: {customer: A, our number: N, date: 2026-12-01}
delivery: {terms: ex works, over delivery: 5 %, under delivery: 2 %, overrun: free}
order:
  payment: 30 days net
  rebate: 3 %
  tax: 19 %
  charges: [{what: freight to Orrin, price: 85.00}, {what: returnable crates, price: 42.50}]
  price clause: {of: bar steel, base: 1.85 EUR/kg, date: 2026-11-16}
parts:
  - {part: good.yaml, quantities: [50], lead time: 3 weeks, price: 20.00}
  - {part: ours.yaml, quantities: [100], lead time: 10 days, customer supplies: material, price: 10.00}
  - {part: bad.yaml, quantities: [10]}
  - {part: bad.yaml, quantities: [10], not offered: longer than our lathes}
"""


class WholeOrders(unittest.TestCase):
    """Worked by hand: 50 at 20.00 and 100 at 10.00 are 2,000.00, 3 % off is 60.00, freight and crates 127.50:
    2,067.50 net, 19 % of it 392.83 (392.825 rounded up), 2,460.33 in all."""

    def offer(self, work, text, *more, kind="html"):
        out = os.path.join(work, "o." + kind)
        parts = {"good": "part: {number: P-1}\nmaterial: C45\noutside: [30 x40]\n",
                 "ours": "part: {number: P-2}\nmaterial: C45\nstock: {round: 35, condition: drawn, fed from: bar}\noutside: [30 x40]\n",
                 "sawn": "part: {number: P-2}\nmaterial: C45\nstock: {round: 35, condition: drawn, fed from: blank}\noutside: [30 x40]\n",
                 "bad": "part: {number: P-3}\nmaterial: C45\noutside: [30 x9000]\n"}
        for name, part in parts.items():
            with open(os.path.join(work, name + ".yaml"), "w", encoding="utf-8") as file:
                file.write(part)
        with open(os.path.join(work, "request.yaml"), "w", encoding="utf-8") as file:
            file.write(text)
        return (*run("offer", os.path.join(work, "request.yaml"), "--shop", SHOP, "--output", out, *more), out)

    def test_rebate_freight_tax_and_what_is_not_offered_stand_in_it(self):
        with folder() as work:
            for kind in ("html", "xlsx"):
                status, _, err, out = self.offer(work, TERMS, kind=kind)
                self.assertEqual(status, 1, err)
                self.assertIn("1 of 4 parts is not offered", err)
                text = everything_in(out)
                for words in ("30 days net", "Rebate 3 %", "freight to Orrin", "returnable crates", "Net", "Tax 19 %",
                              "Prices rest on bar steel at 1.85 EUR/kg of 16 Nov 2026", "up to 5 % more or 2 % fewer",
                              "are not invoiced", "in 3 weeks", "in 10 days", "P-3", "Not offered",
                              "Not offered: longer than our lathes", "To supply", "of bar for 100"):
                    self.assertIn(words, text, kind)
                if kind == "html":
                    for amount in ("-60.00", "85.00", "42.50", "2,067.50", "392.83", "2,460.33"):
                        self.assertIn(f">{amount}<", text)
            status, _, err, out = self.offer(work, TERMS, "--language", "de")
            german = everything_in(out)
            for words in ("Beizustellen", "rund 35 mm, gezogen", "bar steel mit 1,85 EUR/kg"):
                self.assertIn(words, german)

    def test_a_surcharge_brings_what_a_rebate_leaves_to_the_minimum(self):
        """Worked by hand, minimum 90.00: 1 at 20.00 less 3 % is 19.40, 70.60 are missing; 19 % of 90.00 is 17.10."""
        head = "request: {customer: A, our number: N, date: 2026-12-01}\norder: {rebate: 3 %, tax: 19 %}\nparts:\n  - {part: good.yaml, "
        with folder() as work:
            for kind in ("html", "xlsx"):
                status, _, err, out = self.offer(work, head + "quantities: [1], price: 20.00}\n", kind=kind)
                self.assertEqual(status, 0, err)
                wanted = ["-0.60", "70.60", "90.00", "17.10", "107.10"]
                if kind == "html":
                    found = re.findall(r">(-?[0-9.]+)<", text_of(out))
                else:
                    found = [f"{row[4].value:.2f}" for row in openpyxl.load_workbook(out).active.iter_rows() if isinstance(row[4].value, (int, float))]
                self.assertEqual(found[-5:], wanted, kind)
            quote = self.quotes(work, "request.yaml")[0]
            self.assertEqual([quote["order"][k] for k in ("rebate", "surcharge", "net", "tax", "total")], ["0.60", "70.60", "90.00", "17.10", "107.10"])
            self.assertEqual([quote["prices"][0][k] for k in ("rebate", "minimum_surcharge")], ["0.60", "70.60"])
            # Several quantities: beside its price, and the totals are those of one.
            status, _, err, out = self.offer(work, head + "quantities: [1, 50], price: [20.00, 20.00]}\n")
            self.assertEqual(status, 0, err)
            for words in (">70.60<", ">107.10<", ">1,154.30<"):
                self.assertIn(words, everything_in(out))

    def test_an_option_stands_beside_the_order_and_changes_are_told(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write("part: {number: P-9}\nmaterial: C45\noutside: [30 x40]\n")
            head = "request: {customer: Ada Pumps, our number: Q-9, revision: %d, date: 2026-12-01}\nparts:\n"
            with open(os.path.join(work, "before.yaml"), "w", encoding="utf-8") as file:
                file.write(head % 1 + "  - {part: p.yaml, quantities: [20]}\n  - {part: p.yaml, quantities: [5], option: in brass}\n")
            shop = os.path.join(work, "shop")
            os.makedirs(os.path.join(shop, "templates"))
            shutil.copy(os.path.join(SHOP, "templates", "sender.txt"), os.path.join(shop, "templates"))
            with open(os.path.join(shop, "shop.yaml"), "w", encoding="utf-8") as file:
                file.write(text_of(os.path.join(SHOP, "shop.yaml")) +
                           "customers:\n- {name: Ada Pumps, margin: 5 %, payment: 60 days net, source: invented, basis: typical}\n")
            now = head % 2 + "  - {part: p.yaml, quantities: [50]}\n  - {part: p.yaml, quantities: [50], option: drawn bar, condition: drawn}\n"
            path, out = os.path.join(work, "now.yaml"), os.path.join(work, "out.html")
            with open(path, "w", encoding="utf-8") as file:
                file.write(now)
            status, _, err = run("offer", path, "--shop", shop, "--since", os.path.join(work, "before.yaml"), "--output", out)
            self.assertEqual(status, 0, err)
            page = everything_in(out)
            for words in ("Option: drawn bar; P-9", "ince revision 1: P-9: quantities 50, before 20", "P-9 (drawn bar) is new", "P-9 (in brass) is left out", "60 days net"):
                self.assertIn(words, page)
            quotes = self.quotes_of(path, shop)
            self.assertEqual([q["prices"][0]["margin_share"] < 0.06 for q in quotes], [True, True])
            total = float(quotes[0]["prices"][0]["total"])
            self.assertIn(f"{max(total, 90.0):,.2f}", page)  # without the option
            self.assertNotIn(f"{total + float(quotes[1]['prices'][0]['total']):,.2f}", page)
            for before, what in (("gone.yaml", "gone.yaml"), (os.path.join(work, "p.yaml"), "p.yaml")):
                status, _, err = run("offer", path, "--shop", shop, "--since", before, "--output", out)
                self.assertIn(status, (2, 3))
                self.assertIn(what, err)

    def test_what_is_said_to_have_changed_has(self):
        head = "request: {customer: A, our number: N, revision: %d, date: 2026-12-01}\nparts:\n  - {part: good.yaml, quantities: [20], price: [%s]}\n"
        # P-3 cannot be made: what is not offered because the request says so is not offered without that either.
        for before, now, said in (("30.00", "33.00", ["P-1: unit price at 20 33.00, before 30.00"]), ("30.00", "30.00", [])):
            with folder() as work:
                with open(os.path.join(work, "before.yaml"), "w", encoding="utf-8") as file:
                    file.write(head % (1, before) + "  - {part: bad.yaml, not offered: longer than our lathes}\n")
                status, _, err, out = self.offer(work, head % (2, now) + "  - {part: bad.yaml, quantities: [5]}\n",
                                                 "--since", os.path.join(work, "before.yaml"))
                self.assertEqual(status, 1, err)
                self.assertEqual(re.findall(r"[Ss]ince revision 1: ([^<]*?)\.?<", text_of(out)), said)

    def test_a_customer_pays_in_his_own_currency(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write("part: {number: P-9}\nmaterial: C45\noutside: [30 x40]\none-offs: [gauge, 80 EUR]\n".replace("[gauge, 80 EUR]", "['gauge, 80 EUR']"))
            shop = os.path.join(work, "shop")
            os.mkdir(shop)
            with open(os.path.join(shop, "shop.yaml"), "w", encoding="utf-8") as file:
                file.write(text_of(os.path.join(SHOP, "shop.yaml")) + "exchange:\n- {name: USD, rate: 0.8, date: 2026-11-30, source: invented, basis: typical}\n")
            path, out = os.path.join(work, "r.yaml"), os.path.join(work, "out.html")
            text = ("request: {customer: Ada, our number: Q, date: 2026-12-01}\norder: {currency: USD, charges: [{what: freight, price: 40.00}]}\n"
                    "parts: [{part: p.yaml, quantities: [500]}]\n")
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
            own = self.quotes_of(path, shop)[0]
            status, _, err = run("offer", path, "--shop", shop, "--output", out, *PROVISIONAL)
            self.assertEqual(status, 0, err)
            page = everything_in(out)
            each = float(own["prices"][0]["each"]) / 0.8
            shown = [cents for cents in re.findall(r"\d+\.\d\d", page) if abs(float(cents) - each) <= 0.026]
            self.assertTrue(shown, f"{each} is not in {page}")
            self.assertIn("1 USD is 0.8 EUR, rate of 30 Nov 2026", page)
            for amount in ("50.00", f"{float(shown[0]) * 500:,.2f}"):  # freight; each times quantity
                self.assertIn(amount, page)
            with open(path, "w", encoding="utf-8") as file:
                file.write(text.replace("USD", "GBP"))
            status, _, err = run("offer", path, "--shop", shop, "--output", out, *PROVISIONAL)
            self.assertEqual(status, 2)
            self.assertIn("r.yaml:2:19: ", err)

    def offered(self, work, shop, text, *more):
        path, out = os.path.join(work, "r.yaml"), os.path.join(work, "out.html")
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        status, _, err = run("offer", path, "--shop", shop, "--output", out, *more, *PROVISIONAL)
        self.assertEqual(status, 0, err)
        return everything_in(out)

    def test_what_is_written_by_hand_stays_as_it_is_written(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write("part: {number: P-9}\nmaterial: C45\noutside: [30 x40]\n")
            shop = os.path.join(work, "shop")
            os.mkdir(shop)
            with open(os.path.join(shop, "shop.yaml"), "w", encoding="utf-8") as file:
                file.write(text_of(os.path.join(SHOP, "shop.yaml")) +
                           "exchange:\n- {name: USD, rate: 0.8, date: 2026-11-30, source: invented, basis: typical}\n"
                           "- {name: JPY, rate: 0.0061, date: 2026-11-30, source: invented, basis: typical}\n"
                           "customers:\n- {name: Ada, discount: 5 %, source: invented, basis: typical}\n")
            head = "request: {customer: %s, our number: Q, date: 2026-12-01}\n"
            page = self.offered(work, shop, head % "Ada" + "order: {currency: USD}\nparts: [{part: p.yaml, quantities: [20, 50], price: [12.34 USD, 9.87 USD]}]\n")
            for amount in ("12.34", "9.87", "246.80", "493.50"):
                self.assertIn(amount, page)
            page = self.offered(work, shop, head % "Ada" + "order: {currency: JPY, charges: [{what: freight, price: 4001 JPY}]}\n"
                                "parts: [{part: p.yaml, quantities: [20], price: [2345 JPY]}]\n")
            for amount in ("2,345.00", "4,001.00", "46,900.00"):
                self.assertIn(amount, page)
            # An agreed discount holds where the request says nothing, and not where it says none.
            path = os.path.join(work, "r.yaml")
            each = []
            for line in ("", ", discount: 0 %"):
                with open(path, "w", encoding="utf-8") as file:
                    file.write(head % "Ada" + "parts: [{part: p.yaml, quantities: [500]%s}]\n" % line)
                each.append(float(self.quotes_of(path, shop)[0]["prices"][0]["each"]))
            self.assertLess(each[0], each[1])
            # Alternatives are never added up.
            page = self.offered(work, shop, head % "Bo" + "parts: [{part: p.yaml, quantities: [20], option: a}, {part: p.yaml, quantities: [20], option: b}]\n")
            self.assertNotIn("Order total", page)
            # A part is called by its number, wherever its file stands, and never by the file.
            os.mkdir(os.path.join(work, "old"))
            with open(os.path.join(work, "old/b.yaml"), "w", encoding="utf-8") as file:
                file.write(head % "Bo" + "parts: [{part: ../p.yaml, quantities: [20]}, {part: ../margin40.yaml, quantities: [1]}]\n")
            page = self.offered(work, shop, head % "Bo" + "order: {tax: 19 %}\nparts: [{part: p.yaml, quantities: [20]}]\n", "--since", os.path.join(work, "old/b.yaml"))
            self.assertNotIn("margin40", page)
            self.assertNotIn("P-9 is new", page)
            for words in ("Since the request before: a part is left out", "Since the request before: another tax"):
                self.assertIn(words, page)

    def test_a_price_by_hand_hides_no_method(self):
        with folder() as work:
            path = os.path.join(work, "r.yaml")
            with open(path, "w", encoding="utf-8") as file:
                file.write("request: {customer: Bo, our number: Q, date: 2026-12-01}\nparts: [{part: %s, quantities: [50], price: [90.00]}]\n" % sample("01-winch-spindle.yaml"))
            status, out, err = run("quote", path, "--shop", SHOP)
            self.assertEqual(status, 0, err)
            self.assertRegex(out, r"parted from the bar .* would cost 4\d\.\d\d by calculation")
            # What was worked out is named as such, and questions are held against it.
            quote = self.quotes_of(path, SHOP)[0]
            calculated = quote["prices"][0]["calculated_each"]
            self.assertIn(f"set by hand: 90.00 at 50 (by calculation {calculated})", out)
            self.assertRegex(out, r"Ask first: .* price \d+\.\d\d by calculation at 50")
            self.assertGreater(len(quote["questions"]), 3)
            for question in quote["questions"]:
                self.assertAlmostEqual(float(question["each"]) / float(calculated) - 1, question["change_share"], places=9)
            full = run("quote", path, "--shop", SHOP, "--full")[1]
            with open(path, "w", encoding="utf-8") as file:
                file.write("request: {customer: Bo, our number: Q, date: 2026-12-01}\nparts: [{part: %s, quantities: [50], price: [90.00]}]\n" % sample("09-clevis-pin.yaml"))
            self.assertRegex(run("quote", path, "--shop", SHOP)[1], r"next best is .*: \d+\.\d\d by calculation, the lot costs")
            self.assertRegex(full, r"[Pp]rice each at 50 by calculation")

    def test_blanks_to_supply_are_those_that_are_made(self):
        with folder() as work:
            _, _, err, out = self.offer(work, TERMS.replace("part: ours.yaml", "part: sawn.yaml"))
            made = [q for q in self.quotes(work, "request.yaml") if q["prices"][0]["quantity"] == 100][0]
            self.assertIn(f'{made["prices"][0]["make"]} for 100', everything_in(out))

    def test_what_the_customer_supplies_is_asked_for_as_the_shop_would_buy_it(self):
        with folder() as work:
            out = self.offer(work, TERMS.replace("part: ours.yaml", "part: good.yaml"))[3]
            self.assertIn("m of bar for 100", everything_in(out))

    def quotes(self, work, name):
        return self.quotes_of(os.path.join(work, name), SHOP)

    def quotes_of(self, path, shop):
        out = run("quote", path, "--shop", shop, "--json")[1]
        decoder, at, quotes = __import__("json").JSONDecoder(), 0, []
        while at < len(out.rstrip()):
            quote, at = decoder.raw_decode(out, at + (len(out[at:]) - len(out[at:].lstrip())))
            quotes.append(quote)
        return [q for q in quotes if q["feasible"]]

    def test_wrong_terms_are_named_with_their_place(self):
        with folder() as work:
            for was, now, what in (("rebate: 3 %", "rebate: 80 %", "a share from 0 % to 50 %"),
                                   ("tax: 19 %", "tax: -1 %", "a share from 0 % to 50 %"),
                                   ("price: 85.00", "price: -85.00", "a price above 0"),
                                   ("overrun: free", "overrun: fre", "did you mean 'free'"),
                                   ("lead time: 3 weeks", "lead time: soon", "found 'soon'"),
                                   ("lead time: 3 weeks", "lead time: [3 weeks, 4 weeks]", "lead times that are not as many"),
                                   ("base: 1.85 EUR/kg, ", "", "base"),
                                   ("payment:", "paymnt:", "did you mean 'payment'")):
                with self.subTest(now):
                    status, _, err, out = self.offer(work, TERMS.replace(was, now))
                    self.assertEqual(status, 2, err)
                    self.assertIn(what, err)
                    self.assertFalse(os.path.exists(out))


class OneTable(unittest.TestCase):
    def test_a_request_comes_out_as_one_priced_table(self):
        with folder() as work:
            text, book = os.path.join(work, "p.csv"), os.path.join(work, "p.xlsx")
            for out in (text, book):
                status, printed, err = run("quote", REQUEST, "--shop", SHOP, "--output", out)
                self.assertEqual((status, printed), (0, ""), err)
            rows = text_of(text).splitlines()
            self.assertEqual([r.split(",")[0] for r in rows[1:]], ["WF-310"] * 3 + ["CP-48"] * 2 + ["GB-140"] * 3)
            self.assertEqual(openpyxl.load_workbook(book).active.max_row, len(rows))


class WrongRequests(unittest.TestCase):
    def request(self, work, text, command="quote"):
        path = os.path.join(work, "request.yaml")
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        return run(command, path, "--shop", SHOP)

    def test_each_is_named_with_its_place(self):
        head = "request: {customer: A, our number: N, date: 2026-12-01}\nparts: [{part: p.yaml, quantities: [10]}]\n"
        cases = [
            (head.replace("2026-12-01", "2026-02-30"), "1:45", "'2026-02-30', which is not a day"),
            (head.replace("2026-12-01", "1.12.2026"), "1:45", "not a day"),
            (head.replace("[10]", "[10, 50, 40]"), "2:45", "40 after 50"),
            (head.replace("[10]", "[10, 10]"), "2:41", "10 after 10"),
            (head.replace("[10]", "[-3]"), "2:37", "-3"),
            (head.replace("[10]}", "[100], releases: 4 of 60}"), "2:53", "is 240, which is none of the quantities"),
            (head.replace("[10]}", "[10], releases: often}"), "2:52", "found 'often'"),
            (head.replace("[10]}", "[10], price unit: 12}"), "2:54", "1, 100, 1000"),
            (head.replace("[10]}", "[10], week: 2027-W54}"), "2:48", "week of the calendar"),
            (head + "show: [margin]\n", "3:8", "found 'margin'"),
            (head + "show: [delivery weak]\n", "3:8", "did you mean 'delivery week'"),
            (head + "delivery: {wanted: 2026-11-01}\n", "3:11", "before the request itself"),
            (head.replace("customer: A, ", ""), "1:10", "customer"),
            (head.replace("customer: A", "custmer: A"), "1:11", "did you mean 'customer'"),
            ("request: {customer: A, our number: N, date: 2026-12-01}\n", "1:1", "parts"),
            (head + "delivery: {terms: [a, b]}\n", "3:19", "a list"),
        ]
        with folder() as work:
            for text, place, what in cases:
                with self.subTest(text):
                    status, out, err = self.request(work, text)
                    self.assertEqual((status, out), (2, ""), err)
                    self.assertIn(f"request.yaml:{place}: ", err)
                    self.assertIn(what, err)

    def test_a_missing_part_is_named_and_the_rest_done_but_no_offer_written(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write("part: {number: P-1}\nmaterial: C45\noutside: [30 x40]\n")
            text = "request: {customer: A, our number: N, date: 2026-12-01}\nparts: [p.yaml, gone.yaml]\n"
            status, out, err = self.request(work, text)
            self.assertEqual(status, 1)
            self.assertIn("P-1", out)
            self.assertIn("request.yaml:2:17: there is no part file 'gone.yaml'", err)
            status, out, err = self.request(work, text, "offer")
            self.assertEqual((status, out), (1, ""))
            self.assertIn("no quotation written: 1 of 2 parts", err)

    def test_money_below_zero_is_refused(self):
        with folder() as work:
            for lines in ("one-offs: [jaws, -3 EUR]", "one-offs: [{what: j, price: -3}]", "other work: [{what: x, price: 1, minimum: -1}]",
                          "other work: [{what: x, price: 1, transport: -1}]", "other work: [{what: x, price: 1, scrap: -0.1}]",
                          "other work: [{what: x, price: -1}]", "other work: [{what: x, price: 1, scrap: 0.99}]",
                          "one-offs: [{what: j, price: 3, paid: over pieces}]", "one-offs: [{what: j, price: 3, pieces: 5}]",
                          "other work: [{what: x, minutes: 3, certificate: 10}]", "other work: [{what: x, price: 3, per: minute}]",
                          "learning: {rate: 1.2}", "learning: {rate: 0.9, planned time at piece: 0}"):
                path = os.path.join(work, "p.yaml")
                with open(path, "w", encoding="utf-8") as file:
                    file.write("part: {number: P-1}\nmaterial: C45\noutside: [30 x40]\n" + lines + "\n")
                status, out, err = run("quote", path, "--shop", SHOP)
                self.assertEqual((status, out), (2, ""), lines)
                self.assertRegex(err, r"p.yaml:4:\d+: ")

    def test_an_old_price_marks_the_quote(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write("part: {number: P-1}\nmaterial: C45\noutside: [30 x40]\n")
            for date, old in (("2026-12-16", False), ("2026-12-17", True)):
                text = f"request: {{customer: A, our number: N, date: {date}}}\nparts: [p.yaml]\n"
                out = self.request(work, text)[1]
                self.assertEqual("31 days before the request" in out, old, date)


if __name__ == "__main__":
    unittest.main()
