// SPDX-License-Identifier: MIT
// What is not turned, with its sizes and its place, in words of the catalogue; the minutes are the
// estimator's.
#include <cmath>

#include "drafting.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

Message hole(const ModelFeature& f) {
  Message m{"draft.cross-hole", {{"diameter", f.diameter}, {"at", (f.from + f.to) / 2.0}}};
  if (f.kind == FeatureKind::axial_hole)
    m = {"draft.axial-hole",
         {{"diameter", f.diameter}, {"depth", f.depth}, {"circle", f.pitch_circle}}};
  else if (f.kind == FeatureKind::oblique_hole)
    m = {"draft.oblique-hole", {{"diameter", f.diameter}, {"from", f.from}, {"to", f.to}}};
  if (f.offset.si > 0) m = {"draft.off-centre", {{"what", std::move(m)}, {"offset", f.offset}}};
  if (f.stepped.si > 0) m = {"draft.stepped", {{"what", std::move(m)}, {"diameter", f.stepped}}};
  if (f.cones > 0) m = {"draft.countersunk", {{"what", std::move(m)}}};
  return m;
}

Message flats(const char* id, const ModelFeature& f) {
  return {id, {{"across", f.across}, {"from", f.from}, {"to", f.to}}};
}

Message single(const ModelFeature& f) {
  const Place from("from", f.from), to("to", f.to);
  switch (f.kind) {
    case FeatureKind::keyway:
      return {"draft.keyway",
              {{"width", f.width}, {"length", f.length}, {"floor", f.floor}, from, to}};
    case FeatureKind::slot:
      return {"draft.slot", {{"width", f.width}, {"length", f.length}, from, to}};
    case FeatureKind::flat:
      return {"draft.flat", {{"distance", f.from_axis}, from, to}};
    case FeatureKind::hexagon:
      return flats("draft.hexagon", f);
    case FeatureKind::square:
      return flats("draft.square", f);
    case FeatureKind::hexagon_socket:
      return flats("draft.hexagon-socket", f);
    case FeatureKind::square_socket:
      return flats("draft.square-socket", f);
    case FeatureKind::cross_hole:
    case FeatureKind::axial_hole:
    case FeatureKind::oblique_hole:
      return hole(f);
    case FeatureKind::eccentric:
      return {"draft.eccentric", {{"diameter", f.diameter}, {"offset", f.offset}, from, to}};
    case FeatureKind::free_form:
      return {"draft.free-faces",
              {{"faces", f.faces}, {"inner", f.inner}, {"outer", f.outer}, from, to}};
    case FeatureKind::other:
      break;
  }
  return {"draft.other-faces",
          {{"faces", f.faces}, {"inner", f.inner}, {"outer", f.outer}, from, to}};
}

}  // namespace

Message other_work_of(const ModelFeature& feature) {
  Message one = single(feature);
  if (feature.count == 1) return one;
  return {"draft.several", {{"n", feature.count}, {"what", std::move(one)}}};
}

const ModelFeature* polygon_of_stock(const Recognition& model) {
  Length largest(0.0);
  for (const ModelRun& r : model.outside)
    if (r.form != RunForm::envelope) largest = max(largest, max(r.diameter_from, r.diameter_to));
  for (const ModelFeature& f : model.features) {
    const bool hexagon = f.kind == FeatureKind::hexagon, square = f.kind == FeatureKind::square;
    const double corners = hexagon ? 2 / std::sqrt(3.0) : std::sqrt(2.0);
    if ((hexagon || square) && (corners * f.across).si > largest.si - same_size) return &f;
  }
  return nullptr;
}

namespace {

bool has_straight_walls(const RingRecess& r) {
  constexpr double as_drawn = 1e-4;
  const Volume ring = pi / 4 * (square(r.outer) - square(r.inner)) * (r.to - r.from);
  return std::abs((r.volume / ring).si - 1) < as_drawn;
}

}  // namespace

void draft_recesses(const Recognition& model, const Numbers& numbers, Draft& draft) {
  for (const RingRecess& r : model.recesses) {
    const std::vector<Place> size{
        {"inner", r.inner}, {"outer", r.outer}, {"from", r.from}, {"to", r.to}};
    if (!has_straight_walls(r)) draft.to_confirm.push_back({"draft.recess-walls", size});
    const bool right = same(r.from, Length(0.0)), left = same(r.to, model.length);
    if (right || left) {
      (right ? draft.right_grooves : draft.left_grooves)
          .push_back({numbers.size((r.outer - r.inner) / 2.0), numbers.place(r.to - r.from),
                      numbers.size(r.inner)});
    } else {
      draft.other_work.push_back({"draft.recess", size});
      draft.other_recesses += r.volume;
    }
  }
}

}  // namespace turnwright
