// SPDX-License-Identifier: MIT
#include "turnwright/document/table.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
std::vector<TableRow> rows_of(const std::string& text) {
  std::istringstream in(text);
  TableReader reader("t.csv", in);
  std::vector<TableRow> rows;
  while (auto row = reader.next()) rows.push_back(std::move(*row));
  return rows;
}
std::vector<std::string> texts(const TableRow& row) {
  std::vector<std::string> list;
  for (const Cell& c : row.cells) list.push_back(c.text);
  return list;
}
using Texts = std::vector<std::string>;
}  // namespace

TEST_CASE("cells as RFC 4180 has them, each with its place", "[document][table]") {
  const auto rows =
      rows_of("\xEF\xBB\xBFnumber,outside\r\nA,\"30 x20 | 40\"\"x\"\r\n\r\n,\r\nB,ü x\n");
  REQUIRE(rows.size() == 3);
  CHECK(texts(rows[0]) == Texts{"number", "outside"});
  CHECK(texts(rows[1]) == Texts{"A", "30 x20 | 40\"x"});
  CHECK(rows[1].line == 2);
  CHECK(rows[1].cells[1].quoted);
  CHECK(rows[1].cells[1].at.column == 3);
  CHECK(rows[2].line == 5);
  CHECK(rows[2].text == "B,ü x");
}

TEST_CASE("semicolons and tabs are seen in the first line", "[document][table]") {
  CHECK(texts(rows_of("a;b;c,d\n1;2;3\n")[1]) == Texts{"1", "2", "3"});
  CHECK(texts(rows_of("a\tb\n1,0\t2\n")[1]) == Texts{"1,0", "2"});
  CHECK(texts(rows_of("a,b\n1,2")[1]) == Texts{"1", "2"});
  CHECK(rows_of("").empty());
  CHECK(rows_of("\n\n,,\n").empty());
}

TEST_CASE("any number of empty rows and of cells", "[document][table]") {
  std::string blank = "a,b\n";
  for (int i = 0; i < 300000; ++i) blank += ",\n";
  const auto rows = rows_of(blank + "1,2\n");
  REQUIRE(rows.size() == 2);
  CHECK(rows[1].line == 300002);
  const auto wide = rows_of("a\n" + std::string(200000, ',') + "x\n");
  REQUIRE(wide.size() == 2);
  CHECK(wide[1].cells.size() == 200001);
  CHECK(wide[1].cells.back().at.column == 200001);
}

TEST_CASE("a cell over two lines keeps the count of lines", "[document][table]") {
  const auto rows = rows_of("a,b\n1,\"x\ny\"\n2,z\n");
  REQUIRE(rows.size() == 3);
  CHECK(rows[1].cells[1].text == "x\ny");
  CHECK(rows[2].line == 4);
}

TEST_CASE("blanks before a quote, quotes inside a text and other encodings", "[document][table]") {
  CHECK(texts(rows_of("a,b\n  \"x,y\" , z \n")[1]) == Texts{"x,y", "z"});
  CHECK(texts(rows_of("a\tb\n1\t \n")[1]).front() == "1");
  CHECK(texts(rows_of("\"a;b\",c\n1,2\n")[0]) == Texts{"a;b", "c"});
  for (const char* mark : {"\xFF\xFE", "\xFE\xFF"}) {
    const auto rows = rows_of(std::string(mark) + "a,b\n");
    REQUIRE(rows.size() == 1);
    CHECK_FALSE(rows[0].problems.empty());
  }
  const auto control = rows_of("a,b\n1,\x07\n2,c\n");
  REQUIRE(control.size() == 3);
  CHECK_THAT(problems_text(control[1].problems), Catch::Contains("control character"));
  CHECK(control[2].problems.empty());
}

TEST_CASE("what cannot be read spoils its own row only", "[document][table]") {
  const auto rows =
      rows_of("a,b\n1,5\" x\n2,\xE4\n" + std::string(3u << 20, 'x') + "\n3,c\n4,\"open");
  REQUIRE(rows.size() == 6);
  for (const std::size_t bad : {1u, 2u, 3u, 5u}) {
    REQUIRE(rows[bad].problems.size() == 1);
    CHECK(rows[bad].problems[0].at.line == static_cast<int>(bad) + 1);
  }
  CHECK(rows[1].problems[0].what.id == "table.quote-inside-cell");
  CHECK(rows[1].problems[0].at.column == 4);
  CHECK(rows[2].problems[0].what.id == "table.no-utf8");
  CHECK(rows[3].problems[0].what.id == "table.row-too-long");
  CHECK(rows[3].text.size() < (2u << 20));
  CHECK(texts(rows[4]) == Texts{"3", "c"});
  CHECK(rows[5].problems[0].what.id == "table.open-quote");
  CHECK(rows_of("\xFF\xFE"
                "a")[0]
            .problems[0]
            .what.id == "table.utf16");
  CHECK(rows_of("PK\x03\x04 and so on\n1\n")[0].problems[0].what.id == "table.archive");
}

TEST_CASE("any text is written, inert, and comes back as it was", "[document][table][property]") {
  CHECK(table_cell("=1+1") == "'=1+1");
  CHECK(table_cell("a,\"b\"") == "\"a,\"\"b\"\"\"");
  Draws draws(6);
  const std::string letters = "a=+-@',;\t\"\n \xC3\xBC";
  for (int i = 0; i < 3000; ++i) {
    std::string text = "x";
    for (int k = draws.whole(0, 8); k > 0; --k) {
      const auto at = static_cast<std::size_t>(draws.whole(0, 12));
      text += at == 12 ? "\xC3\xBC" : letters.substr(at, 1);
    }
    text.erase(0, static_cast<std::size_t>(draws.whole(0, 1)));
    const std::string written = table_cell(text);
    const std::string bare = written[0] == '"' ? written.substr(1, 1) : written.substr(0, 1);
    CHECK(bare.find_first_of("=+-@\t") == std::string::npos);
    const auto rows = rows_of("k,v\n1," + written + "\n");
    INFO(written);
    REQUIRE(rows.size() == 2);
    REQUIRE(rows[1].cells.size() == 2);
    CHECK(rows[1].cells[1].text == text);
  }
}
