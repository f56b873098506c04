// SPDX-License-Identifier: MIT
// Every reader against any bytes (libFuzzer): the part file as it is, the same bytes as a shop file
// over the shipped rates, as a request, as the words and texts of an offer, as a table, and as a
// unit. Build with clang++ -fsanitize=fuzzer,address,undefined.
#include <minizip/zip.h>
#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <utility>

#include "turnwright/document/workbook_table.hpp"
#include "turnwright/draft/draft.hpp"
#include "turnwright/output/offer.hpp"
#include "turnwright/part/part_table.hpp"
#include "turnwright/part/request.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/route/route.hpp"
#include "turnwright/week/actuals.hpp"
#include "turnwright/week/week.hpp"

using namespace turnwright;

namespace {

// An archive is read from the disk: the bytes as they are, or as the sheet of a sound workbook.
void workbook(const std::string& text) {
  static const std::string path = "/tmp/turnwright-fuzz-" + std::to_string(getpid()) + ".xlsx";
  if (text.starts_with("PK")) {
    std::ofstream(path, std::ios::binary) << text;
  } else {
    const zipFile zip = zipOpen(path.c_str(), APPEND_STATUS_CREATE);
    for (const auto& [name, bytes] :
         {std::pair<const char*, std::string>{
              "xl/workbook.xml", "<w><sheets><sheet name='a' r:id='r1'/></sheets></w>"},
          {"xl/_rels/workbook.xml.rels",
           "<R><L Id='r1' Type='x/worksheet' Target='s.xml'/><L Id='r2' Type='x/sharedStrings' "
           "Target='t.xml'/></R>"},
          {"xl/t.xml", "<sst><si><t>number</t></si><si><t>material</t></si></sst>"},
          {"xl/s.xml", text}}) {
      zipOpenNewFileInZip(zip, name, nullptr, nullptr, 0, nullptr, 0, nullptr, 0, 0);
      zipWriteInFileInZip(zip, bytes.data(), static_cast<unsigned>(bytes.size()));
      zipCloseFileInZip(zip);
    }
    zipClose(zip, nullptr);
  }
  WorkbookReader book(path);
  std::optional<Checked<PartTable>> columns;
  while (const auto row = book.next()) {
    if (!columns)
      columns = PartTable::read_head("fuzz.xlsx", *row);
    else if (*columns)
      (void)(*columns)->read(*row);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Shop shop = *read_shop(shipped_rates(), shipped_rates().size());
  if (size > 4000) return 0;
  const std::string text(reinterpret_cast<const char*>(data), size);
  if (const auto part = read_part("fuzz.yaml", text))
    if (const auto job = prepare(*part, shop)) (void)plan_route(*job, shop, {});
  if (const auto request = read_request("fuzz.yaml", text))
    for (const RequestItem& item : request->parts) (void)ordered(Part{}, item, *request);
  if (size > 0 && data[0] % 8 == 1) {
    Words words;
    if (auto read = read_word_overlay("fuzz.yaml", text)) words.overlay(std::move(*read));
    CustomerQuote quote;
    quote.date = quote.valid_until = *read_date("2026-12-07");
    (void)filled("fuzz.txt", text, quote, words);
  }
  if (size > 0 && data[0] == '{')  // what the plug-in answers
    if (const auto model = read_recognition(text))
      for (const DraftDetail detail : {DraftDetail::features, DraftDetail::surfaces})
        (void)draft_of(*model, {"fuzz", false, detail});
  (void)read_week("fuzz.yaml", text);
  std::istringstream booked(text);
  TableReader bookings("fuzz.csv", booked);
  (void)read_bookings(bookings);
  std::istringstream table(text);
  TableReader reader("fuzz.csv", table);
  if (const auto head = reader.next())
    if (auto columns = PartTable::read_head("fuzz.csv", *head)) {
      columns->add_family("f", read_document("f.yaml", "outside: [<d> x<l>]\nmaterial: C45\n"));
      while (const auto row = reader.next()) (void)columns->read(*row);
    }
  if (text.starts_with("PK") || text.starts_with("<")) workbook(text);
  if (size > 0 && data[0] % 8 == 0) (void)read_shop({{"fuzz.yaml", text}}, 0);
  (void)read_unit(text.substr(0, 30));
  return 0;
}
