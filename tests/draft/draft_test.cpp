// SPDX-License-Identifier: MIT
// Recognised models, given as outlines, and the elements, other work and questions that a draft
// makes of them. Sizes are invented; what is expected is how a drawing would write them.
#include "turnwright/draft/draft.hpp"
#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

constexpr Length mm = 1.0 * unit::mm;
using Texts = std::vector<std::string>;

/// An outline from its right-hand end on, in millimetres.
class Drawn {
 public:
  explicit Drawn(double from = 0) : z_(from) {}
  Drawn& line(double length, double from, double to) {
    return add(RunForm::line, length, from, to);
  }
  Drawn& cylinder(double d, double length) { return line(length, d, d); }
  Drawn& free_form(double length, double from, double to) {
    return add(RunForm::free_form, length, from, to);
  }
  Drawn& envelope(double d, double length) { return add(RunForm::envelope, length, d, d); }
  Drawn& arc(double radius, double length, double from, double to, bool out, double centre_r = 0) {
    add(RunForm::arc, length, from, to);
    runs_.back().radius = radius * mm;
    runs_.back().bulges_out = out;
    runs_.back().centre_r = centre_r * mm;
    return *this;
  }
  Drawn& gap(double length) {
    z_ += length;
    return *this;
  }
  const std::vector<ModelRun>& runs() const { return runs_; }

 private:
  Drawn& add(RunForm form, double length, double from, double to) {
    ModelRun r;
    r.form = form;
    r.from = z_ * mm;
    r.to = (z_ += length) * mm;
    r.diameter_from = from * mm;
    r.diameter_to = to * mm;
    runs_.push_back(r);
    return *this;
  }
  double z_;
  std::vector<ModelRun> runs_;
};

Recognition model_of(const Drawn& outside, const Drawn& bore = Drawn()) {
  Recognition m;
  m.verdict = ModelVerdict::turned;
  m.product = "P-1";
  m.solids = {{40.0 * mm, 40.0 * mm, 50.0 * mm}};
  m.outside = outside.runs();
  m.bore = bore.runs();
  m.length = m.outside.back().to;
  return m;
}
Draft drafted(const Recognition& m, DraftDetail detail = DraftDetail::features) {
  return draft_of(m, {"P-1", false, detail});
}
Texts outside_of(const Drawn& outside, DraftDetail detail = DraftDetail::features) {
  return drafted(model_of(outside), detail).outside;
}
std::string asked(const Draft& draft) {
  std::string text;
  for (const Message& m : draft.to_confirm) text += english(m) + "\n";
  return text;
}
ModelFeature feature(FeatureKind kind) {
  ModelFeature f;
  f.kind = kind;
  f.from = 10.0 * mm;
  f.to = 20.0 * mm;
  f.width = 8.0 * mm;
  f.length = 30.0 * mm;
  f.floor = 12.5 * mm;
  f.diameter = 6.8 * mm;
  f.depth = 20.0 * mm;
  f.pitch_circle = 52.0 * mm;
  f.across = 24.0 * mm;
  f.from_axis = 12.0 * mm;
  f.inner = 30.0 * mm;
  f.outer = 40.0 * mm;
  f.faces = 3;
  return f;
}

}  // namespace

TEST_CASE("edges and corners of an outline belong to the cylinder beside them", "[draft]") {
  CHECK(outside_of(Drawn().line(1.5, 22, 25).cylinder(25, 26.5).cylinder(30, 40)) ==
        Texts{"25 x28, chamfer 1.5x45 right", "30 x40"});
  CHECK(outside_of(Drawn()
                       .arc(2, 2, 26, 30, true, 13)
                       .cylinder(30, 36)
                       .arc(1, 1, 30, 32, false, 16)
                       .cylinder(50, 39)
                       .line(1, 50, 48)) ==
        Texts{"30 x39, round R2 right, fillet R1 left", "50 x40, chamfer 1x45 left"});
  // The foot of the chamfer lies deeper than the step beside it.
  CHECK(outside_of(Drawn().cylinder(38, 20).line(3, 34, 40).cylinder(40, 27)) ==
        Texts{"38 x20", "40 x30, chamfer 3x45 right below step"});
  // Too wide, too flat or too steep for an edge: a cone of its own.
  CHECK(outside_of(Drawn().line(12, 20, 44).cylinder(44, 20))[0] == "cone 20 to 44 x12");
  CHECK(outside_of(Drawn().line(3, 39, 40).cylinder(40, 20))[0] == "cone 39 to 40 x3");
  // Every surface for itself where that is asked for.
  CHECK(outside_of(Drawn().line(1.5, 22, 25).cylinder(25, 26.5), DraftDetail::surfaces) ==
        Texts{"cone 22 to 25 x1.5", "25 x26.5"});
}

TEST_CASE("dips between equal diameters are grooves", "[draft]") {
  CHECK(outside_of(Drawn().cylinder(35, 10).cylinder(32, 3).cylinder(35, 20)) ==
        Texts{"35 x33, groove 3 wide to 32 at 10"});
  CHECK(outside_of(Drawn().cylinder(40, 10).line(5, 40, 30).line(5, 30, 40).cylinder(40, 10)) ==
        Texts{"40 x30, V-groove 90 deg 5 deep at 10"});
  CHECK(
      outside_of(Drawn().cylinder(40, 10).line(4, 40, 32).cylinder(32, 3).line(4, 32, 40).cylinder(
          40, 9)) == Texts{"40 x30, V-groove 90 deg 11 wide 4 deep at 10"});
  CHECK(outside_of(Drawn().cylinder(24, 20).arc(2, 4, 24, 24, false, 12).cylinder(24, 36)) ==
        Texts{"24 x60, round groove R2 at 20"});
  CHECK(outside_of(Drawn().cylinder(24, 20).arc(2.5, 4, 24, 24, false, 13.5).cylinder(24, 36)) ==
        Texts{"24 x60, round groove R2.5 1 deep at 20"});
  // A waist is too wide for one, and a dip with unequal walls is none.
  CHECK(outside_of(Drawn().cylinder(20, 10).cylinder(16, 30).cylinder(20, 10)).size() == 3);
  CHECK(outside_of(Drawn().cylinder(40, 10).line(5, 40, 30).line(2, 30, 40).cylinder(40, 10))
            .size() == 4);
  CHECK(
      outside_of(Drawn().cylinder(20, 10).cylinder(16, 3).cylinder(24, 3).cylinder(20, 9)).size() ==
      4);
  CHECK(outside_of(Drawn().cylinder(20, 10).envelope(16, 3).cylinder(20, 9)).size() == 3);
}

TEST_CASE("cones, arcs and what encloses other faces are elements of their own", "[draft]") {
  CHECK(outside_of(Drawn().line(15, 0, 30).cylinder(30, 35)) ==
        Texts{"cone 0 to 30 x15", "30 x35"});
  CHECK(outside_of(Drawn().cylinder(8, 35).cylinder(18, 2).arc(5, 3, 18, 16, true, 4)) ==
        Texts{"8 x35", "18 x2", "arc R5 to 16 x3"});
  CHECK(outside_of(Drawn().arc(4, 8, 40, 40, false, 20)) ==
        Texts{"arc R4 from 40 to 40 x8 hollow"});
  const Draft d = drafted(model_of(
      Drawn().envelope(48.66213, 15).free_form(10, 30, 36).cylinder(40, 20).cylinder(40, 1e-9)));
  CHECK(d.outside == Texts{"48.66213 x15", "cone 30 to 36 x10", "40 x20"});
  CHECK_THAT(asked(d), Catch::Contains("no turned surface from 0 mm to 15 mm") &&
                           Catch::Contains("free-form profile from 15 mm to 25 mm"));
}

TEST_CASE("a floor that runs out at 15 degrees may be a relief", "[draft]") {
  // Form F of DIN 509 0.3 deep: 1.12 long at 15 degrees.
  const Drawn out =
      Drawn().cylinder(30, 25).line(1.1196, 30, 29.4).cylinder(29.4, 2).cylinder(40, 30);
  CHECK_THAT(asked(drafted(model_of(out))), Catch::Contains("a relief of DIN 509?"));
  CHECK(drafted(model_of(out)).outside ==
        Texts{"30 x25", "cone 30 to 29.4 x1.12", "29.4 x2", "40 x30"});
  const Drawn in =
      Drawn().cylinder(40, 25).cylinder(29.4, 2).line(1.1196, 29.4, 30).cylinder(30, 30);
  CHECK_THAT(asked(drafted(model_of(in))), Catch::Contains("a relief of DIN 509?"));
  const Drawn deep = Drawn().cylinder(30, 25).line(3.732, 30, 28).cylinder(28, 2).cylinder(40, 9);
  CHECK_THAT(asked(drafted(model_of(deep))), !Catch::Contains("DIN 509"));
}

TEST_CASE("a bore is divided between the faces that it is seen from", "[draft]") {
  const Drawn part = Drawn().cylinder(60, 50);
  const Draft through =
      drafted(model_of(part, Drawn().line(1, 22, 20).cylinder(20, 48).line(1, 20, 22)));
  CHECK(through.bore_right == Texts{"20 through, chamfer 1x45 right, chamfer 1x45 left"});
  CHECK(through.bore_left.empty());
  const Draft stepped =
      drafted(model_of(part, Drawn().cylinder(12, 20).line(3, 12, 18).cylinder(18, 27)));
  CHECK(stepped.bore_right == Texts{"12 through, chamfer 3x45 left"});
  CHECK(stepped.bore_left == Texts{"18 x27, flat"});
  const Draft blind = drafted(model_of(part, Drawn().cylinder(16, 30)));
  CHECK(blind.bore_right == Texts{"16 x30, flat"});
  const double point = 3.4 / std::tan(59 * pi / 180);
  const Draft drilled = drafted(model_of(part, Drawn().cylinder(6.8, 20).line(point, 6.8, 0)));
  CHECK(drilled.bore_right == Texts{"6.8 x20"});
  CHECK_THAT(asked(drilled), Catch::Contains("M8 tapped?") && !Catch::Contains("point of"));
  const Draft pointed = drafted(model_of(part, Drawn().cylinder(10, 20).line(5, 10, 0)));
  CHECK_THAT(asked(pointed), Catch::Contains("point of 90"));
  // Opened after the drill; and a cone that is no drill's point.
  const double smaller = 4.5 / std::tan(59 * pi / 180);
  CHECK(drafted(model_of(part, Drawn().cylinder(10, 20).line(smaller, 9, 0))).bore_right ==
        Texts{"10 x20"});
  CHECK(drafted(model_of(part, Drawn().cylinder(10, 20).line(2, 4, 0))).bore_right ==
        Texts{"10 x20", "cone 4 to 0 x2"});
  const Draft ball = drafted(model_of(part, Drawn().cylinder(10, 20).arc(5, 5, 10, 0, false, 0)));
  CHECK(ball.bore_right.back().ends_with(", flat"));
  const Draft both = drafted(
      model_of(part, Drawn().cylinder(17.5, 15).gap(5).cylinder(30, 10).gap(5).cylinder(25, 15)));
  CHECK(both.bore_right == Texts{"17.5 x15, flat"});
  CHECK(both.bore_left == Texts{"25 x15, flat"});
  CHECK_THAT(asked(both), Catch::Contains("closed cavity from 20 mm to 30 mm"));
  // In a bore a fillet is hollow, and left is the mouth of a bore from the left.
  const Draft left = drafted(
      model_of(part, Drawn(30).arc(2, 2, 16, 20, true, 8).cylinder(20, 17).line(1, 20, 22)));
  CHECK(left.bore_left == Texts{"20 x20, chamfer 1x45 left, fillet R2 right, flat"});
}

TEST_CASE("threads are only ever asked for", "[draft]") {
  CHECK_THAT(asked(drafted(model_of(Drawn().line(1, 22, 24).cylinder(24, 29).cylinder(40, 20)))),
             Catch::Contains("Ø24 mm × 30 mm with a chamfer: M24 thread?"));
  CHECK_THAT(asked(drafted(model_of(Drawn().cylinder(24, 30).cylinder(40, 20)))),
             !Catch::Contains("thread?"));
  CHECK_THAT(asked(drafted(model_of(Drawn().cylinder(60, 50), Drawn().cylinder(8.5, 50)))),
             Catch::Contains("Ø8.5 mm bore: M10 tapped?"));
  CHECK_THAT(asked(drafted(model_of(Drawn().cylinder(60, 50), Drawn().cylinder(9, 50)))),
             !Catch::Contains("tapped?"));
}

TEST_CASE("flats of a bar are its stock, others are work", "[draft]") {
  Recognition bolt = model_of(Drawn().cylinder(16, 50).envelope(27.7128, 10));
  ModelFeature hexagon = feature(FeatureKind::hexagon);
  hexagon.from = 50.0 * mm;
  hexagon.to = 60.0 * mm;
  bolt.features = {hexagon};
  CHECK(drafted(bolt).outside == Texts{"16 x50", "hexagon 24 x10"});
  CHECK(drafted(bolt).hexagon == "24");
  CHECK(drafted(bolt).other_work.empty());
  const Draft plain = drafted(bolt, DraftDetail::surfaces);
  CHECK(plain.outside[1] == "27.7128 x10");
  CHECK(plain.hexagon.empty());
  CHECK(plain.other_work.size() == 1);
  bolt.features[0].kind = FeatureKind::square;
  bolt.features[0].across = 20.0 * mm;
  CHECK(drafted(bolt).square == "20");
  CHECK(drafted(bolt).outside[1] == "square 20 x10");
  // Milled on a larger bar.
  Recognition milled = model_of(Drawn().cylinder(16, 50).cylinder(40, 10));
  milled.features = {hexagon};
  CHECK(drafted(milled).hexagon.empty());
  CHECK(drafted(milled).outside[1] == "40 x10");
}

TEST_CASE("what is not turned is said with its sizes", "[draft]") {
  const std::pair<FeatureKind, const char*> kinds[] = {
      {FeatureKind::keyway,
       "keyway 8 mm wide x30 mm, floor 12.5 mm from the axis, at 10 mm to 20 mm"},
      {FeatureKind::slot, "slot 8 mm wide x30 mm, at 10 mm to 20 mm"},
      {FeatureKind::flat, "flat 12 mm from the axis, at 10 mm to 20 mm"},
      {FeatureKind::hexagon, "hexagon 24 mm across flats, at 10 mm to 20 mm"},
      {FeatureKind::square, "square 24 mm across flats, at 10 mm to 20 mm"},
      {FeatureKind::hexagon_socket, "hexagon socket 24 mm across flats, at 10 mm to 20 mm"},
      {FeatureKind::square_socket, "square socket 24 mm across flats, at 10 mm to 20 mm"},
      {FeatureKind::cross_hole, "cross hole Ø6.8 mm at 15 mm"},
      {FeatureKind::axial_hole, "hole Ø6.8 mm along the axis x20 mm on a pitch circle of 52 mm"},
      {FeatureKind::oblique_hole, "oblique hole Ø6.8 mm at 10 mm to 20 mm"},
      {FeatureKind::eccentric, "eccentric Ø6.8 mm, 0 mm off centre, at 10 mm to 20 mm"},
      {FeatureKind::free_form,
       "3 free-form faces (thread, knurl, teeth?) between Ø30 mm and Ø40 mm, at 10 mm to 20 mm"},
      {FeatureKind::other,
       "3 faces that are not turned, between Ø30 mm and Ø40 mm, at 10 mm to 20 mm"}};
  for (const auto& [kind, words] : kinds) CHECK(english(other_work_of(feature(kind))) == words);
  ModelFeature hole = feature(FeatureKind::cross_hole);
  hole.count = 4;
  hole.offset = 2.0 * mm;
  hole.stepped = 11.0 * mm;
  hole.cones = 1;
  CHECK(english(other_work_of(hole)) ==
        "4 × cross hole Ø6.8 mm at 15 mm, 2 mm off centre, stepped to Ø11 mm, countersunk or "
        "pointed");
  Recognition m = model_of(Drawn().cylinder(60, 50));
  m.features = {hole, feature(FeatureKind::axial_hole), feature(FeatureKind::keyway)};
  const Draft d = drafted(m);
  CHECK(d.other_work.size() == 3);
  CHECK_THAT(asked(d), Catch::Contains("4 holes Ø6.8 mm: M8 tapped?") &&
                           Catch::Contains("1 hole Ø6.8 mm: M8 tapped?"));
}

TEST_CASE("recesses of end faces are grooves, others are work", "[draft]") {
  const auto ring = [](double from, double to, double share) {
    const double volume = pi / 4 * (40. * 40 - 30 * 30) * (to - from) * share;
    return RingRecess{from * mm, to * mm, 30.0 * mm, 40.0 * mm, volume * mm * mm * mm};
  };
  Recognition m = model_of(Drawn().cylinder(60, 50));
  m.recesses = {ring(0, 3, 1), ring(20, 24, 1), ring(46, 50, 0.9)};
  const Draft d = drafted(m);
  REQUIRE(d.right_grooves.size() == 1);
  CHECK(d.right_grooves[0].width == "5");
  CHECK(d.right_grooves[0].depth == "3");
  CHECK(d.right_grooves[0].from == "30");
  CHECK(d.left_grooves.size() == 1);
  REQUIRE(d.other_work.size() == 1);
  CHECK(english(d.other_work[0]) == "ring recess Ø30 mm to Ø40 mm, at 20 mm to 24 mm");
  CHECK(d.other_recesses == m.recesses[1].volume);
  CHECK_THAT(asked(d), Catch::Contains("its walls are not straight"));
}

TEST_CASE("a draft says what it is of, and what its outline leaves open", "[draft]") {
  Recognition m = model_of(Drawn().cylinder(19.05, 63.5).cylinder(31.75, 38.1));
  m.inch = true;
  m.outline_volume = 1e5 * mm * mm * mm;
  m.volume = 0.9 * m.outline_volume;
  m.product = "Spindle";
  Draft d = draft_of(m, {"S-7", true, DraftDetail::features});
  CHECK(d.number == "S-7");
  CHECK(d.name == "Spindle");
  CHECK(d.overall == "4");
  CHECK(d.outside == Texts{"0.75 x2.5", "1.25 x1.5"});
  CHECK(d.elements() == 2);
  CHECK_THAT(asked(d), Catch::Contains("the heavier one was asked for") &&
                           Catch::Contains("10 % of the turned outline") &&
                           Catch::Contains("not found what"));
  m.features = {feature(FeatureKind::keyway)};
  CHECK_THAT(asked(drafted(m)), Catch::Contains("is it all in the flats and the other work?"));
  m.volume = m.outline_volume;
  m.solids.push_back(m.solids[0]);
  d = drafted(m);
  CHECK(d.name.empty());
  CHECK_THAT(asked(d), !Catch::Contains("of the turned outline") &&
                           Catch::Contains("the lighter one was taken"));
}

TEST_CASE("the plug-in's document is read, or refused whatever it holds", "[draft]") {
  const std::string run =
      "{\"form\":\"line\",\"from\":0,\"to\":30,\"diameter_from\":20,\"diameter_to\":20}";
  const std::string arc =
      "{\"form\":\"arc\",\"from\":30,\"to\":35,\"diameter_from\":20,\"diameter_to\":10,\"radius\":"
      "5,"
      "\"bulges_out\":true,\"centre\":{\"z\":30,\"r\":5}}";
  const auto document = [&](const std::string& outside, const std::string& more = "") {
    return "{\"verdict\":\"turned\",\"unit\":\"inch\",\"product\":\"A\",\"faces\":5,\"solids\":[[1,"
           "2,3]],"
           "\"solid\":1,\"turned_share\":0.9,\"volume\":10,\"outline_volume\":20,\"void\":{\"at\":"
           "3,"
           "\"diameter\":4},\"length\":35,\"outside\":[" +
           outside +
           "],\"bore\":[],\"recesses\":[{\"from\":0,\"to\":3,\"inner\":10,\"outer\":14,\"volume\":"
           "200}],\"features\":[{\"kind\":\"slot\",\"count\":2,\"from\":1,\"to\":2,\"sizes\":{"
           "\"width\":8,\"faces\":3}}]" +
           more + "}";
  };
  const auto m = read_recognition(document(run + "," + arc));
  REQUIRE(m);
  CHECK(m->verdict == ModelVerdict::turned);
  CHECK(m->inch);
  CHECK(m->volume_ratio() == Approx(0.5));
  REQUIRE(m->outside.size() == 2);
  CHECK(m->outside[1].radius == 5.0 * mm);
  CHECK(m->features[0].width == 8.0 * mm);
  CHECK(m->features[0].length.si == 0);
  CHECK(m->features[0].faces == 3);
  CHECK(Recognition().volume_ratio() == 0);
  const auto unread = read_recognition(
      "{\"verdict\":\"no solid\",\"unit\":\"mm\",\"product\":\"\",\"faces\":0,\"solids\":[]}");
  REQUIRE(unread);
  CHECK(std::string(name_of(unread->verdict)) == "no solid");
  CHECK(std::string(name_of(RunForm::free_form)) == "free form");
  CHECK(std::string(name_of(FeatureKind::hexagon_socket)) == "hexagon socket");
  std::string many = run;
  for (int i = 0; i < 20000; ++i) many += "," + run;
  for (const std::string& text :
       {std::string("{"), std::string("[]"), std::string("{\"verdict\":\"perhaps\"}"),
        std::string("{\"verdict\":\"turned\"}"), document("{\"form\":\"spiral\"}"),
        document("{\"form\":\"line\",\"from\":\"0\"}"), document("{\"form\":\"line\"}"),
        document(
            "{\"form\":\"line\",\"from\":1e999,\"to\":1,\"diameter_from\":1,\"diameter_to\":1}"),
        document(many)})
    CHECK_FALSE(read_recognition(text));
}
