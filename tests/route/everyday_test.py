"""Everyday parts, as a master turner would expect them planned, read from the route's JSON alone.

Prints a row a part: what is planned, in how many minutes, beside the minutes expected from memory of practice
(printed, never asserted). Every "must" of the table is a subtest of its own. ONLY=x03,e06 in the environment
takes those parts alone; REPORT=file writes a line for every must that fails.
"""
import os
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
sys.path.insert(0, os.path.join(ROOT, "tests/route"))
import plan_rules as rules  # noqa: E402
from plan_rules import MM, Shop, segments  # noqa: E402
from program import SHOP, run_json  # noqa: E402

PARTS = os.path.join(ROOT, "tests/parts/everyday")
CNC, BAR, GEARED, HEAVY = "Tarn CNC 1", "Tarn bar lathe", "Tarn geared lathe", "Tarn heavy lathe"


# ---- reading a route


def steps(route, *kinds, op=None):
    return [s for o in route["operations"] if op is None or o["number"] == op for s in o["steps"] if s["kind"] in kinds]


def ops_with(route, *kinds):
    return [o for o in route["operations"] if any(s["kind"] in kinds for s in o["steps"])]


def ops_cutting(route, kind, z1, z2, r=None):
    """Operations in which that kind of step cuts between two places (mm), at a radius (mm) where one is given."""
    out = []
    for o in route["operations"]:
        for s in o["steps"]:
            for c in segments(s) if s["kind"] == kind else []:
                a, b = sorted((c["from"][0] / MM, c["to"][0] / MM))
                near = r is None or abs(c["from"][1] / MM - r) < 0.1 and abs(c["to"][1] / MM - r) < 0.1
                if near and b > z1 + 0.05 and a < z2 - 0.05 and o not in out:
                    out.append(o)
    return out


def grip_length(o):
    return (o["grip"]["to_z_m"] - o["grip"]["from_z_m"]) / MM


def grips_within(o, z1, z2):
    return o["grip"]["from_z_m"] / MM >= z1 - 0.05 and o["grip"]["to_z_m"] / MM <= z2 + 0.05


def speeds(route, *kinds):
    return [s["used"]["surface_speed_m_per_s"] * 60 for s in steps(route, *kinds)]


def text_of(node):
    """All English sentences in a part of the JSON."""
    if isinstance(node, dict):
        return " ".join([str(node.get("text", ""))] + [text_of(v) for k, v in node.items() if k != "text"])
    if isinstance(node, list):
        return " ".join(text_of(v) for v in node)
    return ""


def show(values):
    return ", ".join(f"{v:.1f}" for v in values)


# ---- musts: each returns nothing when kept, else what the program does


def must(held, said):
    return None if held else said


def stainless_of_today(route):
    """Found for austenitic stainless, 15 min of edge: rough 100 to 180, finish 120 to 240, thread 90 to 140 m/min."""
    rough, finish, thread = speeds(route, "rough"), speeds(route, "finish"), speeds(route, "thread")
    slow = [f"{name} {show(v)} m/min" for name, v, low in (("rough", rough, 95), ("finish", finish, 115), ("thread", thread, 85))
            if v and min(v) < low]
    return must(not slow, "; ".join(slow))


def packing_beside(route):
    for o in route["operations"]:
        away = {"pack", "packing", "wash", "washing", "mark", "marking"}
        elements = [e for e in o["elements"] if e["name"] not in away]
        run = sum(s["times"]["total_s"] for s in o["steps"])
        most = sum(e["machine_s"] for e in elements if not e["internal"]) + max(run, sum(e["operator_s"] for e in elements if e["internal"]))
        if o["times"]["machine_s"] > most + 1e-6:
            return f"op {o['number']}: {o['times']['machine_s']:.1f} s of the machine, {most:.1f} without packing"
    return None


def soft_on_turned(route):
    late = [o for o in route["operations"][1:] if rules.gripped_outside(o)]
    hard = [f"op {o['number']} {o['clamping']['text']}, {o['grip']['jaws']} jaws" for o in late
            if o["grip"]["jaws"] != "soft" and not rules.says(o, "collet")]
    return must(not hard, "; ".join(hard))


def one_operation(kind, z1, z2, r=None):
    def check(route):
        found = [o["number"] for o in ops_cutting(route, kind, z1, z2, r)]
        return must(len(found) == 1, f"{kind} in operations {found}")
    return check


def one_tool_parts(route):
    last = steps(route, "part-off")
    rear = [s for s in steps(route, "groove") if s["why"]["id"] == "steps.rear-edge"]
    if not last:
        return "nothing is parted off"
    tools = sorted({s["tool"] for s in last + rear})
    return must(len(tools) == 1, "rear edge and parting with " + " and ".join(tools))


def dowel_cuts(route):
    rough, finish = steps(route, "rough"), steps(route, "finish")
    depth = [c["depth_m"] / MM for s in rough for c in segments(s)]
    passes = [c for s in finish for c in segments(s) if abs(c["from"][1] - c["to"][1]) < 1e-9 and abs(c["from"][1] - 0.006) < 1e-4]
    return must(len(depth) == 1 and 0.6 <= depth[0] <= 0.85 and len(passes) == 1,
                f"rough {show(depth)} mm, then {len(passes)} finishing passes on the 12 h8")


def depth_by_overhang(route):
    """Above three diameters without support a roughing cut is at most 0.08 D deep."""
    out = []
    for o in route["operations"]:
        d = route["stock"]["diameter_m"]
        if o["support"] != "none" or o["stick_out_m"] < 3 * d:
            continue
        deep = max((c["depth_m"] for s in o["steps"] if s["kind"] == "rough" for c in segments(s)), default=0)
        if deep > 0.08 * d:
            out.append(f"op {o['number']}: {deep / MM:.2f} mm deep with {o['stick_out_m'] / d:.1f} D free, grip {grip_length(o):.0f} mm")
    return must(not out, "; ".join(out))


def long_grip(share, op=10):
    def check(route):
        o = next(o for o in route["operations"] if o["number"] == op)
        want = share * o["grip"]["diameter_m"] / MM
        return must(grip_length(o) >= want - 0.05, f"op {op} holds {grip_length(o):.1f} mm of a {o['grip']['diameter_m'] / MM:.0f}, {want:.0f} and more are there")
    return check


def handling_by_shoulder(shoulders):
    """A turner at a geared lathe engages, disengages, returns and dials for each shoulder he finishes: 15 s and more."""
    def check(route):
        moving = sum(s["times"]["total_s"] - s["times"]["cutting_s"] for s in steps(route, "finish"))
        return must(moving >= 15 * shoulders, f"{moving:.0f} s beside the cut for {shoulders} finished diameters")
    return check


def order_of_work(route):
    """Face first, threads after the finishing of their operation, parting last."""
    for o in route["operations"]:
        kinds = [s["kind"] for s in o["steps"]]
        if "face" in kinds and kinds.index("face") > 0:
            return f"op {o['number']}: {kinds[0]} before the face"
        if "thread" in kinds and "finish" in kinds and kinds.index("thread") < kinds.index("finish"):
            return f"op {o['number']}: a thread before its blank is finished"
        if "part-off" in kinds and kinds[-1] != "part-off":
            return f"op {o['number']}: work after parting"
    return None


def centre_or_short(route):
    free = [f"op {o['number']} {o['stick_out_m'] / route['stock']['diameter_m']:.1f} D" for o in route["operations"]
            if o["support"] == "none" and o["stick_out_m"] > 5 * route["stock"]["diameter_m"]]
    return must(not free, "; ".join(free))


def short_ends(route):
    """Both ends are worked with little free: the bar goes through the spindle."""
    long = [f"op {o['number']}: {o['stick_out_m'] / MM:.0f} mm free ({o['clamping']['text']})" for o in route["operations"]
            if o["stick_out_m"] > 5 * o["grip"]["diameter_m"]]
    return must(not long, "; ".join(long))


def drawn_kept(z1, z2):
    def check(route):
        found = [s["number"] for s in steps(route, "rough", "finish", "groove") for c in segments(s)
                 if not rules.is_inside(s) and c["cut_m"] > 1e-4 and max(c["from"][0], c["to"][0]) / MM > z1 + 0.5
                 and min(c["from"][0], c["to"][0]) / MM < z2 - 0.5 and not (max(c["from"][0], c["to"][0]) / MM >= z2 - 0.5
                                                                           and min(c["from"][0], c["to"][0]) / MM >= z2 - 5)]
        return must(not found, "steps " + ", ".join(sorted(set(found))) + " cut the drawn surface")
    return check


def parted(route):
    return must(steps(route, "part-off"), "nothing is parted off; operations " + str([o["number"] for o in route["operations"]]))


def both_faces(left):
    def check(route):
        cut = [c["from"][0] / MM for s in steps(route, "face", "part-off") for c in segments(s)]
        return must(any(abs(z) < 0.05 for z in cut) and any(abs(z - left) < 0.05 for z in cut), f"faces cut at {show(sorted(set(cut)))}")
    return check


def rear_chamfers(left):
    """Broken before parting, or in a second operation."""
    def check(route):
        near = [s for s in steps(route, "groove", "chamfer", "finish", "bore") for c in segments(s)
                if min(c["from"][0], c["to"][0]) / MM < left + 1.05 and abs(c["from"][1] - c["to"][1]) > 1e-5]
        return must(near, "the rear edges stay as parted")
    return check


def wall_only(inner, outer):
    def check(route):
        long = [c["cut_m"] / MM for s in steps(route, "part-off") for c in segments(s) if c["to"][1] / MM < inner - 2.5]
        return must(steps(route, "part-off") and not long, f"parting travels {show(long)} mm of a wall of {outer - inner:g}")
    return check


def thread_speed(most_rpm):
    def check(route):
        fast = [max(rules.spindle_speeds(s)) * 60 for s in steps(route, "thread")]
        return must(fast and max(fast) <= most_rpm * 1.005, f"threads at {show(fast)} rev/min")
    return check


def facing_short(most):
    """Faced and centred short, in a steady, or in an operation of its own."""
    def check(route):
        for o in route["operations"]:
            for s in o["steps"]:
                free = s.get("stick_out_m", o["stick_out_m"]) / MM
                if s["kind"] in ("face", "centre") and free > most and "steady" not in str(o["support"]) and not rules.says(o, "steady"):
                    return f"step {s['number']} {s['kind']} with {free:.0f} mm free, nothing at the end"
        return None
    return check


def fast_drill(route):
    slow = [f"{s['tool']} ({s['grade']}) at {s['used']['surface_speed_m_per_s'] * 60:.0f} m/min" for s in steps(route, "drill")
            if s["grade"] == "hss" and s["used"]["surface_speed_m_per_s"] * 60 < 13]
    return must(not slow, "; ".join(slow))


def finish_feed(z1, z2, r, least):
    def check(route):
        feeds = [c["feed_m"] / MM for s in steps(route, "finish") for c in segments(s)
                 if abs(c["from"][1] / MM - r) < 0.1 and abs(c["to"][1] / MM - r) < 0.1 and c["cut_m"] > 5 * MM]
        return must(feeds and min(feeds) >= least, f"finishing feed {', '.join(f'{f:.3f}' for f in feeds)} mm/rev, a nose of 0.8 gives {least} and more")
    return check


def few_rough_passes(most):
    def check(route):
        most_seen = max(len(s["passes"]) for s in steps(route, "rough"))
        return must(most_seen <= most, f"{most_seen} roughing passes in one step")
    return check


def second_end_on_flats(z1, z2):
    def check(route):
        late = route["operations"][1:]
        on = [o for o in late if o["grip"] and grips_within(o, z1, z2)]
        return must(on, "operations " + "; ".join(f"{o['number']} {o['clamping']['text']} at {o['grip']['from_z_m'] / MM:.0f}..{o['grip']['to_z_m'] / MM:.0f}"
                                                  for o in route["operations"]))
    return check


def second_in_collet_or_soft(route):
    late = route["operations"][1:]
    return must(late and all(rules.says(o, "collet") or o["grip"]["jaws"] == "soft" for o in late),
                "operations " + "; ".join(f"{o['number']} {o['clamping']['text']}, {o['grip']['jaws']}" for o in route["operations"]))


def neck_roughed(z1, z2, bottom):
    """Before the first finishing cut in the neck a roughing tool was within 1.5 mm a side of its bottom."""
    def check(route):
        lowest = None
        middle = (z1 + z2) / 2
        for o in route["operations"]:
            for s in o["steps"]:
                if s["kind"] == "finish" and any(within(c, middle) is not None and within(c, middle) < bottom + 0.6 for c in segments(s)):
                    return must(lowest is not None and lowest <= bottom + 1.5,
                                f"finished to {bottom} mm radius when roughed to {lowest if lowest is None else round(lowest, 1)}")
                for c in segments(s) if s["kind"] in ("rough", "groove") else []:
                    r = within(c, middle)
                    if r is not None:
                        lowest = r if lowest is None else min(lowest, r)
        return must(lowest is not None and lowest <= bottom + 0.6, "the neck is never cut to size")
    return check


def within(c, z):
    """The radius (mm) of a segment at that place, or none."""
    (z1, r1), (z2, r2) = sorted((tuple(c["from"]), tuple(c["to"])))
    if not z1 / MM - 1e-6 <= z <= z2 / MM + 1e-6 or z2 - z1 < 1e-6:
        return None
    return (r1 + (r2 - r1) * (z * MM - z1) / (z2 - z1)) / MM


def counterbore_finished(z1, z2, radius):
    """Roughed under size, then finished with an allowance of 0.1 to 0.6 a side."""
    def check(route):
        middle = (z1 + z2) / 2
        at = [(s["why"]["id"], within(c, middle), c["depth_m"] / MM) for s in steps(route, "bore") for c in segments(s)
              if within(c, middle) is not None]
        rough = [r for why, r, _ in at if "rough" in why]
        last = [(r, d) for why, r, d in at if "finish" in why]
        if not last or abs(last[-1][0] - radius) > 0.05:
            return "no finishing cut: " + "; ".join(f"{why} to {2 * r:.2f}" for why, r, _ in at[-3:])
        return must(not rough or 0.08 <= last[-1][0] - max(rough) <= 0.65, f"roughed to {2 * max(rough):.2f}, finished to {2 * last[-1][0]:.2f}")
    return check


def bored_from_hole(z1, z2, hole):
    """Nothing bores or faces there from the axis: a through hole of that radius is there already."""
    def check(route):
        late = [s for s in steps(route, "face", op=20) + steps(route, "bore") for c in segments(s)
                if z1 - 1.5 <= c["from"][0] / MM <= z2 + 0.05 and min(c["from"][1], c["to"][1]) / MM < hole - 2.2]
        return must(not late, "steps " + ", ".join(sorted({s["number"] for s in late})) + " cut from the axis though the hole is there")
    return check


def no_point_below(z, hole):
    """The cone of a 118 degree drill stays above the bottom outside the hole."""
    def check(route):
        deep = [s["number"] for s in steps(route, "drill") if s["why"]["id"] == "steps.drill-wider"
                and s["where"]["from_z_m"] / MM + hole * 0.6 < z - 0.3]
        return must(not deep, "steps " + ", ".join(deep) + " leave a drill point at the bottom")
    return check


def floor_cut(z, hole, radius):
    """The shoulder between hole and counterbore is faced, or every pass of the bar ends on it."""
    def check(route):
        cuts_there = [c for s in steps(route, "bore") for c in segments(s)]
        faced = [c for c in cuts_there if abs(c["from"][0] / MM - z) < 0.02 and abs(c["to"][0] / MM - z) < 0.02
                 and min(c["from"][1], c["to"][1]) / MM < (hole + radius) / 2 < max(c["from"][1], c["to"][1]) / MM]
        ends = [(c["to"][0] / MM, c["to"][1] / MM) for c in cuts_there if hole + 0.3 < c["to"][1] / MM < radius - 0.3
                and abs(c["from"][1] - c["to"][1]) < 1e-6 and abs(c["to"][0] / MM - z) < 1.5]
        short = [f"{zz:.2f} at {2 * r:.1f} mm" for zz, r in ends if abs(zz - z) > 0.02]
        return must(faced or not short, "cuts on the shoulder end at " + ", ".join(short) + f" and nothing faces it at {z}")
    return check


def chuck_takes_it(route):
    return must(not rules.grip_too_large(route, Shop()), "; ".join(rules.grip_too_large(route, Shop())))


def through_spindle(most):
    def check(route):
        first = route["operations"][0]
        return must(first["stick_out_m"] / MM <= most and first["support"] == "none",
                    f"{first['clamping']['text']}, {first['stick_out_m'] / MM:.0f} mm free, support {first['support']}")
    return check


def cuts(kind, count):
    def check(route):
        found = [s["tool"] for s in steps(route, kind)]
        return must(len(found) >= count, f"{len(found)} steps of {kind}: {', '.join(found)}")
    return check


def threads_cut(count):
    def check(route):
        found = [s["number"] for s in steps(route, "thread", "tap")]
        return must(len(found) == count, f"threads cut in steps {', '.join(found)}")
    return check


def knurl_first(route):
    kinds = [s["kind"] for s in steps(route, "knurl", "finish", "rough")]
    return must("knurl" in kinds and kinds.index("knurl") < kinds.index("finish"), "order " + ", ".join(kinds))


def planned_or_guide_bush(route):
    if rules.planned(route):
        return None
    said = text_of([route.get("why_not"), route.get("remedies")])
    return must("guide bush" in said, "refused: " + said.strip()[:120])


def checked_in_full(route):
    return must("every piece" in text_of(route["cautions"]) or "100 %" in text_of([o["why"] for o in route["operations"]]), "no 100 % check of the tie")


def few_rough_cuts(route):
    long = [c for s in steps(route, "rough", op=10) for c in segments(s) if c["cut_m"] > 0.1]
    return must(len(long) == 1 and 3.2 <= long[0]["depth_m"] / MM <= 3.9, f"{len(long)} long roughing cuts, {show([c['depth_m'] / MM for c in long])} mm")


# ---- the table: part, machine or none, minutes expected, musts

GENERAL = [("packing beside the machine's cycle", packing_beside)]
TABLE = [
    ("e01-dowel", None, "0.3-0.6", [("one rough of 0.7 and one finish", dowel_cuts), ("one parting tool for rear chamfer and parting", one_tool_parts)]),
    ("e03-stepped-shaft-plain", CNC, "3.2-5.5", [("depth by overhang", depth_by_overhang), ("grip as long as the work allows", long_grip(0.6)),
                                                 ("30 h8 in one operation", one_operation("finish", -199, -140, 15))]),
    ("e03-stepped-shaft-plain", GEARED, "20-35", [("handling per shoulder", handling_by_shoulder(4)), ("depth by overhang", depth_by_overhang)]),
    ("e04-gear-shaft", CNC, "4.5-8", [("order of work", order_of_work), ("centre or short", centre_or_short), ("tie checked in full", checked_in_full),
                                      ("soft jaws on the turned seat", soft_on_turned), ("25 k6 of the right in one operation", one_operation("finish", -47, -21, 12.5))]),
    ("e04-gear-shaft", GEARED, "40-70", [("order of work", order_of_work), ("handling per shoulder", handling_by_shoulder(5))]),
    ("e06-tie-rod-both-ends-threaded", None, "2.2-4", [("both ends short", short_ends), ("grip of a diameter and more, op 10", long_grip(1.0)),
                                                       ("grip of a diameter and more, op 20", long_grip(1.0, 20)), ("drawn surface kept", drawn_kept(-360, -40)),
                                                       ("stainless speeds of today", stainless_of_today), ("both threads", threads_cut(2))]),
    ("e08-thin-disc", None, "2.5-5", [("second face in soft jaws or parted", lambda r: None if steps(r, "part-off") else soft_on_turned(r)),
                                      ("both faces cut", both_faces(-6))]),
    ("e09-bush", None, "1.2-2.2", [("parted", parted), ("rear chamfers", rear_chamfers(-40)), ("parting travels the wall", wall_only(15, 20)),
                                   ("40 r6 in one operation", one_operation("finish", -38, -2, 20)), ("second face by parting or turned", both_faces(-40))]),
    ("e11-thin-ring", None, "1.2-3.5", [("100 h8 in one operation", one_operation("finish", -14, -1, 50)), ("92 H7 in one operation", one_operation("bore", -14, -1)),
                                        ("several rings from one length", parted)]),
    ("e13-trapezoidal-spindle", CNC, "4-7.5", [("threading at most 1000 rev/min", thread_speed(1000)), ("15 h7 in one operation", one_operation("finish", -184, -161, 7.5))]),
    ("e13-trapezoidal-spindle", GEARED, "25-45", [("threading at most 1000 rev/min", thread_speed(1000))]),
    ("e15-cone-shaft-end", None, "2.9-6.1", [("order of work", order_of_work), ("cone in one operation", one_operation("finish", -74, -26)),
                                             ("35 k6 in one operation", one_operation("finish", -143, -110, 17.5))]),
    ("e17-thumb-screw", None, "0.8-1.7", [("order of work", order_of_work), ("parted", parted), ("knurled before the finish", knurl_first),
                                          ("one parting tool for rear chamfer and parting", one_tool_parts)]),
    ("e18-hexagon-screw", None, "0.9-1.8", [("stainless speeds of today", stainless_of_today), ("parted", parted), ("thread in one operation", threads_cut(1))]),
    ("e19-casting-flange", None, "35-74", [("order of work", order_of_work), ("120 h7 in one operation", one_operation("finish", -6, -1, 60)),
                                           ("bore and spigot in the same operation", lambda r: must(
                                               ops_cutting(r, "finish", -6, -1, 60) == ops_cutting(r, "bore", -60, -5, 27.5), "bored in another operation"))]),
    ("e21-titanium-stud", None, "2.6-5.4", [("order of work", order_of_work), ("12 h6 in one operation", one_operation("finish", -56, -23, 6)), ("both threads", threads_cut(2))]),
    ("e22-plastic-bush", None, "0.5-1.1", [("parted", parted), ("one parting tool for rear chamfer and parting", one_tool_parts), ("parting travels the wall", wall_only(12.5, 20))]),
    ("e26-roller", GEARED, "65-130", [("not faced unsupported at 560 mm", facing_short(300)), ("tie checked in full", checked_in_full),
                                      ("handling per shoulder", handling_by_shoulder(3))]),
    ("e27-valve-body", None, "3.5-7", [("a drill of today", fast_drill), ("stainless speeds of today", stainless_of_today), ("M24x1.5 and its groove in one operation", threads_cut(1))]),
    ("e28-morse-arbor", None, "2.1-4.3", [("order of work", order_of_work), ("taper in one operation", one_operation("finish", -118, -36)),
                                          ("16 h6 in one operation", one_operation("finish", -23, -2, 8))]),
    ("e29-micro-pin", None, "0.2-0.6", [("planned, or a guide bush named", planned_or_guide_bush)]),
    ("p1-motor-shaft", None, "3.3-6.3", [("a nose of 0.8 on the plain 38", finish_feed(-225, -106, 19, 0.22)), ("centre or short", centre_or_short),
                                         ("tie checked in full", checked_in_full)]),
    ("p3-flange", None, "5.5-11", [("stainless speeds of today", stainless_of_today), ("not more than 9 roughing passes", few_rough_passes(9)),
                                   ("70 h8 in one operation", one_operation("finish", -11, -2, 35)), ("face groove", lambda r: must(
                                       any(rules.is_face_groove(s) for s in steps(r, "groove")), "no face groove"))]),
    ("p5-fitting", None, "0.7-1.6", [("parted", parted), ("second end on the hexagon", second_end_on_flats(-24, -14)), ("both threads", threads_cut(2))]),
    ("x01-bar-part-small-rear", None, "-", [("neck roughed before finished", neck_roughed(-50, -30, 10)), ("parted", parted)]),
    ("x02-two-counterbores", None, "-", [("left counterbore roughed, then finished", counterbore_finished(-60, -45, 26)),
                                         ("right counterbore roughed, then finished", counterbore_finished(-15, 0, 26)),
                                         ("bored from the hole", bored_from_hole(-60, -45, 20)), ("no drill point at a bottom", no_point_below(-15, 20)), ("right shoulder cut", floor_cut(-15, 20, 26)), ("left shoulder cut", floor_cut(-45, 20, 26))]),
    ("x03-spool", None, "-", [("neck roughed before finished", neck_roughed(-60, -30, 12.5))]),
    ("x04-shaft-with-neck", None, "-", [("neck roughed before finished", neck_roughed(-120, -61, 20))]),
    ("x05-long-neck", None, "-", [("neck roughed before finished", neck_roughed(-120, -25, 10)), ("neck stiff enough while it is cut", lambda r: must(
        not rules.long_without_support(r), "; ".join(rules.long_without_support(r))))]),
    ("x06-big-flange-on-small-chuck", None, "-", [("on a chuck, four-jaw or face plate that takes it", chuck_takes_it)]),
    ("x07-textbook-shaft", None, "-", [("one roughing cut of 3.5", few_rough_cuts)]),
    ("x08-textbook-bar", None, "-", [("not faced unsupported", facing_short(320))]),
    ("x09-counterbore-from-left", None, "-", [("counterbore roughed, then finished", counterbore_finished(-50, -38, 20)),
                                              ("bored from the hole", bored_from_hole(-50, -38, 10)), ("no drill point at a bottom", no_point_below(-50, 10)), ("shoulder cut", floor_cut(-38, 10, 20))]),
    ("x10-bushing-both-sides", None, "-", [("counterbore roughed, then finished", counterbore_finished(-12, 0, 20)),
                                           ("faced from the hole", bored_from_hole(-50, -49, 10)), ("no drill point at the bottom", no_point_below(-12, 10)), ("shoulder cut", floor_cut(-12, 10, 20))]),
    ("x11-long-bar-short-turned-end", None, "1-2", [("bar through the spindle", through_spindle(60))]),
    ("x11-long-bar-short-turned-end", GEARED, "3-6", [("bar through the spindle", through_spindle(60))]),
    ("x12-pin-second-op", None, "1-2.2", [("parted", parted), ("second operation in collet or soft jaws", second_in_collet_or_soft), ("both tapped", threads_cut(2)),
                                          ("stainless speeds of today", stainless_of_today)]),
    ("x13-fitting-hexagon", None, "1.8-4", [("second side on the hexagon", second_end_on_flats(-32, -18)), ("both threads", threads_cut(2)),
                                            ("stainless speeds of today", stainless_of_today)]),
]


def describe(o):
    grip = "" if not o["grip"] else f"{grip_length(o):.0f} of {o['grip']['diameter_m'] / MM:.4g} {o['grip']['jaws']}"
    return f"{o['number']} {o['clamping']['text']} [{grip}] {o['stick_out_m'] / MM:.0f} out" + ("" if o["support"] == "none" else f", {o['support']}")


def row(name, machine, expected, route):
    head = f"{name + (' m.' if machine == GEARED else ''):32}"
    if not rules.planned(route):
        return f"{head} refused: {text_of(route.get('why_not')).strip()}; expected {expected} min"
    minutes = route["times"]["cycle_per_part_s"] / 60
    where = ", ".join(dict.fromkeys(o["machine"].removeprefix("Tarn ") for o in route["operations"]))
    return f"{head} {where:14} {route['method']:18} {minutes:6.2f} min, expected {expected:8} | " + "; ".join(describe(o) for o in route["operations"])


# What the planner does not do yet, each a must that fails today. One that is kept must leave this list.
NOT_YET = {
    ("e01-dowel", "one rough of 0.7 and one finish"),
    ("p3-flange", "not more than 9 roughing passes"),
}


class Everyday(unittest.TestCase):
    def test_the_table(self):
        only = [w for w in os.environ.get("ONLY", "").split(",") if w]
        rows = [r for r in TABLE if not only or any(r[0].startswith(w) for w in only)]
        shop, routes = Shop(), []
        for name, machine, expected, _ in rows:
            more = ["--machine", machine] if machine else []
            routes.append(run_json("route", os.path.join(PARTS, name + ".yaml"), "--shop", SHOP, *more))
        print()
        for (name, machine, expected, _), route in zip(rows, routes):
            print(row(name, machine, expected, route))
        failed, counted = [], 0
        for (name, machine, _, musts), route in zip(rows, routes):
            label = name + (f" on {machine}" if machine else "")
            for what, said in self.judge(route, musts, shop):
                counted += 1
                if said is not None:
                    failed.append(f"{label} | {what} | {said}")
                with self.subTest(part=label, must=what):
                    if (label, what) in NOT_YET:
                        self.assertIsNotNone(said, "kept now: take it off the list")
                    else:
                        self.assertIsNone(said)
        print(f"\n{counted} musts, {counted - len(failed)} kept, {len(failed)} not")
        if "REPORT" in os.environ:
            with open(os.environ["REPORT"], "w", encoding="utf-8") as file:
                file.write("\n".join(failed) + "\n")

    @staticmethod
    def judge(route, musts, shop):
        """Every must with what is said against it; a part that is refused keeps none of its own."""
        if not rules.planned(route):
            refused = "refused: " + text_of(route.get("why_not")).strip()
            own = [(what, check(route) if check is planned_or_guide_bush else refused) for what, check in musts]
            return own if musts and musts[0][1] is planned_or_guide_bush else [("planned", refused)] + own
        out = [("planned", None)]
        out += [(what, "; ".join(said) or None) for what, said in rules.all_rules(route, shop).items()]
        for what, check in GENERAL + musts:
            try:
                out.append((what, check(route)))
            except (KeyError, IndexError, StopIteration, TypeError, ValueError) as error:
                out.append((what, f"not to be judged: {type(error).__name__} {error}"))
        return out


if __name__ == "__main__":
    unittest.main()
