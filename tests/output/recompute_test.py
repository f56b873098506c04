"""The prices of 500 random requests worked out again from the JSON alone, to the cent, by a program that
shares nothing with the one that is tested: policies, releases, units and currencies at random."""
import json
import math
import os
import random
import sys
import unittest
from decimal import ROUND_HALF_UP, Decimal

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import SANITIZED, SHOP, folder, run, text_of  # noqa: E402

REQUESTS = 40 if SANITIZED else 500
SLACK = 1e-9


def money(x):
    """ROUND(ROUND(x, 6), 2), half away from zero, in hundredths."""
    six = Decimal(x).quantize(Decimal("0.000001"), ROUND_HALF_UP)
    return int(six.quantize(Decimal("0.01"), ROUND_HALF_UP) * 100)


def cents(text):
    return int(Decimal(text) * 100)


def to_step(x, step):
    """The multiple of the step nearest to the six-digit value, in hundredths."""
    six = Decimal(x).quantize(Decimal("0.000001"), ROUND_HALF_UP)
    return int((six * 100 / step).quantize(Decimal(1), ROUND_HALF_UP)) * step


def up(x):
    return math.ceil(x - SLACK)


def hours(seconds):
    return seconds / 3600


class Lot:
    """A lot of one price, from `lot` of the JSON."""

    def __init__(self, lot, quantity, releases, service, learned):
        self.lot, self.quantity, self.releases = lot, quantity, releases
        self.rate, self.person = float(lot["machine_per_hour"]), float(lot["person_per_hour"])
        self.charged = 1 + lot["overhead_share"]
        self.learned = learned
        self.good = quantity / releases
        self.stages(service)
        self.round = lot["turned_round_up_to"] > 0 and self.good <= lot["turned_round_up_to"]
        self.cycle = lot["cycle_s"] + (lot["round_each_s"] if self.round else 0)
        self.operator = lot["operator_s"] + (lot["round_each_s"] if self.round else 0)
        self.made = releases * (self.roughed + lot["setting_pieces"])

    def stages(self, service):
        lot, outside = self.lot, self.lot["outside"]
        scrap = lot["scrap_share"]
        self.sent = [self.good] * len(outside)
        if service > 0:  # from the start onwards
            n = self.roughed = self.finished = service
            for i, w in enumerate(outside):
                if w["after"] == "roughing":
                    self.sent[i] = n
                    n = up(n * (1 - w["scrap_share"]))
            self.finished = n
            if outside:
                n = up(n * (1 - scrap))
            for i, w in enumerate(outside):
                if w["after"] == "turning":
                    self.sent[i] = n
                    n = up(n * (1 - w["scrap_share"]))
            return
        n = self.good  # from the good ones back
        for i in reversed(range(len(outside))):
            if outside[i]["after"] == "turning":
                n = self.sent[i] = up(n / (1 - outside[i]["scrap_share"]))
        if self.good >= lot["scrap_from"]:
            n = up(n / (1 - scrap))
        self.finished = n
        for i in reversed(range(len(outside))):
            if outside[i]["after"] == "roughing":
                n = self.sent[i] = up(n / (1 - outside[i]["scrap_share"]))
        self.roughed = n

    def setup(self, once):
        saved = self.lot["round_setup_s"] if self.round else 0
        return self.releases * (once - saved) - (self.releases - 1) * self.lot["first_time_s"]

    def running(self, each, rough):
        if self.lot["rough_cycle_s"] > 0:
            return self.releases * self.learned * (self.finished * (each - rough) + self.roughed * rough)
        return self.releases * self.learned * self.roughed * each

    def machine_s(self):
        return self.setup(self.lot["setup_machine_s"]) + self.running(self.cycle, self.lot["rough_cycle_s"])

    def operator_s(self):
        return self.setup(self.lot["setup_operator_s"]) + self.running(self.operator, self.lot["rough_operator_s"])

    def inserts(self):
        sum_of = 0
        for edge in self.lot["inserts"]:
            least = up(edge["share"] * min(self.roughed, self.lot["whole_edges_up_to"] / (1 - self.lot["scrap_share"])))
            sum_of += max(edge["share"] * self.roughed, least) * float(edge["price"])
        return self.releases * sum_of

    def material(self):
        cost = self.made * float(self.lot["material_each"])
        if self.lot["pieces_per_bar"] > 0:
            cost += up(self.made / self.lot["pieces_per_bar"]) * float(self.lot["bar_each"])
        return cost

    def outside(self):
        sum_of = 0
        for pieces, w in zip(self.sent, self.lot["outside"]):
            sum_of += max(pieces * float(w["each"]), float(w["minimum"])) + float(w["fixed"])
        return self.releases * sum_of * (1 + self.lot["outside_overhead_share"])

    def lines(self):
        lot, both = self.lot, self.rate + self.person
        setup = hours(self.setup(lot["setup_machine_s"])) * self.rate + hours(self.setup(lot["setup_operator_s"])) * self.person
        at_others = self.finished * float(lot["other_cost_each"]) + float(lot["other_cost_lot"])
        own_time = hours(self.finished * lot["other_time_each_s"] + lot["other_time_lot_s"])
        other = self.releases * (own_time * both * self.charged + at_others)
        bought = self.quantity * float(lot["one_off_each"]) + float(lot["one_off_lot"])
        own = hours(self.quantity * lot["one_off_time_each_s"] + lot["one_off_time_lot_s"])
        machine = "machine" if self.person > 0 else "running"
        return {"setup": setup * self.charged,
                machine: hours(self.running(self.cycle, lot["rough_cycle_s"])) * self.rate * self.charged,
                "labour": hours(self.running(self.operator, lot["rough_operator_s"])) * self.person * self.charged,
                "inserts": self.inserts(), "material": self.material(), "other-work": other,
                "outside-work": self.outside(),
                "one-offs": bought * (1 + lot["outside_overhead_share"]) + own * both * self.charged}

    def cost(self):
        return sum(money(line) for line in self.lines().values())


def price_each(cost, quantity, unit, pricing):
    """From hundredths of cost to the price of a price unit, rounded to its step."""
    each = cost / 100 / quantity
    each = each * (1 + pricing["share"]) if pricing["by"] == "markup" else each / (1 - pricing["share"])
    each *= 1 - pricing["discount_share"]
    for step in pricing["steps"]:
        if step["below"] is None or each * unit < float(step["below"]):
            return to_step(each * unit, cents(step["step"]))
    raise AssertionError("no step")


class Draw(random.Random):
    def share(self, high):
        return round(self.uniform(0, high), self.choice([2, 4]))

    def often(self, chance):
        return self.random() < chance


CURRENCIES = [("EUR", 1), ("USD", 1.1), ("GBP", 0.85), ("CHF", 0.95), ("SEK", 11), ("JPY", 160)]


def shop_yaml(d):
    """Invented figures, wide of any shop's."""
    own, worth = d.choice(CURRENCIES)
    rows = {"currency": own, "margin": d.share(0.6), "scrap share": d.share(0.2), "scrap from": d.choice([0, 1, 5, 20]),
            "setting pieces": d.randint(0, 3), "overhead on material": d.share(0.3), "overhead on outside work": d.share(0.3),
            "minimum order": round(d.choice([0, 100, 800, 3000]) * worth, 2), "price unit": d.choice([1, 1, 100, 1000]),
            "service level": d.choice([0, 0, 0, 0.5, 0.95]), "bars": d.choice(["used length", "whole"]),
            "whole edges up to": d.choice([0, 5, 20, 100]), "turn round up to": d.choice([0, 2, 5]),
            "rebate": d.choice([0, 0, d.share(0.1)]), "tax": d.choice([0, 0.19, d.share(0.3)])}
    if d.often(0.4):
        rows["markup"] = d.share(1.5)
        del rows["margin"]
    rows["price step"] = d.choice([0.01, 0.05, 0.5]) if d.often(0.7) else "[0.01, 0.05, 0.50]"
    policy = "".join(f"- {{name: {k}, value: {v}{', below: [10, 100]' if str(v).startswith('[') else ''}, source: x, basis: typical}}\n"
                     for k, v in rows.items())
    exchange = "".join(f"- {{name: {c}, rate: {round(worth / w, 6)}, date: 2026-11-30, source: x, basis: typical}}\n"
                       for c, w in CURRENCIES if c != own)
    mill = f"other machines:\n- {{name: mill, rate: {round(d.uniform(10, 140) * worth, 4)} {own}/h, source: x, basis: typical}}\n"
    saw = (f"stock handling:\n- {{name: bar, bar length: 3000, saw kerf: 2, bar end: 120, cut charge: {round(d.uniform(0, 5) * worth, 2)} {own}, "
           f"cut charge per dm2: {round(d.uniform(0, 9) * worth, 2)} {own}, source: x, basis: typical}}\n")
    return (f"{mill}{saw}policy:\n{policy}exchange:\n{exchange}machines:\n"
            + "".join(machine(d, name, own, worth) for name in d.sample(MACHINES, d.choice([1, 1, 2, 3]))))


MACHINES = ["Tarn CNC 1", "Tarn bar lathe", "Tarn geared lathe"]


def machine(d, name, own, worth):
    rate = f"{round(d.uniform(20, 140) * worth, 4)} {own}/h all-in"
    if d.often(0.5):
        rate = f"{{machine: {round(d.uniform(10, 80) * worth, 4)}, person: {round(d.uniform(20, 60) * worth, 4)}, overhead: {d.share(0.8)}}}"
    lathe = text_of(os.path.join(SHOP, "shop.yaml"))
    record = lathe[lathe.index("- name: " + name):]
    record = record[:record.index("basis: typical")] + "basis: typical\n"
    lines = [f"  rate: {rate}" if line.startswith("  rate:") else line for line in record.splitlines()]
    return "\n".join(lines) + "\n"


def amount(d, high):
    return f"{round(d.uniform(0, high), 2)} {d.choice(CURRENCIES)[0]}"


def other_work(d):
    if d.often(0.3):
        return f"  - {{what: w, minutes: {round(d.uniform(0, 9), 2)}, per: {d.choice(['piece', 'lot'])}, setup: {d.randint(0, 30)}{d.choice(['', ', at: mill'])}}}\n"
    per = d.choice(["piece", "lot", "kg", "dm2"])
    return (f"  - {{what: w, price: {amount(d, 30)}, per: {per}, minimum: {amount(d, d.choice([0.01, 90]))}, certificate: {amount(d, 20)}, "
            f"scrap: {d.choice([0, 0, d.share(0.2)])}, {'area: 3.4 dm2, ' if per == 'dm2' and d.often(0.5) else ''}after: {d.choice(['turning', 'turning', 'roughing'])}}}\n")


def one_off(d):
    what = {"price": amount(d, 300)} if d.often(0.6) else {"minutes": d.randint(1, 200)}
    if d.often(0.2):
        what = {"price": amount(d, 300), "minutes": d.randint(1, 200)}
    how = d.choice(["paid: as a line", "paid: in the first order", "paid: over pieces, pieces: 300"])
    return "  - {what: o, " + ", ".join(f"{k}: {v}" for k, v in what.items()) + f", {how}}}\n"


def part_yaml(d):
    inch = d.often(0.3)
    scale = 25.4 if inch else 1
    length, big = d.randint(15, 90), d.choice([28, 38, 48])
    small = big - d.choice([4, 6, 10])
    def size(mm):
        return f"{mm / scale:.4f}" if inch else str(mm)
    bar = d.often(0.4)
    stock = f"{{round: {size(big + 2)}, condition: drawn{', fed from: bar' if bar else ''}}}"
    text = f"part: {{number: R, order: {d.choice(['new', 'repeat'])}}}\nunits: {'inch' if inch else 'metric'}\n"
    text += f"material: {d.choice(['C45', '42CrMo4 +QT', 'CuZn39Pb3'])}\nstock: {stock}\n"
    text += f"outside: [{size(small)} x{size(length)}, {size(big)} x{size(d.randint(5, 40))}]\n"
    for key, make in (("other work", other_work), ("one-offs", one_off)):
        if d.often(0.6):
            text += key + ":\n" + "".join(make(d) for _ in range(d.randint(1, 3)))
    if d.often(0.15):
        text += "learning: {rate: 0.9, planned time at piece: 40}\n"
    return text


def request_yaml(d):
    releases = d.choice([1, 1, 2, 4])
    quantities, q = [], 0
    for _ in range(d.randint(1, 4)):
        q += releases * d.randint(1, 120)
        quantities.append(q)
    item = f"part: part.yaml, quantities: {quantities}"
    if releases > 1:
        item += f", releases: {releases} of {quantities[-1] // releases}"
    if d.often(0.15):
        item += ", customer supplies: material"
    if d.often(0.15):
        item += f", margin: {d.randint(-10, 60)} %"
    if d.often(0.15):
        item += f", discount: {d.randint(0, 30)} %"
    if d.often(0.1):
        item += f", price: {[round(d.uniform(1, 90), 2) for _ in quantities]}"
    if d.often(0.3):
        item += f", price unit: {d.choice([1, 100, 1000])}"
    order = ""
    if d.often(0.3):
        order = f"order: {{rebate: {d.randint(0, 9)} %, tax: {d.randint(0, 25)} %, charges: [{{what: freight, price: {amount(d, 200)}}}]}}\n"
    return ("request: {customer: x, our number: Q-1, date: 2026-12-01}\n" f"{order}parts:\n  - {{{item}}}\n")


class Recomputed(unittest.TestCase):
    def test_random_requests(self):
        draws = Draw(20261127)
        priced = mixed = 0
        for i in range(REQUESTS):
            with self.subTest(i), folder() as at:
                os.mkdir(os.path.join(at, "shop"))
                files = {"shop/shop.yaml": shop_yaml(draws), "part.yaml": part_yaml(draws), "request.yaml": request_yaml(draws)}
                for name, text in files.items():
                    with open(os.path.join(at, name), "w", encoding="utf-8") as file:
                        file.write(text)
                status, out, err = run("quote", os.path.join(at, "request.yaml"), "--shop", os.path.join(at, "shop"), "--json")
                q = json.loads(out) if out else {}
                if status == 1 and not q.get("feasible", True):
                    continue  # the one machine of that shop cannot make it
                self.assertEqual(status, 0, err + "".join(files.values()))
                priced += len(q["prices"])
                mixed += 1 if q["other_routes"] else 0
                self.check(q)
        self.assertGreater(priced, 1.5 * REQUESTS)
        print(f"\n{priced} prices of {REQUESTS} requests, {mixed} of them with quantities by several methods")
        self.assertGreaterEqual(mixed, REQUESTS / 50)

    def check(self, q):
        self.routes = {route["made_by"]: route for route in [q] + q["other_routes"]}
        for route in self.routes.values():
            self.material(route)
        self.one_offs(q)
        self.prices(q)
        orders = q["prices"]
        if len(orders) == 1:
            once = sum(cents(o["price"]) for o in q["one_offs"])
            total = cents(orders[0]["total"]) + once
            order = q["order"]
            rebate = money(Decimal(total) / 100 * Decimal(repr(order["rebate_share"])))
            surcharge = max(0, cents(q["pricing"]["minimum_order"]) - (total - rebate))
            self.assertEqual([cents(order[k]) for k in ("surcharge", "one_offs")], [surcharge, once])
            self.assertEqual(cents(orders[0]["minimum_surcharge"]), surcharge)
            net = total - rebate + surcharge + cents(order["charges"])
            tax = money(Decimal(net) / 100 * Decimal(repr(order["tax_share"])))
            self.assertEqual([cents(order[k]) for k in ("rebate", "net", "tax", "total")], [rebate, net, tax, net + tax])
        else:
            self.assertIsNone(q["order"])

    def material(self, q):
        m, stock = q["material"], q["stock"]
        blank = m["section_m2"] * m["length_m"] * m["density_kg_per_m3"]
        piece = stock["length_m"] + stock["kerf_m"]
        of_one, ends = stock["pieces"], 0
        if of_one > 0:
            ends = stock["sawn_length_m"] - of_one * piece + m["saw_kerf_m"]
        self.assertAlmostEqual(m["length_m"], piece + ends / max(of_one, 1), delta=1e-12)
        sawn = stock["fed_from"] != "bar" and m["status"] != "supplied" and m["section_m2"] > 0
        cut = (float(m["cut"]) + float(m["cut_per_dm2"]) * m["section_m2"] * 100) / max(of_one, 1) if sawn else 0
        self.assertAlmostEqual(cut, float(m["cut_charge"]), delta=1e-9)
        price = 0 if m["status"] == "supplied" else float(m["price_per_kg"]) * m["price_factor"]
        self.assertAlmostEqual(blank, m["blank_kg"], delta=1e-12)
        bar = blank * price
        credit = (blank - m["finished_kg"]) * price * m["credit_share"]
        overhead = (bar + float(m["cut_charge"])) * m["overhead_share"]
        self.assertAlmostEqual(bar + float(m["cut_charge"]) + overhead - credit, float(m["each"]), delta=1e-9)
        each = float(m["each"])
        if m["charged_by"] == "sawn-lengths":
            self.assertEqual(q["lot"]["pieces_per_bar"], of_one)
            material = ends * m["section_m2"] * m["density_kg_per_m3"] * price
            whole = (material + of_one * float(m["cut_charge"])) * (1 + m["overhead_share"])
            self.assertAlmostEqual(whole, float(q["lot"]["bar_each"]), delta=1e-9)
            each -= whole / of_one
        elif m["charged_by"] == "whole-bars":
            pieces = max(1, math.floor((m["bar_length_m"] - m["bar_end_m"]) / m["length_m"] + SLACK))
            self.assertEqual(pieces, q["lot"]["pieces_per_bar"])
            each -= bar * (1 + m["overhead_share"])
            whole = max(m["bar_length_m"], m["length_m"]) * m["section_m2"] * m["density_kg_per_m3"] * price * (1 + m["overhead_share"])
            self.assertAlmostEqual(whole, float(q["lot"]["bar_each"]), delta=1e-9)
        else:
            self.assertEqual(q["lot"]["pieces_per_bar"], 0)
        self.assertAlmostEqual(each, float(q["lot"]["material_each"]), delta=1e-9)
        # A piece that is parted off has its kerf in the volume of the stock, one that is sawn has not.
        parted = stock["fed_from"] == "bar" or stock.get("pieces", 0) > 0
        length = stock["length_m"] + (stock["kerf_m"] if parted else 0)
        area = math.pi / 4 * stock["diameter_m"] ** 2
        self.assertAlmostEqual(stock["volume_m3"] / (area * length), 1, delta=1e-9)

    def one_offs(self, q):
        lot = q["lot"]
        for o in q["one_offs"]:
            rate = float(lot["machine_per_hour"]) + float(lot["person_per_hour"])
            cost = float(o["bought"]) * (1 + lot["outside_overhead_share"]) + hours(o["operator_s"]) * rate * (1 + lot["overhead_share"])
            self.assertEqual(money(cost), cents(o["cost"]))
            self.assertEqual(price_each(cents(o["cost"]), 1, 1, q["pricing"]), cents(o["price"]))

    def prices(self, q):
        pricing = q["pricing"]
        once = sum(cents(o["price"]) for o in q["one_offs"])
        listed = {}  # by the number of releases: a price list never rises
        for p in reversed(q["prices"]):
            quantity, unit = p["quantity"], p["price_unit"]
            lot = self.routes[p["made_by"]]["lot"]
            mine = Lot(lot, quantity, p["releases"], p["service_pieces"], p["learned_share"])
            said = {line["name"]: cents(line["amount"]) for line in p["lines"]}
            lines = {name: money(value) for name, value in mine.lines().items()}
            for name in set(said) | set(lines):
                self.assertEqual(lines.get(name, 0), said.get(name, 0), (name, quantity))
            self.assertEqual(mine.cost(), cents(p["cost"]))
            self.assertEqual(mine.made, p["make"])
            self.assertAlmostEqual(mine.machine_s(), p["machine_s"], delta=1e-6)
            self.assertAlmostEqual(mine.operator_s(), p["operator_s"], delta=1e-6)
            listed[p["releases"]] = max(listed.get(p["releases"], 0), price_each(mine.cost(), quantity, unit, pricing))
            by_hand = {row["quantity"]: cents(row["each"]) for row in pricing["by_hand"]}
            each = by_hand.get(quantity, listed[p["releases"]])
            self.assertEqual(each, cents(p["each"]))
            total = money(Decimal(each) / 100 * quantity / unit)
            self.assertEqual(total, cents(p["total"]))
            off = lambda goods: money(Decimal(goods) / 100 * Decimal(repr(pricing["rebate_share"])))  # noqa: B023, E731
            least = cents(pricing["minimum_order"]) if pricing["whole_order"] else 0
            self.assertEqual(max(0, least - (total + once - off(total + once))), cents(p["minimum_surcharge"]))
            self.assertEqual(off(total), cents(p["rebate"]))
            income = total - off(total) + cents(p["minimum_surcharge"])
            self.assertEqual(income - mine.cost(), cents(p["margin"]))
            if p["releases"] > 1 and p["service_pieces"] == 0 and p["learned_share"] == 1:
                at_once = Lot(lot, quantity, 1, 0, 1)
                self.assertEqual(price_each(at_once.cost(), quantity, unit, pricing), cents(p["at_once_each"]))
        batch = q["times"]["batch"]
        self.assertEqual([(b["quantity"], b["make"], b["machine_s"]) for b in batch],
                         [(p["quantity"], p["make"], p["machine_s"]) for p in q["prices"]])


if __name__ == "__main__":
    unittest.main()
