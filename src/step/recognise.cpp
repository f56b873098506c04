// SPDX-License-Identifier: MIT
#include "recognise.hpp"

#include <BRepAdaptor_Surface.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <Standard_Failure.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <gp_Ax1.hxx>

#include <algorithm>
#include <array>
#include <cmath>

#include "axis.hpp"
#include "envelope.hpp"

namespace turnwright::step {
namespace {

// What still counts as a turned part; conventions of ours, tried on 158 public models that are
// none.
constexpr double least_turned_share = 0.35, least_volume_ratio = 0.35, most_enveloped = 0.8;
constexpr double most_volume_ratio = 1.002;  // more: a surface was missed

// Faster exact for elementary surfaces; those by points need the slow method.
GProp_GProps body_of(const TopoDS_Shape& solid) {
  bool by_points = false;
  for (TopExp_Explorer e(solid, TopAbs_FACE); e.More(); e.Next())
    if (BRepAdaptor_Surface(TopoDS::Face(e.Current()), false).GetType() > GeomAbs_Torus)
      by_points = true;
  GProp_GProps volume;
  if (by_points)
    BRepGProp::VolumeProperties(solid, volume, 1e-6, Standard_False, Standard_False);
  else
    BRepGProp::VolumeProperties(solid, volume);
  return volume;
}

Face face_or_unknown(const TopoDS_Face& shape, const Scale& scale) {
  try {
    return classified(shape, scale);
  } catch (const Standard_Failure&) {
    Face face;
    face.shape = shape;
    return face;
  }
}

std::vector<Face> faces_of(const TopoDS_Shape& solid, const Scale& scale) {
  TopTools_IndexedMapOfShape numbers;
  TopExp::MapShapes(solid, TopAbs_FACE, numbers);
  std::vector<Face> faces;
  for (int i = 1; i <= numbers.Extent(); ++i) {
    faces.push_back(face_or_unknown(TopoDS::Face(numbers(i)), scale));
    for (Piece& p : faces.back().pieces) p.face = i;
  }
  return faces;
}

double turned_share(const std::vector<Face>& faces) {
  double turned = 0, all = 0;
  for (const Face& face : faces) {
    all += face.area;
    if (face.turned) turned += face.area;
  }
  return all > 0 ? turned / all : 0;
}

bool has_outside_polygon(const Recognised& r) {
  return std::any_of(r.features.begin(), r.features.end(), [](const Feature& f) {
    return f.kind == FeatureKind::hexagon || f.kind == FeatureKind::square;
  });
}

ModelVerdict verdict_of(const Recognised& r) {
  const double ratio = r.outline_volume > 0 ? r.volume / r.outline_volume : 0;
  if (r.turned_share < least_turned_share || ratio < least_volume_ratio)
    return ModelVerdict::not_turned;
  if (r.outline.enveloped > most_enveloped * r.length && !has_outside_polygon(r))
    return ModelVerdict::not_turned;
  return ratio > most_volume_ratio ? ModelVerdict::envelope_too_small : ModelVerdict::turned;
}

// By the moments of both bodies: the middle of what is missing, and its mean distance from the
// axis.
Missing missing_from(const GProp_GProps& body, const TurnedOutline& outline, bool mirrored) {
  const double volume = outline.volume() - body.Mass();
  if (volume < 1e-9 * body.Mass() || outline.outside.empty()) return {};
  const double z = (outline.moment() - body.Mass() * body.CentreOfMass().Z()) / volume;
  const double about = outline.moment_about_axis() - body.MomentOfInertia(gp_Ax1());
  Extent reach;
  for (const Run& run : outline.outside) reach.take(run.piece.at((run.from + run.to) / 2));
  const double from = outline.outside.front().from, to = outline.outside.back().to;
  const double at = std::clamp(z, from, to);
  return {mirrored ? to - at : at - from,
          2 * std::clamp(std::sqrt(std::max(0.0, about / volume)), 0.0, reach.high)};
}

// As the outline was: seen from the right-hand end.
void place(std::vector<Feature>& features, const TurnedOutline& before, bool mirrored,
           double grid) {
  if (before.outside.empty()) return;
  const double start = before.outside.front().from, end = before.outside.back().to;
  for (Feature& f : features) {
    const double from = mirrored ? end - f.to : f.from - start;
    f.to = std::round((mirrored ? end - f.from : f.to - start) / grid) * grid;
    f.from = std::round(from / grid) * grid;
  }
}

}  // namespace

Recognised recognised(const TopoDS_Shape& solid, bool flip, double grid) {
  Recognised r;
  const Scale scale{box_of(solid).largest()};
  const auto axis = axis_of(solid, scale);
  const TopoDS_Shape aligned = axis ? along_z(solid, *axis) : solid;
  const GProp_GProps body = body_of(aligned);
  r.volume = body.Mass();
  if (!axis || scale.size <= 0) return r;
  const std::vector<Face> faces = faces_of(aligned, scale);
  const Envelope envelope(faces);
  const TurnedOutline outline =
      outline_of(faces, scale, [&](double from, double to) { return envelope.reach(from, to); });
  r.outline_volume = outline.volume();
  r.turned_share = turned_share(faces);
  bool mirrored = false;
  r.features = features_of(aligned, faces);
  r.outline = from_right_end(outline, mirrored, flip, grid);
  place(r.features, outline, mirrored, grid);
  r.missing = missing_from(body, outline, mirrored);
  r.length = r.outline.outside.empty() ? 0 : r.outline.outside.back().to;
  r.verdict = verdict_of(r);
  return r;
}

}  // namespace turnwright::step
