// SPDX-License-Identifier: MIT
// Sheets of workbooks as rows of text: archives are written here part by part, as other programs
// write theirs, and damaged. What they hold is invented.
#include <minizip/zip.h>

#include <cstdio>
#include <filesystem>

#include "../support.hpp"
#include "turnwright/document/sheet_day.hpp"
#include "turnwright/document/workbook_table.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

using Parts = std::vector<std::pair<std::string, std::string>>;
using Texts = std::vector<std::string>;

/// A file of this test alone, gone at its end.
class Archive {
 public:
  explicit Archive(const Parts& parts)
      : path_((std::filesystem::temp_directory_path() /
               ("turnwright-" + std::to_string(number++) + "-" +
                std::to_string(reinterpret_cast<std::uintptr_t>(this)) + ".xlsx"))
                  .string()) {
    const zipFile zip = zipOpen(path_.c_str(), APPEND_STATUS_CREATE);
    REQUIRE(zip != nullptr);
    for (const auto& [name, text] : parts) {
      zipOpenNewFileInZip(zip, name.c_str(), nullptr, nullptr, 0, nullptr, 0, nullptr, Z_DEFLATED,
                          Z_BEST_SPEED);
      zipWriteInFileInZip(zip, text.data(), static_cast<unsigned>(text.size()));
      zipCloseFileInZip(zip);
    }
    zipClose(zip, nullptr);
  }
  Archive(const Archive&) = delete;
  Archive& operator=(const Archive&) = delete;
  ~Archive() { std::remove(path_.c_str()); }
  const std::string& path() const { return path_; }

 private:
  static inline int number = 0;
  std::string path_;
};

const std::string book =
    "<workbook><sheets><note/><sheet name=\"first\" r:id=\"r1\"/><sheet name=\"second\" "
    "r:id=\"r2\"/></sheets></workbook>";
const std::string links =
    "<Relationships><Relationship Id=\"r1\" Type=\"x/worksheet\" Target=\"sheets/a.xml\"/>"
    "<Relationship Id=\"r2\" Type=\"x/worksheet\" Target=\"/xl/sheets/b.xml\"/>"
    "<Relationship Id=\"r3\" Type=\"x/sharedStrings\" Target=\"texts.xml\"/></Relationships>";
const std::string texts =
    "<sst><count/><si><t>number</t></si><si><r><t>30 </t></r><r><t>x40</t></r><rPh><t>read "
    "so</t></rPh></si></sst>";

std::string sheet(const std::string& rows, const std::string& more = "") {
  return "<worksheet><sheetData>" + rows + "</sheetData>" + more + "</worksheet>";
}
Parts parts_with(const std::string& first_sheet) {
  return {{"xl/workbook.xml", book},
          {"xl/_rels/workbook.xml.rels", links},
          {"xl/texts.xml", texts},
          {"xl/sheets/a.xml", first_sheet},
          {"xl/sheets/b.xml", sheet("<row r=\"1\"><c r=\"A1\"><v>2</v></c></row>")}};
}

std::vector<TableRow> rows_of(WorkbookReader& reader) {
  std::vector<TableRow> rows;
  while (auto row = reader.next()) rows.push_back(std::move(*row));
  return rows;
}
std::vector<TableRow> rows_of(const Parts& parts, const std::string& name = "") {
  const Archive archive(parts);
  WorkbookReader reader(archive.path(), name);
  return rows_of(reader);
}
Texts cells(const TableRow& row) {
  Texts list;
  for (const Cell& c : row.cells) list.push_back(c.text);
  return list;
}
// What is wrong with the only row.
std::string wrong(const Parts& parts, const std::string& name = "") {
  const auto rows = rows_of(parts, name);
  REQUIRE(rows.size() == 1);
  std::string said;
  for (const Problem& p : rows[0].problems) {
    const std::size_t cell = p.file.find(", cell ");
    said += (cell == std::string::npos ? "" : p.file.substr(cell + 2) + ": ") +
            problem_words(p, Words()) + "\n";
  }
  return said;
}
std::string wrong_row(const std::string& cells) {
  return wrong(parts_with(sheet("<row r=\"3\">" + cells + "</row>")));
}

}  // namespace

TEST_CASE("cells of a sheet are the texts that a person would type", "[document][table]") {
  const auto rows = rows_of(parts_with(sheet(
      "<remark/><row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"C1\" t=\"s\"><v>1</v></c></row>"
      "<row/><row r=\"4\"><c><v>0.10000000000000001</v></c><note/><c t=\"b\"><v>1</v></c><c "
      "t=\"b\"><v>0</v></c><c t=\"inlineStr\"><is><t>here</t></is></c><c t=\"str\"><f>A1</f><v>7 "
      "x</v></c><c><v>as it is</v></c></row><row><c r=\"B5\"><v>9</v></c></row>")));
  REQUIRE(rows.size() == 3);
  CHECK(cells(rows[0]) == Texts{"number", "", "30 x40"});
  CHECK(rows[0].cells[2].at.line == 3);
  CHECK(rows[1].line == 4);
  CHECK(cells(rows[1]) == Texts{"0.1", "yes", "no", "here", "7 x", "as it is"});
  CHECK(rows[2].line == 5);
  CHECK(cells(rows[2]) == Texts{"", "9"});
}

TEST_CASE("a number that its style shows as a day is one", "[document][table]") {
  const auto first_row = [](const std::string& cells, const std::string& properties = "") {
    Parts parts = parts_with(sheet("<row>" + cells + "</row>"));
    parts[0].second.insert(parts[0].second.find("<sheets>"), properties);
    parts[1].second.insert(parts[1].second.rfind('<'),
                           "<Relationship Id=\"r4\" Type=\"x/styles\" Target=\"styles.xml\"/>");
    parts.emplace_back("xl/styles.xml",
                       "<styleSheet><numFmts><numFmt numFmtId=\"164\" formatCode=\"dd/mm\"/>"
                       "</numFmts><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><other/><xf "
                       "numFmtId=\"164\"/><xf/></cellXfs></styleSheet>");
    return rows_of(parts)[0].cells;
  };
  const std::string number = "<v>46300</v></c>";
  const auto cells =
      first_row("<c s=\"0\">" + number + "<c s=\"1\">" + number + "<c s=\"2\">" + number +
                "<c s=\"3\">" + number + "<c s=\"9\">" + number + "<c>" + number +
                "<c s=\"1\" t=\"str\">" + number + "<c t=\"d\"><v>2026-10-05T00:00:00</v></c>");
  Texts shown;
  for (const Cell& cell : cells)
    shown.push_back(cell.text + (cell.holds == CellHolds::day      ? " day"
                                 : cell.holds == CellHolds::number ? " number"
                                                                   : ""));
  CHECK(shown == Texts{"46300 number", "2026-10-05 day", "2026-10-05 day", "46300 number",
                       "46300 number", "46300 number", "46300", "2026-10-05 day"});
  CHECK(first_row("<c s=\"1\"><v>46300</v></c>", "<workbookPr date1904=\"1\"/>")[0].text ==
        "2030-10-06");
}

TEST_CASE("formats that show days, and the days that numbers are", "[document][table]") {
  for (const int id : {14, 17, 22, 27, 36, 45, 47, 50, 58}) {
    INFO(id);
    CHECK(shows_day(id, ""));
  }
  for (const int id : {0, 1, 13, 23, 26, 37, 44, 48, 49, 59, 164}) {
    INFO(id);
    CHECK_FALSE(shows_day(id, ""));
  }
  for (const char* code :
       {"dd/mm/yyyy", "D.M.YY", "[$-407]d. mmm;@", "[hh]:mm", "[s]", "h AM/PM"}) {
    INFO(code);
    CHECK(shows_day(164, code));
  }
  for (const char* code : {"General", "#,##0", "0.00E+00", "0\" days\"", "0\\d", "_d0", "*m0",
                           "[Red]0", "[$-407]0", "[<5]0", "@", "\"open d", "[open d", "[]0"}) {
    INFO(code);
    CHECK_FALSE(shows_day(164, code));
  }
  CHECK(shows_day(14, "yyyy"));
  CHECK_FALSE(shows_day(14, "0"));
  // Of a spreadsheet program: 59 is 1900-02-28 and 61 the day after.
  CHECK(day_of_sheet(1) == "1900-01-01");
  CHECK(day_of_sheet(59) == "1900-02-28");
  CHECK(day_of_sheet(61) == "1900-03-01");
  CHECK(day_of_sheet(46300.604166667) == "2026-10-05 14:30");
  CHECK(day_of_sheet(0.25) == "06:00");
  CHECK(day_of_sheet(0, true) == "1904-01-01");
  CHECK(day_of_sheet(-1) == "-1");
  CHECK(day_of_sheet(1e9) == "1000000000");
}

TEST_CASE("elements of a workbook may carry a prefix", "[document][table]") {
  const auto rows = rows_of(
      parts_with("<x:worksheet><x:sheetData><x:row r=\"1\"><x:c r=\"A1\"><x:v>5</x:v></x:c></x:row>"
                 "</x:sheetData></x:worksheet>"));
  REQUIRE(rows.size() == 1);
  CHECK(cells(rows[0]) == Texts{"5"});
}

TEST_CASE("a sheet is the first, or the one of its name", "[document][table]") {
  const Archive archive(
      parts_with(sheet("<row><c><f>A2</f><v>1</v></c><c><f>A3</f><v>2</v></c></row>")));
  WorkbookReader first(archive.path());
  CHECK(rows_of(first).size() == 1);
  CHECK(first.formulas() == 2);
  CHECK(first.other_sheets() == Texts{"second"});
  CHECK(first.file() == archive.path());
  WorkbookReader second(archive.path(), "second");
  const auto rows = rows_of(second);
  REQUIRE(rows.size() == 1);
  CHECK(cells(rows[0]) == Texts{"2"});
  CHECK_THAT(wrong(parts_with(sheet("")), "third"),
             Catch::Contains("third") && Catch::Contains("expected one of first, second"));
}

TEST_CASE("cells that hold no value are problems of their own", "[document][table]") {
  CHECK_THAT(wrong_row("<c r=\"B3\"><f>A1</f></c>"), Catch::StartsWith("cell B3: "));
  CHECK_THAT(wrong_row("<c r=\"A3\" t=\"e\"><v>#REF!</v></c>"), Catch::Contains("#REF!"));
  for (const char* number : {"2", "-1", "x"})
    CHECK_THAT(wrong_row("<c r=\"C3\" t=\"s\"><v>" + std::string(number) + "</v></c>"),
               Catch::StartsWith("cell C3: "));
  CHECK_THAT(wrong_row("<c r=\"A3\"><v>a&#1;b</v></c>"), Catch::Contains("control character"));
  CHECK_THAT(wrong_row("<c r=\"ZZ3\"><v>1</v></c>"), Catch::StartsWith("cell IV3: "));
  // A cell that says a place which there is not stands where it comes.
  const auto rows = rows_of(parts_with(sheet("<row><c r=\"ZZZZZ1\"><v>1</v></c></row>")));
  CHECK(cells(rows[0]) == Texts{"1"});
}

TEST_CASE("columns of a head may not be merged", "[document][table]") {
  const auto merged = [](const std::string& ref) {
    return rows_of(parts_with(sheet("<row r=\"2\"><c><v>1</v></c></row>",
                                    "<mergeCells><mergeCell ref=\"" + ref + "\"/></mergeCells>")));
  };
  CHECK_THAT(problems_text(merged("B2:C2")[0].problems), Catch::Contains("cell B2"));
  for (const char* ref : {"B9:C9", "", "B", "B12345678:C2", "B2x:C2"}) {
    INFO(ref);
    CHECK(merged(ref)[0].problems.empty());
  }
}

TEST_CASE("what is no workbook, or half of one, is said once", "[document][table]") {
  WorkbookReader none("no such file.xlsx");
  CHECK(none.next()->problems.size() == 1);
  CHECK_FALSE(none.next());
  const Parts whole = parts_with(sheet("<row><c><v>1</v></c></row>"));
  for (std::size_t i = 0; i < 4; ++i) {
    Parts lacking = whole;
    lacking.erase(lacking.begin() + static_cast<std::ptrdiff_t>(i));
    INFO(whole[i].first);
    CHECK_FALSE(wrong(lacking).empty());
    Parts broken = whole;
    broken[i].second = "<a><b>";
    CHECK_FALSE(wrong(broken).empty());
  }
}
