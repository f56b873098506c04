// SPDX-License-Identifier: MIT
#pragma once
// A face's surface by its parameters: points, normals out of the material, radii.
#include <BRepAdaptor_Surface.hxx>
#include <gp_Pnt.hxx>
#include <gp_Vec.hxx>
#include <optional>

namespace turnwright::step {

double radius_of(const gp_Pnt& p);

/// The box of the parameters of a face.
struct ParameterBox {
  double u0 = 0, u1 = 0, v0 = 0, v1 = 0;
  double u(double share) const { return u0 + (u1 - u0) * share; }
  double v(double share) const { return v0 + (v1 - v0) * share; }
};

struct SurfacePoint {
  gp_Pnt at;
  gp_Vec normal;  // of length 1, out of the material
  double radial() const;
  double around() const;
};

class SurfaceFrame {
 public:
  explicit SurfaceFrame(const TopoDS_Face& face);
  const BRepAdaptor_Surface& surface() const { return surface_; }
  const ParameterBox& box() const { return box_; }
  gp_Pnt at(double u_share, double v_share) const {
    return surface_.Value(box_.u(u_share), box_.v(v_share));
  }
  /// Nothing where the surface has no normal.
  std::optional<SurfacePoint> point(double u_share, double v_share) const;
  /// The normal in the middle leads away from the axis.
  bool faces_outwards() const;

 private:
  BRepAdaptor_Surface surface_;
  ParameterBox box_;
  bool reversed_ = false;
};

}  // namespace turnwright::step
