"""Changes one token of the rooms that reckon, at random but repeatably, and asks whether a test notices.

A change is a comparison, a sign, a product for a quotient, a condition turned over, a whole number one up, or a
constant doubled. Only what the change touches is compiled anew and the unit tests linked again; the tests of the room are
run first, then all, then, where none of them fails, the tests of ctest that --also names.

usage: tests/mutation.py [--build DIR] [--room ROOM…] [--n N] [--seed S] [--minutes M] [--also CTEST_REGEX] [--sources]
Prints a line a change, caught or survived, and the survivors at the end; the tree is as it was."""
import argparse
import os
import random
import re
import signal
import subprocess
import sys
import time

ROOT = os.path.normpath(os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
ROOMS = ("figure", "estimate", "route", "week")
SWAPS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "&&": "||", "||": "&&",
         "+": "-", "-": "+", "*": "/", "/": "*", "+=": "-=", "-=": "+=", "true": "false", "false": "true",
         "min": "max", "max": "min"}
# What stands at the two sides of an arithmetic sign, so that templates, references and streams are left alone.
TOKEN = re.compile(r"//[^\n]*|/\*.*?\*/|R\"\((?:.|\n)*?\)\"|\"(?:[^\"\\\n]|\\.)*\"|'(?:[^'\\\n]|\\.)+'|^[ \t]*#[^\n]*"
                   r"|\d[\d.']*(?:e[+-]?\d+)?|[A-Za-z_][\w:]*|<=>|<=|>=|==|!=|&&|\|\||->|<<|>>|\+\+|--|\+=|-=|\*=|/=|[^\s\w]",
                   re.M)


def tokens(text):
    return [(m.start(), m.group()) for m in TOKEN.finditer(text) if not m.group().startswith(("//", "/*", "#", " ", "\t", "\"", "'", "R\""))]


def operand_before(token):
    return bool(re.match(r"[\w)\]]", token[-1])) and token not in ("return", "case", "operator")


def changes(text):
    """Places with what stands there and what to write: only what is sure to be an operator or a number."""
    out, all_tokens = [], tokens(text)
    for k in range(1, len(all_tokens) - 1):
        (_, before), (at, token), (end, after) = all_tokens[k - 1:k + 2]
        spaced = text[at - 1] == " " and text[at + len(token)] in " \n"  # clang-format parts operators by blanks
        if token in ("<", ">", "<=", ">=", "==", "!=", "&&", "||", "+", "-", "*", "/", "+=", "-="):
            if spaced and operand_before(before) and before != "operator":
                out.append((at, token, SWAPS[token]))
        elif token == "-" and before in ("(", ",", "return", "=") and not spaced:
            out.append((at, token, " "))
        elif token in ("min", "max", "std::min", "std::max") and after == "(":
            out.append((at, token, token.replace("min", "MAX").replace("max", "min").replace("MAX", "max")))
        elif token in ("true", "false") and before in ("return", "=", ",", "("):
            out.append((at, token, SWAPS[token]))
        elif token == "!" and re.match(r"[A-Za-z(]", after):
            out.append((at, token, " "))
        elif re.fullmatch(r"\d+", token) and before not in ("[", "<", "Dim", "{", "%") and after != ">":
            out.append((at, token, str(int(token) + 1)))
        elif re.fullmatch(r"\d+\.\d*(e[+-]?\d+)?", token) and float(token) != 0:
            out.append((at, token, repr(2 * float(token))))
    return out


def inside_a_function(text, at):
    """Not among includes, declarations with defaults of records, or static tables: changes that are compiled code."""
    line = text[text.rfind("\n", 0, at) + 1:text.find("\n", at)]
    return line.startswith("  ") and not re.match(r"\s*(static_assert|template|using|case)\b|.*\bneeded\(", line)


def places(rooms):
    found = []
    for room in rooms:
        for top in ("src", "include/turnwright"):
            folder = os.path.join(ROOT, top, room)
            for path, _, names in os.walk(folder):
                for name in sorted(names):
                    if not name.endswith((".cpp", ".hpp")):
                        continue
                    file = os.path.relpath(os.path.join(path, name), ROOT)
                    with open(os.path.join(ROOT, file), encoding="utf-8") as opened:
                        text = opened.read()
                    found += [(file, at, old, new) for at, old, new in changes(text) if inside_a_function(text, at)]
    return found


class Tree:
    """The build with one file changed."""

    def __init__(self, build):
        self.build = os.path.abspath(build)
        self.tests = os.path.join(self.build, "tests", "turnwright-tests")

    def ninja(self, *targets):
        return subprocess.run(["ninja", "-C", self.build, "-j", str(os.cpu_count()), *targets], capture_output=True, text=True)

    def passes(self, tags):
        # The last line counts; what takes longer than the suite alone does not end.
        try:
            done = subprocess.run([self.tests, "--abort", *tags], capture_output=True, cwd=ROOT, timeout=self.limit)
        except subprocess.TimeoutExpired:
            return False
        return done.returncode == 0

    def also(self, names):
        done = subprocess.run(["ctest", "--test-dir", self.build, "-j", str(os.cpu_count()), "--stop-on-failure", "-R", names],
                              capture_output=True)
        return done.returncode == 0

    def measure(self):
        begun = time.time()
        self.limit = 600
        if self.ninja("tests/turnwright-tests").returncode or not self.passes([]):
            sys.exit("the unit tests do not pass as they are")
        self.limit = 60 + 4 * (time.time() - begun)


def room_of(file):
    return file.split("/")[2 if file.startswith("include/") else 1]


def judge(tree, change, also):
    file, at, old, new = change
    path = os.path.join(ROOT, file)
    with open(path, encoding="utf-8") as opened:
        text = opened.read()
    try:
        with open(path, "w", encoding="utf-8") as opened:
            opened.write(text[:at] + new + text[at + len(old):])
        targets = ["tests/turnwright-tests"] + (["turnwright-program"] if also else [])
        if tree.ninja(*targets).returncode:
            return "does not compile"
        if not tree.passes([f"[{room_of(file)}]"]) or not tree.passes([]):
            return "caught"
        return "caught by " + also if also and not tree.also(also) else "survived"
    finally:
        with open(path, "w", encoding="utf-8") as opened:
            opened.write(text)


def line_of(file, at):
    with open(os.path.join(ROOT, file), encoding="utf-8") as opened:
        text = opened.read()
    return text.count("\n", 0, at) + 1, text[text.rfind("\n", 0, at) + 1:text.find("\n", at)].strip()


def main():
    parse = argparse.ArgumentParser()
    parse.add_argument("--build", default="build")
    parse.add_argument("--room", nargs="+", default=ROOMS, choices=ROOMS)
    parse.add_argument("--n", type=int, default=200)
    parse.add_argument("--seed", type=int, default=1)
    parse.add_argument("--minutes", type=float, default=1e9)
    parse.add_argument("--also", default="")
    parse.add_argument("--sources", action="store_true", help="no headers: each change compiles one object")
    o = parse.parse_args()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # the file is put back
    tree = Tree(o.build)
    tree.measure()
    found = [p for p in places(o.room) if not (o.sources and p[0].endswith(".hpp"))]
    random.Random(o.seed).shuffle(found)
    begun, counts, survivors = time.time(), {}, []
    for change in found[:o.n]:
        if time.time() - begun > 60 * o.minutes:
            break
        file, at, old, new = change
        line, code = line_of(file, at)
        verdict = judge(tree, change, o.also)
        counts[verdict] = counts.get(verdict, 0) + 1
        said = f"{file}:{line}: {old} to {new.strip() or 'nothing'}: {verdict}    {code}"
        print(said, flush=True)
        if verdict == "survived":
            survivors.append(said)
    tree.ninja("tests/turnwright-tests")
    print("\n" + "\n".join(survivors))
    runnable = sum(n for verdict, n in counts.items() if verdict != "does not compile")
    print(f"{len(found)} places; " + ", ".join(f"{n} {verdict}" for verdict, n in sorted(counts.items())) +
          f"; {100 * (runnable - len(survivors)) / max(runnable, 1):.0f} % of {runnable} caught")


if __name__ == "__main__":
    main()
