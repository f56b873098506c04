// SPDX-License-Identifier: MIT
#include "surface_frame.hpp"

#include <BRepTools.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <cmath>

namespace turnwright::step {

double radius_of(const gp_Pnt& p) { return std::hypot(p.X(), p.Y()); }

double SurfacePoint::radial() const {
  const double r = std::max(radius_of(at), 1e-12);
  return (at.X() * normal.X() + at.Y() * normal.Y()) / r;
}

double SurfacePoint::around() const {
  const double r = std::max(radius_of(at), 1e-12);
  return (at.X() * normal.Y() - at.Y() * normal.X()) / r;
}

SurfaceFrame::SurfaceFrame(const TopoDS_Face& face)
    : surface_(face, true), reversed_(face.Orientation() == TopAbs_REVERSED) {
  BRepTools::UVBounds(face, box_.u0, box_.u1, box_.v0, box_.v1);
}

std::optional<SurfacePoint> SurfaceFrame::point(double u_share, double v_share) const {
  SurfacePoint p;
  gp_Vec du, dv;
  surface_.D1(box_.u(u_share), box_.v(v_share), p.at, du, dv);
  p.normal = du.Crossed(dv);
  if (p.normal.Magnitude() < 1e-14) return std::nullopt;
  p.normal.Normalize();
  if (reversed_) p.normal.Reverse();
  return p;
}

bool SurfaceFrame::faces_outwards() const {
  const auto middle = point(0.5, 0.5);
  return !middle || middle->radial() > 0;
}

}  // namespace turnwright::step
