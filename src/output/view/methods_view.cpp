// SPDX-License-Identifier: MIT
#include "view/methods_view.hpp"

#include <algorithm>

#include "view/quote_view.hpp"

namespace turnwright {
namespace {

double days_out(const Part& part) {
  double days = 0;
  for (const OtherWork& work : part.other_work) days += work.days;
  return days;
}

Messages without_known(const Messages& cautions, const Messages& known) {
  Messages own;
  for (const Message& caution : cautions)
    if (std::find(known.begin(), known.end(), caution) == known.end()) own.push_back(caution);
  return own;
}

MethodView view_of(const MethodResult& method, const MethodResult& first, int quantity) {
  MethodView view;
  view.method = &method;
  if (!method.feasible()) return view;
  view.quote = &*method.quote;
  view.lot_machine = lot_machine_time(*view.quote, quantity);
  view.days_out = days_out(view.quote->route.job.part);
  if (&method != &first)
    view.own_cautions = without_known(method.route().cautions,
                                      first.feasible() ? first.route().cautions : Messages{});
  return view;
}

}  // namespace

MethodsView view_of(const Comparison& comparison, int quantity) {
  MethodsView view;
  view.comparison = &comparison;
  for (const MethodResult& method : comparison.methods) {
    MethodView one = view_of(method, comparison.methods.front(), quantity);
    (one.quote != nullptr ? view.feasible : view.infeasible).push_back(std::move(one));
  }
  if (!view.feasible.empty())
    for (const Price& price : view.feasible.front().quote->prices)
      view.quantities.push_back(price.quantity);
  return view;
}

Message leading(const Comparison& comparison, const LeadingRange& range) {
  const bool close = !range.either.empty();
  std::vector<Place> places{{"from", range.from},
                            {"to", range.to},
                            {"n", range.from},
                            {"methods", range.either.size()},
                            {"method", comparison.methods[range.method].name}};
  if (range.from == 1 && range.to == comparison.scanned_to)
    return {close ? "methods.leads-slightly-everywhere" : "methods.leads-everywhere",
            std::move(places)};
  if (range.to == comparison.scanned_to)
    return {close ? "methods.leads-slightly-from" : "methods.leads-from", std::move(places)};
  if (range.from == range.to)
    return {close ? "methods.leads-slightly-at" : "methods.leads-at", std::move(places)};
  return {close ? "methods.leads-slightly" : "methods.leads", std::move(places)};
}

Message not_possible(const MethodResult& method) {
  const Infeasible& infeasible = method.quote.infeasible();
  std::vector<Place> places{{"method", method.name}, {"why", infeasible.why}};
  if (infeasible.remedies.empty()) return {"text.method-not-possible", std::move(places)};
  places.emplace_back("remedies", infeasible.remedies);
  return {"text.method-would-help", std::move(places)};
}

Amount part_of(const Difference& d, DifferencePart part) {
  switch (part) {
    case DifferencePart::setup:
      return d.setup;
    case DifferencePart::tool_change:
      return d.tool_change;
    case DifferencePart::cutting:
      return d.cutting;
    case DifferencePart::other_time:
      return d.other_time;
    case DifferencePart::inserts:
      return d.inserts;
    case DifferencePart::material:
      return d.material;
    default:
      return d.total;
  }
}

const char* name_of(DifferencePart part) {
  static constexpr std::array names{"total",      "setup",   "tool-change", "cutting",
                                    "other-time", "inserts", "material"};
  return names[static_cast<std::size_t>(part)];
}

std::vector<MapKey> keys_of(const MethodMap& map) {
  std::vector<MapKey> keys;
  for (const auto& row : map.method)
    for (const int method : row)
      if (method >= 0 && !key_of(keys, method))
        keys.push_back({method, static_cast<char>('A' + keys.size() % 26)});
  return keys;
}

std::optional<std::size_t> key_of(const std::vector<MapKey>& keys, int method) {
  for (std::size_t i = 0; i < keys.size(); ++i)
    if (keys[i].method == method) return i;
  return std::nullopt;
}

}  // namespace turnwright
