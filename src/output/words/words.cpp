// SPDX-License-Identifier: MIT
#include "turnwright/output/words.hpp"

#include <fmt/args.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "turnwright/quantity/text.hpp"
#include "words/sentence.hpp"

namespace turnwright {
namespace {

const Sentence* find(std::span<const Sentence> all, std::string_view id) {
  const auto found = std::lower_bound(
      all.begin(), all.end(), id, [](const Sentence& s, std::string_view i) { return s.id < i; });
  return found == all.end() || found->id != id ? nullptr : &*found;
}

std::string bracketed(const std::string& text) { return text.empty() ? text : "⟦" + text + "⟧"; }

bool counts_one(const Message& message) {
  for (const Place& place : message.places)
    if (place.name == "n")
      if (const auto* n = std::get_if<std::int64_t>(&place.value)) return *n == 1;
  return false;
}

std::string filled(std::string_view sentence, const Message& message,
                   const std::vector<std::string>& values) {
  fmt::dynamic_format_arg_store<fmt::format_context> store;
  for (std::size_t i = 0; i < values.size(); ++i)
    store.push_back(fmt::arg(message.places[i].name.c_str(), values[i]));
  try {
    return fmt::vformat(sentence, store);
  } catch (const fmt::format_error&) {
    return std::string(sentence);  // a place is missing: a test finds it
  }
}

}  // namespace

std::optional<Language> language_named(std::string_view name) {
  if (name == "en") return Language::en;
  if (name == "de") return Language::de;
  if (name == "test") return Language::test;
  return std::nullopt;
}

std::string_view name_of(Language language) {
  constexpr std::array names{"en", "de", "test"};
  return names.at(static_cast<std::size_t>(language));
}

Words::Words(Language language, bool inch) : language_(language), inch_(inch) { find_marks(); }

void Words::overlay(std::map<std::string, std::string> own) {
  own_ = std::move(own);
  find_marks();
}

void Words::find_marks() {
  decimal_mark_ = sentence_of("number.decimal-mark");
  thousands_mark_ = sentence_of("number.thousands-mark");
}

bool Words::letter() const { return inch_ || sentence_of("offer.paper") == "Letter"; }

// "1234567.5" as the language, or the shop, writes it.
std::string Words::marked(const std::string& plain) const {
  if (plain.find_first_of("eni") != std::string::npos) return plain;
  const std::size_t start = plain.starts_with('-') ? 1 : 0;
  const std::size_t point = std::min(plain.find('.'), plain.size());
  std::string out = plain.substr(0, start);
  for (std::size_t i = start; i < point; ++i) {
    if (i > start && (point - i) % 3 == 0) out += thousands_mark_;
    out += plain[i];
  }
  if (point < plain.size()) out += decimal_mark_ + plain.substr(point + 1);
  return out;
}

std::string Words::sentence_of(const Message& message) const {
  if (const auto own = own_.find(message.id); own != own_.end()) return own->second;
  const Sentence* found =
      find(language_ == Language::de ? sentences_de() : sentences_en(), message.id);
  if (found == nullptr) return "{{" + message.id + "}}";
  return std::string(counts_one(message) && !found->one.empty() ? found->one : found->other);
}

std::string Words::value_text(const MessageValue& value) const {
  struct Writer {
    const Words& words;
    std::string operator()(const std::string& text) const { return words.name(text); }
    std::string operator()(std::int64_t n) const { return words.whole(n); }
    std::string operator()(const Figure& f) const { return words.readable(f.value, f.digits); }
    std::string operator()(const Share& s) const { return words.share(s.value); }
    std::string operator()(const Measure& m) const { return words.measure(m); }
    std::string operator()(Money m) const { return words.money(m); }
    std::string operator()(Date d) const { return words.day(d); }
    std::string operator()(const Messages& list) const { return words.list(list); }
  };
  return std::visit(Writer{*this}, value);
}

std::string Words::operator()(const Message& message) const {
  if (message.empty()) return "";
  std::vector<std::string> values;
  for (const Place& place : message.places) values.push_back(value_text(place.value));
  if (message.id == verbatim_id) return values.empty() ? "" : values.front();
  const std::string text = filled(sentence_of(message), message, values);
  return language_ == Language::test ? bracketed(text) : text;
}

bool Words::knows(std::string_view id) const {
  return own_.contains(std::string(id)) ||
         find(language_ == Language::de ? sentences_de() : sentences_en(), id) != nullptr;
}

std::string Words::joined(const Messages& messages, std::string_view between) const {
  std::string text;
  for (const Message& message : messages)
    text += (text.empty() ? std::string() : std::string(between)) + (*this)(message);
  return text;
}

std::string Words::list(const Messages& messages) const {
  if (messages.empty()) return "";
  if (messages.size() == 1) return (*this)(messages.front());
  const std::string first = joined(Messages(messages.begin(), messages.end() - 1), ", ");
  const Message both{"list.and", {{"first", verbatim("")}, {"last", verbatim("")}}};
  const std::string text = filled(sentence_of(both), both, {first, (*this)(messages.back())});
  return language_ == Language::test ? bracketed(text) : text;
}

std::string Words::heading(const Message& message) const {
  std::string text = (*this)(message);
  const std::size_t first = language_ == Language::test ? std::string_view("⟦").size() : 0;
  if (text.size() > first && text[first] >= 'a' && text[first] <= 'z')
    text[first] = static_cast<char>(text[first] - 'a' + 'A');
  return text;
}

std::string Words::name(std::string_view text) const {
  const std::string shown_name = showable(text, true);
  return language_ == Language::test && !text.empty() ? "‹" + shown_name + "›" : shown_name;
}

std::string Words::fixed(double value, int places) const {
  return marked(turnwright::fixed(value, places));
}
std::string Words::readable(double value, int digits) const {
  if (!std::isfinite(value)) return (*this)(value > 0 ? "number.unlimited" : "number.none");
  return marked(turnwright::readable(value, digits));
}
std::string Words::whole(std::int64_t value) const { return marked(std::to_string(value)); }
std::string Words::share(double value) const { return readable(100 * value, 3) + " %"; }
std::string Words::money(Money value) const { return marked(value.text()); }
std::string Words::money(Amount value) const { return money(rounded(value)); }

std::string Words::day(Date date) const {
  static constexpr std::array months{"month.1", "month.2",  "month.3",  "month.4",
                                     "month.5", "month.6",  "month.7",  "month.8",
                                     "month.9", "month.10", "month.11", "month.12"};
  const auto month = static_cast<unsigned>(date.month());
  const Message message{"date.day",
                        {{"day", std::to_string(static_cast<unsigned>(date.day()))},
                         {"month", Message{months.at(month - 1)}},
                         {"year", std::to_string(static_cast<int>(date.year()))}}};
  return (*this)(message);
}

namespace {

bool is_whole(double value) {
  constexpr double slack = 1e-6;
  return std::abs(value - std::round(value)) < slack;
}

int magnitude_of(double size) { return static_cast<int>(std::floor(std::log10(size))) + 1; }

// What a machinist reads of a length that was worked out: hundredths of a millimetre, thousandths
// of an inch and tenths of them below a tenth of an inch. What somebody wrote stays as it is: whole
// micrometres, and sixty-fourths as drills and bars are called.
int most_digits(double size, const Unit& unit) {
  constexpr int any = 9;
  if (size < 1e-4) return any;
  if (unit.name == "mm") return size < 1 || is_whole(1000 * size) ? any : magnitude_of(size) + 2;
  if (unit.name != "in" && unit.name != "in/rev") return any;
  return is_whole(64 * size) ? any : magnitude_of(size) + (size < 0.1 ? 4 : 3);
}

}  // namespace

std::string Words::bare(const Measure& m) const {
  const Unit unit = inch_ ? counterpart(m.unit) : m.unit;
  const double value = shown(m.si, unit);
  return readable(value, std::min(m.digits, std::max(1, most_digits(std::abs(value), unit))));
}
std::string Words::measure(const Measure& m) const {
  const std::string name = unit(m.unit);
  return name.empty() ? bare(m) : bare(m) + " " + name;
}
std::string Words::unit(const Unit& metric) const {
  const Unit shown_unit = inch_ ? counterpart(metric) : metric;
  std::string text(printed(shown_unit, language_));
  if (const std::size_t money = text.find("EUR"); money != std::string::npos)
    text.replace(money, 3, currency_);
  return name(text);
}

}  // namespace turnwright
