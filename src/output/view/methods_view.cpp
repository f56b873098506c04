// SPDX-License-Identifier: MIT
#include "view/methods_view.hpp"

#include <algorithm>

#include "formatting.hpp"
#include "view/labels.hpp"
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

MethodView view_of(const MethodResult& method, const MethodResult& quoted, int quantity) {
  MethodView view;
  view.method = &method;
  if (!method.feasible()) return view;
  view.quote = &*method.quote;
  view.lot_machine = lot_machine_time(*view.quote, quantity);
  view.days_out = days_out(view.quote->route.job.part);
  if (&method != &quoted)
    view.own_cautions = without_known(method.route().cautions,
                                      quoted.feasible() ? quoted.route().cautions : Messages{});
  return view;
}

bool is_said(const std::vector<MethodView>& views, const MethodResult& method) {
  return std::any_of(views.begin(), views.end(), [&](const MethodView& said) {
    return said.method->recipe == method.recipe &&
           said.method->quote.infeasible().why == method.quote.infeasible().why;
  });
}

void sort_by_cost(std::vector<MethodView>& views, int quantity) {
  std::vector<std::pair<double, MethodView>> by_cost;
  for (MethodView& view : views) {
    const double cost = lot_cost(*view.quote, quantity).si;
    by_cost.emplace_back(cost, std::move(view));
  }
  std::stable_sort(by_cost.begin(), by_cost.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  views.clear();
  for (auto& [cost, view] : by_cost) views.push_back(std::move(view));
}

// The same method on another machine, for no less at any quantity of the list.
bool is_dearer_everywhere(const MethodView& m, const MethodView& other) {
  const auto &prices = m.quote->prices, &others = other.quote->prices;
  if (m.method->recipe != other.method->recipe || prices.size() != others.size()) return false;
  if (m.quote->route.machine.name == other.quote->route.machine.name) return false;
  for (std::size_t i = 0; i < prices.size(); ++i)
    if (prices[i].cost <= others[i].cost) return false;
  return true;
}

// The same records but for the rule of the plan.
bool differs_by_plan(const MethodResult& a, const MethodResult& b) {
  if (a.method == b.method || a.records.size() != b.records.size()) return false;
  const auto shared = std::count_if(a.records.begin(), a.records.end(), [&](const Method& record) {
    return std::any_of(b.records.begin(), b.records.end(),
                       [&](const Method& other) { return other.name == record.name; });
  });
  return static_cast<std::size_t>(shared) + 1 == a.records.size();
}

constexpr std::size_t most_shown = 5;  // of a quote, beside what is quoted

}  // namespace

MethodsView view_of(const Comparison& comparison, int quantity) {
  MethodsView view;
  view.comparison = &comparison;
  for (std::size_t i = 0; i < comparison.methods.size(); ++i) {
    const MethodResult& method = comparison.methods[i];
    MethodView one = view_of(method, comparison.quoted(), quantity);
    for (const ChosenMethod& chosen : comparison.chosen)
      if (chosen.method == i) one.quoted_at.push_back(chosen.quantity);
    if (one.quote != nullptr)
      view.feasible.push_back(std::move(one));
    else if (!is_said(view.infeasible, method))
      view.infeasible.push_back(std::move(one));
  }
  sort_by_cost(view.feasible, quantity);
  if (!view.feasible.empty())
    for (const Price& price : view.feasible.front().quote->prices)
      view.quantities.push_back(price.quantity);
  return view;
}

MethodsView shortened(const MethodsView& view, std::size_t& left_out) {
  MethodsView few = view;
  few.feasible.clear();
  few.infeasible.clear();
  std::size_t others = 0;
  left_out = 0;
  for (const MethodView& m : view.feasible) {
    if (m.quoted_at.empty() && ++others > most_shown)
      ++left_out;
    else
      few.feasible.push_back(m);
  }
  const MethodResult& quoted = view.comparison->quoted();
  for (const MethodResult& method : view.comparison->methods)
    if (!method.feasible() && method.machine == quoted.machine && differs_by_plan(method, quoted)) {
      few.infeasible.emplace_back();
      few.infeasible.back().method = &method;
    }
  return few;
}

MethodsView folded(const MethodsView& view, std::size_t& left_out) {
  MethodsView few = view;
  std::erase_if(few.feasible, [&](const MethodView& m) {
    return m.quoted_at.empty() &&
           std::any_of(view.feasible.begin(), view.feasible.end(),
                       [&](const MethodView& other) { return is_dearer_everywhere(m, other); });
  });
  left_out = view.feasible.size() - few.feasible.size();
  return few;
}

int price_unit_of(const Comparison& comparison) {
  for (const MethodResult& method : comparison.methods)
    if (method.feasible()) return method.quote->prices.front().price_unit;
  return 1;
}

bool shows(const MethodsView& view, const MethodResult& method) {
  return std::any_of(view.feasible.begin(), view.feasible.end(),
                     [&](const MethodView& m) { return m.method == &method; });
}

Messages leader_lines(const MethodsView& view, int quantity, const Words& words) {
  const MethodResult& quoted = view.comparison->quoted();
  if (!quoted.feasible()) return {};
  const Quote& quote = *quoted.quote;
  Messages lines = operation_lines(quote, words);
  lines.push_back({"methods.leader-hours",
                   {{"hours", hours_text(lot_machine_time(quote, quantity), words)},
                    {"machine", quote.route.machine.name},
                    {"qty", quantity}}});
  for (const Message& caution : quote.route.cautions)
    lines.push_back({"methods.leader-caution", {{"caution", caution}}});
  return lines;
}

std::string quoted_at(const MethodView& method, const Words& words) {
  std::string text;
  for (const int quantity : method.quoted_at)
    text += (text.empty() ? "" : ", ") + words.whole(quantity);
  return text;
}

Place by_calculation(std::string name, Money amount, const Comparison& c) {
  if (c.each == c.calculated) return {std::move(name), amount};
  return {std::move(name), Message{"text.by-calculation", {{"price", amount}}}};
}

Message verdict(const Comparison& c) {
  if (c.chosen.empty()) return "methods.verdict-none";
  std::vector<Place> places{
      {"qty", c.quantity}, {"method", c.quoted().name}, by_calculation("each", c.calculated, c)};
  if (!c.runner_up || c.runner_up->more <= 0) return {"methods.verdict-alone", std::move(places)};
  places.emplace_back("share", Share{1 - 1 / (1 + c.runner_up->more)});
  places.emplace_back("next", c.methods[c.runner_up->method].name);
  return {"methods.verdict", std::move(places)};
}

namespace {

struct NotQuoted {
  const MethodResult* method = nullptr;
  Money each;
};

// What the method itself asks for at the main quantity, whatever is fixed by hand.
Money asked_by(const MethodResult& m, int quantity) {
  const Price* price = m.feasible() ? listed_price(*m.quote, quantity) : nullptr;
  return price == nullptr ? Money() : price->worked_out;
}

// Of what is possible, with the price at the main quantity, the cheapest first.
std::vector<NotQuoted> others_of(const Comparison& c) {
  std::vector<NotQuoted> found;
  for (std::size_t i = 0; i < c.methods.size(); ++i) {
    const MethodResult& m = c.methods[i];
    if (i == c.main || !m.feasible()) continue;
    if (const Price* price = listed_price(*m.quote, c.quantity))
      found.push_back({&m, price->worked_out});
  }
  std::stable_sort(found.begin(), found.end(), [](const NotQuoted& a, const NotQuoted& b) {
    return a.each.hundredths() < b.each.hundredths();
  });
  return found;
}

Message why_not_quoted(const MethodResult& m, int quantity) {
  return m.practised ? m.held_back_at(quantity).why : Message("methods.not-practised");
}

}  // namespace

std::vector<std::vector<std::size_t>> cheapest_at(const MethodsView& view) {
  std::vector<std::vector<std::size_t>> winners(view.quantities.size());
  for (std::size_t q = 0; q < winners.size(); ++q) {
    auto price = [&](std::size_t m) {
      return view.feasible[m].quote->prices[q].worked_out.hundredths();
    };
    for (std::size_t m = 0; m < view.feasible.size(); ++m) {
      if (!winners[q].empty() && price(m) > price(winners[q].front())) continue;
      if (!winners[q].empty() && price(m) < price(winners[q].front())) winners[q].clear();
      winners[q].push_back(m);
    }
  }
  return winners;
}

std::string name_and_machine(const std::string& method, const std::string& machine,
                             const Words& words) {
  const std::string name = words.name(method), on = words.name(machine);
  return name.find(on) != std::string::npos ? name : name + " (" + on + ")";
}
std::string name_and_machine(const MethodView& method, const Words& words) {
  return name_and_machine(method.method->name, method.quote->route.machine.name, words);
}

Messages not_quoted(const Comparison& c) {
  Messages lines;
  if (c.chosen.empty()) return lines;
  const Money quoted = asked_by(c.quoted(), c.quantity);
  for (const NotQuoted& other : others_of(c)) {
    const Message why = why_not_quoted(*other.method, c.quantity);
    if (other.each.hundredths() < quoted.hundredths() && !why.empty())
      lines.push_back(
          {"methods.not-quoted",
           {{"method", other.method->name}, by_calculation("each", other.each, c), {"why", why}}});
  }
  return lines;
}

Message passed_over(const Comparison& c) {
  if (c.chosen.empty()) return {};
  for (const NotQuoted& other : others_of(c)) {
    const MethodResult& m = *other.method;
    const HeldBack held = m.held_back_at(c.quantity);
    if (!m.practised || held <= c.quoted().held_back_at(c.quantity)) continue;
    if (other.each.hundredths() >= asked_by(c.quoted(), c.quantity).hundredths() && c.runner_up)
      return {};
    return {"text.passed-over",
            {{"qty", c.quantity},
             {"method", m.name},
             by_calculation("each", other.each, c),
             {"why", held.why}}};
  }
  return {};
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
    case DifferencePart::outside:
      return d.outside;
    default:
      return d.total;
  }
}

const char* name_of(DifferencePart part) {
  static constexpr std::array names{"total",      "setup",   "tool-change", "cutting",
                                    "other-time", "inserts", "material",    "outside"};
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
