// SPDX-License-Identifier: MIT
// Cells that the program writes into tables, and reads again as they were.
#include <sstream>

#include "fuzz.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/document/write_yaml.hpp"
#include "turnwright/quantity/text.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = fuzz::text_of(data, size);
  // No reader lets others through.
  std::string plain = text;
  std::erase(plain, '\r');
  if (showable(plain, true) != plain) return 0;
  std::istringstream in("a,b\n" + table_cell(text) + ",x\n");
  TableReader table("fuzz.csv", in);
  (void)table.next();
  const auto row = table.next();
  if (row && row->problems.empty())
    fuzz::hold(row->cells.size() == 2 && row->cells[0].text == text, "a cell does not read back");
  const auto yaml = read_document("y", yaml_text(YamlValue::map({{"k", YamlValue::of(text)}})));
  if (yaml)
    fuzz::hold(yaml->root.members[0].value.text == text, "a text of YAML does not read back");
  return 0;
}
