// SPDX-License-Identifier: MIT
// Short texts: numbers, quantities, units, dates, clocks, weeks, headings, names.
#include <array>

#include "fuzz.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/part/part_table.hpp"
#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/text.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string text = fuzz::text_of(data + 1, size - 1);
  // One reader an execution: they have nothing to do with one another.
  switch (data[0] % 8) {
    case 0:
      if (const auto number = read_number(text))
        fuzz::hold(read_number(shortest(*number)) == number, "a number does not read back");
      break;
    case 1:
      if (TextFault fault; !read_quantity(text, unit::mm, fault)) fuzz::speakable(fault.what);
      break;
    case 2:
      (void)read_unit(text);
      break;
    case 3:
      if (const auto date = read_date(text))
        fuzz::hold(text_of(*date) == text && days_between(*date, days_after(*date, 7)) == 7,
                   "a date");
      break;
    case 4:
      (void)read_clock(text);
      (void)is_week(text);
      break;
    case 5:
      (void)plain_heading(text);
      (void)nearest(text, {"diameter", "length", "chamfer"});
      break;
    case 6: {
      const std::string shown = showable(text);
      fuzz::hold(showable(shown) == shown, "what may be shown");
      break;
    }
    default:
      (void)leading_number(text);
      (void)read_whole(text, -5, 100000);
  }
  return 0;
}
