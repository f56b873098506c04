"""The same input gives the same bytes: whatever the locale, the time zone, the folder, the number of
threads, the processes a list is split over, and the compiler the program was built by."""
import os
import subprocess
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import PROGRAM, SANITIZED, SHOP, folder, has_decimal_comma, sample  # noqa: E402

OTHER = os.environ.get("OTHER_TURNWRIGHT", "")  # built by another compiler
WEEK = ["load", sample("12-week.yaml"), "--effort", "0.1"]  # as long as it takes to find the same
HEAD = "number,name,material,stock,quantities,outside\n"


def rows(n):
    return [f"P-{i},pin,C45,\"round {30 + i % 7 * 5}, drawn\",{1 + i % 3 * 10},{20 + i % 5} x{30 + i % 40} | {25 + i % 5} x{20 + i % 11}\n"
            for i in range(n)]


def bytes_of(words, program=PROGRAM, **more):
    env = dict(os.environ, **more.pop("env", {}))
    done = subprocess.run([program, *words], capture_output=True, env=env, timeout=900, **more)
    assert done.returncode in (0, 1), (words, done.returncode, done.stderr[-500:])
    return done.stdout


class SameBytes(unittest.TestCase):
    COMMANDS = [["quote", sample("01-winch-spindle.yaml"), "--json"], ["quote", sample("01-winch-spindle.yaml"), "--language", "de"],
                ["compare", sample("02-bush-blank.yaml"), "--json"], ["route", sample("02-bush-blank.yaml"), "--json"],
                ["card", "--machine", "Tarn CNC 1", "--materials", "C45", "--json"]]
    ENVIRONMENTS = [{"LC_ALL": "de_DE.UTF-8"}, {"LC_ALL": "C"}, {"TZ": "Pacific/Kiritimati"}, {"TZ": "America/Los_Angeles", "LANG": "de_DE.UTF-8"},
                    {"HOME": "/nowhere", "COLUMNS": "20"}]

    def test_locales_zones_and_folders(self):
        self.assertTrue(has_decimal_comma(), "no locale with a decimal comma, and localedef makes none")
        with folder() as work:
            for words in self.COMMANDS:
                words = [*words, "--shop", SHOP]
                expected = bytes_of(words)
                for env in self.ENVIRONMENTS:
                    self.assertEqual(bytes_of(words, env=env), expected, env)
                self.assertEqual(bytes_of(words, cwd=work), expected)

    def test_files_have_no_clock_and_no_name_of_their_folder(self):
        with folder() as one, folder() as other:
            for name in ("q.xlsx", "q.html", "q.json"):
                found = []
                for work, env in ((one, {"TZ": "UTC"}), (other, {"TZ": "Asia/Tokyo", "LC_ALL": "de_DE.UTF-8"})):
                    bytes_of(["quote", sample("02-bush-blank.yaml"), "--shop", SHOP, "--output", name], cwd=work, env=env)
                    with open(os.path.join(work, name), "rb") as file:
                        found.append(file.read())
                self.assertEqual(found[0], found[1], name)

    def test_threads(self):
        with folder() as work:
            path = os.path.join(work, "l.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write(HEAD + "".join(rows(100)))
            words = ["quote", path, "--shop", SHOP]
            expected = bytes_of([*words, "--jobs", "1"])
            for jobs in ("2", "5", "16"):
                self.assertEqual(bytes_of([*words, "--jobs", jobs]), expected)
            week = [*WEEK, "--shop", SHOP, "--json"]
            self.assertEqual(bytes_of([*week, "--jobs", "1"]), bytes_of([*week, "--jobs", "3"]))

    @unittest.skipIf(not OTHER, "skipped: no program of another compiler named")
    def test_compilers(self):
        for words in self.COMMANDS:
            words = [*words, "--shop", SHOP]
            self.assertEqual(bytes_of(words), bytes_of(words, program=OTHER), words)
        text = (HEAD + "".join(rows(50))).encode()
        words = ["quote", "-", "--shop", SHOP]
        self.assertEqual(bytes_of(words, input=text), bytes_of(words, program=OTHER, input=text))
        for words in ([*WEEK, "--shop", SHOP, "--json"], ["rates", "--shop", SHOP, "--json"]):
            self.assertEqual(bytes_of(words), bytes_of(words, program=OTHER), words)
        # Tables: of a list, of a week, of a card; and files, not only what goes to the terminal.
        for words, name in ((["quote", sample("01-winch-spindle.yaml")], "q.csv"), (WEEK, "w.csv"),
                            (["card", "--machine", "Tarn CNC 1", "--materials", "C45"], "c.csv"),
                            (["quote", sample("02-bush-blank.yaml")], "q.json"), (["compare", sample("02-bush-blank.yaml")], "m.json")):
            found = []
            for program in (PROGRAM, OTHER):
                with folder() as work:
                    bytes_of([*words, "--shop", SHOP, "--output", name], program=program, cwd=work)
                    with open(os.path.join(work, name), "rb") as file:
                        found.append(file.read())
            self.assertEqual(found[0], found[1], words)


class Shards(unittest.TestCase):
    def test_a_list_over_pipes_in_eight_processes_is_the_list(self):
        count = 400 if SANITIZED else int(os.environ.get("SHARD_ROWS", "2000"))
        all_rows = rows(count)
        words = ["quote", "-", "--shop", SHOP, "--jobs", "1", "--output", "-"]
        whole = bytes_of(words, input=(HEAD + "".join(all_rows)).encode())
        running = []
        for i in range(8):
            part = all_rows[i * count // 8:(i + 1) * count // 8]
            process = subprocess.Popen([PROGRAM, *words], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
            process.stdin.write((HEAD + "".join(part)).encode())
            process.stdin.close()
            running.append(process)
        joined = b""
        for i, process in enumerate(running):
            out = process.stdout.read()
            self.assertEqual(process.wait(), 0)
            process.stdout.close()
            joined += out if i == 0 else out[out.index(b"\n") + 1:]
        self.assertEqual(joined, whole)

    @unittest.skipIf(SANITIZED, "the sanitizers keep what was freed")
    def test_memory_does_not_grow_with_the_list(self):
        peaks = [self.peak_kb(count) for count in (200, 2000)]
        self.assertLess(peaks[1], peaks[0] + 4096, peaks)

    def peak_kb(self, count):
        with folder() as work:
            path = os.path.join(work, "l.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write(HEAD + "".join(rows(count)))
            with open(path, "rb") as file:
                process = subprocess.Popen([PROGRAM, "quote", "-", "--shop", SHOP, "--jobs", "2", "--output", "-"], stdin=file,
                                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
                _, status, used = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
            self.assertEqual(process.returncode, 0)
            return used.ru_maxrss


if __name__ == "__main__":
    unittest.main()
