"""Speed of single calls, not a test: processor time and page faults from start to end, the least of twenty.
TURNWRIGHT=build/turnwright python3 tests/bench/start.py"""
import os
import subprocess
import tempfile

PROGRAM = os.environ.get("TURNWRIGHT", "build/turnwright")
PART = ["samples/01-winch-spindle.yaml", "--shop", "samples/shop"]


def least(words, runs=20):
    found = []
    for _ in range(runs):
        process = subprocess.Popen([PROGRAM, *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        found.append((used.ru_utime + used.ru_stime, used.ru_minflt, process.returncode))
    return min(found)


with tempfile.TemporaryDirectory() as folder:
    for name, words in (("version", ["--version"]), ("figure", ["figure", "spindle-speed", "surface-speed=200", "diameter=50"]),
                        ("quote", ["quote", *PART]), ("workbook", ["quote", *PART, "--output", f"{folder}/q.xlsx"])):
        seconds, faults, status = least(words)
        print(f"{name:9} {seconds * 1000:6.1f} ms {faults:6} page faults, ended with {status}")
