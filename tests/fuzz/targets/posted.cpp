// SPDX-License-Identifier: MIT
// A posted plan of the sample week.
#include <sstream>

#include "fuzz.hpp"
#include "turnwright/week/posted.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Week week = *read_week("week.yaml", fuzz::file("samples/12-week.yaml"));
  std::istringstream in(fuzz::text_of(data, size));
  TableReader table("fuzz.csv", in);
  fuzz::speakable(read_posted(week, table).problems());
  return 0;
}
