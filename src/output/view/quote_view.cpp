// SPDX-License-Identifier: MIT
#include "view/quote_view.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "formatting.hpp"
#include "turnwright/shop/condition_word.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"

namespace turnwright {
namespace {

constexpr double volume_tolerance = 1e-9;  // of the stock, as the audit has it

PriceView view_of(const Quote& quote, const Price& price) {
  PriceView view;
  view.price = &price;
  view.income = price.income();
  view.cost_each = rounded(price.cost.amount() * price.price_unit / price.quantity);
  view.contribution = contribution_per_hour(quote, price.quantity, view.income);
  if (!price.causes.empty() && view.income.hundredths() > 0)
    view.worst_margin = 1 - price.p90_each.amount().si * price.quantity / price.price_unit /
                                view.income.amount().si;
  view.release = price.quantity / price.releases;
  return view;
}

Time cutting_of(const RouteTimes& times) {
  Time cutting(0.0);
  for (const OperationTime& operation : times.operations)
    for (const StepTime& step : operation.steps) cutting += step.cutting;
  return cutting;
}

CostCurve cost_curve(const std::vector<Price>& prices, int points,
                     const std::function<Amount(int)>& cost_of) {
  CostCurve curve;
  const int first = std::max(1, prices.front().quantity / 3);
  const int last = std::max(prices.back().quantity * 2, 10);
  std::set<int> quantities;
  for (int i = 0; i <= points; ++i)
    quantities.insert(static_cast<int>(std::lround(std::pow(last, double(i) / points))));
  for (const int quantity : quantities) {
    if (quantity < first) continue;
    curve.quantity.push_back(quantity);
    curve.cost.push_back(cost_of(quantity).si / quantity);
  }
  return curve;
}

double share(double part, double whole) { return whole > 0 ? part / whole : 0; }

}  // namespace

const Price* listed_price(const Quote& quote, int quantity) {
  for (const Price& price : quote.prices)
    if (price.quantity == quantity) return &price;
  return nullptr;
}

QuoteView view_of(const PartQuote& part) {
  const Quote& quote = part.quote;
  QuoteView view;
  view.quote = &quote;
  for (const Price& price : quote.prices) view.prices.push_back(view_of(part.of(price), price));
  view.main = quote.prices.size() / 2;
  view.cutting_share = share(cutting_of(quote.times).si, quote.times.machine_each.si);
  if (quote.times.machine_each.si > 0)
    view.removal = quote.route.audit.removed / quote.times.machine_each;
  if (quote.prices.empty()) return view;
  const Price& last = quote.prices.back();
  if (quote.material.finished.si > 0)
    view.price_per_mass =
        last.each.amount() / static_cast<double>(last.price_unit) / quote.material.finished;
  view.drawn = !quote.prices.front().causes.empty();
  return view;
}

Message larger_for_less_label(const LargerForLess& found) {
  const int last = found.quantity - 1;
  if (found.from == last)
    return {"text.larger-for-less-at", {{"n", last}, {"qty", found.quantity}}};
  return {"text.larger-for-less", {{"from", found.from}, {"to", last}, {"qty", found.quantity}}};
}

const Question* losing_question(const QuoteView& view, const std::vector<Question>& questions) {
  const PriceView& main = view.main_price();
  for (const Question& question : questions) {
    if (question.change <= 0 || question.quantity != main.price->quantity) continue;
    if (main.price->cost.amount().si * (1 + question.change) > main.income.amount().si)
      return &question;
  }
  return nullptr;
}

double material_share(const Quote& quote) {
  return share(quote.material.finished.si, quote.material.blank.si);
}

Messages price_notes(const PriceView& view) {
  const Price& p = *view.price;
  Messages notes;
  if (p.minimum_surcharge.hundredths() > 0)
    notes.push_back({"text.at-surcharge", {{"qty", p.quantity}, {"amount", p.minimum_surcharge}}});
  if (p.at_once_each.hundredths() > 0)
    notes.push_back({"text.at-releases",
                     {{"qty", p.quantity},
                      {"releases", p.releases},
                      {"pieces", view.release},
                      {"price", p.at_once_each}}});
  return notes;
}

Messages operation_lines(const Quote& quote, const Words& words) {
  Messages lines;
  for (std::size_t i = 0; i < quote.route.operations.size(); ++i) {
    const Operation& operation = quote.route.operations[i];
    const OperationTime& time = quote.times.operations[i];
    lines.push_back({"text.operation-in-short",
                     {{"op", operation_label(operation)},
                      {"clamping", clamping_label(operation)},
                      {"cycle", minutes_text(time.machine, words)},
                      {"setup", minutes_text(time.setup, words)}}});
  }
  return lines;
}

Message stock_line(const Quote& quote, const Words& words) {
  const Job& job = quote.route.job;
  return {"text.stock-line",
          {{"material", job.material.name},
           {"stock", stock_label(job)},
           {"blank", blank_label(job.stock)},
           {"in", measure(quote.material.blank, unit::kg, 3)},
           {"out", measure(quote.material.finished, unit::kg, 3)},
           {"share", percent_text(material_share(quote), words)}}};
}

std::vector<UsedMethod> used_in(const PartQuote& part) {
  std::vector<UsedMethod> used;
  for (const std::size_t i : used_methods(part.methods)) {
    const MethodResult& method = part.methods.methods[i];
    used.push_back({&*method.quote, i, method.name, {}});
    for (const Price& price : part.quote.prices)
      if (price.method_index == i) used.back().quantities.push_back(price.quantity);
  }
  return used;
}

namespace {

// Of what a lot costs; below half a percent nobody would choose by it.
Message difference_of(double more) {
  constexpr double alike = 0.005, read = 1000;
  if (std::abs(more) < alike) return "text.costs-alike";
  const Share share{std::round(std::abs(more) * read) / read};
  return {more > 0 ? "text.costs-more" : "text.costs-less", {{"share", share}}};
}

}  // namespace

Message set_by_hand(const Quote& quote) {
  Messages prices;
  for (const Price& p : quote.prices)
    if (p.each != p.worked_out)
      prices.push_back({"text.price-by-hand",
                        {{"qty", p.quantity}, {"price", p.each}, {"calculated", p.worked_out}}});
  if (prices.empty()) return {};
  return {"text.by-hand", {{"prices", std::move(prices)}}};
}

Message question_price_heading(const PartQuote& part) {
  const Message heading =
      price_heading_at(part.methods.quantity, part.quote.prices.front().price_unit);
  if (part.methods.each == part.methods.calculated) return heading;
  return {"text.by-calculation", {{"price", heading}}};
}

Message next_best(const Comparison& c) {
  if (!c.runner_up) return "text.no-next-best";
  const RunnerUp& next = *c.runner_up;
  std::vector<Place> places{{"qty", c.quantity},
                            {"method", c.methods[next.method].name},
                            by_calculation("each", next.each, c),
                            {"more", difference_of(next.more)}};
  if (next.from > 0) {
    places.emplace_back("from", next.from);
    return {"text.next-best-from", std::move(places)};
  }
  if (next.to > 0) {
    places.emplace_back("n", next.to);
    return {"text.next-best-to", std::move(places)};
  }
  places.emplace_back("to", c.scanned_to);
  return {"text.next-best-nowhere", std::move(places)};
}

Messages next_best_lines(const PartQuote& part) {
  const Comparison& c = part.methods;
  const Message over = passed_over(c);
  Messages lines;
  if (Message by_hand = set_by_hand(part.quote); !by_hand.empty())
    lines.push_back(std::move(by_hand));
  // Nobody's lathe holds the drawing: that is said beside the price, not below it.
  if (!c.chosen.empty())
    if (const HeldBack& held = c.quoted().held_back; held.is_of_drawing())
      lines.push_back({"text.none-holds", {{"why", held.why}}});
  if (c.runner_up || over.empty()) lines.push_back(next_best(c));
  if (!over.empty()) lines.push_back(over);
  return lines;
}

Messages hours_of(const PartQuote& part) {
  Messages hours;
  for (const UsedMethod& used : used_in(part)) {
    Message hour{"text.hour",
                 {{"machine", used.quote->route.machine.name}, {"rate", used.quote->rate}}};
    if (std::find(hours.begin(), hours.end(), hour) == hours.end())
      hours.push_back(std::move(hour));
  }
  return hours;
}

std::vector<CostKind> cost_kinds(const Quote& quote) {
  std::set<CostKind> kinds;
  for (const Price& price : quote.prices)
    for (const CostLine& line : price.lines)
      if (line.amount.hundredths() != 0) kinds.insert(line.kind);
  return {kinds.begin(), kinds.end()};
}

Money amount_of(const Price& price, CostKind kind) {
  for (const CostLine& line : price.lines)
    if (line.kind == kind) return line.amount;
  return {};
}

CostCurve cost_curve(const Quote& quote, int points) {
  return cost_curve(quote.prices, points, [&](int quantity) { return lot_cost(quote, quantity); });
}

CostCurve cost_curve(const PartQuote& part, int points) {
  return cost_curve(part.quote.prices, points, [&](int quantity) {
    const auto chosen = choose(part.methods, quantity);
    return lot_cost(chosen ? *part.methods.methods[chosen->method].quote : part.quote, quantity);
  });
}

Message volume_check(const Audit& audit, bool why) {
  const bool holds = std::abs(audit.imbalance) <= volume_tolerance;
  if (holds && !why) return "text.volume-ok";
  return {holds ? "text.volume-ok-why" : "text.volume-off",
          {{"imbalance", Figure{audit.imbalance, 1}}}};
}

std::vector<PassView> pass_views(const Step& step, const StepTime& time) {
  std::vector<PassView> views;
  std::size_t at = 0;
  for (const std::span<const CutSegment> segments : passes_of(step)) {
    PassView view;
    view.segments = segments;
    view.times = std::span(time.segments).subspan(at, segments.size());
    at += segments.size();
    for (const CutSegment& segment : segments) {
      view.path += segment.path();
      view.large_diameter = max(view.large_diameter, segment.large_diameter);
    }
    for (const SegmentTime& t : view.times) view.cutting += t.cutting, view.moving += t.moving;
    const SpindleRange range = spindle_range(view.times);
    view.slowest = range.slowest;
    view.fastest = range.fastest;
    views.push_back(view);
  }
  return views;
}

Message price_of_material(const Quote& quote, const Words& words) {
  const Material& material = quote.route.job.material;
  const Stock& stock = quote.route.job.stock;
  const Message status = word_of(quote.material.status);
  if (!material.price || stock.customers) return status;
  std::vector<Place> places{
      {"price", fixed_measure(material.price->si, unit::money_per_kg, 2, words)},
      {"status", status}};
  const auto day = read_date(material.price_date);
  if (day) places.emplace_back("date", *day);
  Message price{day ? "text.price-of-kg-of" : "text.price-of-kg", std::move(places)};
  if (stock.price_factor == 1) return price;
  return {"text.price-of-condition",
          {{"price", std::move(price)},
           {"factor", Figure{stock.price_factor}},
           {"condition", condition_word(stock.condition)},
           {"basis", word_of(stock.price_factor_basis)}}};
}

SpeedRange speed_range(std::span<const SegmentTime> times) {
  SpeedRange range;
  for (const SegmentTime& t : times) {
    range.slowest = range.slowest.si > 0 ? min(range.slowest, t.at_large) : t.at_large;
    range.fastest = max(range.fastest, t.at_large);
  }
  return range;
}

std::string speed_text(const SpeedRange& range, const Words& words) {
  const std::string slow = speed_number(range.slowest, words);
  const std::string fast = speed_number(range.fastest, words);
  return slow == fast ? slow : slow + "–" + fast;
}

SpindleRange spindle_range(std::span<const SegmentTime> times) {
  SpindleRange range;
  for (const SegmentTime& t : times) {
    const Frequency low = min(t.start, t.end), high = max(t.start, t.end);
    range.slowest = range.slowest.si > 0 ? min(range.slowest, low) : low;
    range.fastest = max(range.fastest, high);
  }
  return range;
}

}  // namespace turnwright
