// SPDX-License-Identifier: MIT
// Every reader against any bytes (libFuzzer): the part file as it is, the same bytes as a shop file
// over the shipped rates, as a request, as the words and texts of an offer, as a table, and as a unit. Build with clang++ -fsanitize=fuzzer,address,undefined.
#include <cstddef>
#include <cstdint>
#include <sstream>
#include <string>

#include "turnwright/output/offer.hpp"
#include "turnwright/part/part_table.hpp"
#include "turnwright/part/request.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/route/route.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Shop shop = *read_shop(shipped_rates(), shipped_rates().size());
  if (size > 4000) return 0;
  const std::string text(reinterpret_cast<const char*>(data), size);
  if (const auto part = read_part("fuzz.yaml", text))
    if (const auto job = prepare(*part, shop)) (void)plan_route(*job, shop, {});
  if (const auto request = read_request("fuzz.yaml", text))
    for (const RequestItem& item : request->parts) (void)ordered(Part{}, item, *request);
  if (size > 0 && data[0] % 8 == 1) {
    OfferWords words;
    if (const auto read = read_offer_words("fuzz.yaml", text)) words = *read;
    (void)filled("fuzz.txt", text, CustomerQuote{}, words);
  }
  std::istringstream table(text);
  TableReader reader("fuzz.csv", table);
  if (const auto head = reader.next())
    if (const auto columns = PartTable::read_head("fuzz.csv", *head))
      while (const auto row = reader.next()) (void)columns->read(*row);
  if (size > 0 && data[0] % 8 == 0) (void)read_shop({{"fuzz.yaml", text}}, 0);
  (void)read_unit(text.substr(0, 30));
  return 0;
}
