// SPDX-License-Identifier: MIT
// The path of grooving tools, swept by their front: it leaves the part as it is drawn.
#include <algorithm>
#include <cmath>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// How much higher than its lowest the front of a tool is at a distance from its side.
double front(const Tool& tool, double from_side) {
  const double nose = tool.nose_radius.si, in = std::max(0.0, nose - from_side);
  return nose - std::sqrt(std::max(0.0, nose * nose - in * in));
}

/// What the tools of a kind of step leave: the lowest radius swept, place by place.
class Swept {
 public:
  Swept(const Route& route, Length from, Length to) : from_(from.si), low_(places, 1.0) {
    step_ = (to.si - from.si) / (places - 1);
    for (const Operation& o : route.operations)
      for (const Step& s : o.steps)
        if (s.kind == StepKind::groove)
          for (const CutSegment& pass : s.segments)
            sweep(*shipped_shop().tool(s.tool), pass, o.from_left);
  }
  template <class Visit>
  void each(Visit visit) const {
    for (int i = 1; i + 1 < places; ++i) visit(Length(from_ + i * step_), low_[i]);
  }

 private:
  static constexpr int places = 1500, on_path = 120;

  void sweep(const Tool& tool, const CutSegment& pass, bool from_left) {
    const double w = tool.width.si;
    for (int k = 0; k <= on_path; ++k) {
      const double t = static_cast<double>(k) / on_path;
      const double corner = pass.from.z.si + t * (pass.to.z - pass.from.z).si;
      const double r = pass.from.r.si + t * (pass.to.r - pass.from.r).si;
      const double left = from_left ? corner : corner - w;
      for (int i = 0; i < places; ++i) {
        const double x = from_ + i * step_ - left;
        if (x < -1e-9 || x > w + 1e-9) continue;
        low_[i] = std::min(low_[i], r + front(tool, std::min(x, w - x)));
      }
    }
  }

  double from_ = 0, step_ = 0;
  std::vector<double> low_;
};

std::string ring(const std::string& groove) {
  return "part: {number: G}\nmaterial: C45\nstock: {round: 105}\nquantities: [1]\noutside: [\"100 "
         "x100, " +
         groove + "\"]\nbore from right: [25 through]\n";
}

}  // namespace

TEST_CASE("grooving tools leave a groove as it is drawn", "[route][groove]") {
  for (const char* groove :
       {"V-groove 38 deg 13 wide 10 deep at 20", "V-groove 38 deg 13 wide 13.8 deep at 20",
        "V-groove 90 deg 20 wide 4 deep at 20", "V-groove 60 deg 12 wide 3 deep at 20",
        "groove 3 wide 5 deep at 20", "groove 14 wide 6 deep at 20", "groove 20 wide 2 deep at 20",
        "round groove R6 at 20", "round groove R4 at 20", "round groove R2 at 20"})
    for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"}) {
      INFO(groove << " on " << machine);
      const Route r = route_of(ring(groove), machine);
      const double top = 0.05;
      double too_deep = 0, too_high = 0;
      Swept(r, -41 * unit::mm, -19 * unit::mm).each([&](Length z, double low) {
        const double part = std::max(r.job.finished.left_of(z), r.job.finished.right_of(z)).si;
        const double floor = std::min(r.job.finished.left_of(z), r.job.finished.right_of(z)).si;
        if (low < 1) too_deep = std::max(too_deep, floor - low);
        if (part < top - 1e-6) too_high = std::max(too_high, low - part);
      });
      // Corners keep the radius of the tool; a step of the sweep on a steep wall is some
      // hundredths.
      CHECK(too_deep < 0.08e-3);
      CHECK(too_high < 0.9e-3);  // an arc is swept along its chord
    }
}

TEST_CASE("a groove is cut in one clamping", "[route][groove]") {
  for (const char* groove :
       {"V-groove 38 deg 13 wide 10 deep at 8", "groove 8 wide 4 deep at 12"}) {
    const Route r = route_of(std::string("part: {number: G}\nmaterial: C45\nstock: {round: 105, "
                                         "condition: hot rolled}\nquantities: [1]\noutside: [\"100 "
                                         "x30, ") +
                                 groove + "\"]\nbore from right: [25 H7 through]\n",
                             "CNC lathe, medium");
    REQUIRE(r.operations.size() > 1);
    int clampings = 0;
    for (const Operation& o : r.operations)
      clampings += std::any_of(o.steps.begin(), o.steps.end(),
                               [](const Step& s) { return s.kind == StepKind::groove; });
    INFO(groove);
    CHECK(clampings == 1);
  }
}

TEST_CASE("a groove in the floor of a neck is cut by a tool that it takes", "[route][groove]") {
  const Route r = route_of(
      "part: {number: N}\nmaterial: C45\nstock: {round: 50}\nquantities: [1]\noutside: [46 x45, "
      "\"23 x17, O-ring 3.0 at 53\", 46 x25]\n",
      "CNC lathe, medium");
  const Interval ring{-56.9 * unit::mm, -53.1 * unit::mm};
  bool cut = false;
  for (const Operation& o : r.operations)
    for (const Step& s : o.steps) {
      const Length low = s.work_after.largest(ring.from, ring.to);
      const bool made = s.kind == StepKind::groove && s.from <= ring.from && s.to >= ring.to &&
                        low < 11.4 * unit::mm;
      if (!made || cut) continue;
      cut = true;
      CHECK(shipped_shop().tool(s.tool)->width <= 4 * unit::mm);
    }
  CHECK(cut);
}

TEST_CASE("the flanks of a V are cut by hand with the compound slide, and timed",
          "[route][groove]") {
  const std::string text = ring("V-groove 38 deg 13 wide 10 deep at 20");
  const Route by_hand = route_of(text, "geared lathe, medium");
  const Route cnc = route_of(text, "CNC lathe, medium");
  const auto cautioned = [](const Route& r) {
    return std::any_of(r.cautions.begin(), r.cautions.end(),
                       [](const Message& m) { return m.id == "steps.flanks-by-compound-slide"; });
  };
  CHECK(cautioned(by_hand));
  CHECK_FALSE(cautioned(cnc));
  const auto tried = [](const Route& r) {
    int cones = 0;
    for (const OperationTime& o : times_of(r, shipped_shop()).operations)
      for (const ElementTime& e : o.setup_elements)
        cones += e.id == ElementId::setup_compound_slide ? e.count : 0;
    return cones;
  };
  CHECK(tried(by_hand) == 2);
  CHECK(tried(cnc) == 0);
}

TEST_CASE("a round groove that no tool has the radius of is refused by hand", "[route][groove]") {
  const auto plan =
      plan_route(job_of(ring("round groove R7 at 10")), shipped_shop(), {"geared lathe, medium"});
  REQUIRE_FALSE(plan);
  CHECK(english(plan.infeasible().why).find("round") != std::string::npos);
  CHECK(plan_route(job_of(ring("round groove R7 at 10")), shipped_shop(), {"CNC lathe, medium"}));
}

TEST_CASE("before the rear edge the parting tool plunges down to it through the bar",
          "[route][groove]") {
  const Route r = route_of(
      "part: {number: E}\nmaterial: C45\nstock: {round: 36, condition: drawn, fed from: bar}\n"
      "quantities: [1]\noutside: [30 x20, \"22 x20, chamfer 1x45 left\"]\n",
      "CNC lathe, medium");
  const Step* edge = nullptr;
  const Step* parting = nullptr;
  for (const Step& s : r.operations.front().steps) {
    if (s.kind == StepKind::groove) edge = &s;
    if (s.kind == StepKind::part_off) parting = &s;
  }
  REQUIRE(edge != nullptr);
  REQUIRE(parting != nullptr);
  const CutSegment& plunge = edge->segments.front();
  CHECK(in(plunge.from.r, unit::mm) == Approx(18));
  CHECK(in(plunge.to.r, unit::mm) == Approx(10));
  CHECK(plunge.from.z == -40 * unit::mm);
  // Then up the edge of 1 x 45 degrees, from its outside to its foot.
  const CutSegment& slope = edge->segments.back();
  CHECK(in(slope.cut, unit::mm) == Approx(std::sqrt(2.0)));
  CHECK(in(slope.from.r, unit::mm) == Approx(11).margin(0.2));
  CHECK(in(parting->segments.front().from.r, unit::mm) == Approx(10));
  CHECK(r.audit.imbalance < 1e-9);
}

TEST_CASE("a lathe worked by hand grooves at a third of its turning speed", "[route][groove]") {
  const auto groove = [](const char* machine) {
    const Route r = route_of(ring("groove 6 wide 4 deep at 20"), machine);
    for (const Operation& o : r.operations)
      for (const Step& s : o.steps)
        if (s.kind == StepKind::groove) return s;
    return Step();
  };
  const Step by_hand = groove("geared lathe, medium"), cnc = groove("CNC lathe, medium");
  CHECK(by_hand.used.surface_speed < 0.5 * cnc.used.surface_speed);
  CHECK(by_hand.used.feed <= 0.1 * unit::mm_per_rev);
  CHECK(by_hand.used.feed >= shipped_shop().tool(by_hand.tool)->least_feed);
}

TEST_CASE("what the centre holds is threaded by a single point, not by a die", "[route][thread]") {
  const auto tool = [](const std::string& rod) {
    const Route r = route_of(
        "part: {number: D}\nmaterial: C45\nstock: {round: 16, condition: drawn}"
        "\nquantities: [1]\noutside: [\"M12 x20\", \"14 x" +
            rod + "\"]\n",
        "geared lathe, medium");
    for (const Operation& o : r.operations)
      for (const Step& s : o.steps)
        if (s.kind == StepKind::thread)
          return std::pair(o.support, shipped_shop().tool(s.tool)->kind);
    return std::pair(Support::chuck, ToolKind::rough);
  };
  CHECK(tool("15") == std::pair(Support::chuck, ToolKind::die));
  const auto [support, kind] = tool("180");
  CHECK(support == Support::chuck_and_centre);
  CHECK(kind == ToolKind::thread);
}

TEST_CASE("a thread steeper than a standard holder leans is said to be so", "[route][thread]") {
  const auto steep = [](const std::string& thread) {
    const Route r = route_of(
        "part: {number: L}\nmaterial: C45\nstock: {round: 45}\nquantities: [1]"
        "\noutside: [\"" +
            thread + " x40, undercut DIN 76-A\", 40 x40]\n",
        "CNC lathe, medium");
    return std::any_of(r.cautions.begin(), r.cautions.end(),
                       [](const Message& m) { return m.id.starts_with("steps.steep-"); });
  };
  // atan(18 / (pi 29)) = 11.2 degrees; of one start 3.8.
  CHECK(steep("Tr32x18(P6)"));
  CHECK_FALSE(steep("Tr32x6"));
}

TEST_CASE("a close bore that no bar reaches is reamed, where that is near enough",
          "[route][ream]") {
  const auto last = [](const std::string& bore) {
    const auto r = plan_route(
        job_of(
            "part: {number: B}\nmaterial: C45\nstock: {round: 38, condition: drawn}\nquantities: "
            "[1]\ndrawing: {general: ISO 2768-m}\noutside: [30 x20, 35 x15, 30 x20]\n"
            "bore from right: [\"" +
            bore + "\"]\n"),
        shipped_shop(), {"CNC lathe, medium"});
    if (!r) return std::string(english(r.infeasible().why));
    std::string kind;
    for (const Operation& o : r->operations)
      for (const Step& s : o.steps)
        if (s.kind == StepKind::bore || s.kind == StepKind::ream) kind = name_of(s.kind);
    return kind;
  };
  CHECK(last("16 through, Ra 1.6") == "ream");
  CHECK(last("15.875 +0.025/0 through, Ra 1.6") == "ream");  // 5/8 in
  CHECK(last("16 H7 through") == "ream");
  CHECK(last("20 through, Ra 1.6") == "bore");
  // A reamer of 16 leaves more than a size in minus has.
  CHECK(last("16 0/-0.02 through, Ra 1.6") != "ream");
}

TEST_CASE("a taper by the tailstock set over runs between two centres", "[route][cone]") {
  const std::string pin =
      "part: {number: P}\nmaterial: C45\nstock: {round: 30, condition: drawn}\nquantities: [1]\n"
      "outside: [cone 20 x200 taper 1:50, 28 x30]\n";
  const Route r = route_of(pin, "geared lathe, medium");
  bool turned = false;
  for (const Operation& o : r.operations)
    for (const Step& s : o.steps)
      if (s.kind == StepKind::finish || s.kind == StepKind::rough) {
        CHECK(o.support == Support::between_centres);
        turned = true;
      }
  CHECK(turned);
  CHECK(english(r.job.surfaces.front().name) == "cone 20 taper 1:50 x200");
  // A through bore leaves it no centres.
  CHECK_FALSE(plan_route(job_of(pin + "bore from right: [8 through]\n"), shipped_shop(),
                         {"geared lathe, medium"}));
}

TEST_CASE("a taper that has a mate is gauged like a thread, an ordinary cone is looked at",
          "[route][cone]") {
  const auto share = [](const std::string& cone) {
    return job_of("part: {number: C}\nmaterial: C45\nquantities: [1]\noutside: [\"" + cone +
                  "\", 45 x40]\n")
        .surfaces.front()
        .gauge_share;
  };
  const double as_thread = share("M30 x30");
  CHECK(share("cone 30 x30 taper 1:10") == as_thread);
  CHECK(share("cone 30 to 40 x30, seat A") == as_thread);
  CHECK(share("cone 30 to 40 x30") < 0);
}
