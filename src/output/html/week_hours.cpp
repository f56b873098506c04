// SPDX-License-Identifier: MIT
// Hours required and available as a table of machines and days, a calendar week each.
#include <algorithm>

#include "html/week_page.hpp"

namespace turnwright {
namespace {

constexpr double worth_a_cell = 0.05;  // hours

// A day on which nobody works and nothing is due has no column.
bool is_shown(const WeekView& view, std::size_t day) {
  return std::any_of(view.loads.begin(), view.loads.end(), [&](const LoadView& v) {
    return v.load->required[day] > worth_a_cell || v.load->available[day] > worth_a_cell ||
           v.planned_on[day] > worth_a_cell;
  });
}

std::string hours(double value, const Words& words) { return words.fixed(value, 1); }

void draw_cell(PageWriter& page, const LoadView& v, std::size_t day) {
  const Words& words = page.words();
  const double required = v.load->required[day], available = v.load->available[day];
  Markup::Attributes look;
  if (v.overloaded_on[day]) look.emplace_back("class", "overloaded");
  page.markup().open("td", look);
  if (required <= worth_a_cell && available > worth_a_cell)
    page.markup().text("–");
  else if (required > worth_a_cell)
    page.markup().text(
        words({v.overloaded_on[day] ? "weekpage.cell-overloaded" : "weekpage.cell",
               {{"required", hours(required, words)}, {"available", hours(available, words)}}}));
  page.markup().close();
}

void draw_week(PageWriter& page, const Week& week, const WeekView& view, const DaysOfWeek& of) {
  Markup& m = page.markup();
  const Words& words = page.words();
  std::vector<std::size_t> days;
  for (int d = of.first; d <= of.last; ++d)
    if (is_shown(view, static_cast<std::size_t>(d))) days.push_back(static_cast<std::size_t>(d));
  if (days.empty()) return;
  page.begin_wide("weekpage.hours-by-day");
  m.open("table", {{"class", "load"}}).open("thead").open("tr");
  m.put("th", words.heading("weekpage.machine"), {{"scope", "col"}});
  for (const std::size_t d : days)
    m.put("th", words.heading(day_of(days_after(week.from, static_cast<int>(d)))),
          {{"scope", "col"}});
  m.close().close().open("tbody");
  for (const LoadView& v : view.loads) {
    m.open("tr").put("td", words(v.load->title()));
    for (const std::size_t d : days) draw_cell(page, v, d);
    m.close();
    m.open("tr", {{"class", "note"}}).put("td", words("weekpage.in-plan"));
    for (const std::size_t d : days)
      m.put("td", v.planned_on[d] > worth_a_cell ? hours(v.planned_on[d], words) : "");
    m.close();
  }
  m.close().close().close().raw("\n");
}

}  // namespace

void draw_hours(PageWriter& page, const Week& week, const WeekView& view) {
  for (const DaysOfWeek& of : calendar_weeks(week, view.shown)) draw_week(page, week, view, of);
  const Words& words = page.words();
  for (const LoadView& v : view.loads)
    page.note({v.overloaded() ? "weekpage.load-overloaded" : "weekpage.load-hours",
               {{"machine", v.load->title()},
                {"required", words.fixed(v.required, 0)},
                {"available", words.fixed(v.available, 0)},
                {"planned", words.fixed(v.planned, 0)}}});
}

}  // namespace turnwright
