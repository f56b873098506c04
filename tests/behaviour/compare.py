"""Does another build of the program still say the same numbers? Words and keys may differ, prices, times and plans not.

    compare.py OLD_BINARY NEW_BINARY [--old-tree DIR] [--new-tree DIR] [--parts 1000] [--jobs 2] [--seed 1] [--cache DIR]

Both programs run over the samples, each over those of its own tree, and over random parts, requests and weeks written
in the words that each of them reads. What they say as JSON (and in tables and workbooks) is brought to one set of
keys by the tables below and compared: every number, date and money amount to the last digit, of texts the names of
tools, machines, materials and methods. The exit status is 0 only where everything is equal. With --cache the answers
of the old program are kept and not asked for again, which takes half the time.

To extend: `renames` for a key with a new name, `words` for a name with a new spelling, `only_old` and `only_new` for
keys that one side alone has and may have, `summed` for sums whose order of adding may have changed.
"""
import argparse
import collections
import concurrent.futures
import csv
import gzip
import hashlib
import json
import math
import os
import pickle
import re
import subprocess
import sys
import tempfile
import time
import zipfile
from xml.etree import ElementTree

import yaml

import random_parts

# ---- the tables

# Old key → new key, in this order, on the documents of both sides. A key with dots is the end of a path without
# indices, as it is after the lines above it; what comes out may be a path too.
renames = [
    ("setups", "operations"),
    ("holding", "clamping"),
    ("make_ready_s", "setup_s"),
    ("make_ready_start", "setup_start"),
    ("make_ready", "setup"),
    ("machine_per_part_s", "cycle_per_part_s"),
    ("ways", "methods"),
    ("way", "method"),
    ("on", "machine"),                      # of a way
    ("bit", "binding"),
    ("knob", "changed"),
    ("held_by", "limited_by"),
    ("flips", "winner_changes"),
    ("edges", "inserts"),
    ("elsewhere", "subcontracted"),
    ("goal", "score"),
    ("made", "make"),
    ("methods.holdings", "methods.operations"),
    ("times.allowance.operations", "times.allowance.on"),
    ("times.allowance.machine", "times.allowance.on"),
    ("returned.open", "returned.under_recovered"),
    ("recovery.open", "recovery.under_recovered"),
    ("quoted.open", "quoted.under_recovered"),
    # tables
    ("rows.good", "rows.qty"),
    ("rows.blanks", "rows.make"),
    # figures
    ("inputs.make-ready", "inputs.setup"),
    ("inputs.make-ready-time", "inputs.setup-time"),
    ("results.make-ready-time", "results.setup-time"),
    ("results.make-ready-cost", "results.setup-cost"),
]

# Texts that are compared: ends of paths after the renames.
names = ["tool", "machine", "material", "grade", "operations.steps.kind", "spindle", "form", "resource", "lead.method",
         "either", "methods.name", "map.names", "winner_changes.leader", "reasons.method", "jaws", "support", "currency"]

# What a name was called → what it is called, in lower case, blanks for "_" and "-"; in this order.
words = [
    ("two holdings", "two operations"),
    ("holding by holding", "operation by operation"),
    ("make ready", "setup"),
]

# Ends of paths that one side alone may have: of the old, of the new.
only_old = []
only_new = ["version", "count", "factor", "segments.other_s"]

# Ends of paths that are not compared at all.
ignored = ["schema", "version", "sha256", "inputs.path"]

# Sums of passes that have become segments: equal but for the order of adding.
summed = ["passes.cutting_s", "passes.other_s"]
sum_slack = 1e-12

# ---- documents to numbers by path

NUMBER = re.compile(r"-?\d+(\.\d+)?$")
DATE = re.compile(r"\d{4}-\d\d-\d\d([T ]\d\d:\d\d(:\d\d)?)?$")


def of_a_sentence(path):
    """What a message says and its values: they were inside of English sentences before."""
    return ".values." in path or path.endswith(".text")


def ends_with(path, end):
    return path == end or path.endswith("." + end)


class Paths:
    """Joins keys to paths, renamed; each pair once."""

    def __init__(self):
        self.known, self.kinds = {}, {}

    def join(self, parent, key):
        found = self.known.get((parent, key))
        if found is None:
            found = f"{parent}.{key}" if parent else key
            for old, new in renames:
                if ends_with(found, old):
                    found = found[:len(found) - len(old)] + new
            self.known[(parent, key)] = found
        return found

    def kind(self, path):
        """ignored, name or number."""
        found = self.kinds.get(path)
        if found is None:
            found = "ignored" if of_a_sentence(path) or any(ends_with(path, e) for e in ignored) else \
                    "name" if any(ends_with(path, e) for e in names) else "number"
            self.kinds[path] = found
        return found


paths = Paths()


def name_of(text):
    text = text.lower().replace("_", " ").replace("-", " ")
    for old, new in words:
        text = text.replace(old, new)
    return text


def leaf(path, value):
    """What of a leaf is compared, or None: a number, a truth, a text that is a number or a date, a name."""
    kind = paths.kind(path)
    if kind == "ignored":
        return None
    if isinstance(value, str):
        if NUMBER.match(value):
            return value
        if DATE.match(value):
            return value.replace(" ", "T")
        return name_of(value) if kind == "name" else None
    return "null" if value is None else value


def collect(node, path, out):
    """All leaves by path, each path's in the order of the document."""
    if isinstance(node, dict):
        for key, value in node.items():
            collect(value, paths.join(path, key), out)
    elif isinstance(node, list):
        for item in node:
            collect(item, path, out)
    else:
        value = leaf(path, node)
        if value is not None:
            out[path].append(value)


def leaves(document):
    out = collections.defaultdict(list)
    collect(document, "", out)
    return {path: values for path, values in out.items() if any(v != "null" for v in values)}


def places(node, path="", place=""):
    """The same with the place of every leaf, for reports."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from places(value, paths.join(path, key), f"{place}.{key}" if place else key)
    elif isinstance(node, list):
        for i, item in enumerate(node):
            yield from places(item, path, f"{place}[{i}]")
    else:
        value = leaf(path, node)
        if value is not None:
            yield path, place, value


# ---- where the shape has changed: the old document takes the new one's


def operations_of(document):
    return document.get("operations") or document.get("setups") or []


def number_steps(document):
    """Steps counted through the route become "10.1", "10.2"."""
    for operation in operations_of(document):
        for k, step in enumerate(operation.get("steps", []) if isinstance(operation, dict) else []):
            if isinstance(step.get("number"), int):
                step["number"] = f"{operation['number']}.{k + 1}"


def step_numbers(document):
    """The old number of each step → the new one."""
    return {step["number"]: f"{operation['number']}.{k + 1}" for operation in operations_of(document)
            for k, step in enumerate(operation.get("steps", [])) if isinstance(step.get("number"), int)}


def group_passes(old, new):
    """Passes without segments are put together as those of the other side are."""
    counts = [len(p["segments"]) for p in new.get("passes", []) if "segments" in p]
    singles = old.get("passes", [])
    if not counts or any("segments" in p for p in singles):
        return
    if sum(counts) != len(singles):
        old["passes"] = [{"segments": [p]} for p in singles]
        return
    grouped, at = [], 0
    for count in counts:
        segments = singles[at:at + count]
        at += count
        grouped.append({"cutting_s": sum(p["cutting_s"] for p in segments), "other_s": sum(p["other_s"] for p in segments),
                        "segments": [{k: v for k, v in p.items() if k != "other_s"} for p in segments]})
    old["passes"] = grouped


def align(old, new):
    for one, other in zip(operations_of(old), operations_of(new)):
        if not (isinstance(one, dict) and isinstance(other, dict)):
            return
        for old_step, new_step in zip(one.get("steps", []), other.get("steps", [])):
            group_passes(old_step, new_step)
            group_passes(new_step, old_step)


# ---- the comparison of two documents


def same(path, a, b):
    if a == b:
        return True
    if len(a) != len(b) or not any(ends_with(path, e) for e in summed):
        return False
    return all(x == y or isinstance(x, (int, float)) and isinstance(y, (int, float)) and math.isclose(x, y, rel_tol=sum_slack)
               for x, y in zip(a, b))


def excused(path, table):
    return any(ends_with(path, e) for e in table)


def first_difference(path, old, new, a, b):
    """Where the two lists part, with the places in both documents."""
    k = next((k for k, (x, y) in enumerate(zip(a, b)) if x != y), min(len(a), len(b)))
    said = []
    for document, values in ((old, a), (new, b)):
        at = [place for p, place, _ in places(document) if p == path]
        said.append(f"{values[k]!r} at {at[k]}" if k < len(values) else "nothing more")
    counts = "" if len(a) == len(b) else f" ({len(a)} and {len(b)} of them)"
    return f"old {said[0]}, new {said[1]}{counts}"


def differences(old, new):
    """[(path, text)] of one pair of documents."""
    for document in (old, new):
        number_steps(document)
    align(old, new)
    a, b = leaves(old), leaves(new)
    found = [(path, first_difference(path, old, new, a[path], b[path])) for path in a
             if path in b and not same(path, a[path], b[path])]
    gone, come = {p: v for p, v in a.items() if p not in b}, {p: v for p, v in b.items() if p not in a}
    by_leaf = [collections.defaultdict(list), collections.defaultdict(list)]
    for side, group in enumerate((gone, come)):
        for path, values in group.items():
            by_leaf[side][path.rsplit(".", 1)[-1]] += values
    moved = {key for key in by_leaf[0] if by_leaf[0][key] == by_leaf[1].get(key)}
    for group, table, side in ((gone, only_old, "old"), (come, only_new, "new")):
        found += [(path, f"only in the {side} document: {values[:3]}") for path, values in group.items()
                  if path.rsplit(".", 1)[-1] not in moved and not excused(path, table)]
    return found


# ---- running the programs


def files_under(folder):
    return sorted(os.path.join(at, name) for at, _, names_here in os.walk(folder) for name in names_here)


class Program:
    """A build with its tree, and which of the new words it reads."""

    def __init__(self, path, tree):
        self.path, self.tree = os.path.abspath(path), os.path.abspath(tree)
        self.known = set()
        self.posted = self.methods = False
        self.cache = self.digest = ""

    def keep_in(self, folder, seed):
        """Answers are kept there, as long as the program, its tree and the files asked about are the same."""
        digest = hashlib.sha256(repr((seed, sorted(self.known))).encode())
        for path in [self.path, __file__, random_parts.__file__, *files_under(os.path.join(self.tree, "samples")),
                     *files_under(os.path.join(self.tree, "tests/evidence"))]:
            with open(path, "rb") as file:
                digest.update(file.read())
        os.makedirs(folder, exist_ok=True)
        self.cache, self.digest = folder, digest.hexdigest()

    def answer(self, ask, *about):
        """What `ask` returns, of the cache where it is there; `about` says what is asked."""
        if not self.cache:
            return ask()
        key = hashlib.sha256((self.digest + repr(about)).encode()).hexdigest()
        path = os.path.join(self.cache, key + ".gz")
        if os.path.exists(path):
            with gzip.open(path) as file:
                return pickle.load(file)
        found = ask()
        with gzip.open(f"{path}.{os.getpid()}", "wb", compresslevel=3) as file:
            pickle.dump(found, file)
        os.replace(f"{path}.{os.getpid()}", path)
        return found

    def run(self, *arguments, timeout=900):
        done = subprocess.run([self.path, *arguments], capture_output=True, text=True, cwd=self.tree, timeout=timeout)
        return done.returncode, done.stdout, done.stderr

    def probe(self):
        """Tries each new word on a small file."""
        part = {"part": {"number": "1"}, "material": "C45", "outside": ["30 x40"], "other work": [{"what": "a", "minutes": 1, "setup": 1}]}
        request = {"request": {"customer": "a", "our number": "1", "date": "2026-12-01"},
                   "parts": [{"part": "part.yaml", "quantities": [20], "releases": "2 of 10"}]}
        with tempfile.TemporaryDirectory() as folder:
            def reads(word, name, document, *command):
                path = os.path.join(folder, name)
                with open(path, "w", encoding="utf-8") as file:
                    file.write(random_parts.yaml_text(document, self.known | {word}))
                status, _, err = self.run(*command, path)
                if status in (0, 1) and f"'{word}'" not in err:
                    self.known.add(word)
            reads("setup", "part.yaml", part, "check")
            reads("releases", "request.yaml", request, "quote", "--json")
            week = random_parts.week_file(1, 1, [0])
            week["orders"] = [{"order": 1, "part": "part.yaml", "quantity": 5, "due": "2027-02-12"}]
            for word in ("mounted", "subcontracted"):
                trial = {k: v for k, v in week.items() if k != "subcontracted"}
                trial["machines"] = [{k: v for k, v in m.items() if k != "mounted"} for m in week["machines"]]
                if word == "mounted":
                    trial["machines"][0]["mounted"] = ["bar 35"]
                else:
                    trial["subcontracted"] = {"days": 6, "price": "98 EUR/h"}
                reads(word, f"{word}.yaml", trial, "load", "--shop", "samples/shop", "--json")
        self.posted = "--posted" in self.run("load", "--help")[1]
        self.methods = "--methods" in self.run("compare", "--help")[1]


def documents_in(text):
    """JSON documents one after the other, whatever stands between them."""
    decoder, at, found = json.JSONDecoder(), 0, []
    while True:
        at = next((k for k in range(at, len(text)) if not text[k].isspace()), None)
        if at is None:
            return found
        document, at = decoder.raw_decode(text, at)
        found.append(document)


def key_of(document, k):
    part = document.get("part")
    return part.get("number", k) if isinstance(part, dict) else part if isinstance(part, str) else k


def argument_as_key(argument):
    """A random file by its text, as the folder has another name each time."""
    if not os.path.isabs(argument):
        return argument
    with open(argument, "rb") as file:
        return file.read()


def json_of(program, arguments):
    """Status, documents by their part's number, what was said beside them."""
    status, out, err = program.answer(lambda: program.run(*arguments), "json", [argument_as_key(a) for a in arguments])
    try:
        return status, {key_of(d, k): d for k, d in enumerate(documents_in(out))}, err
    except json.JSONDecodeError as fault:
        return status, {}, f"no JSON: {fault}; {err}"


def file_of(program, arguments, name, read):
    """Status, the numbers of the file that is written, what was said."""
    def ask():
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, name)
            status, _, err = program.run(*arguments, "--output", path)
            return status, read(path), err
    return program.answer(ask, "file", arguments, name)


def table_of(path):
    """A CSV table as rows by heading."""
    if not os.path.exists(path):
        return {}
    with open(path, encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    return {"rows": [dict(zip(rows[0], row)) for row in rows[1:]]} if rows else {}


def workbook_of(path):
    """The numbers of a workbook of plain values, sheet by sheet."""
    if not os.path.exists(path):
        return {}
    space = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
    sheets = []
    with zipfile.ZipFile(path) as book:
        for name in sorted(n for n in book.namelist() if n.startswith("xl/worksheets/sheet")):
            cells = ElementTree.fromstring(book.read(name)).iter(space + "c")
            sheets.append([float(c.find(space + "v").text) for c in cells
                           if c.get("t", "n") == "n" and c.find(space + "v") is not None])
    return {"sheets": sheets}


# ---- jobs: each compares one call of both programs


class Result:
    def __init__(self, label):
        self.label, self.documents, self.feasible = label, 0, 0
        self.found = []                  # (where, path, what)
        self.seconds = [0.0, 0.0, 0.0]   # old, new, comparing

    def add(self, where, path, text):
        self.found.append((where, path, text))


def pair(result, where, old, new):
    result.documents += 1
    result.feasible += old.get("feasible", True) is not False
    for path, text in differences(old, new):
        result.add(where, path, text)


def timed(result, ask, *of_each):
    """What both programs answer, with the time that each takes."""
    answers = []
    for side, program in enumerate(PROGRAMS):
        begin = time.monotonic()
        answers.append(ask(program, *(o[side] for o in of_each)))
        result.seconds[side] += time.monotonic() - begin
    return answers


def statuses(result, old, new):
    if old[0] != new[0]:
        said = (old if old[0] > new[0] else new)[2].strip().splitlines()[:2]
        result.add(result.label, "exit status", f"old {old[0]}, new {new[0]}: {' / '.join(said)}")


def json_job(label, calls, before=lambda document: None):
    """`calls`: the arguments for the old and the new program; both write documents."""
    result = Result(label)
    answers = timed(result, json_of, calls)
    begin = time.monotonic()
    statuses(result, *answers)
    (_, old, old_err), (_, new, new_err) = answers
    for key in list(old) + [k for k in new if k not in old]:
        where = f"{label} {key}" if len(old) > 1 else label
        if key in old and key in new:
            before(old[key])
            before(new[key])
            pair(result, where, old[key], new[key])
        else:
            side, err = ("old", old_err) if key not in old else ("new", new_err)
            result.add(where, "document", f"the {side} program says nothing: {' / '.join(err.strip().splitlines()[:2])}")
    result.seconds[2] = time.monotonic() - begin
    return result


def tune_job(label, part, more):
    """Steps of the old JSON are counted through the route; the route says where each is."""
    _, routes, _ = json_of(PROGRAMS[0], ["route", part, *[m for m in more if m not in ("--rule", "time", "contribution")], "--json"])
    numbers = {}
    for route in routes.values():
        numbers.update(step_numbers(route))

    def renumber(document):
        for step in document.get("steps", []):
            step["number"] = numbers.get(step.get("number"), step.get("number"))

    return json_job(label, both("tune", part, *more, "--json"), renumber)


def file_job(label, calls, name, read):
    """Both write a file, whose numbers are compared."""
    result = Result(label)
    old, new = timed(result, lambda program, call: file_of(program, call, name, read), calls)
    statuses(result, old, new)
    pair(result, label, old[1], new[1])
    return result


def replan_job(label, week, more):
    """A plan is written as a table, posted, and the week planned again around it; both are compared."""
    def ask(program):
        with tempfile.TemporaryDirectory() as folder:
            plan = os.path.join(folder, "plan.csv")
            first, _, err = program.run("load", week, *more, "--output", plan)
            again, out, err_again = program.run("load", week, *more, "--posted" if program.posted else "--keep", plan, "--json")
            return (first, again), {"table": table_of(plan), "again": json.loads(out) if out else None}, err + err_again

    result = Result(label)
    old, new = timed(result, lambda program: program.answer(lambda: ask(program), "replan", week, more))
    statuses(result, old, new)
    pair(result, label, old[1], new[1])
    return result


def methods_job(label, part, method, more):
    """`method`: the names that the old and the new rates have."""
    calls = []
    for program in PROGRAMS:
        option, name = ("--methods", method[1]) if program.methods else ("--ways", method[0])
        calls.append(["compare", part, *more, option, name, "--json"])
    return json_job(label, calls)


def figures_job(label, cases):
    """Cases of the evidence of both trees, by their id: figure and inputs as each tree writes them."""
    result = Result(label)
    for name, calls in cases:
        one = json_job(f"figure {name}", calls)
        result.documents += one.documents
        result.found += one.found
        result.seconds = [a + b for a, b in zip(result.seconds, one.seconds)]
    return result


PROGRAMS = []


def start_worker(programs):
    PROGRAMS[:] = programs


def guarded(job, *words_of):
    """A program that hangs or writes no JSON is a difference like any other."""
    try:
        return job(*words_of)
    except (subprocess.SubprocessError, OSError, ValueError, KeyError, TypeError, AttributeError, ElementTree.ParseError) as fault:
        result = Result(words_of[0])
        result.add(words_of[0], "fault", f"{type(fault).__name__}: {fault}"[:300])
        return result


# ---- what is compared

SAMPLES = [("01-winch-spindle.yaml", []), ("02-bush-blank.yaml", []), ("03-pivot-pin-inch.yaml", []),
           ("03-pivot-pin-inch.yaml", ["--machine", "Tarn geared lathe"]), ("04-two-cuts.yaml", []),
           ("04-two-cuts.yaml", ["--machine", "Tarn geared lathe"]), ("05-hoist-spindle.yaml", []),
           ("06-guide-bush.yaml", []), ("07-cover-flange.yaml", ["--machine", "Tarn heavy lathe"]), ("09-clevis-pin.yaml", [])]
SHOP = ["--shop", "samples/shop"]


def both(*call):
    return [list(call), list(call)]


def sample_jobs():
    jobs = []
    week, part = "samples/12-week.yaml", "samples/01-winch-spindle.yaml"
    # The longest first: two cores are then busy to the end.
    jobs.append((replan_job, ("load again", week, [*SHOP, "--jobs", "1"])))
    jobs.append((json_job, ("load", both("load", week, *SHOP, "--jobs", "1", "--json"))))
    jobs.append((json_job, ("promise", both("promise", week, part, "20", *SHOP, "--jobs", "1", "--json"))))
    jobs.append((json_job, ("actuals", both("actuals", week, "samples/12-booked.csv", *SHOP, "--json"))))
    for name, more in SAMPLES:
        label = name[:-5] + "".join(f" on {m}" for m in more[1:])
        call = ["samples/" + name, *SHOP, *more]
        jobs.append((json_job, (f"compare {label}", both("compare", *call, "--json"))))
        jobs.append((tune_job, (f"tune {label}", call[0], call[1:])))
        for rule in ("time", "contribution"):
            jobs.append((tune_job, (f"tune for {rule} {label}", call[0], [*call[1:], "--rule", rule])))
        for command in ("quote", "route"):
            jobs.append((json_job, (f"{command} {label}", both(command, *call, "--json"))))
            jobs.append((json_job, (f"{command} without a shop {label}", both(command, call[0], "--json"))))
    jobs.append((methods_job, ("compare two methods", part, ("two holdings, between centres", "two operations, between centres"), SHOP)))
    request = "samples/10-request.yaml"
    jobs.append((json_job, ("quote request", both("quote", request, *SHOP, "--json"))))
    jobs.append((file_job, ("quote request to a table", both("quote", request, *SHOP), "priced.csv", table_of)))
    jobs.append((file_job, ("offer", both("offer", request, *SHOP), "offer.xlsx", workbook_of)))
    for name in ("08-list.csv", "11-family.csv"):
        jobs.append((file_job, (f"list {name}", both("quote", f"samples/{name}", *SHOP), "priced.csv", table_of)))
    jobs.append((json_job, ("rates", both("rates", *SHOP, "--json"))))
    return jobs


def figure_jobs():
    found = []
    for program in PROGRAMS:
        with open(os.path.join(program.tree, "tests/evidence/figures.yaml"), encoding="utf-8") as file:
            found.append({case["id"]: ["figure", case["figure"], *str(case["inputs"]).split(), "--json"] for case in yaml.safe_load(file)})
    cases = [(name, (found[0][name], found[1][name])) for name in found[0] if name in found[1]]
    return [(figures_job, ("figures", cases[at::4])) for at in range(4)]


# Of ten random parts eight are planned in the sample shop, one on a lathe named, one on the shipped lathes.
PLANNED = [SHOP] * 8 + [[*SHOP, "--machine", "Tarn geared lathe"], []]
BATCH = 10


def random_jobs(folders, counts):
    jobs = []

    def calls(command, files, more):
        return [[command, *(os.path.join(folder, f) for f in files), *more, "--json"] for folder in folders]

    for i in range(counts["weeks"]):
        name = f"week-{i:03d}.yaml"
        jobs.append((json_job, (f"random load {i}", calls("load", [name], [*SHOP, "--jobs", "1"]))))
    for i in range(counts["requests"]):
        jobs.append((json_job, (f"random request {i}", calls("quote", [f"request-{i:04d}.yaml"], SHOP))))
    for i in range(0, counts["parts"], 100):
        jobs.append((json_job, (f"random compare {i}", calls("compare", [random_parts.part_name(i)], SHOP))))
        jobs.append((json_job, (f"random tune {i}", calls("tune", [random_parts.part_name(i)], SHOP))))
    for shop_at, more in ((range(8), PLANNED[0]), ([8], PLANNED[8]), ([9], PLANNED[9])):
        numbers = [i for i in range(counts["parts"]) if i % 10 in shop_at]
        for at in range(0, len(numbers), BATCH):
            files = [random_parts.part_name(i) for i in numbers[at:at + BATCH]]
            kind = "in the shop" if more == SHOP else "on a lathe named" if more else "without a shop"
            for command in ("quote", "route"):
                jobs.append((json_job, (f"random {command} {kind}", calls(command, files, more))))
    return jobs


# ---- the report


class Report:
    """Differences by path: how many documents, and the first few of them."""

    def __init__(self, most):
        self.most, self.by_path, self.documents, self.feasible = most, {}, 0, collections.Counter()
        self.empty = []
        self.seconds = [0.0, 0.0, 0.0]

    def take(self, result):
        self.documents += result.documents
        self.feasible[result.label] += result.feasible
        if result.documents == 0:
            self.empty.append(result.label)
        self.seconds = [a + b for a, b in zip(self.seconds, result.seconds)]
        for where, path, text in result.found:
            self.by_path.setdefault(path, []).append((where, text))

    def print(self, parts, seconds):
        for path in sorted(self.by_path, key=lambda p: -len(self.by_path[p])):
            found = self.by_path[path]
            print(f"{path}: {len(found)} documents")
            for where, text in found[:self.most]:
                print(f"    {where}: {text}")
        planned = self.feasible["random route in the shop"]
        asked = sum(1 for i in range(parts) if i % 10 < 8)
        if self.empty:
            print(f"nothing to compare: {', '.join(sorted(self.empty))}")
        if asked and planned:
            print(f"{planned} of {asked} random parts are planned in the sample shop ({100 * planned / asked:.0f} %)")
        print(f"{self.documents} pairs of documents, {sum(map(len, self.by_path.values()))} differences under "
              f"{len(self.by_path)} keys; {seconds:.0f} s (old program {self.seconds[0]:.0f} s, new {self.seconds[1]:.0f} s, "
              f"comparing {self.seconds[2]:.0f} s, on all cores together)")


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    own = os.path.join(os.path.dirname(os.path.abspath(__file__)), "../..")
    parser.add_argument("old")
    parser.add_argument("new")
    parser.add_argument("--old-tree", help="default: the folder 'tree' beside the old binary, else this repository")
    parser.add_argument("--new-tree", default=own, help="default: this repository")
    parser.add_argument("--parts", type=int, default=1000)
    parser.add_argument("--requests", type=int, help="default: one to twenty parts")
    parser.add_argument("--weeks", type=int, default=2)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--cache", help="a folder for the answers of the old program")
    parser.add_argument("--only", default="", help="only what has this text in its label, as 'quote' or 'random'")
    parser.add_argument("--most", type=int, default=3, help="differences shown of each key")
    given = parser.parse_args()
    beside = os.path.join(os.path.dirname(os.path.abspath(given.old)), "tree")
    given.old_tree = given.old_tree or (beside if os.path.isdir(beside) else own)
    if given.requests is None:
        given.requests = given.parts // 20
    return given


def main():
    given = arguments()
    begin = time.monotonic()
    PROGRAMS[:] = [Program(given.old, given.old_tree), Program(given.new, given.new_tree)]
    report = Report(given.most)
    counts = {"parts": given.parts, "requests": given.requests if given.parts else 0, "weeks": given.weeks if given.parts else 0}
    with tempfile.TemporaryDirectory() as work:
        folders = []
        for side, program in zip(("old", "new"), PROGRAMS):
            program.probe()
            print(f"the {side} program reads {', '.join(sorted(program.known)) or 'the old words only'}")
            folders.append(os.path.join(work, side))
            os.mkdir(folders[-1])
            random_parts.write_all(folders[-1], given.seed, counts["parts"], counts["requests"], counts["weeks"], program.known)
        if given.cache:
            PROGRAMS[0].keep_in(given.cache, given.seed)
        jobs = [(job, words_of) for job, words_of in sample_jobs() + figure_jobs() + random_jobs(folders, counts)
                if given.only in words_of[0]]
        with concurrent.futures.ProcessPoolExecutor(given.jobs, initializer=start_worker, initargs=(PROGRAMS,)) as pool:
            for done in concurrent.futures.as_completed([pool.submit(guarded, job, *words_of) for job, words_of in jobs]):
                report.take(done.result())
    report.print(counts["parts"], time.monotonic() - begin)
    return 1 if report.by_path or report.documents == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
