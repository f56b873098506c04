"""C++ source as tokens, for the house rules. Not a compiler: it knows comments, literals, preprocessor
lines, words and marks, and the line each begins on, which is enough to read the house's own style."""
import os
import re
import sys
from typing import NamedTuple

ROOT = os.path.normpath(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
SOURCES = (".cpp", ".hpp")

_PARTS = re.compile(
    r'''(?P<comment>//(?:[^\n\\]|\\.|\\\n)*|/\*.*?\*/)
      | (?P<directive>^[ \t]*\#(?:[^\n\\]|\\\n|\\.)*)
      | (?P<raw>(?:u8|u|U|L)?R"(?P<mark>[^()\\\s]{0,16})\((?P<body>.*?)\)(?P=mark)"\w*)
      | (?P<text>(?:u8|u|U|L)?"(?:[^"\\\n]|\\.)*"(?:[A-Za-z_]\w*)?)
      | (?P<char>(?:u8|u|U|L)?'(?:[^'\\\n]|\\.)+')
      | (?P<number>\.?\d(?:'?[\w.]|[eEpP][+-])*)
      | (?P<word>[A-Za-z_]\w*)
      | (?P<mark_>::|==|!=|<=|>=|->|&&|\|\||<<|>>|\+=|[^\s\w])''',
    re.VERBOSE | re.MULTILINE | re.DOTALL)
_ESCAPES = {"n": "\n", "t": "\t", "r": "\r", "0": "\0"}


class Token(NamedTuple):
    kind: str  # text (adjacent literals joined), char, number, word, mark, directive
    value: str  # of a text: what it says
    line: int


def _spoken(literal):
    body = literal[literal.index('"') + 1:literal.rindex('"')]
    return re.sub(r"\\(.)", lambda m: _ESCAPES.get(m.group(1), m.group(1)), body)


def tokens(code):
    """The tokens of a file, without comments; neighbouring text literals are one token."""
    out = []
    line, seen = 1, 0
    for m in _PARTS.finditer(code):
        line += code.count("\n", seen, m.start())
        seen = m.start()
        kind, value = m.lastgroup, m.group()
        if m.group("comment") is not None:
            continue
        if m.group("raw") is not None:
            kind, value = "text", m.group("body")
        elif m.group("text") is not None:
            kind, value = "text", _spoken(value)
        elif m.group("directive") is not None:
            kind = "directive"
        elif kind == "mark_":
            kind = "mark"
        if kind == "text" and out and out[-1].kind == "text":
            out[-1] = Token("text", out[-1].value + value, out[-1].line)
        else:
            out.append(Token(kind, value, line))
    return out


def without_comments(code):
    """The code with blanks where comments were: lines and columns stay."""
    return _PARTS.sub(lambda m: re.sub(r"[^\n]", " ", m.group()) if m.group("comment") is not None else m.group(), code)


def files(*roots, endings=SOURCES):
    """Paths from the root of the repository, sorted."""
    found = []
    for root in roots:
        top = os.path.join(ROOT, root)
        if os.path.isfile(top):
            found.append(root)
        for folder, _, names in os.walk(top):
            found += [os.path.relpath(os.path.join(folder, n), ROOT) for n in names if n.endswith(endings)]
    return sorted(found)


def read(path):
    with open(os.path.join(ROOT, path), encoding="utf-8") as file:
        return file.read()


def room(path):
    """src/route/plan.cpp and include/turnwright/route/route.hpp stand in the room route."""
    parts = path.split("/")
    at = 1 if parts[0] == "src" else 2
    return parts[at] if len(parts) > at + 1 else ""


def finish(findings, what):
    """Prints the findings as file:line: text and ends with 1 when there are any."""
    for finding in findings:
        print(finding)
    print(f"{len(findings)} {what}")
    sys.exit(1 if findings else 0)
