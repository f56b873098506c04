"""No sentence bypasses the words catalogue. With `--language test` every sentence of the catalogue comes
in ⟦ ⟧ and every name from data (a part, a material, a machine, what a person wrote) in ‹ ›. Here the
program runs over all samples, all commands and all forms of output; bracketed parts, numbers and units
are taken away, and two letters in a row that are left were written past the catalogue.

    TURNWRIGHT=build/turnwright /usr/bin/python3 tests/house/bracketed.py [COMMAND…]
"""
import io
import json
import os
import re
import subprocess
import sys
import tempfile
import zipfile
from concurrent.futures import ThreadPoolExecutor
from html.parser import HTMLParser
from xml.etree import ElementTree

import source

PROGRAM = os.environ.get("TURNWRIGHT", os.path.join(source.ROOT, "build", "turnwright"))
LANGUAGE = ["--language", "test"]
SAMPLES = os.path.join(source.ROOT, "samples")
SHOP = ["--shop", os.path.join(SAMPLES, "shop")]
JOBS = int(os.environ.get("JOBS", os.cpu_count() or 1))
SECONDS = 300  # for one run
SHOWN_EACH = 12  # findings shown of one run; the others are counted

# What may stand without brackets.
UNITS = set("""mm cm dm in ft um µm μm mil Nm kN MN kW hp lb oz kg min rev rpm deg rad mrad ms GPa MPa kPa
    psi ksi Ra Rz HB HRC HV EUR USD GBP CHF SEK PLN CZK ppm Hz kHz cos sin tan sqrt ln exp pi""".split())
PROPER_NAMES = {"Turnwright"}  # the program; its makers write it alike in every language
# Members of the JSON that hold a sentence, in English in every language: each must stand beside the id of the
# catalogue that it was made from. All other texts there are ids, names and amounts.
JSON_SENTENCES = {"text", "sentence", "message", "english"}
ICS_TEXTS = {"SUMMARY", "DESCRIPTION", "LOCATION", "COMMENT", "CATEGORIES", "X-WR-CALNAME", "X-WR-CALDESC"}
HTML_TEXTS = {"title", "alt", "aria-label", "aria-description", "aria-roledescription", "placeholder", "label", "summary"}
# What the command line itself looks like: file names, options, commands and NAMES of their values.
PATH = re.compile(r"(?<![\w])[\w./\\-]*[\w]\.(yaml|yml|csv|xlsx|html|json|txt|ics)\b(:\d+(:\d+)?)?|(?<!\w)/[\w./-]+")
OPTION = re.compile(r"(?<![\w-])--[a-z][a-z-]*")
# Who speaks on standard error.
SPEAKER = re.compile(r"(?m)^turnwright( [a-z]+)?: ")

BRACKETS = {"⟦": "⟧", "‹": "›"}
NUMBER = re.compile(r"[-+−±]?\d[\d.,'\u2009\u202f\u00a0]*(?:[eE][-+]?\d+)?")
TOKEN = re.compile(r"[^\W\d_][^\s()\[\]{},;:|=+*<>\"'„“”‚‘’!?]*")
LETTERS = re.compile(r"[^\W\d_]{2,}")


def unbracketed(text):
    """The text outside all brackets, which may stand in each other; a bracket too many stays a finding."""
    out, open_ones = [], []
    for c in text:
        if c in BRACKETS:
            open_ones.append(BRACKETS[c])
            out.append(" ")
        elif c in BRACKETS.values():
            if open_ones and open_ones[-1] == c:
                open_ones.pop()
            else:
                out.append(" brackets do not match ")
        elif not open_ones:
            out.append(c)
        elif c == "\n":
            out.append(c)
    if open_ones:
        out.append(" a bracket stays open ")
    return "".join(out)


def is_unit(token):
    parts = re.split(r"[/·.^²³⁻¹\d-]+", token.rstrip(".…"))
    return all(p in UNITS or len(p) < 2 for p in parts)


def left_over(text, names=frozenset(), quoted=frozenset()):
    """Words that stand outside brackets, each with the line of the text that it stands in. A line that a
    problem quotes from a file is the user's own."""
    found = []
    if quoted:
        text = "\n".join("" if re.sub(r"^[\s\d|>:]+", "", line).strip() in quoted else line for line in text.split("\n"))
    plain = OPTION.sub(" ", PATH.sub(" ", unbracketed(text)))
    for number, line in enumerate(plain.split("\n"), start=1):
        bare = NUMBER.sub(" ", line)
        for m in TOKEN.finditer(bare):
            token = m.group().rstrip(".…")
            if LETTERS.search(token) and not is_unit(token) and token not in PROPER_NAMES | set(names):
                found.append((number, token))
    return found


# ---- texts of each form of output: [(where, text)]

class Page(HTMLParser):
    """Texts of a page: what is read, the texts of attributes, and what a style sheet writes."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.texts, self.inside = [], []
        self.run, self.run_line = "", 0

    # Tags inside a sentence do not end it: a bracket may open before <b> and close after it.
    INLINE = {"a", "abbr", "b", "code", "em", "i", "small", "span", "strong", "sub", "sup", "tspan", "time", "wbr", "br"}

    def flush(self):
        if self.run.strip():
            self.texts.append((self.run_line, self.run))
        self.run = ""

    def handle_starttag(self, tag, attributes):
        if tag not in self.INLINE:
            self.flush()
        if tag in ("script", "style"):
            self.inside.append(tag)
        named = dict(attributes)
        for name, value in attributes:
            if value and (name in HTML_TEXTS or name == "content" and named.get("name") in ("description", "author", "keywords")
                          or name == "value" and tag == "input" and named.get("type") in ("button", "submit", "reset")):
                self.texts.append((self.getpos()[0], value))
            if value and name == "style":
                self.style(value)

    def handle_endtag(self, tag):
        if tag not in self.INLINE:
            self.flush()
        if self.inside and self.inside[-1] == tag:
            self.inside.pop()

    def style(self, text):
        for m in re.finditer(r"content:((?:\s*(?:\"[^\"]*\"|'[^']*'|counter\(\w+\)))+)", text):
            self.texts.append((self.getpos()[0], "".join(t[1:-1] for t in re.findall(r"\"[^\"]*\"|'[^']*'", m.group(1)))))

    def handle_data(self, data):
        if self.inside:
            if self.inside[-1] == "style":
                self.style(data)
            return
        if not self.run:
            self.run_line = self.getpos()[0]
        self.run += data


def html_texts(data):
    page = Page()
    page.feed(data.decode("utf-8"))
    page.flush()
    return [(f"line {line}", text) for line, text in page.texts]


def xml_name(element):
    return element.tag.rsplit("}", 1)[-1]


def xlsx_texts(data):
    """Shared texts, sheets' names, heads and feet, notes, charts, and texts in formulas and formats."""
    found = []
    with zipfile.ZipFile(io.BytesIO(data)) as book:
        for name in book.namelist():
            if not name.endswith(".xml"):
                continue
            for e in ElementTree.fromstring(book.read(name)).iter():
                tag = xml_name(e)
                if tag in ("si", "is", "comment"):
                    found.append((name, "".join(t.text or "" for t in e.iter() if xml_name(t) == "t")))
                elif tag == "sheet" and e.get("name"):
                    found.append((name, e.get("name")))
                elif tag in ("oddHeader", "oddFooter", "evenHeader", "evenFooter") and e.text:
                    found.append((name, re.sub(r"&(\"[^\"]*\"|K[0-9A-F]{6}|\d+|[A-Za-z&])", " ", e.text)))
                elif tag == "p" and "/drawings/" in name or tag == "p" and "/charts/" in name:
                    found.append((name, "".join(t.text or "" for t in e.iter() if xml_name(t) == "t")))
                elif tag == "f" and e.text and "/worksheets/" in name:
                    formula = re.sub(r"'(?:[^']|'')*'!", "", e.text)
                    found += [(name, t) for t in re.findall(r'"((?:[^"]|"")*)"', formula)]
                elif tag == "numFmt":
                    found += [(name, t) for t in re.findall(r'"([^"]*)"', e.get("formatCode", ""))]
                elif tag == "dataValidation":
                    found += [(name, e.get(a)) for a in ("prompt", "promptTitle", "error", "errorTitle") if e.get(a)]
    return found


def ics_texts(data):
    text = re.sub(r"\r?\n[ \t]", "", data.decode("utf-8"))
    found = []
    for i, line in enumerate(text.splitlines(), start=1):
        head, _, value = line.partition(":")
        if head.split(";")[0] in ICS_TEXTS:
            found.append((f"line {i}", value.replace("\\n", "\n").replace("\\,", ",").replace("\\;", ";")))
    return found


def json_texts(data):
    """Sentences without an id of the catalogue beside them."""
    found = []

    def walk(node, at, key):
        if isinstance(node, dict):
            for k, v in node.items():
                walk(v, f"{at}/{k}", "" if "id" in node and "values" in node else k)
        elif isinstance(node, list):
            for i, v in enumerate(node):
                walk(v, f"{at}/{i}", key)
        elif isinstance(node, str) and key in JSON_SENTENCES:
            found.append((at, node))

    # Several documents come a line each.
    text = data.decode("utf-8")
    try:
        walk(json.loads(text), "", "")
    except ValueError:
        for line in text.splitlines():
            if line.strip():
                walk(json.loads(line), "", "")
    return found


def plain_texts(data):
    return [("", data.decode("utf-8"))]


# A table (CSV) is for other programs, in English in every language.
READ = {".html": html_texts, ".xlsx": xlsx_texts, ".csv": lambda data: [], ".ics": ics_texts, ".json": json_texts,
        ".txt": plain_texts}


# ---- what is run

def plain(*words, stdin=None):
    """A run without the test language, to learn what there is to run."""
    return subprocess.run([PROGRAM, *words], input=stdin, capture_output=True, text=True, timeout=SECONDS)


def offered(command, option):
    return f"--{option} " in plain(command, "--help").stdout + " "


def sample(name):
    return os.path.join(SAMPLES, name)


def kinds_of_samples():
    kinds = {"part": [], "request": [], "list": [], "week": [], "booked": []}
    for name in sorted(os.listdir(SAMPLES)):
        path = sample(name)
        if name.endswith(".csv"):
            with open(path, encoding="utf-8") as file:
                kinds["booked" if file.readline().startswith("order,") else "list"].append(path)
        elif name.endswith(".yaml"):
            text = source.read(path)
            kind = ("request" if re.search(r"(?m)^request:", text) else "week" if re.search(r"(?m)^week:", text)
                    else "family" if re.search(r"<\w+>", text) else "part")
            kinds.setdefault(kind, []).append(path)
    return kinds


def step_numbers(part):
    """The first step and its first pass, as the program numbers them."""
    done = plain("route", part, *SHOP, "--json")
    found = []

    def walk(node):
        if isinstance(node, dict):
            if node.get("passes") and "number" in node:
                found.append(str(node["number"]))
            for v in node.values():
                walk(v)
        elif isinstance(node, list):
            for v in node:
                walk(v)

    walk(json.loads(done.stdout) if done.stdout else {})
    return found


class Run:
    """Words of a command line; `output` is the ending of the file that it writes."""

    def __init__(self, *words, output="", stdin=None, statuses=(0, 1), folder=False):
        self.words, self.output, self.stdin, self.statuses, self.folder = list(words), output, stdin, statuses, folder

    def __str__(self):
        words = [os.path.relpath(w, source.ROOT) if w.startswith(source.ROOT) else w for w in self.words]
        return " ".join(words + ([f"--output x{self.output}"] if self.output else []))


def forms(words, endings, extra=()):
    """The same words as text, with each of some flags, as JSON and into each form of file."""
    command = words[0]
    runs = [Run(*words), Run(*words, "--json")] if offered(command, "json") else [Run(*words)]
    runs += [Run(*words, f"--{flag}") for flag in ("why", "full") if offered(command, flag)]
    runs += [Run(*words, *more) for more in extra]
    return runs + [Run(*words, output=ending) for ending in endings]


def part_runs(part, full):
    """A part by its quotation and its steps; in full also by all other commands and forms."""
    named = re.search(r"--machine \"([^\"]+)\"", source.read(part))
    rest = [part, *SHOP] + (["--machine", named.group(1)] if named else [])
    if not full:
        return [Run("quote", *rest), Run("quote", *rest, output=".xlsx"), Run("route", *rest), Run("tune", *rest)]
    units = [["--units", "inch"], ["--units", "metric"]]
    runs = forms(["quote", *rest], [".xlsx", ".html"], units) + forms(["route", *rest], [".html"], units) + forms(["tune", *rest], [], units)
    runs += forms(["compare", *rest], [".xlsx", ".html"]) + [Run("check", part, *SHOP)]
    runs += [Run("explain", part, *subject, *SHOP) for subject in ([], ["minutes"], ["price", "50"])]
    for step in step_numbers(part):
        runs += [Run("explain", part, "step", step, *SHOP), Run("explain", part, "pass", f"{step}.1", *SHOP)]
    return runs


def cut_runs():
    """Every kind of cut, with what can be asked of it, and the cards of a manual and of a CNC lathe."""
    turned = ["cut", "42CrMo4 +QT", "50 to 42 x120", *SHOP]
    runs = forms(turned, [".txt"], [["--working"], ["--Ra", "1.6"], ["--units", "inch"], ["--tool", "HSS"]])
    runs += [Run(*turned, "--machine", "Tarn geared lathe", "--at", at) for at in
             ("200 rev/min, 0.1 mm/rev, 1 mm", "2000 rev/min, 0.8 mm/rev, 6 mm", "560 rev/min")]
    runs += [Run(*turned, "--condition", "hot rolled", "--interrupted", "--coolant", "dry", "--stick-out", "200"),
             Run(*turned, "--clamping", "chuck and centre")]
    for work in ("face 120 to 0", "drill 18 x40", "bore 30 to 32 x50", "groove 3 wide 40 to 34", "part off 40",
                 "thread M24x2 x30", "ream 12 x30", "tap M10 x20", "knurl RGE 1.0 30 x20"):
        runs += [Run("cut", "C45", work, *SHOP), Run("cut", "C45", work, *SHOP, "--working")]
    for bad in ("50 to 60 x20", "mill 20 x30", "50 kg to 42 x20", "drill x20", "50 to 42 x20 x30", "groove 3 40 to 34"):
        runs.append(Run("cut", "C45", bad, *SHOP, statuses=(2,)))
    runs += [Run("cut", "C54", "50 to 42 x20", *SHOP, statuses=(2,)), Run("cut", "C45", "900 to 800 x20", *SHOP)]
    for machine in ("Tarn geared lathe", "Tarn CNC 1"):
        runs += forms(["card", "--machine", machine, *SHOP], [".html", ".csv", ".txt"])
    return runs


def all_runs(work, chosen):
    """Every command and every form of output, with few parts and one week: a plan takes seconds."""
    kinds = kinds_of_samples()
    week, booked = kinds["week"][0], kinds["booked"][0]
    first, request = kinds["part"][0], kinds["request"][0]
    runs = [run for part in kinds["part"] for run in part_runs(part, part == first)]
    runs += [Run("tune", first, *SHOP, "--rule", rule) for rule in ("time", "contribution")]
    runs += forms(["quote", request, *SHOP], [".csv", ".xlsx"]) + [Run("check", request, *SHOP), Run("offer", request, *SHOP, "--week", week, output=".html")]
    runs += [Run("offer", request, *SHOP, output=".xlsx")]
    os.mkdir(os.path.join(work, "books"))
    for table in kinds["list"]:
        runs += [Run("quote", table, *SHOP, output=".csv"), Run("quote", table, *SHOP, output=".xlsx"),
                 Run("quote", table, *SHOP, "--workbooks", os.path.join(work, "books"), folder=True)]
    posted = os.path.join(work, "posted.csv")
    if not chosen or chosen & {"load", "promise"}:
        plain("load", week, *SHOP, "--output", posted)
    runs += [Run("load", week, *SHOP, "--posted", posted, "--why"), *(Run("load", week, *SHOP, output=e) for e in (".html", ".xlsx", ".ics"))]
    runs += [Run("promise", week, first, "40", *SHOP, "--posted", posted), Run("actuals", week, booked, *SHOP), Run("check", week, *SHOP)]
    runs += forms(["rates", *SHOP], []) + [Run("rates")]
    runs += cut_runs()
    runs += figure_runs() + help_runs() + new_runs(work) + refused_runs(kinds, week, work)
    return runs


def figure_runs():
    given = ["figure", "spindle-speed", "surface-speed=120m/min", "diameter=60mm"]
    return [Run("figure", "--list"), Run(*given), Run(*given, "--why"), Run(*given, "--json"),
            Run("figure", "spindle-speed", "diameter=60mm", "spindle-speed=640/min", statuses=(0, 1, 2)),
            Run("figure", "spindle-sped", statuses=(2,)), Run("figure", "spindle-speed", "diameter=60kg", statuses=(2,)),
            Run(*given, output=".xlsx", statuses=(0, 2))]


def commands():
    return re.findall(r"(?m)^  ([a-z]+) {2,}\S", plain("--help").stdout.split("commands:")[-1])


def help_runs():
    return [Run("--help")] + [Run(c, "--help") for c in commands()]


def new_runs(work):
    names = {"shop": "shop", "part": "part.yaml", "request": "request.yaml", "week": "week.yaml"}
    return [Run("new", kind, os.path.join(work, "new-" + name)) for kind, name in names.items()]


def refused_runs(kinds, week, work):
    """Files with mistakes, and words that the command line does not know."""
    part = source.read(kinds["part"][0])
    damaged = [
        part.replace("material:", "materiel:"),
        re.sub(r"material: .*", "material: unobtainium", part),
        re.sub(r"quantities: .*", "quantities: [ten, -3]", part),
        re.sub(r"stock: .*", "stock: {round: 5, condition: hot rolled}", part),
        re.sub(r"stock: .*", "stock: {round: 55, condition: wet}", part),
        part + "\nunknown key: 1\n", part + "\nmaterial: C45\n", "part: {}\n", "a: [1, 2\n", "", "\t- x\n",
        re.sub(r"(?m)^( *- *)(.*x\d.*)$", r"\1\2, thread", part, count=1),
    ]
    runs = [Run(command, "-", *SHOP, stdin=text, statuses=(0, 1, 2)) for text in damaged for command in ("check", "quote")]
    for name, path in (("week", week), ("request", kinds["request"][0])):
        text = source.read(path)
        for i, wrong in enumerate([text + "\nunknown key: 1\n", re.sub(r"\d{4}-\d\d-\d\d", "2026-13-40", text, count=1),
                                   text.replace(name + ":", name + "s:", 1), re.sub(r"\.yaml", ".yml", text, count=1)]):
            target = os.path.join(work, f"{name}-{i}.yaml")
            with open(target, "w", encoding="utf-8") as file:
                file.write(wrong)
            command = ["load", target] if name == "week" else ["offer", target]
            runs.append(Run(*command, *SHOP, statuses=(0, 1, 2, 3)))
    part = kinds["part"][0]
    runs += [Run(*words, statuses=(2, 3)) for words in (
        ["qoute", part], ["quote", part, "--shp", "x"], ["quote"], ["quote", sample("none.yaml")], ["quote", part, "--shop", sample("none")],
        ["quote", part, *SHOP, "--machine", "no such machine"], ["quote", part, *SHOP, "--units", "cubits"], ["explain", part, "step", "999", *SHOP],
        ["explain", part, "colour", *SHOP], ["tune", part, *SHOP, "--rule", "beauty"], ["quote", part, *SHOP, "--output", "x.docx"],
        ["load", part, *SHOP], ["promise", week, part, "none", *SHOP], ["new", "shop", sample("shop")], ["figure"], ["offer", part, *SHOP])]
    return runs


def names_of_figures():
    """Figures, their inputs and signs are called alike in every language."""
    return {t.value for path in source.files("include/turnwright/figure", "src/figure") for t in source.tokens(source.read(path))
            if t.kind == "text" and " " not in t.value}


def results(run, work):
    """The run's texts: [(form, where, text)], and what went wrong with it."""
    words = [PROGRAM, *run.words, *LANGUAGE]
    target = ""
    if run.output:
        handle, target = tempfile.mkstemp(suffix=run.output, dir=work)
        os.close(handle)
        os.unlink(target)
        words += ["--output", target]
    done = subprocess.run(words, input=(run.stdin or "").encode(), capture_output=True, timeout=SECONDS, cwd=work)
    error = done.stderr.decode("utf-8", "replace")
    if done.returncode not in run.statuses:
        return [], [f"ends with {done.returncode}: {error.strip().splitlines()[0] if error.strip() else 'no word'}"]
    texts, faults = [("standard error", "", error)], []
    is_json = "--json" in run.words and done.returncode in (0, 1)
    try:
        if not run.folder:  # with --workbooks the table of the list is what is printed
            texts += [("standard output", w, t) for w, t in (json_texts if is_json else plain_texts)(done.stdout)]
        written = [target] if target else []
        if run.folder:
            folder = run.words[-1]
            written += [os.path.join(folder, n) for n in sorted(os.listdir(folder))] if os.path.isdir(folder) else []
        for path in written:
            if os.path.isfile(path):
                with open(path, "rb") as file:
                    texts += [(os.path.splitext(path)[1], w, t) for w, t in READ[os.path.splitext(path)[1]](file.read())]
            elif done.returncode in (0, 1):
                faults.append(f"wrote no {run.output}")
    except (ValueError, zipfile.BadZipFile, ElementTree.ParseError) as reason:
        faults.append(f"cannot be read: {reason}")
    return texts, faults


def lines_of_inputs(run):
    lines = (run.stdin or "").split("\n")
    for word in run.words:
        if os.path.isfile(word) and word.endswith((".yaml", ".csv")):
            with open(word, encoding="utf-8") as file:
                lines += file.read().split("\n")
    return {line.strip() for line in lines if line.strip()}


def judge(run, work, figures):
    names = set(figures) if run.words[0] in ("figure", "explain") else set()
    try:
        texts, faults = results(run, work)
    except subprocess.TimeoutExpired:
        texts, faults = [], [f"takes more than {SECONDS} s"]
    quoted = lines_of_inputs(run)
    findings = [f"{run}:1: {fault}" for fault in faults]
    for form, where, text in texts:
        if form == "standard error":
            text = SPEAKER.sub("", text)
        for number, word in left_over(text, names, quoted):
            line = text.split("\n")[number - 1].strip() if number <= text.count("\n") + 1 else text
            findings.append(f"{run}:{number}: {form}{' ' + where if where else ''}: '{word}' in \"{line[:100]}\"")
    return findings


def main():
    if not os.access(PROGRAM, os.X_OK):
        sys.exit(f"bracketed.py needs the built program: TURNWRIGHT={PROGRAM} is none")
    chosen = set(sys.argv[1:])
    figures = names_of_figures()
    total, failed, count = 0, 0, 0
    with tempfile.TemporaryDirectory() as work, ThreadPoolExecutor(JOBS) as pool:
        runs = [r for r in all_runs(work, chosen) if not chosen or r.words[0] in chosen]
        for findings in pool.map(lambda run: judge(run, work, figures), runs):
            count += 1
            total += len(findings)
            failed += bool(findings)
            for finding in findings[:SHOWN_EACH]:
                print(finding)
            if len(findings) > SHOWN_EACH:
                print(f"  … and {len(findings) - SHOWN_EACH} more")
    print(f"{count} runs, {failed} with words past the catalogue, {total} findings")
    sys.exit(1 if total else 0)


if __name__ == "__main__":
    main()
