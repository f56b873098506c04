"""Coverage by room from the JSON of llvm-cov, and a list of the places that no run reached.
usage: coverage.py COVERAGE.json LIST"""
import collections
import json
import os
import sys

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")


def room_of(path):
    parts = path.split(os.sep)
    return parts[1] if parts[0] == "src" else parts[2]


def merged_branches(file):
    """Of all instances of a template together: place -> taken, not taken."""
    found = collections.defaultdict(lambda: [0, 0])
    for line, column, to_line, to_column, true, false, _, _, _ in file["branches"]:
        found[(line, column, to_line, to_column)][0] += true
        found[(line, column, to_line, to_column)][1] += false
    return found


def spans_not_reached(file):
    """(line, column) of regions that no run entered; a region ends where the next begins."""
    return [(s[0], s[1]) for s in file["segments"] if s[3] and s[4] and s[2] == 0 and not s[5]]


def main(source, target):
    rooms = collections.defaultdict(lambda: [0, 0, 0, 0])
    lines = []
    for file in json.load(open(source, encoding="utf-8"))["data"][0]["files"]:
        path = os.path.relpath(os.path.realpath(file["filename"]), os.path.realpath(ROOT))
        if not path.startswith(("src" + os.sep, "include" + os.sep)):
            continue
        branches = merged_branches(file)
        room = rooms[room_of(path)]
        room[0] += file["summary"]["lines"]["covered"]
        room[1] += file["summary"]["lines"]["count"]
        room[2] += sum((b[0] > 0) + (b[1] > 0) for b in branches.values())
        room[3] += 2 * len(branches)
        text = open(file["filename"], encoding="utf-8").read().split("\n")
        seen = [(at, "not reached") for at in spans_not_reached(file)]
        seen += [(at[:2], "never " + ("false" if b[0] else "true" if b[1] else "judged")) for at, b in branches.items() if 0 in b]
        lines += [f"{path}:{at[0]}:{at[1]}: {what}: {text[at[0] - 1].strip()}" for at, what in sorted(seen)]
    with open(target, "w", encoding="utf-8") as out:
        out.writelines(line + "\n" for line in lines)
    print(f"{'room':12}{'lines, %':>10}{'branches, %':>13}")
    total = [sum(column) for column in zip(*rooms.values())]
    for name, (a, b, c, d) in sorted(rooms.items()) + [("all", total)]:
        print(f"{name:12}{100 * a / max(b, 1):10.1f}{100 * c / max(d, 1):13.1f}")
    print(f"{len(lines)} places not reached: {os.path.relpath(target, ROOT)}")


main(*sys.argv[1:])
