// SPDX-License-Identifier: MIT
#include <sstream>

#include "../support.hpp"
#include "instances.hpp"
#include "turnwright/week/actuals.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/plan_week.hpp"
#include "turnwright/week/promise.hpp"
#include "turnwright/week/search.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Invented: three machines, a dozen orders and a quote, times off by up to a third.
struct Small {
  Week week;
  WeekProblem wp;
};
Small small(std::uint64_t seed) {
  Draws draws(seed);
  Small s;
  s.week.from = *read_date("2026-12-07");
  s.week.to = *read_date("2027-01-15");
  std::vector<Span> open;
  for (int d = 0; d < s.week.days(); ++d)
    if (d % 7 < 5) open.push_back({d * minutes_a_day + 360, d * minutes_a_day + 840});
  for (const char* name : {"A", "B", "C"}) {
    s.week.machines.push_back({name, name, {}, Calendar(open), {}});
    PlannedMachine machine;
    machine.calendar = Calendar(open);
    s.wp.problem.machines.push_back(machine);
  }
  for (int d = 0; d <= s.week.days(); ++d) s.wp.problem.back_on.push_back((d + 1) * minutes_a_day);
  for (int j = 0; j < 13; ++j) {
    Order order;
    order.number = std::to_string(100 + j);
    order.part = "part.yaml";
    order.due = s.week.to;
    s.week.orders.push_back(order);
    s.wp.orders.push_back(static_cast<std::size_t>(j));
    s.wp.batches.push_back(0);
    PlannedJob job;
    job.due = s.week.end();
    s.wp.problem.jobs.push_back(job);
    for (int k = 1; k <= 2; ++k) {
      std::vector<Choice> choices;
      for (int m = 0; m < 3; ++m)
        if (m != k) choices.push_back(plain(m, 5 * draws.whole(20, 120)));
      for (Choice& c : choices) c.ready = 5 * draws.whole(4, 18);
      add_operation(s.wp.problem, j, std::move(choices));
      s.wp.names.push_back({static_cast<std::size_t>(j), 10 * k});
      s.wp.band.push_back(0.3);
    }
  }
  return s;
}

}  // namespace

TEST_CASE("a promise is kept in 80 of 100 weeks drawn anew, and is near the plan",
          "[week][property]") {
  int kept = 0, weeks = 0;
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Small s = small(seed);
    const PlanProblem others = without_last(s.wp.problem);
    const PlanList list = search(others, earliest_first(others), {.moves = 300, .threads = 2});
    const Promise promise = promise_of(s.week, s.wp, list);
    REQUIRE(promise.planned != never);
    CHECK(promise.p50 <= promise.p80);
    CHECK(promise.p80 <= promise.p95);
    CHECK(std::abs(promise.p50 - promise.planned) <= minutes_a_day);
    CHECK_FALSE(promise.chain.empty());
    // Other weeks than those that the promise was made of.
    for (std::uint64_t draw = 5000; draw < 5200; ++draw) {
      const PlanProblem problem = drawn(s.wp, draw);
      kept += Decoder(problem).plan(promise.list).done.back() <= promise.p80 ? 1 : 0;
      ++weeks;
    }
    // Nobody else is later than without the quote, beyond his own date.
    const Plan with = Decoder(s.wp.problem).plan(promise.list);
    CHECK(faults_of(s.wp.problem, with).empty());
    for (std::size_t j = 0; j + 1 < s.wp.problem.jobs.size(); ++j)
      CHECK(with.done[j] <= s.wp.problem.jobs[j].due);
  }
  REQUIRE(weeks == 1000);
  // 80 % less three standard errors of a share from 1,000 and of the quantile from 200 draws.
  CHECK(kept >= 720);
  CHECK(kept < 960);
}

TEST_CASE("overtime buys a sooner date for money, and none costs nothing", "[week]") {
  int sooner = 0;
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    Small s = small(seed);
    const PlanProblem others = without_last(s.wp.problem);
    const PlanList list = earliest_first(others);
    CHECK(promise_of(s.week, s.wp, list).sooner.empty());
    s.week.relief.most = 240;
    s.week.relief.overtime = 50.0 * unit::money_per_h;
    const Promise promise = promise_of(s.week, s.wp, list);
    REQUIRE_FALSE(promise.machines.empty());
    Minute best = promise.p80;
    for (const Sooner& date : promise.sooner) {
      CHECK(date.p80 < best);
      best = date.p80;
      CHECK(date.minutes > 0);
      CHECK_THAT(date.cost.si, Catch::Matchers::WithinRel(date.minutes * 50.0 / 60, 1e-9));
      ++sooner;
    }
    CHECK(promise.sooner.size() <= 2);
  }
  CHECK(sooner > 0);
}

TEST_CASE("an order taken away makes no other one late", "[week][property]") {
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    Small s = small(seed);
    for (std::size_t j = 0; j < s.wp.problem.jobs.size(); ++j)
      s.wp.problem.jobs[j].due = static_cast<Minute>(2 + j) * minutes_a_day;
    WeekPlan before = plan_week(s.week, s.wp, 500, 2);
    std::vector<HungRun> hung;
    for (const PlannedRun& run : before.plan.runs) {
      const auto o = static_cast<std::size_t>(run.operation);
      const auto job = static_cast<std::size_t>(s.wp.problem.operations[o].job);
      hung.push_back({s.week.machines[static_cast<std::size_t>(run.machine)].name,
                      job_name(s.week, s.wp, job), s.wp.names[o].setup, run.ready_from});
    }
    // The last order of the problem goes; the repair keeps what hangs.
    WeekProblem fewer = s.wp;
    fewer.problem = without_last(s.wp.problem);
    const WeekPlan after = plan_again(s.week, fewer, hung, 0, 500, 2);
    CHECK(after.plan.lateness <= before.plan.lateness + 1e-9);
    for (std::size_t j = 0; j < fewer.problem.jobs.size(); ++j) {
      const PlannedJob& job = fewer.problem.jobs[j];
      INFO("seed " << seed << ", order " << j);
      // Beyond the noise of the search: a tenth of a day.
      CHECK(days_late(job, after.plan.done[j]) <= days_late(job, before.plan.done[j]) + 0.1);
    }
  }
}

TEST_CASE("orders in work are the time each takes times orders a day", "[week][evidence]") {
  // J. D. C. Little 1961, counted here step by step.
  const Small s = small(9);
  const Plan plan = Decoder(s.wp.problem).plan(earliest_first(s.wp.problem));
  const InWork work = in_work(s.wp.problem, plan);
  std::vector<Minute> begins(s.wp.problem.jobs.size(), never);
  for (const PlannedRun& run : plan.runs) {
    const auto o = static_cast<std::size_t>(run.operation);
    Minute& first = begins[static_cast<std::size_t>(s.wp.problem.operations[o].job)];
    first = std::min(first, run.ready_from);
  }
  const Minute from = *std::min_element(begins.begin(), begins.end());
  const Minute to = *std::max_element(plan.done.begin(), plan.done.end());
  double counted = 0;
  for (Minute t = from; t < to; ++t)
    for (std::size_t j = 0; j < begins.size(); ++j) counted += begins[j] <= t && t < plan.done[j];
  CHECK_THAT(work.orders, Catch::Matchers::WithinRel(counted / (to - from), 1e-12));
  const double orders_a_day = static_cast<double>(begins.size()) / work.days;
  CHECK_THAT(work.orders, Catch::Matchers::WithinRel(orders_a_day * work.days_each, 1e-12));
}

TEST_CASE("planned again, what begins soon stays and the rest moves little", "[week]") {
  const Small s = small(9);
  const WeekPlan first = plan_week(s.week, s.wp, 500, 2);
  std::vector<HungRun> hung;
  for (const PlannedRun& run : first.plan.runs) {
    const OperationName& n = s.wp.names[static_cast<std::size_t>(run.operation)];
    hung.push_back({s.week.machines[static_cast<std::size_t>(run.machine)].name,
                    s.week.orders[n.order].number, n.setup, run.ready_from});
  }
  // Nothing happened: nothing changes.
  WeekProblem same = s.wp;
  CHECK(differences(s.week, same, plan_again(s.week, same, hung, 2 * minutes_a_day, 300, 2), hung)
            .empty());
  // Machine A breaks down for three days from the second day on.
  Week broken = s.week;
  WeekProblem wp = s.wp;
  const std::vector<Span> down{{minutes_a_day, 4 * minutes_a_day}};
  const Calendar left(without(broken.machines[0].open.open(), down));
  broken.machines[0].open = wp.problem.machines[0].calendar = left;
  const WeekPlan again = plan_again(broken, wp, hung, minutes_a_day, 500, 2);
  CHECK(again.faults.empty());
  const auto lines = differences(broken, wp, again, hung);
  CHECK_FALSE(lines.empty());
  CHECK(lines.size() < hung.size());
  for (const PlannedRun& run : again.plan.runs) {
    const OperationName& n = wp.names[static_cast<std::size_t>(run.operation)];
    for (const HungRun& h : hung)
      if (h.order == s.week.orders[n.order].number && h.setup == n.setup && h.from < minutes_a_day)
        CHECK(broken.machines[static_cast<std::size_t>(run.machine)].name == h.machine);
  }
}

TEST_CASE("booked times are drawn towards the estimate while they are few", "[week][evidence]") {
  // Worked by hand: one order at 1.30 gives exp(ln 1.30 x 1/5), ten give exp(ln 1.30 x 10/14).
  CHECK(drawn_to_one(std::log(1.30), 1) == Approx(1.054).epsilon(0.0005));
  CHECK(drawn_to_one(std::log(1.30), 10) == Approx(1.206).epsilon(0.0005));
  CHECK(drawn_to_one(std::log(1.30), 1000000) == Approx(1.30).epsilon(0.0001));

  const std::string head = "order,operation,machine,person,kind,start,end,good,scrap,note\n";
  auto factors = [&](const std::string& rows, std::size_t problems) {
    std::istringstream in(head + rows);
    TableReader reader("booked.csv", in);
    const Bookings bookings = read_bookings(reader);
    INFO(problems_text(bookings.problems));
    CHECK(bookings.problems.size() == problems);
    return factors_of(bookings, {{"7", "A", "A", 10, 60, 10}, {"8", "A", "A", 10, 60, 10}});
  };
  const std::string good =
      "7,10,A,Ines,make-ready,2026-11-02T06:00,2026-11-02T07:18,,,\n"
      "7,10,A,Ines,run,2026-11-02T07:18,2026-11-02T09:28,10,0,\n"
      "7,10,A,Ines,stop,2026-11-02T09:28,2026-11-02T12:00,,,waits for a tool\n";
  const auto plain_factors = factors(good, 0);
  REQUIRE(plain_factors.size() == 2);
  for (const Factor& f : plain_factors) {
    CHECK(f.raw == Approx(1.3));
    CHECK(f.proposed == Approx(1.054).epsilon(0.0005));
  }
  // Rows of nonsense change nothing but their own problem lines.
  const std::string nonsense =
      "8,10,A,Ines,run,2026-11-03T09:00,2026-11-03T08:00,5,0,\n"
      "8,10,A,Ines,run,2026-02-30T08:00,2026-11-03T09:00,5,0,\n"
      "8,10,A,Ines,runs,2026-11-03T08:00,2026-11-03T09:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-03T08:00,2026-11-03T09:00,-5,0,\n"
      "8,10,A,Ines,run,2026-11-03T00:00,2026-11-03T23:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-04T08:00,2026-11-04T09:00,0,0,\n"
      "8,x,A,Ines,run,2026-11-04T08:00,2026-11-04T09:00,5,0,\n"
      "8,10,A,Ines,run,7522-11-04T08:00,7522-11-04T09:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-05T08:00,2026-11-05T09:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-05T08:30,2026-11-05T09:30,5,0,overlaps the line before\n";
  const auto with = factors(good + nonsense, 9);
  REQUIRE(with.size() == 2);
  CHECK(with[0].proposed == plain_factors[0].proposed);
  CHECK(with[1].proposed == plain_factors[1].proposed);
  // Three times off is left out, and said.
  const auto outlier =
      factors(good + "8,10,A,Ines,run,2026-11-06T06:00,2026-11-06T14:00,5,0,\n", 0);
  CHECK(outlier[0].proposed == plain_factors[0].proposed);
  CHECK(corrections_file(with, "2026-11-20") == corrections_file(factors(good, 0), "2026-11-20"));
}

TEST_CASE("corrections of the shop folder are an element of their own", "[estimate]") {
  Shop shop = shipped_shop();
  const Route route = route_of(shaft(), "", WayKind::rough_then_finish, shop);
  const RouteTimes before = times_of(route, shop);
  for (const double factor : {1.25, 0.9}) {
    shop.corrections = {{"x", route.machine.name, false, factor, {}},
                        {"y", route.machine.name, true, factor, {}}};
    const RouteTimes after = times_of(route, shop);
    for (std::size_t i = 0; i < before.setups.size(); ++i)
      CHECK(after.setups[i].machine.si == Approx(factor * before.setups[i].machine.si));
    Time sum(0.0);
    for (const ElementTime& e : after.setups[0].make_ready_elements) sum += e.machine;
    CHECK(sum.si == Approx(after.setups[0].make_ready.si));
    CHECK(after.make_ready.si / before.make_ready.si == Approx(factor).epsilon(0.08));
  }
}
