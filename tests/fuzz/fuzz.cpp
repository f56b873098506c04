// SPDX-License-Identifier: MIT
// Every reader against any bytes (libFuzzer): the part file as it is, the same bytes as a shop file
// over the shipped rates, and as a unit. Build with clang++ -fsanitize=fuzzer,address,undefined.
#include <cstddef>
#include <cstdint>
#include <sstream>
#include <string>

#include "turnwright/part/part_table.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/route/route.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Shop shop = *read_shop(shipped_rates(), shipped_rates().size());
  if (size > 4000) return 0;
  const std::string text(reinterpret_cast<const char*>(data), size);
  if (const auto part = read_part("fuzz.yaml", text))
    if (const auto job = prepare(*part, shop)) (void)plan_route(*job, shop, {});
  std::istringstream table(text);
  TableReader reader("fuzz.csv", table);
  if (const auto head = reader.next())
    if (const auto columns = PartTable::read_head("fuzz.csv", *head))
      while (const auto row = reader.next()) (void)columns->read(*row);
  if (size > 0 && data[0] % 8 == 0) (void)read_shop({{"fuzz.yaml", text}}, 0);
  (void)read_unit(text.substr(0, 30));
  return 0;
}
