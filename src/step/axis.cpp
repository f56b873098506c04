// SPDX-License-Identifier: MIT
#include "axis.hpp"

#include <BRepBuilderAPI_Transform.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <gp_Circ.hxx>
#include <gp_Cone.hxx>
#include <gp_Cylinder.hxx>
#include <gp_Lin.hxx>
#include <gp_Torus.hxx>
#include <gp_Trsf.hxx>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "face_edges.hpp"
#include "surface_frame.hpp"

namespace turnwright::step {
namespace {

struct Vote {
  gp_Ax1 axis;
  double area = 0;
};
// More voters than any turned part has; the largest decide.
constexpr std::size_t most_votes = 400;
constexpr double rim_share = 0.25;  // of the area of a free-form face, for each circle of its rim

double area_of(const TopoDS_Face& face) {
  GProp_GProps surface;
  BRepGProp::SurfaceProperties(face, surface);
  return surface.Mass();
}

std::optional<gp_Ax1> axis_of_surface(const BRepAdaptor_Surface& s) {
  switch (s.GetType()) {
    case GeomAbs_Cylinder:
      return s.Cylinder().Axis();
    case GeomAbs_Cone:
      return s.Cone().Axis();
    case GeomAbs_Torus:
      return s.Torus().Axis();
    case GeomAbs_SurfaceOfRevolution:
      return s.AxeOfRevolution();
    default:
      return std::nullopt;
  }
}

// A curve by points is a circle where they all keep its radius.
std::optional<gp_Ax1> axis_of_curve(const BRepAdaptor_Curve& curve) {
  if (curve.GetType() == GeomAbs_Circle) return curve.Circle().Axis();
  if (curve.GetType() != GeomAbs_BSplineCurve) return std::nullopt;
  const gp_Pnt a = point_along(curve, 0), b = point_along(curve, 0.31),
               c = point_along(curve, 0.63);
  const gp_Vec ab(a, b), ac(a, c), normal = ab.Crossed(ac);
  if (normal.Magnitude() < 1e-9 * a.Distance(b) * a.Distance(c) + 1e-12) return std::nullopt;
  const gp_Vec to_centre =
      (normal.Crossed(ab) * ac.SquareMagnitude() + ac.Crossed(normal) * ab.SquareMagnitude()) /
      (2 * normal.SquareMagnitude());
  const gp_Pnt centre = a.Translated(to_centre);
  const double radius = centre.Distance(a);
  for (int i = 1; i < 8; ++i)
    if (std::abs(point_along(curve, i / 8.0).Distance(centre) - radius) > 1e-4 * radius + 1e-5)
      return std::nullopt;
  return gp_Ax1(centre, gp_Dir(normal));
}

bool is_given_by_points(const BRepAdaptor_Surface& s) {
  return s.GetType() == GeomAbs_BSplineSurface || s.GetType() == GeomAbs_BezierSurface ||
         s.GetType() == GeomAbs_SurfaceOfExtrusion;
}

std::vector<Vote> votes_of(const TopoDS_Shape& solid) {
  std::vector<Vote> votes;
  for (TopExp_Explorer e(solid, TopAbs_FACE); e.More(); e.Next()) {
    const TopoDS_Face face = TopoDS::Face(e.Current());
    const BRepAdaptor_Surface surface(face, true);
    const double area = area_of(face);
    if (const auto axis = axis_of_surface(surface))
      votes.push_back({*axis, area});
    else if (is_given_by_points(surface))
      for_each_edge(face, [&](const BRepAdaptor_Curve& curve) {
        if (const auto rim = axis_of_curve(curve)) votes.push_back({*rim, area * rim_share});
      });
  }
  std::stable_sort(votes.begin(), votes.end(),
                   [](const Vote& a, const Vote& b) { return a.area > b.area; });
  if (votes.size() > most_votes) votes.resize(most_votes);
  return votes;
}

bool same_axis(const gp_Ax1& a, const gp_Ax1& b, const Scale& scale) {
  double angle = a.Direction().Angle(b.Direction());
  if (angle > std::numbers::pi / 2) angle = std::numbers::pi - angle;
  return angle < same_direction && gp_Lin(a).Distance(b.Location()) < 2 * scale.same();
}

}  // namespace

double Box::largest() const { return std::max({x, y, z}); }

Box box_of(const TopoDS_Shape& solid) {
  Extent x, y, z;
  for_each_edge(solid, [&](const BRepAdaptor_Curve& curve) {
    for (int i = 0; i <= 8; ++i) {
      const gp_Pnt p = point_along(curve, i / 8.0);
      x.take(p.X());
      y.take(p.Y());
      z.take(p.Z());
    }
  });
  return {std::max(0.0, x.high - x.low), std::max(0.0, y.high - y.low),
          std::max(0.0, z.high - z.low)};
}

std::optional<gp_Ax1> axis_of(const TopoDS_Shape& solid, const Scale& scale) {
  const std::vector<Vote> votes = votes_of(solid);
  std::optional<gp_Ax1> best;
  double most = 0;
  for (const Vote& candidate : votes) {
    double area = 0;
    for (const Vote& vote : votes)
      if (same_axis(candidate.axis, vote.axis, scale)) area += vote.area;
    if (area <= most + 1e-9) continue;
    most = area;
    best = candidate.axis;
  }
  return best;
}

TopoDS_Shape along_z(const TopoDS_Shape& solid, const gp_Ax1& axis) {
  gp_Trsf to_z;  // with one argument: from the world to the axis
  to_z.SetTransformation(gp_Ax3(axis.Location(), axis.Direction()));
  return BRepBuilderAPI_Transform(solid, to_z, true).Shape();
}

}  // namespace turnwright::step
