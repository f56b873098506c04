// SPDX-License-Identifier: MIT
#include "solids.hpp"

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GProp_GProps.hxx>
#include <Geom_TrimmedCurve.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <STEPControl_Writer.hxx>
#include <TopoDS.hxx>
#include <gp.hxx>
#include <gp_Ax1.hxx>
#include <gp_Ax2.hxx>
#include <gp_Ax3.hxx>
#include <gp_Trsf.hxx>

#include <cmath>
#include <stdexcept>

namespace solids {

TopoDS_Shape revolved(const Profile& profile, double angle) {
  BRepBuilderAPI_MakeWire wire;
  const auto point = [](double z, double r) { return gp_Pnt(r, 0, z); };
  for (std::size_t i = 0; i < profile.size(); ++i) {
    const Corner &a = profile[i], &b = profile[(i + 1) % profile.size()];
    const gp_Pnt from = point(a.z, a.r), to = point(b.z, b.r);
    if (from.Distance(to) < 1e-7) continue;
    if (b.arc)
      wire.Add(BRepBuilderAPI_MakeEdge(Handle(Geom_TrimmedCurve)(
                                           GC_MakeArcOfCircle(from, point(b.mz, b.mr), to).Value()))
                   .Edge());
    else
      wire.Add(BRepBuilderAPI_MakeEdge(from, to).Edge());
  }
  BRepBuilderAPI_MakeFace face(wire.Wire());
  return BRepPrimAPI_MakeRevol(face.Face(), gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), angle)
      .Shape();
}

TopoDS_Shape cut(const TopoDS_Shape& from, const TopoDS_Shape& what) {
  return BRepAlgoAPI_Cut(from, what).Shape();
}

TopoDS_Shape cylinder(const gp_Pnt& at, const gp_Dir& along, double radius, double height) {
  return BRepPrimAPI_MakeCylinder(gp_Ax2(at, along), radius, height).Shape();
}

TopoDS_Shape moved(const TopoDS_Shape& shape, const gp_Pnt& to, const gp_Dir& direction) {
  gp_Trsf t;
  t.SetDisplacement(gp_Ax3(gp::XOY()), gp_Ax3(to, direction));
  return BRepBuilderAPI_Transform(shape, t, true).Shape();
}

void save(const TopoDS_Shape& shape, const std::string& path, const std::string& schema,
          const std::string& unit) {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
  STEPControl_Writer first;  // makes the settings known
  Interface_Static::SetCVal("write.step.schema", schema.c_str());
  Interface_Static::SetCVal("write.step.unit", unit.c_str());
  STEPControl_Writer writer;
  writer.Transfer(shape, STEPControl_AsIs);
  if (writer.Write(path.c_str()) != IFSelect_RetDone) throw std::runtime_error(path);
}

double volume(const TopoDS_Shape& shape) {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(shape, properties);
  return properties.Mass();
}

}  // namespace solids
