// SPDX-License-Identifier: MIT
#pragma once
// The customer's copy of a request: a quotation on paper, or as a workbook of values only. Its
// words stand in the catalogue ("offer."), its text blocks are the shop's to write.
#include <map>
#include <string>
#include <string_view>

#include "turnwright/document/problem.hpp"
#include "turnwright/estimate/customer_quote.hpp"
#include "turnwright/output/paper.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// Sentences of the shop's own for Words::overlay, from a file that maps ids of the catalogue to
/// them; all problems of the file when it is no such map.
Checked<std::map<std::string, std::string>> read_word_overlay(std::string file,
                                                              std::string_view text);

/// Text of the shop's own around the prices: an empty line parts paragraphs.
struct OfferTexts {
  std::string sender, opening, terms, closing;
  bool provisional = false;  // said across every page
};
/// The text with {customer}, {number}, {valid until} … filled in; a problem with its place when a
/// name in braces is none of them.
Checked<std::string> filled(const std::string& file, const std::string& text,
                            const CustomerQuote& quote, const Words& words);

/// On letter paper and in pounds for readers of inches.
paper::Paper offer_paper(const CustomerQuote& quote, const OfferTexts& texts, const Words& words);
/// Values only; throws CannotWrite.
void write_offer_workbook(const CustomerQuote& quote, const OfferTexts& texts, const Words& words,
                          const std::string& path);

}  // namespace turnwright
