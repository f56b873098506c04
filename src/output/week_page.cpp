// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "page_parts.hpp"
#include "page_style.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr double hour_width = 9, row_height = 30, names = 150;

constexpr const char* week_style = R"css(
.late { fill: var(--k1); } .fits { fill: var(--k0); } .setting { fill: var(--k4); } .closed { fill: var(--raised); stroke: none; }
.quoted { fill: none; stroke: var(--ground); stroke-width: 2; pointer-events: none; }
.over { fill: var(--k1); } .there { fill: none; stroke: var(--ink); stroke-width: 1.2; }
svg.wide { max-width: none; } svg text.inbar { fill: var(--ground); }
)css";

class WeekPage {
 public:
  WeekPage(const Week& week, const WeekProblem& wp, const std::vector<Load>& loads,
           const WeekPlan& plan)
      : week_(week), wp_(wp), loads_(loads), plan_(plan) {
    for (std::size_t j = 0; j < wp.orders.size(); ++j) {
      const Minute done = plan.plan.done[j];
      late_.push_back(done == never || done > wp.problem.jobs[j].due);
    }
  }

  std::string page() {
    const std::string title = "Week " + text_of(week_.from) + " to " + text_of(week_.to);
    begin_page(m_, "en", title, std::string(page_style) + week_style);
    m_.open("main").put("h1", title);
    hours();
    time();
    orders();
    late();
    proposed();
    lists();
    m_.close().close().close().raw("\n");
    return m_.take();
  }

 private:
  void key(const char* colour, const std::string& name) { colour_key(m_, colour, name); }
  void head(const Cells& cells) { begin_table(m_, cells); }
  void row(const Cells& cells) { table_row(m_, cells); }
  void end() { end_table(m_); }

  // A bar of hours a day: what is asked for, framed by what is there.
  void hours() {
    m_.put("h2", "Hours asked for, day by day");
    double most = 1;
    for (const Load& load : loads_)
      for (std::size_t d = 0; d < load.needed.size(); ++d)
        most = std::max({most, load.people ? 0 : load.needed[d], load.people ? 0 : load.there[d]});
    const auto days = static_cast<double>(week_.days());
    const double wide = std::min(60.0, 780 / days), high = 54, above = 14;
    m_.open("figure");
    for (const Load& load : loads_) {
      double top = most;
      if (load.people) {
        top = 1;
        for (std::size_t d = 0; d < load.needed.size(); ++d)
          top = std::max({top, load.needed[d], load.there[d]});
      }
      const double need = load.sum_needed(), there = load.sum_there();
      begin_picture(m_, names + wide * days + 10, above + high + 22,
                    load.name + ": " + fixed(need, 1) + " of " + fixed(there, 1) + " hours");
      text(0, 16, load.name, "start");
      text(0, 32,
           fixed(need, 0) + " of " + fixed(there, 0) + " h" + (need > there ? ", too much" : ""),
           "start");
      for (std::size_t d = 0; d < load.needed.size(); ++d) {
        const double x = names + wide * static_cast<double>(d);
        const double n = high * load.needed[d] / top, t = high * load.there[d] / top;
        const bool over = load.needed[d] > load.there[d] + 0.05;
        rect(x + 2, above + high - n, wide - 4, n, over ? "over" : "fits",
             day_text(days_after(week_.from, static_cast<int>(d))) + ": " +
                 fixed(load.needed[d], 1) + " of " + fixed(load.there[d], 1) + " h");
        if (t > 0) rect(x + 1, above + high - t, wide - 2, t, "there", "");
        // Not by colour alone.
        if (over) text(x + wide / 2, above + high - n - 3, "!", "middle");
        const std::string day = day_text(days_after(week_.from, static_cast<int>(d)));
        if (wide > 14)
          text(x + wide / 2, above + high + 14, wide > 46 ? day : day.substr(4), "middle");
      }
      m_.close();
    }
    m_.open("figcaption");
    key("k0", "asked for");
    key("k1", "more than there is (!)");
    m_.text("frame: hours there").close().close();
  }

  // Machines against time; the strip is as long as the week and scrolls.
  void time() {
    m_.put("h2", "Machines against time");
    const double wide = hour_width * 24 * week_.days();
    const double high = row_height * static_cast<double>(week_.machines.size()) + 40;
    m_.open("div", {{"class", "wide"},
                    {"tabindex", "0"},
                    {"role", "region"},
                    {"aria-label", "machines against time"}});
    begin_picture(m_, names + wide, high, "what each machine does when", "wide");
    std::string grid;
    for (int d = 0; d < week_.days(); ++d) {
      const double x = names + hour_width * 24 * d;
      grid += "M" + px(x) + " 20V" + px(high);
      text(x + 4, 14, day_text(days_after(week_.from, d)), "start");
    }
    for (std::size_t m = 0; m < week_.machines.size(); ++m) {
      const double y = 24 + row_height * static_cast<double>(m);
      const std::vector<Span> closed = without({{0, week_.end()}}, week_.machines[m].open.open());
      for (const Span& s : closed)
        m_.shape("rect", {{"class", "closed"},
                          {"x", px(at(s.from))},
                          {"y", px(y)},
                          {"width", px(at(s.to) - at(s.from))},
                          {"height", px(row_height - 4)}});
    }
    m_.shape("path", {{"class", "grid"}, {"d", grid}});
    for (std::size_t m = 0; m < week_.machines.size(); ++m)
      text(0, 24 + row_height * (static_cast<double>(m) + 0.6), week_.machines[m].name, "start");
    for (const PlannedRun& run : plan_.plan.runs) {
      if (run.to == never) continue;
      const double y = 24 + row_height * run.machine;
      const int job = wp_.problem.operations[static_cast<std::size_t>(run.operation)].job;
      const auto at_job = static_cast<std::size_t>(job);
      const bool late = late_[at_job];
      const std::string name = work_name(week_, wp_, run.operation);
      const std::string when =
          name + ", " + moment_text(week_, run.ready_from) + " to " + moment_text(week_, run.to);
      rect(at(run.ready_from), y, at(run.run_from) - at(run.ready_from), row_height - 4, "setting",
           "make-ready, " + when);
      rect(at(run.run_from), y, at(run.to) - at(run.run_from), row_height - 4,
           late ? "late" : "fits",
           when + (late ? ", late" : "") + (quoted(at_job) ? ", quoted, not won" : ""));
      if (quoted(at_job)) hatch(at(run.run_from), y, at(run.to) - at(run.run_from), row_height - 4);
      const double room = at(run.to) - at(run.run_from);
      if (room > 7.0 * static_cast<double>(name.size() + 2))
        m_.put(
            "text", name + (late ? " !" : ""),
            {{"x", px(at(run.run_from) + 4)}, {"y", px(y + row_height * 0.6)}, {"class", "inbar"}});
    }
    m_.close().close();
    m_.open("p");
    key("k4", "setup");
    key("k0", "runs");
    key("k1", "runs, of a late order (!)");
    m_.text("hatched: quoted, not won");
    m_.close();
  }
  // Strokes across a bar, within it.
  void hatch(double x, double y, double width, double height) {
    std::string path;
    for (double k = 7 - height; k < width; k += 7)
      path += "M" + px(x + std::max(k, 0.0)) + " " + px(y + std::min(height, height + k)) + "L" +
              px(x + std::min(k + height, width)) + " " + px(y + std::max(0.0, k + height - width));
    m_.shape("path", {{"class", "quoted"}, {"d", path}});
  }
  bool quoted(std::size_t job) const {
    return week_.orders[wp_.orders[job]].state == OrderState::quoted;
  }
  double at(Minute t) const { return names + hour_width * t / 60.0; }

  void orders() {
    m_.put("h2", "Orders");
    head({"order", "pieces", "due", "done", "late, days"});
    for (std::size_t j = 0; j < wp_.orders.size(); ++j) {
      const Order& o = week_.orders[wp_.orders[j]];
      const Minute done = plan_.plan.done[j];
      row({job_name(week_, wp_, j) + (quoted(j) ? " (quoted)" : ""),
           std::to_string(job_pieces(week_, wp_, j)), text_of(o.due),
           done == never ? "not in this calendar" : moment_text(week_, done),
           late_[j] && done != never
               ? readable(static_cast<double>(done - wp_.problem.jobs[j].due) / minutes_a_day, 2)
               : ""});
    }
    end();
  }
  void proposed() {
    if (!plan_.relief) return;
    const ReliefTried& tried = *plan_.relief;
    m_.put("h2", "Proposed, not in the plan");
    m_.put("p", "For " + rounded(tried.relief.cost).text() + ", " + std::to_string(tried.before) +
                    " late orders become " + std::to_string(tried.late) + ".");
    m_.open("ul");
    for (const Overtime& o : tried.relief.overtime)
      m_.put("li", "overtime: " + week_.machines[static_cast<std::size_t>(o.machine)].name + ", " +
                       day_text(days_after(week_.from, o.day)) + ", " +
                       readable(o.minutes / 60.0, 3) + " h");
    for (const std::size_t j : tried.relief.subcontracted)
      m_.put("li", "to another firm: " + job_name(week_, wp_, j));
    m_.close();
  }
  void late() {
    if (plan_.late.empty()) return;
    m_.put("h2", "Late, and why");
    for (const LateReason& l : plan_.late) {
      m_.put("h3", job_name(week_, wp_, l.job));
      m_.open("ul");
      for (const std::string& link : l.chain) m_.put("li", link);
      for (const std::string& save : l.saved_by) m_.put("li", "tried: " + save);
      m_.close();
    }
  }
  // What is hung beside each machine.
  void lists() {
    m_.put("h2", "Beside each machine");
    for (std::size_t m = 0; m < week_.machines.size(); ++m) {
      m_.open("section", {{"style", "break-inside: avoid"}});
      m_.put("h3", week_.machines[m].name);
      head({"work", "make-ready from", "runs from", "to"});
      for (const PlannedRun* run : runs_on(plan_.plan, static_cast<int>(m))) {
        row({work_name(week_, wp_, run->operation), moment_text(week_, run->ready_from),
             moment_text(week_, run->run_from), moment_text(week_, run->to)});
      }
      end();
      m_.close();
    }
  }

  void text(double x, double y, const std::string& words, const char* anchor) {
    picture_text(m_, x, y, words, anchor);
  }
  void rect(double x, double y, double width, double height, const char* kind,
            const std::string& title) {
    if (width <= 0 || height <= 0) return;
    m_.open("rect", {{"class", kind},
                     {"x", px(x)},
                     {"y", px(y)},
                     {"width", px(width)},
                     {"height", px(height)}});
    if (!title.empty()) m_.put("title", title);
    m_.close();
  }

  const Week& week_;
  const WeekProblem& wp_;
  const std::vector<Load>& loads_;
  const WeekPlan& plan_;
  std::vector<bool> late_;
  Markup m_;
};

}  // namespace

std::string week_page(const Week& week, const WeekProblem& problem, const std::vector<Load>& loads,
                      const WeekPlan& plan) {
  return WeekPage(week, problem, loads, plan).page();
}

}  // namespace turnwright
