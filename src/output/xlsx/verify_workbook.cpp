// SPDX-License-Identifier: MIT
// A written workbook read back: the library reports success even when its temporary files were cut
// short by a full disk.
#include <minizip/unzip.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <memory>
#include <string_view>

#include "turnwright/output/workbook.hpp"
#include "xlsx/book_counts.hpp"

namespace turnwright {
namespace {

constexpr int fewest_parts = 8;

struct CloseZip {
  void operator()(void* zip) const { unzClose(zip); }
};

[[noreturn]] void damaged(const std::string& path) {
  throw CannotWrite({"xlsx.damaged", {{"path", path}}});
}

// Tags of a part as it is unpacked, so that a long list takes no memory: they must open and close
// in pairs.
class PartScanner {
 public:
  void scan(std::string_view bytes) {
    for (const char c : bytes) {
      if (!in_tag_ && c == '<')
        in_tag_ = true;
      else if (in_tag_ && c == '>')
        end_tag();
      else if (in_tag_)
        tag_ += c;
    }
  }
  bool whole() const { return !broken_ && !in_tag_ && open_.empty() && elements_ > 0; }
  SheetCounts counts;
  std::size_t strings = 0, series = 0;

 private:
  void end_tag() {
    in_tag_ = false;
    if (tag_.starts_with('/'))
      close(std::string_view(tag_).substr(1));
    else if (!tag_.starts_with('?'))
      open();
    tag_.clear();
  }
  void open() {
    ++elements_;
    const std::string name = tag_.substr(0, tag_.find_first_of(" /"));
    count(name);
    if (!tag_.ends_with('/')) open_.push_back(name);
  }
  void close(std::string_view name) {
    if (open_.empty() || open_.back() != name)
      broken_ = true;
    else
      open_.pop_back();
  }
  void count(std::string_view name) {
    if (name == "c") {
      ++counts.cells;
      if (tag_.find(" t=\"s\"") != std::string::npos ||
          tag_.find(" t=\"inlineStr\"") != std::string::npos)
        ++counts.texts;
    }
    if (name == "f") ++counts.formulas;
    if (name == "si") ++strings;
    if (name == "c:ser") ++series;
  }

  std::string tag_;
  std::vector<std::string> open_;
  std::size_t elements_ = 0;
  bool in_tag_ = false, broken_ = false;
};

template <class Take>
void unpack_part(unzFile zip, const std::string& path, Take take) {
  if (unzOpenCurrentFile(zip) != UNZ_OK) damaged(path);
  std::vector<char> buffer(1 << 16);
  int n = 0;
  while ((n = unzReadCurrentFile(zip, buffer.data(), static_cast<unsigned>(buffer.size()))) > 0)
    take(std::string_view(buffer.data(), static_cast<std::size_t>(n)));
  const int closed = unzCloseCurrentFile(zip);  // checks the CRC
  if (n < 0 || closed != UNZ_OK) damaged(path);
}

PartScanner scan_part(unzFile zip, const std::string& path) {
  PartScanner part;
  unpack_part(zip, path, [&](std::string_view bytes) { part.scan(bytes); });
  if (!part.whole()) damaged(path);
  return part;
}

// "xl/worksheets/sheet3.xml" is the third; 0 for what is no sheet.
std::size_t sheet_number(std::string_view part) {
  constexpr std::string_view before = "xl/worksheets/sheet";
  std::size_t number = 0;
  if (part.starts_with(before)) {
    part.remove_prefix(before.size());
    std::from_chars(part.data(), part.data() + part.size(), number);
  }
  return number;
}

std::string name_of_part(unzFile zip) {
  std::array<char, 256> name{};
  unz_file_info info{};  // the library writes it, asked or not
  unzGetCurrentFileInfo(zip, &info, name.data(), name.size() - 1, nullptr, 0, nullptr, 0);
  return name.data();
}

void add_part(BookCounts& counts, unzFile zip, const std::string& path) {
  const std::string name = name_of_part(zip);
  if (name.ends_with(".png"))
    return unpack_part(zip, path,
                       [&](std::string_view bytes) { counts.picture_bytes += bytes.size(); });
  const PartScanner part = scan_part(zip, path);
  const std::size_t sheet = sheet_number(name);
  counts.strings += part.strings;
  counts.series += part.series;
  if (sheet == 0) return;
  counts.sheets.resize(std::max(counts.sheets.size(), sheet));
  counts.sheets[sheet - 1] = part.counts;
}

}  // namespace

CannotWrite::CannotWrite(Message message)
    : std::runtime_error(Words()(message)), why(std::move(message)) {}

BookCounts counts_of(const std::string& path) {
  const std::unique_ptr<void, CloseZip> zip(unzOpen(path.c_str()));
  if (zip == nullptr || unzGoToFirstFile(zip.get()) != UNZ_OK) damaged(path);
  BookCounts counts;
  int parts = 0;
  do {
    add_part(counts, zip.get(), path);
    ++parts;
  } while (unzGoToNextFile(zip.get()) == UNZ_OK);
  if (parts < fewest_parts) damaged(path);
  return counts;
}

void require_counts(const std::string& path, const BookCounts& written) {
  if (counts_of(path) != written) damaged(path);
}

void verify_workbook(const std::string& path) { counts_of(path); }

}  // namespace turnwright
