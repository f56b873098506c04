"""The planner's commands on small weeks: every form of a plan, wrong weeks, lists of orders, booked times."""
import csv
import datetime
import html
import io
import json
import os
import re
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
import icalendar  # noqa: E402
import openpyxl  # noqa: E402
from program import SHOP, folder, run, run_json, sample, text_of  # noqa: E402

WEEK, BOOKED = sample("12-week.yaml"), sample("12-booked.csv")
SMALL = """week: {from: 2026-12-07, to: 2026-12-18, now: "2026-12-07 06:00"}
shifts: [{name: early, from: "06:00", to: "14:00"}]
machines: [{machine: Tarn CNC 1, shifts: [early]}]
people: [{name: Ines, shifts: [early], sets: yes}]
orders: [{order: 7, part: p.yaml, quantity: 20, due: 2026-12-10}]
"""
QUICK = ("--shop", SHOP, "--effort", "0.05")  # where any plan does, the same each time
PART = "part: {number: P-1}\nmaterial: C45\noutside: [30 x40, 40 x20]\n"


class SmallWeeks(unittest.TestCase):
    def test_wrong_weeks_are_named_with_their_places(self):
        cases = [
            (SMALL.replace("2026-12-18", "2026-12-32"), "1:30", "no day"),
            (SMALL.replace("to: 2026-12-18", "to: 2026-12-01"), "1:7", "days"),
            (SMALL.replace('"14:00"', '"14:03"'), "2:43", "steps of 5 minutes"),
            (SMALL.replace("Tarn CNC 1", "Tarn CNC 3"), "3:22", "did you mean 'Tarn CNC 1'"),
            (SMALL.replace("machine: Tarn CNC 1, shifts: [early]", "machine: Tarn CNC 1, shifts: [erly]"), "3:43", "did you mean 'early'"),
            (SMALL.replace("machine: Tarn CNC 1, shifts: [early]", "machine: Tarn CNC 1, shifts: [early, early]"), "3:50", "overlaps another"),
            (SMALL.replace("sets: yes", "sets: maybe"), "4:46", "yes or no"),
            (SMALL.replace("quantity: 20, due", "quantity: -20, due"), "5:45", "-20"),
            (SMALL.replace("quantity: 20, due", "quantity: 20, batches: 21, due"), "5:10", "more batches than pieces"),
            (SMALL.replace("quantity: 20, due", "quantity: 20, overlap: 2, due"), "5:10", "an overlap of 2"),
            (SMALL.replace("orders:", "overtime: {most: 2 h}\norders:"), "5:11", "price"),
            (SMALL.replace("orders:", "subcontracted: {days: some, price: 90 EUR/h}\norders:"), "5:23", "some"),
            (SMALL.replace("shifts: [early]}]\np", "shifts: [early], utilisation: 0}]\np"), "3:12", "utilisation"),
            (SMALL.replace("machines: [", "machines: [{machine: Tarn CNC 1, called: B, shifts: [early]}, ").replace("quantity: 20,", "quantity: 20, machine: B, pin: {operation: 10, machine: Tarn CNC 1, from: 2026-12-09},"), "5:66", "a pin on 'Tarn CNC 1'"),
            (SMALL.replace("p.yaml", "gone.yaml"), "5:27", "there is no part file 'gone.yaml'"),
            (SMALL.replace("orders: [", "orders: [{order: 7, part: p.yaml, quantity: 1, due: 2026-12-10}, "), "5:66", "stands twice"),
        ]
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write(PART)
            path = os.path.join(work, "week.yaml")
            for text, place, what in cases:
                with open(path, "w", encoding="utf-8") as file:
                    file.write(text)
                status, out, err = run("load", path, "--shop", SHOP)
                self.assertEqual((status, out), (2, ""), text + err)
                self.assertIn(f"week.yaml:{place}: ", err)
                self.assertIn(what, err)

    def test_small_weeks(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write(PART)
            path = os.path.join(work, "week.yaml")
            def load(text):
                with open(path, "w", encoding="utf-8") as file:
                    file.write(text)
                return run("load", path, "--shop", SHOP)
            self.assertEqual(load(SMALL)[0], 0)
            self.assertNotIn("Score", load(SMALL)[1])
            self.assertRegex(run("load", path, "--shop", SHOP, "--why")[1], r"(?s)Score\n  lateness.*: 0\.00\n")
            self.assertNotIn("no plan is less late", run("load", path, "--shop", SHOP, "--why")[1])
            self.assertIn("late by", load(SMALL.replace("due: 2026-12-10", "due: 2026-12-06"))[1])  # due before it begins
            self.assertIn("does not fit", load(SMALL.replace("quantity: 20", "quantity: 90000"))[1])
            self.assertEqual(load(SMALL.replace("people: [{name: Ines, shifts: [early], sets: yes}]\n", ""))[0], 0)
            status, out, err = load(SMALL.replace("sets: yes", "sets: no"))
            self.assertEqual((status, out), (2, ""))
            self.assertIn("week.yaml:4:9: nobody can set up a machine", err)
            status, out, err = load(SMALL.replace("orders: [", "orders: [{order: 8, part: gone.yaml, quantity: 1, due: 2026-12-10}, "))
            self.assertEqual(status, 1)
            self.assertIn("1 of 2 orders is not in this plan", err)
            # A week of 53: the last days of 2026.
            self.assertEqual(load(SMALL.replace("2026-12-07", "2026-12-28").replace("2026-12-18", "2027-01-08").replace("2026-12-10", "2027-01-05"))[0], 0)

    def test_held_and_pinned_orders_stand_in_every_form(self):
        text = SMALL.replace("due: 2026-12-10}]", "due: 2026-12-10, pin: {operation: 10, machine: Tarn CNC 1, from: \"2026-12-09 08:00\"}}, "
                                                  "{order: 8, part: p.yaml, quantity: 5, due: 2026-12-10, hold: no drawing yet}]")
        with folder() as work:
            path = os.path.join(work, "week.yaml")
            for name, content in (("p.yaml", PART), ("week.yaml", text)):
                with open(os.path.join(work, name), "w", encoding="utf-8") as file:
                    file.write(content)
            status, out, err = run("load", path, "--shop", SHOP)
            self.assertEqual(status, 0, err)
            self.assertIn("Op 10 is pinned to Wed 9 Dec 08:00", out)
            self.assertRegex(out, r"hours that orders wait: 50\.0 for a pinned beginning\n")
            page, book = os.path.join(work, "w.html"), os.path.join(work, "w.xlsx")
            for to in (page, book):
                self.assertEqual(run("load", path, "--shop", SHOP, "--output", to)[0], 0)
            cells = [str(row[0].value) for row in openpyxl.load_workbook(book)["Orders"].iter_rows()]
            for lines in (text_of(page), "\n".join(cells)):
                self.assertIn("8: no drawing yet", lines)
                self.assertIn("is pinned to Wed 9 Dec 08:00", lines)

    def test_what_cannot_be_planned_stands_in_every_form_with_its_reason(self):
        week = re.sub("orders: .*", "orders: [orders.csv, {order: 7, part: p.yaml, quantity: 20, due: 2026-12-10}, "
                                    "{order: 8, part: p.yaml, quantity: 5, due: 2026-12-11, material: {operation: 70, from: 2026-12-08}}]", SMALL)
        why, row = "order 8: the plan has no operation 70", "orders.csv, line 2: found 'five'"
        with folder() as work:
            self.put(work, "p.yaml", PART)
            self.put(work, "orders.csv", "order,part,quantity,due\n9,p.yaml,five,2026-12-11\n")
            path, made = self.put(work, "w.yaml", week), {}
            for kind in ("txt", "html", "csv", "ics", "json", "xlsx"):
                made[kind] = os.path.join(work, "plan." + kind)
                status, _, err = run("load", path, *QUICK, "--output", made[kind])
                self.assertEqual(status, 1, err)
            self.assertIn(why, err)
            cells = [str(r[0].value) for r in openpyxl.load_workbook(made["xlsx"])["Orders"].iter_rows()]
            events = [e.decoded("dtstart") for e in icalendar.Calendar.from_ical(text_of(made["ics"])).walk("VEVENT")
                      if "not in the plan" in e["summary"]]
            self.assertEqual(events, [datetime.date(2026, 12, 11), datetime.date(2026, 12, 7)])
            told = {"xlsx": "\n".join(cells), "html": html.unescape(text_of(made["html"])), "ics": text_of(made["ics"]).replace("\r\n ", "").replace("\\,", ",")}
            for kind in ("txt", "html", "csv", "ics", "xlsx"):
                for line in (why, row):
                    self.assertIn(line, told.get(kind) or text_of(made[kind]), kind)
            self.assertEqual([o["order"] for o in json.loads(text_of(made["json"]))["left_out"]], ["8", None])
            # The table is read again as the posted plan.
            status, out, err = run("load", path, *QUICK, "--posted", made["csv"])
            self.assertIn("every operation is on its machine at its time", out)

    def test_who_does_what_stands_in_every_form(self):
        week = SMALL.replace("sets: yes}]", "sets: yes}, {name: Lise, shifts: [early], machines: all, sets: no}]")
        with folder() as work:
            self.put(work, "p.yaml", PART)
            path = self.put(work, "w.yaml", week)
            plan = run_json("load", path, "--shop", SHOP)
            self.assertEqual(plan["faults"], [])
            people = {(p["name"], p["does"]) for o in plan["operations"] for p in o["people"]}
            self.assertEqual(people, {("Ines", "setup"), ("Lise", "run")})
            text = run("load", path, "--shop", SHOP)[1]
            for words in ("Sets up", "Attends", "What each person does", "Lise"):
                self.assertIn(words, text)
            made = {}
            for kind in ("csv", "html"):
                made[kind] = os.path.join(work, "plan." + kind)
                run("load", path, "--shop", SHOP, "--output", made[kind])
            self.assertIn("place,state,sets up,attends,waits machine min,", text_of(made["csv"]).splitlines()[0])
            self.assertIn("What each person does", text_of(made["html"]))
            again = run("load", path, "--shop", SHOP, "--posted", made["csv"])
            self.assertIn("nothing", again[1].lower())
            book = os.path.join(work, "plan.xlsx")
            run("load", path, "--shop", SHOP, "--output", book)
            attends = [c for c in openpyxl.load_workbook(book)["Plan"].iter_cols(values_only=True) if "Attends" in c]
            self.assertIn("Lise", attends[0])
            # A machine that nobody sets up.
            self.put(work, "w.yaml", week.replace("sets: yes", "machines: all, sets: no").replace("machines: all, sets: no}]", "sets: yes, machines: []}]"))
            status, out, err = run("load", path, "--shop", SHOP)
            self.assertEqual(status, 2, err)

    def put(self, work, name, text):
        path = os.path.join(work, name)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        return path

    def test_orders_from_a_list_of_text_or_a_workbook(self):
        week = re.sub("orders: .*", "orders: [orders.csv, {order: 7, part: p.yaml, quantity: 20, due: 2026-12-10}]", SMALL)
        rows = [["Auftrag", "Teile-Nr", "Menge", "Termin", "Kunde", "Status", "Farbe"],
                ["8", "P-1", "5", "11.12.2026", "Orrin", "offen", "blau"],
                ["9", "p.yaml", "5", "2026-12-11", "Orrin", "quoted", ""],
                ["10", "P-1", "five", "2026-12-11", "Orrin", "offen", ""],
                ["11", "P-9", "5", "2026-12-11", "Orrin", "offen", ""],
                ["12", "P-1", "5", "2026-12-11", "Orrin", "erledigt", ""]]
        with folder() as work:
            self.put(work, "p.yaml", PART)
            self.put(work, "orders.csv", "\n".join(";".join(row) for row in rows) + "\n")
            path = self.put(work, "w.yaml", week)
            plan_path = os.path.join(work, "plan.json")
            status, out, err = run("load", path, "--shop", SHOP, "--output", plan_path)
            self.assertEqual(status, 1, err)
            self.assertIn("orders.csv:4:8: found 'five'", err)
            self.assertIn("orders.csv:5:4: there is no part file 'P-9'", err)
            self.assertIn("Farbe", err)
            plan = json.loads(text_of(plan_path))
            self.assertEqual({o["number"]: o.get("customer") for o in plan["orders"]}, {"7": None, "8": "Orrin", "9": "Orrin"})
            with open(os.path.join(work, "plan.again.csv"), encoding="utf-8") as file:
                again = list(csv.reader(file))
            self.assertEqual(again[0], ["order", "part", "quantity", "due", "customer", "state", "problem"])
            self.assertEqual([row[0] for row in again[1:]], ["10", "11"])
            # The again-file, mended, is read again.
            again[1][2], again[2][1] = "5", "P-1"
            self.put(work, "orders.csv", "\n".join(",".join('"' + c + '"' for c in row) for row in again) + "\n")
            mended = run_json("load", path, "--shop", SHOP)
            self.assertEqual([o["number"] for o in mended["orders"]], ["10", "11", "7"])
            # A workbook with a day that is a date.
            book = openpyxl.Workbook()
            for row in rows[:2]:
                book.active.append(row)
            book.active["D2"] = datetime.datetime(2026, 12, 11)
            book.save(os.path.join(work, "orders.xlsx"))
            self.put(work, "w.yaml", week.replace("orders.csv", "orders.xlsx"))
            told = run_json("load", path, "--shop", SHOP)
            self.assertEqual([(o["number"], o["due"]) for o in told["orders"]], [("7", "2026-12-10"), ("8", "2026-12-11")])
            # Two part files of one number, and a list that is not there.
            self.put(work, "q.yaml", PART)
            self.assertIn("2 part files have the number 'P-1': p.yaml and q.yaml", run("load", path, "--shop", SHOP)[2])
            self.put(work, "w.yaml", week.replace("orders.csv", "order.csv"))
            status, out, err = run("load", path, "--shop", SHOP)
            self.assertEqual((status, out), (2, ""))
            self.assertIn("no list of orders 'order.csv'", err)

    def test_now_from_the_command_line(self):
        with folder() as work:
            self.put(work, "p.yaml", PART)
            path = self.put(work, "w.yaml", SMALL)
            plan = run_json("load", path, "--shop", SHOP, "--now", "2026-12-08 07:00")
            self.assertGreaterEqual(min(o["setup_start"] for o in plan["operations"]), "2026-12-08T07:00:00")
            for wrong in ("2026-12-08", "soon", "2026-12-08 07:01"):
                status, out, err = run("load", path, "--shop", SHOP, "--now", wrong)
                self.assertEqual((status, out), (2, ""))
                self.assertIn("--now", err)

    def test_a_sheet_for_each_machine_says_what_to_load_and_when_it_is_down(self):
        week = (SMALL.replace("shifts: [early]}]\npeople", "shifts: [early], mounted: [tool centre drill], "
                              "down: [{from: 2026-12-08, to: \"2026-12-08 10:00\", why: new belts}]}]\npeople")
                .replace("quantity: 20, due: 2026-12-10}]", "quantity: 20, due: 2026-12-10, customer: Orrin}, "
                         "{order: 8, part: p.yaml, quantity: 10, due: 2026-12-11}]"))
        with folder() as work:
            self.put(work, "p.yaml", PART.replace("P-1", "P-1, name: pin").replace("outside", "stock: {round: 50, condition: hot rolled}\noutside"))
            path = self.put(work, "w.yaml", week)
            plan = run_json("load", path, "--shop", SHOP)
            first, *others = sorted(plan["operations"], key=lambda o: o["setup_start"])
            self.assertEqual(plan["resources"][0]["down"], [{"from": "2026-12-08T00:00:00", "to": "2026-12-08T10:00:00", "why": "new belts"}])
            # Nothing of the turret is to be loaded, and nothing that is mounted already.
            turret = {"CNC rougher", "centre drill"}
            for operation in plan["operations"]:
                self.assertTrue(turret.isdisjoint(operation["tools_to_load"]))
                self.assertEqual(operation["part"], "P-1")
                self.assertEqual(operation["stock"] is not None, operation["number"] == 10)
            # The same again right behind itself needs nothing.
            same = [o for o, before in zip(others, [first, *others]) if (o["number"], o["order"]) != (before["number"], before["order"]) and o["number"] == before["number"]]
            self.assertTrue(all(not o["tools_to_load"] for o in same))
            plain, full = run("load", path, "--shop", SHOP)[1], run("load", path, "--shop", SHOP, "--full")[1]
            page = os.path.join(work, "w.html")
            run("load", path, "--shop", SHOP, "--output", page)
            for text in (full, text_of(page)):
                for words in ("P-1 pin", "Orrin", "jaws", "round 50 mm", "C45", "ounted: ", "down: new belts"):
                    self.assertIn(words, text)
            self.assertIn("down: new belts", plain)
            self.assertNotIn("round 50 mm", plain)
            self.assertIn("20 pieces of P-1 pin, Orrin", full)
            german = run("load", path, "--shop", SHOP, "--full", "--language", "de")[1]
            self.assertIn("außer Betrieb: new belts", german)

    def test_two_weeks_of_a_longer_plan_are_shown_and_the_rest_is_a_line(self):
        orders = ", ".join(f"{{order: {n}, part: p.yaml, quantity: 60, due: 2026-12-{day}, release: 2026-12-{day - 2:02}}}" for n, day in ((1, 10), (2, 16), (3, 24), (4, 30)))
        week = re.sub("orders: .*", f"orders: [{orders}]", SMALL).replace("2026-12-18", "2027-01-29")
        with folder() as work:
            self.put(work, "p.yaml", PART)
            path = self.put(work, "w.yaml", week)
            plan = run_json("load", path, *QUICK)
            beyond = [o for o in plan["operations"] if o["setup_start"] >= "2026-12-21"]
            within = [o for o in plan["operations"] if o["setup_start"] < "2026-12-21"]
            self.assertTrue(beyond and within)
            line = f"{len(beyond)} operation{'s' * (len(beyond) > 1)} after Fri 18 Dec"
            self.assertEqual(run_json("load", path, *QUICK, "--weeks", "2"), plan)  # the plan is that of everything
            text = run("load", path, *QUICK, "--weeks", "2")[1]
            self.assertIn(line + "\n", text)
            self.assertIn("7 Dec 2026 to 20 Dec 2026", text)
            listed = text[text.index("\nPlan\n"):text.index(line)]
            for o in plan["operations"]:
                self.assertEqual(f"{o['order']} Op {o['number']} " in listed, o in within, text)
            whole = run("load", path, *QUICK)[1]
            self.assertEqual(run("load", path, *QUICK, "--weeks", "100")[1], whole)
            self.assertNotIn("operations after", whole)
            page, book = os.path.join(work, "w.html"), os.path.join(work, "w.xlsx")
            for to in (page, book):
                run("load", path, *QUICK, "--weeks", "2", "--output", to)
            self.assertIn(line, text_of(page))
            self.assertNotIn("24 Dec", text_of(page))
            sheets = openpyxl.load_workbook(book, data_only=True)
            self.assertEqual(sheets["Plan"].max_row, 4 + len(within))
            self.assertIn(line, str(sheets["Plan"]["A2"].value))
            self.assertEqual(sheets["Load"].max_column, 5 + 14)
            self.assertAlmostEqual(sheets["Load"]["C5"].value, 10 * 8)  # of two weeks
            # From now on, wherever it is, to the end of the calendar.
            rolled = run("load", path, *QUICK, "--weeks", "1", "--now", "2026-12-15 06:00")[1]
            self.assertIn("15 Dec 2026 to 21 Dec 2026", rolled)
            self.assertNotIn("operations after", run("load", path, *QUICK, "--weeks", "1", "--now", "2027-01-28 06:00")[1])
            for wrong in ("0", "two", "1.5"):
                status, out, err = run("load", path, *QUICK, "--weeks", wrong)
                self.assertEqual((status, out), (2, ""))
                self.assertIn("--weeks", err)

    def test_the_calendar_holds_what_each_machine_does_where_it_is_asked_for(self):
        week = (SMALL.replace("sets: yes}]", "sets: yes}, {name: Lise, shifts: [early], machines: all, sets: no}]")
                .replace("shifts: [early]}]\npeople", "shifts: [early], down: [{from: 2026-12-08, to: \"2026-12-08 10:00\", why: new belts}]}]\npeople"))
        with folder() as work:
            self.put(work, "p.yaml", PART)
            path = self.put(work, "w.yaml", week)
            plan = run_json("load", path, "--shop", SHOP)
            events = {}
            for kind in ("", "orders", "operations"):
                to = os.path.join(work, f"w{kind}.ics")
                run("load", path, "--shop", SHOP, "--output", to, *(("--events", kind) if kind else ()))
                with open(to, "rb") as file:
                    raw = file.read()
                self.assertTrue(all(len(line) <= 75 for line in raw.split(b"\r\n")))
                events[kind] = [e for e in icalendar.Calendar.from_ical(raw).walk("VEVENT")]
            self.assertEqual([str(e["SUMMARY"]) for e in events[""]], [str(e["SUMMARY"]) for e in events["orders"]])
            self.assertEqual(len(events[""]), 1)
            down = [e for e in events["operations"] if "down" in str(e["SUMMARY"])]
            self.assertEqual([str(e["SUMMARY"]) for e in down], ["Tarn CNC 1: down: new belts"])
            work_of = [e for e in events["operations"] if e not in down]
            self.assertEqual({(e.decoded("DTSTART").isoformat(), e.decoded("DTEND").isoformat()) for e in work_of},
                             {(o["setup_start"], o["end"]) for o in plan["operations"]})
            self.assertEqual(len({str(e["UID"]) for e in events["operations"]}), len(plan["operations"]) + 1)
            # Planned again later with one more order in front, each event is the same, and stands instead of the first.
            more = self.put(work, "m.yaml", week.replace("orders: [", "orders: [{order: 1, part: p.yaml, quantity: 3, due: 2026-12-09}, "))
            for kind in ("orders", "operations"):
                to = os.path.join(work, "again.ics")
                run("load", more, "--shop", SHOP, "--now", "2026-12-07 08:00", "--output", to, "--events", kind)
                with open(to, "rb") as file:
                    again = {str(e["UID"]): e for e in icalendar.Calendar.from_ical(file.read()).walk("VEVENT")}
                self.assertGreater(len(again), len(events[kind]))
                for e in events[kind]:
                    other = again[str(e["UID"])]
                    self.assertEqual(str(other["SUMMARY"]), str(e["SUMMARY"]))
                    self.assertGreater(int(other["SEQUENCE"]), int(e["SEQUENCE"]))
            for e in work_of:
                self.assertEqual(str(e["LOCATION"]), "Tarn CNC 1")
                self.assertIn("sets up: Ines", str(e["DESCRIPTION"]).splitlines())
                self.assertIn("attends: Lise", str(e["DESCRIPTION"]).splitlines())
            status, out, err = run("load", path, "--shop", SHOP, "--events", "machines")
            self.assertEqual((status, out), (2, ""))
            self.assertIn("--events: found 'machines'; expected orders or operations", err)

    def test_what_waits_for_people_says_so_and_hours_lost_are_told_by_order(self):
        machines = "machines: [{machine: Tarn CNC 1, called: A, shifts: [early]}, {machine: Tarn CNC 1, called: B, shifts: [early]}]"
        week = re.sub("machines: .*", machines, SMALL).replace(
            "orders: [{order: 7, part: p.yaml, quantity: 20, due: 2026-12-10}]",
            "orders: [{order: 7, part: p.yaml, quantity: 300, due: 2026-12-07, machine: A}, {order: 8, part: p.yaml, quantity: 300, due: 2026-12-07, machine: B}]")
        with folder() as work:
            self.put(work, "p.yaml", PART)
            for people, ids in (("sets: yes", ("week.begins-when-set-up", "week.left-for-people")),
                                ("machines: all, sets: yes", ("week.begins-when-set-up-by", "week.left-for-people-by"))):
                path = self.put(work, "w.yaml", week.replace("sets: yes", people))
                plan = run_json("load", path, *QUICK)
                found = {r["id"]: r["text"] for o in plan["orders"] for r in o["reasons"]}
                self.assertTrue(found.keys() & set(ids), found)
                if "machines" in people:
                    self.assertTrue(any("Ines" in text for id, text in found.items() if id in ids), found)
                lost = [o["waiting_h"] for o in plan["orders"]]
                for cause, hours in plan["in_work"]["waiting_h"].items():
                    self.assertAlmostEqual(sum(w[cause] for w in lost), hours, places=6)
                self.assertGreater(max(w["people"] for w in lost), 1)
            table, book = os.path.join(work, "w.csv"), os.path.join(work, "w.xlsx")
            for to in (table, book):
                run("load", path, *QUICK, "--output", to)
            for order, waits in zip(plan["orders"], lost):
                rows = [r for r in csv.DictReader(io.StringIO(text_of(table))) if r["order"] == order["number"]]
                self.assertAlmostEqual(sum(int(r["waits people min"]) for r in rows) / 60, waits["people"], places=1)
            heads, *rows = list(openpyxl.load_workbook(book, data_only=True)["Orders"].iter_rows(min_row=4, values_only=True))
            column = heads.index("Waits for people, h")
            self.assertEqual([round(r[column], 3) for r in rows[:2]], [round(w["people"], 3) for w in lost])
            # A second person, and nobody waits.
            path = self.put(work, "w.yaml", week.replace("sets: yes}]", "sets: yes}, {name: Lise, shifts: [early], sets: yes}]"))
            plan = run_json("load", path, *QUICK)
            self.assertLess(plan["in_work"]["waiting_h"]["people"], 1)

    def test_a_list_of_more_orders_than_are_planned_is_refused_whole(self):
        with folder() as work:
            self.put(work, "p.yaml", PART)
            for rows in (10000, 10001):
                # Most of it done: what is left is soon planned.
                text = "order,part,quantity,due,state\n" + "".join(f"{n},p.yaml,20,2026-12-10,done\n" for n in range(rows))
                self.put(work, "orders.csv", text.replace("7,p.yaml,20,2026-12-10,done", "7,p.yaml,20,2026-12-10,won", 1))
                path = self.put(work, "w.yaml", re.sub("orders: .*", "orders: orders.csv", SMALL))
                status, _, err = run("load", path, "--shop", SHOP)
                self.assertEqual(status, 0 if rows == 10000 else 2, err)
            self.assertIn("more than 10,000 orders", err)

    def test_outside_work_stands_as_a_list(self):
        with folder() as work:
            self.put(work, "p.yaml", PART + "other work: [{what: zinc plated, price: 1.20 EUR, days: 3}]\n")
            path = self.put(work, "w.yaml", SMALL)
            plan = run_json("load", path, "--shop", SHOP)
            self.assertEqual([(o["order"], o["what"], o["back"]) for o in plan["outside"]], [("7", ["zinc plated"], plan["orders"][0]["finish"])])
            self.assertRegex(run("load", path, "--shop", SHOP)[1], r"\w+ \d+ Dec \d\d:\d\d: 7 to zinc plated, 20 pieces, due back \w+ \d+ Dec")

    def test_what_is_done_at_midnight_is_done_on_that_day_in_every_form(self):
        # Back from the plater's on Friday evening, the day on which it is due.
        part = PART + "other work: [{what: zinc plated, price: 2 EUR, days: 3}]\n"
        week = SMALL.replace("due: 2026-12-10", "due: 2026-12-11, material: 2026-12-08")
        with folder() as work:
            self.put(work, "p.yaml", part)
            path, made = self.put(work, "w.yaml", week), {}
            for kind in ("txt", "ics", "json", "xlsx"):
                made[kind] = os.path.join(work, "plan." + kind)
                status, _, err = run("load", path, *QUICK, "--output", made[kind])
                self.assertEqual(status, 0, err)
            self.assertIn("Fri 11 Dec 24:00", text_of(made["txt"]))
            order = json.loads(text_of(made["json"]))["orders"][0]
            self.assertEqual((order["finish"], order["finish_day"]), ("2026-12-12T00:00:00", "2026-12-11"))
            done = [r[3].value for r in openpyxl.load_workbook(made["xlsx"])["Orders"].iter_rows() if str(r[0].value) == "7"]
            self.assertEqual([d.date() for d in done], [datetime.date(2026, 12, 11)])
            event = icalendar.Calendar.from_ical(text_of(made["ics"])).walk("VEVENT")[0]
            self.assertEqual(event.decoded("dtstart").date(), datetime.date(2026, 12, 11))

    def test_a_week_from_the_pipe_beside_what_it_would_be(self):
        with folder() as work:
            part = os.path.join(work, "p.yaml")
            with open(part, "w", encoding="utf-8") as file:
                file.write(PART)
            text = SMALL.replace("orders: [", "orders: [{order: 8, part: p.yaml, quantity: 5, due: 2026-12-10}, ")
            status, out, err = run("load", "-", "--without", "8", "--shop", SHOP, stdin=text, cwd=work)
            self.assertEqual(status, 0, err)
            self.assertRegex(out, r"As it is +What if\n")
            for name in ("week.yaml", "other.yaml"):
                with open(os.path.join(work, name), "w", encoding="utf-8") as file:
                    file.write(text)
            self.assertRegex(run("load", "week.yaml", "other.yaml", "--shop", SHOP, cwd=work)[1], r" week\.yaml +other\.yaml\n")

    def test_rated_capacity(self):
        # Two machines, 8 h, 5 days, 80 % utilisation, 90 % efficiency: 57.6, printed as 58 h; and 320 h: 230.4
        # (APICS CPIM practice questions, rated capacity).
        text = (SMALL.replace("2026-12-18", "2026-12-11").replace("quantity: 20", "quantity: 200")
                .replace("machines: [{machine: Tarn CNC 1, shifts: [early]}]",
                         "machines:\n" + "".join(f"  - {{machine: Tarn CNC 1, called: M{i}, shifts: [early], utilisation: 80 %, efficiency: 0.9}}\n" for i in (1, 2))))
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write(PART)
            path = os.path.join(work, "week.yaml")
            def hours(words):
                with open(path, "w", encoding="utf-8") as file:
                    file.write(words)
                week = json.loads(run("load", path, "--shop", SHOP, "--json")[1])
                machines = [r for r in week["resources"] if r["kind"] == "machine"]
                return [sum(d[k] for r in machines for d in r["days"]) / 3600 for k in ("available_s", "used_s")], week
            (there, used), slow = hours(text)
            self.assertAlmostEqual(there, 57.6, places=2)
            (_, plain), fast = hours(text.replace(", utilisation: 80 %, efficiency: 0.9", ""))
            self.assertAlmostEqual(used, plain, delta=0.05 * plain)  # as much work, in steps of five minutes
            self.assertGreater(slow["orders"][0]["finish"], fast["orders"][0]["finish"])

    def test_more_than_the_hours_hold_is_proposed_to_be_subcontracted(self):
        text = SMALL.replace("quantity: 20", "quantity: 2000") + "overtime: {most: 2 h, price: 46 EUR/h}\nsubcontracted: {days: 1, price: 98 EUR/h}\n"
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write(PART)
            path = os.path.join(work, "week.yaml")
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
            status, out, _ = run("load", path, "--shop", SHOP, "--json")
            self.assertEqual(status, 1)
            week = json.loads(out)
            self.assertEqual(week["proposed"]["subcontracted"], ["7"])
            self.assertEqual(week["proposed"]["late_orders"], 0)
            out = run("load", path, "--shop", SHOP)[1]
            self.assertIn("Proposed, not in the plan", out)
            self.assertIn("subcontracted: 7", out)

    def test_a_proposal_saves_somebody_and_says_who_is_done_when(self):
        orders = """orders:
  - {order: 7, part: p.yaml, quantity: 600, due: 2026-12-08}
  - {order: 8, part: p.yaml, quantity: 500, due: 2026-12-10}
  - {order: 9, part: p.yaml, quantity: 300, due: 2026-12-14}
"""
        overtime = SMALL[:SMALL.index("orders:")] + "overtime: {most: 2 h, price: 46 EUR/h}\n" + orders
        with folder() as work:
            self.put(work, "p.yaml", PART)
            path = self.put(work, "w.yaml", overtime)
            plan = json.loads(run("load", path, "--shop", SHOP, "--json")[1])
            late = {o["number"] for o in plan["orders"] if o["late_days"]}
            self.assertEqual(late, {"7", "8"})
            then = {o["number"]: o for o in plan["proposed"]["orders"]}
            self.assertLessEqual(late, set(then))
            self.assertEqual(plan["proposed"]["late_orders"], sum(o["late_days"] > 0 for o in then.values()))
            self.assertLess(plan["proposed"]["late_orders"], len(late))
            page = os.path.join(work, "w.html")
            out = run("load", path, "--shop", SHOP)[1]
            run("load", path, "--shop", SHOP, "--output", page)
            for number, order in then.items():
                done = datetime.datetime.fromisoformat(order["finish"])
                line = rf"{number}: (on time|late by [\d.]+ (hours?|days?)), done \w+ {done.day} Dec {done:%H:%M}"
                self.assertRegex(out, line)
                self.assertRegex(text_of(page), line)
            # Another firm that takes a week saves nobody.
            path = self.put(work, "w.yaml", overtime.replace("overtime: {most: 2 h, price: 46 EUR/h}", "subcontracted: {days: 6, price: 98 EUR/h}")
                            .replace("quantity: 300, due: 2026-12-14", "quantity: 300, due: 2026-12-11"))
            plan = json.loads(run("load", path, "--shop", SHOP, "--json")[1])
            self.assertIsNone(plan["proposed"])

    def test_a_promise_is_a_place_in_the_posted_plan(self):
        # What is posted on the only machine for today stays there; the part fits before it.
        week = SMALL.replace("quantity: 20, due: 2026-12-10", "quantity: 600, due: 2026-12-17")
        with folder() as work:
            self.put(work, "p.yaml", PART)
            q = self.put(work, "q.yaml", PART.replace("P-1", "Q-1").replace("[30 x40, 40 x20]", "[20 x30]"))
            path, plan = self.put(work, "w.yaml", week), os.path.join(work, "plan.csv")
            self.assertEqual(run("load", path, "--shop", SHOP, "--output", plan)[0], 0)
            finish = run_json("load", path, "--shop", SHOP)["orders"][0]["finish"]
            first = run_json("load", path, "--shop", SHOP)["operations"][0]["end"]
            promised = run_json("promise", path, q, "5", "--shop", SHOP, "--posted", plan)
            self.assertGreater(promised["planned"], first)
            day = promised["date"][:10]
            entered = self.put(work, "w.yaml", week.replace("orders: [", f"orders: [{{order: 9, part: q.yaml, quantity: 5, due: {day}}}, "))
            with_it = json.loads(run("load", entered, "--shop", SHOP, "--posted", plan, "--json")[1])
            self.assertEqual([o["late_days"] for o in with_it["orders"]], [0, 0])
            # What is booked is done: the promise counts it no more.
            path = self.put(work, "w.yaml", week)
            booked = self.put(work, "b.csv", "order,operation,machine,person,kind,start,end,good,scrap,note\n" + "".join(
                f"7,{n},Tarn CNC 1,Ines,run,2026-12-07 06:0{n // 10},2026-12-07 07:00,600,0,\n" for n in (10, 20)))
            sooner = run_json("promise", path, q, "5", "--shop", SHOP, "--booked", booked)
            self.assertLess(sooner["planned"], promised["planned"])
            self.assertLess(sooner["planned"], finish)

    def test_nobody_is_listed_in_two_places_at_once(self):
        # Ines attends a lathe, leaves it to set up the other, and comes back.
        week = SMALL.replace("machines: [", "machines: [{machine: Tarn CNC 1, called: B, shifts: [early]}, ").replace(
            "orders: [", "orders: [{order: 8, part: p.yaml, quantity: 30, due: 2026-12-07, importance: 9, pin: {operation: 10, machine: B, from: \"2026-12-07 07:30\"}}, ").replace(
            "quantity: 20,", "quantity: 300, machine: Tarn CNC 1,").replace(
            "sets: yes}]", "machines: all, sets: yes}, {name: Lise, shifts: [noon], machines: all, sets: no}]").replace(
            "shifts: [{name", "shifts: [{name: noon, from: \"08:10\", to: \"14:00\"}, {name")
        with folder() as work:
            self.put(work, "p.yaml", PART)
            out = run("load", self.put(work, "w.yaml", week), "--shop", SHOP)[1]
            lists = out[out.index("What each person does"):]
            self.assertIn("sets up", lists)
            last = {}
            for person in re.split(r"(?m)^  (?=\w+$)", lists)[1:]:
                until = None
                for a, b, does in re.findall(r"\w{3} +(\d+ Dec \d\d:\d\d) +\w{3} +(\d+ Dec \d\d:\d\d) .* (sets up|attends, 100 %)", person):
                    if until:
                        self.assertGreaterEqual(a.rjust(12), until, person)
                    until = b.rjust(12)
                    last[does] = b
            self.assertEqual(set(last), {"sets up", "attends, 100 %"})

    def test_planned_again_after_a_breakdown(self):
        with folder() as work:
            with open(os.path.join(work, "p.yaml"), "w", encoding="utf-8") as file:
                file.write(PART)
            path, plan = os.path.join(work, "week.yaml"), os.path.join(work, "plan.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write(SMALL)
            self.assertEqual(run("load", path, "--shop", SHOP, "--output", plan)[0], 0)
            _, out, err = run("load", path, "--shop", SHOP, "--posted", plan)
            self.assertIn("nothing: every operation is on its machine at its time", out)
            with open(path, "w", encoding="utf-8") as file:
                file.write(SMALL.replace("shifts: [early]}]\npeople", "shifts: [early], down: [{from: 2026-12-07, to: 2026-12-09}]}]\npeople"))
            _, out, err = run("load", path, "--shop", SHOP, "--posted", plan)
            moved = "7 Op 10: begins Thu 10 Dec 06:00 instead of Mon 7 Dec 06:00, on Tarn CNC 1"
            self.assertIn(moved, out)
            self.assertNotIn(moved, err)
            # In every form that a planner reads, and beside those that he does not.
            self.assertIn(moved, [change["text"] for change in run_json("load", path, "--shop", SHOP, "--posted", plan)["changes"]])
            self.assertIsNone(run_json("load", path, "--shop", SHOP)["changes"])
            page, table = os.path.join(work, "week.html"), os.path.join(work, "again.csv")
            self.assertIn(moved, run("load", path, "--shop", SHOP, "--posted", plan, "--output", table)[2])
            run("load", path, "--shop", SHOP, "--posted", plan, "--output", page)
            self.assertIn(moved, text_of(page))
            with open(plan, "a", encoding="utf-8") as file:
                file.write("nonsense\n")
            status, _, err = run("load", path, "--shop", SHOP, "--posted", plan)
            self.assertEqual(status, 2)
            self.assertIn("no line of a plan", err)


class OnTheOffer(unittest.TestCase):
    def test_an_option_stands_in_the_plan_in_place_of_its_line(self):
        with folder() as work:
            request = os.path.join(work, "request.yaml")
            # What comes after neither has its week later.
            lines = "{part: p.yaml, quantities: [900]}", "{part: p.yaml, option: once more, quantities: [900]}", "{part: q.yaml, quantities: [900]}"
            weeks = []
            for parts in (lines, (lines[0], lines[2])):
                for name in ("p.yaml", "q.yaml"):
                    with open(os.path.join(work, name), "w", encoding="utf-8") as file:
                        file.write(PART.replace("P-1", name[0]))
                with open(request, "w", encoding="utf-8") as file:
                    file.write("request: {customer: A, our number: N, date: 2026-12-07}\n"
                               f"parts: [{', '.join(parts)}]\nshow: delivery week\n")
                with open(os.path.join(work, "week.yaml"), "w", encoding="utf-8") as file:
                    file.write(SMALL.replace("2026-12-18", "2027-03-31"))
                status, page, err = run("offer", request, "--shop", SHOP, "--week", os.path.join(work, "week.yaml"))
                self.assertEqual(status, 0, err)
                weeks.append(re.findall(r"Delivery week: (\S+)", page))
            self.assertEqual(weeks[0][0], weeks[0][1])
            self.assertEqual([weeks[0][0], weeks[0][2]], weeks[1])
            self.assertEqual(run("offer", request, "--shop", SHOP, "--week", request)[0], 2)


class Actuals(unittest.TestCase):
    def test_a_proposal_that_holds_only_in_the_shop_folder(self):
        with folder() as work:
            files = []
            for name in ("a.yaml", "b.yaml"):
                path = os.path.join(work, name)
                status, out, err = run("actuals", WEEK, BOOKED, "--shop", SHOP, "--output", path)
                self.assertEqual(status, 0, err)
                files.append(text_of(path))
            self.assertEqual(files[0], files[1])
            self.assertIn("What the factors would have done", out)
            self.assertRegex(files[0], r'"own records, \d+ orders, to 2026-12-12"')
            shop = os.path.join(work, "shop")
            os.mkdir(shop)
            for name, text in (("shop.yaml", text_of(os.path.join(SHOP, "shop.yaml"))), ("corrections.yaml", files[0])):
                with open(os.path.join(shop, name), "w", encoding="utf-8") as file:
                    file.write(text)
            part = sample("01-winch-spindle.yaml")
            before, after = (run_json("quote", part, "--shop", s) for s in (SHOP, shop))
            factor = float(re.search(r'machine: Tarn CNC 1, of: running, factor: ([\d.]+)', files[0]).group(1))
            self.assertAlmostEqual(after["times"]["cycle_per_part_s"] / before["times"]["cycle_per_part_s"], factor, places=6)
            # What was proposed once is not proposed on top of itself.
            path = os.path.join(work, "again.yaml")
            run("actuals", WEEK, BOOKED, "--shop", shop, "--output", path)
            self.assertEqual(text_of(path), files[0])

    def test_wrong_bookings(self):
        with folder() as work:
            path = os.path.join(work, "b.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write(text_of(BOOKED) + "134,10,Tarn CNC 1,Ines,runn,2026-12-13T06:00,2026-12-13T07:00,5,0,\n")
            status, out, err = run("actuals", WEEK, path, "--shop", SHOP)
            self.assertEqual(status, 1)
            self.assertIn("did you mean 'run'", err)
            self.assertEqual(out.split("\n", 1)[1], run("actuals", WEEK, BOOKED, "--shop", SHOP)[1].split("\n", 1)[1])
            with open(path, "w", encoding="utf-8") as file:
                file.write("order,machine\n1,2\n")
            status, out, err = run("actuals", WEEK, path, "--shop", SHOP)
            self.assertEqual((status, out), (2, ""))
            self.assertIn("lacks the column 'operation'", err)

    def test_columns_stay_apart_at_ten_thousand_percent(self):
        with folder() as work:
            with open(os.path.join(work, "pin.yaml"), "w", encoding="utf-8") as file:
                file.write("part: {number: X, name: pin}\nmaterial: C45\nstock: {round: 30, condition: drawn}\nquantities: [10]\noutside: [20 x30, 25 x20]\n")
            path = os.path.join(work, "w.yaml")
            with open(path, "w", encoding="utf-8") as file:
                file.write("week: {from: 2026-12-07, to: 2026-12-07}\nshifts: [{name: early, from: '06:00', to: '06:10'}]\n"
                           "machines: [{machine: Tarn CNC 1, shifts: early}]\norders: [{order: A, part: pin.yaml, quantity: 5000, due: 2026-12-07}]\n")
            status, out, err = run("load", path, "--shop", SHOP)
            self.assertEqual(status, 1, err)
            # Columns right-aligned under their headings, two blanks between them.
            lines = out.splitlines()
            at = [i for i, line in enumerate(lines) if line.startswith("Hours required")][0]
            head, row = lines[at + 1:at + 3]
            self.assertRegex(row, r"^  Tarn CNC 1 {2,}\d[\d.,]* {2,}\d[\d.,]* {2,}\d{2,3},\d{3} % {2,}0\.0$")
            self.assertEqual(len(head), len(row))


if __name__ == "__main__":
    unittest.main()
