// SPDX-License-Identifier: MIT
// A part planned and costed: the rule of each kind of method on the machine that takes it.
#include "fuzz.hpp"
#include "turnwright/estimate/quote.hpp"
#include "turnwright/route/route.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto job = fuzz::job_of(data, size);
  if (!job) return 0;
  const auto route = plan_route(*job, fuzz::shop(), {});
  if (!route) {
    fuzz::speakable(route.infeasible().why);
    fuzz::speakable(route.infeasible().remedies);
    return 0;
  }
  const Quote quote = make_quote(*route, fuzz::shop());
  for (const Price& price : quote.prices) {
    fuzz::hold(price.income().hundredths() >= 0, "a price below nothing");
    fuzz::hold(price.machine.si >= 0 && price.machine.si < 1e12,
               "a time below nothing or without end");
  }
  return 0;
}
