// SPDX-License-Identifier: MIT
// A week file.
#include "fuzz.hpp"
#include "turnwright/week/route_orders.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto week = read_week("fuzz.yaml", fuzz::text_of(data, size), fuzz::shop().currencies);
  fuzz::speakable(week.problems());
  if (week) fuzz::speakable(unknown_machines(*week, fuzz::shop()));
  return 0;
}
