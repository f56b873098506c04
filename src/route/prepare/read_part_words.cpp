// SPDX-License-Identifier: MIT
#include "prepare/part_words.hpp"

#include <sstream>

#include "turnwright/quantity/text.hpp"
#include "turnwright/route/segment.hpp"

namespace turnwright {

std::string name_like(const std::string& listed) { return std::string("like") + ' ' + listed; }

bool hole_basis(const Size& size) {
  return size.letters == "H" || (size.letters.empty() && size.toleranced &&
                                 size.lower.si > -same_point && size.lower.si < same_point);
}

std::string_view general_class(const GeneralTolerances& general) {
  return general.iso_class.empty() ? std::string_view("m") : general.iso_class;
}

namespace {
std::string usual_condition(const PartStock& stock, bool drawn) {
  switch (stock.form) {
    case StockForm::casting:
      return "casting";
    case StockForm::forging:
      return "forging";
    case StockForm::hexagon:
    case StockForm::square:
      return "drawn";
    default:
      return stock.from_bar || drawn ? "drawn" : "hot rolled";
  }
}
}  // namespace

std::string condition_asked(const PartStock& stock, bool drawn) {
  if (stock.condition.empty()) return usual_condition(stock, drawn);
  // "drawn h11": the tolerance belongs to the condition.
  const std::string& name = stock.condition;
  for (std::size_t i = name.size(); i-- > 1;)
    if (name[i - 1] == ' ' && name[i] == 'h') return name.substr(0, i - 1);
  return name;
}

std::string with_undercut(const std::string& element) {
  return element + ", undercut" + ' ' + "DIN 76-A";
}

bool lies_evenly(const Size& size) { return size.letters == "js" || size.letters == "JS"; }

namespace {
std::optional<Length> length_of(std::string_view word, bool inch) {
  const auto number = leading_number(word);
  if (!number) return std::nullopt;
  return inch ? number->value * unit::inch : number->value * unit::mm;
}
}  // namespace

std::optional<KeywayText> keyway_of(const std::string& work, bool inch) {
  std::istringstream words(work);
  std::string word, before;
  words >> word;
  if (word != "keyway") return std::nullopt;
  std::optional<Length> diameter, length;
  while (before = word, words >> word) {
    if (before == "on") diameter = length_of(word, inch);
    if (!diameter && word[0] == 'x') length = length_of(std::string_view(word).substr(1), inch);
  }
  if (!diameter) return std::nullopt;
  return KeywayText{*diameter, length.value_or(Length(0.0))};
}

}  // namespace turnwright
