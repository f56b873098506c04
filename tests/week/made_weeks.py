"""Invented weeks, each the same on every machine: small and large orders, tight and easy, with downtime, running
work, holidays, overlaps, batches, quotes, work of other firms."""
import datetime
import random

PARTS = ["01-winch-spindle.yaml", "02-bush-blank.yaml", "04-two-cuts.yaml", "05-hoist-spindle.yaml", "06-guide-bush.yaml",
         "07-cover-flange.yaml", "09-clevis-pin.yaml"]
PIECES = {"01-winch-spindle.yaml": (10, 40), "02-bush-blank.yaml": (100, 400), "04-two-cuts.yaml": (20, 60),
          "05-hoist-spindle.yaml": (8, 20), "06-guide-bush.yaml": (200, 600), "07-cover-flange.yaml": (2, 5),
          "09-clevis-pin.yaml": (40, 90)}
# Where an order may be bound to or run: machines of the samples that make the part.
MAKES = {"01-winch-spindle.yaml": "Tarn CNC 1", "02-bush-blank.yaml": "Tarn bar lathe", "04-two-cuts.yaml": "Tarn CNC 1",
         "05-hoist-spindle.yaml": "Tarn CNC 1", "06-guide-bush.yaml": "Tarn bar lathe", "09-clevis-pin.yaml": "Tarn CNC 1"}
FIRST = datetime.date(2026, 12, 7)


def day(n):
    return (FIRST + datetime.timedelta(days=n)).isoformat()


def machines(draw):
    made = [{"machine": "Tarn CNC 1", "shifts": ["early", "late"]},
            {"machine": "Tarn CNC 1", "called": "Tarn CNC 2", "shifts": ["early", "late"]},
            {"machine": "Tarn bar lathe", "shifts": ["early", "late", "saturday"], "mounted": ["bar 35"]},
            {"machine": "Tarn geared lathe", "shifts": ["early"]},
            {"machine": "Tarn heavy lathe", "shifts": ["early", "night"] if draw.random() < 0.3 else ["early"]}]
    for machine in made:
        if draw.random() < 0.3:
            a = draw.randint(1, 8)
            machine["down"] = [{"from": day(a), "to": f"{day(a + draw.randint(0, 2))} 14:00", "why": "service"}]
        if draw.random() < 0.2:
            machine.update({"utilisation": "90 %", "efficiency": 0.95})
        if draw.random() < 0.3:
            machine["mounted"] = machine.get("mounted", []) + ["jaws, hard", "tool centre drill"]
    return made


def people(draw):
    if draw.random() < 0.15:
        return []
    made = [{"name": "Ines", "shifts": ["early"], "sets": "yes"}, {"name": "Marek", "shifts": ["late"], "sets": "yes"},
            {"name": "Jonas", "shifts": ["early"], "sets": "yes"}, {"name": "Lise", "shifts": ["early", "saturday"], "sets": "no"},
            {"name": "Tom", "shifts": ["late", "night"], "sets": "no"}]
    made = made[:draw.randint(2, 5)]
    if draw.random() < 0.5:
        a = draw.randint(0, 6)
        made[0]["away"] = [{"from": day(a), "to": day(a + draw.randint(0, 2)), "why": "holiday"}]
    return made


def order(draw, number, days):
    part = draw.choice(PARTS)
    a = draw.randint(0, 5) if draw.random() < 0.3 else 0
    made = {"order": number, "part": part, "quantity": draw.choice(PIECES[part]), "due": day(a + draw.randint(2, days // 2))}
    if a > 0:
        made["release"] = day(a)
    if draw.random() < 0.15:
        made["importance"] = draw.choice([0.5, 3])
    if draw.random() < 0.15:
        made["overlap"] = draw.choice(["20 %", 0.5])
    if draw.random() < 0.15:
        made["repeat"] = "yes"
    wished(draw, made)
    if draw.random() < 0.1:
        made.update({"state": "quoted", "probability": 0.4})
    elif draw.random() < 0.1:
        made["batches"] = draw.choice([2, 3]) if made["quantity"] > 3 else 2
    elif draw.random() < 0.1 and part in MAKES and "pin" not in made and "not on" not in made:
        made["machine"] = MAKES[part]
    return made


def wished(draw, made):
    """Held, kept from a machine, or pinned."""
    wish = draw.random()
    if wish < 0.05:
        made["hold"] = "the customer's drawing"
    elif wish < 0.15:
        made["not on"] = ["Tarn heavy lathe", "Tarn geared lathe"]
    elif wish < 0.25 and made["part"] in MAKES:
        made["pin"] = [{"operation": 10, "machine": MAKES[made["part"]], "from": f"{day(draw.randint(0, 4))} 08:00"}]


def week(seed):
    draw = random.Random(seed)
    days = draw.choice([15, 22, 30])
    made = {"week": {"from": day(0), "to": day(days - 1), "now": f"{day(0)} 06:00"},
            "shifts": [{"name": "early", "from": "06:00", "to": "14:00", "pauses": ["09:00-09:15", "12:00-12:30"]},
                       {"name": "late", "days": ["Mon-Thu"], "from": "14:00", "to": "22:00", "pauses": ["18:00-18:30"]},
                       {"name": "night", "days": "Mon-Thu", "from": "22:00", "to": "06:00", "pauses": ["01:00-01:30"]},
                       {"name": "saturday", "days": "Sat", "from": "06:00", "to": "12:00"}],
            "machines": machines(draw)}
    if draw.random() < 0.6:
        made["holidays"] = draw.choice([["12-08"], ["12-25", "12-26", {"Easter": 1}], [day(draw.randint(1, 10)), "12-16"]])
    if folk := people(draw):
        made["people"] = folk
    wishes = random.Random(f"wishes {seed}")
    if wishes.random() < 0.4:  # a Saturday worked once
        made["shifts"].append({"name": "once", "days": day(5), "from": "06:00", "to": "12:00"})
        for worker in made["machines"] + folk:
            if "saturday" not in worker["shifts"]:
                worker["shifts"] = worker["shifts"] + ["once"]
    named = random.Random(f"skills {seed}")
    if folk and named.random() < 0.4:
        skilled(named, made)
    made["orders"] = [order(draw, 200 + i, days) for i in range(draw.choice([3, 6, 10, 16, 24]))]
    run_on(draw, made)
    for order_ in made["orders"]:
        more_wishes(wishes, order_)
    return made


def more_wishes(draw, made):
    """What a day late costs, material that comes later, an operation kept from machines."""
    if draw.random() < 0.1:
        made["day late"] = draw.choice(["500 EUR", "60 EUR"])
    if draw.random() < 0.1 and made.get("state") != "running":
        made["material"] = [day(draw.randint(0, 3)), {"operation": 10, "from": f"{day(draw.randint(1, 5))} 10:00"}]
    if draw.random() < 0.1 and not {"pin", "not on", "machine"} & set(made):
        made["not on"] = {"operation": 10, "machine": ["Tarn heavy lathe", "Tarn CNC 2"]}


def skilled(draw, made):
    """Who runs and who sets what; somebody can do everything at all hours that are worked."""
    made["groups"] = [{"name": "CNC", "machines": ["Tarn CNC 1", "Tarn CNC 2"]},
                      {"name": "manual", "machines": ["Tarn geared lathe", "Tarn heavy lathe"]}]
    names = [m.get("called", m["machine"]) for m in made["machines"]] + ["CNC", "manual"]
    for person in made["people"]:
        if draw.random() < 0.7:
            person["machines"] = sorted(set(draw.choices(names, k=draw.randint(1, 3))))
        if person["sets"] == "yes" and draw.random() < 0.5:
            person["sets"] = draw.choice(["CNC", "manual", ["Tarn bar lathe", "CNC"], ["manual", "Tarn CNC 1"]])
    made["people"].append({"name": "Edda", "shifts": ["early", "saturday"], "machines": "all", "sets": "yes"})


def run_on(draw, made):
    """Some of them run: one a machine."""
    free = {m.get("called", m["machine"]) for m in made["machines"]}
    for order in made["orders"]:
        if {"batches", "state", "machine", "pin", "hold"} & set(order) or order["part"] not in MAKES or draw.random() < 0.5:
            continue
        machine = MAKES[order["part"]]
        if machine in free:
            free.remove(machine)
            order.update({"state": "running", "machine": machine, "done": draw.randint(0, 3)})
            if order["part"].startswith("01") and draw.random() < 0.5:
                order["finished"] = [10]
