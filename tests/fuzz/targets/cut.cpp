// SPDX-License-Identifier: MIT
// One cut as it is said at the lathe, on a first line, and what is set, on a second.
#include "fuzz.hpp"
#include "turnwright/part/bench_work.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = fuzz::text_of(data, size);
  const std::size_t line = text.find('\n');
  for (const bool inch : {false, true}) {
    TextFault fault;
    if (!read_bench_work(text.substr(0, line), inch, fault)) {
      fuzz::hold(!fault.what.empty(), "refused without a reason");
      fuzz::speakable(fault.what);
      fuzz::speakable(fault.expected);
    }
    if (line == std::string::npos) continue;
    TextFault other;
    if (!read_bench_settings(text.substr(line + 1), inch, other)) fuzz::speakable(other.what);
  }
  return 0;
}
