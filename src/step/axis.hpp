// SPDX-License-Identifier: MIT
#pragma once
// The axis that most of the surface turns about.
#include <TopoDS_Shape.hxx>
#include <gp_Ax1.hxx>
#include <optional>

#include "face.hpp"

namespace turnwright::step {

/// Of the box around the solid's edges.
struct Box {
  double x = 0, y = 0, z = 0;
  double largest() const;
};
Box box_of(const TopoDS_Shape& solid);

std::optional<gp_Ax1> axis_of(const TopoDS_Shape& solid, const Scale& scale);
/// The solid with that axis along z.
TopoDS_Shape along_z(const TopoDS_Shape& solid, const gp_Ax1& axis);

}  // namespace turnwright::step
