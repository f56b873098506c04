// SPDX-License-Identifier: MIT
// The methods that a quote shows beside its own.
#include "text/compare_text.hpp"

#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "view/tables.hpp"

namespace turnwright {
namespace {

Table method_table(const MethodsView& view, const Words& words) {
  Table table;
  table.columns = {words_column("text.method"), number_column("text.cycle-min"),
                   number_column("text.setup-min")};
  const int unit = price_unit_of(*view.comparison);
  for (const int quantity : view.quantities)
    table.columns.push_back(number_column(price_heading_at(quantity, unit)));
  table.columns.push_back(words_column("methods.quoted-at"));
  for (const MethodView& m : view.feasible) {
    Cells cells{words.name(m.method->name), minutes_text(m.quote->times.machine_each, words),
                minutes_text(m.quote->times.setup, words)};
    for (const Price& p : m.quote->prices) cells.push_back(words.money(p.each));
    cells.push_back(quoted_at(m, words));
    table.add(std::move(cells));
  }
  return table;
}

void notes(TextWriter& out, const MethodView& m) {
  const Route& route = m.method->route();
  if (!route.tie_rests_on.empty())
    out.line({"text.tie-rests-on", {{"method", m.method->name}, {"on", route.tie_rests_on}}});
  if (m.method->method != MethodKind::two_finish_cuts) return;
  for (const Message& note : route.two_cut_notes)
    out.line({"text.method-note", {{"method", m.method->name}, {"note", note}}});
}

void differences(TextWriter& out, const Comparison& c) {
  if (c.differences.empty()) return;
  const Difference& first = c.differences.front();
  out.line(
      {"text.differences", {{"method", c.methods[first.method].name}, {"other", c.quoted().name}}});
  Table table = difference_table(number_column("text.qty"));
  for (const Difference& d : c.differences)
    add_difference(table, out.words().whole(d.quantity), d, out.words());
  out.table(table, 2);
}

}  // namespace

std::string compare_text(const Comparison& c, const Words& words) {
  std::size_t left_out = 0;
  const MethodsView view = shortened(view_of(c, c.quantity), left_out);
  TextWriter out(words);
  out.section("text.methods");
  if (!view.feasible.empty()) out.table(method_table(view, words));
  if (left_out > 0) out.line({"text.methods-left-out", {{"n", left_out}}});
  for (const MethodView& m : view.infeasible) out.line(not_possible(*m.method));
  for (const MethodView& m : view.feasible)
    if (!m.quoted_at.empty()) notes(out, m);
  for (const LeadingRange& range : c.lead) out.line(leading(c, range));
  if (c.break_even > 0) out.line({"text.lead-changes", {{"qty", c.break_even}}});
  differences(out, c);
  return out.take();
}

}  // namespace turnwright
