"""Changes one token of the rooms that reckon, at random but repeatably, and asks whether a test notices.

A change is a comparison, a sign, a product for a quotient, a condition turned over, a whole number one up, or a
constant doubled. Some files are drawn and some changes of each; all are compiled in at once, as mutation.hpp has them,
and switched on by the environment one at a time, so that a change costs no compilation. Each unit test is run alone
first, to see which changes it comes past; a change is then judged by these tests alone, quick ones first, until one
fails. What no unit test catches is judged by the transcripts that come past it, then by the other scripts of the fast
suite and the published examples. A test that takes ten times its
processor time fails. Headers that more than --dependents files include are left out: they would compile them all.

usage: tests/mutation.py [--build DIR] [--room ROOM…] [--n N] [--per-file N] [--seed S] [--file REGEX] [--dependents N]
                         [--no-transcripts]
Prints a line a change: caught by which test, caught by transcripts, or survived (with the tests that came past it); a
sum by room; the tree is as it was. A release build with ccache and -DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=lld is the
quickest: 2 s of a processor a file, a minute for the tests, then half a second a change that is caught."""
import argparse
import collections
import glob
import hashlib
import json
import os
import random
import re
import resource
import signal
import subprocess
import sys
import tempfile

ROOT = os.path.normpath(os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
KINDS = ("unit tests", "transcripts", "scripts")  # in the order in which they judge
ROOMS = ("figure", "estimate", "route", "week")
SWAPS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "&&": "||", "||": "&&",
         "+": "-", "-": "+", "*": "/", "/": "*", "+=": "-=", "-=": "+=", "*=": "/=", "/=": "*=", "true": "false", "false": "true",
         "min": "max", "max": "min"}
# What stands at the two sides of an arithmetic sign, so that templates, references and streams are left alone.
TOKEN = re.compile(r"//[^\n]*|/\*.*?\*/|R\"\((?:.|\n)*?\)\"|\"(?:[^\"\\\n]|\\.)*\"|'(?:[^'\\\n]|\\.)+'|^[ \t]*#[^\n]*"
                   r"|\d[\d.']*(?:e[+-]?\d+)?|[A-Za-z_][\w:]*|<=>|<=|>=|==|!=|&&|\|\||->|<<|>>|\+\+|--|\+=|-=|\*=|/=|[^\s\w]",
                   re.M)
OPENS, CLOSES = "([{", ")]}"


def tokens(text):
    return [(m.start(), m.group()) for m in TOKEN.finditer(text) if not m.group().startswith(("//", "/*", "#", " ", "\t", "\"", "'", "R\""))]


def operand_before(token):
    return bool(re.match(r"[\w)\]]", token[-1])) and token not in ("return", "case", "operator")


def term(all_tokens, k, step, ends):
    """The last token, going from an && or || at k to one side, before what ends its operand."""
    depth, inner, outer = 0, *((OPENS, CLOSES) if step > 0 else (CLOSES, OPENS))
    i = k + step
    while 0 <= i < len(all_tokens):
        token = all_tokens[i][1]
        if depth == 0 and (token in outer or token in ends):
            break
        depth += (token in inner) - (token in outer)
        i += step
    return all_tokens[i - step]


def condition(all_tokens, k):
    """Edits that make both sides of an && or || a function, and where they begin and end."""
    at, token = all_tokens[k]
    ends = (";", ",", "=", "?", ":", "return", "||")  # a chain of && is one operand of it
    first, last = term(all_tokens, k, -1, ends)[0], term(all_tokens, k, 1, ends)
    end = last[0] + len(last[1])
    name = "both" if token == "&&" else "either"
    return [(first, first, f"mutation::{name}(%d, [&] {{ return bool("), (at, at + 2, "); }, [&] { return bool("), (end, end, "); })")]


def changes(text):
    """Places with what stands there, what it becomes, and the edits that write both with a switch between."""
    out, all_tokens = [], tokens(text)
    for k in range(1, len(all_tokens) - 1):
        (_, before), (at, token), (_, after) = all_tokens[k - 1:k + 2]
        end = at + len(token)
        spaced = text[at - 1] == " " and text[end] in " \n"  # clang-format parts operators by blanks
        starts = before in ("(", ",", "return", "=", "&&", "||", "?", ":")

        def change(new, written):
            out.append((at, token, new, written if isinstance(written, list) else [(at, end, written)]))

        if token in ("&&", "||") and spaced:
            change(SWAPS[token], condition(all_tokens, k))
        elif token in ("<", ">", "<=", ">=", "==", "!=", "+", "-", "*", "/", "+=", "-=", "*=", "/=") and spaced:
            if operand_before(before) and before != "operator":
                change(SWAPS[token], f"{token} mutation::At<%d>{{}} {token}")
        elif token == "-" and starts and not spaced:
            change("", "mutation::Minus<%d>{} - ")
        elif token in ("min", "max", "std::min", "std::max") and after == "(":
            change(SWAPS[token[-3:]], f"mutation::Extreme<%d, {'true' if 'min' in token else 'false'}>{{}}")
        elif token in ("true", "false") and before in ("return", "=", ",", "("):
            change(SWAPS[token], f"(mutation::on(%d) != {token})")
        elif token == "!" and starts and re.match(r"[A-Za-z(]", after):
            change("", "mutation::on(%d) != !")
        elif re.fullmatch(r"\d+", token) and before not in ("[", "<", "{", "%") and after != ">":
            change(str(int(token) + 1), f"mutation::number(%d, {token}, {int(token) + 1})")
        elif re.fullmatch(r"\d+\.\d*(e[+-]?\d+)?", token) and float(token) != 0:
            change(repr(2 * float(token)), f"mutation::number(%d, {token}, {2 * float(token)!r})")
    return out


def inside_a_function(text, at):
    """Not among includes, declarations with defaults of records, or static tables: changes that are compiled code."""
    line = text[text.rfind("\n", 0, at) + 1:text.find("\n", at)]
    return line.startswith("  ") and not re.match(r"\s*(static_assert|template|using|case|static|constexpr)\b|.*\b(constexpr|needed\()", line)


def text_of(file):
    with open(os.path.join(ROOT, file), encoding="utf-8") as opened:
        return opened.read()


def write(file, text):
    with open(os.path.join(ROOT, file), "w", encoding="utf-8") as opened:
        opened.write(text)


def room_of(file):
    return file.split("/")[2 if file.startswith("include/") else 1]


class Change:
    def __init__(self, number, file, text, place):
        self.number, self.file = number, file
        self.at, self.old, self.new, self.edits = place
        self.line, column = text.count("\n", 0, self.at) + 1, self.at - text.rfind("\n", 0, self.at)
        self.code = text[text.rfind("\n", 0, self.at) + 1:text.find("\n", self.at)].strip()
        self.name = f"{file}:{self.line}:{column}: {self.old} to {self.new or 'nothing'}"

    def crosses(self, other):
        """Two conditions of one chain, whose sides overlap."""
        (a, _, _), (b, _, _) = self.edits[0], self.edits[-1]
        (c, _, _), (d, _, _) = other.edits[0], other.edits[-1]
        inner = lambda e, lo, hi: len(e) == 3 and any(x[0] <= lo and hi <= y[0] for x, y in zip(e, e[1:]))
        return len(self.edits) == len(other.edits) == 3 and a < d and c < b and \
            not inner(self.edits, c, d) and not inner(other.edits, a, b)


def drawn(room, n, per_file, seed, may_change):
    """Files in an order that the seed fixes, some changes of each, until there are enough."""
    paths = sorted(os.path.relpath(os.path.join(path, name), ROOT) for top in ("src", "include/turnwright")
                   for path, _, names in os.walk(os.path.join(ROOT, top, room)) for name in names)
    draw, found = random.Random(f"{seed} {room}"), []
    files = [file for file in paths if file.endswith((".cpp", ".hpp")) and may_change(file)]
    draw.shuffle(files)
    for file in files:
        text = text_of(file)
        places = [p for p in changes(text) if inside_a_function(text, p[0])]
        draw.shuffle(places)
        of_file = []
        for change in (Change(0, file, text, p) for p in places):
            if len(of_file) < per_file and len(found) + len(of_file) < n and not any(map(change.crosses, of_file)):
                of_file.append(change)
        found += of_file
    return found


def switched(text, of_file):
    """The text with all its changes in it. Where two begin together the wider one is the outer one."""
    edits = []
    for c in of_file:
        width = c.edits[-1][1] - c.edits[0][0]
        for k, (a, b, written) in enumerate(c.edits):
            opening = len(c.edits) == 3 and k == 0
            closing = len(c.edits) == 3 and k == 2
            rank = (0, width) if closing else (1, -width) if opening else (2, 0)
            edits.append((a, rank, b, written % c.number if "%d" in written else written))
    out, at = [f'#include "{ROOT}/tests/mutation.hpp"\n#line 1\n'], 0
    for a, _, b, written in sorted(edits):
        out += [text[at:a], written]
        at = b
    return "".join(out) + text[at:]


def bounded(seconds):
    """Of processor time, so that a busy machine is no failure; and of memory, for loops without an end."""
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))
    resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))


class Build:
    """The build with all changes in it, and its tests."""

    def __init__(self, folder):
        self.folder = os.path.abspath(folder)
        self.unit = os.path.join(self.folder, "tests", "turnwright-tests")
        self.changes, self.texts, self.tests, self.impossible = [], {}, [], set()

    def ninja(self, *targets):
        return subprocess.run(["ninja", "-C", self.folder, "-j1", "-k0", *targets], capture_output=True, text=True)

    def dependents(self):
        """How many files include a header, as the compiler said."""
        of = collections.Counter()
        for line in subprocess.run(["ninja", "-C", self.folder, "-t", "deps"], capture_output=True, text=True).stdout.splitlines():
            if line.startswith("    "):
                of[os.path.relpath(os.path.join(self.folder, line.strip()), ROOT)] += 1
        return of

    def compile(self, found):
        """Leaves out what cannot be written so: constants that the compiler needs, and the like."""
        self.changes, self.texts = found, {c.file: text_of(c.file) for c in found}
        for _ in range(12):
            for file, text in self.texts.items():
                new = switched(text, [c for c in self.changes if c.file == file])
                if text_of(file) != new:
                    write(file, new)
            done = self.ninja("tests/turnwright-tests", "turnwright-program")
            if done.returncode == 0:
                return
            # What another place instantiates is told by where it is asked for; without such a line all of the file goes.
            said = set(re.findall(r"((?:src|include)/\S+?):(\d+):\d+: +(?:error|required|  )", done.stdout))
            out = {c for c in self.changes if (c.file, str(c.line)) in said}
            out = out or {c for c in self.changes if c.file in {file for file, _ in said}}
            if not out:
                sys.exit(done.stdout[-3000:])
            self.changes = [c for c in self.changes if c not in out]
        sys.exit("it does not compile")

    def restore(self):
        for file, text in self.texts.items():
            write(file, text)

    def run(self, words, change=None, seconds=None, env=()):
        """Exit status, which changes it came past, and its seconds of a processor."""
        with tempfile.TemporaryDirectory() as folder:
            passed, used = os.path.join(folder, "passed"), resource.getrusage(resource.RUSAGE_CHILDREN)
            done = subprocess.run(words, capture_output=True, cwd=ROOT, preexec_fn=seconds and (lambda: bounded(seconds)), env={
                **os.environ, **dict(env), **({"TURNWRIGHT_PASSED": passed} if change is None else {"TURNWRIGHT_CHANGE": str(change)})})
            now, past = resource.getrusage(resource.RUSAGE_CHILDREN), set()
            if os.path.exists(passed):
                with open(passed, encoding="ascii") as file:
                    pairs = [tuple(map(int, line.split())) for line in file]
                past = {n for n, _ in pairs}
                self.impossible |= {n for n, how in pairs if how == 2}
        return done.returncode, past, now.ru_utime + now.ru_stime - used.ru_utime - used.ru_stime

    def scripts(self):
        """What the fast suite runs beside unit tests and transcripts, and the published examples: name, words, environment."""
        listed = subprocess.run(["ctest", "--test-dir", self.folder, "--show-only=json-v1"], capture_output=True, text=True).stdout
        for test in json.loads(listed)["tests"]:
            properties = {p["name"]: p["value"] for p in test["properties"]}
            slow = "slow" in properties.get("LABELS", []) and test["name"] != "published examples"
            env = dict(pair.split("=", 1) for pair in properties.get("ENVIRONMENT", []))
            if "TURNWRIGHT" in env and not slow and test["name"] != "transcripts":
                yield test["name"], test["command"], env

    def measure(self, transcripts):
        """Each test alone: (kind, seconds, what it is called, its words, environment, what it comes past). Kept in
        the build for the same changes, so that a run that was stopped goes on."""
        listed = subprocess.run([self.unit, "--list-test-names-only"], capture_output=True, text=True, cwd=ROOT).stdout
        env = {"TURNWRIGHT": os.path.join(self.folder, "turnwright"), "ROOT": ROOT, "PYTHONDONTWRITEBYTECODE": "1"}
        jobs = [("unit tests", name, [self.unit, "--abort", name.replace(",", "\\,")], {}) for name in listed.splitlines()]
        if transcripts:
            jobs += [("transcripts", os.path.basename(path), [sys.executable, "tests/transcripts/run.py", path], env)
                     for path in sorted(glob.glob(os.path.join(ROOT, "tests/transcripts/*.txt")))]
            jobs += [("scripts", *script) for script in self.scripts()]
        changed = hashlib.sha256("".join(map(text_of, sorted(self.texts))).encode()).hexdigest()[:16]
        with open(os.path.join(self.folder, f"passed-{changed}.txt"), "a+", encoding="utf-8") as kept:
            kept.seek(0)
            known = {name: rest for name, *rest in map(json.loads, kept)}
            for kind, name, words, more in jobs:
                if name not in known:
                    status, past, seconds = self.run(words, env=more)
                    if status:
                        print(f"does not pass as it is, left out: {name}", flush=True)
                        past = set()
                    known[name] = [seconds, sorted(past), sorted(self.impossible)]
                    print(json.dumps([name, *known[name]]), file=kept, flush=True)
                seconds, past, impossible = known[name]
                self.impossible |= set(impossible)
                self.tests.append((KINDS.index(kind), seconds, name, words, more, set(past)))
        self.tests.sort(key=lambda t: t[:3])

    def judge(self, change):
        past = [t for t in self.tests if change.number in t[5]]
        if change.number in self.impossible:
            return "does not compile", ""
        for kind, seconds, name, words, env, _ in past:
            if self.run(words, change.number, int(10 + 10 * seconds), env)[0]:
                return f"caught by {KINDS[kind]}", name
        return "survived", f"{len(past)} tests came past it: " + "; ".join(t[2] for t in past[:4])


def options():
    parse = argparse.ArgumentParser()
    parse.add_argument("--build", default="build")
    parse.add_argument("--room", nargs="+", default=ROOMS, choices=ROOMS)
    parse.add_argument("--n", type=int, default=200)
    parse.add_argument("--per-file", type=int, default=6)
    parse.add_argument("--seed", type=int, default=1)
    parse.add_argument("--dependents", type=int, default=8)
    parse.add_argument("--file", default="")
    parse.add_argument("--no-transcripts", action="store_true")
    return parse.parse_args()


def main():
    o = options()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # the files are put back
    build = Build(o.build)
    of = build.dependents()
    may_change = lambda file: re.search(o.file, file) and (file.endswith(".cpp") or of[file] <= o.dependents)
    found = [c for room in o.room for c in drawn(room, -(-o.n // len(o.room)), o.per_file, o.seed, may_change)]
    for number, change in enumerate(found):
        change.number = number
    sums = collections.defaultdict(collections.Counter)
    try:
        build.compile(found)
        print(f"{len(found)} changes of {len(build.texts)} files, {len(found) - len(build.changes)} that cannot be switched", flush=True)
        build.measure(not o.no_transcripts)
        for change in build.changes:
            verdict, by = build.judge(change)
            sums[room_of(change.file)][verdict] += 1
            print(f"{change.name}: {verdict} ({by})    {change.code}", flush=True)
    finally:
        build.restore()
    for room, counts in sums.items():
        runnable = counts.total() - counts["does not compile"]
        print(f"{room}: {runnable} judged, {100 * (runnable - counts['survived']) / max(runnable, 1):.0f} % caught; " +
              ", ".join(f"{n} {verdict}" for verdict, n in sorted(counts.items())))


if __name__ == "__main__":
    main()
