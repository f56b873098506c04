// SPDX-License-Identifier: MIT
#include "view/sources.hpp"

#include <algorithm>

#include "formatting.hpp"
#include "turnwright/estimate/pricing.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

std::string material_price(const Quote& q, const Words& words) {
  const Material& material = q.route.job.material;
  const std::string status = words(word_of(q.material.status));
  if (!material.price) return status;
  return fixed_measure(material.price->si, unit::money_per_kg, 2, words) + ", " + status;
}

}  // namespace

std::vector<FigureUse> figures_used(const Part& part, const Policy& policy) {
  const bool markup = pricing_of(part, policy).markup;
  const std::pair<const char*, const char*> used[] = {
      {"turning-time", "page.where-turning-time"},
      {"spindle-speed", "page.where-spindle-speed"},
      {"specific-force", "page.where-specific-force"},
      {"cutting-power", "page.where-cutting-power"},
      {"sloped-path-time", "page.where-sloped-path-time"},
      {"curved-path-time", "page.where-curved-path-time"},
      {"tool-life", "page.where-tool-life"},
      {"edge-share", "page.where-edge-share"},
      {"time-cost", "page.where-time-cost"},
      {"outside-charge", "page.where-outside-charge"},
      {markup ? "price-from-markup" : "price-from-margin", "page.where-price-from-margin"}};
  std::vector<FigureUse> list;
  for (const auto& [name, where] : used)
    if (const figure::Entry* e = figure::find(name))
      list.push_back({name, std::string(e->formula), where, std::string(e->source)});
  return list;
}

namespace {

// An hour of each machine that a price is made on.
std::vector<RateUse> hours_used(const PartQuote& part, const Words& words) {
  std::vector<RateUse> list;
  for (const UsedMethod& used : used_in(part)) {
    const Machine& machine = used.quote->route.machine;
    std::string name = words({"page.rate-hour", {{"machine", machine.name}}});
    if (std::any_of(list.begin(), list.end(), [&](const RateUse& r) { return r.name == name; }))
      continue;
    list.push_back({std::move(name), words(used.quote->rate), machine.source});
  }
  return list;
}

}  // namespace

std::vector<RateUse> rates_used(const PartQuote& part, const Shop& shop, const Words& words) {
  const Quote& q = part.quote;
  const Material& material = q.route.job.material;
  std::vector<RateUse> list = hours_used(part, words);
  list.push_back({words({"page.rate-material", {{"material", material.name}}}),
                  material_price(q, words), material.source});
  if (const CuttingGroup* g = shop.cutting_group(material.group))
    list.push_back({words({"page.rate-speeds", {{"group", g->name}}}), words("page.cutting-table"),
                    g->source});
  for (const Grade& g : shop.grades)
    list.push_back({words({"page.rate-life", {{"grade", g.name}}}),
                    "n = " + words.readable(g.exponent), g.source});
  const bool markup = pricing_of(q.route.job.part, shop.policy).markup;
  for (const auto& [name, source] : shop.policy.sources)
    if (name != (markup ? "margin" : "markup")) list.push_back({words.name(name), "", source});
  return list;
}

}  // namespace turnwright
