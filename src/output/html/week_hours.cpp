// SPDX-License-Identifier: MIT
#include <algorithm>

#include "html/week_page.hpp"

namespace turnwright {
namespace {

constexpr double names = 150, high = 54, above = 14;

double most_of(const MachineLoad& load) {
  double most = 1;
  for (std::size_t d = 0; d < load.required.size(); ++d)
    most = std::max({most, load.required[d], load.available[d]});
  return most;
}
// All machines to one scale; people to their own.
double most_of_machines(const WeekView& view) {
  double most = 1;
  for (const LoadView& v : view.loads)
    if (!v.load->people) most = std::max(most, most_of(*v.load));
  return most;
}

Message hours_of(const char* id, double required, double available, int places,
                 const Words& words) {
  return {
      id,
      {{"required", words.fixed(required, places)}, {"available", words.fixed(available, places)}}};
}

std::string day_number(Date day, const Words& words) {
  return words.whole(static_cast<int>(static_cast<unsigned>(day.day())));
}

// One day of one machine.
struct DayBar {
  Date day{};
  double required = 0, available = 0, top = 1;
  bool over = false;
};

void draw_day(PageWriter& page, const DayBar& bar, double x, double wide) {
  Markup& m = page.markup();
  const Words& words = page.words();
  const double n = high * bar.required / bar.top, t = high * bar.available / bar.top;
  Message title = hours_of("weekpage.day-hours", bar.required, bar.available, 1, words);
  title.places.emplace_back("day", day_of(bar.day));
  picture_rect(m, x + 2, above + high - n, wide - 4, n, bar.over ? "over" : "fits", words(title));
  picture_rect(m, x + 1, above + high - t, wide - 2, t, "there");
  // Not by colour alone.
  if (bar.over) picture_text(m, x + wide / 2, above + high - n - 3, "!", "middle");
  if (wide > 14)
    picture_text(m, x + wide / 2, above + high + 14,
                 wide > 62 ? words(day_of(bar.day)) : day_number(bar.day, words), "middle");
}

void draw_load(PageWriter& page, const Week& week, const LoadView& v, double top, double wide) {
  Markup& m = page.markup();
  const Words& words = page.words();
  Message label = hours_of("weekpage.load-hours", v.required, v.available, 1, words);
  label.places.emplace_back("machine", v.load->title());
  begin_picture(m, names + wide * week.days() + 10, above + high + 22, words(label));
  picture_text(m, 0, 16, words(v.load->title()), "start");
  picture_text(
      m, 0, 32,
      words(hours_of(v.load->overloaded() ? "weekpage.hours-overloaded" : "weekpage.hours-of",
                     v.required, v.available, 0, words)),
      "start");
  for (std::size_t d = 0; d < v.load->required.size(); ++d)
    draw_day(page,
             {days_after(week.from, static_cast<int>(d)), v.load->required[d], v.load->available[d],
              top, v.overloaded_on[d]},
             names + wide * static_cast<double>(d), wide);
  m.close();
}

}  // namespace

void draw_hours(PageWriter& page, const Week& week, const WeekView& view) {
  const double most = most_of_machines(view);
  const double wide = std::min(70.0, 780.0 / week.days());
  page.markup().open("figure");
  for (const LoadView& v : view.loads)
    draw_load(page, week, v, v.load->people ? most_of(*v.load) : most, wide);
  page.markup().open("figcaption");
  page.key(0, page.words()("weekpage.key-required"));
  page.key(1, page.words()("weekpage.key-overloaded"));
  page.markup().text(page.words()("weekpage.key-available")).close().close();
}

}  // namespace turnwright
