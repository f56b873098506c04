// SPDX-License-Identifier: MIT
// Words of a drawing that are rarely written, and what each means. Sizes invented unless a source
// is named.
#include "../support.hpp"
#include "turnwright/part/file_kind.hpp"
#include "turnwright/part/part_number.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const std::string head = "part: {number: X}\nmaterial: C45\n";

// The element between two smaller ones.
Element element(const std::string& text, const std::string& units = "metric",
                const std::string& left = "20") {
  return part_of(head + "units: " + units + "\noutside:\n  - 20 x10, seat A\n  - " + text +
                 "\n  - " + left + " x10, seat B\n")
      .outside[1];
}
double mm(Length l) { return in(l, unit::mm); }

Thread thread(const char* text) {
  TextFault fault;
  const auto read = read_thread(text, fault);
  INFO(text << ": " << english(fault.what));
  REQUIRE(read);
  return *read;
}

}  // namespace

TEST_CASE("what an element has more than one of is gathered in their order", "[part]") {
  const Element e = element(
      "60 x60, groove 3 wide to 50 at 20, groove 4 wide 2 deep at 30, groove to 52 at 40..45, "
      "chamfer 1x45 left, chamfer 2x30 right");
  REQUIRE(e.grooves.size() == 3);
  CHECK(mm(*e.grooves[0].bottom) == Approx(50));
  CHECK(mm(*e.grooves[1].depth) == Approx(2));
  CHECK(mm(*e.grooves[2].from) == Approx(40));
  CHECK(mm(e.grooves[2].width) == Approx(5));
  REQUIRE(e.breaks.size() == 2);
  CHECK(e.breaks[0].side == Side::left);
  CHECK(mm(e.breaks[1].width) == Approx(2));
  const Element map = element(
      "{diameter: 60, length: 60, circlip: {at: 20}, O-ring: [{section: 3, at: 30}, 4 at 40], "
      "chamfer: [1x45 left, {width: 2, angle: 30, at: right}]}");
  REQUIRE(map.grooves.size() == 3);
  CHECK(map.grooves[0].kind == GrooveKind::circlip);
  CHECK(mm(map.grooves[1].section) == Approx(3));
  CHECK(mm(map.grooves[2].section) == Approx(4));
  CHECK(map.breaks[1].angle.si == Approx(pi / 6));
}

TEST_CASE("a size may carry its sign, its unit and its deviations written as people do", "[part]") {
  for (const char* text : {"Ø30 x40", "Ø 30 x40", "dia 30 x40", "30mm x40", "30 mm x40 mm"})
    CHECK(mm(element(text).size.nominal) == Approx(30));
  for (const char* text : {"30 +-0.1 x40", "30 ±0.1 x40", "30±0.1 x40", "30 + 0.1/-0.1 x40"}) {
    INFO(text);
    CHECK(mm(element(text).size.upper) == Approx(0.1));
    CHECK(mm(element(text).size.lower) == Approx(-0.1));
  }
  CHECK(mm(element("30+0.1 x40").size.lower) == 0);
  CHECK(element("30 mm k6 x40").size.letters == "k");
  const Size range = element("1.25..1.26 in x40").size;
  CHECK(mm(range.nominal) == Approx(1.255 * 25.4));
  CHECK(mm(range.upper) == Approx(0.005 * 25.4));
  CHECK(mm(element("1.5 mm x2", "inch").size.nominal) == Approx(1.5));
}

TEST_CASE("shapes of the drawing are read with both of their ends", "[part]") {
  const Element half = element("cone 30 x25 half angle 45 deg");
  CHECK(mm(half.left_size.nominal) == Approx(30 + 2 * 25));
  CHECK(mm(element("{cone: {from: 30, half angle: 45 deg}, length: 25}").left_size.nominal) ==
        Approx(80));
  CHECK(mm(element("cone 0 to 40 x25").size.nominal) == Approx(0.001));
  CHECK(mm(element("{cone: {Morse: 2}, length: 40}").left_size.nominal) == Approx(17.78));
  CHECK(element("arc R40 from 22 to 30 x10 hollow").hollow);
  // Without a "from" an arc begins where the element before it ended, or in the face's centre.
  CHECK(mm(element("arc R40 to 30 x10").size.nominal) == Approx(20));
  const Part ball = part_of(head + "outside: [arc R20 to 40 x20, 40 x10]\n");
  CHECK(mm(ball.outside[0].size.nominal) == Approx(0.001));
  const Part flats = part_of(head + "outside: [hexagon 24 x10, 40 x5, {square: 20, length: 10}]\n");
  CHECK(flats.outside[0].hexagon);
  CHECK(flats.outside[2].kind == ElementKind::polygon);
  CHECK_FALSE(flats.outside[2].hexagon);
  CHECK(mm(part_of(head + "outside: [30 to 12, 40 to 20]\noverall: 20\n").overall) == Approx(20));
}

TEST_CASE("how an element is made, gauged and tied is read", "[part]") {
  const Element e = element(
      "30 x40, no spiral, ground, leave 0.3, allow 5, gauge 1/10, square 0.02 to A, "
      "coaxial 0.03 to B-C, N6, seat C");
  CHECK(e.no_spiral);
  CHECK(e.ground);
  CHECK(mm(e.leave) == Approx(0.3));
  CHECK(in(*e.allow, unit::min) == Approx(5));
  CHECK(*e.gauge_share == Approx(0.1));
  CHECK(*element("30 x40, gauge 25 %").gauge_share == Approx(0.25));
  // Of a common axis to each of its seats.
  REQUIRE(e.ties.size() == 3);
  CHECK(e.ties[0].kind == TieKind::coaxial);
  CHECK(e.ties[0].datum == "B");
  CHECK(e.ties[1].kind == TieKind::coaxial);
  CHECK(e.ties[1].datum == "C");
  CHECK(mm(e.ties[1].value) == Approx(0.03));
  CHECK(e.ties[2].kind == TieKind::square);
  CHECK(e.ties[2].datum == "A");
  CHECK(in(*e.ra, unit::um) == Approx(0.8));  // N6, ISO 1302:1992
  CHECK(in(*element("30 x40, Rz 10").ra, unit::um) == Approx(2));
  CHECK(element("{diameter: 30, length: 40, knurl: {kind: RAA, pitch: 0.8}}").knurl->kind == "RAA");
  const Element relief =
      element("{diameter: 30, length: 40, relief: [{form: E 0.6x0.2, at: left}]}", "metric", "40");
  CHECK(relief.corners[0].kind == CornerKind::relief_e);
  CHECK(mm(relief.corners[0].depth) == Approx(0.2));
}

TEST_CASE("sides of a bore from the left are those of the drawing", "[part][bore]") {
  const Part p = part_of(head +
                         "outside: [90 x120]\nbore from left: [\"40 x20\", \"30 x20, round R1 "
                         "left\", \"36 x10, flat, fillet R1 right\"]\n");
  // Its mouth lies left: what the drawing calls left is the side that comes first.
  REQUIRE(p.bore_left[1].breaks.size() == 1);
  CHECK(p.bore_left[1].breaks[0].side == Side::right);
  REQUIRE(p.bore_left[2].corners.size() == 1);
  CHECK(p.bore_left[2].corners[0].side == Side::left);
}

TEST_CASE("edges of bores that meet nothing wider stay where they are", "[part][bore]") {
  const auto bores = [](const std::string& right, const std::string& left) {
    return part_of(head + "outside: [60 x50]\nbore from right: [\"" + right +
                   "\"]\nbore from left: [\"" + left + "\"]\n");
  };
  CHECK(bores("12 through", "20 x27, flat").bore_left.size() == 1);
  CHECK(bores("12 through, chamfer 1x45 right", "20 x27, flat").bore_left.size() == 1);
  const Part ordinate = part_of(
      head + "outside: [\"38 to 20\", \"40 to 50, chamfer 3x45 left below step\", \"30 to 60\"]\n");
  REQUIRE(ordinate.outside.size() == 4);
  CHECK(mm(ordinate.outside[2].from) == Approx(47));
  CHECK(mm(ordinate.outside[2].to) == Approx(50));
}

TEST_CASE("threads have the flanks, depth and core of their form", "[part][thread]") {
  struct Row {
    const char* text;
    double flank, depth, core;  // half the angle in degrees; mm
  };
  // Depths by the profiles of the standards named in thread.cpp, cores by its rules, worked by
  // hand.
  const Row rows[] = {{"G1/2", 27.5, 0.640327 * 25.4 / 14, 20.955 - 2 * 0.640327 * 25.4 / 14},
                      {"Rp1/2", 27.5, 0.640327 * 25.4 / 14, 20.955 - 2 * 0.640327 * 25.4 / 14},
                      {"Rc1/2", 30, 0.640327 * 25.4 / 14, 20.955 - 1.6 * 25.4 / 14},
                      {"NPT 1/2", 30, 0.8 * 25.4 / 14, 21.336 - 1.6 * 25.4 / 14},
                      {"Tr10x1.5", 15, 0.75 + 0.15, 8.5},
                      {"Tr40x5", 15, 2.5 + 0.25, 35},
                      {"Tr40x7", 15, 3.5 + 0.5, 33},
                      {"M24x2", 30, 0.613 * 2, 22},
                      {"1/2-20 UNF", 30, 0.613 * 1.27, 12.7 - 1.27}};
  for (const Row& row : rows) {
    INFO(row.text);
    const Thread t = thread(row.text);
    CHECK(t.flank_angle() == Approx(row.flank / 180 * pi));
    CHECK(mm(t.depth(false)) == Approx(row.depth).epsilon(2e-3));
    CHECK(mm(t.core()) == Approx(row.core).epsilon(1e-9));
  }
}

TEST_CASE("a draft may leave open what is then to be filled in", "[part][draft]") {
  const Part p = part_of(
      "part: {number: D}\nmaterial: \"\"\nto confirm: [the width, the fit]\noutside: [40 x50]\n"
      "other work:\n- {what: keyway, minutes: \"\"}\n- {what: slot, minutes:}\n- {what: hole, "
      "minutes: 3}\n");
  CHECK(p.to_confirm == std::vector<std::string>{"the width", "the fit"});
  const Messages open = to_fill_in(p);
  REQUIRE(open.size() == 3);
  CHECK(english(open[0]) == "the material");
  CHECK(english(open[1]) == "minutes or a price for 'keyway'");
  CHECK(to_fill_in(part_of(head + "outside: [40 x50]\n")).empty());
}

TEST_CASE("the number of a part is found in its file, and in nothing else", "[part][kind]") {
  CHECK(part_number_in("part: {name: axle, number: A-7}\noutside: [30 x40]\n") == "A-7");
  CHECK(part_number_in("part: {name: axle}\noutside: [30 x40]\n").empty());
  CHECK(part_number_in("part: {number: A-7\noutside: [\n").empty());
  CHECK(part_number_in("request: {number: A-7}\nparts: [p.yaml]\n").empty());
}

TEST_CASE("general tolerances, faces and centres in their other spellings", "[part]") {
  const auto part = [](const std::string& more) {
    return part_of(head + "outside: [40 x50]\n" + more);
  };
  CHECK(part("drawing: {general: ISO 2768-mK}\n").drawing.general.iso_class == "m");
  CHECK(mm(*part("drawing: {general: ±0.2}\n").drawing.general.plus_minus) == Approx(0.2));
  CHECK_FALSE(part("faces: {left: {as: sawn}}\n").left_face.machined);
  CHECK_FALSE(part("faces: {left: \"as sawn, Ra 6.3\"}\n").left_face.machined);
  CHECK(part("faces: {left: \"Ra 6.3\"}\n").left_face.machined);
  const std::pair<const char*, CentreUse> uses[] = {{"no", CentreUse::no},
                                                    {"\"false\"", CentreUse::no},
                                                    {"may", CentreUse::may},
                                                    {"yes", CentreUse::yes}};
  for (const auto& [word, use] : uses) {
    INFO(word);
    CHECK(part("centres: {both ends: A 4, keep: " + std::string(word) + "}\n").centres.keep == use);
  }
  const CentreRequest both = part("centres: {left: R, right: R}\n").centres;
  CHECK(both.left);
  CHECK(both.right);
  CHECK(both.keep == CentreUse::unsaid);
}
