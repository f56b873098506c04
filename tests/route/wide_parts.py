"""Random parts of wide shape, the same for the same seed and number: what a jobbing shop is asked for in a year.

Diameters, lengths, shapes, stock forms and materials are drawn over the ranges of RANGES, which the test prints.
A part is what a drawing may ask for: walls, steps and depths are such that a turner would not send it back.
"""
import math
import random
import re

RANGES = """diameters 4-400 mm, lengths 5-1200 mm, up to 15 diameters long (8 below 12 mm), up to 400 kg
kinds: shaft 30 %, bar part 20 %, bush 14 %, flange or disc 14 %, hexagon or square 9 %, tube ring 7 %, drawn rod 6 %
outside: 1-7 cylinders rising and falling, necks between larger lands, recesses 8-40 mm wide, grooves 1.1-6 mm, circlips, O-rings,
  cones rising and falling, points and domes, arcs, metric threads M4-M64 coarse and fine with undercut, groove or run-out at a shoulder,
  left-hand threads, knurls, reliefs E and F, fillets, chamfers, rounds, fits IT6-IT11, Ra 0.8-6.3
bores (up to 120 mm deep): through and blind, flat, counterbored from right and left, tapped M3-M20, grooves inside, face grooves
stock: auto, round (hot rolled, peeled, drawn, ground), hexagon, square, tube, casting 3-5 a side, forging 2-3 a side; sawn and from the bar"""

DENSITY = {"6082-T6": 2.7, "POM-C": 1.4, "Ti6Al4V": 4.4}
STEELS = ["C45", "42CrMo4 +QT", "11SMn30", "16MnCr5", "S355J2", "C15", "34CrNiMo6"]
OTHERS = ["1.4301", "1.4404", "X8CrNiS18-9", "6082-T6", "CuZn39Pb3", "CuSn8", "POM-C", "Ti6Al4V"]
CAST = ["EN-GJL-250", "EN-GJS-400-15"]
DRAWN = [4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 24, 25, 26, 28, 30, 32, 34, 35, 36, 38, 40, 42, 45, 48, 50]
GROUND = [4, 5, 6, 8, 10, 12, 14, 15, 16, 18, 20, 22, 24, 25, 28, 30, 32, 35, 36, 38, 40, 42, 45, 48, 50]
FLATS = {"hexagon": [10, 13, 17, 19, 22, 24, 27, 30, 32, 36, 41], "square": [10, 12, 16, 20, 25, 30, 35]}
COARSE = {4: 0.7, 5: 0.8, 6: 1, 8: 1.25, 10: 1.5, 12: 1.75, 16: 2, 20: 2.5, 24: 3, 30: 3.5, 36: 4}
FINE = {8: 1, 10: 1, 12: 1.25, 16: 1.5, 20: 1.5, 24: 1.5, 30: 2, 36: 2, 42: 2, 48: 2, 56: 2, 64: 2}
UNDERCUT = {0.7: 2.45, 0.8: 2.8, 1: 3.5, 1.25: 4.4, 1.5: 5.2, 1.75: 6.1, 2: 7, 2.5: 8.7, 3: 10.5, 3.5: 12, 4: 14}
TAPPED = {3: 0.5, 4: 0.7, 5: 0.8, 6: 1, 8: 1.25, 10: 1.5, 12: 1.75, 16: 2, 20: 2.5}
CIRCLIPS = [10, 12, 14, 15, 16, 17, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80]
CIRCLIP_BORES = [16, 20, 22, 25, 26, 28, 30, 32, 35, 40, 42, 47, 50, 52, 55, 60]


def mm(value):
    return f"{round(value, 2):g}"


class Element:
    def __init__(self, text, right, left, length, kind="cylinder"):
        self.text, self.right, self.left, self.length, self.kind = text, right, left, length, kind
        self.more = []
        self.cut = 0.12 * right if kind == "thread" else 0  # how deep a groove or thread goes, a side

    def written(self):
        run = "through" if self.length == "through" else "x" + mm(self.length)
        return ", ".join([f"{self.text} {run}", *self.more])


class Part:
    """A part as it is drawn up: elements, bores, stock; `document` is the map of its file."""

    def __init__(self, draw, number):
        self.draw, self.number = draw, number
        self.outside, self.right, self.left = [], [], []
        self.stock, self.material, self.more, self.kind = "auto", "C45", {}, ""

    def overall(self):
        return sum(e.length for e in self.outside)

    def narrowest(self):
        """The smallest outside diameter, under grooves and thread roots."""
        return min(min(e.right, e.left) - 2 * e.cut for e in self.outside)

    def document(self):
        out = {"part": {"number": self.number, "name": self.kind}, "material": self.material, "stock": self.stock, "quantities": [20],
               "drawing": {"general": "ISO 2768-m", "Ra": 3.2}, "outside": [e.written() for e in self.outside]}
        if self.right:
            out["bore from right"] = [e.written() for e in self.right]
        if self.left:
            out["bore from left"] = [e.written() for e in self.left]
        return {**out, **self.more}


class Draw(random.Random):
    def chance(self, share):
        return self.random() < share

    def between(self, low, high):
        """Evenly over the logarithm: as many small as large."""
        return math.exp(self.uniform(math.log(low), math.log(high)))

    def whole(self, low, high):
        return self.randint(math.ceil(low), max(math.ceil(low), math.floor(high)))


# ---- elements


def cylinder(draw, d, length, fine=0.35, machine_grade=7):
    fits = ["h9", "h9", "h8", "h11", "h7", "f7", "js9", "k7"] + (["h6", "k6", "g6", "m6"] if machine_grade <= 6 else [])
    text = mm(d) + (" " + draw.choice(fits) if draw.chance(fine) else "")
    e = Element(text, d, d, length)
    if draw.chance(0.3):
        e.more.append("Ra " + draw.choice(["0.8", "1.6", "1.6", "6.3"]))
    return e


def thread(draw, d, room, shoulder):
    """A metric thread of about that diameter and how it ends, or none."""
    table = FINE if draw.chance(0.4) and any(m <= d for m in FINE) else COARSE
    sizes = [m for m in table if 0.75 * d <= m <= d]
    if not sizes:
        return None
    m = max(sizes)
    pitch = table[m]
    length = max(room, UNDERCUT[pitch] + 3 * pitch + 2)
    text = f"M{m}" + (f"x{mm(pitch)}" if table is FINE else "") + (" LH" if draw.chance(0.06) else "")
    e = Element(text, m, m, round(length, 1), "thread")
    if shoulder:
        pick = draw.randrange(10)
        if pick < 5:
            e.more.append("undercut DIN 76-A")
        elif pick < 7:
            e.more.append("undercut")
        elif pick < 8:
            e.more.append(f"groove {mm(round(3 * pitch, 1))} wide {mm(round(0.8 * pitch, 2))} deep at shoulder")
    return e


def fall(draw, d, least):
    """A smaller diameter: a step of 1 to 30 %."""
    step = max(1, round(d * draw.choice([0.04, 0.08, 0.12, 0.2, 0.3])))
    return d - step if d - step >= least else None


def diameters(draw, largest, most):
    """Rising to the largest and falling behind it, with a neck now and then."""
    least = max(3, largest * 0.3)
    right, left = [largest], [largest]
    for side in (right, left):
        for _ in range(draw.randrange(0, (most + 1) // 2 + 1)):
            d = fall(draw, side[-1], least)
            if d is not None:
                side.append(d)
    out = right[::-1] + left[1:]
    if draw.chance(0.2) and len(out) >= 1:
        neck = max(least, round(largest * draw.choice([0.5, 0.65, 0.8])))
        if neck < largest - 1:
            at = len(right)
            out[at:at] = [neck, largest]
    return out


def turned(part, largest, length, most, least_length, grade):
    """The outside of a shaft or bar part."""
    draw = part.draw
    ds = diameters(draw, largest, most)
    weights = [draw.uniform(0.5, 1.5) for _ in ds]
    for i, (d, w) in enumerate(zip(ds, weights)):
        part.outside.append(cylinder(draw, d, max(least_length, round(length * w / sum(weights))), machine_grade=grade))
    if draw.chance(0.3):
        put_thread(part, 0)
    if draw.chance(0.15) and len(part.outside) > 1:
        put_thread(part, -1)
    if draw.chance(0.2):
        put_cone(part)
    if draw.chance(0.06):
        put_point(part)
    if draw.chance(0.08):
        put_knurl(part)
    dress(part)


def put_thread(part, at):
    e = part.outside[at]
    others = len(part.outside) > 1
    neighbour = part.outside[1 if at == 0 else -2].right if others else 0
    t = thread(part.draw, e.right, e.length, others and neighbour > e.right - 0.1)
    if t is not None and (not others or neighbour >= t.right or at == 0):
        part.outside[at] = t
        if others and part.draw.chance(0.7):
            t.more.append("chamfer 1x45 " + ("right" if at == 0 else "left") if t.right >= 8 else "chamfer 0.5x45 " + ("right" if at == 0 else "left"))


def put_cone(part):
    draw = part.draw
    steps = [i for i in range(len(part.outside) - 1) if part.outside[i].kind == part.outside[i + 1].kind == "cylinder"
             and part.outside[i].left != part.outside[i + 1].right]
    if not steps:
        return
    i = draw.choice(steps)
    a, b = part.outside[i].left, part.outside[i + 1].right
    length = max(3, round(abs(b - a) * draw.choice([0.5, 0.87, 1.5, 3])))
    if draw.chance(0.7):
        e = Element(f"cone {mm(a)} to {mm(b)}", a, b, length, "cone")
    else:
        length = max(2, round(abs(b - a) * 0.7))
        radius = max(abs(b - a), length) * draw.choice([1, 1.5, 2])
        if max(e.right for e in part.outside) > 180 or part.overall() > 560:
            return  # a geared lathe turns no large arcs
        e = Element(f"arc R{mm(radius)} to {mm(b)}", a, b, length, "arc")
    if draw.chance(0.3):
        e.more.append("Ra 1.6")
    part.outside.insert(i + 1, e)


def put_point(part):
    first = part.outside[0]
    if first.kind != "cylinder" or first.right > 60:
        return
    d = first.right
    if part.draw.chance(0.5):
        part.outside.insert(0, Element(f"cone 0 to {mm(d)}", 0, d, max(2, round(d * 0.6)), "cone"))
    else:
        part.outside.insert(0, Element(f"arc R{mm(d / 2)} to {mm(d)}", 0, d, d / 2, "arc"))


def put_knurl(part):
    plain = [e for e in part.outside if e.kind == "cylinder" and not e.more and e.text == mm(e.right) and e.length >= 6 and 8 <= e.right <= 80]
    if plain:
        e = part.draw.choice(plain)
        e.kind = "knurl"
        e.more.append("knurl " + part.draw.choice(["RGE", "RAA", "RGE"]) + " " + part.draw.choice(["0.6", "0.8", "1.0"]))


def dress(part):
    """Edges, corners, grooves and recesses where there is room for them."""
    draw, pos = part.draw, 0.0
    for i, e in enumerate(part.outside):
        before = part.outside[i - 1].left if i else None
        after = part.outside[i + 1].right if i + 1 < len(part.outside) else None
        if e.kind == "cylinder":
            corner_left, corner_right = after is not None and after > e.left + 1.9, before is not None and before > e.right + 1.9
            if corner_left and draw.chance(0.3) and e.length > 5 and after - e.left >= 2:
                e.more.append(corner(draw, e, (after - e.left) / 2) + " left")
            elif corner_right and draw.chance(0.2) and e.length > 5 and before - e.right >= 2:
                e.more.append(corner(draw, e, (before - e.right) / 2) + " right")
            groove(draw, e, pos)
            if any(m.startswith(("relief", "circlip")) for m in e.more):
                e.cut = max(e.cut, 0.04 * e.right)
        if e.kind in ("cylinder", "knurl"):
            edges(draw, e, before, after)
        pos += e.length
    part_fillets_from_edges(part)


def part_fillets_from_edges(part):
    """A fillet and the broken edge above it both fit into their shoulder, or the fillet goes."""
    for i, e in enumerate(part.outside):
        for side, other, facing in (("left", i + 1, "right"), ("right", i - 1, "left")):
            if not 0 <= other < len(part.outside):
                continue
            height = abs(part.outside[other].right - e.left if side == "left" else part.outside[other].left - e.right) / 2
            broken = max([number_in(m) for m in part.outside[other].more if m.startswith(("chamfer", "round")) and (facing in m or "both" in m)], default=0)
            e.more = [m for m in e.more if not (m.startswith("fillet") and side in m and number_in(m) + broken > height - 0.01)]


def number_in(words):
    return float(re.search(r"[0-9.]+", words).group())


def corner(draw, e, step):
    if e.right >= 10 and step >= 1.5 and draw.chance(0.6):
        return "relief " + draw.choice("EF")
    return "fillet R" + ("0.5" if step < 1.3 else draw.choice(["0.8", "1"] if step < 2.5 else ["1", "1.5", "2"]))


def edges(draw, e, before, after):
    sides = [s for s, other in (("right", before), ("left", after)) if other is None or other < e.right - 1.0]
    if not sides or not draw.chance(0.6):
        return
    room = min([0.15 * e.length, 0.1 * e.right] + [(e.right - o) / 2 * 0.8 for o in (before, after) if o is not None and o < e.right - 1.0])
    width = max((w for w in (0.3, 0.5, 1, 1.5, 2) if w <= room), default=None)
    if width is None:
        return
    side = "both" if len(sides) == 2 and draw.chance(0.7) else draw.choice(sides)
    e.cut = max(e.cut, width)
    e.more.append(f"round R{mm(width)} {side}" if draw.chance(0.1) else f"chamfer {mm(width)}x45 {side}")


def groove(draw, e, pos):
    if e.length < 14 or not draw.chance(0.22) or e.right < 8:
        return
    pick = draw.randrange(10)
    if pick < 3 and e.right in CIRCLIPS:
        e.more.append(f"circlip at {mm(pos + draw.whole(5, e.length - 8))}")
    elif pick < 4 and 20 <= e.right <= 100:
        e.cut = 3
        e.more.append(f"O-ring 3.0 at {mm(pos + draw.whole(5, e.length - 9))}")
    elif pick < 7 and e.length >= 24 and e.right >= 16:
        width = draw.whole(8, min(40, e.length - 12))
        depth = min(draw.choice([1.5, 2.5, 4, 6]), round(0.15 * e.right, 1))
        e.cut = depth
        e.more.append(f"groove {width} wide {mm(depth)} deep at {mm(pos + draw.whole(5, e.length - width - 6))}")
    else:
        width = draw.choice([w for w in (1.1, 1.6, 2, 2.5, 3, 4, 5, 6) if w < e.length - 11])
        depth = min(draw.choice([0.5, 1, 1.5, 2]), round(0.1 * e.right, 1), 4 * width)
        e.cut = depth
        e.more.append(f"groove {mm(width)} wide {mm(depth)} deep at {mm(pos + draw.whole(5, e.length - width - 5))}")


# ---- bores


def hole(draw, d, fits=0.4):
    text = mm(d) + (" " + draw.choice(["H7", "H7", "H8", "H9", "H11"]) if draw.chance(fits) else "")
    return text


def bore(part, wall_to, shares=(0.25, 0.6)):
    """Bores from both faces that leave a wall under the diameter `wall_to`."""
    draw, overall = part.draw, part.overall()
    room = min(wall_to - max(4, 0.16 * wall_to), 250)
    if room < 4 or wall_to < 6:
        return
    through = [d for d in (5, 6, 8, 10, 12, 15, 16, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 140, 160, 180, 200, 220)
               if shares[0] * wall_to <= d <= min(shares[1] * wall_to, room) and overall <= min(4 * d, 120)]
    pick = draw.randrange(10)
    if through and pick < 7:
        d = draw.choice(through)
        e = Element(hole(draw, d), d, d, "through")
        part.right.append(e)
        edge = draw.choice(["", "", "chamfer 0.5x45 both", "chamfer 1x45 both", "chamfer 1x45 right"])
        if pick >= 3 or not counterbores(part, d, room, overall):
            if edge and room - d > 3:
                e.more.append(edge)
            if d >= 20 and overall >= 25 and draw.chance(0.15) and room - d > 5:
                e.more.append(f"circlip at {mm(round(overall / 2))}" if d in CIRCLIP_BORES else f"groove 3 wide 1 deep at {mm(round(overall / 2))}")
    else:
        blind(part, part.right, room, 0.8 * overall)
        if draw.chance(0.25):
            blind(part, part.left, room, 0.8 * overall)


def counterbores(part, d, room, overall):
    draw, done = part.draw, False
    for side in (part.right, part.left):
        wide = d + draw.choice([3, 5, 8, 12, 20])
        if wide <= room and overall >= 16 and draw.chance(0.6):
            e = Element(hole(draw, wide), wide, wide, max(3, round(min(overall * draw.uniform(0.12, 0.35), wide))))
            if draw.chance(0.3):
                e.more.append("chamfer 0.5x45")
            if side is part.left:
                if draw.chance(0.5):
                    e.more.append("flat")
                side.append(e)
            else:
                side.insert(0, e)
            done = True
    return done


def blind(part, side, room, overall):
    draw = part.draw
    end = (part.outside[0] if side is part.right else part.outside[-1])
    room = min(room, min(end.right, end.left) - max(3, 0.2 * end.right))
    taps = [m for m in TAPPED if m <= room * 0.8 and 2 * m + 3 * TAPPED[m] + 4 < 0.45 * overall]
    if taps and draw.chance(0.5):
        m = draw.choice(taps[-3:])
        side.append(Element(f"M{m}", m, m, round(draw.choice([1, 1.5, 2]) * m), "thread"))
        return
    sizes = [d for d in (4, 5, 6, 8, 10, 12, 15, 16, 18, 20, 25, 30, 40, 50, 60, 80, 100) if d <= room and 0.8 * d < 0.4 * overall]
    if sizes:
        d = draw.choice(sizes[-4:])
        depth = max(d if d < 10 else 2, round(min(d * draw.choice([0.5, 1, 2, 3]), 0.4 * overall, 110)))
        e = Element(hole(draw, d, 0.3), d, d, depth)
        if d >= 10 and draw.chance(0.3):
            e.more.append("flat")
        side.append(e)


# ---- kinds of parts


def limit_length(draw, d, ratios, low=5, high=1200):
    most = 8 if d < 12 else 15
    return max(low, min(high, d * min(most, draw.between(*ratios))))


def heavy(part, d, length):
    return math.pi / 4 * d * d * length * DENSITY.get(part.material, 7.9) * 1e-6 > 400


def shaft(part):
    draw = part.draw
    part.kind = "shaft"
    d = round(draw.between(12, 300))
    length = limit_length(draw, d, (1, 15))
    part.material = draw.choice(STEELS * 3 + OTHERS)
    while heavy(part, d + 6, length):
        length *= 0.7
    turned(part, d, length, 6, max(4, 0.12 * d), 6 if d < 180 and length < 550 else 7)
    if draw.chance(0.25):
        bore(part, part.narrowest())
    if draw.chance(0.5) or d > 240:
        part.stock = {"round": int(d + draw.choice([4, 5, 6])), "condition": draw.choice(["hot rolled", "hot rolled", "peeled"])}
        if d > 190:
            part.stock["condition"] = "hot rolled"
    if draw.chance(0.3) and not part.right and not part.left and part.outside[0].right:
        part.more["centres"] = {"both ends": "A", "keep": draw.choice(["yes", "may"])}


def bar_part(part):
    draw = part.draw
    part.kind = "bar part"
    size = draw.choice(DRAWN[1:])
    d = size - (0.5 if size < 10 else 1) if draw.chance(0.8) else size - 2
    length = limit_length(draw, d, (0.8, 5), high=200)
    part.material = draw.choice(STEELS + OTHERS)
    turned(part, d, length, 4, max(2, 0.15 * d), 7)
    if draw.chance(0.3):
        bore(part, part.narrowest())
    part.stock = {"round": size, "condition": "drawn", "fed from": "bar"}


def bush(part):
    draw = part.draw
    part.kind = "bush"
    d = round(draw.between(10, 250))
    length = limit_length(draw, d, (0.3, 2))
    part.material = draw.choice(STEELS + OTHERS * 2)
    while heavy(part, d + 6, length):
        length *= 0.7
    turned(part, d, length, 2, max(3, 0.1 * d), 7)
    bore(part, part.narrowest(), (0.35, 0.85))
    if d > 240:
        part.stock = {"round": d + 5, "condition": "hot rolled"}
    if d <= 48 and draw.chance(0.6):
        size = next(s for s in DRAWN if s >= d + 0.5)
        part.stock = {"round": size, "condition": "drawn", "fed from": "bar"}


def flange(part):
    draw = part.draw
    part.kind = "flange"
    form = draw.choice(["casting", "casting", "forging", "round", "round"])
    d = round(draw.between(50, 388))
    thick = max(5 if form == "round" else 14, round(d * draw.uniform(0.05, 0.3)))
    if draw.chance(0.6):
        part.outside.append(cylinder(draw, round(d * draw.uniform(0.4, 0.75)), max(3, round(thick * draw.uniform(0.2, 0.8))), 0.6))
    part.outside.append(cylinder(draw, d, thick, 0.2))
    if draw.chance(0.5):
        part.outside.append(cylinder(draw, round(d * draw.uniform(0.4, 0.75)), max(5, round(thick * draw.uniform(0.4, 2))), 0.2))
    part.material = draw.choice(CAST if form == "casting" else STEELS + (OTHERS if form == "round" else []))
    while heavy(part, d + 6, part.overall()):
        for e in part.outside:
            e.length = max(5, round(e.length * 0.7))
    dress(part)
    if draw.chance(0.85):
        bore(part, part.narrowest(), (0.25, 0.75))
    part.stock = {"casting": draw.choice([3, 4, 5])} if form == "casting" else {"forging": draw.choice([2, 3])} if form == "forging" \
        else {"round": int(d + 5), "condition": "hot rolled"}
    if draw.chance(0.1) and part.outside[0].right > 60 and not part.right:
        wall = part.outside[0].right
        part.more["faces"] = {"right": f"machined, groove {draw.choice([3, 4])} wide 2 deep from {mm(round(wall - 16))}"}


def polygon(part):
    draw = part.draw
    part.kind = "polygon"
    word = draw.choice(["hexagon", "hexagon", "square"])
    flats = draw.choice(FLATS[word])
    bar = draw.chance(0.65)
    part.material = draw.choice(STEELS[:3] + OTHERS[:6])
    length = flats * draw.uniform(0.6, 2)
    d = fall(draw, flats, 4) or flats - 1
    part.outside.append(cylinder(draw, d, max(4, round(length)), 0.2))
    if draw.chance(0.6):
        t = thread(draw, d, round(length), True)
        if t is not None:
            part.outside[0] = t
            if draw.chance(0.6):
                t.more.append("chamfer 0.5x45 right")
    part.outside.append(Element(f"{word} {flats}", flats, flats, max(4, round(flats * draw.uniform(0.3, 0.9))), "polygon"))
    if draw.chance(0.4):
        d = fall(draw, flats, 4) or flats - 1
        last = cylinder(draw, d, max(4, round(flats * draw.uniform(0.3, 1.2))), 0.2)
        part.outside.append(last)
        if draw.chance(0.4):
            t = thread(draw, d, last.length, True)
            if t is not None:
                part.outside[-1] = t
    if draw.chance(0.4):
        bore(part, part.narrowest())
    part.stock = {word: flats, **({"fed from": "bar"} if bar else {})}


def tube_ring(part):
    draw = part.draw
    part.kind = "tube ring"
    outer = round(draw.between(30, 250))
    wall = max(5, round(outer * draw.uniform(0.08, 0.2)))
    d, inner = outer - draw.choice([3, 4]), outer - 2 * wall + draw.choice([3, 4])
    if d - inner < 6:
        inner = d - 6
    length = min(110, max(5, round(outer * draw.between(0.08, 1.2))))
    part.material = draw.choice(STEELS[:5] + ["1.4301", "CuSn8", "6082-T6"])
    part.outside.append(cylinder(draw, d, length, 0.5))
    shoulder = d - 2
    if shoulder - inner >= 4 and draw.chance(0.3):
        part.outside.insert(draw.choice([0, 1]), cylinder(draw, shoulder, max(4, round(length * 0.4)), 0.3))
    e = Element(hole(draw, inner, 0.6), inner, inner, "through")
    if d - inner >= 8 and draw.chance(0.5):
        e.more.append("chamfer 0.5x45 both")
    part.right.append(e)
    dress(part)
    part.stock = {"tube": f"{outer}x{wall}"}


def drawn_rod(part):
    draw = part.draw
    part.kind = "drawn rod"
    d = draw.choice([s for s in DRAWN if s >= 8])
    part.material = draw.choice(STEELS[:5] + OTHERS[:5])
    middle = Element(f"{d} as drawn", d, d, round(d * draw.between(1.5, 15 if d < 12 else 30)), "drawn")
    middle.length = min(middle.length, 1000)
    ends = []
    for _ in range(2):
        size = fall(draw, d, 4) or d - 1
        room = max(4, round(size * draw.uniform(0.6, 2)))
        ends.append((thread(draw, size, room, True) if draw.chance(0.5) else None) or cylinder(draw, size, room, 0.5))
    part.outside = [ends[0], middle] + ([ends[1]] if draw.chance(0.6) else [])
    dress(part)
    part.stock = {"round": d, "condition": "ground" if d in GROUND and draw.chance(0.3) else "drawn"}
    if draw.chance(0.25) and part.overall() < 5 * d:
        part.stock["fed from"] = "bar"


KINDS = [shaft] * 30 + [bar_part] * 20 + [bush] * 14 + [flange] * 14 + [polygon] * 9 + [tube_ring] * 7 + [drawn_rod] * 6


def wide_part(seed, i):
    draw = Draw(f"{seed}-{i}")
    part = Part(draw, f"W{i}")
    draw.choice(KINDS)(part)
    return part
