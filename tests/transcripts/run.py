"""Transcripts: command lines and what they print, as a user reads them.

    run.py [--rewrite] [FILE...]     all of this folder without FILE; TURNWRIGHT and ROOT as for the other tests

A transcript runs from top to bottom in an empty folder of its own, in which samples, rates, templates and
tests are those of the repository. Its lines are

    # text                    what is shown here
    > part.yaml               a file, its lines after it, up to a line that is only >
    $ turnwright WORDS        a command; 'cat FILE' and 'ls FOLDER' are understood too
    $ ... < FILE              its standard input
    $ ... | head -n N         only the first lines of standard output
    $ ... | keys              only the paths of a JSON document, sorted

and below each command standard output as it stands, standard error after "! ", and "= 2" where the exit status
is not 0. A line of output that begins like one of these gets a backslash before it. Folders, digests and
errors of rounding are masked, all else is compared exactly. --rewrite writes what is printed now, to be reviewed
by eye. When all transcripts run, each command with each option that its help names must stand in one.
"""
import concurrent.futures
import difflib
import glob
import json
import os
import re
import shlex
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
for name in ("TURNWRIGHT", "ROOT"):  # the commands run in another folder
    os.environ[name] = os.path.abspath(os.environ[name])
sys.path.insert(0, os.path.dirname(HERE))
from program import ROOT, run, text_of  # noqa: E402

COMMAND = re.compile(r"\$ (?P<words>.*?)(?: < (?P<stdin>\S+))?(?: \| (?P<filter>head -n \d+|keys))?")
STATUSES = (0, 1, 2, 3)  # what help names; anything else is a crash, which no transcript may show
VISIBLE = ("samples", "rates", "templates", "tests")


def items(text):
    """What a transcript says to do: ("text" | "file" | "command", its lines); output is left out."""
    found, lines = [], iter(text.splitlines())
    after_text = False
    for line in lines:
        if line.startswith("#"):
            if after_text:
                found[-1][1].append(line)
            else:
                found.append(("text", [line]))
        elif line.startswith("> "):
            block = [line]
            for inner in lines:
                block.append(inner)
                if inner == ">":
                    break
            else:
                raise ValueError(f"'{line}' has no end, a line that is only >")
            found.append(("file", block))
        elif line.startswith("$ "):
            found.append(("command", [line]))
        after_text = line.startswith("#")
    return found


def key_paths(value, path=""):
    if isinstance(value, dict) and value:
        for key, inner in value.items():
            yield from key_paths(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for inner in value or [None]:
            yield from key_paths(inner, path + "[]")
    else:
        yield path


def keys(text):
    """Of one JSON document, or of several one after the other."""
    decoder, found, rest = json.JSONDecoder(), set(), text.strip()
    while rest:
        value, end = decoder.raw_decode(rest)
        found.update(key_paths(value))
        rest = rest[end:].lstrip()
    return "".join(path + "\n" for path in sorted(found))


def filtered(text, how):
    if how is None or not text:
        return text
    if how == "keys":
        return keys(text)
    return "".join(text.splitlines(keepends=True)[:int(how.split()[-1])])


def printed_by(line, folder):
    """Exit status, standard output and standard error of a command line."""
    parts = COMMAND.fullmatch(line)
    program, *words = shlex.split(parts["words"])
    status, err = 0, ""
    if program == "turnwright":
        stdin = text_of(os.path.join(folder, parts["stdin"])) if parts["stdin"] else ""
        status, out, err = run(*words, stdin=stdin, cwd=folder)
        if status not in STATUSES:
            raise AssertionError(f"'{line}' ended with {status}\n{err}")
    elif program == "cat":
        out = text_of(os.path.join(folder, words[0]))
    elif program == "ls":
        names = sorted(os.listdir(os.path.join(folder, *words)))
        out = "".join(name + "\n" for name in names if name not in VISIBLE)
    else:
        raise ValueError(f"'{line}': expected turnwright, cat or ls")
    return status, filtered(out, parts["filter"]), err


def masked(text, folder):
    """Without what is another on every computer: folders, digests, temporary names, errors of rounding."""
    text = text.replace(folder, "<folder>").replace(ROOT, "<root>")
    text = re.sub(r"\b[0-9a-f]{64}\b", "<sha256>", text)
    text = re.sub(r"(?<=\.part)\d+", "<n>", text)
    return re.sub(r"(?<=volumes add up to )[\d.e-]+|\b\d+(\.\d+)?e-\d+\b", "<rounding>", text)


def shown(status, out, err):
    lines = [re.sub(r"^(?=[#>$\\]|! |= )", r"\\", line) for line in out.split("\n")]
    if lines[-1] == "":
        lines.pop()
    else:
        lines.append("\\ no newline at the end")
    lines += ["! " + line if line else "!" for line in err.splitlines()]
    return lines + ([f"= {status}"] if status != 0 else [])


def written_anew(text):
    """The transcript with what the program prints now."""
    lines, before = [], ""
    with tempfile.TemporaryDirectory() as work:
        folder = os.path.realpath(work)
        for name in VISIBLE:
            os.symlink(os.path.join(ROOT, name), os.path.join(folder, name))
        for kind, block in items(text):
            if lines and before != "remark":
                lines.append("")
            before = "remark" if kind == "text" and lines else kind
            lines += block
            if kind == "file":
                path = os.path.join(folder, block[0][2:])
                os.makedirs(os.path.dirname(path), exist_ok=True)
                with open(path, "w", encoding="utf-8") as file:
                    file.write("".join(line + "\n" for line in block[1:-1]))
            elif kind == "command":
                status, out, err = printed_by(block[0], folder)
                lines += shown(status, masked(out, folder), masked(err, folder))
    return "".join(line + "\n" for line in lines)


def unshown(texts):
    """Commands, and options of commands, that no transcript uses."""
    used = [shlex.split(COMMAND.fullmatch(line)["words"])
            for text in texts for kind, (line, *_) in items(text) if kind == "command"]
    used = {(line[1], word.split("=")[0]) for line in used if line[0] == "turnwright" for word in line[2:]}
    commands = re.findall(r"^  (\w+) ", run("--help")[1], re.M)
    if not reads_models():
        commands.remove("draft")
    if not commands:
        return ["turnwright --help names no command"]
    asked = [(c, option) for c in commands for option in re.findall(r"^  (--[\w-]+)", run(c, "--help")[1], re.M)]
    # Every command takes these, and they do the same everywhere: once is enough.
    everywhere = {"--language", "--version"} & {option for _, option in used} | {"--version"}
    return [f"no transcript of 'turnwright {command} … {option}'" for command, option in asked
            if (command, option) not in used and option not in everywhere]


def reads_models():
    """The plug-in of `draft` is built only where its library is installed."""
    return run("draft", os.path.join(ROOT, "samples/13-flange.step"))[0] != 3


def tried(text):
    """The transcript written anew, or why it cannot be."""
    try:
        return written_anew(text), ""
    except (AssertionError, OSError, ValueError, subprocess.TimeoutExpired) as error:
        return text, str(error)


def main(words):
    rewrite = "--rewrite" in words
    named = [os.path.abspath(word) for word in words if word != "--rewrite"]
    paths = named or sorted(glob.glob(os.path.join(HERE, "*.txt")))
    if not reads_models():
        paths = [path for path in paths if os.path.basename(path) != "draft.txt"]
    before = [text_of(path) for path in paths]
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        after = list(pool.map(tried, before))
    faults, changed = [], 0
    for path, old, (new, why) in zip(paths, before, after):
        name = os.path.basename(path)
        if why:
            faults.append(f"{name}: {why}")
        if old == new:
            continue
        changed += 1
        sys.stdout.writelines(difflib.unified_diff(old.splitlines(keepends=True), new.splitlines(keepends=True),
                                                   name, name + " as printed now"))
        if rewrite:
            with open(path, "w", encoding="utf-8") as file:
                file.write(new)
    if not named:
        faults += unshown(before)
    print(*faults, f"{len(paths)} transcripts, {changed} {'written anew' if rewrite else 'different'}", sep="\n")
    return 1 if faults or (changed and not rewrite) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
