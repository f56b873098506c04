// SPDX-License-Identifier: MIT
// The shop's own texts around the prices of a quotation.
#include "turnwright/output/offer.hpp"

#include "fuzz.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const CustomerQuote quote = [] {
    CustomerQuote made;
    made.customer = "A & B <b>";
    made.number = "Q-1";
    made.date = made.valid_until = *read_date("2026-12-07");
    return made;
  }();
  const std::string text = fuzz::text_of(data, size);
  const auto done = filled("fuzz.txt", text, quote, fuzz::english());
  fuzz::speakable(done.problems());
  if (done) (void)paper_page(offer_paper(quote, {*done, *done, text, *done}, fuzz::german()));
  return 0;
}
