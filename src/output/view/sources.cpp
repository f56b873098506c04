// SPDX-License-Identifier: MIT
#include "view/sources.hpp"

#include <algorithm>

#include "formatting.hpp"
#include "turnwright/estimate/pricing.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "turnwright/shop/policy_rows.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

// Of margin, discount or rebate, where one of them is not the policy's.
NamedSource agreed_source(const char* of_customer, const char* of_request, const std::string& who,
                          const Selling& selling, const Shop& shop) {
  const CustomerTerms* customer = shop.customer(who);
  if (customer == nullptr) return {of_request, {selling.request, Basis::given, {}}};
  return {{of_customer, {{"customer", customer->name}}}, customer->source};
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
      {"wear-time", "page.where-wear-time"},
      {"wear-time-one-spindle-speed", "page.where-wear-time-one-spindle-speed"},
      {"wear-time-sloped-path", "page.where-wear-time-sloped-path"},
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
                  words(price_of_material(q, words)), material.source});
  if (const CuttingGroup* g = shop.cutting_group(material.group))
    list.push_back({words({"page.rate-speeds", {{"group", g->name}}}), words("page.cutting-table"),
                    g->source});
  for (const Grade& g : shop.grades)
    list.push_back({words({"page.rate-life", {{"grade", g.name}}}),
                    "n = " + words.readable(g.exponent), g.source});
  for (const OtherMachine* machine : other_machines_used(q.route.job.part, shop))
    list.push_back({words({"page.rate-hour", {{"machine", machine->name}}}),
                    fixed_measure(machine->rate.si, unit::money_per_h, 2, words), machine->source});
  for (const NamedSource& row : policy_sources(q.route.job.part, shop))
    list.push_back({words(row.name), "", row.source});
  return list;
}

std::vector<NamedSource> policy_sources(const Part& part, const Shop& shop) {
  const Selling& selling = part.selling;
  auto rows = shop.policy.sources;
  std::vector<NamedSource> list;
  const auto agreed = [&](const char* of_customer, const char* of_request, const std::string& who) {
    list.push_back(agreed_source(of_customer, of_request, who, selling, shop));
  };
  rows.erase(pricing_of(part, shop.policy).markup ? margin_row : markup_row);
  if (selling.margin) {
    rows.erase(margin_row);
    agreed("source.margin-of", "source.margin", selling.margin_of);
  }
  if (selling.discount.value_or(0) > 0)
    agreed("source.discount-of", "source.discount", selling.discount_of);
  if (selling.rebate) {
    rows.erase(rebate_row);
    agreed("source.rebate-of", "source.rebate", selling.rebate_of);
  }
  for (const auto& [name, source] : rows) list.push_back({verbatim(name), source});
  return list;
}

std::vector<const OtherMachine*> other_machines_used(const Part& part, const Shop& shop) {
  std::vector<const OtherMachine*> list;
  for (const OtherWork& work : part.other_work) {
    const OtherMachine* machine = shop.other_machine(work.machine);
    if (machine != nullptr && std::find(list.begin(), list.end(), machine) == list.end())
      list.push_back(machine);
  }
  return list;
}

}  // namespace turnwright
