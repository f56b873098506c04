// SPDX-License-Identifier: MIT
#include "sources.hpp"

#include "shown.hpp"
#include "turnwright/figure/catalogue.hpp"

namespace turnwright {

std::vector<FigureUse> figures_used() {
  static constexpr std::pair<const char*, const char*> used[] = {
      {"turning-time", "Passes, cutting: motion along"},
      {"spindle-speed", "inside turning-time at constant surface speed"},
      {"specific-force", "Steps, inside power at the edge"},
      {"cutting-power", "Steps, power at the edge"},
      {"sloped-path-time", "Passes, cutting: motion across"},
      {"curved-path-time", "Passes, cutting: on an arc"},
      {"tool-life", "Steps, edge life"},
      {"edge-share", "Steps, edge share"},
      {"time-cost", "Prices, make-ready, running and labour"},
      {"outside-charge", "Prices, outside work"},
      {"price-from-margin", "Prices, each"}};
  std::vector<FigureUse> list;
  for (const auto& [name, where] : used)
    if (const figure::Entry* e = figure::find(name))
      list.push_back({name, std::string(e->formula), where, std::string(e->source)});
  return list;
}

std::vector<RateUse> rates_used(const Quote& q, const Shop& shop) {
  std::vector<RateUse> list;
  auto rate = [&](const std::string& name, const std::string& value, const Source& source) {
    list.push_back({name, value, name_of(source.basis), source.text});
  };
  rate("an hour of " + q.route.machine.name, q.rate_words, q.route.machine.source);
  const Material& m = q.route.job.material;
  rate("material " + m.name,
       (m.price ? fixed(in(*m.price, unit::money_per_kg), 2) + " " + q.currency + "/kg, " : "") +
           q.material.status,
       m.source);
  if (const CuttingGroup* g = shop.cutting_group(m.group))
    rate("speeds of " + g->name, "cutting table", g->source);
  for (const Grade& g : shop.grades)
    rate("Taylor constants of " + g.name, "n = " + readable(g.exponent), g.source);
  for (const auto& [name, source] : shop.policy.sources) rate(name, "", source);
  return list;
}

}  // namespace turnwright
