// SPDX-License-Identifier: MIT
#include "json/json.hpp"

namespace turnwright {
namespace {

Json figure_value(const FigureValue& v) {
  if (!v.word.empty()) return {{"value", v.word}, {"unit", ""}, {"si", v.word}};
  if (!v.list)
    return {{"value", json_number(v.shown.front())},
            {"unit", v.unit},
            {"si", json_number(v.si.front())}};
  Json j{{"value", Json::array()}, {"unit", v.unit}, {"si", Json::array()}};
  for (const double x : v.shown) j["value"].push_back(json_number(x));
  for (const double x : v.si) j["si"].push_back(json_number(x));
  return j;
}

}  // namespace

std::string figure_json(const FigureAnswer& answer) {
  Json j = json_head("figure");
  j["figure"] = answer.entry->name;
  j["inputs"] = Json::object();
  for (const FigureValue& v : answer.inputs) j["inputs"][v.name] = figure_value(v);
  j["results"] = Json::object();
  for (const FigureValue& v : answer.results) j["results"][v.name] = figure_value(v);
  j["solved_for"] = answer.solved_for.empty() ? Json(nullptr) : Json(answer.solved_for);
  j["formula"] = answer.entry->formula;
  j["source"] = answer.entry->source;
  return json_text(j);
}

}  // namespace turnwright
