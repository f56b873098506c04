"""Published worked examples through the program's figure command; failure prints the source."""
import json
import os
import re
import sys
import unittest

import yaml

sys.path.insert(0, os.path.join(os.environ["ROOT"], "tests"))
from program import run, run_json  # noqa: E402

CASES = yaml.safe_load(open(os.path.join(os.environ["ROOT"], "tests/evidence/figures.yaml"), encoding="utf-8"))
SLIPS = yaml.safe_load(open(os.path.join(os.environ["ROOT"], "tests/evidence/slips.yaml"), encoding="utf-8"))

# Factors to SI, written again here so that the program's own table is not its judge.
LBF = 0.45359237 * 9.80665
UNITS = {"rev/min": 1 / 60, "m/min": 1 / 60, "ratio": 1, "min": 60, "mm3/s": 1e-9, "mm3/min": 1e-9 / 60, "kW": 1e3,
         "W": 1, "hp": 550 * LBF * 0.3048, "N": 1, "mm": 1e-3, "in": 0.0254, "um": 1e-6, "uin": 0.0254e-6,
         "ft/min": 0.3048 / 60, "lb": 0.45359237, "h": 3600, "money": 1, "kg": 1, "cm3/min": 1e-6 / 60,
         "in3/min": 0.0254 ** 3 / 60}


def si(text):
    value, unit = text.split(" ", 1)
    return float(value) * UNITS[unit]


def spaced(text):
    """"100ft/min" as "100 ft/min"."""
    return re.sub(r"^([\d.e-]+)\s*", r"\1 ", text)


def quantity(text):
    """Of a length, in metres."""
    number, unit = spaced(text).split(" ")
    return float(number) * {"m": 1, "mm": 1e-3, "in": 0.0254}[unit]


class Evidence(unittest.TestCase):
    def test_all_cases(self):
        self.assertGreaterEqual(len(CASES), 83)
        for case in CASES:
            with self.subTest(case["id"]):
                found = run_json("figure", case["figure"], *case["inputs"].split())
                real, expected = found["results"][case["result"]]["si"], si(case["expect"])
                self.assertLessEqual(abs(real - expected), abs(expected) * case["tolerance_percent"] / 100,
                                     f"{case['id']}: {real} against {case['expect']} of {case['source']}")

    def test_each_case_backwards(self):
        """Leaving out one input and giving the result finds the input again, or says why not."""
        tried = solved = 0
        for case in CASES:
            words = case["inputs"].split()
            whole = run_json("figure", case["figure"], *words)
            result = whole["results"][case["result"]]
            if isinstance(result["si"], list):
                continue
            for left_out in range(len(words)):
                name = words[left_out].split("=")[0]
                given = words[:left_out] + words[left_out + 1:]
                value = whole["inputs"][name]
                if isinstance(value["si"], (list, str)):
                    continue
                unit = result["unit"]
                status, out, err = run("figure", case["figure"], *given, f"{case['result']}={result['value']!r}{unit}", "--json")
                with self.subTest(f"{case['id']} without {name}"):
                    tried += 1
                    if status == 0:
                        back = json.loads(out)
                        if back["solved_for"] == name:
                            solved += 1
                            self.assertAlmostEqual(back["results"][name]["si"] / value["si"], 1, delta=1e-6)
                    else:
                        self.assertRegex(err, r"answer|does not depend|lacks|out of range|comes out")
        self.assertGreater(solved, 90)
        self.assertGreater(tried, 120)

    def test_printed_slips_are_not_reproduced(self):
        for case in SLIPS:
            with self.subTest(case["id"]):
                found = run_json("figure", case["figure"], *case["inputs"].split())
                real, printed, right = found["results"][case["result"]]["si"], si(case["printed"]), si(case["right"])
                self.assertGreater(abs(real - printed), abs(printed) * case["apart_percent"] / 100, case["source"])
                self.assertAlmostEqual(real / right, 1, delta=1e-3)


    def test_published_examples_through_one_cut(self):
        """What the examples say of speeds and times comes out of `cut` too, at the settings that they name."""
        through = sum(self.cut_says(case) for case in CASES)
        self.assertGreaterEqual(through, 8)

    def cut_says(self, case):
        """1 where the example is about one cut that a lathe of the rates can make, after it was compared."""
        given = dict(word.split("=") for word in case["inputs"].split())
        asked = {"surface-speed": self.surface_speed, "spindle-speed": self.spindle_speed,
                 "turning-time": self.turning_time}.get(case["figure"])
        found = asked(given, case["result"]) if asked else None
        if found is None:
            return 0
        with self.subTest("cut " + case["id"]):
            expected = si(case["expect"])
            self.assertLessEqual(abs(found - expected), abs(expected) * case["tolerance_percent"] / 100, case["source"])
        return 1

    @staticmethod
    def at(diameter, length, settings):
        """Half a millimetre a side off this diameter, set so; None where no lathe of the rates takes it."""
        smaller = spaced(f"{quantity(diameter) - 0.001!r} m")
        status, out, _ = run("cut", "C45", f"{spaced(diameter)} to {smaller} x{length}", "--at", settings, "--json",
                             "--machine", "CNC lathe, heavy")
        return json.loads(out)["at"] if status == 0 else None

    def surface_speed(self, given, _):
        now = self.at(given["diameter"], "60 mm", spaced(given["spindle-speed"]))
        return now and now["surface_speed_m_per_s"]

    def spindle_speed(self, given, _):
        now = self.at(given["diameter"], "60 mm", spaced(given["surface-speed"]))
        return now and now["spindle_per_s"]

    def turning_time(self, given, result):
        """Our own approach and what is left at the shoulder fall out between two lengths."""
        if result != "time" or "overrun" in given:
            return None
        settings = f"{spaced(given['spindle-speed'])}, {spaced(given['feed'])}"
        length = quantity(given["length"])
        whole = length + quantity(given.get("approach", "0 mm"))
        short, long = (self.at("50mm", f"{mm!r} m", settings) for mm in (length, length + whole))
        return short and long and (long["cutting_s"] - short["cutting_s"]) * float(given.get("passes", 1))


if __name__ == "__main__":
    unittest.main()
