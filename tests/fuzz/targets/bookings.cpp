// SPDX-License-Identifier: MIT
// Booked times: where they leave the orders, and the corrections that they propose, which must read
// back.
#include <algorithm>
#include <sstream>

#include "fuzz.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/week/actuals.hpp"

using namespace turnwright;

namespace {

std::vector<Estimated> estimates_for(const Bookings& bookings) {
  std::vector<Estimated> estimates;
  for (const Booking& b : bookings.rows)
    if (std::none_of(estimates.begin(), estimates.end(), [&](const Estimated& e) {
          return e.order == b.order && e.operation == b.operation && e.called == b.machine;
        }))
      estimates.push_back({b.order, b.machine, b.machine, b.operation, 30, 2, 4});
  return estimates;
}

void reads_back(const std::vector<Factor>& factors, const std::string& text) {
  const auto document = read_document("corrections.yaml", text);
  fuzz::speakable(document.problems());
  fuzz::hold(static_cast<bool>(document), "the corrections are no YAML");
  for (const Factor& factor : factors) {
    const bool counts = std::any_of(factor.orders.begin(), factor.orders.end(),
                                    [](const BookedRatio& ratio) { return !ratio.outlier; });
    bool there = !counts;
    for (const Member& section : document->root.members)
      for (const Node& record : section.value.items)
        for (const Member& member : record.members)
          there = there || (member.key == "machine" && member.value.text == factor.machine);
    fuzz::hold(there, "a machine's name is not read back");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Week sample = *read_week("week.yaml", fuzz::file("samples/12-week.yaml"));
  std::istringstream in(fuzz::text_of(data, size));
  TableReader table("fuzz.csv", in);
  const Bookings bookings = read_bookings(table);
  fuzz::speakable(bookings.problems);
  Week week = sample;
  fuzz::speakable(take_status(week, bookings, "fuzz.csv"));
  const std::vector<Factor> factors = factors_of(bookings, estimates_for(bookings));
  fuzz::whole_json(actuals_json(factors, bookings));
  (void)actuals_text(factors, bookings, {}, fuzz::german());
  reads_back(factors, corrections_file(factors, bookings.last,
                                       [](const Message& m) { return fuzz::english()(m); }));
  return 0;
}
