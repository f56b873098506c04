// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include <cstdint>

#include "turnwright/document/packed.hpp"
#include "turnwright/document/reader.hpp"
#include "turnwright/document/write_yaml.hpp"
#include "turnwright/output/words.hpp"

using namespace turnwright;

namespace {
std::string first_problem(const std::string& bytes) {
  const auto d = read_document("f.yaml", bytes);
  REQUIRE_FALSE(d);
  REQUIRE_FALSE(d.problems().empty());
  const Problem& p = d.problems().front();
  return std::to_string(p.at.line) + ":" + std::to_string(p.at.column) + " " + Words()(p.what);
}
}  // namespace

TEST_CASE("a tree comes back as it was packed", "[document]") {
  const auto read = read_document("f.yaml", "a: [1, \"two\", {b: Ø 3}]\nc:\n" + std::string("d: ") +
                                                std::string(300, 'x') + "\n");
  REQUIRE(read);
  const Node back = unpacked(packed(read->root));
  CHECK(packed(back) == packed(read->root));
  REQUIRE(back.members.size() == 3);
  CHECK(back.members[0].value.items[1].quoted);
  CHECK(back.members[0].value.items[2].members[0].value.text == "Ø 3");
  CHECK(back.members[1].value.kind == Node::Kind::nothing);
  CHECK(back.members[2].value.text.size() == 300);
  CHECK(back.members[2].at.line == 3);
  // Other bytes end somewhere, and nowhere else.
  CHECK(unpacked("").kind == Node::Kind::nothing);
  CHECK(unpacked(packed(read->root).substr(0, 20)).kind == Node::Kind::map);
}

TEST_CASE("what these files do not use is a problem with its place", "[document]") {
  CHECK(first_problem("a: 1\nb: 2\na: 3\n") == "3:1 the key 'a' stands twice, first in line 1");
  CHECK_THAT(first_problem("a: &x 1\nb: *x\n"), Catch::StartsWith("1:4 an anchor"));
  CHECK_THAT(first_problem("a: 1\n---\nb: 2\n"), Catch::Contains("a second document"));
  CHECK_THAT(first_problem("a: !!str 1\n"), Catch::Contains("a tag"));
  CHECK_THAT(first_problem(std::string("a: \xff\xfe\n")),
             Catch::StartsWith("1:4 bytes that are not UTF-8"));
  CHECK_THAT(first_problem(std::string("a: b\0c\n", 7)), Catch::StartsWith("1:5 a NUL byte"));
  CHECK_THAT(first_problem("a: \"open\nb: 2\n"), Catch::Contains("runs over the end of the line"));
  CHECK_THAT(first_problem(std::string(70, '[') + std::string(70, ']')),
             Catch::Contains("nested deeper"));
  CHECK_THAT(first_problem(std::string(3000, '[')), Catch::Contains("nested"));
  CHECK_THAT(first_problem("\tbad: 1\n"), Catch::Contains("indented with a tab"));
  CHECK_THAT(first_problem(std::string((16u << 20) + 1, 'a')),
             Catch::Contains("larger than 16 MiB"));
}

TEST_CASE("what is no YAML says what of it is wrong", "[document]") {
  CHECK_THAT(first_problem("a: 1\nb: {c: 1\n"), Catch::Contains("brace"));
  CHECK_THAT(first_problem("a: [1\n"), Catch::Contains("bracket"));
  CHECK_THAT(first_problem("b: *x\n"), Catch::StartsWith("1:4 "));
  CHECK_THAT(first_problem("a: 1\n{b: 1}: 2\n"), Catch::StartsWith("2:1 "));
  CHECK_THAT(first_problem("a: 1\nb: \xff\n"), Catch::StartsWith("2:4 bytes that are not UTF-8"));
  CHECK_THAT(first_problem("a: \"x\\q\"\n"), Catch::StartsWith("1:8 a '\\' before"));
  CHECK_THAT(first_problem("a: b: c\n"), Catch::StartsWith("1:5 "));
  CHECK_THAT(first_problem("%TAG ! x\n%YAML 7.0\n--- a\n"), Catch::Contains("YAML"));
  std::string many = "[";
  for (std::size_t i = 0; i <= most_nodes; ++i) many += "1,";
  CHECK_THAT(first_problem(many + "1]"), Catch::Contains("values"));
}

TEST_CASE("a mark of the byte order and returns at line ends belong to no text", "[document]") {
  const auto d = read_document("f.yaml",
                               "\xEF\xBB\xBF"
                               "a: 1\r\nb: 'it''s'\r\nc: \"say \\\"x\\\"\"\r\n");
  REQUIRE(d);
  CHECK(d->root.members[0].key == "a");
  CHECK(d->root.members[1].value.text == "it's");
  CHECK(d->root.members[2].value.text == "say \"x\"");
  CHECK(line_of(d->bytes, 2) == "b: 'it''s'");
  CHECK(line_of(d->bytes, 9).empty());
}

TEST_CASE("values of a map are read as what they are", "[document]") {
  const auto d = read_document(
      "f.yaml", "yes: true\nno: \"false\"\nwhole: [1]\nempty:\nword: Ra\nmap: {a: 1}\n");
  REQUIRE(d);
  ProblemList notes(*d);
  MapReader map(d->root, notes, verbatim("a file"));
  CHECK(map.yes_no("yes") == true);
  CHECK(map.yes_no("no") == false);
  CHECK_FALSE(map.yes_no("word"));
  CHECK_FALSE(map.whole("whole", 0, 9));
  CHECK_FALSE(map.text("empty"));
  CHECK_FALSE(map.yes_no("nothing of that name"));
  CHECK_FALSE(map.one_of("word", {"Rz", "Rq"}));
  CHECK(Words()(found(d->root.members[5].value)) == "found a map");
  CHECK(notes.problems().size() == 4);
}

TEST_CASE("columns count characters, not bytes", "[document]") {
  const auto d = read_document("f.yaml",
                               "a: {\xC3\x98"
                               "12: x, b: 1}\n");
  REQUIRE(d);
  CHECK(d->root.members[0].value.members[1].at.column == 13);
}

TEST_CASE("of a text that is a whole file a problem shows the beginning", "[document]") {
  Node node;
  node.kind = Node::Kind::text;
  node.text = "\u00d8" + std::string(79, 'a');
  CHECK(Words()(found(node)) == "found '" + node.text + "'");
  node.text += "bc";
  CHECK(Words()(found(node)) == "found '\u00d8" + std::string(79, 'a') + " \u2026'");
}

TEST_CASE("all problems of a map come at once, each with the nearest name", "[document]") {
  const auto d = read_document("winch.yaml", "items:\n  - {diametre: 24, lenght: 30}\n");
  REQUIRE(d);
  ProblemList notes(*d);
  MapReader map(d->root.members[0].value.items[0], notes, verbatim("an element"));
  map.find("diameter");
  map.find("length");
  map.find("thread");
  map.finish();
  REQUIRE(notes.problems().size() == 2);
  CHECK(problem_text(notes.problems()[0], Words()) ==
        "winch.yaml:2:6: unknown key 'diametre'; expected one of diameter, length, thread; did you "
        "mean 'diameter'?\n"
        "    - {diametre: 24, lenght: 30}\n"
        "       ^~~~~~~~\n");
}

TEST_CASE("control characters never reach the terminal", "[document]") {
  Problem p{"f\x1b[31m.yaml", {1, 1}, 1, {"document.text", {{"text", "\x07"}}}, {}, "", ""};
  CHECK(problem_text(p, Words()).find('\x1b') == std::string::npos);
  CHECK(problem_text(p, Words()).find('\x07') == std::string::npos);
}

TEST_CASE("what is written as YAML reads back as it was, whatever the texts hold",
          "[document][property]") {
  const std::vector<std::string> pieces{"\"",   "'", ":",   ": ",   "#",  " #", "- ", "{",
                                        "}",    "[", "]",   ",",    "&a", "*a", "!t", "|",
                                        ">",    "%", "@",   "`",    "\\", "\n", "\t", "yes",
                                        "null", "~", "1.0", "Tarn", " ",  "ü",  "部"};
  std::uint64_t state = 2026;
  const auto draw = [&](std::size_t n) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::size_t>(state >> 33) % n;
  };
  for (int i = 0; i < 4000; ++i) {
    std::vector<std::string> texts(3);
    for (std::string& text : texts)
      for (std::size_t k = draw(5) + 1; k > 0; --k) text += pieces[draw(pieces.size())];
    YamlValue map = YamlValue::map(
        {{"key", YamlValue::of(texts[0])}, {texts[1] + "k", YamlValue::of(texts[2])}});
    map.in_one_line = i % 2 == 0;
    const std::string text = yaml_text(YamlValue::list({map}));
    const auto read = read_document("f.yaml", text);
    INFO(text);
    // A line end inside a text would be refused by the reader: the writer is asked for none.
    if (text.find("\\n") == std::string::npos && !read) FAIL(Words()(read.problems().front().what));
    if (!read) continue;
    const auto& members = read->root.items.at(0).members;
    REQUIRE(members.size() == 2);
    CHECK(members[0].value.text == texts[0]);
    CHECK(members[1].key == texts[1] + "k");
    CHECK(members[1].value.text == texts[2]);
  }
}

TEST_CASE("a return in a text that is written is not lost, it is refused when read", "[document]") {
  for (const std::string text : {"a\rb", "\r", "a\r\nb"}) {
    const auto back = read_document("x", yaml_text(YamlValue::map({{"k", YamlValue::of(text)}})));
    REQUIRE_FALSE(back);
    CHECK(back.problems().front().what.id == "document.control-character");
  }
}

TEST_CASE("problems beyond those that anybody reads are counted", "[document]") {
  std::string text;
  for (int i = 0; i < 5000; ++i) text += "k" + std::to_string(i % 50) + ": 1\n";
  const auto read = read_document("f.yaml", text);
  REQUIRE_FALSE(read);
  REQUIRE(read.problems().size() == most_problems + 1);
  CHECK(read.problems().back().stands_for == 5000 - 50 - most_problems);
  CHECK(Words()(read.problems().back().what) == "and 4,750 more problems");
}
