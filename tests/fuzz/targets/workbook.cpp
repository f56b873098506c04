// SPDX-License-Identifier: MIT
// A list as a workbook: an archive as it is, or the bytes as a sheet of a sound one.
#include <minizip/zip.h>
#include <unistd.h>

#include <fstream>
#include <optional>
#include <utility>

#include "fuzz.hpp"
#include "turnwright/document/workbook_table.hpp"
#include "turnwright/part/part_table.hpp"

using namespace turnwright;

namespace {

void write_archive(const std::string& path, const std::string& sheet) {
  const zipFile zip = zipOpen(path.c_str(), APPEND_STATUS_CREATE);
  for (const auto& [name, bytes] :
       {std::pair<const char*, std::string>{"xl/workbook.xml",
                                            "<w><sheets><sheet name='a' r:id='r1'/></sheets></w>"},
        {"xl/_rels/workbook.xml.rels",
         "<R><L Id='r1' Type='x/worksheet' Target='s.xml'/><L Id='r2' Type='x/sharedStrings' "
         "Target='t.xml'/></R>"},
        {"xl/t.xml", "<sst><si><t>number</t></si><si><t>material</t></si></sst>"},
        {"xl/s.xml", sheet}}) {
    zipOpenNewFileInZip(zip, name, nullptr, nullptr, 0, nullptr, 0, nullptr, 0, 0);
    zipWriteInFileInZip(zip, bytes.data(), static_cast<unsigned>(bytes.size()));
    zipCloseFileInZip(zip);
  }
  zipClose(zip, nullptr);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // An archive is read from the disk; this one is memory.
  static const std::string path = "/dev/shm/turnwright-fuzz-" + std::to_string(getpid()) + ".xlsx";
  const std::string text = fuzz::text_of(data, size);
  if (text.starts_with("PK"))
    std::ofstream(path, std::ios::binary) << text;
  else
    write_archive(path, text);
  WorkbookReader book(path);
  std::optional<Checked<PartTable>> table;
  while (const auto row = book.next()) {
    fuzz::speakable(row->problems);
    if (!table)
      table = PartTable::read_head("fuzz.xlsx", *row);
    else if (*table)
      fuzz::speakable((*table)->read(*row).problems());
  }
  (void)book.other_sheets();
  unlink(path.c_str());
  return 0;
}
