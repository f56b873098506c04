// SPDX-License-Identifier: MIT
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <STEPControl_Reader.hxx>
#include <StepBasic_Product.hxx>
#include <StepData_StepModel.hxx>
#include <TColStd_HArray1OfInteger.hxx>
#include <TColStd_SequenceOfAsciiString.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TopExp_Explorer.hxx>

#include "model.hpp"

namespace turnwright::step {
namespace {

bool is_in_inches(STEPControl_Reader& reader) {
  TColStd_SequenceOfAsciiString lengths, angles, solid_angles;
  reader.FileUnits(lengths, angles, solid_angles);
  if (lengths.IsEmpty()) return false;
  TCollection_AsciiString unit = lengths.First();
  unit.LowerCase();
  return unit.Search("inch") > 0 || unit == "in";
}

// What programs write that were given no name.
bool is_a_name(const Handle(TCollection_HAsciiString) & text) {
  return !text.IsNull() && !text->IsEmpty() && text->Search("Open CASCADE") < 1;
}

std::string product_of(const Handle(StepData_StepModel) & entities) {
  for (int i = 1; i <= entities->NbEntities(); ++i) {
    const auto product = Handle(StepBasic_Product)::DownCast(entities->Value(i));
    if (product.IsNull()) continue;
    for (const auto& text : {product->Name(), product->Id()})
      if (is_a_name(text)) return text->ToCString();
  }
  return "";
}

}  // namespace

Model read_model(const char* path) {
  // The library talks on standard output unless told not to.
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
  Model model;
  STEPControl_Reader reader;
  if (reader.ReadFile(path) != IFSelect_RetDone) return model;
  model.read = true;
  model.inch = is_in_inches(reader);
  model.product = product_of(reader.StepModel());
  reader.TransferRoots();
  const TopoDS_Shape shape = reader.OneShape();
  if (shape.IsNull()) return model;
  for (TopExp_Explorer e(shape, TopAbs_SOLID); e.More(); e.Next())
    model.solids.push_back(e.Current());
  for (TopExp_Explorer e(shape, TopAbs_FACE); e.More(); e.Next()) ++model.faces;
  return model;
}

}  // namespace turnwright::step
