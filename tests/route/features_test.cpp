// SPDX-License-Identifier: MIT
// Every turned feature, on random parts, with a checker that knows only the rules of the trade.
#include <algorithm>
#include <cmath>
#include <map>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SANITIZED
#endif
#endif
#if defined(SANITIZED) || defined(__SANITIZE_ADDRESS__)
constexpr int many = 600;
#else
constexpr int many = 10000;
#endif

struct Random {
  std::string text;
  bool bored = false, threaded = false, knurled = false;
};

std::string number(int n) { return std::to_string(n); }

// A part with a little of everything: cones, arcs, reliefs, grooves, threads, knurls, bores from
// both faces with steps, grooves and threads, bar, tube, hexagon and castings.
Random random_part(Draws& d) {
  Random r;
  const char* materials[] = {"C45",           "42CrMo4 +QT", "11SMn30",   "X5CrNi18-10",
                             "EN AW-6082 T6", "CuZn39Pb3",   "EN-GJL-250"};
  const bool casting = d.whole(0, 9) == 0, bar = !casting && d.whole(0, 4) == 0;
  std::string outside;
  int pos = 0, widest = 0, narrowest = 1000;
  const int n = bar ? 2 : d.whole(2, 5), top = d.whole(0, n - 1);
  int at = d.whole(24, 44);
  for (int i = 0; i < n; ++i) {
    at = i == 0 ? at : i <= top ? at + d.whole(3, 12) : std::max(20, at - d.whole(3, 12));
    const int length =
        i == top ? d.whole(bar ? 16 : 34, bar ? 25 : 60) : d.whole(16, bar ? 20 : 40);
    std::string item = number(at) + " x" + number(length);
    const int kind = d.whole(0, 11);
    if (i < top && kind == 0) {
      item = "M" + number(at / 2 * 2) + "x2-6g x" + number(length) + ", undercut DIN 76-A";
      r.threaded = true;
    } else if (kind == 1) {
      item += ", knurl RGE 1.0";
      r.knurled = true;
    } else if (kind == 2) {
      item = number(at) + " h7 x" + number(length) + ", Ra 0.8";
    } else if (kind == 3 && length > 14) {
      static constexpr const char* forms[]{", groove 3 wide 1 deep at ", ", round groove R2 at ",
                                           ", V-groove 90 deg 5 wide 1 deep at "};
      item += forms[d.whole(0, 2)] + number(pos + 6);
    } else if (kind == 4 && i < top) {
      item += ", relief F left";
    } else if (kind == 5 && i > 0 && i < n - 1) {
      item = "cone " + number(at) + " to " + number(at + 2) + " x" + number(length);
      at += 2;
    } else if (kind == 6 && i < top) {
      item += ", fillet R1 left";
    } else if (kind == 7 && length > 20) {
      item += ", O-ring 3 at " + number(pos + 8);
    }
    if (i == 0) item += ", chamfer 1x45 right";
    outside += "  - \"" + item + "\"\n";
    pos += length;
    widest = std::max(widest, at);
    narrowest = std::min(narrowest, at);
  }
  // Bores that leave a wall.
  std::string bores;
  const int room = narrowest - 10;
  if (d.whole(0, 2) > 0 && room >= 8) {
    r.bored = true;
    const int hole = d.whole(6, room);
    // What bars and reamers reach through.
    const bool deep = pos > 3 * std::min(hole, room - 6);
    const int kind = d.whole(0, 6);
    switch (deep && (kind == 1 || kind == 4 || kind == 6) ? 2 : kind) {
      case 0:
        bores = "bore from right: [\"" + number(hole) + " through\"]\n";
        break;
      case 1:
        bores = "bore from right: [\"" + number(hole) + " H7 through, chamfer 1x45 both\"]\n";
        break;
      case 2:
        bores = "bore from right: [\"" + number(hole) + " H8 x" + number(d.whole(8, 30)) +
                ", chamfer 0.5x45\"]\n";
        break;
      case 3:
        bores = "bore from right: [\"" + number(std::max(hole, 12)) + " H7 x12, flat\"]\n";
        break;
      case 4:
        bores = "bore from right: [\"" + number(room) + " H7 x10\", \"" +
                number(std::max(5, room - 6)) + " through\"]\n";
        break;
      case 5:
        bores = "bore from right: [\"M" + number(std::min(room, 8) / 2 * 2) + " x10\"]\n";
        if (!bar) bores += "bore from left: [\"" + number(hole) + " x8, chamfer 0.5x45\"]\n";
        break;
      default:
        bores = "bore from right: [\"" + number(std::max(hole, 18)) +
                " H7 through, groove 3 wide " + (d.whole(0, 1) ? "1" : "1.5") + " deep at 9\"]\n";
        if (std::max(hole, 18) > room - 3) bores.clear(), r.bored = false;
    }
  }
  std::string stock = "auto";
  if (casting) stock = "{casting: 3}";
  if (bar) stock = "{round: " + number(widest + 4) + ", condition: drawn, fed from: bar}";
  if (!casting && !bar && d.whole(0, 12) == 0)
    stock = "{hexagon: " + number(widest + 2) + ", condition: drawn}";
  const int material = casting ? 6 : d.whole(0, 5);
  r.text = "part: {number: R}\nmaterial: " + std::string(materials[material]) +
           "\nstock: " + stock +
           "\nquantities: [1, 20]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside:\n" + outside +
           bores;
  if (d.whole(0, 7) == 0 && narrowest >= 34 && bores.empty())
    r.text +=
        "faces: {right: \"machined, groove 3 wide 2 deep from " + number(narrowest - 9) + "\"}\n";
  return r;
}

int place_of(const Operation& s, StepKind kind) {
  for (std::size_t i = 0; i < s.steps.size(); ++i)
    if (s.steps[i].kind == kind) return static_cast<int>(i);
  return -1;
}

// The rules that any turner would check on a step sheet, without the planner's help.
std::string broken_rule(const Route& r) {
  for (const Operation& s : r.operations) {
    int number = 0;
    for (const Step& step : s.steps) {
      if (step.number != ++number) return "steps are not counted from 1";
      if (step.removed.si < -1e-15) return "a step adds material";
      const bool inside = step.kind == StepKind::drill || step.kind == StepKind::bore ||
                          step.kind == StepKind::ream || step.kind == StepKind::tap;
      for (const CutSegment& p : step.segments) {
        const Length low = min(p.from.z, p.to.z), high = max(p.from.z, p.to.z);
        const bool in_bore = inside || step.kind == StepKind::chamfer ||
                             max(p.from.r, p.to.r) < s.grip_diameter / 2.0 - Length(1e-3);
        if (!in_bore && s.support != Support::between_centres &&
            high > s.grip_from + Length(1e-9) && low < s.grip_to - Length(1e-9))
          return std::string(name_of(step.kind)) + " cuts where the jaws are";
        if (p.feed.si <= 0 || p.large_diameter.si <= 0) return "a segment without feed or diameter";
        if (p.constant_speed && p.spindle > p.fastest * (1 + 1e-9)) return "too fast a spindle";
      }
    }
    const int face = place_of(s, StepKind::face), drill = place_of(s, StepKind::drill),
              rough = place_of(s, StepKind::rough), finish = place_of(s, StepKind::finish),
              thread = place_of(s, StepKind::thread), knurl = place_of(s, StepKind::knurl),
              tap = place_of(s, StepKind::tap), part = place_of(s, StepKind::part_off);
    if (face > 0) return "something before the face";
    if (drill >= 0 && face > drill) return "drilled before it is faced";
    if (thread >= 0 && (thread < rough || thread < finish)) return "a thread before its blank";
    if (knurl >= 0 && finish >= 0 && knurl > finish) return "knurled after finishing";
    if (knurl >= 0 && knurl < rough) return "knurled before roughing";
    if (tap >= 0 && tap < drill) return "tapped before it is drilled";
    if (part >= 0 && part + 1 != static_cast<int>(s.steps.size())) return "work after parting";
    // With its centre drawn back a piece is parted beside the jaws, up to a length.
    if (part >= 0 && s.support == Support::chuck_and_centre &&
        s.free_ratio > shipped_shop().practice.parting_ratio)
      return "parted off at a centre";
    if (s.support == Support::chuck && s.free_ratio > 5) return "free above five without a centre";
  }
  return "";
}

// The id of a reason; of what an operation or a machine refuses, the reason within.
std::string reason_id(const Message& why) {
  for (const Place& place : why.places)
    if (const auto* inner = std::get_if<Messages>(&place.value);
        inner != nullptr && !inner->empty())
      return why.id + " " + inner->front().id;
  return why.id;
}

}  // namespace

TEST_CASE("random parts with every feature add up and keep the rules", "[route][features]") {
  Draws draws(505);
  int planned = 0, bored = 0, threaded = 0, knurled = 0;
  std::map<std::string, int> refused;
  double worst = 0;
  for (int i = 0; i < many; ++i) {
    const Random random = random_part(draws);
    const auto part = read_part("r.yaml", random.text);
    INFO(random.text << problems_text(part.problems()));
    REQUIRE(part);
    const auto job = prepare(*part, shipped_shop());
    if (!job) {
      // Only what a person would refuse too.
      ++refused[job.problems().front().what.id];
      continue;
    }
    const char* machines[] = {"", "CNC lathe, medium", "geared lathe, heavy"};
    const auto plan =
        plan_route(*job, shipped_shop(), {machines[i % 3], MethodKind::rough_then_finish});
    if (!plan) {
      const Message& why = plan.infeasible().why;
      INFO(english(why));
      REQUIRE(english(why).find("add up") == std::string::npos);
      ++refused[reason_id(why)];
      continue;
    }
    const Route& r = *plan;
    ++planned;
    bored += random.bored;
    threaded += random.threaded;
    knurled += random.knurled;
    worst = std::max(worst, r.audit.imbalance);
    const std::string broken = broken_rule(r);
    if (!broken.empty()) INFO(broken);
    REQUIRE(broken == "");
  }
  for (const auto& [why, count] : refused) WARN(count << " refused: " << why);
  WARN(planned << " planned, " << bored << " bored, " << threaded << " threaded, " << knurled
               << " knurled; worst imbalance " << worst);
  CHECK(worst < 1e-9);
  CHECK(planned > many * 8 / 10);
  CHECK(bored > planned / 3);
}

TEST_CASE("a feature more never takes less machine time", "[route][features][property]") {
  auto minutes = [](const std::string& first, const std::string& bore, const std::string& more) {
    const Route r = route_of("part: {number: F}\nmaterial: C45\nquantities: [1]\n" + more +
                                 "outside:\n  - \"" + first + "\"\n  - 40 x15\n  - 50 x34\n" + bore,
                             "CNC lathe, medium");
    return times_of(r, shipped_shop()).machine_each.si;
  };
  const double plain = minutes("30 x40", "", "");
  for (const char* first :
       {"30 x40, groove 3 wide 1 deep at 10", "30 x40, circlip at 12", "30 x40, O-ring 3 at 10",
        "30 x40, V-groove 60 deg 5 wide 2 deep at 10", "30 x40, round groove R2 at 10",
        "30 x40, chamfer 1x45", "30 x40, relief F", "30 h7 x40, Ra 0.8",
        "M30x2 x40, undercut DIN 76-A", "30 x40, knurl RAA 1.0", "30 x40, fillet R2"}) {
    INFO(first);
    CHECK(minutes(first, "", "") > plain - 1e-9);
  }
  const double drilled = minutes("30 x40", "bore from right: [10 x20]\n", "");
  CHECK(drilled > plain);
  for (const char* bore : {"10 x30", "10 H7 x20", "10 x20, chamfer 1x45", "20 H7 through",
                           "26 H7 through, groove 3 wide 1 deep at 12", "M12 x20"}) {
    INFO(bore);
    CHECK(minutes("30 x40", "bore from right: [\"" + std::string(bore) + "\"]\n", "") > drilled);
  }
  CHECK(minutes("30 x40", "", "faces: {right: \"machined, groove 3 wide 2 deep from 18\"}\n") >
        plain);
}

TEST_CASE("a V to a point is cut by a form tool, in one plunge where it has the angle of the V",
          "[route][features]") {
  const auto grooves = [](const std::string& vee) {
    const Route r =
        route_of("part: {number: V}\nmaterial: C45\nquantities: [1]\noutside:\n  - \"40 x40, " +
                     vee + " at 15\"\n  - 50 x40\n",
                 "CNC lathe, medium");
    CHECK(r.audit.imbalance < 1e-9);
    std::vector<Step> found;
    for (const Operation& o : r.operations)
      for (const Step& s : o.steps)
        if (s.kind == StepKind::groove) found.push_back(s);
    return found;
  };
  const auto right = grooves("V-groove 90 deg 3 deep");
  REQUIRE(right.size() == 1);
  CHECK(right[0].tool == "V form tool 90 deg");
  REQUIRE(right[0].segments.size() == 1);
  // To the floor in the middle of the V: at 15, 6 wide, 3 deep.
  CHECK(in(-right[0].segments[0].to.z, unit::mm) == Approx(18));
  CHECK(in(right[0].segments[0].to.r, unit::mm) == Approx(17));
  // What is pi (20^2 - r^2) of a triangle 6 wide, 3 deep, its centroid at r = 19.
  CHECK(right[0].removed.si * 1e9 == Approx(2 * pi * 19 * 9).epsilon(1e-6));
  const auto wider = grooves("V-groove 100 deg 3 deep");
  REQUIRE(wider.size() == 1);
  CHECK(wider[0].tool == "V form tool 90 deg");
  CHECK(wider[0].segments.size() == 2);
  CHECK(grooves("V-groove 60 deg 2 deep")[0].tool == "V form tool 60 deg");
  // With a floor that a grooving tool fits it is plunged as before.
  CHECK(grooves("V-groove 90 deg 8 wide 2 deep")[0].tool == "grooving tool 4");
}

TEST_CASE("a chamfer deeper than the step beside it is said to be so", "[route][features]") {
  const auto part = [](const std::string& chamfer) {
    return "part: {number: E}\nmaterial: C45\nquantities: [1]\noutside:\n  - 38 x20\n  - \"40 "
           "x30, " +
           chamfer + "\"\n";
  };
  const auto drawn = read_part("x.yaml", part("chamfer 3x30 right below step"));
  REQUIRE(drawn);
  const auto job = prepare(*drawn, shipped_shop());
  REQUIRE(job);
  // Down to below Ø37 right behind the step, where a plain one has no room.
  CHECK(in(job->finished.left_of(-20.0 * unit::mm), unit::mm) == Approx(20 - std::sqrt(3.0)));
  CHECK(in(job->finished.right_of(-20.0 * unit::mm), unit::mm) == Approx(19));
  const auto plain = read_part("x.yaml", part("chamfer 3x30 right"));
  REQUIRE(plain);
  CHECK_FALSE(prepare(*plain, shipped_shop()));
  CHECK(route_of(part("chamfer 3x30 right below step"), "CNC lathe, medium").audit.imbalance <
        1e-9);
}

TEST_CASE("holes are opened as the trade does", "[route][bore]") {
  auto kinds = [](const std::string& bore, const std::string& machine = "CNC lathe, medium") {
    const Route r = route_of(
        "part: {number: B}\nmaterial: C45\nquantities: [1]\noutside: [60 x60]\n"
        "bore from right: [\"" +
            bore + "\"]\n",
        machine);
    std::string text;
    for (const Operation& s : r.operations)
      for (const Step& step : s.steps)
        if (step.kind != StepKind::face && step.kind != StepKind::rough &&
            step.kind != StepKind::finish)
          text += std::string(text.empty() ? "" : ", ") + name_of(step.kind);
    return text;
  };
  // Solid carbide, the CNC's own, starts itself; a twist drill wants a centre.
  const std::string manual = "geared lathe, medium";
  CHECK(kinds("10 x30") == "drill");
  CHECK(kinds("10 x30", manual) == "centre, drill");
  CHECK(kinds("10 H7 x30") == "drill, ream");
  CHECK(kinds("10 H7 x30", manual) == "centre, drill, ream");
  CHECK(kinds("M10 x20") == "drill, tap");
  CHECK(kinds("M30x2 x20") == "drill, thread");
  CHECK(kinds("30 H7 through") == "drill, bore, bore");
  CHECK(kinds("30 H7 through", manual) == "centre, drill, drill, bore, bore");
  CHECK(kinds("12 x30, chamfer 1x45") == "drill, chamfer");
  CHECK(kinds("24 H7 x30, flat") == "drill, bore, bore");
  CHECK(kinds("26 H7 through, circlip at 20") == "drill, bore, bore, groove");
}

TEST_CASE("a narrow hole behind a wide one counts from the bottom of the wide one",
          "[route][bore]") {
  const Route r = route_of(
      "part: {number: B}\nmaterial: C45\nquantities: [1]\noutside: [40 x90]\n"
      "bore from right: [\"20 x40\", \"6 x30\"]\n",
      "CNC lathe, medium");
  std::vector<const Step*> drills;
  for (const Step& s : r.operations[0].steps)
    if (s.kind == StepKind::drill) drills.push_back(&s);
  REQUIRE(drills.size() == 2);
  CHECK(drills[0]->segments[0].large_diameter > drills[1]->segments[0].large_diameter);
  CHECK(in(-drills[1]->segments[0].from.z, unit::mm) == Approx(40));
  CHECK(r.audit.imbalance < 1e-9);
}

TEST_CASE("a deep hole is pecked, slower and with less feed", "[route][bore]") {
  auto drilling = [](int depth) {
    const Route r = route_of(
        "part: {number: B}\nmaterial: C45\nquantities: [1]\noutside: [40 x90]\n"
        "bore from right: [\"10 x" +
            std::to_string(depth) + "\"]\n",
        "geared lathe, medium");
    for (const Step& s : r.operations[0].steps)
      if (s.kind == StepKind::drill) return s;
    return Step{};
  };
  const Step shallow = drilling(20), deep = drilling(75);
  CHECK(shallow.segments.at(0).pecks == 0);
  CHECK(deep.segments.at(0).pecks == 5);
  // Speed and feed by depth over diameter, a drill reference guide: 0.62 and 0.8 at 6 and more.
  CHECK((deep.used.surface_speed / shallow.used.surface_speed).si == Approx(0.62));
  CHECK((deep.used.feed / shallow.used.feed).si == Approx(0.8));
  const auto r = plan_route(job_of("part: {number: B}\nmaterial: C45\nquantities: [1]\noutside: "
                                   "[40 x150]\nbore from right: [\"10 x120\"]\n"),
                            shipped_shop(), {"CNC lathe, medium", MethodKind::rough_then_finish});
  REQUIRE_FALSE(r);
  CHECK_THAT(english(r.infeasible().why), Catch::Contains("12 × D"));
}

TEST_CASE("threads: depth, passes and run-out as published", "[route][thread][evidence]") {
  // 60 degree depth 17/24 H = 0.61343 P, Machinery's Handbook; passes by pitch of a tool maker's
  // catalogue 2019-20, p. 404, general type: 1.0 5, 1.5 7, 2.0 9, 3.0 14.
  TextFault fault;
  for (const auto& [pitch, passes] : {std::pair{1.0, 5}, {1.5, 7}, {2.0, 9}, {3.0, 14}}) {
    const auto t = read_thread("M40x" + shortest(pitch), fault);
    REQUIRE(t);
    CHECK(in(t->depth(false), unit::mm) == Approx(0.61343 * pitch).epsilon(1e-4));
    CHECK(shipped_shop().standards.thread_passes.at(t->pitch) == passes);
  }
  const Route r = route_of(
      "part: {number: T}\nmaterial: 42CrMo4 +QT\nquantities: [1]\noutside: "
      "[\"M24x2-6g x32, undercut DIN 76-A\", 30 x60]\n",
      "CNC lathe, medium");
  const Step* step = nullptr;
  for (const Operation& s : r.operations)
    for (const Step& k : s.steps)
      if (k.kind == StepKind::thread) step = &k;
  REQUIRE(step != nullptr);
  REQUIRE(passes_of(*step).size() == 10);  // nine and one without infeed
  // The first cut weighs 0.3: about 0.24 mm of 1.23 in nine passes (a catalogue 2020-21, p. 1733).
  CHECK(in(step->segments[0].depth, unit::mm) == Approx(0.223).margin(0.005));
  CHECK(step->segments.back().depth.si == 0);
  Length sum(0.0);
  for (const CutSegment& p : step->segments) {
    CHECK(p.feed == 2.0 * unit::mm);
    CHECK(p.constant_speed);
    sum = sum + p.depth;
  }
  // From the blank, 0.075 a side under the major diameter.
  CHECK(in(sum, unit::mm) == Approx(0.61343 * 2 - 0.075).epsilon(1e-3));
}

TEST_CASE("threads are tapped, cut with a die or with a point as they suit", "[route][thread]") {
  auto tool = [](const std::string& thread, const std::string& machine, bool inside) {
    const Route r = route_of("part: {number: T}\nmaterial: C45\nquantities: [1]\noutside: [" +
                                 std::string(inside ? "60 x60" : "\"" + thread + "\", 60 x60") +
                                 "]\n" + (inside ? "bore from right: [\"" + thread + "\"]\n" : ""),
                             machine);
    for (const Operation& s : r.operations)
      for (const Step& k : s.steps)
        if (k.kind == StepKind::thread || k.kind == StepKind::tap) return k.tool;
    return std::string();
  };
  const char *cnc = "CNC lathe, medium", *manual = "geared lathe, medium";
  CHECK(tool("M12 x30, undercut DIN 76-A", cnc, false) == "threading tool 60 deg");
  CHECK(tool("M12 x30, undercut DIN 76-A", manual, false) == "dies");
  CHECK(tool("M12x1 LH x30, undercut DIN 76-A", manual, false) == "threading tool 60 deg");
  CHECK(tool("Tr40x7 x60, undercut DIN 76-A", cnc, false) == "threading tool 30 deg");
  CHECK(tool("G1 x40, undercut DIN 76-A", cnc, false) == "threading tool 55 deg");
  CHECK(tool("M12 x20", cnc, true) == "taps");
  CHECK(tool("M36x2 x30", cnc, true) == "inside threading tool 60 deg");
  CHECK(tool("1/2-13 UNC x20", cnc, true) == "inch taps");
}

TEST_CASE("a multi-start thread advances by its lead, once for each start", "[route][thread]") {
  const Route r = route_of(
      "part: {number: T}\nmaterial: C45\nquantities: [1]\noutside: [\"M30x6(P2) "
      "x40, undercut 8 wide to 26\", 40 x60]\n",
      "CNC lathe, medium");
  for (const Operation& s : r.operations)
    for (const Step& k : s.steps)
      if (k.kind == StepKind::thread) {
        CHECK(passes_of(k).size() == 30);
        CHECK(k.used.feed == 6.0 * unit::mm);
      }
}

TEST_CASE("flats, tubes and castings are bought by their own weight", "[route][stock]") {
  const Job hexagon = job_of(
      "part: {number: H}\nmaterial: C45\nstock: {hexagon: 24}\nquantities: "
      "[1]\noutside: [20 x30, hexagon 24 x12]\n");
  CHECK(hexagon.stock.section.si == Approx(std::sqrt(3.0) / 2 * 0.024 * 0.024));
  CHECK(in(hexagon.stock.diameter, unit::mm) == Approx(27.713).epsilon(1e-4));
  const Job tube = job_of(
      "part: {number: U}\nmaterial: C45\nstock: {tube: 70x12}\nquantities: "
      "[1]\noutside: [66 x50]\nbore from right: [48 H7 through]\n");
  CHECK(in(tube.stock.bore, unit::mm) == Approx(46));
  const Route bored = route_of(
      "part: {number: U}\nmaterial: C45\nstock: {tube: 70x12}\nquantities: "
      "[1]\noutside: [66 x50]\nbore from right: [48 H7 through]\n");
  for (const Operation& s : bored.operations)
    for (const Step& k : s.steps) CHECK(k.kind != StepKind::drill);
  const Route cast = route_of(
      "part: {number: C}\nmaterial: EN-GJL-250\nstock: {casting: "
      "3.5}\nquantities: [1]\noutside: [160 h7 x5, 260 x28, 110 x50]\nbore "
      "from right: [70 H7 through]\n",
      "geared lathe, heavy");
  // Hub 117, flange 267, spigot 167 over their grown lengths, less the cored 63 through.
  const double grown = pi / 4 *
                       (0.117 * 0.117 * 0.050 + 0.267 * 0.267 * 0.035 + 0.167 * 0.167 * 0.005 -
                        0.063505 * 0.063505 * 0.090);
  CHECK(cast.audit.stock.si == Approx(grown).epsilon(0.01));
  for (const Operation& s : cast.operations) {
    CHECK(s.four_jaw);
    for (const Step& k : s.steps) CHECK(k.kind != StepKind::drill);
  }
}

TEST_CASE("a knurl starts below its size and its blank is rough turned", "[route][knurl]") {
  // DIN 82, RGE: d - 0.67 t (from memory).
  const Job job = job_of(
      "part: {number: K}\nmaterial: C45\nquantities: [1]\noutside: [\"38 x15, knurl "
      "RGE 1.0\", 50 x40]\n");
  CHECK(in(job.surfaces[0].diameter(), unit::mm) == Approx(38 - 0.67).epsilon(1e-9));
  const Route r = route_of(
      "part: {number: K}\nmaterial: C45\nquantities: [1]\noutside: [\"38 x15, "
      "knurl RGE 1.0\", 50 x40]\n");
  int knurls = 0;
  for (const Operation& s : r.operations)
    for (const Step& k : s.steps) knurls += k.kind == StepKind::knurl;
  CHECK(knurls == 1);
}

TEST_CASE("a manual lathe refuses what only a contour control turns", "[route][limits]") {
  const std::string head = "part: {number: M}\nmaterial: C45\nquantities: [1]\noutside: ";
  auto on = [&](const std::string& outside, const char* machine) {
    return plan_route(job_of(head + outside + "\n"), shipped_shop(),
                      {machine, MethodKind::rough_then_finish});
  };
  const char* arc = "[40 x60, arc R30 to 50 x15, 50 x50]";
  CHECK(on(arc, "CNC lathe, medium"));
  CHECK_THAT(english(on(arc, "geared lathe, medium").infeasible().why),
             Catch::Contains("arc of 30 mm"));
  CHECK(on("[cone 40 to 45 x60, 60 x60]", "geared lathe, medium"));
  CHECK_THAT(english(on("[cone 20 to 60 x180, 70 x60]", "geared lathe, medium").infeasible().why),
             Catch::Contains("compound slide"));
}

TEST_CASE("other work after roughing splits the route", "[route][other work]") {
  const Route r = route_of(
      "part: {number: O}\nmaterial: C45\nquantities: [10]\nother work: [{what: stress relieve, "
      "price: "
      "4.50, after: roughing}]\noutside: [30 h7 x40, 40 x30, 50 x40, 35 h7 x60]\n",
      "CNC lathe, medium");
  REQUIRE(r.operations.size() == 4);
  for (std::size_t i = 0; i < 4; ++i)
    for (const Step& k : r.operations[i].steps) {
      if (i < 2) CHECK(k.kind != StepKind::finish);
      if (i >= 2) CHECK((k.kind != StepKind::rough && k.kind != StepKind::face));
    }
  CHECK(r.audit.imbalance < 1e-9);
}

TEST_CASE("a sharp corner is refused with the radius that would do", "[route][limits]") {
  const auto r =
      plan_route(job_of("part: {number: N}\nmaterial: C45\nquantities: [1]\noutside: [\"30 "
                        "x40, fillet R0.3\", 50 x40]\n"),
                 shipped_shop(), {"CNC lathe, medium", MethodKind::rough_then_finish});
  REQUIRE_FALSE(r);
  CHECK_THAT(english(r.infeasible().why), Catch::Contains("nose radius"));
  CHECK_THAT(english(r.infeasible().remedies.front()), Catch::Contains("0.3 mm"));
}

TEST_CASE("a bush true to its bore is turned on a mandrel", "[route][clamping]") {
  auto part = [](const char* tie) {
    return std::string(
               "part: {number: M}\nmaterial: C45\nquantities: [20]\nstock: {round: 60, "
               "condition: drawn}\ndrawing: {Ra: 3.2}\noutside: [40 x30, \"55 x20\", \"45 h6 x25, "
               "Ra 0.8") +
           tie + "\"]\nbore from right: [\"25 H7 through, seat A\"]\n";
  };
  const Route tied = route_of(part(", runout 0.01 to A"), "CNC lathe, medium");
  REQUIRE(tied.operations.size() == 2);
  CHECK(tied.operations[1].mandrel);
  CHECK_FALSE(tied.operations[1].check_all);
  CHECK_THAT(english(tied.tie_rests_on), Catch::Contains("mandrel"));
  CHECK(tied.audit.imbalance < 1e-9);
  const Route free = route_of(part(""), "CNC lathe, medium");
  CHECK_FALSE(free.operations[1].mandrel);
  CHECK(tied.open_ties.empty());
  const Route finer = route_of(part(", runout 0.005 to A"), "CNC lathe, medium");
  REQUIRE(finer.open_ties.size() == 1);
  CHECK_THAT(english(finer.open_ties[0].clamping), Catch::Contains("mandrel"));
  CHECK(finer.open_ties[0].times == Approx(2));
}

TEST_CASE("what is turned in one clamping is as true as the spindle runs", "[route][clamping]") {
  auto open = [](const char* more) {
    const std::string text =
        "part: {number: M}\nmaterial: C45\nquantities: [20]\nstock: {round: 40, condition: drawn, "
        "fed from: bar}\ndrawing: {Ra: 3.2}\noutside: [\"20 h7 x20, seat A\", \"30 h7 x20, " +
        std::string(more) + "\"]\n";
    return route_of(text, "CNC lathe, medium").open_ties;
  };
  CHECK(open("runout 0.003 to A").empty());
  REQUIRE(open("coaxial 0.002 to A").size() == 1);
  CHECK_THAT(english(open("coaxial 0.002 to A")[0].clamping), Catch::Contains("one clamping"));
  // What is left for the grinder is his.
  CHECK(open("coaxial 0.002 to A, leave 0.3").empty());
}

TEST_CASE("what is larger than the chuck goes on the face plate or to another lathe",
          "[route][clamping]") {
  const std::string text =
      "part: {number: F}\nmaterial: EN-GJL-250\nquantities: [1]\nstock: {casting: 4}\ndrawing: "
      "{Ra: "
      "6.3}\noutside: [210 x20, 220 x20, 210 x40]\nbore from right: [60 H7 through]\n";
  const Route r = route_of(text, "geared lathe, medium");
  CHECK(r.operations[0].face_plate);
  CHECK(r.operations[0].holder == Holder::face_plate);
  const auto cnc = plan_route(job_of(text), shipped_shop(),
                              {"CNC lathe, medium", MethodKind::rough_then_finish});
  REQUIRE_FALSE(cnc);
  CHECK_THAT(english(cnc.infeasible().why), Catch::Contains("chuck of 200 mm"));
}

TEST_CASE("a slender plain shaft gets a follow rest, bright bar a collet", "[route][clamping]") {
  const Route slender =
      route_of("part: {number: L}\nmaterial: C45\nquantities: [1]\noutside: [20 h9 x280, 30 x30]\n",
               "geared lathe, medium");
  CHECK(slender.operations[0].follow);
  auto holder = [](const char* condition) {
    return route_of(
               std::string("part: {number: B}\nmaterial: C45\nquantities: [1]\nstock: {round: 30, "
                           "fed from: bar, condition: ") +
                   condition + "}\noutside: [26 x30]\n",
               "CNC lathe, bar fed")
        .operations[0]
        .holder;
  };
  CHECK(holder("drawn") == Holder::bar_in_collet);
  CHECK(holder("hot rolled") == Holder::bar_in_chuck);
}
