"""The JSON checked by arithmetic of its own: whoever has only the JSON can follow it."""
import json
import math
import os
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import SHOP, run_json, sample  # noqa: E402

CASES = [("01-winch-spindle.yaml", "Tarn CNC 1"), ("02-bush-blank.yaml", "Tarn bar lathe"), ("03-pivot-pin-inch.yaml", "Tarn geared lathe"),
         ("04-two-cuts.yaml", "Tarn CNC 1"), ("01-winch-spindle.yaml", "Tarn geared lathe"), ("05-hoist-spindle.yaml", "Tarn CNC 1"),
         ("05-hoist-spindle.yaml", "Tarn geared lathe"), ("06-guide-bush.yaml", "Tarn bar lathe"), ("07-cover-flange.yaml", "Tarn heavy lathe")]


def profile_volume(points):
    return sum(math.pi / 3 * (z2 - z1) * (r1 * r1 + r1 * r2 + r2 * r2) for (z1, r1), (z2, r2) in zip(points, points[1:]))


def css_time(c):
    """Integral of 2 pi r ds / (v f) along a straight path across diameters, with the clamp."""
    r1, r2 = sorted((c["from"][1] + (c["approach_m"] if c["from"][1] >= c["to"][1] else 0), c["to"][1]))
    path = c["approach_m"] + c["cut_m"] + c["overrun_m"]
    n, total = 20000, 0.0
    for i in range(n):
        r = r1 + (r2 - r1) * (i + 0.5) / n
        spindle = min(c["surface_speed_m_per_s"] / (2 * math.pi * r), c["fastest_per_s"])
        total += path / n / (c["feed_m"] * spindle)
    return total


def slices(c):
    """Time and surface speed of a straight stretch, slice by slice: the diameters at its ends from its speeds there."""
    def diameter(speed, turns):
        return speed / (math.pi * turns) if turns else 0
    large, small = diameter(c["cut_at_start_m_per_s"], c["start_per_s"]), diameter(c["cut_at_end_m_per_s"], c["end_per_s"])
    path = c["approach_m"] + c["cut_m"] + c["overrun_m"]
    n = 4000 if large != small else 1
    for i in range(n):
        d = small + (large - small) * (i + 0.5) / n
        turns = c["start_per_s"]
        if c["spindle"] == "constant-surface-speed":
            turns = min(c["surface_speed_m_per_s"] / (math.pi * d), c["fastest_per_s"])
        yield path / n / (c["feed_m"] * turns), math.pi * d * turns


class Identities(unittest.TestCase):
    def test_all(self):
        for name, machine in CASES:
            with self.subTest(f"{name} on {machine}"):
                self.check(run_json("quote", sample(name), "--shop", SHOP, "--machine", machine))

    def wear(self, step):
        """An edge is worn by the speeds that are cut with, dt / T(v) added up, not by the one that was wanted."""
        edge, rise = step["edge"], 1 / step["edge"]["taylor_exponent"]
        stretches = [c for p in step["passes"] for c in p["segments"]]
        if not edge["share"]:
            return
        for c in stretches:
            if c["motion"] == "arc":
                continue  # its diameters do not rise evenly
            parts = list(slices(c))
            self.assertAlmostEqual(sum(t for t, _ in parts) / c["cutting_s"], 1, delta=1e-4)
            worn = sum(t * (v / c["surface_speed_m_per_s"]) ** rise for t, v in parts)
            self.assertAlmostEqual(c["wear_s"] / worn, 1, delta=2e-5)
        life = 60 * (edge["taylor_constant_m_per_s"] / step["used"]["surface_speed_m_per_s"]) ** rise
        share = sum(c["wear_s"] for c in stretches) / life
        self.assertAlmostEqual(edge["share"] / share, 1, delta=1e-9)
        cutting = step["times"]["cutting_s"]
        self.assertAlmostEqual(edge["life_s"] / (cutting / share), 1, delta=1e-9)
        steady = edge["taylor_constant_m_per_s"] / (edge["life_s"] / 60) ** edge["taylor_exponent"]
        self.assertAlmostEqual(edge["steady_m_per_s"] / steady, 1, delta=1e-9)
        cut = [c["cut_at_start_m_per_s"] for c in stretches]
        self.assertEqual([step["cut_with"][k] for k in ("slowest_m_per_s", "fastest_m_per_s")], [min(cut), max(cut)])

    def check(self, q):
        audit = q["audit"]
        removed = sum(s["removed_m3"] for operation in q["operations"] for s in operation["steps"])
        features = sum(f["volume_m3"] for f in q["part"]["features"])
        stock, part = q["stock"]["volume_m3"], q["part"]["volume_m3"]
        self.assertAlmostEqual(removed / (stock - part + features), 1, delta=1e-9)
        self.assertLess(audit["imbalance"], 1e-9)
        hollow = profile_volume(q["part"]["profile"]["inner"])
        self.assertAlmostEqual((profile_volume(q["part"]["profile"]["outer"]) - hollow) / part, 1, delta=5e-5)
        machine = operator = setup = 0
        for operation in q["operations"]:
            run = 0
            for step in operation["steps"]:
                for p in step["passes"]:
                    self.assertAlmostEqual(sum(c["cutting_s"] for c in p["segments"]), p["cutting_s"], delta=1e-9)
                    self.assertAlmostEqual(sum(c["other_s"] for c in p["segments"]), p["other_s"], delta=1e-9)
                self.wear(step)
                for c in (c for p in step["passes"] for c in p["segments"]):
                    path = c["approach_m"] + c["cut_m"] + c["overrun_m"]
                    across = c["from"][1] != c["to"][1]
                    if c["spindle"] == "constant-speed":
                        self.assertAlmostEqual(c["cutting_s"], path / (c["feed_m"] * c["start_per_s"]), delta=1e-9 * c["cutting_s"])
                    elif across and c["from"][0] == c["to"][0]:
                        self.assertAlmostEqual(c["cutting_s"] / css_time(c), 1, delta=1e-4)
                    elif not across:
                        self.assertAlmostEqual(c["cutting_s"], path / (c["feed_m"] * c["start_per_s"]), delta=1e-9 * c["cutting_s"])
                    self.assertLessEqual(c["start_per_s"], c["fastest_per_s"] * (1 + 1e-12))
                times = step["times"]
                self.assertAlmostEqual(sum(v for k, v in times.items() if k != "total_s"), times["total_s"], delta=1e-9)
                self.assertAlmostEqual(sum(p["cutting_s"] for p in step["passes"]), times["cutting_s"], delta=1e-9)
                run += times["total_s"]
            external = sum(e["machine_s"] for e in operation["elements"] if not e["internal"])
            internal = sum(e["operator_s"] for e in operation["elements"] if e["internal"])
            self.assertAlmostEqual(operation["times"]["machine_s"], external + max(run, internal), delta=1e-9)
            self.assertAlmostEqual(operation["setup"]["machine_s"], sum(e["machine_s"] for e in operation["setup"]["elements"]), delta=1e-9)
            machine += operation["times"]["machine_s"]
            operator += operation["times"]["operator_s"]
            setup += operation["setup"]["machine_s"]
        self.assertAlmostEqual(machine, q["times"]["cycle_per_part_s"], delta=1e-9)
        self.assertAlmostEqual(operator, q["times"]["operator_per_part_s"], delta=1e-9)
        self.assertAlmostEqual(setup, q["times"]["setup_s"], delta=1e-9)
        last = None
        for price in q["prices"]:
            cents = lambda text: round(float(text) * 100)  # noqa: E731
            self.assertEqual(sum(cents(line["amount"]) for line in price["lines"]), cents(price["cost"]))
            self.assertEqual(cents(price["each"]) * price["quantity"], cents(price["total"]))
            self.assertEqual(cents(price["total"]) + cents(price["minimum_surcharge"]) - cents(price["cost"]), cents(price["margin"]))
            self.assertLessEqual(cents(price["low_each"]), cents(price["high_each"]))
            self.assertTrue(last is None or cents(price["each"]) <= last)
            last = cents(price["each"])
        for key in ("inputs", "rates", "methods", "lead", "cautions", "unconfirmed"):
            self.assertIn(key, q)
        self.assertEqual(len(q["inputs"][0]["sha256"]), 64)


class Schemas(unittest.TestCase):
    """The shipped JSON Schemas against real output; a small checker of the words they use."""

    def valid(self, schema, value, where):
        if "const" in schema:
            self.assertEqual(value, schema["const"], where)
        if "enum" in schema:
            self.assertIn(value, schema["enum"], where)
        kinds = {"object": dict, "array": list, "string": str, "number": (int, float), "integer": int, "boolean": bool, "null": type(None)}
        if "type" in schema:
            allowed = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
            self.assertTrue(any(isinstance(value, kinds[k]) for k in allowed), f"{where}: {value!r} is no {allowed}")
        if isinstance(value, dict):
            for key in schema.get("required", []):
                self.assertIn(key, value, where)
            for key, inner in schema.get("properties", {}).items():
                if key in value:
                    self.valid(inner, value[key], f"{where}.{key}")
        if isinstance(value, list) and "items" in schema:
            for i, item in enumerate(value):
                self.valid(schema["items"], item, f"{where}[{i}]")

    def test_output_fits_its_schema(self):
        for command in ("quote", "route", "compare", "tune"):
            with open(os.path.join(ROOT, "rates/schema", command + ".json"), encoding="utf-8") as file:
                schema = json.load(file)
            for name, machine in CASES:
                self.valid(schema, run_json(command, sample(name), "--shop", SHOP, "--machine", machine), command)
        with open(os.path.join(ROOT, "rates/schema/figure.json"), encoding="utf-8") as file:
            schema = json.load(file)
        self.valid(schema, run_json("figure", "spindle-speed", "surface-speed=100ft/min", "diameter=2in"), "figure")
        with open(os.path.join(ROOT, "rates/schema/rates.json"), encoding="utf-8") as file:
            schema = json.load(file)
        self.valid(schema, run_json("rates", "--shop", SHOP), "rates")


if __name__ == "__main__":
    unittest.main()
