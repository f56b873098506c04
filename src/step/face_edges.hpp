// SPDX-License-Identifier: MIT
#pragma once
// The edges of a face as points along them.
#include <BRepAdaptor_Curve.hxx>
#include <BRep_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <gp_Pnt.hxx>

namespace turnwright::step {

/// Calls `each(curve)` for every edge that has a curve.
template <class Each>
void for_each_edge(const TopoDS_Shape& shape, Each each) {
  for (TopExp_Explorer e(shape, TopAbs_EDGE); e.More(); e.Next()) {
    const TopoDS_Edge edge = TopoDS::Edge(e.Current());
    if (!BRep_Tool::Degenerated(edge)) each(BRepAdaptor_Curve(edge));
  }
}

inline gp_Pnt point_along(const BRepAdaptor_Curve& curve, double share) {
  const double first = curve.FirstParameter();
  return curve.Value(first + (curve.LastParameter() - first) * share);
}

}  // namespace turnwright::step
