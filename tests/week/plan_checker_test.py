"""Sixty invented weeks, each plan checked from the JSON alone; and a plan damaged for each rule, which the checker
finds."""
import copy
import csv
import datetime
import json
import os
import re
import subprocess
import sys
import unittest
from multiprocessing.pool import ThreadPool

import yaml

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
sys.path.insert(0, os.path.join(ROOT, "tests", "week"))
import made_weeks  # noqa: E402
from plan_checker import Checker, as_list, by_bookings  # noqa: E402
from program import PROGRAM, SAMPLES, SANITIZED, SHOP, folder, run, text_of  # noqa: E402

WEEKS = 12 if SANITIZED else 60


class Quotes:
    """By part, quantity, repeat, machine and method; those of a plan are asked for together."""

    def __init__(self, work):
        self.work, self.known, self.wanted = work, {}, {}

    def want(self, week, plan):
        orders, machines = {}, {m.get("called", m["machine"]): m["machine"] for m in week["machines"]}
        for order in week["orders"]:
            for name in [str(order["order"])] + [f"{order['order']}.{b + 1}" for b in range(order.get("batches", 1))]:
                orders[name] = order
        for op in plan["operations"]:
            order = orders[op["order"]]
            repeat = order.get("repeat") == "yes" or order.get("state") == "running"
            key = (order["part"], order["quantity"], repeat, machines[op["resource"]], op["method"])
            if key not in self.known:
                self.wanted.setdefault(key[3:], set()).add(key)

    def fetch(self):
        """Two machines and methods at a time."""
        groups = sorted(self.wanted.items())
        self.wanted = {}
        for i in range(0, len(groups), 2):
            started = [(keys, self.start(machine, method, keys)) for (machine, method), keys in groups[i:i + 2]]
            for keys, process in started:
                out, err = process.communicate()
                # One document a line; of a single part it is written over many.
                for text in [out] if len(keys) == 1 else out.splitlines():
                    quote = json.loads(text)
                    self.known[self.by_number[quote["part"]["number"]]] = quote
                for key in keys:
                    if key not in self.known:
                        raise AssertionError(f"no quote of {key}: {err}")

    def start(self, machine, method, keys):
        self.by_number = getattr(self, "by_number", {})
        paths = []
        for key in sorted(keys):
            part, quantity, repeat = key[:3]
            number = f"K{len(self.by_number)}"
            self.by_number[number] = key
            text = re.sub(r"number: [^,}]+", f"number: {number}", text_of(os.path.join(SAMPLES, part)), count=1)
            text = re.sub(r"(?m)^quantities:.*$", f"quantities: [{quantity}]", text, count=1)
            text = text.replace("order: new", "order: repeat") if repeat else text
            paths.append(os.path.join(self.work, number + ".yaml"))
            with open(paths[-1], "w", encoding="utf-8") as file:
                file.write(text)
        words = [PROGRAM, "quote", *paths, "--shop", SHOP, "--machine", machine, "--method", method, "--json"]
        return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    def of(self, part, quantity, repeat, machine, method):
        return self.known.get((part, quantity, repeat, machine, method))


def mounted_tools():
    with open(os.path.join(SHOP, "shop.yaml"), encoding="utf-8") as file:
        shop = yaml.safe_load(file)
    return {m["name"]: set(m.get("mounted tools", [])) for m in shop["machines"]}


TOOLS = mounted_tools()


class Plans(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.work = folder()
        cls.quotes = Quotes(cls.work.name)
        cls.made = [(seed, made_weeks.week(seed)) for seed in range(WEEKS)]
        with ThreadPool(2) as two:
            plans = two.map(lambda made: cls.planned(made[1], f"week{made[0]}", "--jobs", "1"), cls.made)
        cls.plans = {seed: plan for (seed, _), plan in zip(cls.made, plans)}
        for seed, week in cls.made:
            cls.quotes.want(week, cls.plans[seed])
        cls.quotes.fetch()

    @classmethod
    def tearDownClass(cls):
        cls.work.cleanup()

    @classmethod
    def planned(cls, week, name, *more):
        told = copy.deepcopy(week)
        for order in told["orders"]:
            order["part"] = os.path.join(SAMPLES, order["part"])
        path = os.path.join(cls.work.name, name + ".yaml")
        with open(path, "w", encoding="utf-8") as file:
            yaml.safe_dump(told, file, sort_keys=False)
        status, out, err = run("load", path, "--shop", SHOP, "--json", "--effort", "0.05", *more)
        if status not in (0, 1) or not out:
            raise AssertionError(f"{name}: {status} {err}")
        return json.loads(out)

    def faults(self, week, plan):
        return Checker(week, plan, self.quotes.of, lambda machine: TOOLS[machine]).faults()

    def test_every_plan_keeps_every_rule(self):
        operations = late = 0
        found = []
        for seed, week in self.made:
            plan = self.plans[seed]
            self.assertEqual(plan["faults"], [])
            found += [f"week {seed}: {fault}" for fault in self.faults(week, plan)]
            operations += len(plan["operations"])
            late += sum(1 for o in plan["orders"] if o["late_days"] is None or o["late_days"] > 0)
        self.assertEqual(found, [])
        self.assertGreater(operations, 12 * WEEKS)
        self.assertGreater(late, WEEKS // 2)  # tight ones are among them

    def test_plans_of_booked_weeks_keep_them_too(self):
        week, rows = booked_week(), booked_rows()
        path = os.path.join(self.work.name, "booked.csv")
        with open(path, "w", encoding="utf-8") as file:
            table = csv.DictWriter(file, "order operation machine person kind start end good scrap note".split())
            table.writeheader()
            table.writerows(rows)
        plan = self.planned(week, "booked", "--booked", path)
        stands = by_bookings(week, rows)
        self.quotes.want(stands, plan)
        self.quotes.fetch()
        self.assertEqual(self.faults(stands, plan), [])
        self.assertTrue(plan["short"] and [o for o in plan["outside"] if o["out"] < "2026-12-08"])
        for rule, damage in (("short", lambda p: p["short"].clear()), ("sent out", lambda p: p["outside"].pop(0)),
                             ("outside", back_on_the_day_that_it_left), ("pieces", one_piece_more),
                             ("day", done_a_day_later), ("setup", proved_once_more)):
            other = copy.deepcopy(plan)
            damage(other)
            self.assertIn(rule, [fault.split(":")[0] for fault in self.faults(stands, other)], rule)

    def damaged(self, rule, damage):
        """Some plan can be damaged so, and each that is shows the rule."""
        tried = 0
        for seed, week in self.made:
            other, plan = copy.deepcopy(week), copy.deepcopy(self.plans[seed])
            if not damage(other, plan):
                continue
            found = self.faults(other, plan)
            self.assertTrue(any(f.startswith(rule + ":") for f in found), f"week {seed}: {rule} not in {found[:4]}")
            tried += 1
            if tried == 5:
                break
        self.assertGreater(tried, 0, rule)

    @unittest.skipIf(SANITIZED, "too few weeks for every damage")
    def test_damaged_plans_are_found(self):
        for rule, damage in DAMAGES:
            with self.subTest(rule=rule, damage=damage.__name__):
                self.damaged(rule, damage)


def moved(op, minutes):
    for key in ("setup_start", "start", "end"):
        op[key] = (datetime.datetime.fromisoformat(op[key]) + datetime.timedelta(minutes=minutes)).isoformat()


def of_order(plan, number):
    return sorted((o for o in plan["operations"] if o["order"] == number), key=lambda o: o["number"])


def two_at_a_time(week, plan):
    on = sorted((o for o in plan["operations"] if o["resource"] == "Tarn CNC 1"), key=lambda o: o["setup_start"])
    if len(on) < 2 or on[0]["setup_start"] == on[0]["end"]:
        return False
    on[1]["setup_start"] = on[0]["setup_start"]
    return True


def at_night(week, plan):
    for op in plan["operations"]:
        if op["resource"] == "Tarn CNC 1" and op["run_s"] > 0:
            begins = datetime.datetime.fromisoformat(op["setup_start"])
            moved(op, (23 - begins.hour) * 60)
            return True
    return False


def a_holiday(week, plan):
    op = max(plan["operations"], key=lambda o: o["run_s"])
    if op["setup_start"][:10] != op["end"][:10]:
        return False
    week["holidays"] = as_list(week.get("holidays")) + [op["start"][:10]]
    return True


def is_down(week, plan):
    op = max(plan["operations"], key=lambda o: o["run_s"])
    machine = [m for m in week["machines"] if m.get("called", m["machine"]) == op["resource"]][0]
    machine["down"] = as_list(machine.get("down")) + [{"from": op["start"][:16].replace("T", " "),
                                                       "to": op["end"][:16].replace("T", " ")}]
    return True


def nobody_there(week, plan):
    if len(week.get("people", [])) < 2 or by_name(week):
        return False
    week["people"] = week["people"][:1]
    week["people"][0]["away"] = []
    return sum(o["run_s"] for o in plan["operations"]) > 3600 * 100


def cannot_set(week, plan):
    setters = [p for p in week.get("people", []) if p["sets"] == "yes" and not by_name(week)]
    for person in setters:
        person["sets"] = "no"
    return bool(setters) and any(o["setup_s"] > 0 for o in plan["operations"])


def material_comes_later(week, plan):
    for order in week["orders"]:
        ops = of_order(plan, str(order["order"]))
        if len(ops) > 1 and ops[1]["run_s"] > 0 and plan_done(plan, order):
            order["material"] = {"operation": ops[1]["number"], "from": ops[1]["end"][:16].replace("T", " ")}
            return True
    return False


def not_sent_out(week, plan):
    for sent in list(plan["outside"]):
        if is_done(plan, sent["order"]):
            plan["outside"].remove(sent)
            return True
    return False


def is_done(plan, name):
    return any(o["number"] == name and o["finish"] is not None for o in plan["orders"])


def back_too_soon(week, plan):
    for sent in plan["outside"]:
        if is_done(plan, sent["order"]):
            sent["back"] = sent["out"]
            return True
    return False


def operation_forbidden(week, plan):
    op = plan["operations"][0]
    for order in week["orders"]:
        if str(order["order"]) == op["order"].split(".")[0]:
            order["not on"] = {"operation": op["number"], "machine": op["resource"]}
            return True
    return False


def saturday_after_all(week, plan):
    """The shift was worked on no day."""
    once = [s for s in week["shifts"] if s["name"] == "once"]
    if not once:
        return False
    once[0]["days"] = [day_before(week)]
    return any(op["setup_start"][:10] == made_weeks.day(5) and op["run_s"] > 0 and on_that_shift(week, op) for op in plan["operations"])


def day_before(week):
    return (datetime.date.fromisoformat(str(week["week"]["from"])) - datetime.timedelta(days=1)).isoformat()


def on_that_shift(week, op):
    return any(m.get("called", m["machine"]) == op["resource"] and "once" in m["shifts"] for m in week["machines"])


def by_name(week):
    return any("machines" in p for p in week.get("people", []))


def has_unlearned(week, plan):
    for op in plan["operations"]:
        for stint in op.get("people", []):
            for person in week["people"]:
                if person["name"] == stint["name"]:
                    person["machines"] = person["sets"] = [m for m in ("Tarn bar lathe", "Tarn CNC 1") if m != op["resource"]][:1]
                    return True
    return False


def is_away(week, plan):
    for op in plan["operations"]:
        for stint in op.get("people", []):
            for person in week["people"]:
                if person["name"] == stint["name"]:
                    person["away"] = as_list(person.get("away")) + [{"from": stint["from"][:10], "to": stint["to"][:10]}]
                    return True
    return False


def nobody_said(week, plan):
    for op in plan["operations"]:
        if op.get("people"):
            op["people"].pop()
            return True
    return False


def all_by_one(week, plan):
    """Edda does what she can all at once."""
    if not by_name(week):
        return False
    for op in plan["operations"]:
        for stint in op["people"]:
            stint["name"] = "Edda"
    begins = {}
    for op in plan["operations"]:
        for stint in op["people"]:
            if stint["does"] == "setup":
                begins.setdefault(stint["from"], []).append(op)
    return any(len(ops) > 1 for ops in begins.values())


def half_attended(week, plan):
    for op in plan["operations"]:
        if op["attended_share"] == 1:
            op["attended_share"] = 0.5
            return True
    return False


def running_on_another(week, plan):
    for order in week["orders"]:
        for op in of_order(plan, str(order["order"])):
            if order.get("state") == "running" and op["resource"] == "Tarn CNC 1":
                op["resource"] = "Tarn CNC 2"
                return True
    return False


def before_what_runs(week, plan):
    for order in week["orders"]:
        if order.get("state") != "running":
            continue
        first = of_order(plan, str(order["order"]))[:1]
        others = [o for o in plan["operations"] if first and o["resource"] == order["machine"] and o["order"] != first[0]["order"]]
        if first and others and first[0]["resource"] == order["machine"]:
            moved(first[0], 60 * 24 * 9)
            return True
    return False


def not_where_bound(week, plan):
    for op in plan["operations"]:
        if op["resource"] == "Tarn CNC 2":
            order = [o for o in week["orders"] if str(o["order"]) == op["order"].split(".")[0]][0]
            if order.get("state") != "running":
                order["machine"] = "Tarn CNC 1"
                return True
    return False


def held_after_all(week, plan):
    for order in week["orders"]:
        if of_order(plan, str(order["order"])):
            order["hold"] = "no drawing"
            return True
    return False


def forbidden_there(week, plan):
    for order in week["orders"]:
        for op in of_order(plan, str(order["order"])):
            order["not on"] = [op["resource"]]
            return True
    return False


def before_its_pin(week, plan):
    for order in week["orders"]:
        for op in of_order(plan, str(order["order"])):
            order["pin"] = [{"operation": op["number"], "machine": op["resource"], "from": op["end"][:16].replace("T", " ")}]
            return True
    return False


def second_before_first(week, plan):
    for order in plan["orders"]:
        ops = of_order(plan, order["number"])
        kept = [o for o in week["orders"] if str(o["order"]) == order["number"] and "overlap" not in o and "release" not in o]
        if len(ops) > 1 and kept and order["finish"] and not kept[0]["part"].startswith("09"):
            ops[1]["setup_start"] = ops[0]["setup_start"]
            return True
    return False


def too_early_for_material(week, plan):
    for order in week["orders"]:
        ops = of_order(plan, str(order["order"]))
        if ops and "release" not in order:
            order["release"] = (datetime.date.fromisoformat(ops[0]["setup_start"][:10]) + datetime.timedelta(days=1)).isoformat()
            return plan_done(plan, order)
    return False


def plan_done(plan, order):
    return all(o["finish"] is not None for o in plan["orders"] if o["number"] == str(order["order"]))


def outside_forgotten(week, plan):
    for order in week["orders"]:
        ops = of_order(plan, str(order["order"]))
        told = [o for o in plan["orders"] if o["number"] == str(order["order"])]
        if ops and order["part"].startswith("09") and told and told[0]["finish"]:
            told[0]["finish"] = ops[-1]["end"]
            return True
    return False


def finished_sooner(week, plan):
    for order in week["orders"]:
        told = [o for o in plan["orders"] if o["number"] == str(order["order"])]
        if told and told[0]["finish"] and order["part"][:2] not in ("09", "07"):
            told[0]["finish"] = f"{told[0]['finish'][:10]}T00:05:00"
            return True
    return False


def shorter(week, plan):
    op = max(plan["operations"], key=lambda o: o["run_s"])
    op["run_s"] -= 300
    return True


def ends_early(week, plan):
    op = max(plan["operations"], key=lambda o: o["run_s"])
    op["end"] = op["start"]
    return True


def ends_while_closed(week, plan):
    for op in plan["operations"]:
        if op["resource"] == "Tarn CNC 1" and op["run_s"] > 0:
            op["end"] = op["end"][:10] + "T23:00:00"
            return True
    return False


def setup_forgotten(week, plan):
    for op in plan["operations"]:
        if op["setup_s"] > 0:
            op["setup_s"] = 0
            return True
    return False


def set_up_again(week, plan):
    for op in plan["operations"]:
        if op["setup_s"] == 0 and op["run_s"] > 0:
            op["setup_s"] = 1200
            return True
    return False


def rests_on_a_quote(week, plan):
    """What saved its setup is not won after all."""
    orders, last = {str(o["order"]): o for o in week["orders"]}, {}
    for op in sorted(plan["operations"], key=lambda o: (o["resource"], o["setup_start"], o["end"])):
        there = last.setdefault(op["resource"], [])
        # One of a batch has no order of its own name; what runs has its own setup anyway.
        one, other, first = [orders.get(o["order"]) for o in [op] + there[-1:-3:-1]] + [None] * (2 - len(there[-2:]))
        there.append(op)
        if not one or not other or one is other or one.get("state") or other.get("state") or op["setup_s"] > 0:
            continue
        if len(there) > 2 and (not first or first["part"] == one["part"]):
            continue
        other.update({"state": "quoted", "probability": 1})
        return True
    return False


def on_time_after_all(week, plan):
    for order in plan["orders"]:
        if order["late_days"]:
            order["late_days"] = 0
            return True
    return False


def all_done(plan):
    return all(o["finish"] is not None for o in plan["orders"])


def cheaper(week, plan):
    plan["work"]["planned"]["cost"] *= 0.99
    return all_done(plan)


def fewer_hours(week, plan):
    plan["work"]["planned"]["machine_s"] -= 300
    return all_done(plan)


def better_score(week, plan):
    plan["score"]["money"]["total"] -= 1
    return all_done(plan)


def booked_week():
    return {"week": {"from": "2026-12-07", "to": "2026-12-31", "now": "2026-12-08 06:00"},
            "shifts": [{"name": "early", "from": "06:00", "to": "14:00", "pauses": ["09:00-09:15"]}],
            "machines": [{"machine": "Tarn CNC 1", "shifts": ["early"]}, {"machine": "Tarn bar lathe", "shifts": ["early"]}],
            "orders": [{"order": "1", "part": "01-winch-spindle.yaml", "quantity": 40, "due": "2026-12-18"},
                       {"order": "2", "part": "09-clevis-pin.yaml", "quantity": 50, "due": "2026-12-18"},
                       {"order": "3", "part": "06-guide-bush.yaml", "quantity": 60, "due": "2026-12-21"},
                       # As the second, whose bar, jaws and tools are on the machine, and which has proved its cuts.
                       {"order": "4", "part": "09-clevis-pin.yaml", "quantity": 50, "due": "2026-12-11"}]}


def booked_rows():
    """Of the first some are scrap, and it runs; the second is at another firm after its second cut."""
    rows = [("1", 10, "Tarn CNC 1", "2026-12-04T06:00", "2026-12-04T12:00", 38, 3),
            ("1", 20, "Tarn CNC 1", "2026-12-07T06:00", "2026-12-07T08:00", 10, 2),
            ("2", 10, "Tarn bar lathe", "2026-12-04T06:00", "2026-12-04T12:00", 50, 0),
            ("2", 20, "Tarn bar lathe", "2026-12-07T06:00", "2026-12-07T10:00", 50, 0)]
    return [dict(zip("order operation machine start end good scrap".split(), row), person="I", kind="run", note="") for row in rows]


def back_on_the_day_that_it_left(plan):
    first = [op for op in plan["operations"] if op["order"] == "2"][0]
    first["setup_start"] = "2026-12-08T06:00:00"


def one_piece_more(plan):
    [op for op in plan["operations"] if op["order"] == "3"][0]["pieces"] += 1


def proved_once_more(plan):
    first = [op for op in plan["operations"] if op["order"] == "4"][0]
    first["setup_s"] += 600


def done_a_day_later(plan):
    plan["orders"][0]["finish_day"] = "2026-12-31"


def bound_too_high(week, plan):
    plan["score"]["lower_bound"] = plan["score"]["value"] + 1
    return True


def left_out(week, plan):
    for order in plan["orders"]:
        ops = of_order(plan, order["number"])
        if order["finish"] and len(ops) > 1:
            plan["operations"].remove(ops[0])
            return True
    return False


def planned_twice(week, plan):
    plan["operations"].append(plan["operations"][0])
    return True


def on_no_machine(week, plan):
    plan["operations"][0]["resource"] = "Tarn CNC 7"
    return True


DAMAGES = [("held", held_after_all), ("forbidden", forbidden_there), ("pinned", before_its_pin), ("overlap", two_at_a_time), ("closed", at_night), ("shift", a_holiday), ("shift", is_down), ("people", nobody_there),
           ("setters", cannot_set), ("able", has_unlearned), ("release", material_comes_later), ("sent out", not_sent_out), ("sent out", back_too_soon),
           ("forbidden", operation_forbidden), ("closed", saturday_after_all),  ("there", is_away), ("assigned", nobody_said), ("two things", all_by_one), ("attended", half_attended), ("running", running_on_another), ("running", before_what_runs),
           ("bound", not_where_bound), ("order of operations", second_before_first), ("release", too_early_for_material),
           ("outside", outside_forgotten), ("finish", finished_sooner), ("duration", shorter), ("shift", ends_early),
           ("closed", ends_while_closed), ("setup", setup_forgotten), ("setup", set_up_again), ("setup", rests_on_a_quote), ("lateness", on_time_after_all),
           ("cost", cheaper), ("hours", fewer_hours), ("score", better_score), ("bound", bound_too_high),
           ("every operation", left_out), ("once", planned_twice), ("known", on_no_machine)]

if __name__ == "__main__":
    unittest.main()
