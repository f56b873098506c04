// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "formatting.hpp"
#include "html/charts.hpp"
#include "html/page_style.hpp"
#include "turnwright/output/methods.hpp"
#include "view/labels.hpp"
#include "view/methods_view.hpp"
#include "view/tables.hpp"

namespace turnwright {
namespace {

constexpr const char* methods_style = "svg text.on { fill: var(--ground); font-weight: 600; }\n";
constexpr double left = 60, field_height = 14, top = 8;  // of the map
constexpr int letters_from = 10;                         // width of a field that takes a letter

Table method_table(const MethodsView& view, const Words& words) {
  constexpr std::size_t first_price = 4;
  Table table;
  table.columns = {words_column("text.method"), number_column("text.cycle-min"),
                   number_column("text.operator-min"), number_column("text.setup-min")};
  const int unit = price_unit_of(*view.comparison);
  for (const int q : view.quantities)
    table.columns.push_back(number_column(price_heading_at(q, unit)));
  table.columns.push_back(words_column("methods.quoted-at"));
  for (const MethodView& m : view.feasible) {
    const RouteTimes& times = m.quote->times;
    Cells cells{name_and_machine(m, words), minutes_text(times.machine_each, words),
                minutes_text(times.person_each, words), minutes_text(times.setup, words)};
    for (const Price& p : m.quote->prices) cells.push_back(words.money(p.worked_out));
    cells.push_back(quoted_at(m, words));
    table.add(std::move(cells));
  }
  const auto winners = cheapest_at(view);
  for (std::size_t q = 0; q < winners.size(); ++q)
    for (const std::size_t m : winners[q]) table.rows[m].strong.push_back(first_price + q);
  return table;
}

void methods(PageWriter& page, const MethodsView& view, std::size_t left_out) {
  page.table(method_table(view, page.words()), "page.methods");
  if (left_out > 0) page.note({"methods.folded", {{"n", left_out}}});
  Messages impossible;
  for (const MethodView& m : view.infeasible) impossible.push_back(not_possible(*m.method));
  page.list(impossible);
}

void not_quoted_section(PageWriter& page, const Comparison& c) {
  const Messages lines = not_quoted(c);
  if (lines.empty()) return;
  page.heading(2, {"methods.cheaper", {{"qty", c.quantity}}});
  page.list(lines);
}

void lead(PageWriter& page, const Comparison& c) {
  page.heading(2, "methods.who-leads");
  Messages leads;
  for (const LeadingRange& range : c.lead) leads.push_back(leading(c, range));
  page.list(leads);
}

void cautions(PageWriter& page, const MethodsView& view) {
  const Words& words = page.words();
  Table table;
  table.columns = {words_column("text.method"), words_column("methods.caution-head")};
  for (const MethodView& m : view.feasible)
    for (const Message& caution : m.own_cautions)
      table.add({words.name(m.method->name), words(caution)});
  if (table.rows.empty()) return;
  const Message heading{"methods.cautions", {{"method", view.comparison->quoted().name}}};
  page.heading(2, heading);
  page.table(table, heading);
}

Table reasons_of(const Comparison& c, const MethodsView& view, const Words& words, bool runner_up) {
  Table table = difference_table(words_column("text.method"));
  for (const Difference& d : c.reasons)
    if (shows(view, c.methods[d.method]) &&
        (c.runner_up && c.runner_up->method == d.method) == runner_up)
      add_difference(table, words.name(c.methods[d.method].name), d, words);
  return table;
}

// The next best first: it is what the quoted method is held against; all others can be looked up.
void why(PageWriter& page, const MethodsReport& r, const MethodsView& view) {
  const Comparison& c = r.comparison;
  if (c.reasons.empty()) return;
  const Message heading{
      "methods.why", {{"qty", r.quantity}, {"method", c.quoted().name}, {"currency", r.currency}}};
  page.heading(2, heading);
  const Table next = reasons_of(c, view, page.words(), true),
              others = reasons_of(c, view, page.words(), false);
  if (!next.rows.empty()) page.table(next, heading);
  if (others.rows.empty()) return;
  page.begin_fold("methods.why-others");
  page.table(others, heading);
  page.end_fold();
}

void winner_changes(PageWriter& page, const MethodsReport& r) {
  const Words& words = page.words();
  const Message heading{"methods.winner-changes", {{"qty", r.quantity}}};
  page.heading(2, heading);
  if (r.winner_changes.empty()) return page.paragraph("methods.no-winner-changes");
  Table table;
  table.columns = {words_column("methods.input"), number_column("text.change"),
                   words_column("methods.then-leads")};
  for (const WinnerChange& change : r.winner_changes)
    table.add({words(word_of(change.input)), signed_percent(change.factor - 1, words, 1),
               words.name(change.leader)});
  page.table(table, heading);
}

void a_tenth(PageWriter& page, const MethodsReport& r) {
  const Words& words = page.words();
  const Message heading = for_unit({"methods.a-tenth", {{"qty", r.quantity}}},
                                   "methods.a-tenth-per", price_unit_of(r.comparison));
  page.heading(2, heading);
  Table table;
  table.columns = {words_column("methods.input"), number_column("methods.tenth-less"),
                   number_column("methods.tenth-more"), number_column("methods.at-most")};
  std::vector<Bar> bars;
  for (const Sensitivity& s : r.sensitivities) {
    const std::string input = words(word_of(s.input));
    table.add(
        {input, words.money(s.lower), words.money(s.higher), percent_text(s.widest, words, 2)});
    bars.push_back({input, {{100 * s.widest, 0, input, false}}});
  }
  page.table(table, heading);
  if (bars.empty()) return;
  page.markup().open("figure");
  draw_bars(page, bars, "methods.tenth-bars", "%");
  page.markup().close();
}

// Who leads by stock and quantity: a field each, by colour and letter.
class MapPicture {
 public:
  MapPicture(PageWriter& page, const MethodMap& map)
      : page_(page),
        map_(map),
        keys_(keys_of(map)),
        field_(std::clamp(800.0 / static_cast<double>(map.quantities.size()), 8.0, 20.0)),
        width_(left + field_ * static_cast<double>(map.quantities.size()) + 10),
        height_(top + field_height * static_cast<double>(map.stock.size()) + 40) {}

  void draw() {
    Markup& m = page_.markup();
    m.open("figure");
    begin_picture(m, width_, height_, page_.words()("methods.map-label"));
    for (std::size_t k = 0; k < map_.stock.size(); ++k) draw_row(k);
    draw_axis();
    m.close().open("figcaption");
    for (std::size_t i = 0; i < keys_.size(); ++i)
      page_.key(static_cast<int>(i % 8),
                page_.words()({"methods.map-key",
                               {{"letter", std::string(1, keys_[i].letter)},
                                {"method", name_of(keys_[i].method)}}}));
    m.close().close();
  }

 private:
  const std::string& name_of(int method) const {
    return map_.names[static_cast<std::size_t>(method)];
  }
  double x(std::size_t i) const { return left + field_ * static_cast<double>(i); }
  double y(std::size_t k) const {
    return top + field_height * static_cast<double>(map_.stock.size() - 1 - k);
  }
  void draw_row(std::size_t k) {
    const std::string stock = length_number(map_.stock[k], page_.words(), 3);
    picture_text(page_.markup(), left - 6, y(k) + 11, stock, "end");
    for (std::size_t i = 0; i < map_.quantities.size(); ++i)
      if (const auto key = key_of(keys_, map_.method[k][i])) draw_field(k, i, *key);
  }
  void draw_field(std::size_t k, std::size_t i, std::size_t key) {
    picture_rect(page_.markup(), x(i), y(k), field_, field_height, "k" + std::to_string(key % 8),
                 page_.words()({"methods.map-field",
                                {{"method", std::string(1, keys_[key].letter)},
                                 {"n", map_.quantities[i]},
                                 {"stock", measure(map_.stock[k], unit::mm, 3)}}}));
    if (field_ >= letters_from)
      page_.markup().put("text", std::string(1, keys_[key].letter),
                         {{"x", px(x(i) + field_ / 2)},
                          {"y", px(y(k) + 11)},
                          {"text-anchor", "middle"},
                          {"class", "on"}});
  }
  void draw_axis() {
    const Words& words = page_.words();
    for (std::size_t i = 0; i < map_.quantities.size(); i += 6)
      picture_text(page_.markup(), x(i) + field_ / 2, height_ - 22, words.whole(map_.quantities[i]),
                   "middle");
    picture_text(page_.markup(), left, height_ - 4,
                 words({"methods.map-axes", {{"unit", words.unit(unit::mm)}}}), "start");
  }

  PageWriter& page_;
  const MethodMap& map_;
  std::vector<MapKey> keys_;
  double field_, width_, height_;
};

}  // namespace

std::string methods_page(const MethodsReport& report, const Words& words) {
  std::size_t left_out = 0;
  const MethodsView view = folded(view_of(report.comparison, report.quantity), left_out);
  PageWriter page(words);
  const Message title{"methods.title", {{"part", report.title}}};
  page.begin(words(title), std::string(page_style) + methods_style);
  page.markup().open("main");
  page.warning("page.internal");
  page.heading(1, title);
  page.paragraph(verdict(report.comparison));
  page.list(leader_lines(view, report.quantity, words));
  methods(page, view, left_out);
  not_quoted_section(page, report.comparison);
  lead(page, report.comparison);
  why(page, report, view);
  cautions(page, view);
  winner_changes(page, report);
  a_tenth(page, report);
  if (report.map) {
    page.heading(2, {"methods.map", {{"unit", words.unit(unit::mm)}}});
    MapPicture(page, *report.map).draw();
  }
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
