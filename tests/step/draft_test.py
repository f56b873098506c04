"""Drafts from solid models, which the test makes itself: what each made solid gives, element by element;
our own parts as solids and back; damaged files; bounds; many files; JSON by its schema."""
import json
import math
import os
import random
import re
import resource
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

import yaml

ROOT, PROGRAM, BUILD = Path(os.environ["ROOT"]), os.environ["TURNWRIGHT"], Path(os.environ["BUILD"])
SOLIDS = BUILD / "tests/write_solids"
SHOP = ROOT / "samples/shop"
LONG = os.environ.get("SANITIZED", "OFF") != "ON"
PARTS = int(os.environ.get("PARTS", "150" if LONG else "40"))

SPINDLE = ["25 x28, chamfer 1.5x45 right", "30 x42", "40 x78, fillet R1 left",
           "50 x40, chamfer 1x45 right, chamfer 1x45 left",
           "35 x108, groove 3 wide to 32 at 280, chamfer 1x45 left"]
BUSH = ["40 x34, chamfer 1x45 right", "56 x6, chamfer 1x45 right, chamfer 1x45 left"]
BUSH_HOLE = ["20 through, chamfer 1x45 right, groove 4 wide to 22 at 20, chamfer 1x45 left"]
HOLE = {"through": ["20 through"]}

# What each made solid gives: outside, bore from right, bore from left, other work.
MADE = {
    **{name: (SPINDLE, [], [], []) for name in
       ("spindle", "spindle-along-y", "spindle-oblique", "spindle-turned-round", "spindle-nurbs", "spindle-halves",
        "spindle-metre", "spindle-ap203", "spindle-ap242")},
    **{name: (BUSH, BUSH_HOLE, [], []) for name in ("bush", "bush-nurbs", "bush-halves")},
    "pin": (["10 x30"], [], [], []),
    "ball-pin": (["20 x30, round R10 right", "cone 25 to 30 x25", "30 x35"], [], [], []),
    "pointed": (["cone 0 to 30 x15", "30 x35"], [], [], []),
    "round-groove": (["24 x60, round groove R2 at 20", "30 x10"], [], [], []),
    "vee-groove": (["40 x30, V-groove 90 deg 5 deep at 10", "50 x15"], [], [], []),
    "vee-groove-floor": (["40 x30, V-groove 90 deg 11 wide 4 deep at 10", "50 x15"], [], [], []),
    "button-head": (["8 x35", "18 x2", "arc R5 to 16 x3"], [], [], []),
    "recess-inside": (["40 x50"], ["16 through, groove 15 wide to 24 at 15"], [], []),
    "blind-flat": (["40 x50"], ["16 x30, flat"], [], []),
    "blind-drilled": (["40 x50"], ["6.8 x20"], [], []),
    "counterbored": (["40 x50"], ["24 x20", "cone 24 to 20 x2", "12 through"], [], []),
    "chamfer-between-bores": (["40 x50"], ["12 through, chamfer 3x45 left"], ["18 x27, flat"], []),
    "relief": (["30 x25.38", "cone 30 to 29.4 x1.12", "29.4 x1.5", "40 x32"], [], [], []),
    "edge-below-step": (["38 x20", "40 x30, chamfer 3x45 right below step"], [], [], []),
    **{name: (["63 x3, round R1.5 right"], ["32 through, round R1.5 right"], [], [])
       for name in ("beaded-ring", "beaded-ring-nurbs")},
    "taper": (["cone 20 to 24 x40", "24 x40"], [], [], []),
    "ring": (["arc R4 from 40 to 40 x8"], ["arc R4 from 40 to 40 x8 hollow"], [], []),
    "face-groove": (["60 x20"], [], [], []),
    "keyway": (SPINDLE, [], [], ["keyway 10 mm wide x36 mm, floor 12.5 mm from the axis, at 212 mm to 248 mm"]),
    "keyway-nurbs": (SPINDLE, [], [], ["keyway 10 mm wide x36 mm, floor 12.5 mm from the axis, at 212 mm to 248 mm"]),
    "cross-hole": (SPINDLE, [], [], ["cross hole Ø6 mm at 100 mm"]),
    "hexagon-bolt": (["16 x50, chamfer 1x45 right", "hexagon 24 x10, chamfer 1.418x60 left"], [], [], []),
    "square-head": (["12 x38", "square 20 x12"], [], [], []),
    "blind-from-both": (["72 x100, chamfer 1x45 right, chamfer 1x45 left"], ["17.5 x50"], ["25 x30, flat"],
                        ["4 × hole Ø6.8 mm along the axis x20 mm on a pitch circle of 52 mm"]),
    "flange": (["60 x28", "120 x12"], ["40 through"], [],
               ["6 × hole Ø11 mm along the axis x12 mm on a pitch circle of 90 mm",
                "flat 57 mm from the axis, at 28 mm to 40 mm"]),
    "flats": (["30 x80"], [], [], ["2 × flat 12 mm from the axis, at 20 mm to 40 mm"]),
    "hexagon-socket": (["30 x80"], [], [], ["hexagon socket 10 mm across flats, at 0 mm to 9 mm"]),
    "eccentric": (["32 x25", "50 x60"], [], [], ["eccentric Ø20 mm, 6 mm off centre, at 0 mm to 25 mm"]),
    "oblique-hole": (["30 x80"], [], [], None),
    "cross-slot": (["40 x50"], [], [], ["slot 8 mm wide x10 mm, at 0 mm to 10 mm"]),
    "lug": (["30 x25", "48.6621 x15", "30 x20"], [], [], None),
    "shaft-inch": (["0.75 x2.5, chamfer 0.035x45 right", "1.25 x1.5"], [], [], []),
}
REFUSED = {"block": "not a turned part", "cube": "nothing to turn", "open-shell": "no solid", "two-solids": "2 solids"}


def write_solids(*words):
    # The library keeps what it took until the end, which a sanitized build calls leaks.
    subprocess.run([SOLIDS, *map(str, words)], check=True, env={**os.environ, "ASAN_OPTIONS": "detect_leaks=0"})


def turnwright(*words, **more):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, timeout=1200, **more)


def part_of(path):
    return yaml.safe_load(path.read_text())


class Drafts(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.dir = Path(cls.folder.name)
        cls.made, cls.drafts = cls.dir / "made", cls.dir / "drafts"
        cls.made.mkdir(), cls.drafts.mkdir()
        write_solids("made", cls.made)
        cls.files = sorted(cls.made.glob("*.step"))
        cls.before = {f: f.read_bytes() for f in cls.files}
        cls.table = turnwright("draft", *cls.files, "--output", cls.drafts)

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def model(self, name):
        return self.made / f"{name}.step"

    def test_every_made_solid_gives_its_elements(self):
        self.assertGreaterEqual(len(self.files), 40)
        self.assertEqual({f.stem for f in self.files}, {*MADE, *REFUSED})
        for name, (outside, right, left, work) in MADE.items():
            with self.subTest(name):
                part = part_of(self.drafts / f"{name}.yaml")
                self.assertEqual(part["outside"], outside)
                self.assertEqual(part.get("bore from right", []), right)
                self.assertEqual(part.get("bore from left", []), left)
                found = part.get("other work", [])
                self.assertTrue(all(w["minutes"] == "" for w in found))
                if work is not None:
                    self.assertEqual([w["what"] for w in found], work)
                else:
                    self.assertEqual(len(found), 1)
                self.assertEqual(part["material"], "")
                self.assertGreaterEqual(len(part["to confirm"]), 3)

    def test_what_is_not_turned_is_refused_and_said(self):
        self.assertEqual(self.table.returncode, 1)
        for name, why in REFUSED.items():
            self.assertFalse((self.drafts / f"{name}.yaml").exists(), name)
            row = next(line for line in self.table.stdout.splitlines() if line.startswith(f"{name}.step"))
            self.assertIn(why, row)
            alone = turnwright("draft", self.model(name))
            self.assertIn(f"{name}.step: no draft: ", alone.stderr)
            self.assertEqual((alone.returncode, alone.stdout), (1 if name in ("block", "cube") else 2, ""), alone.stderr)
        self.assertIn("turned: 62.3 %", turnwright("draft", self.model("block")).stderr)

    def test_a_solid_of_several_is_chosen(self):
        asked = turnwright("draft", self.model("two-solids"))
        self.assertIn("solid 2: 56 mm × 40 mm × 56 mm", asked.stderr)
        second = yaml.safe_load(turnwright("draft", self.model("two-solids"), "--solid", 2).stdout)
        self.assertEqual(second["outside"], BUSH)
        self.assertEqual(second["part"]["number"], "two-solids-2")
        self.assertEqual(turnwright("draft", self.model("two-solids"), "--solid", 3).returncode, 2)

    def test_the_other_end_to_the_right(self):
        flipped = yaml.safe_load(turnwright("draft", self.model("bush"), "--flip").stdout)
        button = yaml.safe_load(turnwright("draft", self.model("button-head"), "--flip").stdout)
        self.assertEqual(button["outside"], ["arc R5 from 16 to 18 x3", "18 x2", "8 x35"])
        self.assertEqual(flipped["outside"], ["56 x6, chamfer 1x45 right, chamfer 1x45 left", "40 x34, chamfer 1x45 left"])

    def test_every_draft_is_accepted_and_asks(self):
        # A ring without an end face cannot be turned as it is drawn, and says so.
        self.assertIn("do not fit together", (self.drafts / "ring.yaml").read_text())
        drafts = sorted(d for d in self.drafts.glob("*.yaml") if d.stem != "ring")
        checked = turnwright("check", *drafts)
        self.assertEqual(checked.returncode, 0, checked.stderr)
        self.assertEqual(checked.stdout.count("to fill in before it is quoted: the material"), len(drafts))
        # A groove of a face has straight walls in a part file; where the model's are round, that is said.
        self.assertEqual({d.stem for d in drafts if "differs" in d.read_text()}, {"beaded-ring", "beaded-ring-nurbs"})

    def test_nothing_is_quoted_by_accident(self):
        quoted = turnwright("quote", self.drafts / "flange.yaml", "--shop", SHOP)
        self.assertEqual((quoted.returncode, quoted.stdout), (1, ""))
        self.assertIn("filling in the material, minutes or a price for '6 × hole", quoted.stderr)
        as_json = json.loads(turnwright("quote", self.drafts / "flange.yaml", "--json").stdout)
        self.assertEqual(as_json["part"]["material"], "")
        filled = (self.drafts / "flange.yaml").read_text().replace('material: ""', "material: C45").replace('minutes: ""', "minutes: 4")
        done = self.dir / "filled.yaml"
        done.write_text(filled)
        quoted = turnwright("quote", done, "--shop", SHOP, "--full")
        self.assertEqual(quoted.returncode, 0, quoted.stderr)
        self.assertIn("Not confirmed\n  to confirm: Fits and roughness of 3 diameters", quoted.stdout)
        self.assertIn("points to confirm", quoted.stdout.split("To ask the customer")[1])
        self.assertTrue(any(m["id"] == "prepare.to-confirm"
                            for m in json.loads(turnwright("quote", done, "--json").stdout)["unconfirmed"]))

    def test_threads_are_asked_never_written(self):
        for name, thread in (("blind-drilled", "M8"), ("blind-from-both", "M20")):
            part = part_of(self.drafts / f"{name}.yaml")
            self.assertTrue(any(f"{thread} tapped?" in c for c in part["to confirm"]), part["to confirm"])
        self.assertTrue(any("M16 thread?" in c for c in part_of(self.drafts / "hexagon-bolt.yaml")["to confirm"]))
        for draft in self.drafts.glob("*.yaml"):
            part = part_of(draft)
            for element in part["outside"] + part.get("bore from right", []):
                self.assertNotRegex(element, r"^M\d")

        self.assertTrue(any("a relief of DIN 509?" in c for c in part_of(self.drafts / "relief.yaml")["to confirm"]))

    def test_a_face_groove_and_flats_of_the_bar(self):
        self.assertEqual(part_of(self.drafts / "face-groove.yaml")["faces"],
                         {"right": {"groove": [{"width": 4, "depth": 3, "from": 36}]}})
        self.assertEqual(part_of(self.drafts / "flange.yaml")["faces"]["left"]["groove"][0]["from"], 72)
        self.assertEqual(part_of(self.drafts / "hexagon-bolt.yaml")["stock"], {"hexagon": 24})

    def test_what_the_outline_does_not_explain_is_said_with_size_and_place(self):
        def left_over(name):
            return [c for c in part_of(self.drafts / f"{name}.yaml")["to confirm"] if "no material in the model" in c]

        keyway = left_over("keyway")
        self.assertEqual(len(keyway), 1)
        # The keyway lies from 212 to 248, its middle between the floor at r 12.5 and Ø35.
        self.assertRegex(keyway[0], r"0\.5\d* % of the turned outline \(1\.\d+ cm³, around 23\d(\.\d+)? mm from the right-hand end, about Ø3[0-3]")
        self.assertIn("is it all in the flats and the other work?", keyway[0])
        self.assertEqual(left_over("spindle") + left_over("hexagon-bolt") + left_over("beaded-ring"), [])
        ring = part_of(self.drafts / "beaded-ring.yaml")
        self.assertEqual(list(ring["faces"]), ["right"])
        self.assertTrue(any("its walls are not straight" in c for c in ring["to confirm"]))

    def test_a_file_of_many_that_is_not_there_is_a_row_that_failed(self):
        out = self.dir / "some"
        out.mkdir()
        done = turnwright("draft", self.model("pin"), self.made / "gone.step", self.model("bush"), "--output", out)
        self.assertEqual((done.returncode, done.stderr), (1, ""))
        rows = done.stdout.splitlines()[1:]
        self.assertEqual([r.split()[0] for r in rows], ["pin.step", "gone.step", "bush.step"])
        self.assertIn("gone.step", rows[1].split(None, 1)[1])
        self.assertEqual(sorted(p.name for p in out.iterdir()), ["bush.yaml", "pin.yaml"])

    def test_no_file_of_the_customer_is_changed_and_no_draft_overwritten(self):
        self.assertEqual({f: f.read_bytes() for f in self.files}, self.before)
        draft = self.dir / "mine.yaml"
        draft.write_text("mine")
        again = turnwright("draft", self.model("pin"), "--output", draft)
        self.assertEqual((again.returncode, draft.read_text()), (2, "mine"))
        self.assertIn("there already", again.stderr)

    def test_the_page_and_the_json(self):
        page = self.dir / "page.html"
        self.assertEqual(turnwright("draft", self.model("flange"), "--output", page).returncode, 0)
        text = page.read_text()
        self.assertIn("<svg", text)
        # The groove in its face is a rectangle cut out of the body, above the centre line and below it.
        body = re.search(r'class="fill-body pen" d="([^"]*)"', text)[1]
        self.assertEqual(len(re.findall(r"M[^MLA]*L[^MLA]*L[^MLA]*L[^MLA]*z", body)), 2, body)
        self.assertIn("volume of the model", text)
        answer = json.loads(turnwright("draft", self.model("keyway"), "--json").stdout)
        self.assertEqual(answer["schema"], "turnwright/draft/2")
        self.assertEqual(answer["features"][0]["kind"], "keyway")
        self.assertAlmostEqual(answer["volume_ratio"], 0.995, 3)
        lines = turnwright("draft", self.model("pin"), self.model("cube"), "--json").stdout.splitlines()
        self.assertEqual([json.loads(line)["verdict"] for line in lines], ["turned", "no axis"])

    def test_volumes_are_those_of_the_model(self):
        names = [name for name in MADE if "ring" not in name]
        lines = turnwright("draft", *[self.model(n) for n in names], "--json").stdout.splitlines()
        for name, line in zip(names, lines):
            answer = json.loads(line)
            ratio = answer["draft"]["volume_m3"] / answer["outline_volume_m3"]
            # Written places are rounded to a thousandth; where a surface is given by points, it is sampled.
            self.assertLess(abs(ratio - 1), 2e-5, (name, ratio))
            if not answer["features"]:
                self.assertLess(abs(answer["volume_ratio"] - 1), 2e-5, name)


class RandomPart:
    """A part as a drawing has it, its larger end at the left, in the words that a draft uses."""

    def __init__(self, chance, number):
        self.chance, self.number = chance, number
        self.diameters, self.lengths = [], []
        d = chance.randrange(20, 60) / 2
        for _ in range(chance.randrange(1, 6)):
            self.diameters.append(d)
            self.lengths.append(chance.randrange(12, 60) / 2 + 8)
            d += chance.randrange(10, 30) / 2
        self.outside = [self.element(i) for i in range(len(self.diameters))]
        self.right, self.left = [], []
        if chance.random() < 0.6 and self.diameters[0] >= 16:
            self.bores()

    def overall(self):
        return sum(self.lengths)

    def element(self, i):
        chance, n = self.chance, len(self.diameters)
        d, length = self.diameters[i], self.lengths[i]
        at = sum(self.lengths[:i])
        if 0 < i and chance.random() < 0.15:
            # A cone that is no edge of the element after it.
            return f"cone {n_(self.diameters[i - 1] + 4)} to {n_(d)} x{n_(length)}"
        text = f"{n_(d)} x{n_(length)}"
        near = chance.choice(["", ", chamfer 1x45 right", ", chamfer 1.5x30 right", ", round R1 right", ", chamfer 0.5x60 right"])
        groove = ""
        if length > 14 and d > 18 and chance.random() < 0.4:
            place = at + 5
            groove = chance.choice([f", groove 3 wide to {n_(d - 3)} at {n_(place)}", f", round groove R1.5 at {n_(place)}",
                                    f", V-groove 60 deg 1.5 deep at {n_(place)}", f", V-groove 38 deg 4 wide 2 deep at {n_(place)}",
                                    f", round groove R2 1 deep at {n_(place)}"])
        far = "" if i == n - 1 else chance.choice(["", ", fillet R0.8 left", ", fillet R1.2 left"])
        if i == n - 1 and n > 1:
            far = chance.choice(["", ", chamfer 1x45 left", ", round R1.5 left"])
        return text + near + groove + far

    def bores(self):
        chance, overall = self.chance, self.overall()
        d = min(self.diameters[0] - 8, 30)
        mouth = chance.choice(["", ", chamfer 1x45 right"])
        kind = chance.randrange(4)
        if kind == 0:
            self.right = [f"{n_(d)} through{mouth}{chance.choice(['', ', chamfer 1x45 left'])}"]
        elif kind == 1:
            depth = overall / 2
            self.right = [f"{n_(d)} x{n_(depth)}{mouth}" + chance.choice(["", ", flat"])]
        elif kind == 2:
            self.right = [f"{n_(d)} x{n_(overall / 4)}{mouth}", f"{n_(d - 3)} through"]
        else:
            self.right = [f"{n_(d - 3)} through{mouth}{chance.choice(['', ', chamfer 1x45 left'])}"]
            self.left = [f"{n_(d)} x{n_(overall / 4)}" + chance.choice(["", ", chamfer 1x45 left", ", fillet R0.5 right"]) + ", flat"]

    def write(self, folder):
        doc = {"part": {"number": self.number}, "material": "C45", "outside": self.outside}
        if self.right:
            doc["bore from right"] = self.right
        if self.left:
            doc["bore from left"] = self.left
        path = folder / f"{self.number}.yaml"
        path.write_text(yaml.safe_dump(doc, allow_unicode=True))
        return path


def n_(value):
    return f"{value:.3f}".rstrip("0").rstrip(".")


class RoundTrips(unittest.TestCase):
    """Our part, drawn by our own planner, as a solid, and back: the same elements, the same volume."""

    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.dir = Path(self.folder.name)
        for name in ("parts", "solids", "drafts"):
            (self.dir / name).mkdir()

    def tearDown(self):
        self.folder.cleanup()

    def solids_of(self, paths):
        done = subprocess.run([SOLIDS, "parts", self.dir / "solids", *paths], capture_output=True, text=True)
        self.assertEqual(done.stderr, "")
        return self.volumes_in(done.stdout)

    @staticmethod
    def volumes_in(text):
        """By our planner, which is exact, and by the library, which integrates round surfaces in steps."""
        return {name: (float(ours), float(theirs)) for name, ours, theirs in (line.rsplit(" ", 2) for line in text.splitlines())}

    def answers(self, names):
        files = [self.dir / "solids" / f"{n}.step" for n in names]
        lines = turnwright("draft", *files, "--json").stdout.splitlines()
        self.assertEqual(len(lines), len(files))
        return dict(zip(names, map(json.loads, lines)))

    def test_random_parts_come_back(self):
        chance = random.Random(11)
        parts = {f"R{i}": RandomPart(chance, f"R{i}") for i in range(PARTS)}
        volumes = self.solids_of([p.write(self.dir / "parts") for p in parts.values()])
        wrong = []
        for name, answer in self.answers(list(parts)).items():
            part, draft = parts[name], answer["draft"]
            found = [draft["outside"], draft["bore_from_right"], draft["bore_from_left"]]
            if found != [part.outside, part.right, part.left]:
                wrong.append((name, found, [part.outside, part.right, part.left]))
            ours, theirs = volumes[name]
            for volume, other, most in ((ours, draft["volume_m3"], 1e-6), (ours, answer["outline_volume_m3"], 1e-6), (theirs, answer["volume_m3"], 2e-5)):
                if abs(other * 1e9 / volume - 1) > most:
                    wrong.append((name, other * 1e9 / volume - 1, found))
        self.assertFalse(wrong, f"{len(wrong)} of {PARTS} differ:\n" + "\n".join(map(str, wrong[:5])))

    def test_the_samples_come_back(self):
        samples = [p for p in sorted((ROOT / "samples").glob("*.yaml"))
                   if "outside" in (yaml.safe_load(p.read_text()) or {})]
        self.assertGreater(len(samples), 5)
        done = subprocess.run([SOLIDS, "parts", self.dir / "solids", *samples], capture_output=True, text=True)
        volumes = self.volumes_in(done.stdout)
        self.assertGreater(len(volumes), 5)
        for name, answer in self.answers(sorted(volumes)).items():
            with self.subTest(name):
                self.assertEqual(answer["verdict"], "turned")
                self.assertLess(abs(answer["draft"]["volume_m3"] * 1e9 / volumes[name][0] - 1), 1e-5)


MODELS = os.environ.get("TURNWRIGHT_MODELS")


@unittest.skipUnless(MODELS, "TURNWRIGHT_MODELS names no folder of public models")
class PublicModels(unittest.TestCase):
    """Models that others made, where there are any: nothing is known of them but what holds of every model."""

    def test_every_model_is_drafted_or_refused_with_a_reason(self):
        files = sorted(p for p in Path(MODELS).rglob("*") if p.suffix.lower() in (".step", ".stp"))
        self.assertTrue(files, MODELS)
        with tempfile.TemporaryDirectory() as folder:
            lines = turnwright("draft", *files, "--json").stdout.splitlines()
            self.assertEqual(len(lines), len(files))
            done = turnwright("draft", *files, "--output", folder)
            self.assertIn(done.returncode, (0, 1), done.stderr)
            print(done.stdout)
            for file, answer in zip(files, map(json.loads, lines)):
                with self.subTest(file.name):
                    self.holds(answer, Path(folder) / f"{file.stem}.yaml")

    def holds(self, answer, draft):
        if answer["verdict"] != "turned":
            self.assertIsNotNone(answer["why_no_draft"])
            return
        said = draft.read_text()
        self.assertTrue(turnwright("check", draft).returncode == 0 or "do not fit together" in said, said)
        self.assertEqual(part_of(draft)["material"], "")
        # What the outline has more than the model is never silent.
        if answer["volume_ratio"] < 1 - 1e-5 and not (len(answer["features"]) == 1 and "stock" in part_of(draft)):
            self.assertIn("no material in the model", said)
        if "volume_m3" in answer["draft"] and not answer["recesses"]:
            share = answer["draft"]["volume_m3"] / answer["outline_volume_m3"] - 1
            self.assertTrue(abs(share) < 1e-4 or "differs by" in said, (share, said))


class Bounds(unittest.TestCase):
    """Models come from outside: whatever they hold, one line and an exit status."""

    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.dir = Path(self.folder.name)
        write_solids("made", self.dir)

    def tearDown(self):
        self.folder.cleanup()

    def test_damaged_files_end_with_a_reason(self):
        chance = random.Random(4)
        bytes_of = [(self.dir / f"{n}.step").read_bytes() for n in ("bush", "keyway-nurbs", "hexagon-bolt")]
        damaged = self.dir / "damaged"
        damaged.mkdir()
        for i in range(150 if LONG else 30):
            text = bytearray(bytes_of[i % 3])
            kind = chance.randrange(5)
            if kind == 0:
                text = text[:chance.randrange(len(text))]
            elif kind == 1:
                for _ in range(chance.randrange(1, 40)):
                    text[chance.randrange(len(text))] = chance.randrange(256)
            elif kind == 2:  # other references and numbers
                source = text.decode("latin-1")
                source = re.sub(r"#\d+", lambda m: f"#{chance.randrange(400)}" if chance.random() < 0.02 else m[0], source)
                text = source.encode("latin-1")
            elif kind == 3:
                source = text.decode("latin-1")
                source = re.sub(r"\d+\.\d*", lambda m: chance.choice(["1.E300", "-0.", "1.E-300", "NaN", "7."]) if chance.random() < 0.03 else m[0], source)
                text = source.encode("latin-1")
            else:
                a, b = sorted(chance.randrange(len(text)) for _ in range(2))
                text = text[:a] + text[b:]
            (damaged / f"d{i}.step").write_bytes(bytes(text))
        out = self.dir / "out"
        out.mkdir()
        files = sorted(damaged.iterdir())
        done = turnwright("draft", *files, "--output", out, "--seconds", "20")
        self.assertIn(done.returncode, (0, 1, 2), done.stderr)
        self.assertEqual(len(done.stdout.splitlines()), len(files) + 1, done.stdout)
        # A draft that is written is read, or says itself that it does not fit.
        for draft in out.glob("*.yaml"):
            checked = turnwright("check", draft)
            self.assertTrue(checked.returncode == 0 or "do not fit together" in draft.read_text(), draft.read_text())

    def test_other_files_are_refused(self):
        for name, text in (("empty", ""), ("text", "part: {number: 1}\n"), ("zeros", "\0" * 5000), ("half", "ISO-10303-21;\nHEADER;")):
            path = self.dir / f"{name}.step"
            path.write_text(text)
            done = turnwright("draft", path)
            self.assertEqual((done.returncode, done.stdout), (2, ""), done.stderr)
            self.assertIn(f"{name}.step: no draft: ", done.stderr)
        self.assertEqual(turnwright("draft", self.dir).returncode, 2)
        self.assertEqual(turnwright("draft", self.dir / "none.step").returncode, 3)
        self.assertEqual(turnwright("draft").returncode, 2)
        self.assertEqual(turnwright("draft", self.dir / "pin.step", "--seconds", "0").returncode, 2)

    def test_time_is_bounded(self):
        slow = self.slow_model(self.dir / "slow.step", self.dir / "keyway-nurbs.step", 400)
        start = time.monotonic()
        done = turnwright("draft", slow, "--seconds", "1")
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertIn("slow.step: no draft: reading took longer than 1 s", done.stderr)
        self.assertLess(time.monotonic() - start, 20)

    @staticmethod
    def slow_model(path, source, times):
        """The same entities again and again under other numbers: long to read, much to keep."""
        head, data = source.read_text().split("DATA;")
        data = data.split("ENDSEC;")[0]
        copies = [re.sub(r"#(\d+)", lambda m: f"#{int(m[1]) + n * 20000}", data) for n in range(times)]
        path.write_text(head + "DATA;" + "".join(copies) + "ENDSEC;\nEND-ISO-10303-21;\n")
        return path

    @unittest.skipUnless(LONG, "address space is not bounded under the sanitizers")
    def test_memory_is_bounded(self):
        large = self.slow_model(self.dir / "large.step", self.dir / "keyway-nurbs.step", 400)
        # The bounds that a child has while it reads: its own, whoever started it.
        started = subprocess.Popen([PROGRAM, "draft", large, "--seconds", "20"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        try:
            self.assertEqual(self.limits_of_child(started.pid), {"Max address space": "4294967296", "Max cpu time": "21", "Max core file size": "0"})
        finally:
            started.kill()
            started.communicate()
        # A lower one of the caller's stays, and running into it is said.
        most = 350 << 20
        done = turnwright("draft", large, self.dir / "pin.step", "--output", self.dir,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)))
        self.assertEqual(done.returncode, 1, done.stderr)
        row = next(line for line in done.stdout.splitlines() if line.startswith("large.step"))
        self.assertRegex(row, "more memory|reading the model failed|no STEP file that can be read")
        self.assertTrue((self.dir / "pin.yaml").exists())
        alone = turnwright("draft", large, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)))
        self.assertEqual((alone.returncode, alone.stdout), (2, ""))
        self.assertIn("large.step: no draft: ", alone.stderr)

    def limits_of_child(self, pid):
        wanted = ("Max address space", "Max cpu time", "Max core file size")
        for _ in range(500):
            children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
            if children:
                rows = Path(f"/proc/{children[0]}/limits").read_text().splitlines()
                found = {w: re.split(r"\s{2,}", r)[1] for w in wanted for r in rows if r.startswith(w)}
                if found["Max core file size"] == "0":
                    return found
            time.sleep(0.01)
        self.fail("no child was seen")

    def test_the_program_starts_without_the_library(self):
        needed = subprocess.run(["ldd", PROGRAM], capture_output=True, text=True).stdout
        self.assertNotIn("libTK", needed)
        if not LONG:
            return
        alone = self.dir / "turnwright"
        alone.write_bytes(Path(PROGRAM).read_bytes())
        alone.chmod(0o755)
        done = subprocess.run([alone, "draft", self.dir / "pin.step"], capture_output=True, text=True)
        self.assertEqual((done.returncode, len(done.stderr.splitlines())), (3, 1))
        self.assertIn("libocct-data-exchange-dev", done.stderr)
        self.assertEqual(subprocess.run([alone, "--version"]).returncode, 0)


if __name__ == "__main__":
    unittest.main(verbosity=1)
