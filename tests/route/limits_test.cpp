// SPDX-License-Identifier: MIT
// What a step says of its limits is so: worked out again from what is cut.
#include <algorithm>
#include <cmath>

#include "../support.hpp"
#include "turnwright/route/bench.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const LimitCheck* limit_of(const Step& step, LimitId id) {
  const auto found = std::find_if(step.limits.begin(), step.limits.end(),
                                  [&](const LimitCheck& l) { return l.limit == id; });
  return found == step.limits.end() ? nullptr : &*found;
}

bool turns(StepKind kind) {
  return kind == StepKind::rough || kind == StepKind::finish || kind == StepKind::face ||
         kind == StepKind::bore;
}

// Kienzle, by hand.
double power_of(const Material& m, const Tool& tool, double depth, double feed, double speed) {
  const double kappa = tool.lead_angle.si > 0 ? tool.lead_angle.si : pi / 2;
  const double kc = m.kc11.si * std::pow(feed * 1000 * std::sin(kappa), -m.mc);
  return kc * depth * feed * speed;
}

void check_feed(const Step& step, const Tool& tool) {
  const double feed = step.used.feed.si;
  if (const LimitCheck* l = limit_of(step, LimitId::tool_feed)) CHECK(l->actual == Approx(feed));
  if (const LimitCheck* l = limit_of(step, LimitId::least_feed)) CHECK(l->actual == Approx(feed));
  const LimitCheck* rough = limit_of(step, LimitId::roughness);
  if (rough == nullptr) return;
  const double k = shipped_shop().policy.roughness_factor;
  CHECK(rough->actual == Approx(k * feed * feed / (32 * tool.nose_radius.si)));
  CHECK((rough->actual <= rough->allowed * 1.000001 ||
         rough->changed == Remedy::finish_asks_for_less));
}

// No pass takes more than the lathe has, unless the step says so.
void check_power(const Route& r, const Step& step, const Tool& tool) {
  const LimitCheck* power = limit_of(step, LimitId::power);
  if (power == nullptr || power->actual > power->allowed * 1.000001) return;
  for (const CutSegment& s : step.segments) {
    if (s.motion != Motion::along || s.depth > step.used.depth * 1.000001) continue;
    const double n = s.constant_speed
                         ? s.spindle.si
                         : std::min(s.surface_speed.si / (pi * s.large_diameter.si), s.fastest.si);
    CHECK(power_of(r.job.material, tool, s.depth.si, s.feed.si, pi * s.large_diameter.si * n) <=
          power->allowed * 1.000001);
  }
}

void check_spindle(const Route& r, const Step& step) {
  const LimitCheck* spindle = limit_of(step, LimitId::spindle_speed);
  if (spindle == nullptr || r.machine.ladder.empty()) return;
  CHECK(std::any_of(r.machine.ladder.begin(), r.machine.ladder.end(),
                    [&](Frequency n) { return std::abs(n.si - spindle->actual) < 1e-9 * n.si; }));
}

}  // namespace

TEST_CASE("the limits of a step are those of what it cuts", "[route][limits][property]") {
  Draws draws(77);
  const char* materials[] = {"C45", "42CrMo4 +QT", "X5CrNi18-10", "CuZn39Pb3", "EN-GJL-250"};
  const char* machines[] = {"geared lathe, medium", "geared lathe, heavy", "CNC lathe, medium",
                            "geared lathe, small"};
  const char* finishes[] = {"0.4", "0.8", "1.6", "3.2", "6.3"};
  int planned = 0, ladder = 0;
  for (int i = 0; i < 160; ++i) {
    const int large = draws.whole(24, 110), small = large - draws.whole(2, 10);
    const bool bored = draws.whole(0, 2) == 0 && small > 40;
    const std::string text =
        std::string("part: {number: L}\nmaterial: ") + materials[draws.whole(0, 4)] +
        "\nstock: {round: " + std::to_string(large + draws.whole(2, 16)) +
        ", condition: hot rolled}\nquantities: [1]\noutside: [\"" + std::to_string(small) +
        " h8 x" + std::to_string(draws.whole(10, 60)) + ", Ra " + finishes[draws.whole(0, 4)] +
        "\", " + std::to_string(large) + " x" + std::to_string(draws.whole(20, 50)) + "]\n" +
        (bored ? "bore from right: [\"30 through, Ra 1.6\"]\n" : "");
    INFO(text);
    const auto part = read_part("l.yaml", text);
    REQUIRE(part);
    const auto job = prepare(*part, shipped_shop());
    if (!job) continue;
    const auto plan = plan_route(*job, shipped_shop(), {machines[draws.whole(0, 3)]});
    if (!plan) continue;
    ++planned;
    ladder += plan->machine.ladder.empty() ? 0 : 1;
    for (const Operation& o : plan->operations)
      for (const Step& step : o.steps) {
        const Tool* tool = shipped_shop().tool(step.tool);
        if (tool == nullptr || !turns(step.kind)) continue;
        INFO(step_label(o, step) << " on " << plan->machine.name);
        check_feed(step, *tool);
        check_power(*plan, step, *tool);
        check_spindle(*plan, step);
      }
  }
  CHECK(planned > 100);
  CHECK(ladder > 50);
}

TEST_CASE("a finish that the feed box is too coarse for is said, not claimed", "[route][limits]") {
  Shop shop = shipped_shop();
  for (Machine& m : shop.machines)
    if (m.manual()) m.feeds = {0.1 * unit::mm, 0.2 * unit::mm, 0.3 * unit::mm};
  const Job job = job_of(
      "part: {number: R}\nmaterial: C45\nstock: {round: 46}\nquantities: [1]\n"
      "outside: [\"40 h7 x80, Ra 0.4\"]\n",
      shop);
  const auto r = plan_route(job, shop, {"geared lathe, heavy"});
  REQUIRE(r);
  bool missed = false;
  for (const Operation& o : r->operations)
    for (const Step& s : o.steps)
      if (const LimitCheck* l = limit_of(s, LimitId::roughness);
          l != nullptr && l->changed == Remedy::finish_asks_for_less) {
        missed = true;
        CHECK(l->actual > l->allowed);
      }
  CHECK(missed);
  CHECK(std::any_of(r->cautions.begin(), r->cautions.end(),
                    [](const Message& m) { return m.id == "steps.too-rough"; }));
}
