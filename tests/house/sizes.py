"""Sizes: short functions, short files, small classes. Measured with universal-ctags over src/ and
include/, first line to last; a lambda counts within the function it stands in."""
import json
import math
import os
import statistics
import subprocess
import sys
from collections import defaultdict

import source

MEDIAN, P95, LONG, LONG_SHARE = 8, 30, 60, 0.01
FILE_LINES, CLASS_LINES = 400, 300
WORST = 15  # how many of each are always listed
# Tables of data written in C++; no length makes them harder to read.
DATA_TABLES = set()


def tags():
    paths = source.files("src", "include")
    done = subprocess.run(
        ["ctags", "--fields=+ne", "--output-format=json", "--kinds-C++=fcs", "--langmap=C++:.cpp.hpp",
         "--sort=no", "-f", "-", "-L", "-"],
        input="\n".join(paths), capture_output=True, text=True, cwd=source.ROOT)
    if done.returncode != 0 or not done.stdout:
        sys.exit("sizes.py needs universal-ctags with JSON: " + done.stderr.strip())
    found = [json.loads(line) for line in done.stdout.splitlines()]
    return [t for t in found if t.get("_type") == "tag" and not t["name"].startswith("__anon")]


def lines(tag):
    return tag.get("end", tag["line"]) - tag["line"] + 1


def full_name(tag):
    return tag["scope"] + "::" + tag["name"] if tag.get("scope") else tag["name"]


def shown(name):
    return "::".join(p for p in name.split("::") if not p.startswith("__anon") and p != "turnwright")


def figures(lengths):
    lengths = sorted(lengths)
    p95 = lengths[math.ceil(0.95 * len(lengths)) - 1]
    long = sum(n > LONG for n in lengths)
    return statistics.median(lengths), p95, long / len(lengths), long


def print_figures(name, lengths):
    median, p95, share, long = figures(lengths)
    print(f"{name:<10} {len(lengths):>6} {median:>7g} {p95:>5} {100 * share:>7.1f} % {long:>4} {max(lengths):>8}")


def class_sizes(found):
    """The lines of a definition and of its members' definitions outside it."""
    classes = [t for t in found if t["kind"] in ("class", "struct")]
    sizes = [[lines(t), 0, t] for t in classes]
    by_name, by_last = defaultdict(list), defaultdict(list)
    for entry in sizes:
        name = full_name(entry[2])
        by_name[name].append(entry)
        by_last[name.rsplit("::", 1)[-1]].append(entry)
    for f in found:
        if f["kind"] != "function" or f.get("scopeKind") not in ("class", "struct"):
            continue
        # A scope that ctags does not know in full (a namespace opened in another file) goes by its last name.
        last = by_last[f["scope"].rsplit("::", 1)[-1]]
        owners = by_name.get(f["scope"]) or (last if len(last) == 1 else [])
        for entry in owners[:1]:
            t = entry[2]
            inside = f["path"] == t["path"] and t["line"] <= f["line"] <= t.get("end", t["line"])
            if not inside:
                entry[1] += lines(f)
    return sorted(sizes, key=lambda e: -(e[0] + e[1]))


def function_findings(functions, findings):
    print(f"{'room':<10} {'count':>6} {'median':>7} {'p95':>5} {'above ' + str(LONG):>9} {'':>4} {'longest':>8}")
    by_room = defaultdict(list)
    for f in functions:
        by_room[source.room(f["path"]) or "(root)"].append(lines(f))
    for name in sorted(by_room):
        print_figures(name, by_room[name])
    everything = [lines(f) for f in functions]
    print_figures("all", everything)
    median, p95, share, _ = figures(everything)
    functions.sort(key=lambda f: -lines(f))
    print("\nlongest functions:")
    for f in functions[:WORST]:
        print(f"  {f['path']}:{f['line']}: {shown(full_name(f))}, {lines(f)} lines")
    first = f"{functions[0]['path']}:{functions[0]['line']}: " if functions else ""
    if median > MEDIAN:
        findings.append(f"{first}functions: median {median:g} lines, above {MEDIAN}")
    if p95 > P95:
        findings.append(f"{first}functions: p95 {p95} lines, above {P95}")
    if share > LONG_SHARE:
        findings.append(f"{first}functions: {100 * share:.1f} % above {LONG} lines, more than {100 * LONG_SHARE:g} %")


def file_findings(findings):
    lengths = sorted(((source.read(p).count("\n"), p) for p in source.files("src", "include")), reverse=True)
    print("\nlongest files:")
    for n, path in lengths[:WORST]:
        print(f"  {path}:1: {n} lines")
    for n, path in lengths:
        if n > FILE_LINES and path.endswith(".cpp") and path not in DATA_TABLES:
            findings.append(f"{path}:1: {n} lines, above {FILE_LINES}")
    for path in sorted(DATA_TABLES):
        if not os.path.isfile(os.path.join(source.ROOT, path)):
            findings.append(f"{path}:1: listed as a data table, not there")


def class_findings(found, findings):
    sizes = class_sizes(found)
    print("\nlargest classes (definition + members defined outside it):")
    for own, outside, t in sizes[:WORST]:
        print(f"  {t['path']}:{t['line']}: {shown(full_name(t))}, {own} + {outside} = {own + outside} lines")
    for own, outside, t in sizes:
        if own + outside > CLASS_LINES:
            findings.append(f"{t['path']}:{t['line']}: {t['kind']} {shown(full_name(t))}, "
                            f"{own + outside} lines, above {CLASS_LINES}")


def main():
    found = tags()
    findings = []
    function_findings([t for t in found if t["kind"] == "function"], findings)
    file_findings(findings)
    class_findings(found, findings)
    print()
    source.finish(findings, "findings of size")


if __name__ == "__main__":
    main()
