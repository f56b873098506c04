// SPDX-License-Identifier: MIT
// A shop's own sentences: whatever they are, messages are still said, and not at any length.
#include "fuzz.hpp"
#include "turnwright/output/offer.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  auto read = read_word_overlay("fuzz.yaml", fuzz::text_of(data, size));
  fuzz::speakable(read.problems());
  if (!read) return 0;
  std::vector<std::string> ids;
  for (const auto& [id, sentence] : *read) ids.push_back(id);
  Words words;
  words.overlay(std::move(*read));
  CustomerQuote quote;
  quote.customer = "A";
  quote.date = quote.valid_until = *read_date("2026-12-07");
  CustomerPrice& price = quote.items.emplace_back().prices.emplace_back();
  price.each = Money::from_hundredths(123456);
  price.total = Money::from_hundredths(1234567);
  fuzz::hold(paper_page(offer_paper(quote, {}, words)).size() < 200'000 + 200 * size,
             "a quotation without end");
  for (const std::string& id : ids)
    fuzz::hold(words({id, {{"n", 12345}, {"part", "pin"}, {"value", Figure{0.5, 3}}}}).size() <
                   2000 + 20 * size,
               "a sentence without end");
  return 0;
}
