// SPDX-License-Identifier: MIT
#pragma once
// Solids for tests, made with the library that reads them. Lengths are millimetres.
#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <string>
#include <vector>

namespace solids {

/// A corner of a profile, reached by a line or by an arc through (mz, mr).
struct Corner {
  double z = 0, r = 0;
  bool arc = false;
  double mz = 0, mr = 0;
};
using Profile = std::vector<Corner>;

/// The profile, closed, turned about the z axis.
TopoDS_Shape revolved(const Profile& profile, double angle = 2 * 3.14159265358979323846);
TopoDS_Shape cut(const TopoDS_Shape& from, const TopoDS_Shape& what);
TopoDS_Shape cylinder(const gp_Pnt& at, const gp_Dir& along, double radius, double height);
/// Its z axis brought to another place and direction.
TopoDS_Shape moved(const TopoDS_Shape& shape, const gp_Pnt& to, const gp_Dir& direction);
void save(const TopoDS_Shape& shape, const std::string& path, const std::string& schema = "AP214IS",
          const std::string& unit = "MM");
double volume(const TopoDS_Shape& shape);

/// All made solids into a folder.
void save_made(const std::string& folder);

}  // namespace solids
