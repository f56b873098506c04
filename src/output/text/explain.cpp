// SPDX-License-Identifier: MIT
#include "turnwright/output/explain.hpp"

#include <optional>

#include "formatting.hpp"
#include "text/explain.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

// Where a step stands in the route.
struct StepPlace {
  std::size_t operation = 0, step = 0;
};
std::optional<StepPlace> place_of(const Route& route, const ExplainRequest& request) {
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    for (std::size_t k = 0; k < route.operations[i].steps.size(); ++k)
      if (route.operations[i].number == request.operation &&
          route.operations[i].steps[k].number == request.step)
        return StepPlace{i, k};
  return std::nullopt;
}

Infeasible no_step(const Route& route) {
  Messages labels;
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      labels.push_back(verbatim(step_label(operation, step)));
  return {{"explain.no-step", {{"steps", labels}}}, {}};
}
Infeasible no_pass(const Operation& operation, const Step& step) {
  return {
      {"explain.no-pass", {{"step", step_label(operation, step)}, {"n", passes_of(step).size()}}},
      {}};
}

Table step_table(const Quote& q, std::size_t i, const Words& words) {
  const Operation& operation = q.route.operations[i];
  Table table;
  table.columns = {words_column("text.step"), words_column("text.work"), words_column("text.tool"),
                   number_column("text.minutes"), number_column("text.passes-head")};
  for (std::size_t k = 0; k < operation.steps.size(); ++k) {
    const Step& step = operation.steps[k];
    table.add({step_label(operation, step), words(word_of(step.kind)), words.name(step.tool),
               minutes_text(q.times.operations[i].steps[k].machine, words),
               words.whole(static_cast<std::int64_t>(passes_of(step).size()))});
  }
  return table;
}

void overview(TextWriter& out, const Quote& q) {
  const Words& words = out.words();
  out.section(
      {"explain.overview", {{"part", q.route.job.part.number}, {"machine", q.route.machine.name}}});
  for (std::size_t i = 0; i < q.route.operations.size(); ++i) {
    const Operation& operation = q.route.operations[i];
    out.section({"sheet.operation",
                 {{"op", operation_label(operation)}, {"clamping", clamping_label(operation)}}});
    out.line({"explain.why", {{"why", operation.why}}});
    out.table(step_table(q, i, words));
  }
  out.section({"text.prices", {{"currency", q.currency}}});
  for (const Price& p : q.prices)
    out.line(for_unit({"explain.listed", {{"qty", p.quantity}, {"price", p.each}}},
                      "explain.listed-per", p.price_unit));
  out.gap();
  out.remark("explain.ask-for");
}

Planned<std::string> step_text(TextWriter& out, const Explained& what,
                               const ExplainRequest& request) {
  const Route& route = what.quote.route;
  const auto at = place_of(route, request);
  if (!at) return no_step(route);
  const Operation& operation = route.operations[at->operation];
  const Step& step = operation.steps[at->step];
  if (request.kind == ExplainKind::step) {
    explain_step(out, what, at->operation, at->step);
    return out.take();
  }
  const auto passes = static_cast<int>(passes_of(step).size());
  if (request.pass < 1 || request.pass > passes) return no_pass(operation, step);
  explain_pass(out, what, at->operation, at->step, static_cast<std::size_t>(request.pass - 1));
  return out.take();
}

}  // namespace

void explain_figure(TextWriter& out, const char* name, std::initializer_list<double> inputs) {
  const figure::Entry* entry = figure::find(name);
  if (entry == nullptr) return;
  const Words& words = out.words();
  std::vector<figure::Numbers> numbers;
  for (const double x : inputs) numbers.push_back({x});
  const auto results = entry->work_out(numbers);
  const auto lines = entry->explain(numbers, quantity_text(words));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].symbols.empty()) continue;
    out.written(words.name(lines[i].symbols), 2);
    out.written(words.name(lines[i].numbers), 2);
    out.written("= " + words.measure({results[i].front(), entry->results[i].unit, 5}), 2);
  }
  out.line({"explain.figure", {{"figure", name}, {"source", entry->source}}}, 2);
}

QuantityText quantity_text(const Words& words) {
  return [&words](double si, const Unit& metric) {
    constexpr int digits = 5;
    const Unit unit = words.inch() ? counterpart(metric) : metric;
    const std::string number = words.readable(shown(si, unit), digits), name = words.unit(metric);
    return name.empty() ? number : number + " " + name;
  };
}

Planned<std::string> explain_text(const Quote& quote, const Shop& shop,
                                  const ExplainRequest& request, const Words& words,
                                  NoseFinder nose) {
  const Explained what{quote, shop, std::move(nose)};
  TextWriter out(words);
  switch (request.kind) {
    case ExplainKind::overview:
      overview(out, quote);
      break;
    case ExplainKind::minutes:
      explain_minutes(out, what);
      break;
    case ExplainKind::price:
      explain_price(out, what, request.quantity);
      break;
    case ExplainKind::step:
    case ExplainKind::pass:
      return step_text(out, what, request);
  }
  return out.take();
}

}  // namespace turnwright
