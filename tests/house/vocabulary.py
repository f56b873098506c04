"""One vocabulary: the old words of the table below stand nowhere, neither in texts nor in names, keys,
comments and file names. A word is found in names too: `held by` in held_by, heldBy and held-by."""
import re
from collections import Counter
from fnmatch import fnmatch
from typing import NamedTuple

import source

PLACES = ["src", "include", "rates", "templates", "samples", "tests", "CMakeLists.txt", "README.md", "DEVELOPERS.md"]
NOT_HERE = ["tests/house/vocabulary.py", "tests/house/self_test.py", "tests/behaviour/*", "*/node_modules/*", "*/__pycache__/*",
            "tests/package-lock.json", "*.xlsx", "*.pyc"]

PROGRAM = ["src/*", "include/*"]
WEEK = ["*week*", "src/cli/*load*", "src/cli/*options*", "rates/schema/load.json", "rates/schema/promise.json"]
SHOWN = ["src/output/*", "src/cli/*", "templates/*", "rates/schema/*", "README.md"]
COSTS = ["src/estimate/*", "src/output/*", "src/compare/*", "include/turnwright/estimate/*", "include/turnwright/compare/*",
         "include/turnwright/output/*", "rates/schema/quote.json", "rates/schema/compare.json", "rates/schema/tune.json",
         "rates/schema/load.json", "tests/estimate/*", "tests/compare/*", "tests/output/*", "tests/cli/*", "README.md"]


class Rule(NamedTuple):
    old: str  # words, found across _, -, blanks and capitals; or, with `pattern`, what a person calls it
    new: str
    pattern: str = ""  # a regular expression instead of words
    where: list = ["*"]
    # (path, regular expression around the hit, why it may stay there)
    exceptions: list = []


# What was renamed: keys and words (the old ones disappear everywhere).
RENAMED = [
    Rule("setups", "operations (one clamping each); to set up is what make-ready was"),
    Rule("holding", "clamping", exceptions=[("*", r"(?i)holding[ _-]costs?", "the trade's word for the cost of an inventory")]),
    Rule("holdings", "operations, clampings"),
    Rule("make ready", "setup"),
    Rule("machine per part s", "cycle_per_part_s"),
    Rule("ways", "methods"),
    Rule("way", "method", pattern=r"(?<![A-Za-z])way(?![a-z])|(?<![A-Z])Way(?![a-z])",
         exceptions=[("*", r"(?i)(in|on|out of|along|by) (the|its) way|giv(es?|ing)[ _.-]way|way of a tool|a long way|way (back|round|through|out|from)"
                           r"|(the same|either|another) way|language's way",
                      "an idiom, no strategy")]),
    Rule("two holdings", "two operations"),
    Rule("bit", "binding",
         exceptions=[("*", r"bit by bit|bit for bit|\d+[- ]bit", "of a file or a number"),
                     ("tests/evidence/*.yaml", r"Drill_Bit", "the address of a page")]),
    Rule("bits", "binding",
         exceptions=[("*", r"last bits|\d+ bits", "of a number"), ("tests/evidence/*.yaml", r"drill bits", "the title of a page")]),
    Rule("knob", "changed, remedy"),
    Rule("held by", "limited by, limited_by"),
    Rule("flips", "winner_changes, what would change the winner"),
    # One corner of an insert is an edge, and several are edges: only the cost line and its names are renamed.
    Rule("edges (the cost line)", "inserts", where=COSTS,
         pattern=r"[\"']edges[\"']|\b(l|d|la|lb|lines|line|out|sum)\.edges\b|\bAmount(Of<N>)? [^;()]*\bedges\b"
                 r"|,? edges \"|\bedges( {2,}| and what is| and their lives)"),
    Rule("call off", "releases"),
    Rule("called off", "delivered in releases"),
    Rule("stands (in the turret)", "mounted", where=PROGRAM + ["rates/*", "templates/*", "samples/*", "README.md", "tests/*"],
         pattern=r"\bstands: ?[\[{\"]|[\"'(]stands[\"')]|(\.|->)stands\b|\bstands;|\bstands\("),
    Rule("standing", "mounted (of tools), idle (of a machine)",
         exceptions=[("*", r"standing spindle", "a spindle that does not turn")]),
    Rule("elsewhere", "subcontracted, outside work, another firm",
         exceptions=[("tests/CMakeLists.txt", r"recalculated elsewhere", "by other programs"),
                     ("include/turnwright/part/part.hpp", r"read elsewhere", "by another function"),
                     ("include/turnwright/route/*", r"elsewhere as it is", "at other places of an outline"),
                     ("templates/words/*/figure.yaml", r"work done elsewhere", "at another firm, in a formula's sentence")]),
    Rule("--keep", "--posted", pattern=r"--keep\b|\"keep\"(?=[,}\]])|\bo_?\.keep\b|\"keep\", \"PLAN",
         where=["src/*", "include/*", "tests/*", "README.md", "DEVELOPERS.md", "templates/*", "samples/*"],
         exceptions=[("src/part/read_faces.cpp", r"one_of\(\"keep\"", "centre holes that stay in the part")]),
    Rule("goal", "score", where=WEEK + ["src/week/*", "include/turnwright/week/*", "tests/week/*", "README.md"]),
    Rule("good (a heading)", "qty", where=SHOWN, pattern=r"[\"']good[\"']|\bgood +(blanks|P10)\b",
         exceptions=[("rates/schema/shop.json", r"good", "the condition of a machine")]),
    Rule("blanks (a heading)", "make", where=SHOWN, pattern=r"[\"']blanks[\"']|\bblanks +each\b|\" blanks\""),
    Rule("open (of rates)", "under-recovered", where=["*rates.cpp", "*rates*.hpp", "src/output/*rates*", "rates/schema/rates.json", "tests/cli/cli_test.py"],
         pattern=r"[\"']open[\"']|\breturn +open\b|\.open\b"),
]
# The terms: what a thing was called before, where that cannot mean anything else.
TERMS = [
    Rule("Offer (the paper's title)", "Quotation", where=["templates/*"], pattern=r"^\s*offer:\s*(Offer|OFFER)\b"),
    Rule("131/10 (an operation)", "Op 10", where=["src/week/*", "include/turnwright/week/*", "tests/*week*", "README.md"],
         pattern=r"(?<![\w/-])\d{1,4}/[1-9]0(?![\d/])"),
    Rule("free 270 mm", "stick-out 270 mm", pattern=r"\bfree \d+(\.\d+)? (mm|in)\b|\"[^\"]*\bfree \"|\d diameters\)|\" diameters\)",
         where=SHOWN + PROGRAM),
    Rule("each: machine", "cycle time, operator time", pattern=r"each: machine"),
    Rule("both clocks", "cycle time and operator time"),
    Rule("two clocks", "cycle time and operator time"),
    Rule("a piece, an hour, a side (as a unit)", "per piece, per hour, per side", where=SHOWN + PROGRAM + ["templates/*"],
         pattern=r"[\"']an? (piece|hour|side)\b[^\"]*[\"']"
                 r"|\b(costs?|prices?|times?|minutes|min|h|EUR|contribution|rate|mm|stock|edge|machine|person|all-in|low,|high,|pieces)"
                 r" (a piece|an hour|a side)\b|\" (a piece|an hour|a side)\b|\ba dm2\b"),
    Rule("asked for (of hours)", "required", pattern=r"(?i)\bhours asked for|[\"']asked for|asked for and there|(what|more) is asked for"),
    Rule("more than there is", "overloaded"),
    Rule("hangs", "posted (the posted plan)"),
    Rule("hung", "posted (the posted plan)"),
    Rule("to be set", "to be loaded", pattern=r"\bto be set\b(?! up)"),
    Rule("flip (of the lead)", "what would change the winner", pattern=r"\bflip the (lead|answer)|\b[Ww]hat flips|WHAT FLIPS|(?<![A-Za-z])Flip(?![a-z])"),
    Rule("personal, fatigue, delay", "relaxation and contingency allowance (PF&D)", pattern=r"(?i)personal, fatigue"),
    Rule("look at (a control plan)", "spot check", where=SHOWN, pattern=r"[\"' ]look at: "),
    Rule("of 100 draws", "confidence, simulated trials (repeatable)", pattern=r"(?i)\bof 100( fixed)? (draws|weeks)|fixed draws|\bkept in \d0\b"),
    Rule("loses money", "risk of loss"),
]

def words_pattern(phrase):
    """held by -> held_by, held-by, `held by`, HELD BY, heldBy, HeldBy, wasHeldBy; never a part of a word."""
    words = re.split(r"[ -]", phrase)
    spelt = "[ _-]?".join(f"(?:{w}|{w.capitalize()}|{w.upper()})" for w in words)
    camel = "".join(w.capitalize() for w in words)
    return rf"(?<![A-Za-z])(?:{spelt})(?![a-z])|(?<=[a-z]){camel}(?![a-z])"


def paths():
    found = source.files(*PLACES, endings=("",))
    return [p for p in found if not any(fnmatch(p, n) for n in NOT_HERE)]


def excused(rule, path, line, hit, used):
    for exception in rule.exceptions:
        glob, pattern, _ = exception
        if not fnmatch(path, glob):
            continue
        for m in re.finditer(pattern, line):
            if m.start() < hit.end() and hit.start() < m.end():
                used.add((rule.old, exception))
                return True
    return False


def main():
    rules = [(r, re.compile(r.pattern or words_pattern(r.old))) for r in RENAMED + TERMS]
    findings, counts, used = [], Counter(), set()
    for path in paths():
        try:
            text = source.read(path)
        except UnicodeDecodeError:
            continue
        lines = [(0, path)] + list(enumerate(text.split("\n"), start=1))
        for rule, pattern in rules:
            if not any(fnmatch(path, w) for w in rule.where) or not pattern.search(path + "\n" + text):
                continue
            for number, line in lines:
                hits = [h for h in pattern.finditer(line) if not excused(rule, path, line, h, used)]
                if hits:
                    counts[rule.old] += len(hits)
                    what = "the file's name has" if number == 0 else "has"
                    findings.append((path, max(number, 1), f"{what} '{hits[0].group().strip()}' ({rule.old}); now: {rule.new}"))
    findings.sort()
    for old, n in counts.most_common():
        print(f"{n:>6}  {old}")
    for rule, _ in rules:
        for exception in rule.exceptions:
            if (rule.old, exception) not in used:
                print(f"note: the exception {exception[1]!r} of '{rule.old}' excuses nothing")
    source.finish([f"{p}:{n}: {what}" for p, n, what in findings], "lines with old words")


if __name__ == "__main__":
    main()
