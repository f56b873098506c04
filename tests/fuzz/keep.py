"""The few inputs of a target that reach most of it, as its corpus in the repository: libFuzzer tells what each reaches
(-merge=1), the one that adds most per byte is kept first.
usage: keep.py TARGET [BUILD] [HOW MANY]"""
import os
import shutil
import subprocess
import sys
import tempfile

ROOT = os.path.normpath(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
LONGEST = 2000  # bytes of an input that is kept


def reached(fuzzer, folders):
    """By file: what of the target it reaches."""
    with tempfile.TemporaryDirectory() as work:
        control = os.path.join(work, "control")
        out = os.path.join(work, "merged")
        os.mkdir(out)
        subprocess.run([fuzzer, "-merge=1", f"-merge_control_file={control}", "-timeout=20", out, *folders],
                       check=True, capture_output=True)
        with open(control, encoding="utf-8") as file:
            lines = file.read().splitlines()
    n = int(lines[0])
    names, features = lines[2:2 + n], {}
    for line in lines[2 + n:]:
        kind, i, *rest = line.split()
        if kind == "FT":
            features[names[int(i)]] = set(rest)
    return features


def chosen(features, most):
    seen, kept = set(), []
    small = {f: has for f, has in features.items() if os.path.getsize(f) <= LONGEST}
    while len(kept) < most and small:
        best = max(small, key=lambda f: (len(small[f] - seen) / (200 + os.path.getsize(f)), f))
        if not small[best] - seen:
            break
        seen |= small.pop(best)
        kept.append(best)
    return kept


def main():
    target, build, most = (sys.argv[1:] + ["build-sanitize", "40"][len(sys.argv) - 2:])
    corpus = os.path.join(ROOT, "tests/fuzz/corpus", target)
    os.makedirs(corpus, exist_ok=True)
    folders = [corpus, os.path.join(ROOT, "build-fuzz", target, "found")]
    fuzzer = os.path.join(ROOT, build, "tests/fuzz", "fuzz-" + target)
    texts = []
    for path in chosen(reached(fuzzer, [f for f in folders if os.path.isdir(f)]), int(most)):
        with open(path, "rb") as file:
            texts.append((os.path.basename(path), file.read()))
    shutil.rmtree(corpus)
    os.makedirs(corpus)
    for name, text in texts:
        with open(os.path.join(corpus, name[:12]), "wb") as file:
            file.write(text)
    print(f"{target}: {len(texts)} inputs, {sum(len(t) for _, t in texts)} bytes")


if __name__ == "__main__":
    main()
