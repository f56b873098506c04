// SPDX-License-Identifier: MIT
#include "face_group.hpp"

#include <BRep_Tool.hxx>
#include <GeomAdaptor_Surface.hxx>
#include <GeomLib_IsPlanarSurface.hxx>
#include <Geom_Surface.hxx>
#include <ShapeCustom_Surface.hxx>
#include <Standard_Failure.hxx>
#include <gp_Cylinder.hxx>

#include <algorithm>
#include <cmath>
#include <optional>

#include "surface_frame.hpp"

namespace turnwright::step {
namespace {

struct Surface {
  GeomAbs_SurfaceType type = GeomAbs_OtherSurface;
  gp_Cylinder cylinder;
};

// A surface by points that is a plane or a cylinder is taken for one.
Surface recognised(const Face& face, const BRepAdaptor_Surface& adaptor) {
  Surface s{adaptor.GetType(), {}};
  if (s.type == GeomAbs_Cylinder) s.cylinder = adaptor.Cylinder();
  if (s.type <= GeomAbs_Torus) return s;
  const Handle(Geom_Surface) surface = BRep_Tool::Surface(face.shape);
  if (GeomLib_IsPlanarSurface(surface, 1e-4).IsPlanar()) return {GeomAbs_Plane, {}};
  try {
    ShapeCustom_Surface custom(surface);
    const Handle(Geom_Surface) converted = custom.ConvertToAnalytical(1e-3, Standard_False);
    if (converted.IsNull()) return s;
    const GeomAdaptor_Surface found(converted);
    if (found.GetType() != GeomAbs_Cylinder) return s;
    gp_Cylinder cylinder = found.Cylinder();
    cylinder.Transform(adaptor.Trsf());
    return {GeomAbs_Cylinder, cylinder};
  } catch (const Standard_Failure&) {
    return s;  // left as it is
  }
}

CylinderFace cylinder_face(const gp_Cylinder& cylinder, const SurfacePoint& p) {
  const gp_Vec along(cylinder.Axis().Direction());
  gp_Vec to_axis(p.at, cylinder.Axis().Location());
  to_axis -= along * to_axis.Dot(along);
  return {cylinder.Axis(), cylinder.Radius(), to_axis.Dot(p.normal) > 0};
}

}  // namespace

FaceGroup::FaceGroup(const std::vector<const Face*>& list) {
  for (const Face* face : list) add(*face);
}

void FaceGroup::add(const Face& face) {
  ++faces;
  z.take(face.z.low), z.take(face.z.high);
  r.take(face.r.low), r.take(face.r.high);
  const SurfaceFrame frame(face.shape);
  const auto p = frame.point(0.5, 0.5);
  const Surface s = recognised(face, frame.surface());
  if (p && s.type == GeomAbs_Plane)
    add_plane({gp_Dir(p->normal), gp_Vec(gp_Pnt(), p->at).Dot(p->normal)});
  else if (p && s.type == GeomAbs_Cylinder)
    cylinders.push_back(cylinder_face(s.cylinder, *p));
  else if (s.type == GeomAbs_Cone)
    ++cones;
  else
    ++free;
}

void FaceGroup::add_plane(const PlaneFace& plane) {
  const double tilt = std::abs(plane.normal.Z());
  (tilt < 1e-3 ? along : tilt > 1 - 1e-6 ? across : oblique).push_back(plane);
}

}  // namespace turnwright::step
