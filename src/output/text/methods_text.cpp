// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/methods.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "view/tables.hpp"

namespace turnwright {
namespace {

Message machine_of(const MethodView& m) {
  std::vector<Place> places{{"machine", m.quote->route.machine.name},
                            {"n", m.quote->route.operations.size()}};
  if (m.days_out <= 0) return {"methods.on", std::move(places)};
  places.emplace_back("days", Figure{m.days_out, 3});
  return {"methods.on-and-out", std::move(places)};
}

Table method_table(const MethodsView& view, int quantity, const Words& words) {
  Table table;
  table.columns = {words_column("text.method"), number_column("text.cycle-min"),
                   number_column("text.operator-min"), number_column("text.setup-min")};
  const int unit = price_unit_of(*view.comparison);
  for (const int q : view.quantities)
    table.columns.push_back(number_column(price_heading_at(q, unit)));
  table.columns.push_back(number_column({"methods.hours-at", {{"qty", quantity}}}));
  table.columns.push_back(words_column("methods.on-head"));
  table.columns.push_back(words_column("methods.quoted-at"));
  const auto winners = cheapest_at(view);
  for (std::size_t i = 0; i < view.feasible.size(); ++i) {
    const MethodView& m = view.feasible[i];
    const RouteTimes& times = m.quote->times;
    Cells cells{words.name(m.method->name), minutes_text(times.machine_each, words),
                minutes_text(times.person_each, words), minutes_text(times.setup, words)};
    for (std::size_t q = 0; q < winners.size(); ++q) {
      const bool wins = std::find(winners[q].begin(), winners[q].end(), i) != winners[q].end();
      cells.push_back(words.money(m.quote->prices[q].worked_out) + (wins ? "*" : " "));
    }
    cells.push_back(hours_text(m.lot_machine, words));
    cells.push_back(words(machine_of(m)));
    cells.push_back(quoted_at(m, words));
    table.add(std::move(cells));
  }
  return table;
}

void methods(TextWriter& out, const MethodsReport& r, const MethodsView& view,
             std::size_t left_out) {
  out.section({"methods.methods", {{"currency", r.currency}}});
  if (!view.feasible.empty()) {
    out.table(method_table(view, r.quantity, out.words()));
    out.line("methods.star");
  }
  if (left_out > 0) out.line({"methods.folded", {{"n", left_out}}});
  for (const MethodView& m : view.infeasible) out.line(not_possible(*m.method));
  const auto& [possible, planned, not_planned] = r.combining;
  if (not_planned > 0)
    out.line({"methods.pairs-left-out",
              {{"possible", possible}, {"planned", planned}, {"left_out", not_planned}}});
  else if (possible > 0)
    out.line({"methods.pairs", {{"planned", planned}}});
}

void not_quoted_section(TextWriter& out, const Comparison& c) {
  const Messages lines = not_quoted(c);
  if (lines.empty()) return;
  out.section({"methods.cheaper", {{"qty", c.quantity}}});
  out.lines(lines);
}

void lead(TextWriter& out, const Comparison& c) {
  out.section("methods.who-leads");
  for (const LeadingRange& range : c.lead) out.line(leading(c, range));
}

void why(TextWriter& out, const MethodsReport& r, const MethodsView& view) {
  const Comparison& c = r.comparison;
  if (c.reasons.empty()) return;
  out.section({"methods.why",
               {{"qty", r.quantity}, {"method", c.quoted().name}, {"currency", r.currency}}});
  Table table = difference_table(words_column("text.method"));
  for (const Difference& d : c.reasons)
    if (shows(view, c.methods[d.method]))
      add_difference(table, out.words().name(c.methods[d.method].name), d, out.words());
  out.table(table);
}

void cautions(TextWriter& out, const MethodsView& view) {
  const Words& words = out.words();
  Table table;
  table.columns = {words_column(), words_column()};
  for (const MethodView& m : view.feasible)
    for (const Message& caution : m.own_cautions)
      table.add({words.name(m.method->name), words(caution)});
  if (table.rows.empty()) return;
  out.section({"methods.cautions", {{"method", view.comparison->quoted().name}}});
  out.table(table);
}

void winner_changes(TextWriter& out, const MethodsReport& r) {
  const Words& words = out.words();
  out.section({"methods.winner-changes", {{"qty", r.quantity}}});
  if (r.winner_changes.empty()) return out.line("methods.no-winner-changes");
  Table table;
  table.columns = {words_column("methods.input"), number_column("text.change"),
                   words_column("methods.then-leads")};
  for (const WinnerChange& change : r.winner_changes) {
    const double share = change.factor - 1;
    table.add({words(word_of(change.input)),
               signed_percent(share, words, std::abs(share) < 0.1 ? 1 : 0),
               words.name(change.leader)});
  }
  out.table(table);
}

void sensitivities(TextWriter& out, const MethodsReport& r) {
  const Words& words = out.words();
  out.section(for_unit({"methods.a-tenth", {{"qty", r.quantity}}}, "methods.a-tenth-per",
                       price_unit_of(r.comparison)));
  Table table;
  table.columns = {words_column("methods.input"), number_column("methods.tenth-less"),
                   number_column("methods.tenth-more")};
  for (const Sensitivity& s : r.sensitivities)
    table.add({words(word_of(s.input)), words.money(s.lower), words.money(s.higher)});
  out.table(table);
}

std::string map_row(const std::vector<int>& methods, const std::vector<MapKey>& keys) {
  std::string row;
  for (const int method : methods) {
    const auto key = key_of(keys, method);
    row += key ? keys[*key].letter : '.';
  }
  return row;
}

void map(TextWriter& out, const MethodMap& map) {
  const Words& words = out.words();
  const std::vector<MapKey> keys = keys_of(map);
  out.section({"methods.map", {{"unit", words.unit(unit::mm)}}});
  for (const MapKey& key : keys)
    out.line({"methods.map-key",
              {{"letter", std::string(1, key.letter)},
               {"method", map.names[static_cast<std::size_t>(key.method)]}}});
  Table table;
  table.columns = {number_column({}), words_column()};
  for (std::size_t k = map.stock.size(); k-- > 0;)
    table.add({length_number(map.stock[k], words, 3), words.name(map_row(map.method[k], keys))});
  out.table(table, 0);
  out.line({"methods.map-axis", {{"from", map.quantities.front()}, {"to", map.quantities.back()}}});
}

}  // namespace

std::string methods_text(const MethodsReport& report, const Words& words) {
  std::size_t left_out = 0;
  const MethodsView view = folded(view_of(report.comparison, report.quantity), left_out);
  TextWriter out(words);
  out.written(words.name(report.title), 0);
  out.gap();
  out.remark(verdict(report.comparison));
  for (const Message& line : leader_lines(view, report.quantity, words)) out.line(line);
  methods(out, report, view, left_out);
  not_quoted_section(out, report.comparison);
  lead(out, report.comparison);
  why(out, report, view);
  cautions(out, view);
  winner_changes(out, report);
  sensitivities(out, report);
  if (report.map) map(out, *report.map);
  return out.take();
}

}  // namespace turnwright
