"""Not a test: how long lists take and how much memory, printed. TURNWRIGHT=build/turnwright python3 tests/bench/lists.py"""
import csv
import os
import resource
import subprocess
import sys
import tempfile
import time

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "../..")
PROGRAM = os.environ.get("TURNWRIGHT", os.path.join(ROOT, "build/turnwright"))
SHOP = os.path.join(ROOT, "samples/shop")
with open(os.path.join(ROOT, "samples/08-list.csv"), encoding="utf-8", newline="") as file:
    HEAD, *ROWS = list(csv.reader(file))
GOOD = [r for r in ROWS if r[0] not in ("FV-406", "FV-414", "FV-422")]


def timed(rows, kind, jobs):
    with tempfile.TemporaryDirectory() as work:
        path, out = os.path.join(work, "list.csv"), os.path.join(work, "priced." + kind)
        with open(path, "w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(HEAD)
            writer.writerows([f"L{i}", *GOOD[i % len(GOOD)][1:]] for i in range(rows))
        begin = time.monotonic()
        code = ("import resource, subprocess, sys; s = subprocess.run(sys.argv[1:], stderr=subprocess.DEVNULL).returncode; "
                "print(s, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)")
        said = subprocess.run([sys.executable, "-c", code, PROGRAM, "quote", path, "--shop", SHOP, "--output", out, "--jobs", str(jobs)],
                              capture_output=True, text=True, check=True).stdout.split()
        seconds = time.monotonic() - begin
        if said[0] != "0":
            raise SystemExit(f"exit {said[0]}")
        print(f"{rows:7d} parts to .{kind:4s} {jobs} at once {seconds:7.2f} s, {int(said[1]) / 1024:6.1f} MB")
        return seconds


timed(200, "xlsx", 2)
one, two = timed(10000, "csv", 1), timed(10000, "csv", 2)
print(f"        two at once are {one / two:.2f} times as fast (at least 1.8)")
timed(1000, "csv", 2)
timed(100000, "csv", 2)
timed(10000, "xlsx", 2)
