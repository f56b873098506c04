"""No label is state. Outside the files that read text nothing compares text with a literal: what a
thing is stands in an enum or an id. And in the rooms that plan and reckon no English stands in the code:
a reason is a Message of an id and values, put into words in output/words."""
import json
import os
import re
import sys
from fnmatch import fnmatch

import source

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from schema_words import words_of  # noqa: E402

# The files that parse text of files, of the command line or of a drawing. A pattern's * goes over
# folders too. Keep it short: a reader that also decides something is to be split, not listed.
READERS = [
    "include/turnwright/document/*",
    "src/document/*",
    "src/quantity/date.cpp",
    "src/quantity/money.cpp",
    "src/quantity/text.cpp",
    "src/quantity/unit.cpp",
    "src/*/read_*.cpp",
    "src/part/element_text.cpp",
    "src/part/thread.cpp",
    "src/shop/record.cpp",
    "src/cli/paths.cpp",
    "src/output/*verify_workbook.cpp",  # reads a written workbook back
    "src/pdf/write_language.cpp",  # looks into the PDF just drawn
]
WORDS = ["src/output/words/*", "include/turnwright/output/words*"]
OPTIONS = ["src/cli/options.cpp"]
FIGURES = ["src/figure/*", "include/turnwright/figure/*"]  # names of figures and of their inputs

# Calls that compare when one of their arguments is a literal; LOOKUPS find a thing by what it is called.
COMPARERS = {"starts_with", "ends_with", "find", "rfind", "compare", "contains", "count", "search", "equal",
             "mismatch", "iequals", "strcmp", "strncmp", "strcasecmp", "strstr", "regex_match", "regex_search",
             "equal_to", "not_equal_to"}
LOOKUPS = {"named", "by_name", "at"}
# Makers of text around a literal: std::string("x"), std::string_view{"x"}.
WRAPPERS = {"string", "string_view"}

# Rooms in which no English sentence stands, and the calls whose text no user ever reads.
SILENT_ROOMS = {"route", "estimate", "compare", "tune", "week"}
EXEMPT_CALLS = {"static_assert", "assert", "TURNWRIGHT_ASSERT"}
WORDS_IN_TEXT = re.compile(r"[^\W\d_]{1,}['’]?[,;:.]? +[^\W\d_]")
# A literal that begins or ends with a blank beside letters is a piece of a sentence put together in code.
PIECE = re.compile(r"^ +.*[^\W\d_]|[^\W\d_].* +$", re.DOTALL)

# What a comparison with is none with a label: brackets, line ends.
LABEL = re.compile(r"[^\W_]|^-$")

# (path, literal): why it may stay.
EXCEPTIONS = {
    ("src/shop/shop.cpp", "skin "): "a row of the file for each condition that the shop names, so no fixed id",
    ("src/route/prepare/read_part_words.cpp", "hot rolled"): "the name of a record of the rates",
    ("src/week/read_posted.cpp", "setup from"): "a heading of the table that the program writes itself",
}


def matches(path, patterns):
    return any(fnmatch(path, p) for p in patterns)


def opening(tokens, at):
    """The place of the bracket that stands open around a token, or -1."""
    depth = 0
    for i in range(at - 1, -1, -1):
        if tokens[i].kind != "mark":
            continue
        value = tokens[i].value
        if value in ")]}":
            depth += 1
        elif value in "([{":
            if depth == 0:
                return i
            depth -= 1
        elif value == ";" and depth == 0:
            return -1
    return -1


def call_around(tokens, at):
    """The name of the call that a token is an argument of, and the place of its bracket."""
    bracket = opening(tokens, at)
    if bracket > 0 and tokens[bracket].value in "({" and tokens[bracket - 1].kind == "word":
        return tokens[bracket - 1].value, bracket
    return "", bracket


def beyond_wrappers(tokens, at):
    """First and last place of a literal with the text makers and brackets right around it."""
    first = last = at
    while (0 < first < last + 1 < len(tokens) and tokens[first - 1].value in ("(", "{")
           and tokens[last + 1].value in (")", "}")):
        before = tokens[first - 2] if first > 1 else None
        if before is not None and before.kind == "word" and before.value not in WRAPPERS | {"return"}:
            break
        wrapped = before is not None and before.value in WRAPPERS
        first, last = first - (2 if wrapped else 1), last + 1
        while wrapped and first > 1 and tokens[first - 1].value == "::":
            first -= 2
    return first, last


def constants(tokens):
    """Names of constants that are one literal, of tables whose first thing is a literal, and of those tables
    that are arrays: their `at` goes by position."""
    single, tables, arrays = set(), set(), set()
    for i, t in enumerate(tokens):
        if t.kind != "text":
            continue
        j = i - 1
        braces = 0
        while j > 0 and tokens[j].value in ("{", "=", "[", "]"):
            braces += tokens[j].value == "{"
            j -= 1
        if j <= 0 or tokens[j].kind != "word" or j == i - 1:
            continue
        begin = j
        while begin > 0 and tokens[begin - 1].value not in (";", "{", "}", "(", ")"):
            begin -= 1
        declared = {x.value for x in tokens[begin:j]}
        if not declared & {"const", "constexpr"} or tokens[j].value == "return":
            continue
        after = tokens[i + 1].value if i + 1 < len(tokens) else ""
        if braces == 0 and after == ";" or braces == 1 and after == "}" and "array" not in declared:
            single.add(tokens[j].value)
        elif braces > 0:
            tables.add(tokens[j].value)
            if "array" in declared:
                arrays.add(tokens[j].value)
    return single, tables, arrays


def labels_run_over(tokens):
    """Places of the names that run over literals: for (const char* key : {"a", "b"}) if (x == key)."""
    places = {}
    for i, t in enumerate(tokens):
        if t.kind != "text" or tokens[i - 1].value != "{" or tokens[i - 2].value != ":":
            continue
        if call_around(tokens, i - 1)[0] != "for" or tokens[i - 3].kind != "word":
            continue
        for j in range(i + 1, min(i + 80, len(tokens))):
            if tokens[j].kind == "word" and tokens[j].value == tokens[i - 3].value:
                places[j] = "one of " + quoted(t.value) + ", …"
    return places


def quoted(text):
    return json.dumps(text, ensure_ascii=False)


def compared_in(tokens, at, is_literal):
    """How the literal or constant at a place is compared, or nothing."""
    first, last = beyond_wrappers(tokens, at)
    before = tokens[first - 1].value if first > 0 else ""
    after = tokens[last + 1].value if last + 1 < len(tokens) else ""
    if before in ("==", "!=") or after in ("==", "!="):
        return "compares text with "
    name, bracket = call_around(tokens, first)
    type_before = tokens[bracket - 2] if bracket > 1 else None
    declared = type_before is not None and (type_before.kind == "word" and type_before.value != "return"
                                            or type_before.value == ">" and tokens[bracket].value == "{")
    if (name in COMPARERS or is_literal and name in LOOKUPS) and not declared:
        return name + " with "
    return None


def comparisons(tokens, shared, silent):
    """(line, literal, what) of every comparison with a literal or with a constant that is one."""
    single, tables, arrays = constants(tokens)
    single |= shared
    running = labels_run_over(tokens)
    for i, t in enumerate(tokens):
        member = i > 0 and tokens[i - 1].value in (".", "->")
        if t.kind == "text" and LABEL.search(t.value):
            how = compared_in(tokens, i, True)
            if how:
                yield t.line, t.value, how + quoted(t.value)
            elif silent and tokens[i - 1].value == "[" and tokens[i + 1].value == "]":
                yield t.line, t.value, "looked up by " + quoted(t.value)
        elif t.kind == "word" and not member and (i in running or t.value in single):
            how = compared_in(tokens, i, False)
            if how:
                yield t.line, t.value, how + running.get(i, t.value)
        elif t.kind == "word" and not member and t.value in tables:
            # table.find(x), std::find(table.begin(), …
            after = [x.value for x in tokens[i + 1:i + 3]]
            if after[:1] == ["."] and (after[1] in COMPARERS | (set() if t.value in arrays else {"at"})
                                       or after[1] == "begin" and call_around(tokens, i)[0] in COMPARERS):
                yield t.line, t.value, "looks a text up in the table " + t.value


def keys_of_files():
    """Of the files that people write."""
    found = set()
    for path in source.files("rates/schema", endings=(".json",)):
        found |= words_of(json.loads(source.read(path)))
    return found


def sentences(path, tokens, keys):
    reader = matches(path, READERS)
    for i, t in enumerate(tokens):
        if t.kind != "text" or not (WORDS_IN_TEXT.search(t.value) or PIECE.search(t.value)):
            continue
        if reader and t.value in keys:
            continue
        if call_around(tokens, i)[0] in EXEMPT_CALLS:
            continue
        kind = "English" if WORDS_IN_TEXT.search(t.value) else "piece of a sentence"
        yield t.line, t.value, f"{kind} {quoted(t.value)}"


def main():
    keys = keys_of_files()
    parsed = {p: source.tokens(source.read(p)) for p in source.files("src", "include")}
    shared = set()
    for p, tokens in parsed.items():
        if p.startswith("include/") and not matches(p, READERS + WORDS + FIGURES):
            shared |= constants(tokens)[0]
    compared, english = [], []
    for p, tokens in parsed.items():
        silent = source.room(p) in SILENT_ROOMS
        if not matches(p, READERS + WORDS + OPTIONS + FIGURES):
            compared += [(p, *found) for found in comparisons(tokens, shared, silent)]
        if silent:
            english += [(p, *found) for found in sentences(p, tokens, keys)]
    findings = [f"{p}:{line}: {what}" for p, line, value, what in compared + english
                if (p, value) not in EXCEPTIONS]
    findings += [f"{p}:1: the exception {quoted(value)} is needed no longer" for p, value in EXCEPTIONS
                 if not any((p, value) == (f[0], f[2]) for f in compared + english)]
    print(f"{len(compared)} comparisons with a text, {len(english)} English literals in "
          + ", ".join(sorted(SILENT_ROOMS)))
    source.finish(findings, "labels and sentences in code")


if __name__ == "__main__":
    main()
