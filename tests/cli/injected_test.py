"""The disk fails at every single call of every command that writes: the old file or the new one
stays, never a piece of one, and nothing of ours beside it. Needs strace, which makes the calls fail."""
import io
import os
import random
import re
import shutil
import subprocess
import sys
import time
import unittest
import zipfile

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import PROGRAM, SANITIZED, SHOP, folder, text_of  # noqa: E402

OLD = b"what stood there before\n"
CALLS = {"openat": "EMFILE", "write": "ENOSPC", "fsync": "EIO", "rename": "EACCES", "renameat2": "EIO", "close": "EIO"}
ENV = dict(os.environ, LC_ALL="C.UTF-8")
PIN = ("part: {number: X, name: pin}\nmaterial: C45\nstock: {round: 30, condition: drawn}\nquantities: [10]\n"
       "outside: [20 x30, 25 x20]\n")
ROWS = "number,material,outside,stock\nX,C45,20 x30,\"round 25, drawn\"\nY,nothing,20 x31,\"round 25, drawn\"\n"
WEEK = ("week: {from: 2026-12-07, to: 2026-12-11}\nshifts: [{name: early, from: '06:00', to: '14:00'}]\n"
        "machines: [{machine: Tarn CNC 1, shifts: early}]\norders: [{order: A, part: pin.yaml, quantity: 5, due: 2026-12-09}]\n")
BOOKED = ("order,operation,machine,person,kind,start,end,good,scrap,note\n"
          "A,10,Tarn CNC 1,Ines,run,2026-12-07T07:00,2026-12-07T07:20,5,0,\n")
REQUEST = ("request: {customer: A, our number: Q-1, date: 2026-12-01}\nparts: [{part: pin.yaml}]\n")

# Words of the command, the files that it writes into the folder `out`.
COMMANDS = {
    "quote, workbook": (["quote", "pin.yaml", "--shop", SHOP, "--output", "out/q.xlsx"], ["q.xlsx"]),
    "quote, page": (["quote", "pin.yaml", "--shop", SHOP, "--output", "out/q.html"], ["q.html"]),
    "list": (["quote", "l.csv", "--shop", SHOP, "--jobs", "1", "--output", "out/l.csv"], ["l.csv", "l.again.csv"]),
    "list, workbook": (["quote", "l.csv", "--shop", SHOP, "--jobs", "1", "--output", "out/l.xlsx"], ["l.xlsx", "l.again.csv"]),
    "workbooks": (["quote", "l.csv", "--shop", SHOP, "--jobs", "1", "--workbooks", "out"], ["X.xlsx"]),
    "offer": (["offer", "r.yaml", "--shop", SHOP, "--output", "out/o.html"], ["o.html"]),
    "offer, workbook": (["offer", "r.yaml", "--shop", SHOP, "--output", "out/o.xlsx"], ["o.xlsx"]),
    "card": (["card", "--shop", SHOP, "--machine", "Tarn CNC 1", "--materials", "C45", "--output", "out/c.csv"], ["c.csv"]),
    "actuals": (["actuals", "w.yaml", "b.csv", "--shop", SHOP, "--output", "out/a.yaml"], ["a.yaml"]),
    "load": (["load", "w.yaml", "--shop", SHOP, "--jobs", "1", "--output", "out/w.xlsx"], ["w.xlsx"]),
    "new": (["new", "part", "out/p.yaml"], ["p.yaml"]),
}


def traced(words, work, *tracing):
    return subprocess.run(["strace", "-f", "--seccomp-bpf", "-o", "trace", *tracing, PROGRAM, *words],
                          cwd=work, capture_output=True, env=ENV, timeout=300)


def calls_of(words, work, call):
    """How often the program makes a call, and at which the loader has ended."""
    traced(words, work, "-e", f"trace={call}")
    lines = [line for line in text_of(os.path.join(work, "trace")).splitlines() if f"{call}(" in line]
    own = [i for i, line in enumerate(lines) if re.search(r"out|fsync|rename|shop|tmp|\.yaml|O_TMPFILE|<\?xml|PK", line)]
    return own[0] + 1 if own else 1, len(lines)


def parts_of(book):
    """The parts of a workbook, each unpacked and so checked; none of anything else."""
    if not book or not book.startswith(b"PK"):
        return {}
    with zipfile.ZipFile(io.BytesIO(book)) as parts:
        return {name: parts.read(name) for name in parts.namelist()}


def cells_of(book):
    """All texts, and how many cells each sheet has: rows move up where there is no drawing."""
    parts = parts_of(book)
    return parts.get("xl/sharedStrings.xml"), {name: data.count(b"<c ") for name, data in parts.items() if "/sheet" in name}


class Written(unittest.TestCase):
    """A folder of inputs, and what a command writes into `out`, where something stands already."""
    def setUp(self):
        held = folder()
        self.addCleanup(held.cleanup)
        self.work = held.name
        for name, text in (("pin.yaml", PIN), ("l.csv", ROWS), ("r.yaml", REQUEST), ("w.yaml", WEEK), ("b.csv", BOOKED)):
            with open(os.path.join(self.work, name), "w", encoding="utf-8") as file:
                file.write(text)
        os.mkdir(os.path.join(self.work, "out"))

    def reset(self, names, fresh):
        out = os.path.join(self.work, "out")
        shutil.rmtree(out)
        os.mkdir(out)
        for name in [] if fresh else names:
            with open(os.path.join(out, name), "wb") as file:
                file.write(OLD)

    def contents(self):
        out = os.path.join(self.work, "out")
        found = {}
        for name in sorted(os.listdir(out)):
            path = os.path.join(out, name)
            if os.path.isfile(path):
                with open(path, "rb") as file:
                    found[name] = file.read()
        return found

    def whole(self, words, names):
        """What the command writes when nothing fails."""
        self.reset(names, words[0] == "new")
        done = subprocess.run([PROGRAM, *words], cwd=self.work, capture_output=True, env=ENV)
        self.assertIn(done.returncode, (0, 1), done.stderr)
        return self.contents()


@unittest.skipIf(shutil.which("strace") is None, "skipped: no strace here")
@unittest.skipIf(SANITIZED, "skipped: the sanitizer traces itself")
class EveryCallFails(Written):
    def every_call(self, name):
        words, names = COMMANDS[name]
        fresh = words[0] == "new"
        whole = self.whole(words, names)
        tried = 0
        for call, fault in CALLS.items():
            first, count = calls_of(words, self.work, call)
            for n in range(first, count + 1):
                for lasting in ("", "+"):
                    self.reset(names, fresh)
                    failed = traced(words, self.work, "-e", f"trace={call}", "-e", f"inject={call}:error={fault}:when={n}{lasting}")
                    place = f"{name}: {call} {n}{lasting}: exit {failed.returncode}: {failed.stderr.decode()[-300:]}"
                    tried += 1
                    if failed.returncode == 127:  # the loader itself
                        continue
                    self.assertIn(failed.returncode, (0, 1, 2, 3), place)
                    left = self.contents()
                    self.assertLessEqual(set(left), set(whole), place)
                    for file in names:
                        stays = left.get(file)
                        if call in ("openat", "close") and stays != OLD and "xl/media/image1.png" in parts_of(whole[file]):
                            # What draws, or its font, could not be read: all else is there.
                            self.assertEqual(cells_of(stays), cells_of(whole[file]), place)
                            continue
                        self.assertIn(stays, (OLD if not fresh else None, whole[file]), place)
                        if failed.returncode in (0, 1) and stays is not None:
                            self.assertEqual(stays, whole[file], place)
        print(f"{name}: {tried} faults", file=sys.stderr)
        self.assertGreater(tried, 5)


for title in COMMANDS:
    def test(self, title=title):
        self.every_call(title)
    setattr(EveryCallFails, "test_" + re.sub(r"\W+", "_", title), test)


class KilledAtAnyMoment(Written):
    def test_the_old_file_or_the_new_one_stays(self):
        rounds = int(os.environ.get("KILLS", "60"))
        draw = random.Random(2026)
        for name in ("list", "list, workbook", "quote, workbook"):
            words, names = COMMANDS[name]
            whole = self.whole(words, names)
            began = time.monotonic()
            self.whole(words, names)
            took = time.monotonic() - began
            for _ in range(rounds // 3):
                self.reset(names, False)
                process = subprocess.Popen([PROGRAM, *words], cwd=self.work, env=ENV, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
                time.sleep(draw.uniform(0, 1.1 * took))
                process.kill()
                process.wait()
                left = self.contents()
                for file in names:
                    self.assertIn(left[file], (OLD, whole[file]), name)
                for file in set(left) - set(whole):
                    self.assertRegex(file, r"^\.turnwright-\d+\.part$")


class RealDisks(Written):
    def test_a_full_disk_leaves_the_old_file(self):
        probe = subprocess.run(["unshare", "-rm", "mount", "-t", "tmpfs", "none", os.path.join(self.work, "out")], capture_output=True)
        if probe.returncode != 0:
            self.skipTest("skipped: no disk of our own can be made here")
        for name, (words, names) in COMMANDS.items():
            whole = self.whole(words, names)
            size = max(len(whole[file]) for file in names)
            for room in (0, size // 2):
                # Pages of 4 KiB: what stands there, and so much more.
                pages = len(names) + max(room // 4096, 0)
                old = " ".join(f"out/{file}" for file in names) if words[0] != "new" else ""
                script = (f"mount -t tmpfs -o size={4 * pages}k none out && for f in {old}; do echo old > $f; done; "
                          f"\"$@\"; s=$?; for f in {old}; do [ \"$(cat $f)\" = old ] || exit 90; done; [ -z \"$(ls -A out | grep part)\" ] || exit 91; exit $s")
                done = subprocess.run(["unshare", "-rm", "sh", "-c", script, "sh", PROGRAM, *words], cwd=self.work, capture_output=True, text=True, env=ENV)
                if done.returncode in (0, 1) or (done.returncode == 90 and size < 4096):
                    continue  # there was room
                self.assertEqual(done.returncode, 3, f"{name}, {pages} pages: {done.stderr}")


if __name__ == "__main__":
    unittest.main()
