// SPDX-License-Identifier: MIT
// A part planned by every method, priced, and written by every writer.
#include <unistd.h>

#include "fuzz.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/explain.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/page.hpp"
#include "turnwright/output/price_table.hpp"
#include "turnwright/output/step_sheet.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/output/workbook.hpp"

using namespace turnwright;

namespace {

void write(const PartQuote& part) {
  const Shop& shop = fuzz::shop();
  const Quote& quote = part.quote;
  (void)quote_summary(part, fuzz::english());
  (void)quote_text(part, fuzz::german(), {true});
  fuzz::whole_json(quote_json(part, shop, {}));
  fuzz::whole_json(route_json(quote.route, quote.times, shop));
  (void)quote_page(part, shop, {}, fuzz::english());
  for (const PriceRow& row : price_rows(quote, "=1+1")) (void)price_line(row);
  (void)paper_page(step_sheet_paper(quote.route, quote.times, shop, fuzz::german()));
  (void)explain_text(quote, shop, {}, fuzz::english());
  // Its library writes to the disk only; this one is memory. It is read back there.
  static const std::string path = "/dev/shm/turnwright-fuzz-" + std::to_string(getpid()) + ".xlsx";
  write_workbook(part, shop, {}, fuzz::english(), path);
  unlink(path.c_str());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto job = fuzz::job_of(data, size);
  if (!job) return 0;
  const auto quote = quote_part(*job, fuzz::shop(), {});
  if (quote)
    write(with_band(*quote, fuzz::shop()));
  else
    fuzz::whole_json(infeasible_json(*job, quote.infeasible()));
  return 0;
}
