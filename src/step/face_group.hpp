// SPDX-License-Identifier: MIT
#pragma once
// The faces of a feature by their surfaces: planes by how they lie to the axis, cylinders, others.
#include <gp_Ax1.hxx>
#include <gp_Dir.hxx>
#include <vector>

#include "face.hpp"

namespace turnwright::step {

struct PlaneFace {
  gp_Dir normal;        // out of the material
  double distance = 0;  // of the plane from the axis, along the normal
};
struct CylinderFace {
  gp_Ax1 axis;
  double radius = 0;
  bool concave = false;
};

class FaceGroup {
 public:
  explicit FaceGroup(const std::vector<const Face*>& faces);

  std::vector<PlaneFace> along, across, oblique;  // planes, to the axis of the part
  std::vector<CylinderFace> cylinders;
  int cones = 0, free = 0, faces = 0;
  Extent z, r;
  int planes() const { return static_cast<int>(along.size() + across.size() + oblique.size()); }

 private:
  void add(const Face& face);
  void add_plane(const PlaneFace& plane);
};

}  // namespace turnwright::step
