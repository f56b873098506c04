"""The rules of plan_rules.py see what breaks them: sound routes are damaged, one damage a rule."""
import copy
import math
import os
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
sys.path.insert(0, os.path.join(ROOT, "tests/route"))
import plan_rules as rules  # noqa: E402
from program import SHOP, run_json  # noqa: E402

PARTS = os.path.join(ROOT, "tests/parts/everyday")


def operations(route):
    return route["operations"]


def every_step(route):
    return [s for o in operations(route) for s in o["steps"]]


def jaws_moved_into_the_cut(route):
    for o in operations(route):
        side = rules.free_side(o)
        o["grip"]["from_z_m"] += side * 0.03
        o["grip"]["to_z_m"] += side * 0.03


def more_removed(route):
    for s in every_step(route):
        s["removed_m3"] *= 1.6


def shallower_stated(route):
    for s in every_step(route):
        for c in rules.segments(s) if s["kind"] == "rough" else []:
            c["depth_m"] *= 0.6


def faster(route):
    for c in rules.segments(operations(route)[0]["steps"][1]):
        c["start_per_s"] *= 40


def long_and_free(route):
    for o in operations(route):
        o["stick_out_m"] *= 12
        o["support"] = "none"


def hard_jaws(route):
    for o in operations(route):
        o["grip"]["jaws"] = "hard"


def thread_under_the_jaws(route):
    grip = operations(route)[1]["grip"]
    step = copy.deepcopy(operations(route)[0]["steps"][0])
    step.update(kind="thread", tool="threading tool 60 deg", where={"from_z_m": grip["from_z_m"], "to_z_m": grip["to_z_m"]})
    operations(route)[0]["steps"].append(step)


def large_work(route):
    operations(route)[0]["grip"]["diameter_m"] = 0.5


def open_audit(route):
    route["audit"]["imbalance"] = 2e-9


def no_cut(route):
    operations(route)[0]["steps"][1]["passes"] = []


DAMAGE = [
    ("no cut in the grip", jaws_moved_into_the_cut), ("a pass removes what its depth says", more_removed),
    ("each roughing pass meets what its depth says", shallower_stated),
    ("speed within machine, chuck and half the bending frequency", faster), ("speed within machine, chuck and half the bending frequency", long_and_free),
    ("stick-out by diameters", long_and_free), ("no hard jaws on a finished surface", hard_jaws), ("jaws on one plain cylinder", thread_under_the_jaws),
    ("no work larger than the chuck", large_work), ("volumes add up", open_audit), ("no step without a cut", no_cut),
]


class Rules(unittest.TestCase):
    def test_every_rule_sees_its_damage(self):
        shop = rules.Shop()
        for name in ("e04-gear-shaft", "e21-titanium-stud"):
            sound = run_json("route", os.path.join(PARTS, name + ".yaml"), "--shop", SHOP, "--machine", "Tarn CNC 1")
            self.assertTrue(rules.planned(sound))
            for rule, damage in DAMAGE:
                with self.subTest(part=name, rule=rule, damage=damage.__name__):
                    damaged = copy.deepcopy(sound)
                    damage(damaged)
                    self.assertGreater(len(rules.RULES[rule](damaged, shop)), len(rules.RULES[rule](sound, shop)))
        self.assertEqual({rule for rule, _ in DAMAGE}, set(rules.RULES))

    def test_the_frequency_of_a_uniform_bar(self):
        # Timoshenko, Vibration Problems in Engineering: f1 = 1.875^2 / (2 pi) sqrt(EI / (m L^4)).
        d, length, modulus, density = 0.02, 0.5, 207e9, 7850.0
        area, inertia = math.pi / 4 * d * d, math.pi / 64 * d ** 4
        exact = 1.8751 ** 2 / (2 * math.pi) * math.sqrt(modulus * inertia / (density * area * length ** 4))
        found = rules.first_bending_frequency([d / 2] * 40, length / 40, modulus, density)
        self.assertTrue(1.0 <= found / exact < 1.006, found / exact)


if __name__ == "__main__":
    unittest.main()
