"""The words catalogue: templates/words/en/*.yaml and templates/words/de/*.yaml, flat maps of an id to a
sentence with {named} places, or to its forms: {one: "{count} piece", other: "{count} pieces"}. Both
languages hold the same ids with the same places, every id is used, and what the code says is there."""
import re
from typing import NamedTuple

import yaml

import facts
import source

CATALOGUE = "templates/words"
LANGUAGES = ["en", "de"]  # the first decides
FORMS = {"one", "other"}
# Ids put together in code from a prefix and a name, and where the names stand: the texts of a function, the
# first text of each record that begins so, or that of each record in the list that begins so.
GENERATED = {
    "step.": ("src/route/route.cpp", "name_of(StepKind"),
    "limit.": ("src/tune/limit.cpp", "name_of(LimitId"),
    "remedy.": ("src/tune/limit.cpp", "name_of(Remedy"),
    "cost.": ("src/estimate/names.cpp", "name_of(CostKind"),
    "element.": ("src/estimate/names.cpp", "name_of(ElementId"),
    "band.": ("src/estimate/names.cpp", "name_of(BandRowId"),
    "status.": ("src/estimate/names.cpp", "name_of(PriceStatus"),
    "input.": ("src/compare/inputs.cpp", "name_of(InputId"),
    "rule.": ("src/compare/tuned.cpp", "name_of(TuneRule"),
    "basis.": ("src/shop/shop.cpp", "name_of(Basis"),
    "text.per-": ("src/part/read_other_work.cpp", "name_of(ChargedBy"),
    "text.work-after-": ("src/part/read_other_work.cpp", "name_of(WorkAfter"),
    "methods.part-": ("src/output/view/methods_view.cpp", "name_of(DifferencePart"),
    "bench.feed-": ("src/output/view/bench_view.cpp", "name_of(FeedReason"),
    "bench.other-": ("src/compare/bench_cut.cpp", "name_of(BenchOther"),
    "card.work-": ("src/compare/speed_card.cpp", "name_of(CardWork"),
    "file.": ("src/part/read_file_kind.cpp", "name_of(FileKind"),
    "command.": ("src/cli/commands/commands.cpp", "list{"),
    "option.": ("src/cli/commands/commands.cpp", "Option{"),
    "figure.": ("include/turnwright/figure", "identity{"),
}
# Names that nothing is said of.
WITHOUT_WORD = {
    "file.other": "a file of no known kind is judged by its reader",
    "remedy.none": "where no remedy was used, none is named",
}
# What a command says of an option, where it says more than the option's own sentence: option.output.quote.
OF_COMMAND = ("option.", "command.")

# An id in the code; these endings are of files.
ID = re.compile(r"(?P<topic>[a-z-]+)(\.[a-z0-9-]+)+")
FILES = re.compile(r".*\.(yaml|json|html|css|js|txt|csv|xlsx)")
# Calls that give places of their own beside those written.
ADDERS = {"add"}
# A place in a sentence: {count}, {price:money}; {{ and }} are brackets that are meant.
PLACE = re.compile(r"\{\{|\}\}|\{(?P<name>[^{}:]*)(?::[^{}]*)?\}")


class Entry(NamedTuple):
    path: str
    line: int
    forms: dict  # a plain sentence stands under ""


def places(entry):
    return {m.group("name") for text in entry.forms.values() for m in PLACE.finditer(text) if m.group("name") is not None}


def root_of(path, findings):
    try:
        return yaml.compose(source.read(path), Loader=yaml.SafeLoader)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        findings.append(f"{path}:{mark.line + 1 if mark else 1}: {getattr(error, 'problem', error)}")
        return None


def sentence_of(path, key, value, findings):
    where = f"{path}:{key.start_mark.line + 1}: {key.value}"
    if isinstance(value, yaml.ScalarNode):
        forms = {"": value.value}
    elif isinstance(value, yaml.MappingNode) and all(isinstance(v, yaml.ScalarNode) for _, v in value.value):
        forms = {k.value: v.value for k, v in value.value}
        if set(forms) != FORMS or len(value.value) != len(FORMS):
            findings.append(f"{where}: its forms are {', '.join(sorted(forms))}; expected {', '.join(sorted(FORMS))}")
    else:
        findings.append(f"{where}: neither a sentence nor its forms")
        return None
    for text in forms.values():
        if not text.strip():
            findings.append(f"{where}: empty")
        if re.search(r"[{}]", PLACE.sub("", text)):
            findings.append(f"{where}: a bracket of a place is not closed in '{text}'")
    return Entry(path, key.start_mark.line + 1, forms)


def read_language(language, findings):
    entries = {}
    for path in source.files(f"{CATALOGUE}/{language}", endings=(".yaml",)):
        root = root_of(path, findings)
        if root is None:
            continue
        if not isinstance(root, yaml.MappingNode):
            findings.append(f"{path}:1: no map of ids")
            continue
        for key, value in root.value:
            entry = sentence_of(path, key, value, findings)
            if key.value in entries:
                first = entries[key.value]
                findings.append(f"{path}:{key.start_mark.line + 1}: {key.value} stands already in {first.path}:{first.line}")
            elif entry is not None:
                entries[key.value] = entry
    return entries


def compare(language, first, other, findings):
    for name, entry in first.items():
        if name not in other:
            findings.append(f"{entry.path}:{entry.line}: {name} is missing in {language}")
    for name, entry in other.items():
        where = f"{entry.path}:{entry.line}: {name}"
        if name not in first:
            findings.append(f"{where} is not in {LANGUAGES[0]}")
            continue
        if places(entry) != places(first[name]):
            findings.append(f"{where} has the places {sorted(places(entry))}; in {LANGUAGES[0]} {sorted(places(first[name]))}")
        if entry.forms == first[name].forms and any(re.search(r"[a-z]{2,} [a-z]{2,}", t) for t in entry.forms.values()):
            findings.append(f"{where} is the English sentence")


def closing(tokens, at):
    """The place of the bracket that closes the one at a place."""
    depth = 0
    for i in range(at, len(tokens)):
        if tokens[i].kind == "mark":
            depth += (tokens[i].value in "([{") - (tokens[i].value in ")]}")
            if depth == 0:
                return i
    return len(tokens)


def message_around(tokens, at):
    """The bracket of the message whose id stands at a place, or -1: {"id", {{"place", value}}}, say("id"),
    {count > 1 ? "id" : "other", …}."""
    bracket = facts.opening(tokens, at)
    if bracket < 1 or tokens[bracket].value == "[" or tokens[bracket].value == "(" and tokens[bracket - 1].kind == "mark":
        return -1
    name = tokens[bracket - 1].value
    if name in ADDERS or any(tokens[i].value == name and tokens[i + 2].value == "places" for i in range(bracket, len(tokens) - 2)):
        return -1
    before = [t.value for t in tokens[bracket + 1:at]]
    if before and (before[-1] not in ("?", ":") or "?" not in before or "return" in before or "=" in before):
        return -1
    return bracket


def place_variables(tokens):
    """Places that have a name: const Place thread("thread", …). One name for two of them tells nothing."""
    found = {}
    for i, t in enumerate(tokens[:-3]):
        if t.kind == "word" and tokens[i + 1].value in ("(", "{") and tokens[i + 2].kind == "text" and tokens[i + 3].value == ",":
            found.setdefault(t.value, set()).add(tokens[i + 2].value)
    return {name: texts.pop() for name, texts in found.items() if len(texts) == 1}


def places_given(tokens, at, bracket, variables):
    """The places that a message gives, and whether it gives anything that is not to be seen."""
    end, i = closing(tokens, bracket), at + 1
    while i < end and tokens[i].value != ",":
        i += 1  # the other ids of a choice
    if i == end:
        return set(), False
    if tokens[i + 1].value != "{":
        return set(), True
    given, hidden, depth = set(), False, 0
    for k in range(i + 2, closing(tokens, i + 1)):
        t = tokens[k]
        if depth == 0 and t.value not in (",", "{"):
            own = tokens[k + 2].value if t.value == "Place" else variables.get(t.value)
            hidden |= t.kind == "word" and own is None
            given |= {own} if t.kind == "word" and own is not None else set()
        elif depth == 1 and tokens[k - 1].value == "{" and t.kind == "text":
            given.add(t.value)
        if t.kind == "mark":
            depth += (t.value in "([{") - (t.value in ")]}")
    return given, hidden


def check_calls(first, findings):
    """The literals of the code, the number of ids, and of those whose places are not to be seen."""
    literals, calls, unseen = set(), 0, 0
    topics = {name.split(".")[0] for name in first}
    for path in source.files("src", "include"):
        tokens = source.tokens(source.read(path))
        variables = place_variables(tokens)
        for i, t in enumerate(tokens):
            if t.kind != "text":
                continue
            literals.add(t.value)
            m = ID.fullmatch(t.value)
            if not m or m.group("topic") not in topics or FILES.fullmatch(t.value) or t.value in GENERATED:
                continue
            calls += 1
            where = f"{path}:{t.line}: {t.value}"
            if t.value not in first:
                findings.append(f"{where} is not in the catalogue")
                continue
            bracket = message_around(tokens, i)
            given, hidden = places_given(tokens, i, bracket, variables) if bracket >= 0 else (set(), True)
            wanted = places(first[t.value])
            unseen += hidden
            if wanted - given and not hidden:
                findings.append(f"{where}: not given: {', '.join(sorted(wanted - given))}")
            elif given - wanted:
                findings.append(f"{where}: has no place for {', '.join(sorted(given - wanted))}")
    return literals, calls, unseen


def body_of(tokens, at):
    """Places of the first tokens in braces after a place, and of the brace that closes them."""
    depth = 0
    for i in range(at, len(tokens)):
        if tokens[i].value == "{" and tokens[i].kind == "mark":
            depth += 1
            begin = i + 1 if depth == 1 else begin
        elif tokens[i].value == "}" and tokens[i].kind == "mark":
            depth -= 1
            if depth == 0:
                return begin, i
    return at, at


def names_in(path, head):
    """The names that a line of GENERATED stands for."""
    begins = [t.value for t in source.tokens(head)]
    names = []
    for file in source.files(path):
        tokens = source.tokens(source.read(file))
        for i in range(len(tokens) - len(begins)):
            if [t.value for t in tokens[i:i + len(begins)]] != begins:
                continue
            if head.startswith("name_of"):
                begin, end = body_of(tokens, i)
                names += [t.value for t in tokens[begin:end] if t.kind == "text"]
                continue
            begin, end = body_of(tokens, i)
            if tokens[begin].kind == "text":
                names.append(tokens[begin].value)
            while begin < end and tokens[begin].value == "{":
                first, last = body_of(tokens, begin)
                names.append(tokens[first].value)
                begin = last + 2
    return names


def check_generated(first, literals, findings):
    """The ids that code can put together; each must be there, and every prefix of the code be listed."""
    ids, names = set(), {}
    for prefix, (path, head) in GENERATED.items():
        if prefix not in literals:
            continue
        names[prefix] = names_in(path, head)
        if not names[prefix]:
            findings.append(f"{path}:1: no names after '{head}', which '{prefix}' is put before")
        ids |= {prefix + name for name in names[prefix]}
    option, command = OF_COMMAND
    ids |= {f"{option}{o}.{c}" for o in names.get(option, []) for c in names.get(command, [])} & set(first)
    for name in sorted(ids - set(first) - set(WITHOUT_WORD)):
        findings.append(f"{CATALOGUE}/{LANGUAGES[0]}:1: {name} is missing, which code puts together")
    topics = {name.split(".")[0] for name in first}
    for text in sorted(literals - set(GENERATED)):
        if re.fullmatch(r"[a-z]+\.([a-z-]+-)?", text) and text.split(".")[0] in topics:
            findings.append(f"tests/house/words.py:1: '{text}' begins ids put together in code; list it in GENERATED")
    return ids - set(WITHOUT_WORD)


def main():
    findings = []
    languages = {name: read_language(name, findings) for name in LANGUAGES}
    first = languages[LANGUAGES[0]]
    if not first:
        findings.append(f"{CATALOGUE}/{LANGUAGES[0]}:1: no catalogue")
    for name in LANGUAGES[1:]:
        compare(name, first, languages[name], findings)
    print(", ".join(f"{name}: {len(entries)} sentences" for name, entries in languages.items()))
    literals, calls, unseen = check_calls(first, findings)
    made = check_generated(first, literals, findings)
    for name, entry in first.items():
        if name not in literals and name not in made:
            findings.append(f"{entry.path}:{entry.line}: {name} is used nowhere")
    print(f"{calls} ids in the code, of {unseen} the places are not to be seen beside it")
    source.finish(findings, "findings in the words catalogue")


if __name__ == "__main__":
    main()
