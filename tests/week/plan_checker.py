"""Can a plan be worked? Told from the week file, `load --json` and `quote --json` alone, and by other means than
the program's own: time is a row of slots of five minutes, each open or not. Every broken rule is a line that
begins with the rule's name."""
import datetime
import math

STEP = 5
DAY = 24 * 60 // STEP  # slots
WEEKDAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
FIRST_TIME = ("setup-program", "setup-program-features", "setup-proving")


def as_list(value):
    return value if isinstance(value, list) else [] if value is None else [value]


def share_of(value):
    if isinstance(value, str) and value.strip().endswith("%"):
        return float(value.strip()[:-1]) / 100
    return float(value)


def up(minutes):
    return math.ceil(minutes / STEP - 1e-9) * STEP


def nearest(x):
    return math.floor(x + 0.5)


def easter(year):  # by C. F. Gauss, not by the rule of the program
    k = year // 100
    m = (15 - (13 + 8 * k) // 25 + k - k // 4) % 30
    d = (19 * (year % 19) + m) % 30
    e = (2 * (year % 4) + 4 * (year % 7) + 6 * d + (4 + k - k // 4) % 7) % 7
    late = (d == 29 and e == 6) or (d == 28 and e == 6 and (11 * m + 11) % 30 < 19)
    return datetime.date(year, 3, 22) + datetime.timedelta(days=d + e - (7 if late else 0))


class Clock:
    """Slots of a week from midnight before its first day."""

    def __init__(self, week):
        head = week["week"]
        self.first = self.date(head["from"])
        self.last = self.date(head["to"])
        self.days = (self.last - self.first).days + 1
        self.slots = self.days * DAY
        self.now = self.moment(head["now"]) if "now" in head else 0

    @staticmethod
    def date(value):
        return value if isinstance(value, datetime.date) else datetime.date.fromisoformat(str(value)[:10])

    def day(self, value):
        return (self.date(value) - self.first).days

    def moment(self, value, end=False):
        """Minutes; a day alone is its beginning, or its end."""
        text = str(value)
        if len(text) > 10:
            at = datetime.datetime.fromisoformat(text)
            return (at.date() - self.first).days * 1440 + at.hour * 60 + at.minute
        return (self.day(value) + (1 if end else 0)) * 1440


class Hours:
    """When machines and people are there, slot by slot."""

    def __init__(self, week, clock):
        self.clock = clock
        self.holidays = set()
        for item in as_list(week.get("holidays")):
            for year in range(clock.first.year, clock.last.year + 1):
                if isinstance(item, dict):
                    day = easter(year) + datetime.timedelta(days=int(item["Easter"]))
                elif len(str(item)) == 5:
                    day = datetime.date(year, int(str(item)[:2]), int(str(item)[3:]))
                else:
                    day = clock.date(item)
                self.holidays.add((day - clock.first).days)
        self.shifts = {s["name"]: s for s in as_list(week["shifts"])}

    def works(self, day):
        return (self.clock.first + datetime.timedelta(days=day)).weekday() < 5 and day not in self.holidays

    @staticmethod
    def clock_time(text):
        return (int(text[:2]) * 60 + int(text[3:5])) // STEP

    def on_days(self, shift):
        days = set()
        for word in as_list(shift.get("days", "Mon-Fri")):
            if len(str(word)) == 10:
                continue
            first = WEEKDAYS.index(word[:3])
            last = WEEKDAYS.index(word[4:]) if len(word) > 3 else first
            while True:
                days.add(first)
                if first == last:
                    break
                first = (first + 1) % 7
        return days

    def open(self, names, gone):
        clock, there = self.clock, bytearray(self.clock.slots)
        for name in as_list(names):
            shift = self.shifts[name]
            begin, end = self.clock_time(shift["from"]), self.clock_time(shift["to"])
            end += DAY if end <= begin else 0
            pauses = []
            for pause in as_list(shift.get("pauses")):
                a, b = self.clock_time(pause[:5]), self.clock_time(pause[6:])
                pauses.append((a + (DAY if a < begin else 0), b + (DAY if a < begin else 0)))
            for day in range(-1, clock.days):  # of a shift that began the evening before the rest is there
                date = clock.first + datetime.timedelta(days=day)
                once = {str(d) for d in as_list(shift.get("days", "Mon-Fri")) if len(str(d)) == 10}
                if str(date) not in once and (date.weekday() not in self.on_days(shift) or day in self.holidays):
                    continue
                for slot in range(begin, end):
                    if 0 <= day * DAY + slot < clock.slots and not any(a <= slot < b for a, b in pauses):
                        there[day * DAY + slot] = 1
        for span in as_list(gone):
            a, b = clock.moment(span["from"]), clock.moment(span["to"], True)
            for slot in range(max(0, a // STEP), min(clock.slots, -(-b // STEP))):
                there[slot] = 0
        for slot in range(min(clock.slots, -(-clock.now // STEP))):
            there[slot] = 0
        return there


class Job:
    """An operation of an order on a machine, by the quote of its method there."""

    def __init__(self, quote, number, pieces, rated, tools):
        operations = quote["operations"]
        self.k = [o["number"] for o in operations].index(number)
        operation = operations[self.k]
        times, lot = operation["times"], quote["lot"]
        self.run = up(pieces * times["machine_s"] / 60 / rated)
        self.attended = min(1000, nearest(1000 * times["operator_s"] / times["machine_s"])) if times["machine_s"] else 0
        hour = (1 + float(lot["overhead_share"])) / 60
        machine, person = float(lot["machine_per_hour"]), float(lot["person_per_hour"])
        self.setup_price = (machine + person) * hour
        self.run_price = (machine + person * self.attended / 1000) * hour
        self.mounted(quote, operation, rated, tools)

    def mounted(self, quote, operation, rated, tools):
        first = rest = 0
        self.items, each = {}, 0
        for element in operation["setup"]["elements"]:
            minutes, name = element["machine_s"] / 60, element["name"]
            grip = operation.get("grip", {})
            if name in FIRST_TIME:
                first += minutes
            elif name == "setup-tools":
                each = minutes / element["count"]
            elif name == "setup-jaws":
                self.items["jaws, " + ("soft" if grip.get("jaws") == "soft" else "hard")] = nearest(nearest(minutes) / rated)
            elif name == "setup-soft-jaws-bored":
                self.items[f"soft jaws bored to {1000 * grip['diameter_m']:.5g}"] = nearest(nearest(minutes) / rated)
            elif name == "setup-bar-feeder":
                self.items[f"bar {1000 * quote['stock']['diameter_m']:.5g}"] = nearest(nearest(minutes) / rated)
            else:
                rest += minutes
        for step in operation["steps"]:
            if step.get("tool") and step["tool"] not in tools and not step.get("given"):
                self.items["tool " + step["tool"]] = nearest(nearest(each) / rated)
        self.first, self.rest = up(first / rated), up(rest / rated)


def outside_days(quote):
    between = after = 0
    for work in quote.get("other_work", []):
        days = math.ceil(work["days"] - 1e-9)
        if work["after"] == "roughing":
            between += days
        else:
            after += days
    return between, after


def by_bookings(week, rows):
    """The week as its orders stand by booked rows (dicts as the table has them), of orders in one batch: what runs and
    where, and under "booked" good pieces, scrap and last moment by operation; of a machine under "left" the order and
    the operation that it was booked for last. What begins at the plan's moment or later has not happened."""
    last, booked, on = {}, {}, {}
    for row in sorted(rows, key=lambda r: r["end"]):
        if row["kind"] == "stop" or row["start"].replace("T", " ")[:16] >= str(week["week"].get("now", "0"))[:16]:
            continue
        n = int(row["operation"])
        good, scrap, _ = booked.setdefault(row["order"], {}).get(n, (0, 0, ""))
        booked[row["order"]][n] = (good + int(row["good"] or 0), scrap + int(row["scrap"] or 0), row["end"])
        last[row["machine"]] = on[row["order"], n] = (row["order"], n, row["machine"])
    orders = []
    for order in as_list(week["orders"]):
        name, order = str(order["order"]), dict(order)
        if name in booked:
            order.pop("done", None)
            order["booked"] = booked[name]
            open_ = [n for n, (good, _, _) in sorted(booked[name].items())
                     if good < int(order["quantity"]) and n == max(booked[name])]
            for n in open_:
                order["repeat"] = "yes"  # some of it is made
                if last[on[name, n][2]] == on[name, n]:
                    order.update({"state": "running", "machine": on[name, n][2]})
        orders.append(order)
    known = {str(order["order"]) for order in orders}
    machines = [dict(m, left=last[name][:2]) if (name := m.get("called", m["machine"])) in last and last[name][0] in known else m
                for m in as_list(week["machines"])]
    return dict(week, orders=orders, machines=machines)


def left_by_bookings(order, numbers, make):
    """Pieces that are left of each operation, what there is in the end, and the last that is over with its moment."""
    quantity, there, left, over = int(order["quantity"]), max(int(order["quantity"]), math.floor(make + 1e-9)), {}, None
    for n in numbers:
        good, scrap, end = order["booked"].get(n, (0, 0, None))
        if good + scrap > there:  # no more are made than there are
            scrap = min(scrap, there)
            good = there - scrap
        later = any(m > n for m in order["booked"])
        if good >= quantity:
            there, over = good, (n, end)
        elif later or (end and good + scrap == there and there > 0):
            there, over = there - scrap, (n, end) if end else None
        else:
            left[n] = there - good - scrap
            there -= scrap
    return left, min(there, quantity), over


class Checker:
    """`quote_of(part, quantity, repeat, machine of the shop, method)` is the quote of an operation's method, and
    `tools_of(machine of the shop)` what is always mounted there."""

    def __init__(self, week, plan, quote_of, tools_of, day_late=200.0):
        self.week, self.plan, self.day_late = week, plan, day_late
        self.quote_of, self.tools_of = quote_of, tools_of
        self.clock = Clock(week)
        self.hours = Hours(week, self.clock)
        self.machines = {m.get("called", m["machine"]): m for m in as_list(week["machines"])}
        self.open = {name: self.hours.open(m["shifts"], m.get("down")) for name, m in self.machines.items()}
        self.groups = {g["name"]: as_list(g["machines"]) for g in as_list(week.get("groups"))}
        self.found = []

    def fault(self, rule, what):
        self.found.append(f"{rule}: {what}")

    def at(self, text):
        return self.clock.moment(text)

    def faults(self):
        self.orders = {}
        for order in as_list(self.week["orders"]):
            n = int(order.get("batches", 1))
            for b in range(n):
                name = str(order["order"]) + (f".{b + 1}" if n > 1 else "")
                self.orders[name] = (order, n)
        self.operations()
        if self.found:
            return self.found
        for rule in (self.durations, self.one_at_a_time, self.people, self.running, self.chains, self.set_up, self.money):
            rule()
        return self.found

    def operations(self):
        seen = set()
        for op in self.plan["operations"]:
            key = (op["order"], op["number"])
            if op["order"] not in self.orders or op["resource"] not in self.machines:
                self.fault("known", f"{key} on {op['resource']}")
                continue
            if key in seen:
                self.fault("once", f"{key} stands twice")
            seen.add(key)
        if self.found:
            return
        self.by_order = {}
        for op in self.plan["operations"]:
            op = dict(op, a=self.at(op["setup_start"]), b=self.at(op["start"]), c=self.at(op["end"]))
            order, batches = self.orders[op["order"]]
            machine = self.machines[op["resource"]]
            running = order.get("state") == "running"
            repeat = order.get("repeat") in (True, "yes") or running
            op["quote"] = self.quote_of(order["part"], int(order["quantity"]), repeat, machine["machine"], op["method"])
            if op["quote"] is None:
                self.fault("method", f"{op['order']} cannot be made by {op['method']} on {op['resource']}")
                continue
            op["machine"] = machine
            self.by_order.setdefault(op["order"], []).append(op)
        for name, (order, _) in self.orders.items():
            self.all_of(name, order)

    def all_of(self, name, order):
        ops = self.by_order.get(name, [])
        told = [o for o in self.plan["orders"] if o["number"] == name]
        done = {int(n) for n in as_list(order.get("finished"))}
        if not ops:
            if told and told[0]["finish"] is not None:
                self.fault("every operation", f"{name} is done without any")
            return
        first = ops[0]["quote"]
        numbers = [o["number"] for o in first["operations"] if o["number"] not in done]
        left = None
        if "booked" in order:
            left, good, over = left_by_bookings(order, numbers, self.make_of(first, order))
            self.sent_before(name, ops[0], over)
            self.short(name, order, good)
            numbers = list(left)
        have = sorted(o["number"] for o in ops)
        if have != sorted(numbers) and told[0]["finish"] is not None:
            self.fault("every operation", f"{name} has {have} of {numbers}")
            return
        ops.sort(key=lambda o: o["number"])
        running = order.get("state") == "running"
        for op in ops:
            rated = share_of(op["machine"].get("utilisation", 1)) * share_of(op["machine"].get("efficiency", 1))
            quote, now = op["quote"], running and op["number"] == numbers[0]
            done = int(order.get("done", 0)) if now else 0
            pieces = self.make_of(quote, order) - done if left is None else left[op["number"]]
            if left is None and int(order.get("batches", 1)) == 1 and op["pieces"] != int(order["quantity"]) - done:
                self.fault("pieces", f"{name} Op {op['number']} has {op['pieces']} left")
            op["job"] = Job(quote, op["number"], max(0, pieces), rated, self.tools_of(op["machine"]["machine"]))
            op["now"] = now

    @staticmethod
    def make_of(quote, order):
        price = [p for p in quote["prices"] if p["quantity"] == int(order["quantity"])][0]
        return price["make"] - quote["lot"]["setting_pieces"]

    def sent_before(self, name, op, over):
        """What went to another firm before the plan is not worked before it is back."""
        quote = op["quote"]
        between, after = outside_days(quote)
        numbers = [o["number"] for o in quote["operations"]]
        days = 0
        if over is not None:
            k = numbers.index(over[0])
            days = after if k + 1 == len(numbers) else between if k + 1 == len(numbers) // 2 else 0
        back = self.back(self.at(over[1]), days) if days else 0
        told = [(o["number"], self.at(o["back"])) for o in self.plan["outside"] if o["order"] == name and
                o["number"] < op["number"]]
        if told != ([(over[0], back)] if days and back > self.clock.now else []):
            self.fault("sent out", f"{name} is listed as {told}, and is back at {back}")
        if op["a"] < back:
            self.fault("outside", f"{name} Op {op['number']} begins before {back}, when it is back")

    def short(self, name, order, good):
        told = [(o["pieces"], o["short"]) for o in self.plan["short"] if o["order"] == name]
        short = int(order["quantity"]) - good
        if told != ([(good, short)] if short else []):
            self.fault("short", f"{name} is told as {told}, and {short} pieces are short")

    # Minutes that a machine is open from one moment to another.
    def open_between(self, name, a, b):
        if a % STEP == 0 and b % STEP == 0:
            return STEP * sum(self.open[name][max(0, a // STEP):max(0, b // STEP)])
        there = self.open[name]
        return sum(there[t // STEP] for t in range(max(0, a), max(0, b)))

    def planned(self):
        return [op for ops in self.by_order.values() for op in ops if "job" in op]

    def run_of(self, op):
        return up(op["job"].run / self.orders[op["order"]][1])

    def durations(self):
        for op in self.planned():
            what = f"{op['order']} Op {op['number']} on {op['resource']}"
            if not op["a"] <= op["b"] <= op["c"]:
                self.fault("duration", f"{what} goes backwards")
                continue
            if abs(op["run_s"] / 60 - self.run_of(op)) > 1e-6:
                self.fault("duration", f"{what} runs {op['run_s'] / 60}, its quote says {self.run_of(op)}")
            if abs(op["attended_share"] * 1000 - op["job"].attended) > 1e-6:
                self.fault("attended", f"{what}: {op['attended_share']}, its quote says {op['job'].attended / 1000}")
            if self.open_between(op["resource"], op["a"], op["b"]) < op["setup_s"] / 60:
                self.fault("shift", f"{what} is set up in less open time than it takes")
            if self.open_between(op["resource"], op["b"], op["c"]) < self.run_of(op):
                self.fault("shift", f"{what} runs in less open time than it takes")
            if op["setup_s"] + op["run_s"] > 0 and not self.is_open(op["resource"], op["a"]):
                self.fault("closed", f"{what} begins while its machine is closed")
            if op["run_s"] > 0 and not self.is_open(op["resource"], op["c"] - 1):
                self.fault("closed", f"{what} ends while its machine is closed")

    def is_open(self, name, minute):
        return 0 <= minute // STEP < self.clock.slots and bool(self.open[name][minute // STEP])

    def on_machine(self, name):
        # In the order of their time; what takes none stands where it was given out.
        return sorted((op for op in self.listed() if op["resource"] == name), key=lambda o: (o["a"], o["c"]))

    def listed(self):
        place = {(op["order"], op["number"]): i for i, op in enumerate(self.plan["operations"])}
        return sorted(self.planned(), key=lambda o: place[(o["order"], o["number"])])

    def one_at_a_time(self):
        for name in self.machines:
            free = 0
            for op in self.on_machine(name):
                if op["a"] < free:
                    self.fault("overlap", f"{op['order']} Op {op['number']} begins on {name} before it is free")
                free = max(free, op["c"])

    def people(self):
        staff = as_list(self.week.get("people"))
        if not staff:
            return
        if any("machines" in p or p.get("sets", "no") not in (True, False, "yes", "no") for p in staff):
            self.people_by_name(staff)
            return
        there, setters = [0] * self.clock.slots, [0] * self.clock.slots
        for person in staff:
            here = self.hours.open(person["shifts"], person.get("away"))
            sets = person.get("sets") in (True, "yes")
            for i, open_ in enumerate(here):
                there[i] += 1000 * open_
                setters[i] += 1000 * open_ if sets else 0
        for op in self.listed():
            for begin, end, minutes, share, hands in ((op["a"], op["b"], op["setup_s"] / 60, 1000, setters),
                                                      (op["b"], op["c"], self.run_of(op), op["job"].attended, None)):
                left = math.ceil(minutes / STEP)
                for slot in range(begin // STEP, min(self.clock.slots, -(-end // STEP))):
                    if left == 0:
                        break
                    if not self.open[op["resource"]][slot] or there[slot] < share or (hands and hands[slot] < 1000):
                        continue
                    there[slot] -= share
                    if hands:
                        hands[slot] -= 1000
                    left -= 1
                if left > 0:
                    self.fault("setters" if hands else "people",
                               f"nobody for {left * STEP} min of {op['order']} Op {op['number']}")

    def people_by_name(self, staff):
        """Who is said to do something can do it, is there, and does no more than one person can."""
        there = {p["name"]: self.hours.open(p["shifts"], p.get("away")) for p in staff}
        sets, runs = {}, {}
        for p in staff:
            setting = p.get("sets", "no")
            listed = set() if setting in (True, False, "yes", "no") else self.named(setting)
            runs[p["name"]] = (self.named(p["machines"]) if "machines" in p else set(self.machines)) | listed
            sets[p["name"]] = listed or (runs[p["name"]] if setting in (True, "yes") else set())
        busy = {}
        for op in self.listed():
            what, slots = f"{op['order']} Op {op['number']} on {op['resource']}", {"setup": [], "run": []}
            for stint in op["people"]:
                name, does = stint["name"], stint["does"]
                if name not in there or op["resource"] not in (sets if does == "setup" else runs)[name]:
                    self.fault("able", f"{name} cannot {does} {what}")
                    continue
                a, b = self.at(stint["from"]), self.at(stint["to"])
                begin, end = (op["a"], op["b"]) if does == "setup" else (op["b"], op["c"])
                if a < begin or b > end or a % STEP or b % STEP or a >= b:
                    self.fault("assigned", f"{name} is at {what} at another time")
                for slot in range(a // STEP, b // STEP):
                    if not (0 <= slot < self.clock.slots and there[name][slot] and self.open[op["resource"]][slot]):
                        self.fault("there", f"{name} is not there for {what}")
                        break
                    busy[name, slot] = busy.get((name, slot), 0) + (1000 if does == "setup" else op["job"].attended)
                    if busy[name, slot] > 1000:
                        self.fault("two things", f"{name} at {what}")
                        break
                slots[does] += range(a // STEP, b // STEP)
            needed = {"setup": math.ceil(op["setup_s"] / 60 / STEP),
                      "run": math.ceil(self.run_of(op) / STEP) if op["job"].attended else 0}
            for does, taken in slots.items():
                if len(taken) != len(set(taken)) or len(taken) != needed[does]:
                    self.fault("assigned", f"{what}: {does} takes {needed[does]} steps, people are there for {len(taken)}")

    def running(self):
        for op in self.planned():
            order = self.orders[op["order"]][0]
            machine = order.get("machine")
            self.wishes(op, order)
            if machine is None:
                continue
            if not op["now"]:
                if order.get("state") != "running" and op["resource"] not in self.named(machine):
                    self.fault("bound", f"{op['order']} is bound to {machine}, not to {op['resource']}")
                continue
            here = self.open[machine]
            now = self.clock.now // STEP
            if not any(here[now:now + DAY]):
                continue  # it is down, and the work may go to another
            if op["resource"] != machine:
                self.fault("running", f"{op['order']} runs on {machine}, and is planned on {op['resource']}")
            elif any(o["a"] < op["a"] and not o["now"] for o in self.on_machine(machine)):
                self.fault("running", f"something comes before {op['order']} on {machine}")

    def named(self, names):
        """The machines that names of machines and groups stand for."""
        found = set()
        for name in as_list(names):
            found |= set(self.machines) if name == "all" else set(self.groups.get(name, [name]))
        return found

    def wishes(self, op, order):
        what = f"{op['order']} Op {op['number']}"
        if order.get("hold"):
            self.fault("held", f"{what} is planned")
        for item in as_list(order.get("not on")):
            of_operation = isinstance(item, dict)
            if of_operation and int(item["operation"]) != op["number"]:
                continue
            if op["resource"] in self.named(item["machine"] if of_operation else item):
                self.fault("forbidden", f"{what} is on {op['resource']}")
        for pin in as_list(order.get("pin")):
            if int(pin["operation"]) == op["number"] and (
                    op["resource"] not in self.named(pin["machine"]) or op["a"] < self.at(pin.get("from", self.clock.first))):
                self.fault("pinned", f"{what} is on {op['resource']} at {op['a']}, and pinned to {pin}")

    # The end of the last of so many working days after a moment, as a minute.
    def back(self, minute, days):
        day = -(-minute // 1440)
        for _ in range(days):
            while not self.hours.works(day):
                day += 1
            day += 1
        return day * 1440 if days else minute

    def chains(self):
        told = {o["number"]: o for o in self.plan["orders"]}
        for name, (order, batches) in self.orders.items():
            ops = [o for o in self.by_order.get(name, []) if "job" in o]
            if name not in told or told[name]["finish"] is None or not ops:
                continue
            self.chain(name, order, ops, told[name])

    def chain(self, name, order, ops, told):
        arrivals = as_list(order.get("material"))
        whole = [self.at(a) for a in arrivals if not isinstance(a, dict)]
        ready = max([self.clock.now, self.at(order["release"]) if "release" in order else 0] + whole)
        overlap, before, sent = 1.0, None, []
        between, after = outside_days(ops[0]["quote"])
        count = len(ops[0]["quote"]["operations"])
        for op in ops:
            what = f"{name} Op {op['number']}"
            if overlap < 1:
                if self.open_between(before["resource"], before["b"], op["a"]) + 1e-6 < overlap * self.run_of(before):
                    self.fault("order of operations", f"{what} begins before the first share is done")
                last = overlap * self.run_of(op)
                if op["c"] < before["c"] or self.open_between(op["resource"], before["c"], op["c"]) + 1e-6 < last:
                    self.fault("order of operations", f"{what} ends before its last pieces can be done")
            elif op["a"] < ready:
                rule = "outside" if before is not None and ready > before["c"] else \
                    "release" if before is None else "order of operations"
                self.fault(rule, f"{what} begins before {ready}")
            days = between if op["job"].k + 1 == count // 2 and any(
                w["after"] == "roughing" for w in op["quote"].get("other_work", [])) else 0
            if op["job"].k + 1 == count:
                days = after
            for arrival in arrivals:
                if isinstance(arrival, dict) and int(arrival["operation"]) == op["number"] and op["a"] < self.at(arrival["from"]) \
                        and not op["now"]:
                    self.fault("release", f"{what} begins before {arrival['from']}, when its material is there")
            if days:
                back = self.back(op["c"], days)
                sent.append((op["number"], op["c"], back if back <= self.clock.slots * STEP else None))
            overlap = share_of(order.get("overlap", 1)) if days == 0 else 1.0
            ready, before = self.back(op["c"], days), op
        listed = [(o["number"], self.at(o["out"]), self.at(o["back"]) if o["back"] else None)
                  for o in self.plan["outside"] if o["order"] == name and o["number"] >= ops[0]["number"]]
        if listed != sent:
            self.fault("sent out", f"{name} is listed as {listed}, its operations say {sent}")
        if self.at(told["finish"]) != ready:
            rule = "outside" if after else "finish"
            self.fault(rule, f"{name} is done at {told['finish']}, its operations say {ready}")
        ended = self.clock.first + datetime.timedelta(days=(ready - 1) // 1440)  # midnight ends a day
        if self.clock.date(told["finish_day"]) != ended:
            self.fault("day", f"{name} is done on {told['finish_day']}, its operations say {ended}")
        due = (self.clock.day(order["due"]) + 1) * 1440
        if abs(told["late_days"] - max(0, ready - due) / 1440) > 1e-6:
            self.fault("lateness", f"{name} is late by {max(0, ready - due) / 1440}, not {told['late_days']}")

    def set_up(self):
        # What is won counts on nothing that a quote sets up or proves.
        listed, proved = self.listed(), {}
        for order, _ in self.orders.values():  # what is booked of a part has proved it
            for n, (good, scrap, _) in order.get("booked", {}).items():
                if good + scrap > 0:
                    proved[order["part"], n] = [(-math.inf, False)]
        for op in listed:
            job, quoted = (self.orders[op["order"]][0]["part"], op["number"]), self.is_quoted(op)
            op["needs proving"] = not any(at <= op["a"] and (quoted or not by_quote) for at, by_quote in proved.get(job, []))
            proved.setdefault(job, []).append((op["b"], quoted))
        for name, machine in self.machines.items():
            on = self.left_on(machine) if "left" in machine else {str(m) for m in as_list(machine.get("mounted"))}
            on_if_won = on  # with the quotes lost
            for op in self.on_machine(name):
                job, order = op["job"], self.orders[op["order"]][0]
                same = f"job {order['part']} {op['number']} {op['method']}"
                free = op["now"] and order.get("machine") == name
                required = max(sum(t for item, t in job.items.items() if item not in left) + (0 if same in left else job.rest)
                               for left in ((on,) if self.is_quoted(op) else (on, on_if_won)))
                required = 0 if free else required + (job.first if op["needs proving"] else 0)
                if abs(op["setup_s"] / 60 - required) > 1e-6:
                    self.fault("setup", f"{op['order']} Op {op['number']} on {name}: {op['setup_s'] / 60} min, "
                                        f"what is mounted leaves {required}")
                on = set(job.items) | {same}
                on_if_won = on_if_won if self.is_quoted(op) else on

    def left_on(self, machine):
        """What the work leaves that a machine was booked for last: by the method of its part there, in this plan."""
        number, n = machine["left"]
        part = self.orders[number][0]["part"]
        same = [op for op in self.listed() if op["machine"] is machine and self.orders[op["order"]][0]["part"] == part]
        if not same:  # nothing of it comes, so that its jaws, bar and tools alone could be of use
            order = self.orders[number][0]
            quote = self.quote_of(part, int(order["quantity"]), True, machine["machine"], None)
            method = None
        else:
            quote, method = same[0]["quote"], same[0]["method"]
        if quote is None or n not in [o["number"] for o in quote["operations"]]:
            return set()
        return set(Job(quote, n, 0, 1.0, self.tools_of(machine["machine"])).items) | {f"job {part} {n} {method}"}

    def is_quoted(self, op):
        return self.orders[op["order"]][0].get("state") == "quoted"

    def money(self):
        seconds = cost = 0
        for op in self.planned():
            run = self.run_of(op)
            seconds += op["setup_s"] + 60 * run
            cost += op["setup_s"] / 60 * op["job"].setup_price + run * op["job"].run_price
        planned = self.plan["work"]["planned"]
        whole = all(o["finish"] is not None for o in self.plan["orders"])
        if whole and abs(planned["machine_s"] - seconds) > 1e-3:
            self.fault("hours", f"{planned['machine_s']} s, the operations say {seconds}")
        if whole and abs(planned["cost"] - cost) > 0.01:
            self.fault("cost", f"{planned['cost']}, the operations say {cost}")
        late = 0
        for o in self.plan["orders"]:
            if o["finish"] is None:
                continue
            order, batches = self.orders[o["number"]]
            weight = share_of(order.get("importance", 1)) / batches
            weight *= float(str(order.get("day late", self.day_late)).split()[0]) / self.day_late
            weight *= max(0.01, share_of(order.get("probability", 1))) if order.get("state") == "quoted" else 1
            late += weight * (o["late_days"] + o["late_days"] ** 2 / 3)
        score = self.plan["score"]
        if whole and abs(score["value"] - late) > 1e-6:
            self.fault("score", f"lateness {score['value']}, the orders say {late}")
        if whole and abs(score["money"]["total"] - (late * self.day_late + cost)) > 0.02:
            self.fault("score", f"{score['money']['total']}, orders and operations say {late * self.day_late + cost}")
        if score["lower_bound"] > score["value"] + 1e-6:
            self.fault("bound", f"{score['lower_bound']} is above {score['value']}")
