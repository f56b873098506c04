// SPDX-License-Identifier: MIT
// The plug-in's document, which comes from a process that may have been led astray: whatever it
// holds, it is read or refused.
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "turnwright/draft/recognition.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

using Json = nlohmann::json;

constexpr std::size_t most_items = 20000;

template <class Enum, class Names>
Enum named(const Names& names, const std::string& text) {
  const auto found = std::find(names.begin(), names.end(), text);
  if (found == names.end()) throw std::out_of_range(text);
  return static_cast<Enum>(found - names.begin());
}

double number(const Json& j) {
  const double value = j.get<double>();
  if (!std::isfinite(value)) throw std::out_of_range("a number");
  return value;
}
Length length_of(const Json& j) { return number(j) * unit::mm; }
Volume volume_of(const Json& j) { return number(j) * unit::mm * unit::mm * unit::mm; }
Length length_at(const Json& j, const char* key) {
  const auto found = j.find(key);
  return found == j.end() ? Length(0.0) : length_of(*found);
}

ModelRun run_of(const Json& j) {
  ModelRun run;
  run.form = named<RunForm>(run_forms, j.at("form").get<std::string>());
  run.from = length_of(j.at("from"));
  run.to = length_of(j.at("to"));
  run.diameter_from = length_of(j.at("diameter_from"));
  run.diameter_to = length_of(j.at("diameter_to"));
  if (run.form != RunForm::arc) return run;
  run.radius = length_of(j.at("radius"));
  run.bulges_out = j.at("bulges_out").get<bool>();
  run.centre_z = length_of(j.at("centre").at("z"));
  run.centre_r = length_of(j.at("centre").at("r"));
  return run;
}

RingRecess recess_of(const Json& j) {
  return {length_of(j.at("from")), length_of(j.at("to")), length_of(j.at("inner")),
          length_of(j.at("outer")), volume_of(j.at("volume"))};
}

ModelFeature feature_of(const Json& j) {
  ModelFeature f;
  f.kind = named<FeatureKind>(feature_kinds, j.at("kind").get<std::string>());
  f.count = j.at("count").get<int>();
  f.from = length_of(j.at("from"));
  f.to = length_of(j.at("to"));
  const Json& sizes = j.at("sizes");
  using Place = std::pair<const char*, Length ModelFeature::*>;
  for (const auto& [key, place] :
       {Place{"width", &ModelFeature::width}, Place{"length", &ModelFeature::length},
        Place{"floor", &ModelFeature::floor}, Place{"diameter", &ModelFeature::diameter},
        Place{"stepped", &ModelFeature::stepped}, Place{"depth", &ModelFeature::depth},
        Place{"pitch circle", &ModelFeature::pitch_circle}, Place{"offset", &ModelFeature::offset},
        Place{"across", &ModelFeature::across}, Place{"from axis", &ModelFeature::from_axis},
        Place{"inner", &ModelFeature::inner}, Place{"outer", &ModelFeature::outer}})
    f.*place = length_at(sizes, key);
  f.faces = sizes.value("faces", 0);
  f.cones = sizes.value("cones", 0);
  return f;
}

template <class Item>
std::vector<Item> list_of(const Json& j, Item (*read)(const Json&)) {
  std::vector<Item> list;
  if (j.size() > most_items) throw std::out_of_range("a list");
  for (const Json& item : j) list.push_back(read(item));
  return list;
}

std::array<Length, 3> box_of(const Json& j) {
  return {length_of(j.at(0)), length_of(j.at(1)), length_of(j.at(2))};
}

void read_solid(const Json& j, Recognition& model) {
  model.solid = j.at("solid").get<int>();
  model.turned_share = number(j.at("turned_share"));
  model.volume = volume_of(j.at("volume"));
  model.outline_volume = volume_of(j.at("outline_volume"));
  model.void_at = length_of(j.at("void").at("at"));
  model.void_diameter = length_of(j.at("void").at("diameter"));
  model.length = length_of(j.at("length"));
  model.outside = list_of(j.at("outside"), run_of);
  model.bore = list_of(j.at("bore"), run_of);
  model.recesses = list_of(j.at("recesses"), recess_of);
  model.features = list_of(j.at("features"), feature_of);
}

}  // namespace

std::optional<Recognition> read_recognition(std::string_view json) {
  try {
    const Json j = Json::parse(json);
    Recognition model;
    model.verdict = named<ModelVerdict>(model_verdicts, j.at("verdict").get<std::string>());
    model.inch = j.at("unit").get<std::string>() == "inch";
    model.product = j.at("product").get<std::string>();
    model.faces = j.at("faces").get<int>();
    model.solids = list_of(j.at("solids"), box_of);
    if (j.contains("solid")) read_solid(j, model);
    return model;
  } catch (const Json::exception&) {
  } catch (const std::out_of_range&) {
  }
  return std::nullopt;
}

}  // namespace turnwright
