// SPDX-License-Identifier: MIT
#pragma once
// The only place where the program finds words: messages of all rooms, headings, labels, units,
// numbers and dates, in the reader's language and system of units.
//   const Words words(Language::en);
//   words({"price.from", {{"qty", 50}}})   words("heading.prices")
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"
#include "turnwright/quantity/message.hpp"

namespace turnwright {

/// `test` brackets every sentence of the catalogue, ⟦…⟧, and every text from data, ‹…›: what stands
/// outside of both has bypassed the catalogue.
enum class Language { en, de, test };
/// "en", "de", "test"; nothing when it is none.
std::optional<Language> language_named(std::string_view name);
std::string_view name_of(Language language);

class Words {
 public:
  explicit Words(Language language = Language::en, bool inch = false);
  /// Sentences of the shop's own, by id, in place of the catalogue's.
  void overlay(std::map<std::string, std::string> own);

  /// What money is written in beside units of money ("EUR/h").
  void currency(std::string code) { currency_ = std::move(code); }

  void units(bool inch) { inch_ = inch; }

  Language language() const { return language_; }
  bool inch() const { return inch_; }
  /// Paper for customers is Letter, not A4: where the shop says so, else for readers of inches.
  bool letter() const;

  /// The sentence with its places filled in; "" for an empty message. An id that the catalogue does
  /// not know is shown in double brackets, and fails a test.
  std::string operator()(const Message& message) const;
  /// True when the catalogue, or the shop, has words under this id.
  bool knows(std::string_view id) const;
  /// All of them, joined by `between`.
  std::string joined(const Messages& messages, std::string_view between) const;
  /// "a, b and c".
  std::string list(const Messages& messages) const;
  /// The sentence as it stands in the catalogue, capitalised.
  std::string heading(const Message& message) const;

  /// A text from data (a name of a tool, a customer): as it is, but for the test language.
  std::string name(std::string_view text) const;
  /// Numbers with the language's decimal mark and thousands.
  std::string fixed(double value, int places) const;
  std::string readable(double value, int digits = 4) const;
  std::string whole(std::int64_t value) const;
  std::string share(double value) const;  // "15 %"
  std::string money(Money value) const;
  std::string money(Amount value) const;
  std::string day(Date date) const;  // "11 Dec 2026"
  /// Number and unit; `unit` is the metric one, inch readers get its counterpart.
  std::string measure(const Measure& m) const;
  /// The number alone, for columns whose heading has the unit.
  std::string bare(const Measure& m) const;
  /// The name of the unit that `measure` shows.
  std::string unit(const Unit& metric) const;

 private:
  std::string sentence_of(const Message& message) const;
  std::string value_text(const MessageValue& value) const;
  std::string marked(const std::string& plain) const;
  void find_marks();

  Language language_;
  bool inch_;
  std::string currency_ = "EUR";
  std::map<std::string, std::string> own_;
  // Of numbers; found once, since there are many.
  std::string decimal_mark_, thousands_mark_;
};

/// The reader's counterpart of a metric unit: mm to in, m/min to ft/min, kg to lb.
Unit counterpart(const Unit& metric);
/// How a unit is written on paper: "cm³/min".
std::string_view printed(const Unit& unit, Language language);

/// `what; expected …; did you mean '…'?`, on one line.
std::string problem_words(const Problem& problem, const Words& words);
/// `file:line:column: what; expected …; did you mean '…'?`, the source line, and a caret below it.
std::string problem_text(const Problem& problem, const Words& words);

}  // namespace turnwright
