// SPDX-License-Identifier: MIT
// One cut at the bench, and the speed card: the planner's own numbers, whatever is asked.
#include <array>
#include <cmath>
#include <map>

#include "../bench_words.hpp"
#include "turnwright/compare/bench_cut.hpp"
#include "turnwright/compare/speed_card.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/output/bench.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const std::array machines{"CNC lathe, medium", "geared lathe, medium", "geared lathe, small",
                          "geared lathe, heavy", "CNC lathe, heavy"};
const std::array materials{"C45", "42CrMo4 +QT", "11SMn30", "X5CrNi18-10", "CuZn39Pb3"};

BenchRequest request_of(const std::string& material, const std::string& work,
                        const std::string& machine = "") {
  BenchRequest request;
  request.material = material;
  request.work = work_of(work);
  request.machine = machine;
  return request;
}
BenchCut cut_of(const BenchRequest& request, const Shop& shop = shipped_shop()) {
  auto cut = bench_cut(request, shop);
  INFO(english(cut.infeasible().why));
  REQUIRE(cut);
  return *cut;
}
std::string fault_of(const std::string& text) {
  TextFault fault;
  CHECK_FALSE(read_bench_work(text, false, fault));
  return english(fault.what);
}

/// A cut in words, and the same as the part file of one element that an estimator would write.
struct Drawn {
  BenchRequest request;
  std::string part;
};

std::string length(double mm, bool inch) {
  return inch ? shortest(mm / 25.4) + " in" : shortest(mm) + " mm";
}
std::string part_file(const std::string& material, const std::string& stock,
                      const std::string& elements, const std::string& bore = "",
                      const std::string& right = "as sawn") {
  return "part: {number: T}\nmaterial: " + material + "\ndrawing: {general: ±1}\nstock: {" + stock +
         ", supplied by: customer}\nfaces: {right: " + right + ", left: as sawn}\noutside: [" +
         elements + "]\n" + (bore.empty() ? "" : "bore from right: [" + bore + "]\n");
}
// What the jaws hold and the widest clearance between jaws and tool.
double held(double diameter) { return std::max(diameter / 2, 10.0) + 4; }

Drawn drawn_cut(Draws& draws) {
  Drawn d;
  const bool inch = draws.whole(0, 1) == 1;
  const std::string material = materials[static_cast<std::size_t>(draws.whole(0, 4))];
  d.request.material = material;
  d.request.machine = machines[static_cast<std::size_t>(draws.whole(0, 4))];
  const auto in = [&](double mm) { return length(mm, inch); };
  const double from = std::round(draws.real(20, 120)), run = std::round(draws.real(10, 60));
  std::string words;
  switch (draws.whole(0, 9)) {
    case 0: {  // turned
      const double to = from - std::round(draws.real(1, from / 3));
      words = in(from) + " to " + in(to) + " x" + in(run);
      d.part =
          part_file(material, "round: " + in(from),
                    in(to) + " x" + in(run) + ", " + in(from) + " as drawn x" + in(held(from)));
      break;
    }
    case 1:  // faced
      words = "face " + in(from) + " to " + in(0) + " x" + in(2);
      d.part = part_file(material, "round: " + in(from) + ", facing: " + in(2),
                         in(from) + " as drawn x" + in(held(from)), "", "machined");
      break;
    case 2: {  // drilled, with drills of the sets
      const double size = draws.whole(5, 20);
      words = "drill " + length(size, false) + " x" + length(run, false);
      d.part = part_file(
          material, "round: " + length(2 * size, false),
          length(2 * size, false) + " as drawn x" + length(run + size + held(2 * size), false),
          length(size, false) + " x" + length(run, false));
      break;
    }
    case 3: {  // bored, in millimetres: a tube is written so
      const double hole = std::round(draws.real(25, 60)), to = hole + 2;
      const auto mm = [](double x) { return shortest(x); };
      words = "bore " + mm(hole) + " to " + mm(to) + " x" + mm(run);
      d.part = part_file(material, "tube: " + mm(2 * to) + "x" + mm(to - hole / 2),
                         mm(2 * to) + " as drawn x" + mm(run + held(2 * to)),
                         mm(to) + " x" + mm(run) + ", " + mm(hole) + " through");
      break;
    }
    case 4: {  // threaded, tapped, reamed, knurled, parted off: sizes of the sets, in millimetres
      const double pitch = draws.whole(1, 3), major = draws.whole(12, 40);
      const std::string thread = "M" + shortest(major) + "x" + shortest(pitch);
      words = "thread " + thread + " x" + shortest(run);
      d.part = part_file(material, "round: " + shortest(major),
                         thread + " x" + shortest(run) + ", " + shortest(major) + " as drawn x" +
                             shortest(held(major)));
      break;
    }
    case 5:
    case 6: {
      const bool tapped = draws.whole(0, 1) == 1;
      const double size = 2 * draws.whole(3, 10);
      const std::string bore = tapped ? "M" + shortest(size) : shortest(size) + " H7";
      words = (tapped ? "tap M" : "ream ") + shortest(size) + " x" + shortest(size);
      d.part = part_file(material, "round: " + shortest(2 * size),
                         shortest(2 * size) + " as drawn x" + shortest(2 * size + held(2 * size)),
                         bore + " x" + shortest(size));
      break;
    }
    case 7:
      words = "knurl RGE 1.0 " + shortest(from) + " x" + shortest(run);
      d.part = part_file(material, "round: " + shortest(from + 2),
                         "\"" + shortest(from) + " x" + shortest(run) + ", knurl RGE 1.0\", " +
                             shortest(from + 2) + " as drawn x" + shortest(held(from + 2)));
      break;
    case 8:
      words = "part off " + in(from);
      d.part = part_file(material, "round: " + in(from) + ", fed from: bar",
                         in(from) + " as drawn x" + in(std::max(from / 2, 10.0)));
      break;
    default: {  // grooved, in millimetres
      const auto mm = [](double x) { return shortest(x); };
      words = "groove 3 wide " + mm(from) + " to " + mm(from - 6);
      d.part = part_file(material, "round: " + mm(from),
                         "\"" + mm(from) + " as drawn x" + mm(9 + held(from)) +
                             ", groove 3 wide to " + mm(from - 6) + " at 6\"");
    }
  }
  d.request.work = work_of(words);
  return d;
}

void same(const Step& a, const StepTime& at, const Step& b, const StepTime& bt) {
  CHECK(a.tool == b.tool);
  CHECK(a.used.surface_speed.si == Approx(b.used.surface_speed.si).epsilon(1e-12));
  CHECK(a.used.feed.si == Approx(b.used.feed.si).epsilon(1e-12));
  REQUIRE(a.segments.size() == b.segments.size());
  for (std::size_t i = 0; i < a.segments.size(); ++i) {
    CHECK(a.segments[i].spindle.si == Approx(b.segments[i].spindle.si).epsilon(1e-12));
    CHECK(a.segments[i].feed.si == Approx(b.segments[i].feed.si).epsilon(1e-12));
    CHECK(a.segments[i].depth.si == Approx(b.segments[i].depth.si).epsilon(1e-9));
    CHECK(at.segments[i].cutting.si == Approx(bt.segments[i].cutting.si).epsilon(1e-9));
  }
  CHECK(at.moving.si == Approx(bt.moving.si).epsilon(1e-9));
  CHECK(at.life.si == Approx(bt.life.si).epsilon(1e-9));
  for (std::size_t i = 0; i < std::min(a.limits.size(), b.limits.size()); ++i)
    CHECK(a.limits[i].actual == Approx(b.limits[i].actual).epsilon(1e-9));
}

const Step* step_like(const RouteTimes& times, const Route& route, const Step& wanted,
                      const StepTime*& time) {
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    for (std::size_t k = 0; k < route.operations[i].steps.size(); ++k) {
      const Step& step = route.operations[i].steps[k];
      if (step.kind != wanted.kind || step.segments.empty() ||
          std::abs(
              (step.segments.front().large_diameter - wanted.segments.front().large_diameter).si) >
              1e-9)
        continue;
      time = &times.operations[i].steps[k];
      return &step;
    }
  return nullptr;
}

}  // namespace

TEST_CASE("a cut at the bench has the numbers of a part of that one element", "[bench]") {
  Draws draws(16);
  const Shop& shop = shipped_shop();
  int planned = 0, refused = 0;
  for (int i = 0; i < 1000; ++i) {
    const Drawn d = drawn_cut(draws);
    INFO(d.request.work.text << " in " << d.request.material << " on " << d.request.machine);
    INFO(d.part);
    const auto cut = bench_cut(d.request, shop);
    const auto route = plan_route(job_of(d.part), shop, {d.request.machine});
    if (!cut) {
      ++refused;
      continue;
    }
    // At the bench a piece too thick for the spindle is parted off in the chuck.
    const bool in_chuck = d.request.work.kind == BenchWorkKind::part_off &&
                          d.request.work.from > shop.machine(d.request.machine)->spindle_bore;
    REQUIRE((route || in_chuck));
    if (!route) {
      ++refused;
      continue;
    }
    ++planned;
    const RouteTimes times = times_of(*route, shop);
    for (const std::size_t k : cut->steps) {
      const StepTime* time = nullptr;
      const Step* step = step_like(times, *route, cut->step(k), time);
      REQUIRE(step != nullptr);
      same(cut->step(k), cut->time(k), *step, *time);
    }
  }
  INFO(planned << " planned");
  CHECK(planned > 790);
  CHECK(planned + refused == 1000);
}

TEST_CASE("what the card works out without a part is what the steps begin with", "[bench]") {
  Draws draws(17);
  int compared = 0;
  for (int i = 0; i < 400; ++i) {
    const Drawn d = drawn_cut(draws);
    const auto cut = bench_cut(d.request, shipped_shop());
    if (!cut) continue;
    const Step& step = cut->step(cut->steps.front());
    if (step.kind != StepKind::rough && step.kind != StepKind::drill) continue;
    INFO(d.request.work.text << " in " << d.request.material << " on " << d.request.machine);
    const BenchTask task = bench_task(*cut, step);
    const BenchConditions k = bench_conditions(task);
    CHECK(k.used.surface_speed.si == Approx(step.used.surface_speed.si).epsilon(1e-9));
    CHECK(k.used.feed.si == Approx(step.used.feed.si).epsilon(1e-9));
    if (!task.machine.ladder.empty()) CHECK(k.spindle.si == step.segments.front().spindle.si);
    ++compared;
  }
  CHECK(compared > 50);
}

TEST_CASE("what a cut takes is what the planner held against its limits", "[bench]") {
  const BenchCut cut = cut_of(request_of("42CrMo4 +QT", "50 to 42 x120", "CNC lathe, medium"));
  const Step& step = cut.step(cut.steps.front());
  const BenchTask task = bench_task(cut, step);
  const CutLoad load = cut_load(task.material, task.tool, step.used.depth, step.used.feed,
                                step.used.surface_speed, task.diameter);
  for (const LimitCheck& l : step.limits) {
    if (l.limit == LimitId::power) CHECK(load.power.si == Approx(l.actual));
    if (l.limit == LimitId::torque) CHECK(load.torque.si == Approx(l.actual));
  }
}

TEST_CASE("the rule of the bench is off by pi over 3, everywhere alike", "[bench]") {
  Draws draws(3);
  for (int i = 0; i < 100; ++i) {
    const Speed v(draws.real(0.1, 10));
    const Length d(draws.real(0.003, 0.5));
    const auto exact = figure::SpindleSpeed::work_out<>({v, d}).spindle_speed;
    const auto rule = figure::SpindleSpeedShopRule::work_out<>({v, d}).spindle_speed;
    CHECK((rule / exact).si - 1 == Approx(pi / 3 - 1));
  }
  CHECK(std::round(1000 * (pi / 3 - 1)) == 47);
}

TEST_CASE("inch and metric words of one cut are one cut", "[bench]") {
  const BenchCut metric = cut_of(request_of("C45", "50.8 to 44.45 x152.4", "geared lathe, medium"));
  const BenchCut inch = cut_of(request_of("C45", "2 in to 1-3/4 in x6 in", "geared lathe, medium"));
  CHECK(inch.request.work.inch);
  CHECK(metric.minutes().si == Approx(inch.minutes().si));
  CHECK(work_of("2 to 1-3/4 in x6").from == 50.8 * unit::mm);
  CHECK(work_of("2 to 1-3/4 x6", true).to == 44.45 * unit::mm);
}

TEST_CASE("what is set as usual costs nothing, what is too careful or too brave is said",
          "[bench]") {
  BenchRequest request = request_of("42CrMo4 +QT", "50 to 42 x120", "geared lathe, medium");
  const BenchCut usual = cut_of(request);
  const CutSegment& first = usual.step(usual.steps.front()).segments.front();
  request.at = BenchSettings{first.spindle, {}, first.feed, first.depth};
  const BenchAt same_again = *cut_of(request).at;
  CHECK(same_again.careful.empty());
  CHECK(same_again.brave.empty());
  CHECK(same_again.passes == same_again.usual_passes);
  CHECK(same_again.time.si == Approx(same_again.usual_time.si).epsilon(0.02));

  request.at = BenchSettings{200 * unit::rev_per_min, {}, 0.1 * unit::mm_per_rev, 1.0 * unit::mm};
  request.in_money = true;
  const BenchAt careful = *cut_of(request).at;
  CHECK(careful.passes == 4);
  CHECK(careful.careful.size() == 3);
  CHECK(careful.time > careful.usual_time);
  CHECK(careful.life > careful.usual_life);
  REQUIRE(careful.lost);

  request.at = BenchSettings{2000 * unit::rev_per_min, {}, 0.8 * unit::mm_per_rev, 4.0 * unit::mm};
  const BenchAt brave = *cut_of(request).at;
  CHECK(brave.life < brave.usual_life);
  CHECK(brave.brave.size() >= 3);
}

TEST_CASE("every kind of cut, set as usual, takes what is usual", "[bench]") {
  for (const char* work :
       {"50 to 42 x120", "face 60 to 20", "drill 18 x40", "ream 12 x30", "bore 40 to 60 x50",
        "groove 3 wide 40 to 34", "groove 9 wide 40 to 34", "part off 40", "thread M24x2 x30",
        "tap M10 x20", "knurl RGE 1.0 30 x20"}) {
    INFO(work);
    BenchRequest request = request_of("C45", work, "CNC lathe, medium");
    request.at = BenchSettings{};
    const BenchAt as_usual = *cut_of(request).at;
    CHECK(as_usual.passes == as_usual.usual_passes);
    CHECK(as_usual.time.si == Approx(as_usual.usual_time.si).epsilon(1e-9));
    CHECK(as_usual.life.si == Approx(as_usual.usual_life.si).epsilon(1e-9));
  }
}

TEST_CASE("the passes of a bore are timed at the diameters that they leave", "[bench]") {
  BenchRequest request = request_of("C45", "bore 40 to 60 x50", "CNC lathe, medium");
  request.at = BenchSettings{{}, 100 * unit::m_per_min, 0.2 * unit::mm_per_rev, 2.5 * unit::mm};
  const BenchCut cut = cut_of(request);
  const CutSegment& pass = cut.step(cut.steps.front()).segments.front();
  CHECK(cut.at->passes == 4);
  double minutes = 0;
  for (const double d : {45.0, 50.0, 55.0, 60.0})
    minutes += in(pass.path(), unit::mm) * pi * d / 1000 / 100 / 0.2;
  CHECK(in(cut.at->cutting, unit::min) == Approx(minutes).epsilon(1e-6));
}

TEST_CASE("what nobody sets at a lathe is refused", "[bench]") {
  for (const char* text :
       {"1e300 rev/min", "1e-300 rev/min", "1e12 mm", "1e6 mm/rev", "1e9 m/min"}) {
    TextFault fault;
    CHECK_FALSE(read_bench_settings(text, false, fault));
    CHECK(fault.what.id == "bench.setting-beyond-sense");
  }
}

TEST_CASE("a piece thicker than the spindle bore is parted off in the chuck, by the card's blade",
          "[bench]") {
  const Shop& shop = shipped_shop();
  const BenchCut cut = cut_of(request_of("C45", "part off 60", "geared lathe, medium"));
  CHECK(cut.operation().holder == Holder::chuck);
  CHECK(cut_of(request_of("C45", "part off 40", "geared lathe, medium")).operation().holder ==
        Holder::bar_in_collet);
  REQUIRE(60 * unit::mm > shop.machine("geared lathe, medium")->spindle_bore);
  CardRequest request;
  request.machine = "geared lathe, medium";
  request.materials = {"C45"};
  const SpeedCard card = speed_card(request, shop);
  for (const CardRow& row : card.rows)
    for (const CardCell& cell : row.cells)
      if (row.work == CardWork::parting && cell.possible) {
        CHECK(row.tool->reach >= cell.diameter / 2.0);
        if (abs(cell.diameter - 63 * unit::mm).si < same_point)
          CHECK(row.tool->name == cut.step(cut.steps.front()).tool);
      }
}

TEST_CASE("a slower spindle never saves time, a deeper cut never takes more passes", "[bench]") {
  BenchRequest request = request_of("C45", "60 to 50 x80", "geared lathe, heavy");
  Time before(0.0);
  for (const double n : {1120.0, 710.0, 355.0, 180.0, 90.0}) {
    request.at = BenchSettings{n * unit::rev_per_min, {}, 0.2 * unit::mm_per_rev, 2.5 * unit::mm};
    const Time now = cut_of(request).at->time;
    CHECK(now > before);
    before = now;
  }
  int passes = 1000;
  for (const double ap : {0.5, 1.0, 2.0, 3.0, 5.0}) {
    request.at = BenchSettings{{}, {}, {}, ap * unit::mm};
    const int now = cut_of(request).at->passes;
    CHECK(now <= passes);
    CHECK(now == static_cast<int>(std::ceil(5.0 / ap - 0.02)));
    passes = now;
  }
}

TEST_CASE("a cut that cannot be is refused with what was found", "[bench]") {
  CHECK(fault_of("50 to 60 x20").find("50 mm to 60 mm") != std::string::npos);
  CHECK(fault_of("bore 30 to 28 x20").find("bore") != std::string::npos);
  for (const char* text : {"0 to 0 x20", "50 to 42", "50 kg to 42 x20", "mill 20 x30", "drill x20",
                           "thread x20", "50 to 42 x0", "face", "part 40", "groove 3 40 to 34",
                           "50,5 to 42 x20", "50 to 42 x20 x30"})
    CHECK_FALSE(fault_of(text).empty());
  BenchRequest request = request_of("C45", "900 to 800 x20", "geared lathe, medium");
  const auto cut = bench_cut(request, shipped_shop());
  REQUIRE_FALSE(cut);
  CHECK_FALSE(english(cut.infeasible().why).empty());
  request.material = "C54";
  const auto unknown = unknown_in(request, shipped_shop());
  REQUIRE(unknown);
  CHECK_FALSE(unknown->suggestion.empty());
}

TEST_CASE("every kind of cut is planned on a manual and on a CNC lathe", "[bench]") {
  for (const char* machine : {"geared lathe, medium", "CNC lathe, medium"})
    for (const char* text :
         {"50 to 42 x60", "face 120 to 0", "face 100 to 40 x1", "drill 18 x40", "bore 30 to 32 x50",
          "groove 3 wide 40 to 34", "part off 40", "thread M24x2 x30", "ream 12 x30", "tap M10 x20",
          "knurl RGE 1.0 30 x20", "thread 1/2-20 UNF x1 in"}) {
      INFO(text << " on " << machine);
      const BenchCut cut = cut_of(request_of("C45", text, machine));
      CHECK(cut.minutes().si > 0);
      CHECK_FALSE(cut_text(cut, Words()).empty());
      CHECK_FALSE(cut_working_text(cut, Words()).empty());
    }
}

TEST_CASE("wishes are taken: tool, roughness, clamping, coolant, stick-out", "[bench]") {
  BenchRequest request = request_of("C45", "50 to 42 x60", "geared lathe, medium");
  const BenchCut carbide = cut_of(request);
  request.tool = "HSS";
  const BenchCut hss = cut_of(request);
  CHECK(hss.step(hss.steps.front()).grade == "hss");
  CHECK(hss.minutes() > carbide.minutes());
  request.tool.clear();
  request.ra = 1.6 * unit::um;
  const BenchCut fine = cut_of(request);
  CHECK(fine.steps.size() == 2);
  request.ra = Length(0.0);
  request.support = Support::chuck_and_centre;
  CHECK(cut_of(request).operation().support == Support::chuck_and_centre);
  request.support = Support::between_centres;
  CHECK(cut_of(request).operation().support == Support::between_centres);
  request.support = Support::chuck;
  request.stick_out = 150 * unit::mm;
  CHECK(cut_of(request).operation().stick_out.si == Approx(0.150));
  const BenchCut wet = cut_of(request);
  request.flood = false;
  const BenchCut dry = cut_of(request);
  CHECK(dry.step(0).used.surface_speed <= wet.step(0).used.surface_speed);
  request.interrupted = true;
  CHECK(cut_of(request).step(0).used.surface_speed < dry.step(0).used.surface_speed);
}

TEST_CASE("the card's cells are speeds of the lathe, nearest by the planner's rule", "[bench]") {
  const Shop& shop = shipped_shop();
  for (const Machine& machine : shop.machines) {
    CardRequest request;
    request.machine = machine.name;
    const SpeedCard card = speed_card(request, shop);
    CHECK(card.rows.size() > 5);
    for (const CardRow& row : card.rows)
      for (const CardCell& cell : row.cells) {
        if (!cell.possible || machine.ladder.empty()) continue;
        CHECK(std::find(machine.ladder.begin(), machine.ladder.end(), cell.spindle) !=
              machine.ladder.end());
        CHECK(cell.off_band == (std::abs(cell.deviation) > shop.practice.speed_band + 1e-9 &&
                                cell.exact <= machine.fastest && cell.exact >= machine.slowest));
      }
  }
}

TEST_CASE("a ladder of DIN 804 leaves no hole wider than its step, one with a gap does",
          "[bench]") {
  Shop shop = shipped_shop();
  std::erase_if(shop.machines, [](const Machine& m) { return m.name != "geared lathe, medium"; });
  auto holes = ladder_holes(shop);
  // R20/2: steps of 1.26, so the farthest is the share by which the next lower one is below.
  for (const LadderHole& hole : holes) CHECK(std::abs(hole.widest) < 0.22);
  auto& ladder = shop.machines.front().ladder;
  std::erase_if(ladder, [](Frequency n) {
    return n > 300 * unit::rev_per_min && n < 1300 * unit::rev_per_min;
  });
  holes = ladder_holes(shop);
  REQUIRE(holes.size() == 1);
  CHECK(std::abs(holes.front().widest) > 0.3);
}

TEST_CASE("any words of a cut are read or refused, and what is read is planned or refused",
          "[bench]") {
  const std::array words{"50",   "to",   "42",     "x120",  "face",   "drill", "18",  "x40",
                         "bore", "wide", "3",      "part",  "off",    "tap",   "M10", "x20",
                         "ream", "12",   "thread", "M24x2", "knurl",  "RGE",   "1.0", "groove",
                         "in",   "2",    "1-3/4",  "0.001", "x0.001", "NPT",   "1/2", "x1e9",
                         "-5",   "kg",   "",       "x",     "Tr40x7"};
  Draws draws(99);
  int read = 0, planned = 0;
  const auto any = [&] {
    return std::string(
        words[static_cast<std::size_t>(draws.whole(0, static_cast<int>(words.size()) - 1))]);
  };
  const std::array<std::vector<std::string>, 6> cuts{
      std::vector<std::string>{"50", "to", "42", "x20"},
      {"face", "50", "to", "0"},
      {"drill", "18", "x40"},
      {"groove", "3", "wide", "40", "to", "34"},
      {"tap", "M10", "x20"},
      {"knurl", "RGE", "1.0", "30", "x20"}};
  for (int i = 0; i < 3000; ++i) {
    auto cut_words = cuts[static_cast<std::size_t>(draws.whole(0, 5))];
    for (int n = draws.whole(0, 2); n > 0; --n)
      cut_words[static_cast<std::size_t>(draws.whole(0, static_cast<int>(cut_words.size()) - 1))] =
          any();
    std::string text;
    for (const std::string& word : cut_words) text += word + " ";
    TextFault fault;
    const auto work = read_bench_work(text, false, fault);
    CHECK(work.has_value() == fault.what.empty());
    if (!work) continue;
    ++read;
    BenchRequest request;
    request.material = "C45";
    request.work = *work;
    INFO(text);
    const auto cut = bench_cut(request, shipped_shop());
    planned += cut ? 1 : 0;
    if (cut) CHECK(std::isfinite(cut->minutes().si));
  }
  CHECK(read > 1000);
  CHECK(planned > 500);
  for (const char* text :
       {"0.001 to 0.0005 x0.001", "9999 to 1 x9999", "drill 0.0001 x1", "face 0.01 to 0",
        "groove 100 wide 40 to 34", "bore 0.1 to 9000 x1", "thread NPT 1/2 x20",
        "thread Tr40x7 x50", "thread M30x6(P2) LH x40", "50 to 49.9999 x0.01", "part off 300",
        "part off 0.5", "knurl RAA 1.0 30 x20", "tap M3 x500", "ream 7.77 x5"}) {
    INFO(text);
    TextFault fault;
    const auto work = read_bench_work(text, false, fault);
    if (!work) continue;
    BenchRequest request;
    request.material = "C45";
    request.work = *work;
    request.at =
        BenchSettings{300 * unit::rev_per_min, {}, 0.1 * unit::mm_per_rev, 0.01 * unit::mm};
    const auto cut = bench_cut(request, shipped_shop());
    if (cut) {
      CHECK_FALSE(cut_text(*cut, Words()).empty());
      CHECK_FALSE(cut_working_text(*cut, Words()).empty());
      CHECK_FALSE(cut_json(*cut).empty());
    } else {
      CHECK_FALSE(english(cut.infeasible().why).empty());
    }
  }
}
