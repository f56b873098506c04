// SPDX-License-Identifier: MIT
#include <algorithm>

#include "html/week_page.hpp"
#include "turnwright/document/reader.hpp"

namespace turnwright {
namespace {

constexpr double hour_width = 9, row_height = 30, bar_height = row_height - 4, names = 150;
constexpr double letter = 7;  // of a label's width a character

double x_of(Minute t) { return names + hour_width * t / 60.0; }
double y_of(std::size_t machine) { return 24 + row_height * static_cast<double>(machine); }

void draw_closed(PageWriter& page, const Week& week) {
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    for (const Span& s : without({{0, week.end()}}, week.machines[m].open.open()))
      page.markup().shape("rect", {{"class", "closed"},
                                   {"x", px(x_of(s.from))},
                                   {"y", px(y_of(m))},
                                   {"width", px(x_of(s.to) - x_of(s.from))},
                                   {"height", px(bar_height)}});
}

void draw_days(PageWriter& page, const Week& week, double height) {
  std::string grid;
  for (int d = 0; d < week.days(); ++d) {
    const double x = x_of(d * minutes_a_day);
    grid += "M" + px(x) + " 20V" + px(height);
    picture_text(page.markup(), x + 4, 14, page.words()(day_of(days_after(week.from, d))), "start");
  }
  page.markup().shape("path", {{"class", "grid"}, {"d", grid}});
}

// Strokes across a bar, within it.
void draw_hatch(Markup& m, double x, double y, double width) {
  const double height = bar_height;
  std::string path;
  for (double k = 7 - height; k < width; k += 7)
    path += "M" + px(x + std::max(k, 0.0)) + " " + px(y + std::min(height, height + k)) + "L" +
            px(x + std::min(k + height, width)) + " " + px(y + std::max(0.0, k + height - width));
  m.shape("path", {{"class", "quoted"}, {"d", path}});
}

Message run_title(const Week& week, const RunView& v) {
  const char* id = v.late ? (v.quoted ? "weekpage.run-late-quoted" : "weekpage.run-late")
                          : (v.quoted ? "weekpage.run-quoted" : "weekpage.run");
  return {id,
          {{"work", v.name},
           {"from", moment_of(week, v.run->setup_from)},
           {"to", moment_of(week, v.run->to)}}};
}

void draw_run(PageWriter& page, const Week& week, const RunView& v, double y) {
  Markup& m = page.markup();
  const Words& words = page.words();
  const double setup = x_of(v.run->setup_from), run = x_of(v.run->run_from);
  const double width = x_of(v.run->to) - run;
  const std::string title = words(run_title(week, v));
  picture_rect(m, setup, y, run - setup, bar_height, "setting",
               words({"weekpage.setup-of", {{"work", verbatim(title)}}}));
  picture_rect(m, run, y, width, bar_height, v.late ? "late" : "fits", title);
  if (v.quoted) draw_hatch(m, run, y, width);
  const std::string name = words(v.name);
  if (width > letter * static_cast<double>(characters(name) + 2))
    m.put("text", name + (v.late ? " !" : ""),
          {{"x", px(run + 4)}, {"y", px(y + row_height * 0.6)}, {"class", "inbar"}});
}

void keys(PageWriter& page) {
  const Words& words = page.words();
  page.markup().open("p");
  page.key(4, words("weekpage.key-setup"));
  page.key(0, words("weekpage.key-runs"));
  page.key(1, words("weekpage.key-late"));
  page.markup().text(words("weekpage.key-quoted")).close();
}

}  // namespace

void draw_timeline(PageWriter& page, const Week& week, const WeekView& view) {
  Markup& m = page.markup();
  const double height = row_height * static_cast<double>(week.machines.size()) + 40;
  page.begin_wide("weekpage.timeline");
  begin_picture(m, x_of(week.end()), height, page.words()("weekpage.timeline-label"), "wide");
  draw_closed(page, week);
  draw_days(page, week, height);
  for (std::size_t i = 0; i < week.machines.size(); ++i) {
    picture_text(m, 0, y_of(i) + row_height * 0.6, page.words().name(week.machines[i].name),
                 "start");
    for (const RunView& v : view.runs[i]) draw_run(page, week, v, y_of(i));
  }
  m.close().close();
  keys(page);
}

}  // namespace turnwright
