"""Random part files, requests and weeks, the same for the same seed: what a turner might be asked for.

    random_parts.py --seed 1 --parts 100 --requests 10 --weeks 1 --to DIR [--words old|new]

Every file is made of its own seed and number, so that part 7 is the same in a set of 10 and of 1000.
The files are kept in the new words; `in_words` writes them in those that a program knows.
"""
import argparse
import os
import random

import yaml

# ---- words: new key → (old key, what the old key holds)


def old_releases(text):
    count, _, each = text.split()
    return f"{count} releases of {each}"


OLD_WORDS = {
    "setup": ("make-ready", str),              # other work of a part
    "releases": ("call-off", old_releases),    # a request
    "mounted": ("stands", None),               # machines of a week
    "subcontracted": ("elsewhere", None),      # a week
}


def in_words(node, known):
    """The document with the keys of OLD_WORDS put back where they are not among `known`."""
    if isinstance(node, list):
        return [in_words(item, known) for item in node]
    if not isinstance(node, dict):
        return node
    out = {}
    for key, value in node.items():
        old, convert = OLD_WORDS.get(key, (key, None))
        if key in known or key not in OLD_WORDS:
            out[key] = in_words(value, known)
        else:
            out[old] = convert(value) if convert else in_words(value, known)
    return out


def yaml_text(document, known):
    return yaml.safe_dump(in_words(document, known), sort_keys=False, allow_unicode=True, width=100000,
                          default_flow_style=None)


# ---- materials, stock, standards

STEEL = ["C45", "AISI 1045", "42CrMo4 +QT", "42CrMo4", "11SMnPb30", "11SMn30", "44SMn28", "C15", "S355J2", "S355", "C60",
         "16MnCr5", "20NiCrMo2-2", "34CrNiMo6", "100Cr6"]
TOOL_STEEL = ["95MnWCr5", "X153CrMoV12"]
STAINLESS = ["X8CrNiS18-9", "1.4301", "1.4404", "X12CrS13", "17-4PH", "X2CrNiMoN22-5-3"]
LIGHT = ["6061-T6", "6082-T6", "7075-T6", "2011-T3"]
RED = ["CuZn39Pb3", "brass", "CuSn7Zn4Pb7", "CuSn8", "Cu-ETP"]
PLASTIC = ["POM-C", "POM-H", "PA6", "PTFE", "PMMA"]
HARD_TO_CUT = ["Ti-6Al-4V", "IN718"]
CAST = ["EN-GJL-250", "EN-GJS-400-15", "EN-GJS-600-3"]
INCH_MATERIALS = ["AISI 1045", "12L14", "4140", "1018", "AISI 303", "6061", "360 brass", "8620", "1144"]

HOT_ROLLED = [16, 18, 20, 22, 25, 28, 30, 32, 35, 36, 38, 40, 42, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 110, 120]
PEELED = [16, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 110, 120]
DRAWN = [8, 10, 12, 14, 15, 16, 18, 20, 22, 24, 25, 26, 28, 30, 32, 34, 35, 36, 38, 40, 42, 45, 48, 50, 52, 55, 60, 65, 70, 80]
CIRCLIP_SHAFTS = [10, 12, 14, 15, 16, 17, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80]
CIRCLIP_BORES = [12, 13, 14, 15, 16, 18, 20, 22, 24, 25, 26, 28, 30, 32, 35, 40, 42, 45, 47, 50, 52, 55, 60]
COARSE = {8: 1.25, 10: 1.5, 12: 1.75, 14: 2, 16: 2, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3, 27: 3, 30: 3.5, 36: 4, 42: 4.5}
FINE = {10: 1, 12: 1.25, 14: 1.5, 16: 1.5, 18: 1.5, 20: 1.5, 22: 1.5, 24: 2, 27: 2, 30: 2, 33: 2, 36: 3, 40: 1.5, 45: 1.5}
UNDERCUT = {0.75: 2.5, 1: 3.5, 1.25: 4.4, 1.5: 5.2, 1.75: 6.1, 2: 7, 2.5: 8.7, 3: 10.5, 3.5: 12, 4: 14, 4.5: 16}
TAPPED = [4, 5, 6, 8, 10, 12, 16]
TAPPED_PITCH = {4: 0.7, 5: 0.8, 6: 1, 8: 1.25, 10: 1.5, 12: 1.75, 16: 2}
GROOVES = [1.1, 1.6, 2, 2.5, 3, 4, 5, 6]
REAMED = [6, 8, 10, 12, 14, 15, 16, 18, 20]


def number(value):
    return f"{value:g}" if abs(value - round(value, 3)) < 1e-9 else f"{value:.4f}"


class Draw(random.Random):
    def chance(self, share):
        return self.random() < share

    def step(self, low, high, step=1.0):
        return low + step * self.randrange(int((high - low) / step) + 1)


class Element:
    """A shape, its length and what belongs to it; written as one text or as a map."""

    def __init__(self, keys, text, length, right, left=None):
        self.keys = keys            # the shape as a map
        self.text = text            # the shape as a text
        self.length = length        # a number, or "through"
        self.right = right          # diameters at its ends
        self.left = right if left is None else left
        self.tolerance = ""         # of the length
        self.tail = ""              # of the shape, after the length: "taper 1:10"
        self.ordinate = None        # "to 72" instead of "x20"
        self.more = []              # (word, text)

    def add(self, word, text):
        self.more.append((word, text))

    def has(self, word):
        return any(w == word for w, _ in self.more)

    def run(self):
        if self.length == "through":
            return "through"
        if self.ordinate is not None:
            return "to " + number(self.ordinate)
        return "x" + number(self.length) + self.tolerance

    def as_text(self):
        return ", ".join([f"{self.text} {self.run()}{self.tail}"] + self.attributes())

    def attributes(self):
        """As they stand after the run: "Ra 0.8", "ground", and N7 alone."""
        return [t if w == "N" else f"{w} {t}".strip() for w, t in self.more]

    def as_map(self):
        out = dict(self.keys)
        if self.length == "through":
            out["through"] = "yes"
        elif self.ordinate is not None:
            out["ends at"] = number(self.ordinate)
        else:
            out["length"] = number(self.length) + self.tolerance
        for word, text in self.more:
            text = text or "yes"
            if word in out:
                out[word] = (out[word] if isinstance(out[word], list) else [out[word]]) + [text]
            else:
                out[word] = text
        return out


def cylinder(size, length, nominal):
    return Element({"diameter": size.removeprefix("dia ").removeprefix("Ø")}, size, length, nominal)


def thread(designation, length, major):
    return Element({"thread": designation}, designation, length, major)


# ---- what is done to a list of elements


class Profile:
    """Elements from one face inwards, with their places and free edges."""

    def __init__(self, draw, elements, bore=False, left=False):
        self.draw, self.elements, self.bore, self.left = draw, elements, bore, left

    def starts(self):
        at, places = 0.0, []
        for e in self.elements:
            places.append(at)
            at += 0.0 if e.length == "through" else e.length
        return places

    def neighbour(self, i, right):
        """The diameter beside that end, or None at the face."""
        if right:
            return self.elements[i - 1].left if i > 0 else None
        return self.elements[i + 1].right if i + 1 < len(self.elements) else None

    def free(self, i, right):
        e, other = self.elements[i], self.neighbour(i, right)
        if other is None:
            return right or not self.bore or e.length == "through"
        own = e.right if right else e.left
        return other > own + 1e-6 if self.bore else other < own - 1e-6

    def corner(self, i, right):
        e, other = self.elements[i], self.neighbour(i, right)
        if other is None:
            return False
        own = e.right if right else e.left
        return other < own - 1e-6 if self.bore else other > own + 1e-6

    def step_at(self, i, right):
        """How far the neighbour stands above or below, a side; much at a face."""
        other = self.neighbour(i, right)
        own = self.elements[i].right if right else self.elements[i].left
        return 1e9 if other is None else abs(other - own) / 2

    def sides(self, right, left):
        """The word for those sides; seen from the part's right-hand face."""
        if right and left:
            return "both"
        return "right" if right != self.left else "left"

    def break_edges(self, share):
        draw = self.draw
        for i, e in enumerate(self.elements):
            free = [right for right in (True, False) if self.free(i, right)]
            if not free or e.has("allow") or e.has("knurl") and draw.chance(0.5):
                continue
            chosen = [right for right in free if draw.chance(share)]
            if not chosen:
                continue
            room = min(min(self.step_at(i, right) for right in chosen), 0.3 * float(e.length if e.length != "through" else 9))
            width = max([w for w in (0.5, 1, 1.5, 2) if w <= 0.8 * room] or [0.3])
            if draw.chance(0.3):
                width = min(width, 0.5)
            side = self.sides(True in chosen, False in chosen)
            word = "" if len(free) == 1 and draw.chance(0.5) else " " + side
            if not self.bore and "thread" not in e.keys and draw.chance(0.12):
                e.add("round", f"R{number(width)}{word}")
            else:
                angle = draw.choice([45, 45, 45, 45, 30])
                e.add("chamfer", f"{number(width)}x{angle}{word}")

    def fill_corners(self, share):
        draw = self.draw
        for i, e in enumerate(self.elements):
            if "thread" in e.keys or self.bore or "cone" in e.keys or "arc" in e.keys:
                continue
            corners = [right for right in (True, False) if self.corner(i, right)]
            if not corners or not draw.chance(share):
                continue
            right = draw.choice(corners)
            side = "" if len(corners) == 1 and draw.chance(0.5) else " " + self.sides(right, not right)
            step = self.step_at(i, right)
            if step >= 4 and e.length >= 10 and draw.chance(0.6):
                size = " 0.8x0.3" if e.right > 18 and draw.chance(0.15) else ""
                e.add("relief", draw.choice("EF") + size + side)
            elif step >= 1.5 and e.length >= 6:
                e.add("fillet", f"R{draw.choice(['0.8', '1', '1.2'] if step < 3 else ['1', '1.5', '2'])}{side}")

    def cut_grooves(self, share):
        draw = self.draw
        for i, (e, start) in enumerate(zip(self.elements, self.starts())):
            plain = "diameter" in e.keys and not e.has("knurl") and e.length != "through"
            if not plain or e.length < 14 or not draw.chance(share):
                continue
            at = start + draw.step(5, e.length - 9, 0.5)
            if self.bore:
                self.inside_groove(e, at)
            else:
                self.outside_groove(i, e, at)

    def outside_groove(self, i, e, at):
        draw = self.draw
        if e.right in CIRCLIP_SHAFTS and draw.chance(0.4):
            e.add("circlip", f"at {number(at)}")
        elif 20 <= e.right <= 80 and draw.chance(0.15):
            e.add("O-ring", f"{draw.choice(['2.0', '2.5', '3.0'])} at {number(at)}")
        else:
            width = draw.choice([w for w in GROOVES if w < e.length - 9] or [1.1])
            depth = draw.choice([0.5, 0.8, 1, 1.5, 2]) if e.right >= 12 else 0.4
            place = number(at)
            if self.corner(i, False) and draw.chance(0.25):
                place = "shoulder"
            spelt = draw.randrange(3)
            if spelt == 0:
                e.add("groove", f"{number(width)} wide to {number(e.right - 2 * depth)} at {place}")
            elif spelt == 1 or place == "shoulder":
                e.add("groove", f"{number(width)} wide {number(depth)} deep at {place}")
            else:
                e.add("groove", f"to {number(e.right - 2 * depth)} at {number(at)}..{number(at + width)}")

    def inside_groove(self, e, at):
        draw = self.draw
        if e.right in CIRCLIP_BORES and e.right >= 16 and draw.chance(0.5):
            e.add("circlip", f"at {number(at)}")
        elif e.right >= 16:
            width = draw.choice([2, 3, 4] if e.right >= 25 else [2, 3])
            e.add("groove", f"{number(width)} wide to {number(e.right + draw.choice([1, 2, 3]))} at {number(at)}")

    def write(self, maps):
        """The list as texts, some of them as maps."""
        starts = self.starts()
        for e, start in zip(self.elements, starts):
            straight = "diameter" in e.keys or "thread" in e.keys
            if straight and e.length != "through" and not e.tolerance and self.draw.chance(0.06):
                e.ordinate = start + e.length
        return [e.as_map() if self.draw.chance(maps) else e.as_text() for e in self.elements]


def sized(draw, nominal, fits, share):
    """A diameter with or without its tolerance."""
    if not draw.chance(share):
        return number(nominal)
    kind = draw.randrange(8)
    if kind < 5:
        return f"{number(nominal)} {draw.choice(fits)}"
    if kind == 5:
        return f"{number(nominal)} " + draw.choice(["±0.05", "±0.1", "±0.02", "-0.1", "+0.1", "+0.02/-0.01", "-0.02/-0.05"])
    if kind == 6:
        return f"{nominal - 0.04:.2f}..{nominal:.2f}"
    return ("dia " if draw.chance(0.5) else "Ø") + f"{number(nominal)} {draw.choice(fits)}"


SHAFT_FITS = ["h6", "k6", "g6", "m6", "h7", "f7", "h8", "h9", "h9", "h11", "js7", "r6", "e8", "d9", "p6", "n6"]
BAR_FITS = ["h7", "h8", "h9", "h9", "f7", "h11", "js9", "e8", "d10"]
HOLE_FITS = ["H7", "H7", "H8", "H9", "H11", "F8", "G7", "JS9", "E9"]


def outside_thread(draw, major, length):
    """A thread with its undercut, or None when it does not go into the length."""
    fine = draw.chance(0.4) and major in FINE or major not in COARSE
    pitch = (FINE if fine else COARSE).get(major)
    if pitch is None:
        return None
    designation = f"M{major}" + (f"x{number(pitch)}" if fine or draw.chance(0.3) else "")
    if draw.chance(0.3):
        designation += draw.choice(["-6g", "-6g", "-6h"])
    elif draw.chance(0.08):
        designation += " LH"
    e = thread(designation, max(length, UNDERCUT[pitch] + 3 * pitch + draw.step(2, 8)), major)
    kind = draw.randrange(6)
    if kind < 3:
        e.add("undercut", "DIN 76-A")
    elif kind == 3:
        e.add("undercut", "DIN 76-B")
    elif kind == 4:
        e.add("undercut", f"{number(draw.choice([2, 2.5, 3]) * pitch)} wide to {number(major - 1.6 * pitch)}")
    else:
        e.add("groove", f"{number(round(3.5 * pitch, 1))} wide {number(round(0.8 * pitch, 2))} deep at shoulder")
    return e


def finish(draw, e, share):
    if draw.chance(share):
        word, text = draw.choice([("Ra", "0.8"), ("Ra", "1.6"), ("Ra", "1.6"), ("Ra", "6.3"), ("Rz", "16"), ("Rz", "6.3"), ("N", "N7")])
        e.add(word, text)
    if draw.chance(0.03):
        e.add("gauge", draw.choice(["1/5", "100 %", "1/10"]))
    if draw.chance(0.015):
        e.add("leave", draw.choice(["0.3", "0.4"]))
        if draw.chance(0.5):
            e.add("ground", "")
    if draw.chance(0.02):
        e.add("allow", draw.choice(["2 min", "6 min", "1.5 min"]))
    if draw.chance(0.03):
        e.add("no spiral", "")


# ---- kinds of parts: each returns the lines of a part file


def ring_sizes(draw, largest, count, least=8):
    """`count` falling diameters from the largest."""
    sizes, d = [largest], largest
    for _ in range(count - 1):
        d -= draw.choice([2, 3, 4, 5, 5, 6, 8, 10, 10, 12])
        if d < least:
            break
        sizes.append(d)
    return sizes


def shaft_elements(draw, largest, ratio, ends=(True, True)):
    """Rising to the largest diameter and falling behind it."""
    right = ring_sizes(draw, largest, draw.randrange(1, 4) if ends[0] else 1)
    left = ring_sizes(draw, largest, draw.randrange(1, 4) if ends[1] else 1)
    diameters = right[::-1] + left[1:]
    total = largest * draw.uniform(*ratio)
    weights = [draw.uniform(0.5, 1.5) for _ in diameters]
    lengths = [max(8.0, round(total * w / sum(weights))) for w in weights]
    elements = []
    for i, (d, length) in enumerate(zip(diameters, lengths)):
        if draw.chance(0.15):
            length += 0.5
        e = cylinder(sized(draw, d, SHAFT_FITS, 0.4), length, d)
        if draw.chance(0.1):
            e.tolerance = draw.choice([" ±0.1", " ±0.05", " -0.1", " +0.2"])
        finish(draw, e, 0.35)
        elements.append(e)
    return elements


def put_thread(draw, elements, at):
    e = outside_thread(draw, int(elements[at].right), elements[at].length)
    if e is not None and len(elements) > 1:
        elements[at] = e


def put_cone(draw, elements):
    """A cone between two diameters, in place of a step."""
    steps = [i for i in range(len(elements) - 1) if elements[i].left != elements[i + 1].right
             and "thread" not in elements[i].keys and "thread" not in elements[i + 1].keys]
    if not steps:
        return
    i = draw.choice(steps)
    a, b = elements[i].left, elements[i + 1].right
    if draw.chance(0.2) and b > a:
        length = min((b - a) * 10.0, 60.0)
        e = Element({"cone": {"from": number(a), "taper": "1:10"}}, f"cone {number(a)}", length, a, a + length / 10)
        e.tail = " taper 1:10"
    elif draw.chance(0.75):
        keys = {"cone": {"from": number(a), "to": number(b)}}
        e = Element(keys, f"cone {number(a)} to {number(b)}", draw.choice([15.0, 20.0, 25.0, 30.0]), a, b)
    else:
        radius = max(abs(b - a) * draw.choice([1, 1.5, 2]), 8)
        e = Element({"arc": {"radius": number(radius), "to": number(b)}}, f"arc R{number(radius)} to {number(b)}",
                    float(max(6, round(abs(b - a) * 0.8))), a, b)
        if draw.chance(0.3) and b > a:
            e.keys["arc"]["hollow"], e.tail = "yes", " hollow"
    elements.insert(i + 1, e)


def put_knurl(draw, elements, where):
    plain = [e for e in where if e.keys.get("diameter") == number(e.right) and not e.more and e.length >= 10]
    if not plain:
        return
    e = draw.choice(plain)
    e.add("knurl", draw.choice(["RGE", "RAA", "RBL", "RBR", "RKV", "RGV"]) + " " + draw.choice(["0.8", "1.0", "1.2", "0.6"]))


def tie_seats(draw, elements):
    seats = [e for e in elements if "diameter" in e.keys and any(f in e.text for f in (" h6", " k6", " m6", " h7", " g6"))]
    if len(seats) < 2 or not draw.chance(0.5):
        return
    seats[0].add("seat", "A")
    seats[-1].add(draw.choice(["runout", "runout", "coaxial"]), draw.choice(["0.02", "0.03", "0.05"]) + " to A")


def blank_of(draw, largest, sawn=True):
    condition = draw.choice(["hot rolled", "hot rolled", "hot rolled", "peeled", "drawn", ""]) if sawn else \
        draw.choice(["drawn", "drawn", "drawn h11", "peeled", "ground", ""])
    sizes = {"peeled": PEELED, "hot rolled": HOT_ROLLED}.get(condition, DRAWN if not sawn else HOT_ROLLED)
    spare = 1 if condition in ("ground", "drawn", "drawn h11", "") and not sawn else 2 if condition == "peeled" else 3
    if draw.chance(0.15):
        spare += draw.choice([2, 5])
    size = next((s for s in sizes if s >= largest + spare), None)
    stock = {"round": size if size is not None else int(largest + spare + 2)}
    if condition:
        stock["condition"] = condition
    return stock


def shaft(draw):
    largest = draw.choice([20, 24, 25, 28, 30, 32, 35, 38, 40, 42, 45, 48, 50, 55, 60, 65, 70, 80, 90, 100])
    elements = shaft_elements(draw, largest, (1.5, 7))
    if draw.chance(0.35):
        put_thread(draw, elements, 0)
    if draw.chance(0.2):
        put_thread(draw, elements, -1)
    if draw.chance(0.2):
        put_cone(draw, elements)
    if draw.chance(0.08):
        put_knurl(draw, elements, elements)
    tie_seats(draw, elements)
    profile = Profile(draw, elements)
    profile.fill_corners(0.4)
    profile.cut_grooves(0.2)
    profile.break_edges(0.6)
    part = {"stock": blank_of(draw, largest), "outside": elements}
    if draw.chance(0.06):
        part["stock"] = "auto"
    if draw.chance(0.35):
        part["centres"] = {"both ends": draw.choice(["A", "B", "B", "R", "A 2.5", "B 4"]), "keep": draw.choice(["yes", "yes", "may", "no"])}
    elif draw.chance(0.1):
        part["centres"] = {draw.choice(["right", "left"]): draw.choice(["A", "B"])}
    if draw.chance(0.12):
        bore_into(draw, part, elements, "right")
    if draw.chance(0.06):
        bore_into(draw, part, elements, "left")
    part["draw from"] = STEEL * 4 + STAINLESS * 2 + LIGHT + TOOL_STEEL + RED + HARD_TO_CUT
    return part


def bore_into(draw, part, elements, face):
    """A tapped or plain blind hole into an end."""
    end = elements[0] if face == "right" else elements[-1]
    overall = sum(e.length for e in elements)
    outer = (end.right if face == "right" else end.left) * 0.6
    depth = min(overall * 0.4, 60.0)
    sizes = [m for m in TAPPED if m < outer and m * 3 + 8 < depth]
    if sizes and draw.chance(0.5):
        m = draw.choice(sizes)
        e = thread(f"M{m}" + draw.choice(["", "-6H"]), float(round(m * draw.choice([1.5, 2, 2.5]))), m)
        elements_in = [e]
    else:
        d = draw.choice([x for x in [6, 8, 10, 12, 14, 15, 16, 18, 20, 25, 30] if x < outer] or [5])
        e = cylinder(sized(draw, d, HOLE_FITS, 0.3), float(round(min(depth, d * draw.choice([1.5, 2, 3])))), d)
        if draw.chance(0.2):
            e.add("flat", "")
        elements_in = [e]
    profile = Profile(draw, elements_in, bore=True, left=face == "left")
    profile.break_edges(0.4)
    part["bore from " + face] = elements_in


def bar_elements(draw, largest, ratio):
    diameters = ring_sizes(draw, largest, draw.randrange(1, 4), least=6)[::-1]
    total = min(largest * draw.uniform(*ratio), 120)
    elements = []
    for d in diameters:
        length = max(4.0, round(total / len(diameters) * draw.uniform(0.6, 1.4)))
        e = cylinder(sized(draw, d, BAR_FITS, 0.3), length, d)
        if draw.chance(0.08):
            e.tolerance = draw.choice([" ±0.1", " ±0.05"])
        finish(draw, e, 0.25)
        elements.append(e)
    return elements


def bar_part(draw):
    largest = draw.choice([8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 42, 45, 48])
    elements = bar_elements(draw, largest, (0.8, 3))
    if draw.chance(0.4):
        put_thread(draw, elements, 0)
    if draw.chance(0.12):
        put_cone(draw, elements[:])
    if draw.chance(0.15):
        put_knurl(draw, elements, elements)
    profile = Profile(draw, elements)
    profile.fill_corners(0.25)
    profile.cut_grooves(0.15)
    profile.break_edges(0.6)
    part = {"stock": {**blank_of(draw, largest, sawn=False), "fed from": "bar"}, "outside": elements}
    if draw.chance(0.25):
        bore_into(draw, part, elements, "right")
    part["draw from"] = STEEL * 2 + STAINLESS * 2 + LIGHT * 3 + RED * 3 + PLASTIC * 2 + HARD_TO_CUT
    return part


def through_bore(draw, largest, overall):
    """A bore from the right: one size, or wide in front of narrow."""
    d = draw.choice([x for x in [6, 8, 10, 12, 14, 15, 16, 18, 20, 22, 24, 25, 26, 28, 30, 32, 35, 40, 45, 50, 55, 60, 70]
                     if 0.25 * largest <= x <= 0.72 * largest and x * 5 >= overall] or [int(largest * 0.5)])
    e = cylinder(sized(draw, d, HOLE_FITS, 0.6), "through", d)
    finish(draw, e, 0.4)
    elements = [e]
    wide = d + draw.choice([4, 5, 6, 8, 10])
    if wide <= 0.8 * largest and overall > 20 and draw.chance(0.3):
        front = cylinder(sized(draw, wide, HOLE_FITS, 0.4), float(round(overall * draw.uniform(0.2, 0.5))), wide)
        finish(draw, front, 0.2)
        elements = [front, e]
    profile = Profile(draw, elements, bore=True)
    profile.break_edges(0.5)
    profile.cut_grooves(0.2)
    if len(elements) == 1 and d >= 16 and overall >= 18 and draw.chance(0.2):
        e.add("groove", f"{number(draw.choice([2, 3]))} wide to {d + 2} at {number(round(overall / 2))}")
    return elements


def bush(draw):
    """From the bar or sawn, with a bore through."""
    bar = draw.chance(0.65)
    largest = draw.choice([16, 18, 20, 22, 25, 28, 30, 32, 34, 35, 38, 40, 42, 45, 48] + ([] if bar else [55, 60, 70, 80, 90]))
    elements = bar_elements(draw, largest, (0.5, 1.6)) if bar else shaft_elements(draw, largest, (0.6, 1.8), (True, draw.chance(0.4)))
    overall = sum(e.length for e in elements)
    narrow = min(min(e.right, e.left) for e in elements)
    part = {"outside": elements, "stock": blank_of(draw, largest, sawn=not bar)}
    if bar:
        part["stock"]["fed from"] = "bar"
    part["bore from right"] = through_bore(draw, narrow, overall)
    if not bar and overall > 30 and draw.chance(0.2):
        part["bore from left"] = counterbore(draw, part["bore from right"][-1].right, narrow, overall)
    if draw.chance(0.1):
        put_knurl(draw, elements, elements)
    profile = Profile(draw, elements)
    profile.fill_corners(0.15)
    profile.cut_grooves(0.12)
    profile.break_edges(0.6)
    part["draw from"] = RED * 4 + STEEL * 2 + LIGHT * 2 + PLASTIC * 2 + STAINLESS
    return part


def counterbore(draw, hole, narrow, overall):
    wide = min(hole + draw.choice([4, 6, 8]), int(0.85 * narrow))
    if wide <= hole + 1:
        wide = hole + 2
    e = cylinder(sized(draw, wide, HOLE_FITS, 0.5), float(round(min(overall * 0.3, 15))), wide)
    if wide in CIRCLIP_BORES and wide >= 16 and e.length >= 10 and draw.chance(0.4):
        e.add("circlip", f"at {number(e.length - 5)}")
    Profile(draw, [e], bore=True, left=True).break_edges(0.4)
    return [e]


def flange(draw):
    """From a casting, a forging or a sawn disc."""
    form = draw.choice(["casting", "casting", "forging", "sawn"])
    largest = draw.choice([80, 90, 100, 110, 120, 140, 150, 160, 180] + ([200, 220, 240, 260, 280] if form == "casting" else []))
    spigot, hub = round(largest * draw.uniform(0.55, 0.75)), round(largest * draw.uniform(0.4, 0.55))
    elements = []
    if draw.chance(0.7):
        elements.append(cylinder(sized(draw, spigot, ["h7", "h8", "g6", "h9", "f7"], 0.6), float(draw.step(4, 12)), spigot))
    elements.append(cylinder(sized(draw, largest, ["h9", "h11", "h8"], 0.15), float(draw.step(18, 40)), largest))
    if draw.chance(0.75):
        elements.append(cylinder(sized(draw, hub, ["h9", "h8"], 0.2), float(draw.step(30, 60)), hub))
    for e in elements:
        finish(draw, e, 0.3)
    Profile(draw, elements).break_edges(0.6)
    part = {"outside": elements}
    part["stock"] = {form: draw.choice([3, 3.5, 4])} if form == "casting" else {form: draw.choice([2, 2.5, 3])} if form == "forging" \
        else {"round": int(largest + 5), "condition": "hot rolled"}
    if draw.chance(0.8):
        narrow = min(e.right for e in elements)
        part["bore from right"] = through_bore(draw, narrow * 0.8, sum(e.length for e in elements))
    if draw.chance(0.2):
        part["faces"] = {"right": f"machined, groove {draw.choice([3, 4])} wide {draw.choice([2, 3])} deep from {round(hub * 0.8)}"}
    part["draw from"] = CAST * 3 if form == "casting" else STEEL + STAINLESS if form == "forging" else STEEL + LIGHT * 2
    return part


def polygon_part(draw):
    hexagon = draw.chance(0.75)
    word = "hexagon" if hexagon else "square"
    flats = draw.choice([13, 17, 19, 22, 24, 27, 30, 32, 36] if hexagon else [12, 16, 20, 25, 30])
    bar = flats < 40 and draw.chance(0.7)
    elements = []
    sizes = ring_sizes(draw, flats - draw.choice([1, 2, 3, 4]), draw.randrange(1, 3), least=6)[::-1]
    for d in sizes:
        elements.append(cylinder(sized(draw, d, BAR_FITS, 0.2), float(draw.step(8, 25)), d))
    if draw.chance(0.6):
        put_thread_for_bolt(draw, elements)
    for e in elements:
        finish(draw, e, 0.1)
    flat = Element({word: str(flats)}, f"{word} {flats}", float(draw.step(6, 20)), flats * (1.1547 if hexagon else 1.4142))
    elements.append(flat)
    if not bar and draw.chance(0.5):
        flat.length += 14
        elements.append(cylinder(str(sizes[-1]), float(draw.step(10, 20)), sizes[-1]))
    profile = Profile(draw, elements[:-1] if elements[-1] is flat else elements)
    profile.fill_corners(0.1)
    part = {"outside": elements, "stock": {word: flats, **({"fed from": "bar"} if bar else {})}}
    if draw.chance(0.4):
        part["stock"]["condition"] = "drawn"
    for e in elements:
        if "thread" in e.keys:
            e.add("chamfer", f"{draw.choice(['1', '1.5'])}x45" + (" right" if e is elements[0] else ""))
    if draw.chance(0.35):
        bore_into(draw, part, [elements[0], flat], "right")
    part["draw from"] = STEEL * 2 + STAINLESS * 2 + RED * 2 + LIGHT
    return part


def put_thread_for_bolt(draw, elements):
    majors = [m for m in COARSE if m <= elements[0].right]
    if majors:
        e = outside_thread(draw, draw.choice(majors[-2:]), elements[0].length)
        if e is not None:
            elements[0] = e
            if len(elements) > 1 and elements[1].right <= e.right:
                del elements[1]


def tube_part(draw):
    outer = draw.choice([40, 45, 50, 60, 65, 70, 80, 90, 100, 110, 120])
    wall = draw.choice([6, 8, 10, 12, 15])
    wall = min(wall, outer // 4)
    part = {"stock": {"tube": f"{outer}x{wall}", "condition": draw.choice(["hot rolled", "drawn", "drawn"])}}
    largest = outer - draw.choice([2, 3, 4] if part["stock"]["condition"] == "hot rolled" else [1, 2])
    hole = outer - 2 * wall + draw.choice([2, 3, 4])
    elements = [cylinder(sized(draw, largest, ["h8", "h9", "h11", "h7"], 0.4), float(draw.step(18, 60)), largest)]
    shoulder = largest - draw.choice([4, 5, 6])
    if shoulder > hole + 4 and draw.chance(0.4):
        elements.insert(draw.choice([0, 1]), cylinder(sized(draw, shoulder, ["h8", "h9"], 0.4), float(draw.step(8, 25)), shoulder))
    if outer <= 52 and draw.chance(0.4):
        elements.sort(key=lambda e: e.right)
        part["stock"]["fed from"] = "bar"
    inner = cylinder(sized(draw, hole, HOLE_FITS, 0.5), "through", hole)
    finish(draw, inner, 0.3)
    for e in elements:
        finish(draw, e, 0.3)
    Profile(draw, elements).break_edges(0.6)
    Profile(draw, [inner], bore=True).break_edges(0.4)
    part.update({"outside": elements, "bore from right": [inner], "draw from": STEEL * 2 + RED + LIGHT + STAINLESS})
    return part


def drawn_rod(draw):
    """Bright bar that keeps its own surface, worked at the ends."""
    d = draw.choice([12, 16, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50])
    middle = Element({"diameter": str(d), "as drawn": "yes"}, f"{d} as drawn", float(draw.step(40, 40 + 6 * d)), d)
    ends = []
    for _ in range(2):
        size = d - draw.choice([2, 3, 4, 5])
        e = outside_thread(draw, size, 15.0) if draw.chance(0.5) else None
        ends.append(e or cylinder(sized(draw, size, SHAFT_FITS, 0.4), float(draw.step(10, 30)), size))
    elements = [ends[0], middle] + ([ends[1]] if draw.chance(0.6) else [])
    profile = Profile(draw, elements)
    profile.break_edges(0.5)
    middle.more = []
    part = {"outside": elements, "stock": {"round": d, "condition": draw.choice(["drawn", "ground" if d in (12, 16, 18, 20, 25, 30, 40) else "drawn"])}}
    if len(elements) == 2 and draw.chance(0.6):
        part["faces"] = {"left": "as sawn"}
    part["draw from"] = STEEL * 2 + STAINLESS * 2 + RED + LIGHT
    return part


def inch_part(draw):
    bar = draw.chance(0.4)
    sixteenths = draw.choice([8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32] if not bar else [6, 8, 10, 12, 14, 16, 20, 24])
    largest = sixteenths / 16
    diameters = [largest]
    while len(diameters) < draw.randrange(1, 4) and diameters[-1] > 0.5:
        diameters.append(diameters[-1] - draw.choice([0.125, 0.1875, 0.25]))
    diameters = [d for d in diameters if d > 0.2][::-1]
    elements = []
    for d in diameters:
        elements.append(inch_cylinder(draw, d, max(0.25, round(largest * draw.uniform(0.5, 2) * 8) / 8)))
    if len(elements) > 1 and draw.chance(0.35):
        inch_thread(draw, elements, diameters[0])
    if not bar and draw.chance(0.6):
        elements.append(inch_cylinder(draw, diameters[0], max(0.5, round(largest * 4) / 8)))
    for i, e in enumerate(elements):
        e.length = round(e.length * 16) / 16
    profile = Profile(draw, elements)
    for i, e in enumerate(elements):
        if draw.chance(0.4) and "thread" not in e.keys:
            free = [r for r in (True, False) if profile.free(i, r)]
            if free:
                right = draw.choice(free)
                e.add("chamfer", f"{draw.choice(['0.03', '0.06', '0.02'])}x45 {profile.sides(right, not right)}")
    stock = next((s / 16 for s in (8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 20, 22, 24, 26, 28, 30, 32, 36, 40) if s / 16 > largest + 0.05))
    part = {"units": "inch", "outside": elements, "stock": {"round": fraction(draw, stock), "condition": "drawn", **({"fed from": "bar"} if bar else {})}}
    if draw.chance(0.25):
        hole = draw.choice([0.25, 0.375, 0.5])
        if hole < 0.6 * diameters[0]:
            part["bore from right"] = [cylinder(number(hole), round(hole * 24) / 16, hole)]
    part["draw from"] = INCH_MATERIALS
    return part


def inch_cylinder(draw, d, length):
    text = f"{d:.4f}" if draw.chance(0.5) else fraction(draw, d)
    if draw.chance(0.35):
        text = f"{d:.4f} " + draw.choice(["+0.0000/-0.0010", "±0.002", "-0.002", "+0.0005/-0.0005", "h7", "h9"])
    e = cylinder(text, length, d)
    if draw.chance(0.25):
        e.add("Ra", draw.choice(["32", "63", "125", "16"]))
    return e


def inch_thread(draw, elements, d):
    series = {0.25: ("1/4", 20, 28), 0.375: ("3/8", 16, 24), 0.5: ("1/2", 13, 20), 0.625: ("5/8", 11, 18), 0.75: ("3/4", 10, 16), 1.0: ("1", 8, 12)}
    if d not in series:
        return
    name, coarse, fine = series[d]
    is_fine = draw.chance(0.5)
    pitch = 1 / (fine if is_fine else coarse)
    designation = f"{name}-{fine} UNF" if is_fine else f"{name}-{coarse} UNC"
    e = thread(designation + draw.choice(["", "-2A"]), max(elements[0].length, 0.75), d)
    e.add("undercut", f"{round(3 * pitch, 3)} wide to {round(d - 1.5 * pitch, 3)}")
    elements[0] = e


def fraction(draw, value):
    """0.75 as 3/4, 1.25 as 1-1/4 in, or as a decimal."""
    sixteenths = round(value * 16)
    whole, part = divmod(sixteenths, 16)
    if part == 0 or draw.chance(0.4):
        return number(value)
    bottom = 16
    while part % 2 == 0:
        part, bottom = part // 2, bottom // 2
    return (f"{whole}-{part}/{bottom}" if whole else f"{part}/{bottom}") + (" in" if draw.chance(0.4) else "")


KINDS = [(shaft, 34), (bar_part, 22), (bush, 16), (flange, 6), (polygon_part, 7), (tube_part, 5), (drawn_rod, 5), (inch_part, 8)]
OTHER_WORK = ["keyway 10 P9 x36, 6 min", "cross hole 4, 2 min", "slot 8 wide, 4 min", "6 holes 9 on PCD 80, 12 min", "engraved, 1.5 min"]
BOUGHT_WORK = ["zinc plated", "hardened", "black oxide", "anodised", "nitrided"]


def other_work(draw):
    works = []
    if draw.chance(0.5):
        works.append(draw.choice(OTHER_WORK))
    if draw.chance(0.35):
        work = {"what": "milled flats", "minutes": draw.choice([2, 4, 6.5])}
        if draw.chance(0.6):
            work["setup"] = draw.choice(["10 min", "15 min", "25"])
        works.append(work)
    if draw.chance(0.4):
        per = draw.choice(["piece", "piece", "lot", "kg", "dm2", "minute"])
        work = {"what": draw.choice(BOUGHT_WORK), "price": draw.choice([0.8, 1.5, 2.1, 3.0, 4.5]) * (20 if per == "lot" else 1), "per": per}
        if per == "minute":
            work["minutes"] = draw.choice([3, 6])
        for key, value in (("minimum", 60), ("certificate", 35), ("transport", 20), ("scrap", 0.01), ("days", 5), ("setup", "12 min")):
            if draw.chance(0.4):
                work[key] = value
        works.append(work)
    if draw.chance(0.12):
        works.append({"what": "stress relieved", "price": draw.choice([2.0, 4.5]), "after": "roughing", "days": 3, **({"scrap": 0.02} if draw.chance(0.5) else {})})
    return works


def one_offs(draw):
    all_of_them = ["soft jaws, 180 EUR", "first article report, 45 min", {"what": "gauge", "price": 240, "paid": "in the first order"},
                   {"what": "program", "minutes": 90, "paid": "over pieces", "pieces": 500}, {"what": "fixture", "price": 320.5, "paid": "as a line"}]
    return draw.sample(all_of_them, draw.randrange(1, 3))


def quantities(draw):
    return draw.choice([[1], [1, 5, 20], [2, 10], [10, 50, 250], [10, 50, 250], [20, 100], [100, 500, 2000], [25], [3, 6, 12, 24], [1000, 5000]])


def material_of(draw, names):
    name = draw.choice(names)
    if not draw.chance(0.04):
        return name
    like = {"like": name, "hardness": f"{draw.choice([120, 180, 220, 260, 300])} HB"}
    if draw.chance(0.5):
        like["density"] = "7850 kg/m3"
    if draw.chance(0.6):
        like["price"] = f"{draw.choice([1.8, 2.4, 3.65, 5.2]):.2f} EUR/kg"
    return like


def base_name(material):
    return material["like"] if isinstance(material, dict) else material


def drawing(draw, inch):
    if draw.chance(0.1):
        return {}
    out = {"general": draw.choice(["±0.005", "±0.01", "ISO 2768-m"] if inch else ["ISO 2768-m", "ISO 2768-m", "ISO 2768-mK", "ISO 2768-f", "ISO 2768-c", "±0.1"])}
    if draw.chance(0.85):
        out["Ra"] = draw.choice([63, 125, 63]) if inch else draw.choice([3.2, 3.2, 3.2, 1.6, 6.3])
    if draw.chance(0.3):
        out["edges"] = 0.01 if inch else draw.choice([0.2, 0.3, 0.5])
    return out


def part_file(seed, index):
    """The document of one part, in the new words."""
    draw = Draw(f"part {seed} {index}")
    kind = draw.choices([k for k, _ in KINDS], [w for _, w in KINDS])[0]
    made = kind(draw)
    maps = 0.6 if draw.chance(0.12) else 0.0
    inch = made.get("units") == "inch"
    out = {"part": {"number": f"R-{index:05d}", "name": kind.__name__.replace("_", " "), "revision": draw.choice("ABC")}}
    if draw.chance(0.8):
        out["part"]["order"] = draw.choice(["new", "new", "repeat"])
    if inch or draw.chance(0.1):
        out["units"] = "inch" if inch else "metric"
    out["material"] = material_of(draw, made["draw from"])
    out["stock"] = made["stock"]
    if out["stock"] != "auto" and out["stock"].get("condition") == "hot rolled" and base_name(out["material"]) in LIGHT + RED + PLASTIC:
        out["stock"]["condition"] = "drawn"    # black bar is steel's
    if draw.chance(0.05) and isinstance(out["stock"], dict):
        out["stock"]["supplied by"] = draw.choice(["us", "customer"])
    if draw.chance(0.05) and isinstance(out["stock"], dict) and not inch and "casting" not in out["stock"] and "forging" not in out["stock"]:
        out["stock"]["facing"] = draw.choice([1, 1.5, 2.5])
    out["quantities"] = quantities(draw)
    if drawn := drawing(draw, inch):
        out["drawing"] = drawn
    if draw.chance(0.1):
        out["overall"] = number(sum(e.length for e in made["outside"]))
    if "faces" in made:
        out["faces"] = made["faces"]
    elif draw.chance(0.06):
        out["faces"] = {draw.choice(["right", "left"]): "machined, Ra " + ("32" if inch else "1.6")}
    out["outside"] = Profile(draw, made["outside"]).write(maps)
    for face in ("right", "left"):
        if key := made.get("bore from " + face):
            out["bore from " + face] = Profile(draw, key, bore=True, left=face == "left").write(maps)
    if "centres" in made:
        out["centres"] = made["centres"]
    if draw.chance(0.3) and (works := other_work(draw)):
        out["other work"] = works
    if draw.chance(0.1):
        out["one-offs"] = one_offs(draw)
    if draw.chance(0.05):
        out["learning"] = {"rate": draw.choice([0.85, 0.9, 0.92, 0.95]), "planned time at piece": draw.choice([10, 40, 100])}
    return out


# ---- requests and weeks over parts that lie in the same folder


def part_name(index):
    return f"part-{index:05d}.yaml"


def request_file(seed, index, parts):
    """A request over the part files of these numbers."""
    draw = Draw(f"request {seed} {index}")
    lines = []
    for number_of_part in draw.sample(parts, min(len(parts), draw.randrange(1, 4))):
        line = {"part": part_name(number_of_part)}
        count, each = draw.choice([2, 3, 4, 6, 12]), draw.choice([5, 20, 60, 100])
        if draw.chance(0.5):
            line["quantities"] = sorted({count * each, 2 * count * each})
            if draw.chance(0.7):
                line["releases"] = f"{count} of {each}"
        elif draw.chance(0.6):
            line["quantities"] = quantities(draw)
        if draw.chance(0.2):
            line["price unit"] = draw.choice([1, 100, 1000])
        if draw.chance(0.2):
            line["customer supplies"] = draw.choice(["material", "nothing"])
        if draw.chance(0.2):
            line["order"] = draw.choice(["new", "repeat"])
        if draw.chance(0.3):
            line["week"] = f"2027-W{draw.randrange(1, 30):02d}"
        lines.append(line)
    return {"request": {"customer": "Orrin Winches", "our number": f"Q-{index:04d}", "revision": draw.randrange(3),
                        "date": draw.choice(["2026-12-01", "2027-03-01"]), "valid for": "30 days"},
            "parts": lines, "show": draw.sample(["material certificate", "delivery week", "work", "mass"], 2)}


def week_file(seed, index, parts):
    """Three weeks of a shop with the machines of samples/shop."""
    draw = Draw(f"week {seed} {index}")
    machines = [{"machine": "Tarn CNC 1", "shifts": ["early", "late"], "mounted": ["jaws, hard"]},
                {"machine": "Tarn bar lathe", "shifts": ["early", "late"], "mounted": [f"bar {draw.choice([20, 35, 40])}"]},
                {"machine": "Tarn geared lathe", "shifts": ["early"]}, {"machine": "Tarn heavy lathe", "shifts": ["early"]}]
    if draw.chance(0.5):
        machines.append({"machine": "Tarn CNC 1", "called": "Tarn CNC 2", "shifts": ["early"],
                         "down": [{"from": "2027-02-03", "to": "2027-02-03 12:00", "why": "service"}]})
    people = [{"name": "Ines", "shifts": ["early"], "sets": "yes"}, {"name": "Marek", "shifts": ["late"], "sets": "yes"},
              {"name": "Lise", "shifts": ["early"], "sets": draw.choice(["yes", "no"])}, {"name": "Tom", "shifts": ["late"], "sets": "no"}]
    week = {"week": {"from": "2027-02-01", "to": "2027-02-26", "now": "2027-02-01 06:00"}, "holidays": ["02-16"],
            "shifts": [{"name": "early", "days": "Mon-Fri", "from": "06:00", "to": "14:00", "pauses": ["09:00-09:15"]},
                       {"name": "late", "days": ["Mon", "Tue", "Wed", "Thu"], "from": "14:00", "to": "22:00"}],
            "machines": machines, "people": people}
    if draw.chance(0.7):
        week["overtime"] = {"most": "2 h", "price": "46 EUR/h"}
    if draw.chance(0.6):
        week["subcontracted"] = {"days": 6, "price": "98 EUR/h"}
    orders = []
    for i in range(draw.randrange(8, 15)):
        order = {"order": 300 + i, "part": part_name(draw.choice(parts)), "quantity": draw.choice([5, 10, 20, 30, 60]),
                 "due": f"2027-02-{draw.randrange(4, 26):02d}"}
        for share, key, value in ((0.15, "release", "2027-02-02"), (0.15, "importance", 3), (0.1, "batches", 2), (0.1, "overlap", "25 %")):
            if draw.chance(share):
                order[key] = value
        if draw.chance(0.1):
            order.update({"state": "quoted", "probability": 0.4})
        orders.append(order)
    week["orders"] = orders
    return week


# ---- files


def write_all(folder, seed, parts, requests, weeks, known):
    """Writes the files and returns their names by kind."""
    names = {"parts": [], "requests": [], "weeks": []}

    def write(kind, name, document):
        with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
            file.write(yaml_text(document, known))
        names[kind].append(name)

    for i in range(parts):
        write("parts", part_name(i), part_file(seed, i))
    for i in range(requests):
        near = list(range(parts))[(10 * i) % max(1, parts):][:10]
        write("requests", f"request-{i:04d}.yaml", request_file(seed, i, near))
    for i in range(weeks):
        write("weeks", f"week-{i:03d}.yaml", week_file(seed, i, list(range(min(parts, 60)))))
    return names


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--parts", type=int, default=100)
    parser.add_argument("--requests", type=int, default=0)
    parser.add_argument("--weeks", type=int, default=0)
    parser.add_argument("--to", required=True, help="a folder; made when it is not there")
    parser.add_argument("--words", choices=["old", "new"], default="new")
    given = parser.parse_args()
    os.makedirs(given.to, exist_ok=True)
    write_all(given.to, given.seed, given.parts, given.requests, given.weeks, set(OLD_WORDS) if given.words == "new" else set())


if __name__ == "__main__":
    main()
