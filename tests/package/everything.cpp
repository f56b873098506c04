// SPDX-License-Identifier: MIT
// Calls into every library that Turnwright links, and holds the package's version against its own.
#include <iostream>
#include <iterator>
#include <sstream>
#include <string_view>
#include <turnwright/compare/compare.hpp>
#include <turnwright/document/table.hpp>
#include <turnwright/estimate/band.hpp>
#include <turnwright/output/json.hpp>
#include <turnwright/output/workbook.hpp>
#include <turnwright/week/capacity.hpp>

using namespace turnwright;

int main(int, char** words) {
  const std::string text(std::istreambuf_iterator<char>(std::cin), {});
  const auto shop = read_shop(shipped_rates(), shipped_rates().size());
  const auto part = read_part("part", text);
  const auto job = prepare(*part, *shop);
  const PartQuote quote = with_band(*quote_part(*job, *shop, {}), *shop);  // threads
  write_workbook(quote, *shop, {}, Words(), words[1]);
  verify_workbook(words[1]);
  std::istringstream list("number;material\nP-1;C45\n");
  TableReader rows("list.csv", list);
  const bool read = rows.next()->cells.size() == 2;
  std::cout << "linear programs: " << has_linear_programs() << '\n';  // Clp
#ifdef VERSION
  if (std::string_view(version) != VERSION) return 1;
#endif
  return read ? 0 : 1;
}
