"""The planner's commands on the sample week of forty orders; what small weeks show is in small_week_test.py."""
import csv
import datetime
import io
import json
import os
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
import icalendar  # noqa: E402
import openpyxl  # noqa: E402
from program import SHOP, folder, run, run_json, sample, text_of  # noqa: E402
from small_week_test import BOOKED, PART, WEEK  # noqa: E402


class Load(unittest.TestCase):
    def test_the_sample_week_in_every_form(self):
        week = run_json("load", WEEK, "--shop", SHOP)
        self.assertEqual(week["faults"], [])
        self.assertEqual(len(week["orders"]), 41)  # forty, one of them in two batches
        self.assertTrue({"134.1", "134.2"} < {o["number"] for o in week["orders"]})
        self.assertLess(week["score"]["lower_bound"], week["score"]["value"] + 1e-6)
        self.assertGreater(week["in_work"]["orders"], 1)
        late = [o for o in week["orders"] if o["late_days"] > 0]
        self.assertTrue(late and all(o["reasons"] and o["would_help"] for o in late))
        # One thing at a time on each machine, told from the JSON alone.
        ends = {}
        for op in sorted(week["operations"], key=lambda o: o["setup_start"]):
            self.assertGreaterEqual(op["setup_start"], ends.get(op["resource"], ""))
            self.assertLessEqual(op["setup_start"], op["start"])
            self.assertLessEqual(op["start"], op["end"])
            ends[op["resource"]] = op["end"]
        status, text, err = run("load", WEEK, "--shop", SHOP)
        self.assertEqual(status, 1, err)
        for words in ("Hours required and available", "Plan", "What each late order waits for", "tried: put first", "Due out"):
            self.assertIn(words, text)
        self.assertTrue(text.startswith("Late orders, and what saves them"), text[:80])
        with folder() as work:
            files = {kind: os.path.join(work, "week." + kind) for kind in ("html", "csv", "ics", "json")}
            for kind, path in files.items():
                jobs = ("--jobs", "1") if kind == "json" else ()
                self.assertEqual(run("load", WEEK, "--shop", SHOP, "--output", path, *jobs)[0], 1)
            book_path = os.path.join(work, "week.xlsx")
            self.assertEqual(run("load", WEEK, "--shop", SHOP, "--output", book_path)[0], 1)
            book = openpyxl.load_workbook(book_path)
            self.assertEqual(book.sheetnames, ["Load", "Orders", "Plan"])
            self.assertTrue(str(book["Load"]["B5"].value).startswith("=SUM("))
            cached = openpyxl.load_workbook(book_path, data_only=True)
            days = sum(c.value for row in cached["Load"].iter_rows(min_row=6) if row[0].value == cached["Load"]["A5"].value
                       for c in row[5:])
            self.assertAlmostEqual(cached["Load"]["B5"].value, days, places=6)
            self.assertEqual(cached["Plan"].max_row, 4 + len(week["operations"]))
            # Moments are moments, to reckon with.
            heads, *work = cached["Plan"].iter_rows(min_row=4, values_only=True)
            at = {head: i for i, head in enumerate(heads)}
            begins = sorted(row[at["Setup from"]] for row in work)
            self.assertTrue(all(row[at["Clamping"]] and row[at["Pieces"]] > 0 for row in work))
            self.assertIn("parting tool 3", "; ".join(row[at["Tools to load"]] or "" for row in work))
            wanted = sorted(datetime.datetime.fromisoformat(op["setup_start"]) for op in week["operations"])
            self.assertTrue(all(abs(a - b) < datetime.timedelta(seconds=1) for a, b in zip(begins, wanted, strict=True)))
            self.assertEqual(cached["Orders"]["C5"].value.date().isoformat(), week["orders"][0]["due"][:10])
            # The same plan with one chain at a time as with all cores.
            self.assertEqual(json.loads(text_of(files["json"])), week)
            rows = list(csv.DictReader(io.StringIO(text_of(files["csv"]))))
            self.assertEqual(len(rows), len(week["operations"]))
            with open(files["ics"], "rb") as file:
                raw = file.read()
            self.assertTrue(all(len(line) <= 75 for line in raw.split(b"\r\n")))
            events = [e for e in icalendar.Calendar.from_ical(raw).walk("VEVENT")]
            # What ends at midnight stands on the day that it ends.
            finish = sorted(o["finish_day"] + ("T23:59:00" if o["finish"][11:] == "00:00:00" else o["finish"][10:])
                            for o in week["orders"] if o["finish"])
            self.assertEqual(sorted(e.decoded("DTSTART").strftime("%Y-%m-%dT%H:%M:%S") for e in events), finish)
            self.assertNotIn("<script", text_of(files["html"]))

    def test_hours_are_those_of_the_shifts(self):
        week = run_json("load", WEEK, "--shop", SHOP)
        by_name = {r["name"]: {d["date"]: d["available_s"] / 3600 for d in r["days"]} for r in week["resources"]}
        self.assertEqual(by_name["Tarn geared lathe"]["2026-12-08"], 7.25)
        self.assertEqual(by_name["Tarn geared lathe"]["2026-12-25"], 0)  # a holiday
        self.assertEqual(by_name["Tarn bar lathe"]["2026-12-12"], 6)     # a Saturday
        self.assertEqual(by_name["Tarn CNC 2"]["2026-12-10"], 7.5)       # service until 14:00
        self.assertEqual(by_name["people"]["2026-12-14"], 2 * 7.25 + 2 * 7.5)  # Jonas is away

    def test_booked_where_the_plan_makes_it_not(self):
        with folder() as work:
            booked = os.path.join(work, "booked.csv")
            with open(BOOKED, encoding="utf-8") as file:
                head, *rows = file.read().splitlines()
            after = ("--now", max(row.split(",")[6] for row in rows).replace("T", " ")[:15] + "5")
            # Nothing came after it on that machine.
            rows = [row for row in rows if row.startswith(("132,", "134,"))]
            with open(booked, "w", encoding="utf-8") as file:
                file.write("\n".join([head, *rows]) + "\n")
            status, out, err = run("load", WEEK, "--booked", booked, "--shop", SHOP, *after, "--json")
            self.assertEqual(status, 1, err)
            self.assertIn("132", {o["number"] for o in json.loads(out)["orders"]})
            self.assertIn("order 132 runs on Tarn geared lathe 2, which is not planned for it: Tarn geared lathe: the work", err)
            self.assertNotIn("did you mean '134'", err)
            self.assertNotIn("is not in this plan", err)
            self.assertEqual(run("load", WEEK, "--booked", booked, "--shop", SHOP, "--output", booked)[0], 2)
            self.assertIn("132,10", text_of(booked))
            status, out, err = run("load", WEEK, "--booked", BOOKED, "--shop", SHOP, *after, "--json")
            # Nor does one vanish whose work was interrupted in an operation that only some machines have.
            self.assertLess({"132", "135", "141", "143"}, {o["number"] for o in json.loads(out)["orders"]}, err)


class Promise(unittest.TestCase):
    def test_a_date_and_its_reasons(self):
        part = sample("01-winch-spindle.yaml")
        day = lambda t: datetime.datetime.fromisoformat(t)  # noqa: E731
        with folder() as work:
            plan = os.path.join(work, "plan.csv")
            run("load", WEEK, "--shop", SHOP, "--output", plan)
            posted = ("--shop", SHOP, "--posted", plan)
            with_posted = run_json("promise", WEEK, part, "20", *posted)
            self.assertEqual(with_posted, run_json("promise", WEEK, part, "20", *posted, "--jobs", "1"))
            self.assertIn("the date to promise", run("promise", WEEK, part, "20", *posted)[1])
            self.assertEqual(run("promise", WEEK, part, "some", *posted)[0], 2)
            self.assertEqual(run("promise", WEEK, part, "900000", *posted)[0], 1)
            large = run_json("promise", WEEK, part, "60", *posted)
            for date in large["with_overtime"]:
                self.assertLess(date["date"], large["date"])
            quote = run_json("quote", part, *posted, "--week", WEEK)
            self.assertEqual(quote["delivery"]["values"]["quantity"], 250)
            self.assertIn("80 % confidence", quote["delivery"]["text"])
            self.assertIn("delivery: 250 on ", run("quote", part, *posted, "--week", WEEK)[1])
            plan_anew = run_json("promise", WEEK, part, "20", "--shop", SHOP)
            for answer in (with_posted, plan_anew):
                self.assertLessEqual(answer["p50"], answer["p80"])
                self.assertLessEqual(answer["p80"], answer["p95"])
                self.assertEqual(answer["date"], answer["p80"])
                # Times lie farther up than down, and a weekend may be between the two.
                away = day(answer["p50"]) - day(answer["planned"])
                days = (day(answer["planned"]) + datetime.timedelta(days=n) for n in range(1, away.days + 2))
                closed = datetime.timedelta(days=sum(d.weekday() >= 5 for d in days))
                self.assertLess(abs(away - min(closed, away)), datetime.timedelta(days=1.5))


class OnTheOffer(unittest.TestCase):
    def test_delivery_weeks_come_from_the_plan(self):
        with folder() as work:
            part, request = os.path.join(work, "p.yaml"), os.path.join(work, "request.yaml")
            with open(part, "w", encoding="utf-8") as file:
                file.write(PART)
            with open(request, "w", encoding="utf-8") as file:
                file.write("request: {customer: A, our number: N, date: 2026-12-07}\n"
                           "parts: [{part: p.yaml, quantities: [5, 40]}, {part: p.yaml, quantities: [5], week: 2027-W20}]\nshow: delivery week\n")
            status, page, err = run("offer", request, "--shop", SHOP, "--week", WEEK)
            self.assertEqual(status, 0, err)
            date = datetime.datetime.fromisoformat(run_json("promise", WEEK, part, "40", "--shop", SHOP)["date"])
            year, week, _ = date.isocalendar()
            self.assertIn(f"Delivery week: {year}-W{week:02}", page)
            self.assertIn("Delivery week: 2027-W20", page)
            self.assertNotIn("Delivery week", run("offer", request, "--shop", SHOP)[1].split("2027-W20")[0].rsplit("1. P-1", 1)[1].split("2. P-1")[0])


if __name__ == "__main__":
    unittest.main()
