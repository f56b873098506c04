#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The cutting table against what others publish: every cell of carbide, and every cell of a row for
holes, is compared with the ranges of tests/evidence/cutting_ranges.yaml for its group, work, tool,
hardness, depth and feed, at the edge life of the page. A cell outside its range fails, unless its row
says why (`outside found range`); a reason that no cell needs fails too. The ratios to the published
starts are printed, the worst ten first."""
import math
import os
import sys

import yaml

ROOT = os.environ.get("ROOT", os.path.join(os.path.dirname(__file__), "..", ".."))
ROUNDING = 0.05  # a page prints whole numbers or whole feet
DEPTHS = {"finish": (0, 1.5), "medium": (1, 3), "rough": (1.5, 99), "turn": (0, 99)}
TURNING = set(DEPTHS)


def load(*names):
    with open(os.path.join(ROOT, *names), encoding="utf-8") as file:
        return yaml.safe_load(file)


def span(text):
    if isinstance(text, tuple):
        return text
    low, _, high = str(text).partition("-")
    return float(low), float(high or low)


def middle_in(inner, outer):
    """Rows of neighbouring hardness only touch."""
    low, high = span(outer)
    return low <= sum(span(inner)) / 2 <= high


def at_feed(row, feed):
    """The speed printed for a feed, between the printed feeds on a logarithmic scale."""
    feeds, speeds = row["feed"], row["speed"]
    if not feeds[0] * 0.9 <= feed <= feeds[-1] * 1.1:
        return None
    i = next((i for i in range(len(feeds) - 2) if feed <= feeds[i + 1]), len(feeds) - 2)
    share = math.log(feed / feeds[i]) / math.log(feeds[i + 1] / feeds[i])
    return speeds[i] * (speeds[i + 1] / speeds[i]) ** share


def published(row, feed):
    """Lowest, start, highest of an evidence row."""
    if "feed" in row:
        speed = at_feed(row, feed)
        return None if speed is None else (speed, speed, speed)
    low, start, high = row["speed"]
    known = [v for v in (low, start, high) if v is not None]
    return min(known), start if start is not None else sum(known) / len(known), max(known)


def fits(row, cell):
    if cell["group"] not in row["groups"] or row["tool"] != cell["grade"]:
        return False
    if not (middle_in(row["hardness"], cell["hardness"]) or middle_in(cell["hardness"], row["hardness"])):
        return False
    if cell["work"] != "turn":
        return row["kind"] == cell["work"]
    if row["kind"] not in TURNING:
        return False
    low, high = row.get("depth") or DEPTHS[row["kind"]]
    return low <= cell["depth"] <= high


def cells(table, lives, exponents):
    for group in table["cutting groups"]:
        for row in group["rows"]:
            works = row.get("for") or "turn"  # centres and countersinks go by the drill's row
            for i, speed in enumerate(row["speed"]):
                yield {"group": group["name"], "grade": row["grade"], "hardness": span(row["hardness"]),
                       "work": works if isinstance(works, str) else works[0], "depth": row["depth"][i],
                       "speed": speed, "row": id(row), "feed": row["feed"][i] if "feed" in row else None,
                       "why": row.get("outside found range"),
                       "life": row.get("reference life", lives[row["grade"]]), "n": exponents[row["grade"]]}


def minutes(text):
    return float(str(text).split()[0])


def described(c):
    return "%s, %g-%g HB, %s, %s at %g" % (c["group"], *c["hardness"], c["grade"], c["work"], c["depth"])


def main():
    table, evidence = load("rates", "cutting.yaml"), load("tests", "evidence", "cutting_ranges.yaml")
    lives = {g["name"]: g["reference life"] for g in load("rates", "grades.yaml")["grades"]}
    exponents = {g["name"]: g["exponent"] for g in load("rates", "grades.yaml")["grades"]}
    for row in evidence["rows"]:
        assert row["source"] in evidence["sources"] and row["basis"] == "found", row["id"]
    compared, without, faults, needed, reasons = [], [], [], set(), {}
    for c in cells(table, lives, exponents):
        if c["why"]:
            reasons[c["row"]] = described(c)
        if c["work"] == "turn" and c["grade"] == "hss":
            continue  # the old handbooks' rows are the evidence
        ranges = []
        for row in evidence["rows"]:
            found = published(row, c["feed"] or 0.2) if fits(row, c) else None
            if found:
                # The cell at the life of the page.
                factor = (minutes(c["life"]) / row["life"]) ** c["n"]
                ranges.append(tuple(v / factor for v in found))
        if not ranges:
            without.append(c)
            continue
        low, high = min(r[0] for r in ranges), max(r[2] for r in ranges)
        start = math.exp(sum(math.log(r[1]) for r in ranges) / len(ranges))
        ratio = c["speed"] / start
        outside = not low * (1 - ROUNDING) <= c["speed"] <= high * (1 + ROUNDING)
        compared.append((abs(math.log(ratio)), ratio, low, high, c, outside))
        if outside and c["why"]:
            needed.add(c["row"])
        elif outside:
            faults.append("%s: %g is outside %.0f to %.0f m/min" % (described(c), c["speed"], low, high))
    faults += ["%s gives a reason that it does not need" % text for row, text in reasons.items() if row not in needed]
    compared.sort(key=lambda entry: -entry[0])
    print("ratio to the middle of the published starts, at the life of the row; the worst ten first")
    for i, (_, ratio, low, high, c, outside) in enumerate(compared):
        if i < 10 or "--all" in sys.argv:
            print("%5.2f  %6.1f m/min in %.0f-%.0f  %s%s" % (ratio, c["speed"], low, high, described(c),
                                                           "  outside: " + (c["why"] or "?") if outside else ""))
    carbide = [c for c in without if c["grade"] not in ("hss", "brazed carbide")]
    print("%d cells compared, %d without a published range (%d of carbide)" % (len(compared), len(without), len(carbide)))
    if "--all" in sys.argv:
        print("without: " + "; ".join(sorted({c["group"] + " " + c["work"] for c in without})))
    for fault in faults:
        print("FAULT:", fault)
    assert len(compared) > 400, "the comparison lost its cells"
    sys.exit(1 if faults else 0)


main()
