// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "../support.hpp"
#include "turnwright/tune/cut_optimum.hpp"
#include "turnwright/tune/multi_pass.hpp"

#ifdef TURNWRIGHT_NLOPT
#include <nlopt.hpp>
#endif

using namespace turnwright;
using namespace turnwright::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// M.-C. Chen, D.-M. Tsai 1996, every constant from memory: the optima are those of these data.
MultiPassProblem chen_tsai(double stock, double weight) {
  MultiPassProblem p;
  p.diameter = 50;
  p.length = 300;
  p.stock = stock;
  p.life = {6e11, 5, 1.75, 0.75};
  PassModel pass;
  pass.speed = {50, 500};
  pass.feed = {0.1, 0.9};
  pass.depth = {1, 3};
  pass.life = {25, 45};
  pass.limits = {{LimitId::cutting_force, {108, 0, 0.75, 0.95}, 200},
                 {LimitId::power, {108 / (6120 * 0.85), 1, 0.75, 0.95}, 5},
                 {LimitId::stable_cutting, {1, -2, -1, 1}, 1 / 140.0},
                 {LimitId::temperature, {132, 0.4, 0.2, 0.105}, 1000}};
  p.rough = p.finish = pass;
  p.finish.limits.push_back({LimitId::roughness, {1 / (8 * 1.2), 0, 2, 0}, 0.010});
  p.minute = 0.5;
  p.edge = 2.5;
  p.fixed = 0.75;
  p.each_pass = 7e-4 * 300 + 0.3;
  p.change_edge = 1.5;
  p.life_weight = weight;
  p.feed_ratio = 2.5;
  return p;
}

// D. S. Ermer 1971 as in S. S. Rao, Engineering Optimization, 4th ed. 2009, example 8.7: ft/min and
// in/rev; the finish limit from memory. Depth plays no part.
CutProblem ermer(bool power_limit, double most_power, bool finish) {
  const CutTerm minutes{3.141592653589793 * 6 * 8 / 12, -1, -1, 0};
  const CutTerm life = power(CutTerm{140, -1, -0.29, 0}, 1 / 0.25);
  const double km = 0.10, kt = 0.50, tc = 0.5, th = 2.0;
  CutTerm machine = minutes;
  machine.factor *= km;
  CutTerm tool = minutes * power(life, -1);
  tool.factor *= km * tc + kt;
  CutProblem p;
  p.cost = {machine, tool, {km * th, 0, 0, 0}};
  p.speed = {1, 2000};
  p.feed = {1e-4, 0.005};
  p.depth = {1, 1};
  if (power_limit) p.limits.push_back({LimitId::power, {3.58, 0.91, 0.78, 0}, most_power});
  if (finish) p.limits.push_back({LimitId::roughness, {1.36e8, -1.52, 1.004, 0}, 100});
  return p;
}

// R. Quiza Sardinas et al. 2006, as restated in a public problem collection; eta there is 0.7976.
CutProblem quiza(bool least_tool_use, double most_tool_use) {
  const double volume = 219912;
  const CutTerm removal{1000, 1, 1, 1};
  const CutTerm life{5.48e9, -3.46, -0.696, -0.460};
  const CutTerm force{6560, -0.286, 0.917, 1.10};
  CutTerm cutting = power(removal, -1);
  cutting.factor *= volume;
  CutTerm change = cutting * power(life, -1);
  CutTerm use = change;
  change.factor *= 0.20;
  use.factor *= 100;
  CutProblem p;
  p.speed = {250, 400};
  p.feed = {0.15, 0.55};
  p.depth = {0.5, 6};
  p.cost = least_tool_use ? std::vector<CutTerm>{use}
                          : std::vector<CutTerm>{{0.15 + 0.05, 0, 0, 0}, cutting, change};
  p.limits = {{LimitId::power, force * CutTerm{1 / 60000.0, 1, 0, 0}, 0.7976 * 10},
              {LimitId::cutting_force, force, 5000},
              {LimitId::roughness, {125 / 0.8, 0, 2, 0}, 50}};
  if (most_tool_use > 0) p.limits.push_back({LimitId::tool_life, use, most_tool_use});
  return p;
}

CutProblem random_cut(Draws& draws) {
  auto real = [&](double low, double high) {
    return low * std::pow(high / low, draws.whole(0, 10000) / 10000.0);
  };
  const CutTerm minutes{real(10, 200), -1, -1, 0};
  const double n = real(0.12, 0.5);
  const CutTerm life = power(CutTerm{real(80, 900), -1, -real(0.1, 0.4), -real(0.05, 0.2)}, 1 / n);
  CutTerm tool = minutes * power(life, -1);
  tool.factor *= real(0.5, 20);
  CutProblem p;
  p.cost = {minutes, tool};
  p.speed = {real(20, 60), real(200, 600)};
  p.feed = {real(0.03, 0.1), real(0.2, 0.9)};
  p.depth = {2, 2};
  p.limits = {
      {LimitId::cutting_force, {real(500, 3000), 0, 0.75, 0.95}, real(800, 4000)},
      {LimitId::power, {real(500, 3000) / 6e4, 1, 0.75, 0.95}, real(1, 12)},
      {LimitId::roughness, {real(1e2, 1e4), -real(0.1, 1.2), real(0.8, 2), 0}, real(20, 400)}};
  return p;
}
bool feasible(const CutProblem& p, double v, double f, double d, double tolerance) {
  auto in = [&](double x, const CutRange& r) {
    return x >= r.low * (1 - tolerance) && x <= r.high * (1 + tolerance);
  };
  return in(v, p.speed) && in(f, p.feed) && in(d, p.depth) &&
         std::all_of(p.limits.begin(), p.limits.end(), [&](const CutLimit& l) {
           return l.of.at(v, f, d) <= l.at_most * (1 + tolerance);
         });
}
double cost_at(const CutProblem& p, double v, double f, double d) {
  double sum = 0;
  for (const CutTerm& t : p.cost) sum += t.at(v, f, d);
  return sum;
}

// What a point breaks of its own pass, or "".
std::string broken_alone(const MultiPassProblem& p, const CutPoint& c, const PassModel& m,
                         double tolerance) {
  auto over = [&](double value, double most) { return value > most * (1 + tolerance); };
  auto outside = [&](double value, const CutRange& range) {
    return over(value, range.high) || over(range.low, value);
  };
  if (outside(c.speed, m.speed)) return "surface speed";
  if (outside(c.feed, m.feed)) return "feed";
  if (outside(c.depth, m.depth)) return "depth";
  if (outside(p.life.at(c.speed, c.feed, c.depth), m.life)) return "life";
  for (const CutLimit& limit : m.limits)
    if (over(limit.of.at(c.speed, c.feed, c.depth), limit.at_most)) return name_of(limit.limit);
  return "";
}
std::string broken_by(const MultiPassProblem& p, int n, const CutPoint& r, const CutPoint& s,
                      double tolerance) {
  auto over = [&](double value, double most) { return value > most * (1 + tolerance); };
  if (const std::string broken = broken_alone(p, r, p.rough, tolerance); !broken.empty())
    return "rough: " + broken;
  if (const std::string broken = broken_alone(p, s, p.finish, tolerance); !broken.empty())
    return "finish: " + broken;
  if (over(p.speed_ratio * r.speed, s.speed)) return "speed ratio";
  if (over(p.feed_ratio * s.feed, r.feed)) return "feed ratio";
  if (over(p.depth_ratio * s.depth, r.depth)) return "depth ratio";
  if (std::abs(n * r.depth + s.depth - p.stock) > tolerance * p.stock) return "stock";
  return "";
}

}  // namespace

TEST_CASE("several passes and a finish: the proved optima of the benchmark", "[tune][evidence]") {
  struct Row {
    double stock, weight, cost;
    int n;
    double vr, fr, dr, vs, fs, ds;
  };
  // Proved once by other boxes on other variables, to 2e-6.
  const Row rows[] = {
      {6.0, 0.5, 2.062059, 1, 109.6631, 0.56553, 3.00000, 169.9785, 0.22621, 3.00000},
      {6.0, 0.8, 2.035080, 1, 109.6631, 0.56553, 3.00000, 169.9785, 0.22621, 3.00000},
      {6.0, 0.2, 2.073453, 1, 123.3431, 0.56553, 3.00000, 156.1430, 0.22621, 3.00000},
      {8.0, 0.5, 2.582968, 2, 119.1544, 0.65652, 2.66667, 146.3146, 0.26261, 2.66667},
      {8.0, 0.8, 2.557989, 2, 105.9389, 0.65652, 2.66667, 164.2061, 0.26261, 2.66667},
      {8.0, 0.2, 2.549897, 2, 119.1544, 0.65652, 2.66667, 145.9939, 0.26261, 2.66667},
      {8.5, 0.5, 2.670677, 2, 121.2923, 0.60799, 2.83333, 148.9399, 0.24320, 2.83333},
      {8.5, 0.8, 2.644179, 2, 107.8397, 0.60799, 2.83333, 167.1523, 0.24320, 2.83333},
      {8.5, 0.2, 2.635595, 2, 121.2923, 0.60799, 2.83333, 148.6133, 0.24320, 2.83333},
      {9.0, 0.5, 2.758249, 2, 123.3431, 0.56553, 3.00000, 151.4581, 0.22621, 3.00000},
      {9.0, 0.8, 2.730235, 2, 109.6631, 0.56553, 3.00000, 169.9785, 0.22621, 3.00000},
      {9.0, 0.2, 2.721160, 2, 123.3431, 0.56553, 3.00000, 151.1261, 0.22621, 3.00000},
      {9.5, 0.5, 3.003180, 3, 115.1739, 0.76027, 2.37500, 141.1167, 0.30411, 2.37500},
      {9.5, 0.8, 3.011512, 3, 104.7833, 0.76027, 2.37500, 158.7205, 0.30411, 2.37500},
      {9.5, 0.2, 2.966319, 3, 115.1739, 0.76027, 2.37500, 141.1167, 0.30411, 2.37500},
      {10.0, 0.5, 3.085507, 3, 116.9199, 0.71244, 2.50000, 143.2560, 0.28498, 2.50000},
      {10.0, 0.8, 3.094266, 3, 106.3718, 0.71244, 2.50000, 161.1267, 0.28498, 2.50000},
      {10.0, 0.2, 3.046759, 3, 116.9199, 0.71244, 2.50000, 143.2560, 0.28498, 2.50000}};
  for (const Row& row : rows) {
    INFO("stock " << row.stock << ", weight " << row.weight);
    const MultiPassProblem p = chen_tsai(row.stock, row.weight);
    const MultiPassOptimum o = least_cost(p);
    REQUIRE(o.found);
    CHECK(o.proved());
    CHECK(o.at_least <= o.cost);
    CHECK(o.boxes < 126000);  // what the first proof of these took
    CHECK(broken_by(p, o.passes, o.rough, o.finish, 1e-9).empty());
    CHECK_THAT(o.cost, WithinAbs(row.cost, 3e-6));
    CHECK(o.passes == row.n);
    CHECK_THAT(o.rough.speed, WithinRel(row.vr, 1e-5));
    CHECK_THAT(o.rough.feed, WithinRel(row.fr, 2e-5));
    CHECK_THAT(o.rough.depth, WithinRel(row.dr, 1e-5));
    // The finishing life is a flat direction where it is free.
    CHECK_THAT(o.finish.speed, WithinRel(row.vs, 1e-4));
    CHECK_THAT(o.finish.feed, WithinRel(row.fs, 3e-5));
    CHECK_THAT(o.finish.depth, WithinRel(row.ds, 1e-5));
    // Costs that papers report and that no weight of the lives reaches with these data.
    if (row.stock == 6.0) {
      CHECK(o.at_least > 1.76);
      CHECK(o.at_least > 1.63);
    }
  }
}

TEST_CASE("one changed constant moves the optimum as proved before", "[tune][evidence]") {
  auto best = [](auto change) {
    MultiPassProblem p = chen_tsai(6, 0.5);
    change(p);
    const MultiPassOptimum o = least_cost(p);
    CHECK(o.proved());
    return std::pair(o.cost, o.passes);
  };
  auto both = [](MultiPassProblem& p, auto change) {
    change(p.rough);
    change(p.finish);
  };
  auto check = [](std::pair<double, int> found, double cost, int n) {
    CHECK_THAT(found.first, WithinAbs(cost, 3e-6));
    CHECK(found.second == n);
  };
  check(best([&](auto& p) { both(p, [](auto& m) { m.life.low = 15; }); }), 2.020378, 1);
  check(best([&](auto& p) { both(p, [](auto& m) { m.life.high = 60; }); }), 2.055467, 1);
  check(best([&](auto& p) { both(p, [](auto& m) { m.life = {25, 25}; }); }), 2.082709, 1);
  check(best([&](auto& p) { both(p, [](auto& m) { m.limits[0].at_most = 300; }); }), 1.818678, 1);
  check(best([&](auto& p) { both(p, [](auto& m) { m.limits[0].at_most = 150; }); }), 2.395353, 1);
  check(best([&](auto& p) { both(p, [](auto& m) { m.limits[1].at_most = 4; }); }), 2.167171, 1);
  check(best([&](auto& p) { both(p, [](auto& m) { m.limits[3].at_most = 800; }); }), 4.521979, 3);
  check(best([&](auto& p) { both(p, [](auto& m) { m.speed.high = 150; }); }), 2.319233, 2);
  check(best([&](auto& p) { both(p, [](auto& m) { m.depth.high = 2.5; }); }), 2.319224, 2);
  check(best([](auto& p) { p.finish.limits.back().at_most = 0.005; }), 2.077327, 1);
  check(best([](auto& p) { p.feed_ratio = 2; }), 1.963960, 1);
  check(best([](auto& p) { p.feed_ratio = 1; }), 1.927695, 1);
  check(best([](auto& p) { p.speed_ratio = 1.3; }), 2.062059, 1);
  check(best([](auto& p) { p.edge = 3; }), 2.090422, 1);
  check(best([](auto& p) { p.change_edge = 1; }), 2.047878, 1);
  check(best([](auto& p) { p.fixed = 1; }), 2.187059, 1);
}

TEST_CASE("one pass with feed, power and finish: Ermer and Rao", "[tune][evidence]") {
  struct Row {
    bool power, finish;
    double most_power, cost, v, f;
  };
  // Cases 1 and 2 print V 323 and 290.0, F 0.005, costs without the handling of 0.20. The book
  // prints a limit of 2 hp for case 2; its own answer takes 10 hp by its own formula, and 10 gives
  // that answer: a misprint.
  for (const Row& row : {Row{false, false, 0, 1.237822, 322.891, 0.005000},
                         {true, false, 10, 1.254511, 290.101, 0.005000},
                         {true, true, 10, 1.304561, 310.713, 0.004615},
                         {true, false, 2, 5.280059, 49.482, 0.005000},
                         {true, true, 2, 6.286989, 143.901, 0.001439}}) {
    const CutOptimum o = least_cost(ermer(row.power, row.most_power, row.finish));
    REQUIRE(o.found);
    CHECK(o.proved());
    CHECK_THAT(o.cost, WithinAbs(row.cost, 2e-6));
    CHECK_THAT(o.speed, WithinAbs(row.v, 2e-3));
    CHECK_THAT(o.feed, WithinAbs(row.f, 1e-6));
  }
  CHECK(least_cost(ermer(true, 10, true)).binding ==
        std::vector<LimitId>{LimitId::power, LimitId::roughness});
}

TEST_CASE("without limits the optimum is Gilbert's speed", "[tune][evidence]") {
  // W. W. Gilbert, Economics of machining, 1950: v = C ((1/n - 1) (t + edge / rate))^-n. Least
  // cost: A. Ghosh, A. K. Mallik, Manufacturing Science, problem 4.26, 27.417 m/min printed; least
  // time: M. P. Groover, Fundamentals of Modern Manufacturing, 3rd ed. 2007, problem 24.11, 687
  // ft/min (from memory).
  struct Row {
    double n, constant, change, edge_minutes, speed;
  };
  for (const Row& row : {Row{0.25, 75, 2, 2.5 / (9.0 / 60), 27.417}, {0.25, 1000, 1.5, 0, 687}}) {
    CutProblem p;
    const CutTerm minutes{1, -1, -1, 0};
    CutTerm tool = minutes * power(CutTerm{1 / row.constant, 1, 0, 0}, 1 / row.n);
    tool.factor *= row.change + row.edge_minutes;
    p.cost = {minutes, tool};
    p.speed = {1, 5000};
    p.feed = {0.2, 0.2};
    p.depth = {1, 1};
    const CutOptimum o = least_cost(p);
    CHECK(o.proved());
    CHECK(o.binding.empty());
    CHECK_THAT(o.speed, WithinAbs(row.speed, row.speed < 100 ? 0.0005 : 0.5));  // as printed
  }
}

TEST_CASE("time against tool use: Quiza Sardinas", "[tune][evidence]") {
  struct Row {
    bool tool_use;
    double most, value, v, f, a;
  };
  for (const Row& row : {Row{false, 0, 0.819157, 400.000, 0.55000, 1.66393},
                         {false, 4, 0.874634, 297.345, 0.55000, 2.01715},
                         {false, 3, 0.897014, 268.415, 0.55000, 2.15572},
                         {true, 0, 2.06985, 250.000, 0.17026, 6.00000}}) {
    const CutOptimum o = least_cost(quiza(row.tool_use, row.most));
    REQUIRE(o.found);
    CHECK(o.proved());
    CHECK_THAT(o.cost, WithinRel(row.value, 5e-6));
    CHECK_THAT(o.speed, WithinRel(row.v, 1e-5));
    CHECK_THAT(o.feed, WithinRel(row.f, 3e-5));
    CHECK_THAT(o.depth, WithinRel(row.a, 1e-5));
  }
}

TEST_CASE("what a limit is worth is what it saves when it gives way", "[tune]") {
  CutProblem p = ermer(true, 10, true);
  const CutOptimum o = least_cost(p);
  REQUIRE(o.worth.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    CutProblem more = p;
    more.limits[i].at_most *= 1.0001;
    const double fell = std::log(o.cost / least_cost(more).cost) / std::log(1.0001);
    CHECK_THAT(o.worth[i], WithinRel(fell, 1e-3));
  }
}

TEST_CASE("limits that leave nothing say which contradict, and by how much", "[tune]") {
  CutProblem p = ermer(true, 10, true);
  p.limits[0].at_most = 0.01;  // hp
  const CutOptimum o = least_cost(p);
  CHECK_FALSE(o.found);
  REQUIRE(o.contradict.size() >= 2);
  CHECK(std::count(o.contradict.begin(), o.contradict.end(), LimitId::power) == 1);
  // Giving way by that factor, and a breath more, lets something be cut.
  for (std::size_t i = 0; i < o.contradict.size(); ++i) {
    CutProblem eased = p;
    CHECK(o.give_way[i] > 1);
    for (CutLimit& limit : eased.limits)
      if (limit.limit == o.contradict[i]) {
        limit.at_most *= o.give_way[i] * 0.99;
        CHECK_FALSE(least_cost(eased).found);
        limit.at_most *= 1.02;
        CHECK(least_cost(eased).found);
      }
  }
}

TEST_CASE("a limit or a range that is not above 0 contradicts by itself", "[tune]") {
  for (const double none : {0.0, -1.0, std::nan("")}) {
    CutProblem p = ermer(true, none, true);
    const CutOptimum o = least_cost(p);
    CHECK_FALSE(o.found);
    CHECK(o.contradict == std::vector<LimitId>{LimitId::power});
    REQUIRE(o.give_way.size() == 1);
    CHECK(std::isinf(o.give_way.front()));
    p = ermer(true, 10, true);
    p.feed = {none, 0.005};
    CHECK(least_cost(p).contradict ==
          std::vector<LimitId>{LimitId::least_feed, LimitId::tool_feed});
  }
  // Without a cost that is above 0 there is nothing to make small.
  CutProblem p = ermer(true, 10, true);
  for (CutTerm& term : p.cost) term.factor = 0;
  CHECK_FALSE(least_cost(p).found);
}

TEST_CASE("no point of a fine grid is better, and the bound is below all of them",
          "[tune][property]") {
  Draws draws(4);
  int found = 0, none = 0, proved = 0;
  for (int i = 0; i < 10000; ++i) {
    const CutProblem p = random_cut(draws);
    const CutOptimum o = least_cost(p);
    double best = 1e300;
    // Fine in f, and at each f in v: limits and the unbounded optimum lie between grid lines.
    for (int a = 0; a <= 40; ++a)
      for (int b = 0; b <= 40; ++b) {
        const double f = p.feed.low * std::pow(p.feed.high / p.feed.low, a / 40.0);
        const double v = p.speed.low * std::pow(p.speed.high / p.speed.low, b / 40.0);
        if (feasible(p, v, f, 2, 0)) best = std::min(best, cost_at(p, v, f, 2));
      }
    if (!o.found) {
      if (best < 1e300) FAIL("case " << i << ": a grid point is feasible");
      ++none;
      continue;
    }
    ++found;
    proved += o.proved() ? 1 : 0;
    if (!feasible(p, o.speed, o.feed, o.depth, 1e-9)) FAIL("case " << i << ": not feasible");
    if (o.cost > best * (1 + 1e-9)) FAIL("case " << i << ": " << o.cost << " above " << best);
    if (o.at_least > best * (1 + 1e-9) || o.at_least > o.cost * (1 + 1e-12))
      FAIL("case " << i << ": the bound is above a point");
  }
  CHECK(found > 5000);
  CHECK(none > 100);
  CHECK(proved == found);
}

TEST_CASE("several passes with added wear: no random point is better", "[tune][property]") {
  Draws draws(12);
  auto real = [&](double low, double high) {
    return low + (high - low) * draws.whole(0, 100000) / 100000.0;
  };
  int proved = 0, better = 0;
  for (int i = 0; i < 60; ++i) {
    MultiPassProblem p = chen_tsai(real(4, 12), 0.5);
    if (i % 3 != 0) p.life_weight.reset();
    p.edge = real(0.3, 8);
    p.minute = real(0.2, 2);
    p.feed_ratio = real(1, 3);
    for (PassModel* m : {&p.rough, &p.finish}) {
      m->limits[0].at_most = real(120, 350);
      m->limits[1].at_most = real(3, 9);
      m->life = {real(8, 25), real(30, 120)};
    }
    const MultiPassOptimum o = least_cost(p);
    if (!o.found) continue;
    proved += o.proved() ? 1 : 0;
    CHECK(broken_by(p, o.passes, o.rough, o.finish, 1e-9).empty());
    CHECK(o.at_least <= o.cost);
    for (int k = 0; k < 4000; ++k) {
      const int n = draws.whole(1, 8);
      CutPoint r, s;
      s.depth = real(p.finish.depth.low, p.finish.depth.high);
      r.depth = (p.stock - s.depth) / n;
      r.feed = real(0.1, 0.9);
      s.feed = real(0.1, r.feed / p.feed_ratio);
      r.speed = real(50, 250);
      s.speed = real(r.speed, 300);
      r.life = p.life.at(r.speed, r.feed, r.depth);
      s.life = p.life.at(s.speed, s.feed, s.depth);
      if (r.depth <= 0 || !broken_by(p, n, r, s, 0).empty()) continue;
      ++better;
      if (cost_of(p, n, r, s) < o.at_least) FAIL("case " << i << ": a point below the bound");
    }
  }
  CHECK(proved > 40);
  CHECK(better > 100);  // feasible points tried
}

TEST_CASE("exponents outside of what the proof rests on are searched and marked", "[tune]") {
  MultiPassProblem p = chen_tsai(6, 0.5);
  p.life.q = 5.5;  // a lighter feed would cost less
  const MultiPassOptimum o = least_cost(p, 1e-6, 20000);
  CHECK_FALSE(o.proved());
  CHECK(o.unproved == Unproved::life_exponents);
}

#ifdef TURNWRIGHT_NLOPT
TEST_CASE("a second opinion is never better", "[tune][evidence]") {
  Draws draws(21);
  int asked = 0;
  for (int i = 0; i < 300; ++i) {
    const CutProblem p = random_cut(draws);
    const CutOptimum o = least_cost(p);
    if (!o.found) continue;
    nlopt::opt opt(nlopt::LN_COBYLA, 2);
    opt.set_lower_bounds({std::log(p.speed.low), std::log(p.feed.low)});
    opt.set_upper_bounds({std::log(p.speed.high), std::log(p.feed.high)});
    struct Data {
      const CutProblem* p;
      std::size_t limit;
    };
    std::vector<Data> data;
    for (std::size_t k = 0; k <= p.limits.size(); ++k) data.push_back({&p, k});
    opt.set_min_objective(
        [](const std::vector<double>& x, std::vector<double>&, void* d) {
          return std::log(cost_at(*static_cast<Data*>(d)->p, std::exp(x[0]), std::exp(x[1]), 2));
        },
        &data.back());
    for (std::size_t k = 0; k < p.limits.size(); ++k)
      opt.add_inequality_constraint(
          [](const std::vector<double>& x, std::vector<double>&, void* d) {
            const auto& at = *static_cast<Data*>(d);
            const CutLimit& l = at.p->limits[at.limit];
            return std::log(l.of.at(std::exp(x[0]), std::exp(x[1]), 2) / l.at_most);
          },
          &data[k], 1e-10);
    opt.set_xtol_rel(1e-9);
    opt.set_maxeval(2000);
    std::vector<double> x{std::log(o.speed), std::log(o.feed)};
    double value = 0;
    try {
      opt.optimize(x, value);
    } catch (const std::exception&) {
      continue;
    }
    if (!feasible(p, std::exp(x[0]), std::exp(x[1]), 2, 1e-9)) continue;
    ++asked;
    CHECK(o.cost <= std::exp(value) * (1 + 1e-6));
    CHECK(o.at_least <= std::exp(value) * (1 + 1e-9));
  }
  CHECK(asked > 100);
}
#endif

TEST_CASE("the end of a range that holds a cut is named, with what it is worth", "[tune]") {
  CutProblem p = ermer(false, 0, false);
  p.most_feed = LimitId::tool_feed;
  const CutOptimum best = least_cost(p);
  REQUIRE(best.proved());
  CHECK(best.feed == Approx(0.005));
  REQUIRE(best.binding == std::vector{LimitId::tool_feed});
  p.feed.high *= 1.001;
  const double saved = 1 - least_cost(p).cost / best.cost;
  CHECK(saved == Approx(best.worth.front() * std::log(1.001)).epsilon(1e-3));
  // A lathe that runs no faster holds the speed.
  p.speed.high = 50;
  const CutOptimum slow = least_cost(p);
  CHECK(std::find(slow.binding.begin(), slow.binding.end(), LimitId::spindle_speed) !=
        slow.binding.end());
}
