// SPDX-License-Identifier: MIT
#include "turnwright/draft/draft.hpp"

#include <algorithm>

#include "drafting.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

constexpr double worth_saying = 1e-6;  // of the volume

void append(Messages& list, Messages more) {
  for (Message& m : more)
    if (std::find(list.begin(), list.end(), m) == list.end()) list.push_back(std::move(m));
}

struct Contours {
  ContourDraft outside, right, left;
};

Contours contours_of(const Recognition& model, const Bores& bores, DraftDetail detail) {
  const ContourRuns outside{drawn_runs(model.outside), Region::outside, false, false};
  return {elements_of(outside, model, detail), elements_of(bores.right, model, detail),
          elements_of(bores.left, model, detail)};
}

Messages tapped_holes(const Recognition& model) {
  Messages asked;
  for (const ModelFeature& f : model.features) {
    const bool is_hole = f.kind == FeatureKind::axial_hole || f.kind == FeatureKind::cross_hole;
    const std::string thread = is_hole ? tapped_in(f.diameter) : "";
    if (!thread.empty())
      asked.push_back(
          {"draft.tapped-holes", {{"n", f.count}, {"diameter", f.diameter}, {"thread", thread}}});
  }
  return asked;
}

// What the outline does not explain stands in other work, or is the reader's to find.
Messages left_over(const Recognition& model) {
  const double share = model.volume_ratio() > 0 ? 1 - model.volume_ratio() : 0;
  const ModelFeature* stock = polygon_of_stock(model);
  const bool stock_alone = stock != nullptr && model.features.size() == 1;
  if (share < worth_saying || stock_alone) return {};
  return {{model.features.empty() ? "draft.left-over" : "draft.left-over-work",
           {{"share", Share{share}},
            {"volume", measure(model.outline_volume - model.volume, unit::cm3, 3)},
            {"at", measure(model.void_at, unit::mm, 3)},
            {"diameter", measure(model.void_diameter, unit::mm, 3)}}}};
}

}  // namespace

Draft draft_of(const Recognition& model, const DraftRequest& request) {
  Draft draft;
  const Numbers numbers(model.inch);
  draft.number = request.number;
  if (model.solids.size() == 1 && model.product != request.number) draft.name = model.product;
  draft.inch = model.inch;
  draft.overall = numbers.place(model.length);
  const Bores bores = bores_of(model);
  Contours contours = contours_of(model, bores, request.detail);
  draft.to_confirm = {
      {"draft.fits",
       {{"n", contours.outside.diameters + contours.right.diameters + contours.left.diameters}}},
      "draft.edges",
      request.flipped ? "draft.which-end-flipped" : "draft.which-end"};
  for (ContourDraft* c : {&contours.outside, &contours.right, &contours.left})
    append(draft.to_confirm, std::move(c->to_confirm));
  append(draft.to_confirm, bores.to_confirm);
  append(draft.to_confirm, tapped_holes(model));
  append(draft.to_confirm, left_over(model));
  draft.outside = std::move(contours.outside.elements);
  draft.bore_right = std::move(contours.right.elements);
  draft.bore_left = std::move(contours.left.elements);
  draft_recesses(model, numbers, draft);
  const bool drawn = request.detail == DraftDetail::features;
  const ModelFeature* stock = drawn ? polygon_of_stock(model) : nullptr;
  if (stock != nullptr)
    (stock->kind == FeatureKind::hexagon ? draft.hexagon : draft.square) =
        numbers.size(stock->across);
  for (const ModelFeature& f : model.features)
    if (&f != stock) draft.other_work.push_back(other_work_of(f));
  return draft;
}

}  // namespace turnwright
