// SPDX-License-Identifier: MIT
// Machines against time, a strip a calendar week, so that all of it is on paper.
#include <algorithm>

#include "html/week_page.hpp"
#include "turnwright/document/reader.hpp"
#include "view/machine_sheet.hpp"

namespace turnwright {
namespace {

constexpr double row_height = 28, bar_height = row_height - 4, edge_height = 6, names = 140,
                 wide = 940;
constexpr double letter = 8;  // of a label's width a character
constexpr int colours = 8;

// A week of the picture, and where its moments stand.
struct Strip {
  Minute from = 0, to = 0;

  double x(Minute t) const {
    const double share = static_cast<double>(std::clamp(t, from, to) - from) / (to - from);
    return names + (wide - names) * share;
  }
  bool shows(Minute a, Minute b) const { return a < to && b > from; }
};

double y_of(std::size_t machine) { return 24 + row_height * static_cast<double>(machine); }

void draw_closed(PageWriter& page, const Week& week, const Strip& strip) {
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    for (const Span& s : without({{strip.from, strip.to}}, week.machines[m].open.open()))
      if (strip.shows(s.from, s.to))
        page.markup().shape("rect", {{"class", "closed"},
                                     {"x", px(strip.x(s.from))},
                                     {"y", px(y_of(m))},
                                     {"width", px(strip.x(s.to) - strip.x(s.from))},
                                     {"height", px(bar_height)}});
}

void draw_days(PageWriter& page, const Week& week, const DaysOfWeek& of, const Strip& strip,
               double height) {
  std::string grid;
  for (int d = of.first; d <= of.last; ++d) {
    const double x = strip.x(d * minutes_a_day);
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

// Its whole bar, which work that waits through it covers but for the lower edge.
void draw_downtime(PageWriter& page, const Week& week, const Strip& strip, const Downtime& down,
                   double y, double height) {
  const auto& [from, to] = down.span;
  if (!strip.shows(from, to)) return;
  const Words& words = page.words();
  const double x = strip.x(from), width = strip.x(to) - x;
  picture_rect(page.markup(), x, y + bar_height - height, width, height, "down",
               words({"weekpage.run",
                      {{"work", downtime_label(down)},
                       {"from", beginning_of(week, from)},
                       {"to", moment_of(week, to)}}}));
  const std::string label = words(downtime_label(down));
  if (height == bar_height && width > letter * static_cast<double>(characters(label)))
    picture_text(page.markup(), x + 4, y + row_height * 0.6, label, "start");
}

Message run_title(const Week& week, const RunView& v) {
  const char* id = v.late ? (v.quoted ? "weekpage.run-late-quoted" : "weekpage.run-late")
                          : (v.quoted ? "weekpage.run-quoted" : "weekpage.run");
  return {id,
          {{"work", v.name},
           {"from", moment_of(week, v.run->setup_from)},
           {"to", moment_of(week, v.run->to)}}};
}

void draw_run(PageWriter& page, const Week& week, const Strip& strip, const RunView& v, double y) {
  if (!strip.shows(v.run->setup_from, v.run->to)) return;
  Markup& m = page.markup();
  const Words& words = page.words();
  const double setup = strip.x(v.run->setup_from), run = strip.x(v.run->run_from);
  const double width = strip.x(v.run->to) - run;
  const std::string title = words(run_title(week, v));
  picture_rect(m, setup, y, run - setup, bar_height, "setting",
               words({"weekpage.setup-of", {{"work", verbatim(title)}}}));
  picture_rect(m, run, y, width, bar_height,
               "k" + std::to_string(v.lot % colours) + (v.late ? " late" : ""), title);
  if (v.quoted) draw_hatch(m, run, y, width);
  const std::string name = words(v.name) + (v.late ? " !" : "");
  if (width > letter * static_cast<double>(characters(name)))
    m.put("text", name, {{"x", px(run + 4)}, {"y", px(y + row_height * 0.6)}, {"class", "inbar"}});
  else if (v.late && width > letter)
    m.put("text", "!", {{"x", px(run + 2)}, {"y", px(y + row_height * 0.6)}, {"class", "inbar"}});
}

void keys(PageWriter& page, const WeekView& view) {
  const Words& words = page.words();
  page.note("weekpage.key-colours");
  page.markup().open("p");
  page.key("line", words("weekpage.key-setup"));
  if (std::any_of(view.down.begin(), view.down.end(), [](const auto& d) { return !d.empty(); }))
    page.key("rule", words("weekpage.down"));
  page.markup().text(words("weekpage.key-quoted")).close();
}

void draw_strip(PageWriter& page, const Week& week, const WeekView& view, const DaysOfWeek& of) {
  Markup& m = page.markup();
  const double height = row_height * static_cast<double>(week.machines.size()) + 28;
  // A week that is cut short keeps the scale of the others.
  const Strip strip{of.first * minutes_a_day, (of.first + std::max(of.days(), 5)) * minutes_a_day};
  m.open("figure");
  begin_picture(m, wide, height, page.words()("weekpage.timeline-label"));
  draw_closed(page, week, strip);
  draw_days(page, week, of, strip, height);
  for (std::size_t i = 0; i < week.machines.size(); ++i) {
    picture_text(m, 0, y_of(i) + row_height * 0.6, page.words().name(week.machines[i].name),
                 "start");
    const auto draw_down = [&](double high) {
      for (const Downtime& down : view.down[i])
        draw_downtime(page, week, strip, down, y_of(i), high);
    };
    draw_down(bar_height);
    for (const RunView& v : view.runs[i]) draw_run(page, week, strip, v, y_of(i));
    draw_down(edge_height);
  }
  m.close().close();
}

}  // namespace

void draw_timeline(PageWriter& page, const Week& week, const WeekView& view) {
  for (const DaysOfWeek& of : calendar_weeks(week, view.shown)) draw_strip(page, week, view, of);
  keys(page, view);
}

}  // namespace turnwright
