// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <set>

#include "json_head.hpp"
#include "shown.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/output/week.hpp"

namespace turnwright {
namespace {

std::string percent(double share) { return fixed(100 * share, 0) + " %"; }

const Order& order_of(const Week& week, const WeekProblem& problem, std::size_t job) {
  return week.orders[problem.orders[job]];
}
std::string overtime_text(const Week& week, const Overtime& o) {
  return week.machines[static_cast<std::size_t>(o.machine)].name + " " +
         day_text(days_after(week.from, o.day)) + " " + readable(o.minutes / 60.0, 3) + " h";
}
// What linear programs propose, and what came of it.
std::string relief_text(const Week& week, const WeekProblem& wp, const ReliefTried& tried) {
  std::string out = "\nPROPOSED, nothing of it is in the plan: for " +
                    rounded(tried.relief.cost).text() + ", " + std::to_string(tried.before) +
                    " late orders become " + std::to_string(tried.late) + ", lateness " +
                    fixed(tried.lateness, 2) + "\n";
  for (const Overtime& o : tried.relief.overtime)
    out += "  overtime: " + overtime_text(week, o) + "\n";
  for (const std::size_t j : tried.relief.subcontracted)
    out += "  to another firm: " + job_name(week, wp, j) + "\n";
  return out;
}
}  // namespace

std::string week_text(const Week& week, const WeekProblem& wp, const std::vector<Load>& loads,
                      const WeekPlan& plan) {
  std::string out = "HOURS asked for of those there, " + text_of(week.from) + " to " +
                    text_of(week.to) + ", each order as late as its date lets it\n  " +
                    padded("", 20) + "    need   there  share\n";
  for (const Load& load : loads) {
    const double need = load.sum_needed(), there = load.sum_there();
    out += "  " + padded(load.name, 20) + padded(fixed(need, 1), 8, true) +
           padded(fixed(there, 1), 8, true) +
           padded(there > 0 ? percent(need / there) : "-", 7, true) +
           (need > there ? "  OVERLOADED by " + fixed(need - there, 1) + " h" : "") + "\n";
    std::string days;
    for (std::size_t d = 0; d < load.needed.size(); ++d) {
      if (load.needed[d] <= load.there[d] + 0.05) continue;
      days += (days.empty() ? "" : ", ") + day_text(days_after(week.from, static_cast<int>(d))) +
              " " + fixed(load.needed[d], 1) + " of " + fixed(load.there[d], 1);
    }
    if (!days.empty()) out += "       more than there is: " + days + "\n";
    if (load.quoted > 0.05)
      out += "       of it quoted, not won, by its probability: " + fixed(load.quoted, 1) + " h\n";
  }
  out += "\nPLAN\n";
  for (std::size_t m = 0; m < week.machines.size(); ++m) {
    out += "  " + week.machines[m].name + "\n";
    int day = -1;
    for (const PlannedRun* run : runs_on(plan.plan, static_cast<int>(m))) {
      const int d = run->ready_from / minutes_a_day;
      const std::string when = moment_text(week, run->ready_from);
      out += "    " + padded(d == day ? "" : when.substr(0, when.size() - 6), 8) +
             when.substr(when.size() - 5) + "  " + padded(work_name(week, wp, run->operation), 14) +
             (run->ready > 0 ? "make-ready " + std::to_string(run->ready) + " min, " : "") +
             "runs from " + moment_text(week, run->run_from) + " to " + moment_text(week, run->to) +
             "\n";
      day = d;
    }
  }
  out += "\nORDERS\n  " + padded("order", 10) + padded("pieces", 8, true) +
         padded("due", 12, true) + "  done\n";
  for (std::size_t j = 0; j < wp.orders.size(); ++j) {
    const Order& o = order_of(week, wp, j);
    const Minute done = plan.plan.done[j];
    const double late = days_late(wp.problem.jobs[j], done);
    out += "  " + padded(job_name(week, wp, j), 10) +
           padded(std::to_string(job_pieces(week, wp, j)), 8, true) +
           padded(text_of(o.due), 12, true) + "  " +
           (done == never ? "does not fit into the calendar" : moment_text(week, done)) +
           (late > 0 && done != never ? "  LATE by " + readable(late, 2) + " days" : "") +
           (o.state == OrderState::quoted ? "  (quoted, " + percent(o.probability) + ")" : "") +
           "\n";
  }
  if (!plan.late.empty()) out += "\nLATE, and why\n";
  for (const LateReason& late : plan.late) {
    out += "  " + job_name(week, wp, late.job) + "\n";
    for (const std::string& link : late.chain) out += "    " + link + "\n";
    for (const std::string& save : late.saved_by) out += "    tried: " + save + "\n";
  }
  if (plan.relief) out += relief_text(week, wp, *plan.relief);
  if (!plan.gaps.empty()) out += "\nSTANDING for eight hours and more\n";
  for (const std::string& gap : plan.gaps) out += "  " + gap + "\n";
  out += "\nGOAL: lateness, days and a third of their square, by importance: " +
         fixed(plan.plan.lateness, 2) + " (no plan is below " + fixed(plan.bound, 2) +
         (plan.bound_by_capacity ? ", by the hours that are there" : ", each order alone") +
         "); then make-ready: " + fixed(plan.plan.ready / 60.0, 1) + " h\n";
  const InWork work = in_work(wp.problem, plan.plan);
  out += "IN WORK: " + fixed(work.orders, 1) + " orders at once on average, each for " +
         fixed(work.days_each, 1) + " days\n";
  for (const std::string& fault : plan.faults) out += "FAULT of the plan: " + fault + "\n";
  return out;
}

std::string week_json(const Week& week, const WeekProblem& wp, const std::vector<Load>& loads,
                      const WeekPlan& plan) {
  Json j = json_head("load");
  j["from"] = text_of(week.from);
  j["to"] = text_of(week.to);
  j["resources"] = Json::array();
  for (const Load& load : loads) {
    Json r{
        {"name", load.name}, {"kind", load.people ? "people" : "machine"}, {"days", Json::array()}};
    for (std::size_t d = 0; d < load.needed.size(); ++d)
      r["days"].push_back({{"date", text_of(days_after(week.from, static_cast<int>(d)))},
                           {"available_s", std::round(3600 * load.there[d])},
                           {"used_s", std::round(3600 * load.needed[d])}});
    j["resources"].push_back(std::move(r));
  }
  j["orders"] = Json::array();
  for (std::size_t k = 0; k < wp.orders.size(); ++k) {
    const Order& o = order_of(week, wp, k);
    const Minute done = plan.plan.done[k];
    Json order{{"number", job_name(week, wp, k)},
               {"due", text_of(o.due)},
               {"finish", done == never ? Json(nullptr) : Json(iso_text(week, done))},
               {"late_days", days_late(wp.problem.jobs[k], done)},
               {"reasons", Json::array()},
               {"would_help", Json::array()}};
    for (const LateReason& late : plan.late)
      if (late.job == k) order["reasons"] = late.chain, order["would_help"] = late.saved_by;
    j["orders"].push_back(std::move(order));
  }
  j["operations"] = Json::array();
  for (const PlannedRun& run : plan.plan.runs) {
    if (run.to == never) continue;
    const OperationName& n = wp.names[static_cast<std::size_t>(run.operation)];
    j["operations"].push_back(
        {{"order", job_name(week, wp, job_of(wp, run.operation))},
         {"number", n.operation},
         {"resource", week.machines[static_cast<std::size_t>(run.machine)].name},
         {"setup_start", iso_text(week, run.ready_from)},
         {"start", iso_text(week, run.run_from)},
         {"end", iso_text(week, run.to)},
         {"setup_s", 60 * run.ready}});
  }
  j["score"] = {{"name", "convex lateness by importance, then make-ready"},
                {"value", plan.plan.lateness},
                {"lower_bound", plan.bound},
                {"setup_s", 60 * plan.plan.ready}};
  const InWork work = in_work(wp.problem, plan.plan);
  j["in_work"] = {{"orders", work.orders}, {"days_each", work.days_each}};
  j["proposed"] = Json(nullptr);
  if (plan.relief) {
    Json proposed{{"cost", rounded(plan.relief->relief.cost).text()},
                  {"late_orders", plan.relief->late},
                  {"lateness", plan.relief->lateness},
                  {"overtime", Json::array()},
                  {"subcontracted", Json::array()}};
    for (const Overtime& o : plan.relief->relief.overtime)
      proposed["overtime"].push_back(
          {{"resource", week.machines[static_cast<std::size_t>(o.machine)].name},
           {"date", text_of(days_after(week.from, o.day))},
           {"s", 60 * o.minutes}});
    for (const std::size_t k : plan.relief->relief.subcontracted)
      proposed["subcontracted"].push_back(job_name(week, wp, k));
    j["proposed"] = std::move(proposed);
  }
  j["faults"] = plan.faults;
  return json_text(j);
}

std::string promise_text(const Week& week, const Promise& p) {
  const Order& order = week.orders[p.order];
  auto day = [&](Minute t) {
    return t == never ? std::string("not within this calendar, which ends on ") + text_of(week.to)
                      : moment_text(week, t);
  };
  std::string out = "PROMISE for " + std::to_string(order.quantity) + " of " + order.part +
                    ", nothing promised before is moved\n";
  out += "  planned      " + day(p.planned) + "\n";
  out += "  kept in 50 of 100 draws of all times from their bands: " + day(p.p50) + "\n";
  out += "  kept in 80: " + day(p.p80) + "   <- the date to promise\n";
  out += "  kept in 95: " + day(p.p95) + "\n";
  std::string machines;
  for (const std::string& m : p.machines) machines += (machines.empty() ? "" : " and ") + m;
  for (const Sooner& s : p.sooner)
    out += "  " + day(s.p80) + " with " + readable(s.minutes / 60.0, 3) + " h of overtime on " +
           machines + " until " + moment_text(week, s.until) + ", for " + rounded(s.cost).text() +
           "\n";
  if (!p.bottleneck.empty()) out += "  it waits longest for " + p.bottleneck + "\n";
  for (const std::string& link : p.chain) out += "    " + link + "\n";
  return out;
}
std::string promise_json(const Week& week, const Promise& p) {
  auto day = [&](Minute t) { return t == never ? Json(nullptr) : Json(iso_text(week, t)); };
  Json j = json_head("promise");
  j["order"] = week.orders[p.order].number;
  j["date"] = day(p.p80);
  j["planned"] = day(p.planned);
  j["p50"] = day(p.p50);
  j["p80"] = day(p.p80);
  j["p95"] = day(p.p95);
  j["with_overtime"] = Json::array();
  for (const Sooner& s : p.sooner)
    j["with_overtime"].push_back({{"date", day(s.p80)},
                                  {"until", iso_text(week, s.until)},
                                  {"s", 60 * s.minutes},
                                  {"cost", rounded(s.cost).text()}});
  j["bottleneck"] = p.bottleneck;
  j["reasons"] = p.chain;
  return json_text(j);
}

std::string actuals_text(const std::vector<Factor>& factors, const Bookings& bookings,
                         const std::vector<Repriced>& prices) {
  std::string out = "BOOKED against estimated, " + std::to_string(bookings.rows.size()) +
                    " rows used, " + std::to_string(bookings.problems.size()) + " not\n  " +
                    padded("machine", 22) + padded("of", 12) +
                    "orders   booked  spread  proposed\n";
  for (const Factor& f : factors) {
    const auto outliers = std::count_if(f.orders.begin(), f.orders.end(),
                                        [](const BookedRatio& c) { return c.outlier; });
    out += "  " + padded(f.machine, 22) + padded(f.setup ? "setup" : "running", 12) +
           padded(std::to_string(static_cast<long>(f.orders.size()) - outliers), 6, true) +
           padded("x" + fixed(f.raw, 3), 9, true) + padded("x" + fixed(f.spread, 2), 8, true) +
           padded("x" + fixed(f.proposed, 3), 10, true) + "\n";
    std::string names;
    for (const BookedRatio& c : f.orders)
      if (!c.outlier) names += (names.empty() ? "" : ", ") + c.order + " x" + fixed(c.ratio(), 2);
    out += "      " + names + "\n";
    for (const BookedRatio& c : f.orders)
      if (c.outlier)
        out += "      left out, three times off: " + c.order + ", " + fixed(c.booked, 0) + " of " +
               fixed(c.estimated, 0) + " min\n";
  }
  out += "  few orders are drawn towards x1: n of them count n/(n + 4)\n";
  if (!prices.empty()) out += "\nWHAT IT WOULD HAVE DONE to the price each\n";
  for (const Repriced& p : prices)
    out += "  " + padded(p.order, 10) + padded(p.before.text(), 12, true) +
           padded(p.after.text(), 12, true) +
           padded(fixed(100 * ((p.after.amount() / p.before.amount()).si - 1), 1) + " %", 9, true) +
           "\n";
  return out;
}
std::string actuals_json(const std::vector<Factor>& factors, const Bookings& bookings) {
  Json j = json_head("actuals");
  std::set<std::string> orders;
  for (const Factor& f : factors)
    for (const BookedRatio& c : f.orders) orders.insert(c.order.substr(0, c.order.rfind('/')));
  j["orders"] = orders.size();
  j["rows_used"] = bookings.rows.size();
  j["rows_refused"] = bookings.problems.size();
  j["factors"] = Json::array();
  for (const Factor& f : factors)
    j["factors"].push_back({{"machine", f.machine},
                            {"element", f.setup ? "setup" : "running"},
                            {"orders", f.orders.size()},
                            {"raw", f.raw},
                            {"spread", f.spread},
                            {"proposed", f.proposed}});
  return json_text(j);
}

std::string week_table(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  std::string out = "machine,order,setup,make-ready from,runs from,to,make-ready min\n";
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    for (const PlannedRun* run : runs_on(plan.plan, static_cast<int>(m))) {
      const OperationName& n = wp.names[static_cast<std::size_t>(run->operation)];
      for (const std::string& cell :
           {week.machines[m].name, job_name(week, wp, job_of(wp, run->operation)),
            std::to_string(n.operation), iso_text(week, run->ready_from),
            iso_text(week, run->run_from), iso_text(week, run->to)})
        out += table_cell(cell) + ",";
      out += std::to_string(run->ready) + "\n";
    }
  return out;
}

std::string week_calendar(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  std::string out = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Turnwright//" +
                    std::string(version) + "//EN\r\n";
  // RFC 5545, 3.3.11 and 3.1: what is escaped, and lines of at most 75 bytes.
  auto line = [&](const std::string& name, const std::string& text) {
    std::string escaped;
    for (const char c : text) {
      if (c == '\\' || c == ';' || c == ',') escaped += '\\';
      escaped += c == '\n' ? ' ' : c;
    }
    std::string whole = name + ":" + escaped;
    std::size_t room = 75;
    while (whole.size() > room) {
      std::size_t cut = room;
      while (cut > 1 && (static_cast<unsigned char>(whole[cut]) & 0xC0) == 0x80) --cut;
      out += whole.substr(0, cut) + "\r\n ";
      whole.erase(0, cut);
      room = 74;
    }
    out += whole + "\r\n";
  };
  auto compact = [](std::string text) {
    std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
    return text;
  };
  for (std::size_t j = 0; j < wp.orders.size(); ++j) {
    const Minute done = plan.plan.done[j];
    if (done == never) continue;
    const Order& o = order_of(week, wp, j);
    out += "BEGIN:VEVENT\r\n";
    line("UID", "order-" + std::to_string(j) + "-" + compact(iso_text(week, done)) + "@turnwright");
    // No clock: the stamp is the week's own moment.
    out += "DTSTAMP:" + compact(iso_text(week, week.now)) + "Z\r\n";
    out += "DTSTART:" + compact(iso_text(week, done)) + "\r\n";
    line("SUMMARY", "order " + job_name(week, wp, j) + " done, due " + text_of(o.due));
    out += "END:VEVENT\r\n";
  }
  return out + "END:VCALENDAR\r\n";
}

}  // namespace turnwright
