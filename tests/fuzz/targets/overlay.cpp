// SPDX-License-Identifier: MIT
// A file of a shop's folder over the shipped rates; a part planned and priced by what it makes of
// them.
#include "fuzz.hpp"
#include "turnwright/estimate/quote.hpp"
#include "turnwright/output/rates.hpp"
#include "turnwright/route/route.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Part pin = *read_part("pin.yaml", fuzz::file("samples/09-clevis-pin.yaml"));
  std::vector<NamedText> files = shipped_rates();
  const std::size_t own_from = files.size();
  files.push_back({"fuzz.yaml", fuzz::text_of(data, size)});
  const auto shop = read_shop(files, own_from);
  fuzz::speakable(shop.problems());
  if (!shop) return 0;
  fuzz::whole_json(rates_json(*shop));
  (void)rates_text(*shop, fuzz::german());
  const auto job = prepare(pin, *shop);
  fuzz::speakable(job.problems());
  if (!job) return 0;
  const auto route = plan_route(*job, *shop, {});
  if (route)
    (void)make_quote(*route, *shop);
  else
    fuzz::speakable(route.infeasible().why);
  return 0;
}
