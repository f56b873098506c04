// SPDX-License-Identifier: MIT
// Faces on planes, cylinders, cones, spheres and tori.
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <gp_Ax1.hxx>
#include <gp_Cone.hxx>
#include <gp_Cylinder.hxx>
#include <gp_Dir.hxx>
#include <gp_Pln.hxx>
#include <gp_Sphere.hxx>
#include <gp_Torus.hxx>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "face.hpp"
#include "face_edges.hpp"
#include "surface_frame.hpp"

namespace turnwright::step {
namespace {

MeridianPoint meridian(const gp_Pnt& p) { return {p.Z(), radius_of(p)}; }

bool is_the_axis(const gp_Ax1& axis, const Scale& scale) {
  const gp_Dir d = axis.Direction();
  return std::hypot(d.X(), d.Y()) < same_direction && radius_of(axis.Location()) < 2 * scale.same();
}

void measure_edges(Face& face) {
  for_each_edge(face.shape, [&](const BRepAdaptor_Curve& curve) {
    const int steps = curve.GetType() == GeomAbs_Line ? 4 : 16;
    for (int i = 0; i <= steps; ++i) {
      const gp_Pnt p = point_along(curve, double(i) / steps);
      face.z.take(p.Z());
      face.r.take(radius_of(p));
    }
  });
}

void put(Face& face, Piece piece, bool outwards) {
  if (piece.from.z > piece.to.z) std::swap(piece.from, piece.to);
  if (piece.to.z - piece.from.z < 1e-9) return;
  piece.outwards = outwards;
  face.pieces.push_back(std::move(piece));
}

// A plane square to the axis is turned where its rim has an arc about the axis.
bool has_arc_about_axis(const Face& face, const Scale& scale) {
  bool found = false;
  for_each_edge(face.shape, [&](const BRepAdaptor_Curve& curve) {
    if (curve.GetType() == GeomAbs_Line) return;
    const double a = radius_of(point_along(curve, 0)), b = radius_of(point_along(curve, 0.5)),
                 c = radius_of(point_along(curve, 0.27));
    found = found || (std::abs(a - b) < 2 * scale.same() && std::abs(c - b) < 2 * scale.same() &&
                      a > 10 * scale.same());
  });
  return found;
}

void plane(Face& face, const SurfaceFrame& frame, const Scale& scale) {
  const gp_Dir d = frame.surface().Plane().Axis().Direction();
  face.turned = std::hypot(d.X(), d.Y()) < same_direction && has_arc_about_axis(face, scale);
}

void straight(Face& face, const SurfaceFrame& frame) {
  Piece p;
  p.from = meridian(frame.at(0, 0));
  p.to = meridian(frame.at(0, 1));
  put(face, p, frame.faces_outwards());
  face.turned = true;
}

Piece arc_piece(const MeridianPoint& centre, double radius) {
  Piece p;
  p.form = PieceForm::arc;
  p.centre = centre;
  p.radius = radius;
  return p;
}

// Cut where the tube of the torus turns back along z.
std::vector<double> tube_cuts(const ParameterBox& box) {
  std::vector<double> cuts{box.v0};
  for (int k = -4; k <= 8; ++k) {
    const double a = std::numbers::pi * (0.5 + k);
    if (a > box.v0 + 1e-9 && a < box.v1 - 1e-9) cuts.push_back(a);
  }
  cuts.push_back(box.v1);
  return cuts;
}

// The material of a rounded edge lies in the tube, that of a fillet around it.
bool leads_out_of_tube(const SurfaceFrame& frame, const gp_Torus& t) {
  const auto p = frame.point(0.5, 0.5);
  if (!p) return true;
  const double share = t.MajorRadius() / std::max(radius_of(p->at), 1e-12);
  const gp_Pnt centre(p->at.X() * share, p->at.Y() * share, t.Location().Z());
  return gp_Vec(centre, p->at).Dot(p->normal) > 0;
}

void torus(Face& face, const SurfaceFrame& frame) {
  const gp_Torus t = frame.surface().Torus();
  const std::vector<double> cuts = tube_cuts(frame.box());
  const bool material_in_tube = leads_out_of_tube(frame, t);
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const auto& s = frame.surface();
    const double u = frame.box().u0;
    Piece p = arc_piece({t.Location().Z(), t.MajorRadius()}, t.MinorRadius());
    p.from = meridian(s.Value(u, cuts[i]));
    p.to = meridian(s.Value(u, cuts[i + 1]));
    p.upper = radius_of(s.Value(u, (cuts[i] + cuts[i + 1]) / 2)) > t.MajorRadius();
    put(face, p, p.upper == material_in_tube);
  }
  face.turned = true;
}

// Whether the face reaches the point of a sphere that lies on the axis.
bool reaches(const SurfaceFrame& frame, const gp_Pnt& pole, double radius) {
  constexpr int steps = 24;
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j)
      if (frame.at(double(i) / steps, double(j) / steps).Distance(pole) < 0.02 * radius)
        return true;
  return false;
}

void sphere(Face& face, const SurfaceFrame& frame, const Scale& scale) {
  const gp_Sphere s = frame.surface().Sphere();
  if (radius_of(s.Location()) > 2 * scale.same()) return;
  const double z = s.Location().Z(), radius = s.Radius();
  Piece p = arc_piece({z, 0}, radius);
  const double low = reaches(frame, {0, 0, z - radius}, radius) ? z - radius : face.z.low;
  const double high = reaches(frame, {0, 0, z + radius}, radius) ? z + radius : face.z.high;
  p.from.z = std::max(low, z - radius);
  p.to.z = std::min(high, z + radius);
  p.from.r = p.at(p.from.z);
  p.to.r = p.at(p.to.z);
  put(face, p, frame.faces_outwards());
  face.turned = !face.pieces.empty();
}

void classify(Face& face, const SurfaceFrame& frame, const Scale& scale) {
  const BRepAdaptor_Surface& s = frame.surface();
  switch (s.GetType()) {
    case GeomAbs_Plane:
      return plane(face, frame, scale);
    case GeomAbs_Cylinder:
      if (is_the_axis(s.Cylinder().Axis(), scale)) straight(face, frame);
      return;
    case GeomAbs_Cone:
      if (is_the_axis(s.Cone().Axis(), scale)) straight(face, frame);
      return;
    case GeomAbs_Torus:
      if (is_the_axis(s.Torus().Axis(), scale)) torus(face, frame);
      return;
    case GeomAbs_Sphere:
      return sphere(face, frame, scale);
    default:
      face.turned = take_as_free_form(face, scale);
  }
}

}  // namespace

Face classified(const TopoDS_Face& shape, const Scale& scale) {
  Face face;
  face.shape = shape;
  GProp_GProps surface;
  BRepGProp::SurfaceProperties(shape, surface);
  face.area = surface.Mass();
  measure_edges(face);
  classify(face, SurfaceFrame(shape), scale);
  return face;
}

}  // namespace turnwright::step
