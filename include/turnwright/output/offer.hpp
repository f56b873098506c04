// SPDX-License-Identifier: MIT
#pragma once
// The customer's copy of a request: an offer as one HTML page that prints, or as a workbook of
// values only. Its words and text blocks are the shop's to write.
#include <array>
#include <map>
#include <string>
#include <vector>

#include "turnwright/document/problem.hpp"
#include "turnwright/estimate/customer_quote.hpp"

namespace turnwright {

enum class DateStyle { day_month_year_dots, day_month_year, month_day_year, iso, month_in_words };

/// One language and how it writes numbers and dates.
struct OfferWords {
  std::string language, decimal_mark, thousands_mark;
  DateStyle date = DateStyle::iso;
  std::array<std::string, 12> months;
  bool letter_paper = false;
  bool pounds = false;
  std::map<std::string, std::string> words;

  const std::string& operator()(const std::string& name) const { return words.at(name); }
  std::string money(Money amount) const;
  std::string number(double value, int places) const;
  std::string day(Date date) const;
};
/// Reads a words file; every word must be there.
Checked<OfferWords> read_offer_words(std::string file, std::string_view text);

/// Text of the shop's own around the prices: an empty line parts paragraphs.
struct OfferTexts {
  std::string sender, opening, terms, closing;
};
/// The text with {customer}, {number}, {valid until} … filled in; a problem with its place when a
/// name in braces is none of them.
Checked<std::string> filled(const std::string& file, const std::string& text,
                            const CustomerQuote& quote, const OfferWords& words);

std::string offer_page(const CustomerQuote& quote, const OfferWords& words,
                       const OfferTexts& texts);
/// Values only; throws CannotWrite.
void write_offer_workbook(const CustomerQuote& quote, const OfferWords& words,
                          const OfferTexts& texts, const std::string& path);

}  // namespace turnwright
