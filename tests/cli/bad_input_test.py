"""Damaged part and shop files: exit 2, a place, no output touched, never a crash."""
import os
import random
import re
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import SHOP, folder, run, sample, text_of  # noqa: E402

# Parts, requests and a week; without their comments, where damage does no harm.
PARTS = [re.sub(r"^#.*\n", "", text_of(sample(n)), flags=re.M) for n in sorted(os.listdir(os.path.join(ROOT, "samples"))) if n.endswith(".yaml")]
SHOP_TEXT = text_of(os.path.join(SHOP, "shop.yaml"))

# What replaces what, in a file that is right: each must be refused.
PART_DAMAGE = [
    (r"part: \{number: [\w-]+", "part: {numbr: X"), (r"part:", "prat:"), (r"material: .*", "material: unobtainium"), (r"material: .*", "material: []"),
    (r"material:", "materiel:"), (r"quantities: \[\d+", "quantities: [0"), (r"quantities: \[\d+", "quantities: [1.5"),
    (r"quantities: \[\d+", "quantities: [many"), (r"quantities: \[\d+", "quantities: [-3"), (r"outside:", "outsid:"), (r"round: [\d.]+", "round: -5"),
    (r"round: [\d.]+", "round: 55,5"), (r"round: [\d.]+", "round: 5 kg"), (r"condition: [\w ]+", "condition: rusty"), (r" x(\d+)", r" \1"),
    (r" x(\d+)", r" x-\1"), (r" x(\d+)", r" x\1,5"), (r" x(\d+)", r" x0"), (r"chamfer (\d)", r"chamfre \1"), (r"chamfer ([\d.]+)x45", r"chamfer \1x95"),
    (r"chamfer ([\d.]+)x45", r"chamfer \1"), (r"  - (\d)", r"  - k\1"), (r"drawing: \{", "drawing: {colour: red, "), (r"general: [^,}]+", "general: ISO 9999-q"),
    (r"Ra: [\d.]+", "Ra: 0"), (r"Ra: [\d.]+", "Ra: smooth"), (r"part: \{number", "part: {number: A, number"), (r"outside:\n", "outside:\n  - {diameter: 3}\n"),
    (r"outside:\n", "outside:\n  - {length: 3}\n"), (r"outside:\n", "outside:\n  - {diameter: 30, length: 3, colour: red}\n"),
    (r"outside:\n", "outside:\n  - Ra 3\n"), (r"outside:\n", "outside:\n  - M24x30\n"), (r"outside:\n", "outside:\n  - M24 x11\n"),
    (r"outside:\n", "outside:\n  - cone 30 x20\n"), (r"outside:\n", "outside:\n  - arc R1 to 40 x90\n"),
    (r"outside:\n", "outside:\n  - hexagon 24 x12\n"), (r"outside:\n", "outside:\n  - 30 x20, O-ring 3.0\n"), (r"outside:\n", "outside:\n  - 30 k4 x20\n"),
    (r"outside:\n", "outside:\n  - 30 zz7 x20\n"), (r"outside:\n", "outside:\n  - 30 +0.1/+0.2 x20\n"), (r"outside:\n", "outside:\n  - 30 x20, groove 3 wide at 5\n"),
    (r"outside:\n", "outside:\n  - 30 x20, groove 3 wide to 31 at 5\n"), (r"outside:\n", "outside:\n  - 30 x20, circlip\n"), (r"outside:\n", "outside:\n  - 31 x20, circlip at 8\n"),
    (r"outside:\n", "outside:\n  - 30 x20, fillet R2\n  - 30 x20\n"), (r"outside:\n", "outside:\n  - 30 x20, relief G\n"), (r"outside:\n", "outside:\n  - 30 x20, gauge twice\n"),
    (r"outside:\n", "outside:\n  - 30 x20, allow soon\n"), (r"outside:\n", "outside: 7\nodd:\n"), (r"^", "&a "), (r"\n  - ", "\n\t- "), (r"^", "a: *b\n"), (r"$", "\n---\nx: 1\n"),
    (r"quantities: \[", "quantities: {"), (r"material: (.*)", r"material: &m \1"), (r"outside:\n", "outside:\n  - 30 x20, runout 0.02\n"), (r"stock: \{", "stock: {fed from: air, "),
    (r"stock: \{round: [\d./ -]+(in)?", "stock: {hexagon: 0.2"),
    (r"stock: \{round: [\d./ -]+(in)?", "stock: {tube: 9x9"), (r"outside:\n", "outside:\n  - M24x0 x30\n"), (r"outside:\n", "outside:\n  - M24x2 x5, undercut DIN 76-A\n"),
    (r"outside:\n", "outside:\n  - M23 x30\n"), (r"outside:\n", "outside:\n  - M24x2 x30, undercut 3 wide to 23\n"), (r"outside:\n", "outside:\n  - G1/3 x30\n"),
    (r"outside:\n", "outside:\n  - M30x5(P2) x30\n"), (r"outside:\n", "outside:\n  - 1/2-13 UNQ x1\n"), (r"outside:\n", "outside:\n  - 30 k6 x20, knurl RGE 1.0\n"),
    (r"outside:\n", "outside:\n  - 30 x20, knurl RGX 1.0\n"), (r"outside:\n", "outside:\n  - 30 x20, knurl RGE 9\n"), (r"outside:\n", "outside:\n  - 30 x20, undercut DIN 76-A\n"),
    (r"outside:\n", "bore from right: [900 through]\noutside:\n"), (r"outside:\n", "bore from right: [8 x9000]\noutside:\n"),
    (r"outside:\n", "bore from right: ['8 x9, groove 3 wide to 7 at 2']\noutside:\n"), (r"outside:\n", "bore from right: ['8 x9, groove 3 wide to 900 at 2']\noutside:\n"),
    (r"outside:\n", "bore from right: ['8 x9, knurl RAA 1.0']\noutside:\n"), (r"outside:\n", "bore from right: [hexagon 8 x9]\noutside:\n"),
    (r"outside:\n", "faces: {right: 'machined, groove 4 wide 3 deep from 900'}\noutside:\n"), (r"outside:\n", "faces: {right: 'machined, groove 4 wide'}\noutside:\n"),
    (r"outside:\n", "faces: {right: polished}\noutside:\n"),
]
SHOP_DAMAGE = [
    (r"machines:", "machnes:"), (r"kind: CNC", "kind: laser"), (r"power: 15 kW", "power: 15 kg"), (r"power: 15 kW", "power: much"), (r"rate: 75 EUR/h all-in", "rate: cheap"),
    (r"rate: 75 EUR/h all-in", "rate: {machine: 3}"), (r"  kind: CNC\n", ""), (r"basis: typical", "basis: hearsay"), (r"  source: invented for the demo\n", ""),
    (r"mounted tools: \[", "mounted tools: [magic wand, "), (r"group: medium carbon steel", "group: wood"), (r"hardness: 270-330 HB", "hardness: hard"),
    (r"density: 7850 kg/m3", "density: 0 kg/m3"), (r"name: margin, value: 0.15", "name: margin, value: 1.5"), (r"name: margin", "name: magrin"), (r"tailstock: yes", "tailstock: perhaps"),
    (r"  slowest: 35 rev/min", "  slowest: 9000 rev/min"), (r"- name: Tarn CNC 1", "- nam: Tarn CNC 1"), (r"- name: Tarn bar lathe", "- name: Tarn CNC 1"), (r"units: metric", "units: cubits"),
    (r"price: 2.45 EUR/kg", "price: 2,45 EUR/kg"), (r"ladder: \[22.4", "ladder: [fast"),
]


class BadInput(unittest.TestCase):
    def refused(self, text, shop=SHOP, why=""):
        with folder() as work:
            out = os.path.join(work, "o.json")
            status, stdout, err = run("quote", "-", "--shop", shop, "--output", out, stdin=text)
            self.assertEqual((status, stdout), (2, ""), f"{why}\n{err}")
            # A file of another kind is refused as a whole, all else at its place.
            self.assertRegex(err, r":\d+:\d+: |is a week file: ", why)
            self.assertEqual(os.listdir(work), [], why)

    def test_damaged_part_files(self):
        tried = 0
        for i, part in enumerate(PARTS):
            for pattern, text in PART_DAMAGE:
                damaged = re.sub(pattern, text, part, count=1, flags=re.M)
                if damaged == part:
                    continue
                tried += 1
                self.refused(damaged, why=f"part {i}: {pattern} -> {text}")
        print(f"\n{tried} damaged part files refused")
        self.assertGreaterEqual(tried, 200)

    def test_damaged_shop_files(self):
        for pattern, text in SHOP_DAMAGE:
            damaged = re.sub(pattern, text, SHOP_TEXT, count=1)
            self.assertNotEqual(damaged, SHOP_TEXT, pattern)
            with folder() as shop:
                with open(os.path.join(shop, "shop.yaml"), "w", encoding="utf-8") as file:
                    file.write(damaged)
                self.refused(PARTS[0], shop=shop, why=f"shop: {pattern} -> {text}")

    def test_noise_never_crashes(self):
        draw = random.Random(7)
        for i in range(250):
            part = list(PARTS[i % len(PARTS)])
            for _ in range(draw.randint(1, 6)):
                at = draw.randrange(len(part))
                what = draw.choice(["delete", "double", "swap", "char"])
                if what == "delete":
                    del part[at]
                elif what == "double":
                    part.insert(at, part[at])
                elif what == "swap":
                    other = draw.randrange(len(part))
                    part[at], part[other] = part[other], part[at]
                else:
                    part[at] = draw.choice("{}[]:,&*!|>'\"%@`x0123456789 \n\tØ±")
            status, _, err = run("quote", "-", "--shop", SHOP, stdin="".join(part))
            self.assertIn(status, (0, 1, 2), f"{''.join(part)}\n{err}")


if __name__ == "__main__":
    unittest.main()
