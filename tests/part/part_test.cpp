// SPDX-License-Identifier: MIT
#include <cmath>

#include "../support.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/part/file_kind.hpp"
#include "turnwright/part/request.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string size_text(const Size& s) {
  std::string t = shortest(s.nominal.si) + s.letters + (s.grade ? std::to_string(s.grade) : "");
  if (s.toleranced) t += " " + readable(s.upper.si, 9) + "/" + readable(s.lower.si, 9);
  return t;
}

// Everything an element means, for comparing two spellings.
std::string meaning(const Element& e) {
  std::string t = std::to_string(static_cast<int>(e.kind)) + " " + size_text(e.size) + " > " +
                  size_text(e.left_size) + " " + readable(e.from.si, 9) + ".." +
                  readable(e.to.si, 9) + " " + readable(e.length_upper.si, 9);
  t += e.ra ? " Ra" + readable(e.ra->si, 9) : "";
  t += e.as_drawn ? " drawn" : "";
  t += " " + e.thread.designation + readable(e.thread.pitch.si, 9) + "s" +
       std::to_string(e.thread.starts) + (e.thread.left_hand ? "LH" : "") + " " + e.seat;
  if (e.knurl) t += " " + e.knurl->kind + readable(e.knurl->pitch.si, 9);
  if (e.undercut)
    t += " u" + readable(e.undercut->width.si, 9) + "," + readable(e.undercut->bottom.si, 9) +
         (e.undercut->short_form ? "short" : "");
  t += e.radius.si > 0 ? " R" + readable(e.radius.si, 9) : "";
  for (const EdgeBreak& b : e.breaks)
    t += " b" + readable(b.width.si, 9) + "," + readable(b.angle.si, 6) +
         (b.side == Side::left ? "l" : "r");
  for (const Corner& c : e.corners)
    t += " c" + std::to_string(static_cast<int>(c.kind)) + readable(c.radius.si, 9) +
         (c.side == Side::left ? "l" : "r");
  for (const Groove& g : e.grooves)
    t += " g" + std::to_string(static_cast<int>(g.kind)) + readable(g.width.si, 9) + "," +
         (g.bottom ? readable(g.bottom->si, 9) : "") + "," +
         (g.depth ? readable(g.depth->si, 9) : "") + "@" +
         (g.from          ? readable(g.from->si, 9)
          : g.at_shoulder ? "shoulder"
                          : "");
  for (const Tie& tie : e.ties)
    t += " t" + std::to_string(static_cast<int>(tie.kind)) + readable(tie.value.si, 9) + tie.datum;
  t += e.allow ? " allow" + readable(e.allow->si, 9) : "";
  t += e.flat ? " flat" : "";
  return t;
}

// Every problem with its place, in English: "x.yaml:6:8: 'k66' is not a fit; expected …".
std::string said(const Problems& problems) {
  std::string text;
  for (const Problem& p : problems) text += problem_text(p, Words());
  return text;
}
Checked<Part> with(const std::string& element, const std::string& units = "metric",
                   const std::string& key = "outside") {
  std::string text = "part: {number: X}\nunits: " + units + "\nmaterial: C45\n";
  if (key == "outside")
    text += "outside:\n  - 60 x10, seat A\n  - " + element + "\n  - 70 x10\n";
  else
    text += "outside:\n  - 90 x120\nbore from right:\n  - " + element + "\n";
  return read_part("x.yaml", text);
}
std::string meant(const std::string& element, const std::string& units = "metric",
                  const std::string& key = "outside") {
  const auto p = with(element, units, key);
  INFO(element << "\n" << said(p.problems()));
  REQUIRE(p);
  return meaning(key == "outside" ? p->outside[1] : p->bore_right[0]);
}
std::string wrong(const std::string& element) {
  const auto p = with(element);
  INFO(element);
  REQUIRE_FALSE(p);
  return said(p.problems());
}
std::string wrong_request(const std::string& text) {
  const auto request = read_request("r.yaml", text);
  INFO(text);
  REQUIRE_FALSE(request);
  return said(request.problems());
}

}  // namespace

TEST_CASE("a string and its map mean the same", "[part]") {
  const std::pair<const char*, const char*> spellings[] = {
      {"30 k6 x42", "{diameter: 30 k6, length: 42}"},
      {"30 k6 x42 ±0.1, Ra 0.8, relief F left, seat A",
       "{diameter: 30 k6, length: 42 ±0.1, Ra: 0.8, relief: F left, seat: A}"},
      {"40 -0.1 x78", "{diameter: 40 0/-0.1, length: 78}"},
      {"29.98..30.00 to 72", "{diameter: {from: 29.98, to: 30.00}, ends at: 72}"},
      {"1-1/4 in x2.5 in", "{diameter: 1.25 in, length: 2.5 in}"},
      {"50 as drawn x40", "{diameter: 50, as drawn: yes, length: 40}"},
      {"dia 50 x40, Rz 6.3", "{diameter: 50, length: 40, Rz: 6.3}"},
      {"50 x40, N6", "{diameter: 50, length: 40, N: 6}"},
      {"M24x2-6g x30, undercut DIN 76-A", "{thread: M24x2-6g, length: 30, undercut: DIN 76-A}"},
      {"M24 x30", "{thread: M24, length: 30}"},
      {"1/2-20 UNF x0.75", "{thread: 1/2-20 UNF, length: 0.75}"},
      {"cone 30 to 40 x25", "{cone: {from: 30, to: 40}, length: 25}"},
      {"cone 30 x25 taper 1:10", "{cone: {from: 30, taper: 0.1}, length: 25}"},
      {"arc R40 to 40 x12", "{arc: {radius: 40, to: 40}, length: 12}"},
      {"arc R5 from 16 to 18 x3", "{arc: {radius: 5, from: 16, to: 18}, length: 3}"},
      {"80 x40, V-groove 38 deg 13 wide 10 deep at 20",
       "{diameter: 80, length: 40, V-groove: {angle: 38 deg, width: 13, depth: 10, at: 20}}"},
      {"80 x40, round groove R2 1.5 deep at 20",
       "{diameter: 80, length: 40, round groove: {radius: 2, depth: 1.5, at: 20}}"},
      {"35 h6 x110, groove 3 wide to 32 at 95",
       "{diameter: 35 h6, length: 110, grooves: [{width: 3, bottom: 32, at: 95}]}"},
      {"35 h6 x110, groove 3 wide 1.5 deep at shoulder",
       "{diameter: 35 h6, length: 110, grooves: [{width: 3, depth: 1.5, at: shoulder}]}"},
      {"30 x20, circlip at 16", "{diameter: 30, length: 20, circlip: {at: 16}}"},
      {"38 x15, knurl RGE 1.0", "{diameter: 38, length: 15, knurl: {kind: RGE, pitch: 1.0}}"},
      {"hexagon 24 x12", "{hexagon: 24, length: 12}"},
      {"square 24 x12", "{square: 24, length: 12}"},
      {"Tr40x7 x50, allow 12 min", "{thread: Tr40x7, length: 50, allow: 12 min}"},
      {"30 x20, runout 0.02 to A, square 0.03 to A",
       "{diameter: 30, length: 20, runout: 0.02 to A, square: 0.03 to A}"},
      {"50 x40, fillet R2 left", "{diameter: 50, length: 40, fillet: {radius: 2, at: left}}"},
  };
  for (const auto& [text, map] : spellings) {
    INFO(text);
    CHECK(meant(text) == meant(map));
  }
  CHECK(meant("17.5 x60", "metric", "bore") ==
        meant("{diameter: 17.5, length: 60}", "metric", "bore"));
  CHECK(meant("17.5 x60, flat", "metric", "bore") ==
        meant("{diameter: 17.5, length: 60, flat: yes}", "metric", "bore"));
  CHECK(meant("20 H7 through, Ra 0.8", "metric", "bore") ==
        meant("{diameter: 20 H7, through: yes, Ra: 0.8}", "metric", "bore"));
  CHECK(meant("0.7500 +0.0000/-0.0010 x2.5", "inch") ==
        meant("{diameter: 0.75 +0/-0.001, length: 2.5}", "inch"));
  CHECK(meant("M24 x30").find("0.003") != std::string::npos);
}

TEST_CASE("an item that begins with an attribute belongs to the element before it", "[part]") {
  const auto p = read_part("x.yaml",
                           "part: {number: X}\nmaterial: C45\noutside: [30 k6 x42, Ra 0.8, 50 x40, "
                           "chamfer 1x45 both]\n");
  REQUIRE(p);
  REQUIRE(p->outside.size() == 2);
  CHECK(p->outside[0].ra->si == Approx(0.8e-6));
  CHECK(p->outside[1].breaks.size() == 2);
  const auto cell = read_part("x.yaml",
                              "part: {number: X}\nmaterial: C45\noutside: \"30 k6 x42, Ra 0.8 | 50 "
                              "x40, chamfer 1x45 both\"\n");
  REQUIRE(cell);
  CHECK(meaning(cell->outside[0]) == meaning(p->outside[0]));
  CHECK(meaning(cell->outside[1]) == meaning(p->outside[1]));
}

TEST_CASE("an edge between two bores is turned with the wide one", "[part]") {
  const auto bores = [](const std::string& right, const std::string& left) {
    return read_part("x.yaml",
                     "part: {number: X}\nmaterial: C45\noutside: [60 x50]\n"
                     "bore from right: [\"" +
                         right + "\"]\nbore from left: [\"" + left + "\"]\n");
  };
  const auto p = bores("12 through, chamfer 3x45 left", "20 x27, flat");
  REQUIRE(p);
  CHECK(p->bore_right[0].breaks.empty());
  REQUIRE(p->bore_left.size() == 2);
  const Element& edge = p->bore_left[1];
  CHECK(edge.kind == ElementKind::cone);
  CHECK(edge.size.nominal.si == Approx(0.018));
  CHECK(edge.left_size.nominal.si == Approx(0.012));
  CHECK(edge.from.si == Approx(0.027));
  CHECK(edge.to.si == Approx(0.030));
  // The other way round, and round.
  const auto turned = bores("20 x27, flat", "12 through, round R1 right");
  REQUIRE(turned);
  REQUIRE(turned->bore_right.size() == 2);
  CHECK(turned->bore_right[1].kind == ElementKind::arc);
  CHECK(turned->bore_right[1].size.nominal.si == Approx(0.014));
  // At the end face nothing moves.
  const auto plain = read_part("x.yaml",
                               "part: {number: X}\nmaterial: C45\noutside: [60 x50]\n"
                               "bore from right: [\"12 through, chamfer 1x45 left\"]\n");
  REQUIRE(plain);
  CHECK(plain->bore_right[0].breaks.size() == 1);
  const auto wide = bores("12 through, chamfer 5x45 left", "20 x27, flat");
  REQUIRE_FALSE(wide);
  CHECK_THAT(said(wide.problems()),
             Catch::Contains("the edge opens to 22 mm, the bore from the other face is 20 mm"));
}

TEST_CASE("a chamfer below its step is a cone of its own", "[part]") {
  for (const char* chamfer :
       {"\"40 x30, chamfer 3x45 right below step\"",
        "{diameter: 40, length: 30, chamfer: {width: 3, at: right, below step: yes}}",
        "\"40 to 50, chamfer 3x45 right below step\""}) {
    INFO(chamfer);
    const auto p = read_part("x.yaml", "part: {number: X}\nmaterial: C45\noutside: [38 x20, " +
                                           std::string(chamfer) + "]\n");
    REQUIRE(p);
    REQUIRE(p->outside.size() == 3);
    CHECK(p->outside[1].kind == ElementKind::cone);
    CHECK(p->outside[1].size.nominal.si == Approx(0.034));
    CHECK(p->outside[1].left_size.nominal.si == Approx(0.040));
    CHECK(p->outside[1].from.si == Approx(0.020));
    CHECK(p->outside[1].to.si == Approx(0.023));
    CHECK(p->outside[2].breaks.empty());
    CHECK(p->overall.si == Approx(0.050));
  }
  const auto left =
      read_part("x.yaml",
                "part: {number: X}\nmaterial: C45\noutside: [\"40 x30, chamfer 2x60 left below "
                "step\", 38 x20]\n");
  REQUIRE(left);
  CHECK(left->outside[1].left_size.nominal.si == Approx(0.040 - 0.004 * std::sqrt(3.0)));
  CHECK(left->outside[1].to.si == Approx(0.030));
  // In a bore the foot is wider.
  const auto bore = read_part("x.yaml",
                              "part: {number: X}\nmaterial: C45\noutside: [60 x50]\nbore from "
                              "left: [\"22 x10\", \"20 x10, chamfer 2x45 left below step\"]\n");
  REQUIRE(bore);
  REQUIRE(bore->bore_left.size() == 3);
  CHECK(bore->bore_left[1].size.nominal.si == Approx(0.024));
  CHECK_THAT(wrong("40 x30, chamfer 3x45 below step"),
             Catch::Contains("no plain end of a cylinder"));
  CHECK_THAT(wrong("cone 30 to 40 x30, chamfer 3x45 right below step"),
             Catch::Contains("no plain end of a cylinder"));
}

TEST_CASE("wrong elements are refused where they are wrong", "[part]") {
  CHECK_THAT(wrong("30 k6 x42,5"), Catch::Contains("x.yaml:6:11") &&
                                       Catch::Contains("decimal comma") &&
                                       Catch::Contains("did you mean '42.5'"));
  CHECK_THAT(wrong("30 k66 x42"), Catch::Contains("x.yaml:6:8: 'k66' is not a fit"));
  CHECK_THAT(wrong("30 k6 42"),
             Catch::Contains("x.yaml:6:11") && Catch::Contains("did you mean 'x42'"));
  CHECK_THAT(wrong("x42 30"),
             Catch::Contains("x.yaml:6:5") && Catch::Contains("no element begins with 'x42'"));
  CHECK_THAT(wrong("30 k6 x-4"), Catch::Contains("x.yaml:6"));
  CHECK_THAT(wrong("M24x30"), Catch::Contains("a pitch of 30?"));
  CHECK_THAT(wrong("50 x40, chamfre 1x45"), Catch::Contains("did you mean 'chamfer'"));
  CHECK_THAT(wrong("50 x40, chamfer 45"), Catch::Contains("not a chamfer"));
  CHECK_THAT(wrong("50 x40, groove 3 wide to 52 at 20"), Catch::Contains("not below"));
  CHECK_THAT(wrong("50 x40, groove 3 wide to 42 at 2"),
             Catch::Contains("on an element from 10 mm to 50 mm"));
  CHECK_THAT(wrong("50 x40, V-groove 60 deg at 5"), Catch::Contains("is no V-groove"));
  CHECK_THAT(wrong("50 x40, V-groove 60 deg 1 wide 5 deep at 5"),
             Catch::Contains("is no V-groove"));
  CHECK_THAT(wrong("50 x40, V-groove"), Catch::Contains("is no V-groove"));
  CHECK_THAT(wrong("50 x40, round groove R2 3 deep at 5"), Catch::Contains("is no round groove"));
  CHECK_THAT(wrong("50 x40, round groove R2 at 49"),
             Catch::Contains("on an element from 10 mm to 50 mm"));
  CHECK_THAT(wrong("50 x40, round groove R2"), Catch::Contains("without"));
  const auto both = read_part("x.yaml",
                              "part: {number: X}\nmaterial: C45\noutside:\n  - 30 x10\n  - 50 x40, "
                              "chamfer 1x45\n  - 30 x10\n");
  REQUIRE_FALSE(both);
  CHECK_THAT(said(both.problems()), Catch::Contains("right, left or both"));
  const auto first =
      read_part("x.yaml", "part: {number: X}\nmaterial: C45\noutside:\n  - chamfer 1x45\n");
  REQUIRE_FALSE(first);
  CHECK_THAT(said(first.problems()),
             Catch::Contains("x.yaml:4:5") && Catch::Contains("before any element"));
}

TEST_CASE("overall is checked against the sum", "[part]") {
  const auto p = read_part(
      "x.yaml", "part: {number: X}\nmaterial: C45\noverall: 31\noutside: [30 x20, 40 x10]\n");
  REQUIRE_FALSE(p);
  CHECK_THAT(said(p.problems()), Catch::Contains("x.yaml:3:10") && Catch::Contains("add up to 30"));
}

TEST_CASE("thread designations are read as drawings write them", "[part][thread]") {
  TextFault fault;
  auto read = [&](const char* text) {
    const auto t = read_thread(text, fault);
    INFO(text << ": " << Words()(fault.what));
    REQUIRE(t);
    return shortest(std::round(in(t->major, unit::mm) * 1000) / 1000) + " " +
           shortest(std::round(in(t->pitch, unit::mm) * 1000) / 1000) + " " +
           std::to_string(t->starts) + (t->left_hand ? " LH" : "") +
           (t->tolerance_class.empty() ? "" : " " + t->tolerance_class);
  };
  CHECK(read("M24") == "24 3 1");
  CHECK(read("M24x2-6g") == "24 2 1 6g");
  CHECK(read("M10 -6H") == "10 1.5 1 6H");
  CHECK(read("M30x6(P2) LH") == "30 2 3 LH");
  CHECK(read("M20-4g6g") == "20 2.5 1 4g6g");
  CHECK(read("1/2-20 UNF-2A") == "12.7 1.27 1 2A");
  CHECK(read("1/2 UNC") == "12.7 1.954 1");
  CHECK(read("1-1/4-7 UNC-2B") == "31.75 3.629 1 2B");
  CHECK(read("No. 10-32 UNF") == "4.826 0.794 1");
  CHECK(read("#10-24 UNC") == "4.826 1.058 1");
  CHECK(read("G1/2") == "20.955 1.814 1");
  CHECK(read("R3/4") == "26.441 1.814 1");
  CHECK(read("NPT 1/2") == "21.336 1.814 1");
  CHECK(read("Tr40x7") == "40 7 1");
  CHECK(read("Tr40x14(P7) LH") == "40 7 2 LH");
  for (const char* text :
       {"M", "M0", "Mx2", "M24x", "M24x0", "M24x-2", "M24x2(P", "M30x5(P2)", "M23", "M8x7", "G1/3",
        "NPT 7", "Tr40", "1/2-", "bolt", "M24x2-6g6g6g6g", "UNF"}) {
    INFO(text);
    CHECK_FALSE(read_thread(text, fault));
    CHECK_FALSE(Words()(fault.what).empty());
  }
}

TEST_CASE("a bore is seen from its mouth", "[part][bore]") {
  const Part p = part_of(
      "part: {number: B}\nmaterial: C45\noutside: [90 x120]\nbore from right: [\"30 x20, chamfer "
      "1x45\", \"cone 20 x20 taper 1:10\"]\nbore from left: [\"Morse 3 x40, chamfer 1x45 "
      "left\"]\n");
  // The mouth is the free edge; a taper narrows inwards; Morse has its gauge diameter at the mouth.
  CHECK(p.bore_right[0].breaks[0].side == Side::right);
  CHECK(in(p.bore_right[1].left_size.nominal, unit::mm) == Approx(18));
  CHECK(in(p.bore_left[0].size.nominal, unit::mm) == Approx(23.825));
  CHECK(p.bore_left[0].left_size.nominal < p.bore_left[0].size.nominal);
  // "left" on the drawing is the mouth of a bore from the left.
  CHECK(p.bore_left[0].breaks[0].side == Side::right);
}

TEST_CASE("faces and undercuts have a map spelling", "[part]") {
  const Part p = part_of(
      "part: {number: B}\nmaterial: C45\nfaces: {right: {as: machined, Ra: 1.6, groove: {width: 4, "
      "depth: 3, from: 36}}}\noutside:\n  - {thread: M24x2, length: 30, undercut: {width: 3, "
      "bottom: "
      "20.3}}\n  - 90 x120\n");
  REQUIRE(p.right_face.grooves.size() == 1);
  CHECK(in(p.right_face.grooves[0].depth, unit::mm) == Approx(3));
  REQUIRE(p.outside[0].undercut);
  CHECK(in(p.outside[0].undercut->bottom, unit::mm) == Approx(20.3));
}

TEST_CASE("a face may have grooves", "[part]") {
  const Part p = part_of(
      "part: {number: B}\nmaterial: C45\nfaces: {right: \"machined, Ra 1.6, groove 4 wide 3 deep "
      "from "
      "36\", left: as sawn}\noutside: [90 x120]\n");
  REQUIRE(p.right_face.grooves.size() == 1);
  CHECK(in(p.right_face.grooves[0].inner, unit::mm) == Approx(36));
  CHECK(p.right_face.ra->si == Approx(1.6e-6));
  CHECK_FALSE(p.left_face.machined);
}

TEST_CASE("what other work waits for, and centre holes, are read as what they are", "[part]") {
  const Part p = part_of(
      "part: {number: B}\nmaterial: C45\noutside: [90 x120]\ncentres: {right: R 2.5, left: "
      "A}\nother "
      "work:\n  - {what: hardening, price: 2.00, after: roughing}\n  - {what: keyway, minutes: "
      "6}\n");
  CHECK(p.centres.form == CentreForm::a);
  CHECK(in(p.centres.pilot, unit::mm) == Approx(2.5));
  REQUIRE(p.other_work.size() == 2);
  CHECK(p.other_work[0].after == WorkAfter::roughing);
  CHECK(p.other_work[1].after == WorkAfter::turning);
  CHECK(std::string(name_of(p.other_work[0].after)) == "roughing");
}

TEST_CASE("a release is a number of equal lots", "[part][request]") {
  const std::string head =
      "request: {customer: A, our number: N, date: 2026-12-01}\nparts: [{part: p.yaml, ";
  const auto request = read_request("r.yaml", head + "releases: 4 of 60}]\n");
  REQUIRE(request);
  CHECK(request->parts[0].releases == 4);
  CHECK(request->parts[0].quantities == std::vector<int>{240});
  CHECK_THAT(wrong_request(head + "quantities: [100], releases: 4 of 60}]\n"),
             Catch::Contains("4 of 60 is 240, which is none of the quantities"));
  for (const char* text : {"4 releases of 60", "often", "1 of 60", "4 of", "4 of 0"})
    CHECK_THAT(wrong_request(head + "releases: " + text + "}]\n"),
               Catch::Contains(std::string("found '") + text + "'"));
  // They are those of their quantity alone.
  const auto two = read_request("r.yaml", head + "quantities: [50, 240], releases: 4 of 60}]\n");
  REQUIRE(two);
  const auto part = ordered(part_of(shaft()), two->parts[0], *two);
  REQUIRE(part);
  CHECK(part->releases_at(240) == 4);
  CHECK(part->releases_at(50) == 1);
  RequestItem item;
  item.quantities = {250};
  item.releases = 4;
  const auto odd = ordered(part_of(shaft()), item, *request);
  REQUIRE_FALSE(odd);
  CHECK_THAT(said(odd.problems()), Catch::Contains("250 pieces do not go into 4 equal releases"));
}

TEST_CASE("days and weeks beyond the calendar are refused where they stand", "[part][request]") {
  auto request = [](const std::string& date, const std::string& more) {
    return "request: {customer: A, our number: N, date: " + date + "}\nparts: [{part: p.yaml" +
           more + "}]\n";
  };
  REQUIRE(read_request("r.yaml", request("1970-01-01", ", week: 2200-W01")));
  for (const char* date : {"9999-12-31", "1969-12-31", "2201-01-01"})
    CHECK_THAT(wrong_request(request(date, "")),
               Catch::Contains("r.yaml:1:45: ") && Catch::Contains("too far away"));
  CHECK_THAT(wrong_request(request("2026-02-30", "")), Catch::Contains("not a day"));
  CHECK_THAT(wrong_request(request("2026-12-01", ", week: 9999-W05")),
             Catch::Contains("r.yaml:2:30: ") && Catch::Contains("too far away"));
}

TEST_CASE("a file is known by the keys at its top", "[part][kind]") {
  CHECK(kind_of_file("# a part\npart: {number: X}\noutside: [30 x40]\n") == FileKind::part);
  CHECK(kind_of_file("units: inch\nmaterial: C45\noutside:\n- 30 x40\n") == FileKind::part);
  CHECK(kind_of_file("{part: {number: X}, outside: [30 x40]}") == FileKind::part);
  CHECK(kind_of_file("\xEF\xBB\xBFrequest:\n  customer: A\nparts: [p.yaml]\n") ==
        FileKind::request);
  CHECK(kind_of_file("request: {customer: A\nparts: [\n") == FileKind::request);
  CHECK(kind_of_file("week: {from: 2026-01-05}\r\nmachines: []\r\norders: []\r\n") ==
        FileKind::week);
  CHECK(kind_of_file("description: mine\n\"machines\":\n- name: A\n") == FileKind::shop);
  CHECK(kind_of_file("material;number;outside\nC45;A;30 x40\n") == FileKind::list);
  CHECK(kind_of_file("PK\x03\x04") == FileKind::list);
  for (const char* text : {"", "\n", "a: 1\n", "  part: X\n", "{", "order,operation,machine\n"})
    CHECK(kind_of_file(text) == FileKind::other);
  CHECK(std::string(name_of(FileKind::week)) == "week");
}

TEST_CASE("an element may go on in the next line; one that lacks its dash is said", "[part]") {
  const std::string head = "part: {number: D}\nmaterial: C45\noutside:\n";
  const auto wrapped = read_part(
      "p.yaml", head + "  - 39 x22.5, groove 3 wide to 27 at 10, chamfer 1x45\n    left\n");
  INFO(problems_text(wrapped.problems()));
  CHECK(wrapped);
  const auto two = read_part("p.yaml", head + "  - 22 h7 x38, chamfer 1x45\n    32 x14\n");
  REQUIRE_FALSE(two);
  CHECK(two.problems().front().what.id == "part.line-without-dash");
  CHECK(two.problems().front().at.line == 5);
}
