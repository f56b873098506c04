"""The house rules find what they look for: each is given code or text with a planted offence, and the
same without it."""
import io
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
import zipfile

import bracketed
import facts
import source
import vocabulary
import words

HERE = os.path.dirname(os.path.abspath(__file__))


def compared(code, silent=True):
    return [value for _, value, _ in facts.comparisons(source.tokens(code), set(), silent)]


def spoken(code, path="src/route/x.cpp", keys=frozenset()):
    return [value for _, value, _ in facts.sentences(path, source.tokens(code), keys)]


def run_in_tree(script, files):
    """The script's output over a tree that holds these files only."""
    with tempfile.TemporaryDirectory() as tree:
        shutil.copytree(HERE, os.path.join(tree, "tests", "house"), ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copy(os.path.join(HERE, "..", "schema_words.py"), os.path.join(tree, "tests"))
        for path, text in files.items():
            target = os.path.join(tree, path)
            os.makedirs(os.path.dirname(target), exist_ok=True)
            with open(target, "w", encoding="utf-8") as file:
                file.write(text)
        done = subprocess.run([sys.executable, os.path.join(tree, "tests", "house", script)], capture_output=True, text=True)
        return done.returncode, done.stdout + done.stderr


class Tokens(unittest.TestCase):
    def test_comments_and_literals_are_told_apart(self):
        code = '// "a"\nf("b // c" /* "d" */ "e", \'"\', R"x(g "h")x");\n'
        self.assertEqual([t.value for t in source.tokens(code) if t.kind == "text"], ["b // ce", 'g "h"'])
        self.assertEqual([t.line for t in source.tokens(code) if t.kind == "text"], [2, 2])
        self.assertEqual(len(source.without_comments(code)), len(code))


class Facts(unittest.TestCase):
    def test_comparisons_are_found(self):
        for code in ('if (a == "x") {}', 'if ("x" != a) {}', 'if (std::string_view("x") == a) {}', 'if (a == ("x")) {}',
                     'a.starts_with("x");', 'a.ends_with( "x" );', 'if (a.find("x") == 0) {}', 'a.compare("x");', 'set.contains("x");',
                     'std::find(v.begin(), v.end(), "x");', 'std::ranges::find(v, std::string{"x"});', 'named(list, "x");',
                     'auto t = times["x"];', 'a ==\n  "x" "";'):
            self.assertEqual(compared(code), ["x"], code)

    def test_constants_and_tables_are_followed(self):
        self.assertEqual(compared('constexpr std::string_view load = "x"; if (a == load) {}'), ["load"])
        self.assertEqual(compared('static const std::map<std::string, int> of{{"x", 1}}; of.find(a);'), ["of"])
        self.assertEqual(compared('static const std::map<std::string, int> of{{"x", 1}}; of.at(a);'), ["of"])
        self.assertEqual(compared('for (const char* k : {"x", "y"})\n  if (a == k) f();'), ["k"])

    def test_what_compares_nothing_is_left_alone(self):
        for code in ('f("x");', 'a = "x";', 'const Unit count("count");', 'UnitOf<Dim{}> count{"count"};', 'if (a == "") {}', 'if (f("x") == 3) {}',
                     'static constexpr std::array names{"x", "y"}; names.at(i);', 'a.ends_with("\\n\\n");', '// a == "x"\n', 'constexpr auto load = "x"; f(load);'):
            self.assertEqual(compared(code), [], code)

    def test_sentences_are_found(self):
        self.assertEqual(spoken('f("two words"); g("one"); h(" a piece"); i(" of "); j("a-b"); k(", ");'), ["two words", " a piece", " of "])
        self.assertEqual(spoken('static_assert(x, "two words"); // "two words"\n#include "two words"\n'), [])
        self.assertEqual(spoken('f("two words");', "src/week/read_week.cpp", {"two words"}), [])
        self.assertEqual(spoken('f("two words");', "src/week/plan.cpp", {"two words"}), ["two words"])


class Sizes(unittest.TestCase):
    def test_long_functions_files_and_classes(self):
        body = "  f();\n" * 66
        code = "struct S { void g(); };\n" + "void S::g() {\n" + body * 5 + "}\n" + "void h() {\n" + body * 2 + "}\n"
        status, out = run_in_tree("sizes.py", {"src/route/x.cpp": code, "include/turnwright/route/x.hpp": "#pragma once\n"})
        for finding in ("src/route/x.cpp:2: functions: median", "src/route/x.cpp:1: 467 lines, above 400", "x.cpp:1: struct S, 333 lines, above 300"):
            self.assertIn(finding, out)
        self.assertEqual(status, 1)
        status, out = run_in_tree("sizes.py", {"src/route/x.cpp": "void h() {\n  f();\n}\n", "include/turnwright/route/x.hpp": "#pragma once\n"})
        self.assertEqual((status, out.count("findings of size")), (0, 1), out)


class Vocabulary(unittest.TestCase):
    def test_words_are_found_in_names_and_never_in_words(self):
        pattern = re.compile(vocabulary.words_pattern("held by"))
        for text in ("held by", "held-by", "held_by_", "Held by", "HELD BY", "heldBy", "HeldBy", "wasHeldBy", "x.held_by"):
            self.assertTrue(pattern.search(text), text)
        for text in ("upheld by", "held bye", "shelled bytes"):
            self.assertFalse(pattern.search(text), text)
        ways = re.compile(vocabulary.words_pattern("ways"))
        self.assertTrue(ways.search("--ways") and ways.search("write_ways_page"))
        self.assertFalse(ways.search("always, keyways"))

    def test_the_whole(self):
        status, out = run_in_tree("vocabulary.py", {"src/week/ways.cpp": "int x;  // a batch is set up\n", "README.md": "the make-ready of a batch\n",
                                                    "src/week/inventory.cpp": "Money holding_cost;\n"})
        self.assertIn("src/week/ways.cpp:1: the file's name has 'ways'", out)
        self.assertIn("README.md:1: has 'make-ready'", out)
        self.assertIn("2 lines with old words", out)
        self.assertEqual(status, 1)


class Words(unittest.TestCase):
    GOOD = {"templates/words/en/a.yaml": 'a.one: "needs {depth} a {side:text}"\na.two: {one: "{n} piece", other: "{n} pieces"}\n',
            "templates/words/de/a.yaml": 'a.one: "braucht {depth} je {side:text}"\na.two: {one: "{n} Stück", other: "{n} Stück"}\n',
            "src/x.cpp": 'auto a = Message{"a.one", {{"depth", d}, {"side", Message{"a.two", {{"n", f(")")}}}}}};\n',
            "include/turnwright/x.hpp": ""}

    def test_a_sound_catalogue(self):
        status, out = run_in_tree("words.py", self.GOOD)
        self.assertEqual(status, 0, out)
        self.assertIn("0 findings in the words catalogue", out)

    def check(self, expected, path, text):
        status, out = run_in_tree("words.py", dict(self.GOOD, **{path: text}))
        self.assertIn(expected, out)
        self.assertEqual(status, 1, out)

    def test_faults(self):
        en, de, cpp = "templates/words/en/a.yaml", "templates/words/de/a.yaml", "src/x.cpp"
        self.check("a.two is missing in de", de, 'a.one: "braucht {depth} je {side}"\n')
        self.check("a.three is not in en", de, self.GOOD[de] + "a.three: x\n")
        self.check("a.one has the places ['depth', 'seite']", de, self.GOOD[de].replace("{side:text}", "{seite}"))
        self.check("a.two stands already in templates/words/en/a.yaml:2", en, self.GOOD[en] + "a.two: x\n")
        self.check("a.three is used nowhere", en, self.GOOD[en] + "a.three: x\n")
        self.check("src/x.cpp:1: a.four is not in the catalogue", cpp, 'say("a.four");\n')
        self.check("src/x.cpp:1: a.one: not given: side", cpp, 'message("a.one", {{"depth", d}});\n')
        self.check("src/x.cpp:1: a.two: has no place for m", cpp, 'Message{"a.two", {{"n", n}, {"m", m}}};\n')
        self.check("its forms are many, one", en, self.GOOD[en].replace("other:", "many:"))

    def test_ids_put_together(self):
        en, de = "templates/words/en/a.yaml", "templates/words/de/a.yaml"
        files = dict(self.GOOD, **{
            en: self.GOOD[en] + "rule.cost: costs\ncommand.quote: a price\noption.jobs: so many\noption.jobs.quote: at once\n",
            de: self.GOOD[de] + "rule.cost: Kosten\ncommand.quote: ein Preis\noption.jobs: so viele\noption.jobs.quote: zugleich\n",
            "src/compare/tuned.cpp": 'const char* name_of(TuneRule rule) {\n  static constexpr std::array names{"cost"};\n  return names[0];\n}\n'
                                     'auto a = "rule." + f();\n',
            "src/cli/commands/commands.cpp": 'const std::vector<Command> list{{"quote", "PART", {"jobs"}, quote}};\nconstexpr std::array all{Option{"jobs", "N"}};\n'
                                             'auto a = "command." + f(), b = "option." + f();\n'})
        status, out = run_in_tree("words.py", files)
        self.assertEqual(status, 0, out)
        for expected, path, old, new in (("rule.time is missing", "src/compare/tuned.cpp", '{"cost"}', '{"cost", "time"}'),
                                         ("rule.cost is used nowhere", "src/compare/tuned.cpp", '{"cost"}', '{"time"}'),
                                         ("command.offer is missing", "src/cli/commands/commands.cpp", "quote}}", 'quote}, {"offer", "", {}, offer}}'),
                                         ("option.jobs.quote is used nowhere", "src/cli/commands/commands.cpp", '{"quote"', '{"offer"'),
                                         ("'a.x-' begins ids put together", "src/compare/tuned.cpp", '"rule."', '"a.x-" + g() + "rule."')):
            status, out = run_in_tree("words.py", dict(files, **{path: files[path].replace(old, new)}))
            self.assertIn(expected, out)
            self.assertEqual(status, 1, out)

    def test_places_by_name_and_choices(self):
        cpp = "src/x.cpp"
        for code in ('const Place d("depth", x);\nMessage m{"a.one", {d, {"side", y}}};', 'say({"a.one", {Place("depth", x), {"side", y}}});',
                     'say(x ? "a.one" : "a.one", {{"depth", x}, {"side", y}});', 'Message m("a.one");\nm.places.push_back(d);'):
            status, out = run_in_tree("words.py", dict(self.GOOD, **{cpp: code + ' say({"a.two", {{"n", n}}});\n'}))
            self.assertEqual(status, 0, code + out)
        for code in ('const Place d("depth", x);\nMessage m{"a.one", {d}};', 'say(x ? "a.one" : "a.one", {{"depth", x}});', 'say("a.one");'):
            self.check("a.one: not given: ", cpp, code + ' say({"a.two", {{"n", n}}});\n')


def workbook(parts):
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as book:
        for name, text in parts.items():
            book.writestr(name, text)
    return data.getvalue()


class Bracketed(unittest.TestCase):
    def left(self, text):
        return [word for _, word in bracketed.left_over(text)]

    def test_brackets_numbers_and_units_go(self):
        for text in ("⟦needs ‹C45› and ⟦more⟧⟧ 3.51 mm", "‹⟦Op 10⟧›: 12,345.00 EUR/h", "± 5 m/min, 0.15 mm/rev", "Ø 55.3 mm²", "samples/a.yaml:3:5: ⟦no key⟧",
                     "x = 3e-9 in³/min"):
            self.assertEqual(self.left(text), [], text)

    def test_words_stay(self):
        self.assertEqual(self.left("⟦needs⟧ 3 mm per ⟦side⟧\nand 5 more"), ["per", "and", "more"])
        self.assertEqual(self.left("3 mm ⟦per side it"), ["bracket", "stays", "open"])
        self.assertEqual(self.left("a⟧ b"), ["brackets", "do", "not", "match"])

    def test_pages(self):
        page = ('<html><head><title>⟦t⟧</title><style>p:before{content:"see"} .a{color:red}</style><script>var word;</script></head>'
                '<body><p title="alone" class="cls">⟦a <b>bold</b> word⟧</p><img alt="⟦x⟧"><svg aria-label="drawing"><text>12 mm</text></svg>loose</body></html>')
        left = [w for _, text in bracketed.html_texts(page.encode()) for w in self.left(text)]
        self.assertEqual(sorted(left), ["alone", "drawing", "loose", "see"])

    def test_workbooks(self):
        data = workbook({"xl/sharedStrings.xml": "<sst><si><t>⟦a</t><t> b⟧</t></si><si><t>shared</t></si></sst>",
                         "xl/workbook.xml": "<w><sheets><sheet name='Steps'/></sheets></w>",
                         "xl/worksheets/sheet1.xml": "<w><c><f>IF(A1&gt;0,\"yes\",'Other sheet'!B2)</f></c><oddFooter>&amp;L&amp;APage &amp;P</oddFooter></w>",
                         "xl/charts/chart1.xml": "<c><p><r><t>Title</t></r></p></c>"})
        left = [w for _, text in bracketed.xlsx_texts(data) for w in self.left(text)]
        self.assertEqual(sorted(left), ["Page", "Steps", "Title", "shared", "yes"])

    def test_calendars_tables_and_json(self):
        ics = "BEGIN:VEVENT\r\nSUMMARY:⟦run⟧ of\r\n  order\r\nUID:some-name\r\nEND:VEVENT\r\n"
        self.assertEqual([self.left(t) for _, t in bracketed.ics_texts(ics.encode())], [["of", "order"]])
        self.assertEqual([t for _, t in bracketed.json_texts('{"id": "a b", "reasons": [{"text": "c d"}]}'.encode())], ["c d"])
        self.assertEqual(bracketed.json_texts('{"why": {"id": "a.b", "values": {}, "text": "c d"}}'.encode()), [])
        self.assertEqual([t for _, t in bracketed.json_texts('{"text": "a"}\n{"text": "b"}\n'.encode())], ["a", "b"])


if __name__ == "__main__":
    unittest.main()
