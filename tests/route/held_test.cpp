// SPDX-License-Identifier: MIT
// What a turner would not hold so. The parts are invented, the rules common practice.
#include <algorithm>
#include <set>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

constexpr const char* flange =
    "part: {number: H-1}\nmaterial: S355J2\nstock: {round: 165, condition: hot rolled}\n"
    "quantities: [10]\ndrawing: {general: ISO 2768-m, Ra: 6.3}\n"
    "outside: [\"100 f7 x6, Ra 1.6, seat A, chamfer 1x45 right\", \"160 x20, chamfer 1x45 both\"]\n"
    "bore from right: [\"60 H7 through, Ra 1.6, runout 0.03 to A, chamfer 1x45 both\"]\n";
// Larger across than long: less is held of it than usual.
constexpr const char* hub =
    "part: {number: H-2}\nmaterial: C45\nstock: {round: 90, condition: hot rolled}\n"
    "quantities: [1]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\n"
    "outside: [\"55 x35, chamfer 1x45 right\", \"85 h7 x20, Ra 1.6, chamfer 1x45 both\"]\n"
    "bore from right: [\"35 H7 through, Ra 1.6, chamfer 1x45 both\"]\n";

bool works_inside(const Step& s) {
  return s.kind == StepKind::chamfer || s.kind == StepKind::bore || s.kind == StepKind::drill;
}
bool inside_is_worked(const Operation& o) {
  return std::any_of(o.steps.begin(), o.steps.end(), works_inside);
}

}  // namespace

TEST_CASE("nothing gets into a bore that a mandrel fills, and no face is cut into it", "[route]") {
  const Route route = route_of(flange, "CNC lathe, medium");
  const Operation& last = route.operations.back();
  REQUIRE(last.mandrel);
  CHECK_FALSE(inside_is_worked(last));
  for (const Step& s : last.steps)
    for (const CutSegment& cut : s.segments)
      CHECK(min(cut.from.r, cut.to.r) > last.grip_diameter / 2.0 - Length(1e-9));
  // The edge at the far end is broken before, from the first end.
  const Operation& first = route.operations.front();
  CHECK(std::any_of(first.steps.begin(), first.steps.end(),
                    [](const Step& s) { return s.kind == StepKind::chamfer; }));
  CHECK(route.audit.regions.empty());
}

TEST_CASE("a mandrel runs between centres: without a tailstock there is none", "[route]") {
  Shop shop = shipped_shop();
  for (Machine& machine : shop.machines) machine.tailstock = false;
  const Job job = job_of(flange, shop);
  for (const Machine& machine : shop.machines)
    if (const auto route = plan_route(job, shop, {machine.name}))
      for (const Operation& o : route->operations) CHECK_FALSE(o.mandrel);
}

TEST_CASE("what stands far out is not held on a rim", "[route]") {
  const Shop& shop = shipped_shop();
  int planned = 0;
  for (const Machine& machine : shop.machines) {
    const auto route = plan_route(job_of(hub), shop, {machine.name});
    if (!route) continue;
    ++planned;
    for (const Operation& o : route->operations) {
      if (o.support != Support::chuck || o.stick_out < 0.5 * o.grip_diameter) continue;
      CAPTURE(machine.name, o.number);
      // A quarter of what stands out, or the three tenths of the diameter that always do.
      const Length held = o.grip_to - o.grip_from;
      CHECK(held.si >= std::min(0.25 * o.stick_out.si, 0.3 * o.grip_diameter.si) - 1e-9);
    }
  }
  CHECK(planned > 0);
}

TEST_CASE("a narrow rim is held on the step of soft jaws", "[route]") {
  // A ring whose flange alone is there to hold it, on lathes worked by hand: 3 mm.
  const Shop& shop = shipped_shop();
  int narrow = 0;
  for (const Machine& machine : shop.machines) {
    const auto route = plan_route(
        job_of("part: {number: H-3}\nmaterial: POM\nstock: {round: 60}\nquantities: [1]\n"
               "drawing: {general: ISO 2768-m, Ra: 3.2}\n"
               "outside: [\"52 -0.1 x10, chamfer 1x45 right\", 58 x4]\n"
               "bore from right: [\"40 +0.1 through, chamfer 0.5x45 both\"]\n"),
        shop, {machine.name, MethodKind::rough_then_finish});
    if (!route) continue;
    for (const Operation& o : route->operations)
      if (o.support == Support::chuck && !o.from_bar &&
          o.grip_to - o.grip_from < shop.practice.least_short_grip - Length(1e-9)) {
        ++narrow;
        CHECK(o.jaws == Jaws::soft);
      }
  }
  CHECK(narrow > 0);
}

TEST_CASE("a ring falls off at its bore, within the reach of the parting tool", "[route]") {
  const Shop& shop = shipped_shop();
  const Job ring = job_of(
      "part: {number: H-4}\nmaterial: AlMgSi1\nstock: {round: 130}\nquantities: [10]\n"
      "drawing: {general: ISO 2768-m, Ra: 3.2}\n"
      "outside: [\"125 h7 x12, Ra 1.6, chamfer 0.5x45 both\"]\n"
      "bore from right: [\"119 H7 through, Ra 1.6, chamfer 0.5x45 both\"]\n");
  int parted = 0;
  for (const Machine& machine : shop.machines) {
    const auto route = plan_route(ring, shop, {machine.name});
    if (!route) continue;
    for (const Operation& o : route->operations)
      for (const Step& s : o.steps) {
        if (s.kind != StepKind::part_off) continue;
        ++parted;
        const Length from = s.segments.front().from.r, to = s.segments.back().to.r;
        CHECK(from - to <= shop.tool(s.tool)->reach + Length(1e-9));
        CHECK(to > 59 * unit::mm);  // 119 H7, worked by hand
      }
  }
  CHECK(parted > 0);
}

TEST_CASE("a piece for the jaws stands out until it is faced away", "[route]") {
  const Job bush = job_of(
      "part: {number: H-5}\nmaterial: CuSn8\nstock: {round: 45}\nquantities: [100]\n"
      "drawing: {general: ISO 2768-m, Ra: 3.2}\n"
      "outside: [\"40 r6 x50, Ra 1.6, chamfer 2x15 right, chamfer 0.5x45 left\"]\n"
      "bore from right: [\"30 H7 through, Ra 0.8, chamfer 1x45 both\"]\n");
  PlanRequest request{"CNC lathe, medium"};
  request.two_at_least = true;
  const auto route = plan_route(bush, shipped_shop(), request);
  REQUIRE(route);
  const Operation& last = route->operations.back();
  const Step& face = last.steps.front();
  REQUIRE(face.kind == StepKind::face);
  CHECK(last.stick_out > face.to - face.from);
  CHECK(face.to - face.from > 20 * unit::mm);
}

TEST_CASE("each size of a drill has a station, but in a tailstock", "[route][times]") {
  const std::string stepped =
      "part: {number: H-6}\nmaterial: 42CrMo4 +QT\nstock: {round: 85, condition: hot rolled}\n"
      "quantities: [10]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [80 x50]\n"
      "bore from right: [\"32 H8 x30, Ra 1.6\", \"25 H8 x20, Ra 1.6\"]\n";
  const auto loads = [&](const char* machine) {
    std::set<LoadedTool> drills;
    for (const Operation& o : route_of(stepped, machine).operations)
      for (const Step& s : o.steps)
        if (s.kind == StepKind::drill) drills.insert(loaded_tool(s));
    return drills;
  };
  CHECK(loads("CNC lathe, medium").size() == 2);
  CHECK(loads("geared lathe, medium").size() == 1);
  // And each is loaded: 6 min on a CNC lathe (rates/handling.yaml, "tool not mounted").
  const Route route = route_of(stepped, "CNC lathe, medium");
  std::set<LoadedTool> all;
  for (const Operation& o : route.operations)
    for (const Step& s : o.steps)
      if (const auto& mounted = route.machine.mounted_tools;
          std::find(mounted.begin(), mounted.end(), s.tool) == mounted.end())
        all.insert(loaded_tool(s));
  Time loading(0.0);
  for (const OperationTime& o : make_quote(route, shipped_shop()).times.operations)
    for (const ElementTime& e : o.setup_elements)
      if (e.id == ElementId::setup_tools) loading += e.machine;
  CHECK(loading.si == Approx(static_cast<double>(all.size()) * 360));
}

namespace {

// The jaws hold no air, and what is too large for the spindle stays in front of it.
void check_held(const Route& route) {
  const Machine& machine = route.machine;
  for (const Operation& o : route.operations) {
    // Of a length for several pieces the outline is that of one.
    if (o.support == Support::between_centres || o.from_bar || route.job.stock.pieces > 0) continue;
    CAPTURE(machine.name, o.number);
    CHECK(o.grip_from >= o.before.left() - Length(1e-9));
    CHECK(o.grip_to <= o.before.right() + Length(1e-9));
    if (&o == &route.operations.front()) continue;  // a raw end, from its face
    for (const Segment& s : o.before.pieces()) {
      if (2.0 * max(s.from.r, s.to.r) <= machine.spindle_bore) continue;
      const Length behind = o.from_left ? s.to.z - o.grip_from : o.grip_to - s.from.z;
      CHECK(behind <= machine.chuck.jaw_length + Length(1e-9));
    }
  }
}

std::string plain_part(const std::string& stock, const std::string& outside,
                       const std::string& more = "") {
  return "part: {number: H-9}\nmaterial: C45\nstock: " + stock +
         "\nquantities: [20]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [" + outside +
         "]\n" + more;
}

}  // namespace

TEST_CASE("jaws hold what is there of a short head, or a longer blank", "[route][clamping]") {
  const Shop& shop = shipped_shop();
  int planned = 0;
  for (const char* head : {"hexagon 24 x3", "hexagon 24 x7", "hexagon 24 x10"})
    for (const Machine& machine : shop.machines) {
      const std::string outside =
          std::string("\"M16 x40, chamfer 1.5x45\", \"16 h8 x50, Ra 1.6\", \"") + head + "\"";
      const auto route =
          plan_route(job_of(plain_part("{hexagon: 24}", outside)), shop, {machine.name});
      if (!route) continue;
      ++planned;
      CAPTURE(head);
      check_held(*route);
      // So far out at a centre, the jaws still drive it.
      for (const Operation& o : route->operations)
        if (o.support == Support::chuck_and_centre && !o.from_bar)
          CHECK(o.grip_to - o.grip_from >= shop.practice.least_short_grip - Length(1e-9));
    }
  CHECK(planned > 3);
}

TEST_CASE("a blank is cut longer where a head is all there is to drive a shank by",
          "[route][clamping]") {
  const Route route =
      route_of(plain_part("{hexagon: 17, fed from: blank}",
                          "\"M10 x25, chamfer 1x45\", \"10 h8 x35, Ra 1.6\", \"hexagon 17 x7\""),
               "CNC lathe, medium");
  const Operation& first = route.operations.front();
  CHECK(first.grip_to - first.grip_from >= shipped_shop().practice.least_grip - Length(1e-9));
}

TEST_CASE("what is too large for the spindle stays in front of it", "[route][clamping]") {
  const Shop& shop = shipped_shop();
  int planned = 0;
  for (const char* diameter : {"95", "70", "40"})
    for (const Machine& machine : shop.machines) {
      const std::string outside = std::string("\"38 h7 x60, Ra 1.6\", \"") + diameter +
                                  " x400\", \"38 h7 x60, Ra 1.6, chamfer 1x45 left\"";
      const auto route = plan_route(
          job_of(plain_part("{round: 100, condition: hot rolled}", outside)), shop, {machine.name});
      if (!route) continue;
      ++planned;
      CAPTURE(diameter);
      check_held(*route);
    }
  CHECK(planned > 3);
}

TEST_CASE("a centre hole that the drawing keeps is made at both ends", "[route][clamping]") {
  const Shop& shop = shipped_shop();
  int planned = 0;
  for (const char* fed : {"bar", "blank"})
    for (const Machine& machine : shop.machines) {
      const auto route =
          plan_route(job_of(plain_part(
                         std::string("{round: 42, condition: hot rolled, fed from: ") + fed + "}",
                         "\"25 h7 x40, Ra 1.6\", 38 x10, \"30 h7 x80, Ra 1.6\"",
                         "centres: {both ends: A, keep: yes}\n")),
                     shop, {machine.name});
      if (!route) continue;
      ++planned;
      CAPTURE(fed, machine.name);
      bool left = false, right = false;
      for (const Operation& o : route->operations)
        for (const Step& s : o.steps)
          if (s.kind == StepKind::centre) (o.from_left ? left : right) = true;
      CHECK(left);
      CHECK(right);
    }
  CHECK(planned > 3);
  // One that may stay is not worth a second operation.
  const Route may = route_of(plain_part("{round: 42, condition: drawn, fed from: bar}",
                                        "\"25 h7 x40, Ra 1.6\", 38 x10, \"30 h7 x30, Ra 1.6\"",
                                        "centres: {both ends: A, keep: may}\n"),
                             "CNC lathe, bar fed");
  CHECK(may.operations.size() == 1);
  const Route bored = route_of(plain_part("{round: 42, condition: hot rolled}",
                                          "\"25 h7 x40, Ra 1.6\", 38 x10, \"30 h7 x30, Ra 1.6\"",
                                          "centres: {both ends: A, keep: yes}\n"
                                          "bore from right: [M8 x16]\n"));
  CHECK(std::any_of(bored.cautions.begin(), bored.cautions.end(),
                    [](const Message& m) { return m.id == "clamping.centre-lies-in-bore"; }));
}

TEST_CASE("a lathe without a tailstock is not said to set a centre", "[route][clamping]") {
  Shop shop = shipped_shop();
  for (Machine& machine : shop.machines) machine.tailstock = false;
  const auto route =
      plan_route(job_of(plain_part("{round: 14, condition: drawn}", "\"12 h9 x55, Ra 1.6\""), shop),
                 shop, {shop.machines.front().name});
  REQUIRE(route);
  const Operation& first = route->operations.front();
  REQUIRE(first.free_ratio > shop.practice.chuck_ratio);
  CHECK_THAT(english(first.why), !Catch::Contains("needs the centre"));
  CHECK_THAT(english(first.why), Catch::Contains("without a centre"));
}

TEST_CASE("a thin sleeve is said to go out of round", "[route][clamping]") {
  const auto warned = [](const char* bore) {
    const Route route = route_of(plain_part("{tube: 85x10}", "\"80 h7 x40, Ra 1.6\"",
                                            std::string("bore from right: [\"") + bore + "\"]\n"));
    return std::any_of(route.cautions.begin(), route.cautions.end(),
                       [](const Message& m) { return m.id == "clamping.springs-open"; });
  };
  CHECK(warned("76 H7 through"));
  CHECK_FALSE(warned("66 H7 through"));
}

TEST_CASE("a long end is faced in a steady rest, which is said and paid",
          "[route][clamping][times]") {
  const Route route = route_of(
      plain_part("{round: 100, condition: hot rolled}", "\"60 h7 x60, Ra 1.6\", \"95 x600\""),
      "geared lathe, heavy");
  REQUIRE(route.operations.front().steady);
  CHECK(std::any_of(route.cautions.begin(), route.cautions.end(),
                    [](const Message& m) { return m.id == "clamping.faced-in-steady"; }));
  Route both = route;
  both.operations.front().follow = true;
  const auto rests = [](const Route& of) {
    const RouteTimes times = times_of(of, shipped_shop());
    const auto& each = times.operations.front().elements;
    return std::count_if(each.begin(), each.end(), [](const ElementTime& e) {
      return e.id == ElementId::steady_rest || e.id == ElementId::follow_rest;
    });
  };
  CHECK(rests(route) == 1);
  CHECK(rests(both) == 2);
}

TEST_CASE("a knurl that is rolled on little grip is warned of", "[route][clamping]") {
  const Shop& shop = shipped_shop();
  int rolled = 0;
  for (const Machine& machine : shop.machines) {
    const auto route =
        plan_route(job_of(plain_part("{round: 42, condition: drawn, fed from: blank}",
                                     "\"40 x26, knurl RGE 1.0\", \"22 x10\"",
                                     "bore from left: [\"M10 x18, chamfer 1x45\"]\n")),
                   shop, {machine.name});
    if (!route) continue;
    for (const Operation& o : route->operations) {
      const bool knurls = std::any_of(o.steps.begin(), o.steps.end(),
                                      [](const Step& s) { return s.kind == StepKind::knurl; });
      const bool little = o.grip_to - o.grip_from < shop.practice.fair_grip * o.grip_diameter ||
                          o.grip_to - o.grip_from < shop.practice.least_grip;
      const bool warned =
          std::any_of(route->cautions.begin(), route->cautions.end(),
                      [](const Message& m) { return m.id == "clamping.knurled-on-little"; });
      if (knurls && little) ++rolled;
      if (knurls) CHECK(warned == little);
    }
  }
  CHECK(rolled > 0);
}
