// SPDX-License-Identifier: MIT
// The solids whose drafts are known: tests/step/draft_test.py says what each of them gives.
#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_NurbsConvert.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRepPrimAPI_MakeTorus.hxx>
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Shell.hxx>
#include <gp_Ax1.hxx>
#include <gp_Ax2.hxx>
#include <gp_Trsf.hxx>
#include <gp_Vec.hxx>

#include <cmath>
#include <map>
#include <numbers>

#include "solids.hpp"

namespace solids {
namespace {

const double root = std::sqrt(0.5);
constexpr double inch = 25.4;

// A stepped spindle with a fillet, a chamfer and a groove.
const Profile spindle{{0, 0},      {0, 11},     {1.5, 12.5},
                      {28, 12.5},  {28, 15},    {70, 15},
                      {70, 20},    {147, 20},   {148, 21, true, 147 + root, 21 - root},
                      {148, 24},   {149, 25},   {187, 25},
                      {188, 24},   {188, 17.5}, {280, 17.5},
                      {280, 16},   {283, 16},   {283, 17.5},
                      {295, 17.5}, {296, 16.5}, {296, 0}};
const Profile bush{{0, 11},  {0, 19},  {1, 20},  {34, 20}, {34, 27}, {35, 28}, {39, 28}, {40, 27},
                   {40, 11}, {39, 10}, {24, 10}, {24, 11}, {20, 11}, {20, 10}, {1, 10}};

Profile bar(double radius, double length) {
  return {{0, 0}, {0, radius}, {length, radius}, {length, 0}};
}
TopoDS_Shape prism(int sides, double across, double from, double to) {
  BRepBuilderAPI_MakePolygon polygon;
  const double radius = across / 2 / std::cos(std::numbers::pi / sides);
  for (int i = 0; i < sides; ++i) {
    const double a = 2 * std::numbers::pi * i / sides;
    polygon.Add(gp_Pnt(radius * std::cos(a), radius * std::sin(a), from));
  }
  polygon.Close();
  return BRepPrimAPI_MakePrism(BRepBuilderAPI_MakeFace(polygon.Wire()).Face(),
                               gp_Vec(0, 0, to - from))
      .Shape();
}
TopoDS_Shape box(const gp_Pnt& a, const gp_Pnt& b) { return BRepPrimAPI_MakeBox(a, b).Shape(); }
TopoDS_Shape fused(const TopoDS_Shape& a, const TopoDS_Shape& b) {
  return BRepAlgoAPI_Fuse(a, b).Shape();
}
// A keyway with round ends, on the side of +x.
TopoDS_Shape keyway(double middle, double length, double width, double floor, double top) {
  const double half = length / 2 - width / 2;
  TopoDS_Shape key =
      box(gp_Pnt(floor, -width / 2, middle - half), gp_Pnt(top, width / 2, middle + half));
  for (const int side : {-1, 1})
    key = fused(key, cylinder(gp_Pnt(floor, 0, middle + side * half), gp_Dir(1, 0, 0), width / 2,
                              top - floor));
  return key;
}
TopoDS_Shape keyed() { return cut(revolved(spindle), keyway(230, 36, 10, 12.5, 20)); }
TopoDS_Shape bored(const Profile& outside, const Profile& hole) {
  return cut(revolved(outside), revolved(hole));
}
TopoDS_Shape holes(TopoDS_Shape shape, int count, double circle, double diameter, double depth) {
  for (int i = 0; i < count; ++i) {
    const double a = 2 * std::numbers::pi * i / count + 0.2;
    shape = cut(shape, cylinder(gp_Pnt(circle / 2 * std::cos(a), circle / 2 * std::sin(a), -1),
                                gp_Dir(0, 0, 1), diameter / 2, depth + 1));
  }
  return shape;
}
TopoDS_Shape in_halves(const Profile& profile) {
  const TopoDS_Shape half = revolved(profile, std::numbers::pi);
  gp_Trsf turn;
  turn.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), std::numbers::pi);
  return fused(half, BRepBuilderAPI_Transform(half, turn, true).Shape());
}
TopoDS_Shape hexagon_bolt() {
  const TopoDS_Shape head =
      BRepAlgoAPI_Common(
          prism(6, 24, 0, 10),
          revolved({{0, 0}, {0, 11.4}, {10, 11.4 + 10 * std::tan(std::numbers::pi / 3)}, {10, 0}}))
          .Shape();
  return fused(head, revolved({{10, 0}, {10, 8}, {59, 8}, {60, 7}, {60, 0}}));
}
TopoDS_Shape two_solids() {
  BRep_Builder builder;
  TopoDS_Compound both;
  builder.MakeCompound(both);
  builder.Add(both, revolved(spindle));
  builder.Add(both, moved(revolved(bush), gp_Pnt(0, 100, 0), gp_Dir(0, 1, 0)));
  return both;
}
TopoDS_Shape open_shell() {
  BRep_Builder builder;
  TopoDS_Shell shell;
  builder.MakeShell(shell);
  int n = 0;
  for (TopExp_Explorer e(revolved(bush), TopAbs_FACE); e.More(); e.Next())
    if (n++ != 2) builder.Add(shell, e.Current());
  return shell;
}
TopoDS_Shape flanged() {
  TopoDS_Shape shape = revolved({{0, 20},
                                 {0, 36},
                                 {3, 36},
                                 {3, 40},
                                 {0, 40},
                                 {0, 60},
                                 {12, 60},
                                 {12, 30},
                                 {40, 30},
                                 {40, 20}});
  shape = holes(shape, 6, 90, 11, 20);
  return cut(shape, box(gp_Pnt(57, -100, -1), gp_Pnt(80, 100, 13)));
}
TopoDS_Shape blind_from_both() {
  const double tip = 8.75 / std::tan(59 * std::numbers::pi / 180);
  TopoDS_Shape s =
      revolved({{0, 0}, {0, 35}, {1, 36}, {99, 36}, {100, 35}, {100, 12.5}, {70, 12.5}, {70, 0}});
  s = cut(s, revolved({{-1, 0}, {-1, 8.75}, {50, 8.75}, {50 + tip, 0}}));
  return holes(s, 4, 52, 6.8, 20);
}

// A washer with two round beads on its face, which meet their crests on no edge.
TopoDS_Shape beaded_ring() {
  const double floor = 1.075, r = std::sqrt(1.5 * 1.5 - 0.425 * 0.425);
  return revolved({{3, 16},
                   {1.5, 16},
                   {floor, 17.5 + r, true, 0, 17.5},
                   {floor, 30 - r},
                   {1.5, 31.5, true, 0, 30},
                   {3, 31.5}});
}

using Made = std::map<std::string, TopoDS_Shape>;
Made turned() {
  const TopoDS_Shape spun = revolved(spindle), sleeve = revolved(bush);
  return {
      {"spindle", spun},
      {"bush", sleeve},
      {"spindle-along-y", moved(spun, gp_Pnt(3, 4, 5), gp_Dir(0, 1, 0))},
      {"spindle-oblique", moved(spun, gp_Pnt(10, 20, 30), gp_Dir(1, 2, 3))},
      {"spindle-turned-round", moved(spun, gp_Pnt(0, 0, 0), gp_Dir(0, 0, -1))},
      {"spindle-nurbs", BRepBuilderAPI_NurbsConvert(spun).Shape()},
      {"bush-nurbs", BRepBuilderAPI_NurbsConvert(sleeve).Shape()},
      {"spindle-halves", in_halves(spindle)},
      {"bush-halves", in_halves(bush)},
      {"pin", revolved(bar(5, 30))},
      {"ball-pin", revolved({{0, 0},
                             {10, 10, true, 10 - 10 * root, 10 * root},
                             {30, 10},
                             {30, 12.5},
                             {55, 15},
                             {60, 15},
                             {90, 15},
                             {90, 0}})},
      {"pointed", revolved({{0, 0}, {15, 15}, {50, 15}, {50, 0}})},
      {"round-groove", revolved({{0, 0},
                                 {0, 12},
                                 {20, 12},
                                 {24, 12, true, 22, 10},
                                 {60, 12},
                                 {60, 15},
                                 {70, 15},
                                 {70, 0}})},
      {"vee-groove",
       revolved(
           {{0, 0}, {0, 20}, {10, 20}, {15, 15}, {20, 20}, {30, 20}, {30, 25}, {45, 25}, {45, 0}})},
      {"vee-groove-floor", revolved({{0, 0},
                                     {0, 20},
                                     {10, 20},
                                     {14, 16},
                                     {17, 16},
                                     {21, 20},
                                     {30, 20},
                                     {30, 25},
                                     {45, 25},
                                     {45, 0}})},
      {"button-head", revolved({{0, 0},
                                {0, 8},
                                {3, 9, true, 1.5, 4 + std::sqrt(22.75)},
                                {5, 9},
                                {5, 4},
                                {40, 4},
                                {40, 0}})},
      {"recess-inside",
       bored(bar(20, 50),
             {{-1, 0}, {-1, 8}, {15, 8}, {15, 12}, {30, 12}, {30, 8}, {51, 8}, {51, 0}})},
      {"blind-flat", bored(bar(20, 50), {{-1, 0}, {-1, 8}, {30, 8}, {30, 0}})},
      {"blind-drilled",
       bored(
           bar(20, 50),
           {{-1, 0}, {-1, 3.4}, {20, 3.4}, {20 + 3.4 / std::tan(59 * std::numbers::pi / 180), 0}})},
      {"counterbored",
       bored(bar(20, 50), {{-1, 0}, {-1, 12}, {20, 12}, {22, 10}, {22, 6}, {51, 6}, {51, 0}})},
      {"chamfer-between-bores",
       bored(bar(20, 50), {{-1, 0}, {-1, 6}, {20, 6}, {23, 9}, {51, 9}, {51, 0}})},
      {"relief", revolved({{0, 0},
                           {0, 15},
                           {26.5 - 0.3 / std::tan(std::numbers::pi / 12), 15},
                           {26.5, 14.7},
                           {28, 14.7},
                           {28, 20},
                           {60, 20},
                           {60, 0}})},
      {"edge-below-step",
       revolved({{0, 0}, {0, 19}, {20, 19}, {20, 17}, {23, 20}, {50, 20}, {50, 0}})},
      {"beaded-ring", beaded_ring()},
      {"beaded-ring-nurbs", BRepBuilderAPI_NurbsConvert(beaded_ring()).Shape()},
      {"taper", revolved({{0, 0}, {0, 10}, {40, 12}, {80, 12}, {80, 0}})},
      {"ring", BRepPrimAPI_MakeTorus(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), 20, 4).Shape()},
      {"face-groove",
       revolved({{0, 0}, {0, 18}, {3, 18}, {3, 22}, {0, 22}, {0, 30}, {20, 30}, {20, 0}})},
  };
}
Made with_other_work() {
  const TopoDS_Shape shaft = revolved(bar(15, 80));
  const TopoDS_Shape flats = cut(cut(shaft, box(gp_Pnt(12, -50, 20), gp_Pnt(50, 50, 40))),
                                 box(gp_Pnt(-50, -50, 20), gp_Pnt(-12, 50, 40)));
  return {
      {"keyway", moved(keyed(), gp_Pnt(100, -40, 7), gp_Dir(1, 0, 0))},
      {"keyway-nurbs", BRepBuilderAPI_NurbsConvert(keyed()).Shape()},
      {"cross-hole", cut(revolved(spindle), cylinder(gp_Pnt(-40, 0, 100), gp_Dir(1, 0, 0), 3, 80))},
      {"hexagon-bolt", hexagon_bolt()},
      {"square-head", fused(prism(4, 20, 0, 12), revolved({{12, 0}, {12, 6}, {50, 6}, {50, 0}}))},
      {"blind-from-both", blind_from_both()},
      {"flange", flanged()},
      {"flats", flats},
      {"hexagon-socket", cut(shaft, prism(6, 10, -1, 9))},
      {"eccentric",
       fused(revolved(bar(25, 60)), cylinder(gp_Pnt(6, 0, 60), gp_Dir(0, 0, 1), 10, 25))},
      {"oblique-hole", cut(shaft, cylinder(gp_Pnt(0, 0, 40), gp_Dir(1, 0, 1), 3, 60))},
      {"cross-slot", cut(revolved(bar(20, 50)), box(gp_Pnt(-50, -4, -1), gp_Pnt(50, 4, 10)))},
      {"lug", fused(revolved(bar(15, 60)), box(gp_Pnt(5, -4, 20), gp_Pnt(24, 4, 35)))},
  };
}
Made refused() {
  return {
      {"block", cut(box(gp_Pnt(0, 0, 0), gp_Pnt(80, 50, 20)),
                    cylinder(gp_Pnt(40, 25, -1), gp_Dir(0, 0, 1), 12, 30))},
      {"cube", box(gp_Pnt(0, 0, 0), gp_Pnt(20, 20, 20))},
      {"open-shell", open_shell()},
      {"two-solids", two_solids()},
  };
}

}  // namespace

void save_made(const std::string& folder) {
  for (const Made& group : {turned(), with_other_work(), refused()})
    for (const auto& [name, shape] : group) save(shape, folder + "/" + name + ".step");
  const Profile shaft{{0, 0},
                      {0, .34 * inch},
                      {.035 * inch, .375 * inch},
                      {2.5 * inch, .375 * inch},
                      {2.5 * inch, .625 * inch},
                      {4 * inch, .625 * inch},
                      {4 * inch, 0}};
  save(revolved(shaft), folder + "/shaft-inch.step", "AP203", "INCH");
  save(revolved(spindle), folder + "/spindle-metre.step", "AP214IS", "M");
  save(revolved(spindle), folder + "/spindle-ap203.step", "AP203");
  save(revolved(spindle), folder + "/spindle-ap242.step", "AP242DIS");
}

}  // namespace solids
