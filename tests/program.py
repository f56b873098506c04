"""Runs the built program for the tests written in Python. TURNWRIGHT and ROOT come from ctest."""
import json
import os
import subprocess
import tempfile

PROGRAM = os.environ["TURNWRIGHT"]
ROOT = os.environ["ROOT"]
SAMPLES = os.path.join(ROOT, "samples")
SHOP = os.path.join(SAMPLES, "shop")
SANITIZED = os.environ.get("SANITIZED") == "ON"
SECONDS = 600 if SANITIZED else 120  # for one run


def run(*words, stdin=None, env=None, cwd=None):
    merged = dict(os.environ, **(env or {}))
    if any(str(word).endswith(".pdf") for word in words):
        # The library of the fonts keeps its memory at the end, which a sanitized build calls a leak.
        merged["ASAN_OPTIONS"] = ":".join(filter(None, [merged.get("ASAN_OPTIONS"), "detect_leaks=0"]))
    done = subprocess.run([PROGRAM, *words], input=stdin, capture_output=True, text=True, env=merged,
                          cwd=cwd, timeout=SECONDS)
    return done.returncode, done.stdout, done.stderr


def run_json(*words, **more):
    status, out, err = run(*words, "--json", **more)
    if status not in (0, 1):
        raise AssertionError(f"{words}: exit {status}\n{err}")
    return json.loads(out) if out else None


def has_decimal_comma(locale="de_DE.UTF-8"):
    """Whether the locale, made where it is not there, writes decimals with a comma."""
    language, encoding = locale.split(".")
    subprocess.run(["localedef", "-i", language, "-f", encoding, locale], capture_output=True)
    told = subprocess.run(["locale", "decimal_point"], env=dict(os.environ, LC_ALL=locale), capture_output=True, text=True)
    return told.stdout.strip() == ","


def folder():
    return tempfile.TemporaryDirectory()


def sample(name):
    return os.path.join(SAMPLES, name)


def text_of(path):
    with open(path, encoding="utf-8") as file:
        return file.read()
