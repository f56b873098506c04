// SPDX-License-Identifier: MIT
#include "turnwright/compare/larger_nose.hpp"

#include <algorithm>
#include <array>

namespace turnwright {
namespace {

// Corner radii of inserts by their codes 02, 04, 08, 12, 16, 24: ISO 1832:2017, symbol 7.
constexpr std::array series{0.2e-3, 0.4e-3, 0.8e-3, 1.2e-3, 1.6e-3, 2.4e-3};

const Step* finishing_step(const Route& route) {
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      if (step.kind == StepKind::finish) return &step;
  return nullptr;
}

}  // namespace

std::optional<LargerNose> larger_nose(const MethodResult& method, const Shop& shop, int quantity) {
  const Step* step = finishing_step(method.route());
  const Tool* tool = step != nullptr ? shop.tool(step->tool) : nullptr;
  if (tool == nullptr) return std::nullopt;
  constexpr double rounder = 1.01;
  const auto* next = std::find_if(series.begin(), series.end(), [&](double radius) {
    return radius > rounder * tool->nose_radius.si;
  });
  if (next == series.end()) return std::nullopt;
  LargerNose out{tool->name, tool->nose_radius, Length(*next), false, quantity, {}, {}};
  out.before = price_at(*method.quote, shop, quantity).cost;
  Shop changed = shop;
  for (Tool& t : changed.tools)
    if (t.name == tool->name) t.nose_radius = out.larger;
  const MethodResult planned =
      MethodPlanner(method.route().job.part, changed, quantity).plan_again(method);
  if (!planned.feasible()) return out;
  const Step* finished = finishing_step(planned.route());
  out.fits = finished != nullptr && finished->tool == out.tool;
  if (out.fits) out.with = price_at(*planned.quote, changed, quantity).cost;
  return out;
}

Message said(const LargerNose& nose, const std::string& currency) {
  std::vector<Place> places{{"now", nose.now}, {"larger", nose.larger}, {"tool", nose.tool}};
  if (!nose.fits) return {"nose.does-not-fit", std::move(places)};
  if (nose.with >= nose.before) return {"nose.brings-nothing", std::move(places)};
  places.emplace_back("qty", nose.quantity);
  places.emplace_back("before", nose.before);
  places.emplace_back("with", nose.with);
  places.emplace_back("currency", currency);
  return {"nose.brings", std::move(places)};
}

}  // namespace turnwright
