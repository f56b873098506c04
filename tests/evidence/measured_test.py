"""Forces and roughness against measured turning data, where the data lie beside the project.

The measured sets are not ours and are never copied here; without them the tests are skipped. The ratio
of measured to worked-out values and its spread are printed; nothing is tuned to them.
"""
import csv
import math
import os
import re
import statistics
import sys
import unittest
from collections import defaultdict

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import run_json, text_of  # noqa: E402

DATA = os.path.join(ROOT, "..", "shared", "reference", "data", "datasets")
FORCES = os.path.join(DATA, "turning_force_roughness_wear_Exp1.csv")
SLENDER = os.path.join(DATA, "aisi12L14_slender_shaft_roughness.csv")


def material(name):
    block = text_of(os.path.join(ROOT, "rates/materials.yaml")).split(f'- name: "{name}"')[1].split("- name:")[0]
    return [float(re.search(key + r": ([\d.]+)", block).group(1)) for key in (r"kc1\.1", "mc")]


def figure(name, **inputs):
    words = [f"{k.replace('_', '-')}={v}" for k, v in inputs.items()]
    return {k: v["si"] for k, v in run_json("figure", name, *words)["results"].items()}


class Measured(unittest.TestCase):
    def show(self, what, ratios):
        mean = statistics.geometric_mean(ratios)
        spread = math.exp(statistics.stdev(math.log(r) for r in ratios))
        print(f"\n{what}: measured over worked out {mean:.2f}, a cell scatters by a factor {spread:.2f}, {len(ratios)} cells")
        return mean, spread

    @unittest.skipUnless(os.path.exists(FORCES), "the measured forces are not here")
    def test_main_and_passive_force(self):
        # Unknown steel, finishing cuts, sharp tool (Kaggle, user adorigueto); worked out as C45 with a
        # nose of 0.4 mm and 93 degrees, which the set does not say.
        kc11, mc = material("C45")
        cells = defaultdict(list)
        with open(FORCES, encoding="utf-8") as file:
            for row in csv.DictReader(file):
                cells[float(row["ap"]), float(row["f"])].append((float(row["Fx"]), float(row["Fy"])))
        main, passive = [], []
        for (ap, f), values in sorted(cells.items()):
            kc = figure("specific-force", kc11=f"{kc11}N/mm2", rise=mc, feed=f"{f}mm/rev", lead_angle="93deg")["specific-force"]
            force = figure("cutting-force", depth=f"{ap}mm", feed=f"{f}mm/rev", specific_force=f"{kc / 1e6}N/mm2")["force"]
            back = figure("passive-force", cutting_force=f"{force}N", depth=f"{ap}mm", nose_radius="0.4mm")["force"]
            main.append(statistics.mean(v[0] for v in values) / force)
            passive.append(statistics.mean(v[1] for v in values) / back)
        mean, spread = self.show("main cutting force", main)
        self.assertLess(spread, 1.15)
        self.assertTrue(0.67 < mean < 1.5, mean)
        mean, spread = self.show("passive force", passive)
        self.assertLess(spread, 1.6)
        self.assertTrue(0.4 < mean < 2.5, mean)

    @unittest.skipUnless(os.path.exists(SLENDER), "the measured roughness is not here")
    def test_roughness_never_falls_below_the_geometric_one_by_much(self):
        # AISI 12L14, Matheus C. Pereira and co-authors, CC BY 4.0; nose radius not stated, 0.8 taken.
        cells = defaultdict(list)
        with open(SLENDER, encoding="utf-8") as file:
            for row in csv.DictReader(file):
                if row["VB"] == "New":
                    cells[float(row["f"])].append(float(row["Ra"]))
        ratios = []
        for f, values in sorted(cells.items()):
            ideal = figure("roughness", feed=f"{f}mm/rev", nose_radius="0.8mm")["Ra"] * 1e6
            ratios.append(statistics.mean(values) / ideal)
        mean, _ = self.show("roughness Ra", ratios)
        self.assertGreater(mean, 0.8)


if __name__ == "__main__":
    unittest.main()
