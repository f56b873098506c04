"""The rules of the trade on a route's JSON alone: nothing here knows how the planner works.

Each rule returns sentences, one per violation; an empty list means that it holds. Lengths are metres, z runs
from the right-hand face of the finished part, negative to the left.
"""
import math
import os
import re

import yaml

ROOT = os.environ["ROOT"]
SHOP_FILE = os.path.join(ROOT, "samples/shop/shop.yaml")
INSIDE_KINDS = {"drill", "bore", "ream", "tap", "centre"}
INSIDE_TOOLS = re.compile(r"boring bar|^inside|countersink|drill|reamer|tap", re.I)
PLUNGING = {"groove", "part-off"}
MM = 1e-3


def number(text):
    return float(str(text).split()[0])


class Shop:
    """What machines and materials can take, read from the records of the sample shop and the shipped rates."""

    def __init__(self):
        with open(SHOP_FILE, encoding="utf-8") as file:
            own = yaml.safe_load(file)
        with open(os.path.join(ROOT, "rates/materials.yaml"), encoding="utf-8") as file:
            shipped = yaml.safe_load(file)
        self.machines = {m["name"]: m for m in own["machines"]}
        self.modulus = {}
        self.density = {}
        for record in shipped["materials"] + own.get("materials", []):
            for name in [record["name"], *record.get("also", [])]:
                key = self.key(name)
                if "elastic modulus" in record:
                    self.modulus[key] = number(record["elastic modulus"]) * 1e9
                if "density" in record:
                    self.density[key] = number(record["density"])

    @staticmethod
    def key(name):
        return str(name).replace(" ", "").lower()

    def stiffness(self, material):
        """Elastic modulus and density; steel where the record has none."""
        key = self.key(material)
        return self.modulus.get(key, 207e9), self.density.get(key, 7850.0)

    def fastest(self, machine):
        record = self.machines[machine]
        return (number(record["fastest"]) if "fastest" in record else max(record["ladder"])) / 60

    def rated(self, machine):
        return number(self.machines[machine]["chuck"]["rated speed"]) / 60

    def chuck(self, machine):
        return self.machines[machine]["chuck"]["diameter"] * MM


# ---- a route, read


def planned(route):
    return bool(route.get("feasible"))


def segments(step):
    return [s for p in step["passes"] for s in p["segments"]]


def is_inside(step):
    return step["kind"] in INSIDE_KINDS or bool(INSIDE_TOOLS.search(step["tool"]))


def is_face_groove(step):
    return step["kind"] == "groove" and step["tool"].startswith("face groov")


def tool_width(step):
    """The width in the name of a grooving or parting tool; none where the name has no number."""
    found = re.search(r"([\d.]+)( mm)?$", step["tool"])
    return float(found.group(1)) * MM if found else None


def clamping_ids(node):
    """Every id in a message and in what it is made of."""
    if isinstance(node, dict):
        own = [node["id"]] if "id" in node else []
        return own + [i for v in node.values() for i in clamping_ids(v)]
    if isinstance(node, list):
        return [i for v in node for i in clamping_ids(v)]
    return []


def says(operation, word):
    return any(word in i for i in clamping_ids(operation["clamping"]))


def gripped_outside(operation):
    """Jaws or a collet around its outside."""
    return operation.get("grip") is not None and not says(operation, "mandrel") and not says(operation, "between") \
        and not says(operation, "dog") and not says(operation, "face-driver")


def spindle_speeds(step):
    return [max(s["start_per_s"], s["end_per_s"]) for s in segments(step)]


class Surface:
    """The outside as earlier operations left it, at points along the part; raw where none has cut."""

    def __init__(self, route):
        stock = route["stock"]
        self.raw_radius = stock["diameter_m"] / 2
        self.low = min((z for z, _ in route["part"]["profile"]["outer"]), default=-stock["length_m"])
        self.cuts = []      # (z from, z to, r there, r there, kind)
        self.features = []  # (z from, z to, kind)

    def cut(self, operation):
        for step in operation["steps"]:
            if is_inside(step) or is_face_groove(step):
                continue
            if step["kind"] in ("groove", "thread", "knurl"):
                self.features.append((step["where"]["from_z_m"], step["where"]["to_z_m"], step["kind"]))
            if step["kind"] in ("part-off", "face"):
                continue
            for s in segments(step):
                self.cuts.append(self.span(step, s, free_side(operation)))

    @staticmethod
    def span(step, s, side):
        (z1, r1), (z2, r2) = s["from"], s["to"]
        if z1 > z2:
            z1, r1, z2, r2 = z2, r2, z1, r1
        if z2 - z1 < 1e-7:
            r1 = r2 = min(r1, r2)
        if r1 == r2 and (step["kind"] == "groove" or step["kind"] == "rough" and "grooving" in step["tool"]):
            # The tool lies left of where it plunges or turns, right of it in an operation from the left.
            width = tool_width(step) or 0
            z1, z2 = (z1 - width, z2) if side > 0 else (z1, z2 + width)
        return z1, z2, r1, r2, step["kind"]

    def at(self, z):
        """Radius and kind of the deepest cut there, or the raw radius and nothing."""
        radius, kind = self.raw_radius, None
        for z1, z2, r1, r2, k in self.cuts:
            if z1 - 1e-7 <= z <= z2 + 1e-7:
                r = r1 + (r2 - r1) * (z - z1) / (z2 - z1) if z2 - z1 > 1e-7 else min(r1, r2)
                # A finishing cut at the same radius says more than the roughing cut before it.
                if kind is None or r < radius - 1e-7 or (r < radius + 1e-7 and k == "finish"):
                    radius, kind = min(r, radius) if kind else r, k
        return radius, kind

    def points(self, z1, z2, count=41):
        return [self.at(z1 + (z2 - z1) * (i + 0.5) / count) for i in range(count)]


def free_side(operation):
    """+1 where the tools work to the right of the grip, -1 to the left, 0 where nothing is cut."""
    middle = (operation["grip"]["from_z_m"] + operation["grip"]["to_z_m"]) / 2
    places = [s["from"][0] - middle for step in operation["steps"] for s in segments(step)]
    return 0 if not places else 1 if sum(places) > 0 else -1


# ---- (a) what a pass removes


def swept(step, s):
    """Volume within the stated depth of a segment: path × mean circumference × depth."""
    (z1, r1), (z2, r2) = s["from"], s["to"]
    path, depth = math.hypot(z2 - z1, r2 - r1), s["depth_m"]
    if step["kind"] in ("drill", "centre", "tap", "ream") and abs(r1) < 1e-9 and abs(r2) < 1e-9:
        return math.pi * depth * depth * path
    if step["kind"] == "chamfer" and r1 == r2 == 0:
        return math.pi * step["used"]["depth_m"] ** 2 * path  # a countersink, its depth is its radius
    radial = abs(r2 - r1) > 0.999 * path
    if step["kind"] in PLUNGING and radial and not is_face_groove(step):
        width = tool_width(step)
        depth = width if width else depth
        return path * math.pi * (r1 + r2) * depth
    if is_face_groove(step):
        depth = tool_width(step) or depth
    along = abs(z2 - z1) / path if path > 0 else 0
    mean = (r1 + r2) / 2 + (-0.5 if is_inside(step) else 0.5) * depth * along
    return path * 2 * math.pi * max(mean, 0) * depth


def depth_rule(route):
    out = []
    for operation in route["operations"]:
        for step in operation["steps"]:
            if step["kind"] in ("knurl",):
                continue
            allowed = sum(swept(step, s) for s in segments(step))
            if step["kind"] == "part-off":
                # The last of the radius breaks or is cut more slowly.
                width = tool_width(step) or step["used"]["depth_m"]
                allowed += math.pi * 4e-6 * width
            if step["removed_m3"] > 1.2 * allowed + 2e-9:
                out.append(f"{step['number']} {step['kind']} with {step['tool']} removes {step['removed_m3'] * 1e6:.2f} cm3, "
                           f"its passes at their stated depth {allowed * 1e6:.2f}")
    return out


class Bar:
    """The outside of round stock on a grid, cut pass by pass."""

    CELLS = 600

    def __init__(self, route):
        stock = route["stock"]
        ends = [0.0, -stock["length_m"]]
        for o in route["operations"]:
            ends += [z for s in o["steps"] if s["kind"] == "face" for z in (s["where"]["from_z_m"], s["where"]["to_z_m"])]
        self.low, high = min(ends), max(ends)
        self.dz = (high - self.low) / self.CELLS
        self.radius = [stock["diameter_m"] / 2] * self.CELLS
        self.bore = stock["bore_m"] / 2

    def cells(self, z1, z2):
        first = max(0, math.ceil((z1 - self.low) / self.dz - 0.5))
        return range(first, min(self.CELLS, math.floor((z2 - self.low) / self.dz - 0.5) + 1))

    def take(self, z1, r1, z2, r2):
        """Cuts to a straight line and returns the volume."""
        if z1 > z2:
            z1, r1, z2, r2 = z2, r2, z1, r1
        volume = 0.0
        for i in self.cells(z1, z2):
            z = self.low + (i + 0.5) * self.dz
            r = max(r1 + (r2 - r1) * (z - z1) / max(z2 - z1, 1e-12), self.bore)
            if r < self.radius[i]:
                volume += math.pi * (self.radius[i] ** 2 - r * r) * self.dz
                self.radius[i] = r
        return volume

    def cut(self, operation, step, s):
        (z1, r1), (z2, r2) = s["from"], s["to"]
        if abs(z2 - z1) > 1e-7:
            # A grooving tool that turns sideways covers its width beside where it is.
            width = (tool_width(step) or 0) if step["kind"] in ("groove", "rough") and "grooving" in step["tool"] and r1 == r2 else 0
            left, right = (width, 0) if free_side(operation) > 0 else (0, width)
            return self.take(min(z1, z2) - left, r1, max(z1, z2) + right, r2) if width else self.take(z1, r1, z2, r2)
        if step["kind"] == "face":
            right = free_side(operation) > 0
            return self.take(z1, min(r1, r2), 1.0, min(r1, r2)) if right else self.take(-9.0, min(r1, r2), z1, min(r1, r2))
        if step["kind"] == "groove":
            width, where = tool_width(step) or 0, step["where"]
            left = z1 - width >= where["from_z_m"] - 1e-5
            return self.take(z1 - width, min(r1, r2), z1, min(r1, r2)) if left else self.take(z1, min(r1, r2), z1 + width, min(r1, r2))
        return 0.0


def pass_rule(route):
    """Each roughing pass of round work, cut on a grid: what it meets against what it states."""
    if route["stock"]["form"] not in ("round", "tube") or not any(gripped_outside(o) for o in route["operations"]):
        return []
    out, bar = [], Bar(route)
    for operation in route["operations"]:
        for step in operation["steps"]:
            if is_inside(step) or is_face_groove(step) or step["kind"] in ("thread", "knurl", "part-off", "chamfer"):
                continue
            for number_of, p in enumerate(step["passes"], 1):
                met = sum(bar.cut(operation, step, s) for s in p["segments"])
                stated = sum(swept(step, s) for s in p["segments"])
                # The grid and the corners of a pass are forgiven: a cell at each end of every segment.
                slack = sum(2 * math.pi * max(s["from"][1], s["to"][1]) * bar.dz * 2 * s["depth_m"] for s in p["segments"])
                if step["kind"] == "rough" and met > 1.2 * stated + slack + 2e-8:
                    out.append(f"{step['number']} {step['kind']} with {step['tool']}, pass {number_of} removes {met * 1e6:.2f} cm3, "
                               f"its passes at their stated depth {stated * 1e6:.2f}")
    return out


# ---- (b), (c) the grip


def cuts_in_grip(route):
    out = []
    for operation in route["operations"]:
        if not gripped_outside(operation):
            continue
        low, high = operation["grip"]["from_z_m"], operation["grip"]["to_z_m"]
        for step in operation["steps"]:
            if is_inside(step) or is_face_groove(step):
                continue
            for s in segments(step):
                a, b = sorted((s["from"][0], s["to"][0]))
                if step["kind"] in PLUNGING and b - a < 1e-7:
                    a -= tool_width(step) or 0
                if b > low + 1e-6 and a < high - 1e-6 and max(s["from"][1], s["to"][1]) > 0:
                    out.append(f"{step['number']} {step['kind']} cuts at {a / MM:.1f}..{b / MM:.1f}, the jaws hold {low / MM:.1f}..{high / MM:.1f}")
                    break
    return out


def jaws_on_finished(route):
    """Hard jaws on a surface that this route has finished."""
    out, surface = [], Surface(route)
    for operation in route["operations"]:
        if gripped_outside(operation) and operation["grip"]["jaws"] == "hard" and not says(operation, "collet"):
            grip = operation["grip"]
            kinds = [k for _, k in surface.points(grip["from_z_m"], grip["to_z_m"])]
            if kinds.count("finish") > 0.2 * len(kinds):
                out.append(f"op {operation['number']}: hard jaws on a finished {grip['diameter_m'] / MM:.1f}")
        surface.cut(operation)
    return out


def grip_on_forbidden(route):
    """Jaws on a thread, groove or knurl, over an edge, a chamfer, a fillet or a cone, or into a neck."""
    out, surface = [], Surface(route)
    raw_shape = route["stock"]["form"] in ("casting", "forging")
    for operation in route["operations"]:
        if gripped_outside(operation):
            grip, name = operation["grip"], f"op {operation['number']}"
            low, high = grip["from_z_m"], grip["to_z_m"]
            for a, b, kind in surface.features:
                if b > low + 5e-5 and a < high - 5e-5:
                    out.append(f"{name}: jaws on a {kind} at {a / MM:.1f}..{b / MM:.1f}")
                    break
            # A broken edge at the far end of the work lies in the jaws by right.
            share = 0.2 * (high - low)
            points = surface.points(low + (share if free_side(operation) > 0 else 0), high - (share if free_side(operation) < 0 else 0))
            turned = [r for r, k in points if k is not None]
            if turned and len(turned) < len(points) and max(turned) < surface.raw_radius - 1e-4:
                out.append(f"{name}: jaws half on turned, half on raw work")
            elif turned and max(turned) - min(turned) > 3e-5:
                out.append(f"{name}: jaws over an edge, {2 * min(turned) / MM:.2f} to {2 * max(turned) / MM:.2f} mm")
            elif turned and abs(2 * max(turned) - grip["diameter_m"]) > 1e-4:
                out.append(f"{name}: jaws set to {grip['diameter_m'] / MM:.2f}, the work there is {2 * max(turned) / MM:.2f}")
            if turned and not raw_shape and into_neck(route, operation, surface):
                out.append(f"{name}: jaws into a neck of {grip['diameter_m'] / MM:.1f} behind a larger land")
        surface.cut(operation)
    return out


def into_neck(route, operation, surface):
    """Larger work on both sides of the grip: neither from the one nor from the other do jaws slide on."""
    grip, low = operation["grip"], surface.low
    radius = grip["diameter_m"] / 2 + 5e-4
    right = [r for r, _ in surface.points(grip["to_z_m"] + 1e-5, 0)] if grip["to_z_m"] < -1e-3 else []
    left = [r for r, _ in surface.points(low, grip["from_z_m"] - 1e-5)] if grip["from_z_m"] > low + 1e-3 else []
    return bool(right and left) and max(right) > radius and max(left) > radius


def grip_too_large(route, shop):
    out = []
    for operation in route["operations"]:
        if not gripped_outside(operation):
            continue
        record = shop.machines.get(operation["machine"])
        if record is None:
            continue
        d, name = operation["grip"]["diameter_m"], f"op {operation['number']} on {operation['machine']}"
        four_jaw, plate = says(operation, "four-jaw"), says(operation, "face-plate")
        # Geared lathes come with a four-jaw chuck unless the record says no.
        if four_jaw and not record.get("four-jaw chuck", record["kind"] == "manual"):
            out.append(f"{name}: a four-jaw chuck that the shop does not have")
        if plate and not record.get("face plate"):
            out.append(f"{name}: a face plate that the shop does not have")
        largest = record["largest diameter"] * MM if four_jaw or plate else shop.chuck(operation["machine"])
        if d > largest + 1e-6:
            out.append(f"{name}: {d / MM:.0f} mm in a chuck of {largest / MM:.0f}")
    return out


# ---- (d) spindle speed


def first_bending_frequency(radii, dx, modulus, density):
    """First bending frequency of a cantilever of round sections, clamped at the first of them.

    f1 = 3.516 / (2 pi) sqrt(E I / (m L^4)) for a uniform bar (Timoshenko, Vibration Problems in Engineering);
    stepped work by Rayleigh's quotient with the deflection of a uniform bar under its own weight, which is
    0.4 % high for a uniform bar and never low: the work is judged kindly.
    """
    length, top, bottom = dx * len(radii), 0.0, 0.0
    for i, r in enumerate(radii):
        x = (i + 0.5) / len(radii)
        w = x * x * (6 - 4 * x + x * x) / 3
        bend = (12 - 24 * x + 12 * x * x) / 3 / length ** 2
        top += modulus * math.pi / 4 * r ** 4 * bend ** 2 * dx
        bottom += density * math.pi * r ** 2 * w ** 2 * dx
    return math.sqrt(top / bottom) / (2 * math.pi)


def free_radii(route, operation, surface, stick_out, count=40):
    """Radii of what is free, from the jaws outwards, before this operation cuts."""
    grip, side = operation["grip"], free_side(operation)
    start = grip["to_z_m"] if side > 0 else grip["from_z_m"]
    if surface.cuts:
        return [surface.at(start + side * stick_out * (i + 0.5) / count)[0] for i in range(count)]
    return [surface.raw_radius] * count


def supported(operation, step, held):
    """A steady holds from the first cut, a centre (and the follow rest with it) only after its centre hole."""
    if "steady" in str(operation["support"]) or says(operation, "steady"):
        return True
    if operation["support"] == "none":
        return False
    return held or not any(s["kind"] == "centre" for s in operation["steps"]) and step["kind"] != "face"


def too_fast(route, shop):
    """Above the machine, the chuck, or half the first bending frequency of what is free without support."""
    out, surface = [], Surface(route)
    modulus, density = shop.stiffness(route["part"]["material"])
    for operation in route["operations"]:
        if operation["machine"] not in shop.machines:
            continue
        fastest, rated = shop.fastest(operation["machine"]), shop.rated(operation["machine"])
        held = False
        for step in operation["steps"]:
            fast = max(spindle_speeds(step), default=0)
            where = f"{step['number']} {step['kind']} at {fast * 60:.0f} rev/min"
            if fast > fastest * 1.0001:
                out.append(f"{where}: the machine goes to {fastest * 60:.0f}")
            elif gripped_outside(operation) and not says(operation, "collet") and fast > rated * 1.0001:
                out.append(f"{where}: the chuck is rated {rated * 60:.0f}")
            if gripped_outside(operation) and not supported(operation, step, held):
                free = step.get("stick_out_m", operation["stick_out_m"])
                if free > 1e-4:
                    f1 = first_bending_frequency(free_radii(route, operation, surface, free), free / 40, modulus, density)
                    if fast > 0.5 * f1 * 1.001:
                        out.append(f"{where}: {free / MM:.0f} mm free, first bending frequency {f1 * 60:.0f} per min, at most half of it")
            held = held or step["kind"] == "centre"
        surface.cut(operation)
    return out


def long_without_support(route):
    """More than five diameters free with nothing at the end, or more than twelve with a centre alone."""
    out, surface = [], Surface(route)
    for operation in route["operations"]:
        if gripped_outside(operation):
            free = operation["stick_out_m"]
            radii = free_radii(route, operation, surface, free)
            ratio = free / (2 * max(max(radii), 1e-6))
            rest = "rest" in " ".join(clamping_ids(operation["clamping"])) or "steady" in str(operation["support"])
            if operation["support"] == "none" and ratio > 5.05:
                out.append(f"op {operation['number']}: {ratio:.1f} diameters free without support")
            elif ratio > 12.05 and not rest:
                out.append(f"op {operation['number']}: {ratio:.1f} diameters free with a centre alone")
        surface.cut(operation)
    return out


# ---- (e) the audit


def audit_open(route):
    imbalance = route["audit"]["imbalance"]
    return [] if imbalance <= 1e-9 else [f"stock, part and chips differ by {imbalance:.2e}"]


def idle_steps(route):
    """A step without a cut."""
    return [f"{step['number']} {step['kind']} has no cut" for o in route["operations"] for step in o["steps"] if not segments(step)]


RULES = {
    "a pass removes what its depth says": lambda route, shop: depth_rule(route),
    "each roughing pass meets what its depth says": lambda route, shop: pass_rule(route),
    "no cut in the grip": lambda route, shop: cuts_in_grip(route),
    "no hard jaws on a finished surface": lambda route, shop: jaws_on_finished(route),
    "jaws on one plain cylinder": lambda route, shop: grip_on_forbidden(route),
    "no work larger than the chuck": grip_too_large,
    "speed within machine, chuck and half the bending frequency": too_fast,
    "stick-out by diameters": lambda route, shop: long_without_support(route),
    "volumes add up": lambda route, shop: audit_open(route),
    "no step without a cut": lambda route, shop: idle_steps(route),
}


def all_rules(route, shop):
    """Name of the rule → sentences."""
    return {name: rule(route, shop) for name, rule in RULES.items()}
