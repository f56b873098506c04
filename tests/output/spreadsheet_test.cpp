// SPDX-License-Identifier: MIT
#include "../../src/output/xlsx/spreadsheet.hpp"

#include <fcntl.h>
#include <minizip/unzip.h>
#include <minizip/zip.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <functional>

#include "../../src/output/xlsx/book_counts.hpp"
#include "../../src/output/xlsx/sheet_names.hpp"
#include "../support.hpp"
#include "turnwright/output/price_table.hpp"
#include "turnwright/output/workbook.hpp"

using namespace turnwright;

namespace {

// A folder of its own for a test, gone after it.
struct Folder {
  std::filesystem::path path = std::filesystem::temp_directory_path() /
                               ("turnwright-spreadsheet-" + std::to_string(getpid()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() { std::filesystem::remove_all(path); }
  std::string file(const std::string& name) const { return (path / name).string(); }
};

void write_book(const std::string& path) {
  Spreadsheet book(path, {"Data", "Sums"});
  for (int row = 0; row < 40; ++row) {
    book.text(0, row, 0, "row " + std::to_string(row % 30));
    book.value(0, row, 1, row, Look::number);
    book.plain_formula(1, row, 0, "=Data!" + cell_name(row, 1) + "*2", 2 * row, Look::number);
  }
  book.wide_text(1, 50, 0, 3, "over four cells", Look::wrap);
  book.chart(0, 45, 0, {"chart", "x", "y", {{"s", {}, {0, 0, 0, 9, 0}, {0, 0, 1, 9, 1}}}});
  book.close();
}

// The same archive with one of its parts changed.
void damage(const std::string& from, const std::string& to, const std::string& part,
            const std::function<void(std::string&)>& change) {
  unzFile in = unzOpen(from.c_str());
  zipFile out = zipOpen(to.c_str(), APPEND_STATUS_CREATE);
  REQUIRE(in != nullptr);
  REQUIRE(out != nullptr);
  for (int more = unzGoToFirstFile(in); more == UNZ_OK; more = unzGoToNextFile(in)) {
    char name[256] = {};
    unz_file_info info{};
    unzGetCurrentFileInfo(in, &info, name, sizeof name, nullptr, 0, nullptr, 0);
    std::string bytes(info.uncompressed_size, '\0');
    unzOpenCurrentFile(in);
    unzReadCurrentFile(in, bytes.data(), static_cast<unsigned>(bytes.size()));
    unzCloseCurrentFile(in);
    if (name == part) change(bytes);
    zipOpenNewFileInZip(out, name, nullptr, nullptr, 0, nullptr, 0, nullptr, Z_DEFLATED, 6);
    zipWriteInFileInZip(out, bytes.data(), static_cast<unsigned>(bytes.size()));
    zipCloseFileInZip(out);
  }
  zipClose(out, nullptr);
  unzClose(in);
}

void cut(std::string& bytes, const std::string& from, const std::string& to) {
  const std::size_t begin = bytes.find(from), end = bytes.find(to, begin);
  REQUIRE(end != std::string::npos);
  bytes.erase(begin, end - begin);
}

// What a call leaves on standard error, below every stream.
std::string standard_error_of(const std::string& file, const std::function<void()>& call) {
  const int usual = dup(STDERR_FILENO), caught = open(file.c_str(), O_CREAT | O_RDWR, 0600);
  dup2(caught, STDERR_FILENO);
  call();
  std::fflush(stderr);
  dup2(usual, STDERR_FILENO);
  close(usual);
  close(caught);
  std::ifstream text(file);
  return {std::istreambuf_iterator<char>(text), {}};
}

}  // namespace

TEST_CASE("a workbook holds as much as was written into it", "[output][xlsx]") {
  const Folder folder;
  write_book(folder.file("a.xlsx"));
  const BookCounts counts = counts_of(folder.file("a.xlsx"));
  REQUIRE(counts.sheets.size() == 2);
  CHECK(counts.sheets[0] == SheetCounts{80, 0, 40});
  CHECK(counts.sheets[1] == SheetCounts{44, 40, 1});
  CHECK(counts.strings == 31);
  CHECK(counts.series == 1);
}

// Once a disk was full for a moment: rows and texts were missing in files that looked whole.
TEST_CASE("a workbook that lost rows or texts while it was written is found out",
          "[output][xlsx]") {
  const Folder folder;
  const std::string whole = folder.file("a.xlsx"), damaged = folder.file("b.xlsx");
  write_book(whole);
  const BookCounts written = counts_of(whole);
  require_counts(whole, written);
  const char *part = "xl/worksheets/sheet2.xml", *from = "<row r=\"5\"", *to = "<row r=\"9\"";
  SECTION("rows of formulas") {}
  SECTION("texts of all sheets") {
    part = "xl/sharedStrings.xml";
    from = "<si><t>row 4";
    to = "<si><t>row 9";
  }
  SECTION("a formula whose value stayed") {
    from = "<f>";
    to = "<v>";
  }
  damage(whole, damaged, part, [&](std::string& bytes) { cut(bytes, from, to); });
  verify_workbook(damaged);  // every part is well formed
  CHECK_THROWS_AS(require_counts(damaged, written), CannotWrite);
}

TEST_CASE("a workbook with a part cut short is found out by itself", "[output][xlsx]") {
  const Folder folder;
  const std::string whole = folder.file("a.xlsx"), damaged = folder.file("b.xlsx");
  write_book(whole);
  damage(whole, damaged, "xl/worksheets/sheet1.xml",
         [](std::string& bytes) { bytes.resize(bytes.size() / 2); });
  CHECK_THROWS_AS(verify_workbook(damaged), CannotWrite);
  CHECK_THROWS_AS(verify_workbook(folder.file("none.xlsx")), CannotWrite);
}

TEST_CASE("a priced list of many rows holds all of them", "[output][xlsx]") {
  const Folder folder;
  PriceBook book(folder.file("list.xlsx"), Words());
  PriceRow row(price_columns().size(), PriceCell{"text", {}, 0});
  row[5] = {"3", 3.0, 0};
  for (int i = 0; i < 500; ++i) book.add(row);
  book.close();
  const BookCounts counts = counts_of(folder.file("list.xlsx"));
  const std::size_t columns = price_columns().size();
  CHECK(counts.sheets.at(0) == SheetCounts{501 * columns, 0, 501 * columns - 500});
}

TEST_CASE("the spreadsheet library's own messages do not reach the terminal", "[output][xlsx]") {
  const Folder folder;
  const std::string said = standard_error_of(folder.file("said"), [&] {
    Spreadsheet book(folder.file("no-such-folder/a.xlsx"), {"Data"});
    book.value(0, 0, 0, 1, Look::number);
    CHECK_THROWS_AS(book.close(), CannotWrite);
  });
  CHECK(said == "");
}

TEST_CASE("names of sheets are made such as every program takes", "[output][xlsx]") {
  CHECK(sheet_names({"Steps", "STEPS", "a/b:c", ""}) ==
        std::vector<std::string>{"Steps", "STEPS 2", "abc", "1"});
  CHECK(sheet_names({std::string(40, 'x')}).front().size() == 28);
  CHECK(reference_of("Steps") == "Steps");
  CHECK(reference_of("Einflüsse") == "'Einflüsse'");
  CHECK(reference_of("Op 10") == "'Op 10'");
}
