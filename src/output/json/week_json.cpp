// SPDX-License-Identifier: MIT
#include <cmath>
#include <map>
#include <set>

#include "json/json.hpp"
#include "turnwright/output/week.hpp"
#include "view/week_view.hpp"

namespace turnwright {
namespace {

Json resources_json(const Week& week, const WeekProblem& problem,
                    const std::vector<MachineLoad>& loads, const Plan& plan) {
  const std::vector<std::vector<double>> planned = planned_load(week, problem, plan);
  Json list = Json::array();
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const MachineLoad& load = loads[i];
    Json r{
        {"name", load.name}, {"kind", load.people ? "people" : "machine"}, {"days", Json::array()}};
    for (std::size_t d = 0; d < load.required.size(); ++d)
      r["days"].push_back({{"date", text_of(days_after(week.from, static_cast<int>(d)))},
                           {"available_s", std::round(3600 * load.available[d])},
                           {"used_s", std::round(3600 * load.required[d])},
                           {"planned_s", std::round(3600 * planned[i][d])}});
    list.push_back(std::move(r));
  }
  // Machines come first, in the order of the week.
  for (std::size_t m = 0; m < week.machines.size() && m < list.size(); ++m) {
    list[m]["down"] = Json::array();
    for (const Downtime& down : week.machines[m].down)
      list[m]["down"].push_back({{"from", iso_text(week, down.span.from)},
                                 {"to", iso_text(week, down.span.to)},
                                 {"why", down.why}});
  }
  return list;
}

Json waiting_json(const Waiting& waiting) {
  return {{"machine", waiting.machine},
          {"pinned", waiting.pinned},
          {"people", waiting.people},
          {"material", waiting.material},
          {"outside", waiting.outside}};
}

// The day on which something ends: midnight is the end of a day.
Json day_json(const Week& week, Minute t) {
  return t == never ? Json(nullptr) : Json(text_of(week.ending_on(t)));
}

Json orders_json(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  Json list = Json::array();
  const std::vector<Minute> begins = beginnings(wp.problem, plan.plan);
  const std::vector<Waiting> waits = waiting_by_lot(wp.problem, plan.plan);
  for (std::size_t k = 0; k < wp.orders.size(); ++k) {
    const WeekOrder& o = week.orders[wp.orders[k]];
    const Minute done = plan.plan.done[k];
    Json order{
        {"number", lot_name(week, wp, k)},
        {"due", text_of(o.due)},
        {"finish", done == never ? Json(nullptr) : Json(iso_text(week, done))},
        {"finish_day", day_json(week, done)},
        {"begin", begins[k] == never ? Json(nullptr) : Json(iso_text(week, begins[k]))},
        {"flow_days", done == never || begins[k] == never
                          ? Json(nullptr)
                          : Json((done - begins[k]) / static_cast<double>(minutes_a_day))},
        {"late_days", done == never ? Json(nullptr) : Json(days_late(wp.problem.lots[k], done))},
        {"waiting_h", waiting_json(waits[k])},
        {"reasons", Json::array()},
        {"would_help", Json::array()}};
    if (!o.customer.empty()) order["customer"] = o.customer;
    for (const LateReason& late : plan.late)
      if (late.lot == k) {
        order["reasons"] = json_messages(late.chain);
        const bool tried = &late < plan.late.data() + plan.tried;
        order["would_help"] = json_messages(tried ? late.trials : Messages{late_not_tried(plan)});
      }
    list.push_back(std::move(order));
  }
  return list;
}

// Who does what, by operation.
std::map<int, Json> people_json(const Week& week, const Plan& plan) {
  std::map<int, Json> people;
  for (const Stint& stint : plan.stints)
    people[stint.operation].push_back(
        {{"name", week.people[static_cast<std::size_t>(stint.hand)].name},
         {"does", stint.sets ? "setup" : "run"},
         {"from", iso_text(week, stint.from)},
         {"to", iso_text(week, stint.to)}});
  return people;
}

// What whoever sets it up needs.
void put_work(const WeekProblem& wp, const PlannedRun& run, const RunBefore& before, Json& told) {
  const OperationWork& work = operation_work(wp, run);
  const auto message = [](const Message& m) { return json_messages({m}).front(); };
  told["part"] = wp.parts.at(wp.names[static_cast<std::size_t>(run.operation)].order).number;
  told["clamping"] = message(work.clamping);
  told["stock"] = work.stock.empty() ? Json(nullptr) : message(work.stock);
  told["tools_to_load"] = tools_to_load(wp, run, before);
}

// In the order in which they are given to people.
Json operations_json(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  Json list = Json::array();
  std::map<int, Json> people = people_json(week, plan.plan);
  const RunsBefore before = runs_before(wp.problem, plan.plan);
  for (const PlannedRun& run : plan.plan.runs) {
    if (run.to == never) continue;
    const OperationName& n = wp.names[static_cast<std::size_t>(run.operation)];
    list.push_back({{"order", lot_name(week, wp, lot_of(wp, run.operation))},
                    {"number", n.operation},
                    {"resource", week.machines[static_cast<std::size_t>(run.machine)].name},
                    {"setup_start", iso_text(week, run.setup_from)},
                    {"start", iso_text(week, run.run_from)},
                    {"end", iso_text(week, run.to)},
                    {"setup_s", 60 * run.setup},
                    {"run_s", 60 * choice_of(wp.problem, run).run},
                    {"pieces", pieces_left(week, wp, run.operation).left},
                    {"attended_share", choice_of(wp.problem, run).attended / 1000.0},
                    {"method", wp.methods.at({n.order, run.machine})}});
    put_work(wp, run, before.at(run.operation), list.back());
    if (week.people_by_name()) {
      Json& who = people[run.operation];
      list.back()["people"] = who.is_null() ? Json::array() : std::move(who);
    }
  }
  return list;
}

Json outside_json(const Week& week, const WeekProblem& wp, const Plan& plan) {
  Json list = Json::array();
  for (const OutsideView& v : outside_of(week, wp, plan))
    list.push_back({{"order", v.order},
                    {"number", v.operation},
                    {"what", v.what},
                    {"out", iso_text(week, v.out)},
                    {"back", v.back == never ? Json(nullptr) : Json(iso_text(week, v.back))},
                    {"back_day", day_json(week, v.back)}});
  return list;
}

// What the search makes small, in money; nothing where the shop has no price of a day late.
Json money_json(const WeekProblem& wp, const Plan& plan) {
  if (wp.day_late.si <= 0) return nullptr;
  const auto money = [&](double days) { return days * in(wp.day_late, unit::money); };
  return {{"day_late", money(1)},
          {"lateness", money(plan.lateness)},
          {"work", money(plan.work)},
          {"total", money(plan.lateness + plan.work)}};
}

Json proposed_json(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  if (!plan.relief) return nullptr;
  Json proposed{{"cost", rounded(plan.relief->relief.cost).text()},
                {"late_orders", plan.relief->late()},
                {"lateness", plan.relief->lateness},
                {"orders", Json::array()},
                {"overtime", Json::array()},
                {"subcontracted", Json::array()}};
  for (const LotRelieved& lot : plan.relief->lots) {
    const bool fits = lot.done != never;
    const PlannedLot& planned = wp.problem.lots[lot.lot];
    proposed["orders"].push_back(
        {{"number", lot_name(week, wp, lot.lot)},
         {"finish", fits ? Json(iso_text(week, lot.done)) : Json(nullptr)},
         {"late_days", fits ? Json(days_late(planned, lot.done)) : Json(nullptr)}});
  }
  for (const Overtime& o : plan.relief->relief.overtime)
    proposed["overtime"].push_back(
        {{"resource", week.machines[static_cast<std::size_t>(o.machine)].name},
         {"date", text_of(days_after(week.from, o.day))},
         {"s", 60 * o.minutes}});
  for (const std::size_t k : plan.relief->relief.subcontracted)
    proposed["subcontracted"].push_back(lot_name(week, wp, k));
  return proposed;
}

}  // namespace

std::string week_json(const Week& week, const WeekProblem& wp,
                      const std::vector<MachineLoad>& loads, const WeekPlan& plan) {
  Json j = json_head("load");
  j["from"] = text_of(week.from);
  j["to"] = text_of(week.to);
  j["resources"] = resources_json(week, wp, loads, plan.plan);
  j["orders"] = orders_json(week, wp, plan);
  j["operations"] = operations_json(week, wp, plan);
  j["score"] = {{"name", "convex-lateness-then-setup"},
                {"value", plan.plan.lateness},
                {"lower_bound", plan.bound.least},
                {"setup_s", 60 * plan.plan.setup},
                {"money", money_json(wp, plan.plan)}};
  const InWork work = in_work(wp.problem, plan.plan);
  j["in_work"] = {{"orders", work.orders},
                  {"days_each", work.days_each},
                  {"waiting_h", waiting_json(waiting_of(wp.problem, plan.plan))}};
  j["outside"] = outside_json(week, wp, plan.plan);
  j["held"] = Json::array();
  for (const WeekOrder& o : week.orders)
    if (!o.hold.empty()) j["held"].push_back({{"order", o.number}, {"why", o.hold}});
  j["left_out"] = Json::array();
  for (const LeftOut& left : wp.left_out)
    j["left_out"].push_back({{"order", left.order.empty() ? Json(nullptr) : Json(left.order)},
                             {"due", left.due ? Json(text_of(*left.due)) : Json(nullptr)},
                             {"why", json_messages(left.why)}});
  j["short"] = Json::array();
  for (const ShortOrder& s : wp.shorts) {
    const WeekOrder& o = week.orders[s.order];
    j["short"].push_back({{"order", o.number}, {"pieces", s.good}, {"short", o.quantity - s.good}});
  }
  const PlannedWork cost = planned_work(wp, plan.plan);
  const auto told = [](const WorkCost& c) {
    return Json{{"machine_s", c.machine.si}, {"cost", in(c.cost, unit::money)}};
  };
  j["work"] = {{"planned", told(cost.planned)}, {"quoted", told(cost.quoted)}};
  j["proposed"] = proposed_json(week, wp, plan);
  j["changes"] = plan.changes ? json_messages(*plan.changes) : Json(nullptr);
  j["faults"] = json_messages(plan.faults);
  return json_text(j);
}

std::string weeks_json(const WeekSide& a, const WeekSide& b) {
  Json j = json_head("weeks");
  j["sides"] = Json::array();
  for (const WeekSide* side : {&a, &b}) {
    const PlannedWork cost = planned_work(side->problem, side->plan.plan);
    const InWork work = in_work(side->problem.problem, side->plan.plan);
    j["sides"].push_back({{"name", side->name},
                          {"orders", orders_json(side->week, side->problem, side->plan)},
                          {"lateness", side->plan.plan.lateness},
                          {"money", money_json(side->problem, side->plan.plan)},
                          {"machine_s", cost.planned.machine.si},
                          {"cost", in(cost.planned.cost, unit::money)},
                          {"setup_s", 60 * side->plan.plan.setup},
                          {"in_work", {{"orders", work.orders}, {"days_each", work.days_each}}},
                          {"faults", json_messages(side->plan.faults)}});
  }
  return json_text(j);
}

std::string promise_json(const Week& week, const Promise& p) {
  auto day = [&](Minute t) { return t == never ? Json(nullptr) : Json(iso_text(week, t)); };
  Json j = json_head("promise");
  j["order"] = week.orders[p.order].number;
  j["date"] = day(p.p80);
  j["day"] = day_json(week, p.p80);
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
  j["reasons"] = json_messages(p.chain);
  return json_text(j);
}

std::string actuals_json(const std::vector<Factor>& factors, const Bookings& bookings) {
  Json j = json_head("actuals");
  std::set<std::string> orders;
  for (const Factor& f : factors)
    for (const BookedRatio& c : f.orders) orders.insert(c.order);
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

}  // namespace turnwright
