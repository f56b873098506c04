// SPDX-License-Identifier: MIT
#pragma once
// One cut, as it is said at the bench.
#include "support.hpp"
#include "turnwright/part/bench_work.hpp"

namespace turnwright::test {

inline BenchWork work_of(const std::string& text, bool inch = false) {
  TextFault fault;
  const auto work = read_bench_work(text, inch, fault);
  INFO(text << ": " << english(fault.what));
  REQUIRE(work);
  return *work;
}

}  // namespace turnwright::test
