"""Thousands of wide parts against the rules of the trade, read from the route's JSON alone.

PARTS=300 in the suite, 10000 by hand; SEED=1; EXAMPLES=folder keeps the first three part files of every kind of
violation; REPORT=file writes the counts. Each rule, the share planned and the properties are subtests of their own.
"""
import os
import re
import subprocess
import sys
import tempfile
import unittest
import json
from collections import Counter, defaultdict

import yaml

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
sys.path.insert(0, os.path.join(ROOT, "tests/route"))
import plan_rules as rules  # noqa: E402
import wide_parts  # noqa: E402
from program import PROGRAM, SHOP  # noqa: E402

PARTS = int(os.environ.get("PARTS", "300"))
SEED = os.environ.get("SEED", "1")
EXAMPLES = os.environ.get("EXAMPLES")
BATCH = 200
GOAL = 0.97
# By hand (PARTS is given) every rule is asserted; in the suite those that hold today.
EXPLORE = "PARTS" in os.environ
PLANNED_NOW = 0.97
BROKEN_YET = {"each roughing pass meets what its depth says"}


def yaml_text(document):
    return yaml.safe_dump(document, sort_keys=False, allow_unicode=True, width=100000, default_flow_style=None)


def run_many(command, documents, *more):
    """Part number → its JSON, and part number → the first problem of a part that could not be read."""
    answers, problems = {}, {}
    with tempfile.TemporaryDirectory() as folder:
        for start in range(0, len(documents), BATCH):
            names = []
            for document in documents[start:start + BATCH]:
                names.append(os.path.join(folder, document["part"]["number"] + ".yaml"))
                with open(names[-1], "w", encoding="utf-8") as file:
                    file.write(yaml_text(document))
            done = subprocess.run([PROGRAM, command, *names, "--shop", SHOP, "--json", *more], capture_output=True, text=True, timeout=600)
            if done.returncode not in (0, 1, 2):
                raise AssertionError(f"exit {done.returncode}: {done.stderr[:500]}")
            for line in done.stdout.splitlines():
                answer = json.loads(line)
                answers[answer["part"]["number"]] = answer
            for line in done.stderr.splitlines():
                found = re.match(r".*/(\w+)\.yaml:(?:\d+:\d+:)? (.*)", line)
                if found:
                    problems.setdefault(found[1], found[2])
            for name in names:
                os.remove(name)
    return answers, problems


def reason(message):
    """Ids of a refusal, from the outside in."""
    for value in message["values"].values():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            return message["id"] + " > " + reason(value[0])
    return message["id"]


def plain(problem):
    """A problem of a file without its numbers and names."""
    text = re.sub(r"; did you mean.*", "", problem)
    text = re.sub(r"\b(M|G|R)\d[\w/.-]*( LH)?", "M", text)
    return re.sub(r"\d[\d.e-]*", "#", text)[:90]


def over(said):
    """How far the worst step goes beyond its stated depth: broken edges are small, necks are large."""
    worst = 0.0
    for s in said:
        removed, stated = re.search(r"removes ([\d.]+) cm3, its passes at their stated depth ([\d.]+)", s).groups()
        worst = max(worst, float(removed) / max(float(stated), 0.005))
    return next((f"above {limit} times" for limit in (5, 2, 1.5) if worst > limit), "up to 1.5 times")


class Findings:
    def __init__(self):
        self.parts = Counter()       # kind → parts with it
        self.sentences = defaultdict(list)
        self.by_step = Counter()
        self.by_size = Counter()     # how many times its depth the worst step removes → parts

    def add(self, kind, document, said):
        self.parts[kind] += 1
        shown = self.sentences[kind]
        if len(shown) < 3:
            shown.append(f"{document['part']['number']}: {said[0]}")
            if EXAMPLES:
                os.makedirs(EXAMPLES, exist_ok=True)
                name = re.sub(r"\W+", "-", kind)[:60] + f"-{len(shown)}.yaml"
                with open(os.path.join(EXAMPLES, name), "w", encoding="utf-8") as file:
                    file.write("".join(f"# {s}\n" for s in [kind, *said[:5]]) + yaml_text(document))


def report(lines):
    text = "\n".join(lines)
    print(text)
    if "REPORT" in os.environ:
        with open(os.environ["REPORT"], "a", encoding="utf-8") as file:
            file.write(text + "\n")


class RandomParts(unittest.TestCase):
    def test_rules_on_every_plan(self):
        shop, found = rules.Shop(), Findings()
        refused, refused_by_kind, machines, kinds, planned_by_kind = Counter(), Counter(), Counter(), Counter(), Counter()
        planned = 0
        for start in range(0, PARTS, 1000):
            parts = [wide_parts.wide_part(SEED, i) for i in range(start, min(start + 1000, PARTS))]
            documents = [p.document() for p in parts]
            answers, problems = run_many("route", documents)
            for part, document in zip(parts, documents):
                kinds[part.kind] += 1
                answer = answers.get(part.number)
                why = None
                if answer is None:
                    why = "not read: " + plain(problems.get(part.number, "no answer"))
                elif not rules.planned(answer):
                    why = reason(answer["why_not"])
                if why is not None:
                    refused[why] += 1
                    refused_by_kind[part.kind] += 1
                    found.add("refused " + why, document, [why if answer is None else answer["why_not"]["text"]])
                    continue
                planned += 1
                planned_by_kind[part.kind] += 1
                for operation in answer["operations"][:1]:
                    machines[operation["machine"]] += 1
                for rule, said in rules.all_rules(answer, shop).items():
                    if said:
                        found.add(rule, document, said)
                        if rule == "a pass removes what its depth says":
                            found.by_size[over(said)] += 1
                            for step in {s.split(" removes")[0].split(" ", 1)[1] for s in said}:
                                found.by_step[step] += 1
        self.write(found, refused, machines, kinds, planned_by_kind, planned)
        share = planned / PARTS
        with self.subTest(rule="share planned"):
            self.assertGreaterEqual(share, GOAL if EXPLORE else PLANNED_NOW, f"{planned} of {PARTS} planned")
        for rule in rules.RULES:
            with self.subTest(rule=rule):
                if EXPLORE or rule not in BROKEN_YET:
                    self.assertEqual(found.parts[rule], 0, "; ".join(found.sentences[rule]))

    @staticmethod
    def write(found, refused, machines, kinds, planned_by_kind, planned):
        lines = ["", f"{PARTS} parts, seed {SEED}", wide_parts.RANGES, "",
                 f"planned {planned} = {100 * planned / PARTS:.1f} %, on " + ", ".join(f"{m} {n}" for m, n in machines.most_common()),
                 "planned by kind: " + ", ".join(f"{k} {planned_by_kind[k]}/{n}" for k, n in kinds.most_common()), "", "refused:"]
        lines += [f"  {n:5} {why}   e.g. {found.sentences['refused ' + why][0]}" for why, n in refused.most_common()]
        lines += ["", "rule: parts that break it, of those planned"]
        broken = [(n, rule) for rule, n in found.parts.items() if not rule.startswith("refused")]
        for n, rule in sorted(broken, reverse=True):
            lines.append(f"  {n:5} {100 * n / max(planned, 1):5.1f} %  {rule}")
            lines += [f"           {s}" for s in found.sentences[rule]]
        lines += ["", "depth rule by step and tool: " + ", ".join(f"{s} {n}" for s, n in found.by_step.most_common(14))]
        lines += ["depth rule by size: " + ", ".join(f"{s} {n}" for s, n in sorted(found.by_size.items()))]
        report(lines)


# ---- advice that is followed helps


def fed_from(source):
    def change(document):
        stock = document["stock"]
        return {**document, "stock": {**stock, "fed from": source}} if isinstance(stock, dict) else None
    return change


def longer_blank(document):
    stock = document["stock"]
    if not isinstance(stock, dict):
        return None
    overall = sum(float(re.search(r" x([\d.]+)", text)[1]) for text in document["outside"])
    return {**document, "stock": {**stock, "length": round(overall + 60, 1)}}


def bright_bar(document):
    stock = document["stock"]
    return {**document, "stock": {**stock, "condition": "peeled"}} if isinstance(stock, dict) and "round" in stock else None


def same(document):
    return document


# What a remedy says, done to the part file and the machine.
ADVICE = {
    "plan.try-bar-fed": (fed_from("bar"), []),
    "plan.try-sawn-blanks": (fed_from("blank"), []),
    "plan.try-longer-blank": (longer_blank, []),
    "plan.try-bright-bar": (bright_bar, []),
    "plan.try-tailstock": (same, ["--machine", "Tarn CNC 1"]),
    "plan.try-larger-lathe": (same, ["--machine", "Tarn heavy lathe"]),
    "plan.try-cnc-lathe": (same, ["--machine", "Tarn CNC 1"]),
}


@unittest.skipUnless(EXPLORE, "skipped: a measure, run by hand with PARTS given")
class Advice(unittest.TestCase):
    def test_what_would_help_helps(self):
        documents = {f"W{i}": wide_parts.wide_part(SEED, i).document() for i in range(min(PARTS, 2000))}
        answers, _ = run_many("route", list(documents.values()))
        followed, helped, found = Counter(), Counter(), Findings()
        for remedy, (change, more) in ADVICE.items():
            changed = {n: change(documents[n]) for n, a in answers.items()
                       if not rules.planned(a) and any(r["id"] == remedy for r in a["remedies"])}
            changed = {n: d for n, d in changed.items() if d is not None}
            after, problems = run_many("route", list(changed.values()), *more)
            for n, document in changed.items():
                followed[remedy] += 1
                if n in after and rules.planned(after[n]):
                    helped[remedy] += 1
                else:
                    why = after[n]["why_not"]["text"] if n in after else problems.get(n, "?")
                    found.add("advice that does not help " + remedy, document, [f"was: {answers[n]['why_not']['text']}; then: {why}"])
        lines = ["", "advice followed (up to 2000 parts):"]
        lines += [f"  {r}: {n} times, helped {helped[r]}   {'; '.join(found.sentences['advice that does not help ' + r][:2])}" for r, n in followed.most_common()]
        report(lines)
        for remedy in followed:
            with self.subTest(remedy):
                self.assertEqual(helped[remedy], followed[remedy])


# ---- adding work never takes less cutting


def plain_shaft(draw, number):
    ds = wide_parts.diameters(draw, round(draw.between(14, 120)), 4)
    threads = [m for m in wide_parts.FINE if m < max(ds)]
    if threads and draw.chance(0.7):
        ds = [max(threads), *ds]
    shape = [[d, max(24, round(d * draw.uniform(0.4, 1.2)))] for d in ds]
    material = draw.choice(wide_parts.STEELS[:4] + wide_parts.OTHERS[:5])
    return {"number": number, "shape": shape, "material": material, "size": max(ds) + 5}


def shaft_document(base, suffix, texts):
    return {"part": {"number": base["number"] + suffix}, "material": base["material"], "stock": {"round": base["size"], "condition": "hot rolled"},
            "quantities": [20], "drawing": {"general": "ISO 2768-m", "Ra": 3.2}, "outside": texts}


def variants(draw, base):
    """The plain shaft, and the same with one thing more."""
    texts = [f"{d:g} x{length}" for d, length in base["shape"]]
    at = draw.randrange(len(texts))
    pos = sum(length for _, length in base["shape"][:at])
    d, length = base["shape"][at]
    out = {"": texts}
    grooved = list(texts)
    grooved[at] += f", groove 3 wide 1 deep at {pos + length // 2 - 2}"
    out["groove"] = grooved
    sizes = [m for m in wide_parts.FINE if m == base["shape"][0][0]]
    if sizes:
        out["thread"] = [f"M{sizes[0]}x{wide_parts.FINE[sizes[0]]:g} x{base['shape'][0][1]}, undercut DIN 76-A", *texts[1:]]
    last = base["shape"][-1][0]
    out["cylinder"] = [*texts, f"{max(3, round(last * 0.85))} x12"]
    return {k: shaft_document(base, k, v) for k, v in out.items()}


def cutting(route):
    return sum(s["times"]["cutting_s"] for o in route["operations"] for s in o["steps"])


def order_of(route):
    """Which end comes first, with how many passes: "chuck left 12, chuck right 7"."""
    return ", ".join(f"{o['clamping']['text']} {'right' if rules.free_side(o) > 0 else 'left'} {sum(len(s['passes']) for s in o['steps'])}" for o in route["operations"])


@unittest.skipUnless(EXPLORE, "skipped: a measure, run by hand with PARTS given")
class MoreWork(unittest.TestCase):
    def test_a_feature_more_never_cuts_less(self):
        counted, less, lines = Counter(), Counter(), []
        found = Findings()
        draws = [wide_parts.Draw(f"more-{SEED}-{i}") for i in range(max(20, PARTS // 10))]
        sets = [variants(draw, plain_shaft(draw, f"P{i}")) for i, draw in enumerate(draws)]
        for machine in ("Tarn CNC 1", "Tarn geared lathe"):
            answers, _ = run_many("route", [d for s in sets for d in s.values()], "--machine", machine)
            for documents in sets:
                routes = {k: answers.get(d["part"]["number"]) for k, d in documents.items()}
                if routes[""] is None or not rules.planned(routes[""]):
                    continue
                for k in set(routes) - {""}:
                    if routes[k] is None or not rules.planned(routes[k]):
                        continue
                    counted[k] += 1
                    before, after = cutting(routes[""]), cutting(routes[k])
                    if after < before - 1e-6:
                        less[k] += 1
                        found.add("less cutting with a " + k + " more", documents[k], [f"{machine}: {before:.1f} s without, {after:.1f} s with it; "
                                                                                     + order_of(routes[""]) + " and " + order_of(routes[k])])
        for k in counted:
            lines.append(f"a {k} more: {counted[k]} pairs, {less[k]} cut less   {'; '.join(found.sentences['less cutting with a ' + k + ' more'])}")
        report(["", *lines])
        for k in counted:
            with self.subTest(more=k):
                self.assertEqual(less[k], 0)


# ---- the length of a pin, millimetre by millimetre


PINS = {
    "dowel from bar": ("C45", {"round": 14, "condition": "drawn", "fed from": "bar"}, lambda n: [f"12 h8 x{n}, Ra 1.6, chamfer 1x45 both"]),
    "brass pin from bar": ("CuZn39Pb3", {"round": 10, "condition": "drawn", "fed from": "bar"}, lambda n: [f"8 h9 x{n - 5}", "9.5 x5"]),
    "stud from bar": ("1.4301", {"round": 20, "condition": "drawn", "fed from": "bar"}, lambda n: [f"16 h8 x{n}, chamfer 1x45 right"]),
    "pin of sawn bar": ("C45", {"round": 30, "condition": "drawn"}, lambda n: [f"28 h8 x{n}, chamfer 1x45 both"]),
    "stepped pin of sawn bar": ("42CrMo4 +QT", {"round": 40, "condition": "hot rolled"}, lambda n: [f"30 h7 x{n - 6}, Ra 1.6", "36 x6"]),
    "pin, stock as the plan likes": ("C45", "auto", lambda n: [f"20 h8 x{n}, chamfer 1x45 both"]),
}
LENGTHS = range(10, 121)


def plan_of(quote):
    """What may make a step in the price: machines, clampings, kinds and tools of the steps, support, stock."""
    stock = quote["stock"]
    return (tuple((o["machine"], tuple(rules.clamping_ids(o["clamping"])), o["grip"] and o["grip"]["jaws"], o["support"],
                   tuple((s["kind"], s["tool"], len(s["passes"])) for s in o["steps"])) for o in quote["operations"]),
            stock["form"], stock["condition"], round(stock["diameter_m"], 6))


@unittest.skipUnless(EXPLORE, "skipped: a measure, run by hand with PARTS given")
class PinWalk(unittest.TestCase):
    def test_a_millimetre_more_costs_little_more(self):
        lines, bad = [""], Counter()
        found = Findings()
        for name, (material, stock, outside) in PINS.items():
            documents = [{"part": {"number": f"L{n}"}, "material": material, "stock": stock, "quantities": [1000],
                          "drawing": {"general": "ISO 2768-m", "Ra": 3.2}, "outside": outside(n)} for n in LENGTHS]
            answers, problems = run_many("quote", documents)
            walk = [(n, answers.get(f"L{n}")) for n in LENGTHS]
            refused = [n for n, q in walk if q is None or not rules.planned(q)]
            for n, document in zip(LENGTHS, documents):
                if n in refused and n <= 6 * thickness(stock):
                    why = answers[f"L{n}"]["why_not"]["text"] if f"L{n}" in answers else problems.get(f"L{n}", "?")
                    bad["refused up to 6 diameters"] += 1
                    found.add("refused up to 6 diameters", document, [f"{name}: {n} mm: {why}"])
            changes = 0
            for (n, before), (_, after), document in zip(walk, walk[1:], documents[1:]):
                if None in (before, after) or not rules.planned(before) or not rules.planned(after):
                    continue
                a, b = (float(q["prices"][0]["cost"]) / 1000 for q in (before, after))
                if plan_of(before) != plan_of(after):
                    changes += 1
                    if abs(b / a - 1) > 0.02:
                        lines.append(f"  {name}: {n} to {n + 1} mm {a:.3f} to {b:.3f} ({100 * (b / a - 1):+.1f} %), the plan changes: {difference(before, after)}")
                elif b < a * (1 - 1e-4) or b > a * (1 + max(0.02, 1.2 / n)):  # a millimetre of 30 is 3.3 % of all that is cut
                    kind = "longer is cheaper, same plan" if b < a else "a step above 2 %, same plan"
                    bad[kind] += 1
                    found.add(kind, document, [f"{name}: {n} to {n + 1} mm {a:.3f} to {b:.3f} ({100 * (b / a - 1):+.1f} %)"])
            spans = f", refused at {ranges(refused)}" if refused else ""
            lines.append(f"{name}: {len(walk)} lengths, the plan changes {changes} times{spans}")
        lines += [f"{kind}: {n} times   {'; '.join(found.sentences[kind])}" for kind, n in bad.items()]
        report(lines)
        for kind in ("longer is cheaper, same plan", "a step above 2 %, same plan", "refused up to 6 diameters"):
            with self.subTest(kind):
                self.assertEqual(bad[kind], 0, "; ".join(found.sentences[kind]))


def thickness(stock):
    return stock["round"] if isinstance(stock, dict) else 20


def ranges(numbers):
    """10, 11, 12, 40 → 10-12, 40."""
    out = []
    for n in numbers:
        if out and out[-1][1] == n - 1:
            out[-1][1] = n
        else:
            out.append([n, n])
    return ", ".join(f"{a}" if a == b else f"{a}-{b}" for a, b in out)


def difference(before, after):
    (ops_a, *stock_a), (ops_b, *stock_b) = plan_of(before), plan_of(after)
    if stock_a != stock_b:
        return f"stock {stock_a} to {stock_b}"
    if len(ops_a) != len(ops_b):
        return f"{len(ops_a)} to {len(ops_b)} operations, {ops_a[0][0]} to {ops_b[0][0]}"
    for a, b in zip(ops_a, ops_b):
        for what, x, y in zip(("machine", "clamping", "jaws", "support", "steps"), a, b):
            if x != y:
                return f"{what} {x if what != 'steps' else ''} to {y if what != 'steps' else [s for s in y if s not in x][:3]}"
    return "?"


if __name__ == "__main__":
    unittest.main()
