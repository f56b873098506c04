// SPDX-License-Identifier: MIT
#include "read_figure_value.hpp"

#include <cmath>
#include <vector>

#include "options.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

using figure::Field;

std::vector<std::string> split(const std::string& text, char separator) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  for (;;) {
    const std::size_t end = text.find(separator, start);
    parts.push_back(text.substr(start, end - start));
    if (end == std::string::npos) return parts;
    start = end + 1;
  }
}

std::variant<FigureValue, Message> read_choice(const Field& field, const std::string& text,
                                               FigureValue value) {
  std::vector<std::string> list;
  for (std::size_t i = 0; i < field.choices.size(); ++i) {
    if (field.choices[i].empty()) continue;
    if (field.choices[i] == text) {
      value.si = {static_cast<double>(i)};
      value.word = text;
      return value;
    }
    list.emplace_back(field.choices[i]);
  }
  return Message{"figure-run.no-choice",
                 {{"name", field.name}, {"text", text}, {"expected", one_of(list)}}};
}

// The words for a default that stands for nothing (no drill point) or has no end.
bool add_word(const Field& field, const std::string& item, FigureValue& value) {
  if (item == "none" && !std::isnan(field.otherwise)) {
    value.si.push_back(coherent(field.otherwise, field.unit));
    value.shown.push_back(field.otherwise);
    value.unit = field.unit.name;
    return true;
  }
  if (item == "unlimited" && std::isinf(field.otherwise)) {
    value.si.push_back(figure::unlimited);
    value.shown.push_back(figure::unlimited);
    return true;
  }
  return false;
}

bool within(const Field& field, double si) {
  const double in_unit = shown(si, field.unit);
  return !(in_unit < field.low * (1 - 1e-12) || in_unit > field.high * (1 + 1e-12));
}

Message add_quantity(const Field& field, const std::string& item, Range range, FigureValue& value) {
  TextFault wrong;
  const auto q = read_quantity(item, field.unit, wrong);
  if (!q)
    return with_near({"figure-run.wrong-value",
                      {{"name", field.name}, {"what", wrong.what}, {"expected", wrong.expected}}},
                     wrong.suggestion);
  if (range == Range::checked && !within(field, q->si))
    return {"figure-run.out-of-range",
            {{"name", field.name},
             {"text", item},
             {"low", Figure{field.low, 6}},
             {"high", Measure{coherent(field.high, field.unit), field.unit, 6}}}};
  value.si.push_back(q->si);
  value.shown.push_back(q->value);
  value.unit = q->unit.text;
  return {};
}

}  // namespace

std::variant<FigureValue, Message> read_figure_value(const Field& field, const std::string& text,
                                                     Range range) {
  FigureValue value;
  value.name = field.name;
  value.list = field.list;
  if (!field.choices[0].empty()) return read_choice(field, text, std::move(value));
  for (const std::string& item : field.list ? split(text, ',') : std::vector<std::string>{text}) {
    if (add_word(field, item, value)) continue;
    if (Message wrong = add_quantity(field, item, range, value); !wrong.empty()) return wrong;
  }
  return value;
}

}  // namespace turnwright::cli
