// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string random_part(Draws& d) {
  const char* materials[] = {"C45",         "42CrMo4 +QT",   "11SMn30",
                             "X5CrNi18-10", "EN AW-6082 T6", "CuZn39Pb3"};
  std::string text = "part: {number: R}\nmaterial: " + std::string(materials[d.whole(0, 5)]) +
                     "\nquantities: [1, 20]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside:\n";
  // Rising to the middle, falling after it; sometimes a cone, a groove, a relief.
  const int n = d.whole(2, 6), top = d.whole(0, n - 1);
  std::vector<int> diameter(static_cast<std::size_t>(n));
  int at = d.whole(24, 40);
  for (int i = 0; i <= top; ++i) diameter[static_cast<std::size_t>(i)] = at += d.whole(2, 10);
  for (int i = top + 1; i < n; ++i)
    diameter[static_cast<std::size_t>(i)] = std::max(20, at -= d.whole(2, 10));
  int pos = 0;
  for (int i = 0; i < n; ++i) {
    const int length = i == top ? d.whole(30, 50) : d.whole(12, 40);
    std::string item = std::to_string(diameter[static_cast<std::size_t>(i)]);
    if (d.whole(0, 2) == 0) item += d.whole(0, 1) ? " h7" : " k6";
    item += " x" + std::to_string(length);
    if (i < top && d.whole(0, 3) == 0) item += ", relief F left";
    if (d.whole(0, 3) == 0 && length > 14)
      item += ", groove 3 wide 1 deep at " + std::to_string(pos + 6);
    if (i == 0) item += ", chamfer 1x45 right";
    text += "  - " + item + "\n";
    pos += length;
  }
  return text;
}

// One of the messages says this in English.
bool says(const Messages& messages, const std::string& text) {
  return std::any_of(messages.begin(), messages.end(),
                     [&](const Message& m) { return english(m).find(text) != std::string::npos; });
}

}  // namespace

TEST_CASE("fits that are finished before hardening or a coat are a doubt", "[route]") {
  const auto doubts = [](const std::string& element, const std::string& work) {
    const Job job = job_of("part: {number: X}\nmaterial: C45\noutside: [" + element +
                           ", 40 x60]\nother work: [" + work + "]\n");
    std::string ids;
    for (const Message& m : job.cautions)
      if (m.id == "prepare.hardened-after" || m.id == "prepare.coated-after") ids += m.id + " ";
    return ids;
  };
  const std::string fit = "25 h6 x40", hard = "prepare.hardened-after ",
                    coat = "prepare.coated-after ";
  CHECK(doubts(fit, "'hardened 58 HRC, 3 EUR'") == hard);
  CHECK(doubts(fit, "'zinc plated 12 um, 2 EUR'") == coat);
  CHECK(doubts(fit, "'hardened, 3 EUR', 'gehärtet, 3 EUR'") == hard + hard);
  CHECK(doubts("M20x1.5 x40", "'zinc plated, 2 EUR'") == coat);
  CHECK(doubts("M20x1.5 x40", "'hardened, 2 EUR'").empty());
  CHECK(doubts("25 x40", "'zinc plated, 2 EUR'").empty());
  CHECK(doubts("{diameter: 25 h6, length: 40, leave: 0.3}", "'hardened, 2 EUR'").empty());
  CHECK(doubts(fit, "{what: hardened, price: 3, after: roughing}").empty());
  CHECK(doubts(fit, "'marked, 2 EUR'").empty());
}

TEST_CASE("material adds up on 400 random parts, or the region is named", "[route][audit]") {
  Draws draws(11);
  int planned = 0;
  double worst = 0;
  for (int i = 0; i < 400; ++i) {
    const std::string text = random_part(draws);
    const auto part = read_part("r.yaml", text);
    INFO(text << problems_text(part.problems()));
    REQUIRE(part);
    const auto job = prepare(*part, shipped_shop());
    INFO(problems_text(job.problems()));
    REQUIRE(job);
    const auto planned_route = plan_route(
        *job, shipped_shop(),
        {i % 3 == 0 ? "geared lathe, medium" : "CNC lathe, medium", MethodKind::rough_then_finish});
    if (!planned_route) {
      const std::string why = english(planned_route.infeasible().why);
      INFO(why);
      CHECK_FALSE(why.empty());
      CHECK(why.find("volumes do not add up") == std::string::npos);
      continue;
    }
    const Route& r = *planned_route;
    ++planned;
    worst = std::max(worst, r.audit.imbalance);
    Volume sum(0.0);
    for (const Operation& s : r.operations)
      for (const Step& step : s.steps) {
        CHECK(step.removed.si >= 0);
        sum += step.removed;
      }
    CHECK(sum.si == Approx((r.audit.stock - r.audit.part + r.audit.features).si).epsilon(1e-9));
  }
  INFO("planned " << planned << " worst " << worst);
  CHECK(planned == 400);
  CHECK(worst < 1e-9);
}

TEST_CASE("nothing is cut where the jaws are", "[route][clamping]") {
  Draws draws(12);
  int checked = 0;
  for (int i = 0; i < 150; ++i) {
    const auto job = prepare(*read_part("r.yaml", random_part(draws)), shipped_shop());
    REQUIRE(job);
    const auto r = plan_route(*job, shipped_shop(), {});
    if (!r) continue;
    for (const Operation& s : r->operations)
      for (const Step& step : s.steps)
        for (const CutSegment& p : step.segments) {
          const Length low = min(p.from.z, p.to.z), high = max(p.from.z, p.to.z);
          CHECK((high.si <= s.grip_from.si + 1e-9 || low.si >= s.grip_to.si - 1e-9));
          ++checked;
        }
  }
  CHECK(checked > 1000);
}

TEST_CASE("with the centre in, the face is cut before and not after", "[route][support]") {
  const Route r = route_of(shaft());
  for (const Operation& s : r.operations) {
    if (s.support != Support::chuck_and_centre) continue;
    REQUIRE(s.steps.size() >= 3);
    CHECK(s.steps[0].kind == StepKind::face);
    CHECK(s.steps[1].kind == StepKind::centre);
    for (std::size_t i = 2; i < s.steps.size(); ++i) CHECK(s.steps[i].kind != StepKind::face);
  }
}

TEST_CASE("a longer free length gets more support", "[route][support]") {
  auto support = [](int length) {
    const Route r = route_of(
        "part: {number: S}\nmaterial: C45\nquantities: [1]\ndrawing: {Ra: 3.2}\noutside:\n  - 36 "
        "h6 x" +
        std::to_string(length) + "\n  - 50 x40\n");
    // The operation in which the seat is turned.
    return std::pair(r.operations.back().support, r.operations.back().free_ratio);
  };
  CHECK(support(60).first == Support::chuck);
  CHECK(support(190).first == Support::chuck_and_centre);
  CHECK(support(400).first == Support::chuck_and_centre);
  const Route slender = route_of(
      "part: {number: S}\nmaterial: C45\nquantities: [1]\noutside:\n  - 36 h6 x500\n  - 50 x40\n");
  CHECK(says(slender.cautions, "steady"));
}

TEST_CASE("between three and five diameters stiffness decides on the centre", "[route][support]") {
  // 36 by 150 stands out 4.2 diameters: a fit bends too much without a centre, a rough size does
  // not when the cut is light, and steel bends less than aluminium.
  auto support = [](const char* size, const char* material, int stock) {
    const Route r = route_of(std::string("part: {number: S}\nmaterial: ") + material +
                             "\nstock: {round: " + std::to_string(stock) +
                             ", condition: drawn}\nquantities: [1]\noutside:\n  - " + size +
                             " x138\n  - 38 x40\n");
    const Operation& s = *std::max_element(
        r.operations.begin(), r.operations.end(),
        [](const Operation& x, const Operation& y) { return x.free_ratio < y.free_ratio; });
    INFO(size << " free " << s.free_ratio << ": " << english(s.why));
    CHECK((s.free_ratio > 3 && s.free_ratio < 5));
    CHECK_THAT(english(s.why), Catch::Contains("3 to 5"));
    return s.support;
  };
  CHECK(support("36 h6", "C45", 40) == Support::chuck_and_centre);
  CHECK(support("36", "C45", 40) == Support::chuck);
  CHECK(support("35 h7", "EN AW-6082 T6", 40) == Support::chuck_and_centre);
}

TEST_CASE("a tie across operations is a caution with 100 % check; without it there is none",
          "[route][clamping]") {
  const Route tied = route_of(shaft());
  CHECK(std::any_of(tied.operations.begin(), tied.operations.end(),
                    [](const Operation& s) { return s.check_all && s.jaws == Jaws::soft; }));
  const Route free = route_of(shaft("42CrMo4 +QT", "{round: 55, condition: hot rolled}",
                                    "30 k6 x42, Ra 0.8, relief F",
                                    "35 h6 x110, Ra 0.8, relief F, chamfer 1x45 left"));
  CHECK(std::none_of(free.operations.begin(), free.operations.end(),
                     [](const Operation& s) { return s.check_all; }));
  const Route same = route_of(
      "part: {number: S}\nmaterial: C45\nquantities: [1]\noutside:\n  - 30 k6 x42, seat A\n  - 35 "
      "h6 x30, runout 0.02 to A\n  - 50 x40\n");
  CHECK(std::none_of(same.operations.begin(), same.operations.end(),
                     [](const Operation& s) { return s.check_all; }));
}

TEST_CASE("a tie finer than soft jaws hold is turned between centres", "[route][clamping]") {
  for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"}) {
    const Route r =
        route_of(shaft("42CrMo4 +QT", "{round: 55, condition: hot rolled}",
                       "30 k6 x42, Ra 0.8, relief F, seat A",
                       "35 h6 x110, Ra 0.8, relief F, runout 0.01 to A, chamfer 1x45 left"),
                 machine);
    REQUIRE(r.operations.size() == 4);
    CHECK(r.operations[0].steps.size() == 2);
    for (const Operation& s : r.operations)
      for (const Step& step : s.steps)
        if (step.kind == StepKind::finish) CHECK(s.support == Support::between_centres);
    CHECK(r.audit.imbalance < 1e-9);
  }
}

TEST_CASE("a geared lathe only runs steps it has, constant in a pass", "[route][limits]") {
  const Route r = route_of(shaft(), "geared lathe, medium");
  const auto& ladder = r.machine.ladder;
  for (const Operation& s : r.operations)
    for (const Step& step : s.steps)
      for (const CutSegment& p : step.segments) {
        CHECK(p.constant_speed);
        CHECK(std::find_if(ladder.begin(), ladder.end(),
                           [&](Frequency n) { return n.si == p.spindle.si; }) != ladder.end());
        // Never above the wanted surface speed by more than the band, but where the slowest step is
        // too fast.
        if (p.spindle > ladder.front())
          CHECK((pi * p.large_diameter * p.spindle).si <=
                p.surface_speed.si * (1 + shipped_shop().policy.ladder_band + 1e-9));
        CHECK(std::find_if(r.machine.feeds.begin(), r.machine.feeds.end(), [&](Length f) {
                return std::abs(f.si - p.feed.si) < 1e-12;
              }) != r.machine.feeds.end());
      }
}

TEST_CASE("no spindle runs faster than machine and chuck allow", "[route][limits]") {
  const Route r = route_of(
      "part: {number: S}\nmaterial: EN AW-6082 T6\nstock: {round: 20, condition: "
      "drawn}\nquantities: [1]\noutside:\n  - 12 x20\n  - 18 x20\n");
  for (const Operation& s : r.operations)
    for (const Step& step : s.steps)
      for (const CutSegment& p : step.segments)
        CHECK(p.fastest.si <= std::min(r.machine.fastest.si, r.machine.chuck.rated_speed.si));
}

TEST_CASE("discs and flanged shafts are held on little, and it is said", "[route][clamping]") {
  for (const char* outside : {"80 x20", "100 x15, chamfer 1x45 both", "60 x10 | 30 x80",
                              "30 x80 | 60 x10", "200 h7 x40 | 120 x30"}) {
    INFO(outside);
    const Route r =
        route_of(std::string("part: {number: D}\nmaterial: C45\nquantities: [1]\noutside: \"") +
                 outside + "\"\n");
    CHECK(r.audit.imbalance < 1e-9);
    CHECK(says(r.cautions, "grips only"));
  }
}

TEST_CASE("a grade finer than the machine holds is said", "[route][limits]") {
  auto cautions = [](const char* machine) { return route_of(shaft(), machine).cautions; };
  CHECK(says(cautions("geared lathe, medium"), "finer than the IT7"));
  CHECK_FALSE(says(cautions("CNC lathe, medium"), "finer than the IT7"));
}

TEST_CASE("one nominal size with different fits is one contour", "[route]") {
  const Route r = route_of(
      "part: {number: F}\nmaterial: C45\nquantities: [1]\noutside: \"37 x41 | 20 x40 | 20 k6 x14 | "
      "20 h7 x29\"\n");
  CHECK(r.audit.imbalance < 1e-9);
}

TEST_CASE("a Morse taper has its standard's size", "[route]") {
  // ISO 296: Morse 3 is 23.825 mm at the gauge line, 1:19.922. From memory.
  const Part p =
      part_of("part: {number: M}\nmaterial: C45\noutside:\n  - Morse 3 x60\n  - 40 x40\n");
  CHECK(in(p.outside[0].left_size.nominal, unit::mm) == Approx(23.825));
  CHECK(in(p.outside[0].size.nominal, unit::mm) == Approx(23.825 - 60 / 19.922));
}

TEST_CASE("a part too big names the limit and the machine that takes it", "[route][limits]") {
  const Job job = job_of(
      "part: {number: B}\nmaterial: C45\nstock: {round: 300, condition: hot rolled}\nquantities: "
      "[1]\noutside:\n  - 250 x300\n  - 290 x700\n");
  const auto r =
      plan_route(job, shipped_shop(), {"CNC lathe, medium", MethodKind::rough_then_finish});
  REQUIRE_FALSE(r);
  CHECK_THAT(english(r.infeasible().why),
             Catch::Contains("longer") || Catch::Contains("swing") || Catch::Contains("heavier"));
  CHECK(r.infeasible().remedies ==
        Messages{{"plan.try-machine", {{"machine", "geared lathe, heavy"}}}});
}

TEST_CASE("stock: too small is a problem with the next size, off the list is a caution",
          "[route][stock]") {
  const auto small =
      prepare(part_of(shaft("C45", "{round: 45, condition: hot rolled}")), shipped_shop());
  REQUIRE_FALSE(small);
  CHECK_THAT(problems_text(small.problems()),
             Catch::Contains("at least 52 mm") || Catch::Contains("next size is 52"));
  const Job odd = job_of(shaft("C45", "{round: 54, condition: hot rolled}"));
  CHECK(says(odd.cautions, "52 mm and 55 mm"));
  const Job own = job_of(shaft("C45", "auto"));
  CHECK(in(own.stock.diameter, unit::mm) == Approx(52));
}

TEST_CASE("what is not planned yet says so, and takes the time given", "[route]") {
  const std::string bare =
      "part: {number: T}\nmaterial: C45\nquantities: [1]\noutside:\n  - M24x2 x7\n  - 40 x40\n";
  const auto refused = prepare(part_of(bare), shipped_shop());
  REQUIRE_FALSE(refused);
  CHECK_THAT(problems_text(refused.problems()),
             Catch::Contains("part.yaml:5:5") && Catch::Contains("allow 6 min"));
  const Route r = route_of(
      "part: {number: T}\nmaterial: C45\nquantities: [1]\noutside:\n  - M24x2 x30, allow 6 min\n  "
      "- 40 x40\n");
  int given = 0;
  for (const Operation& s : r.operations)
    for (const Step& step : s.steps)
      if (step.given) {
        ++given;
        CHECK(step.given->si == 360);
      }
  CHECK(given == 1);
  CHECK_FALSE(r.cautions.empty());
}

TEST_CASE("an unknown material names its neighbours and the like form", "[route]") {
  const auto job =
      prepare(part_of("part: {number: T}\nmaterial: 42CrMo5\noutside: [40 x40]\n"), shipped_shop());
  REQUIRE_FALSE(job);
  CHECK_THAT(problems_text(job.problems()),
             Catch::Contains("42CrMo4+A") && Catch::Contains("like:"));
  const Route like = route_of(
      "part: {number: T}\nmaterial: {like: 42CrMo4, hardness: 250 HB, price: 3 "
      "EUR/kg}\nquantities: [1]\noutside: [40 x40]\n");
  CHECK(like.job.material.hardness.mean() == 250);
}

TEST_CASE("cones, arcs, fillets and rounds are planned and add up", "[route][audit]") {
  const Route r = route_of(
      "part: {number: C}\nmaterial: C45\nquantities: [1]\ndrawing: {Ra: 3.2}\noutside:\n  - 20 "
      "x15, round R1 right, fillet R2 left\n  - cone 30 to 40 x25\n  - 40 x10\n"
      "  - arc R60 to 48 x14\n  - 60 x40, chamfer 2x30 left\n  - cone 50 x20 half angle 5 deg\n");
  CHECK(r.audit.imbalance < 1e-9);
}

TEST_CASE("bar work is parted off and has one operation", "[route]") {
  const Route r = route_of(
      "part: {number: B}\nmaterial: CuZn39Pb3\nstock: {round: 35, condition: drawn h11, fed from: "
      "bar}\nquantities: [1]\noutside:\n  - 28 x25, chamfer 1x45\n  - 34 x5, chamfer 0.5x45 "
      "left\n");
  REQUIRE(r.operations.size() == 1);
  CHECK(r.operations[0].steps.back().kind == StepKind::part_off);
  CHECK(r.machine.bar_fed);
}

TEST_CASE("a drawn end that nobody cuts is held in one operation", "[route]") {
  const Route r = route_of(
      "part: {number: D}\nmaterial: C45\nstock: {round: 40, condition: drawn}\nfaces: {left: as "
      "sawn}\nquantities: [1]\noutside:\n  - 30 x20\n  - 40 as drawn x60\n");
  CHECK(r.operations.size() == 1);
}

TEST_CASE("two finish cuts are decided by skin and by stock on a side", "[route][methods]") {
  auto part = [](const char* stock) {
    return std::string("part: {number: W}\nmaterial: C45\nstock: ") + stock +
           "\nquantities: [1]\ndrawing: {Ra: 3.2}\noutside:\n  - 50 h8 x60\n  - 50 h8 x40\n";
  };
  auto plan = [&](const char* stock) {
    return plan_route(job_of(part(stock)), shipped_shop(), {"", MethodKind::two_finish_cuts});
  };
  CHECK(plan("{round: 52, condition: drawn}"));                 // 1.0 per side
  CHECK(plan("{round: 53.8, condition: drawn}"));               // 1.9 per side
  const auto too_much = plan("{round: 55, condition: drawn}");  // 2.5 per side
  REQUIRE_FALSE(too_much);
  CHECK_THAT(english(too_much.infeasible().why), Catch::Contains("three cuts, or a tool good for"));
  const auto skin = plan("{round: 52, condition: hot rolled}");
  REQUIRE_FALSE(skin);
  CHECK_THAT(english(skin.infeasible().why), Catch::Contains("skin"));
}

TEST_CASE("what helps is one message each, and none is empty", "[route][messages]") {
  const auto r =
      plan_route(job_of("part: {number: M}\nmaterial: C45\nquantities: [1]\noutside: [40 "
                        "x60, arc R30 to 50 x15, 50 x50]\n"),
                 shipped_shop(), {"geared lathe, medium", {}});
  REQUIRE_FALSE(r);
  CHECK(r.infeasible().remedies.size() == 3);
  for (const Message& remedy : r.infeasible().remedies) CHECK_FALSE(english(remedy).empty());
}

TEST_CASE("clampings, passes and steps are named from the facts", "[route][messages]") {
  Operation operation;
  operation.number = 20;
  Step step;
  step.number = 10;
  CHECK(step_label(operation, step) == "20.10");
  CHECK(english(clamping_of(operation)) == "chuck");
  operation.holder = Holder::four_jaw_chuck;
  operation.support = Support::chuck_and_centre;
  operation.steady = true;
  CHECK(english(clamping_of(operation)) == "four-jaw chuck and centre, steady rest");
  CHECK(passes_of(step).empty());
  step.segments.resize(5);
  step.segments[1].starts_pass = step.segments[2].starts_pass = false;
  step.segments[4].starts_pass = false;
  const auto passes = passes_of(step);
  REQUIRE(passes.size() == 2);
  CHECK(passes[0].size() == 3);
  CHECK(passes[1].size() == 2);
}

TEST_CASE("the methods of the planner read back from the words of their files", "[route]") {
  CHECK(method_kind_named("two finish cuts") == MethodKind::two_finish_cuts);
  CHECK(method_kind_named("between centres") == MethodKind::between_centres);
  CHECK_FALSE(method_kind_named("two-finish-cuts"));
}
