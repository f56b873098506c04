// SPDX-License-Identifier: MIT
// A list of parts as a table of text; what is refused is written again and reads as it was.
#include <sstream>

#include "fuzz.hpp"
#include "turnwright/output/price_table.hpp"
#include "turnwright/part/part_table.hpp"

using namespace turnwright;

namespace {

void reads_back(const PartTable& table, const TableRow& row, const std::string& problem) {
  std::istringstream in(again_head(table) + again_row(table, row, problem));
  TableReader again("again.csv", in);
  const auto head = again.next();
  const auto columns = table.columns();
  fuzz::hold(head && head->cells.size() == columns.size() + 1, "the head of what is refused");
  const auto read = again.next();
  const auto texts = table.texts(row);
  fuzz::hold(read.has_value(), "the row that is refused");
  for (std::size_t i = 0; i < texts.size(); ++i)
    fuzz::hold(read->cells[i].text == texts[i], "a cell of what is refused");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::istringstream in(fuzz::text_of(data, size));
  TableReader reader("fuzz.csv", in);
  std::vector<TableRow> rows;
  while (auto row = reader.next()) rows.push_back(std::move(*row));
  if (rows.empty()) return 0;
  auto table = PartTable::read_head("fuzz.csv", rows.front());
  fuzz::speakable(table.problems());
  if (!table) return 0;
  table->add_family("11-bush-family.yaml",
                    read_document("f.yaml", fuzz::file("samples/11-bush-family.yaml")));
  rows.erase(rows.begin());
  table->find_convention(rows);
  fuzz::speakable(table->notes());
  for (const TableRow& row : rows) {
    const auto part = table->read(row);
    fuzz::speakable(part.problems());
    (void)table->identity(row);
    if (!part && row.problems.empty()) reads_back(*table, row, "wrong");
  }
  return 0;
}
