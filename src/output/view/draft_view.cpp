// SPDX-License-Identifier: MIT
#include <algorithm>

#include "turnwright/output/draft.hpp"

namespace turnwright {
namespace {

constexpr std::size_t most_listed = 30;

}  // namespace

Message why_no_draft(const Recognition& model) {
  switch (model.verdict) {
    case ModelVerdict::turned:
      return {};
    case ModelVerdict::not_turned:
      return "draft.not-turned";
    case ModelVerdict::no_axis:
      return "draft.no-axis";
    case ModelVerdict::envelope_too_small:
      return "draft.envelope-too-small";
    case ModelVerdict::no_solid:
      return {"draft.no-solid", {{"faces", model.faces}}};
    case ModelVerdict::several_solids:
      return {"draft.several-solids", {{"n", model.solids.size()}}};
    case ModelVerdict::unreadable:
      break;
  }
  return "draft.unreadable";
}

// Grooves in the faces are no part of the outline.
Volume draft_volume(const Job& job) {
  Volume volume = job.volume();
  for (const FaceCut& cut : job.face_cuts) volume -= cut.volume;
  return volume;
}

Message recognition_line(const Recognition& model) {
  if (model.solid == 0) return {};
  return {"draft.recognised",
          {{"share", Share{model.turned_share}},
           {"volume", measure(model.volume, unit::cm3, 6)},
           {"outline", measure(model.outline_volume, unit::cm3, 6)},
           {"ratio", Figure{model.volume_ratio(), 5}}}};
}

Messages solid_lines(const Recognition& model) {
  Messages lines;
  if (model.solids.size() < 2) return lines;
  for (std::size_t i = 0; i < std::min(model.solids.size(), most_listed); ++i) {
    const auto& box = model.solids[i];
    lines.push_back({"draft.solid",
                     {{"n", i + 1},
                      {"x", measure(box[0], unit::mm, 4)},
                      {"y", measure(box[1], unit::mm, 4)},
                      {"z", measure(box[2], unit::mm, 4)}}});
  }
  if (model.solids.size() > most_listed)
    lines.push_back({"draft.more-solids", {{"n", model.solids.size() - most_listed}}});
  return lines;
}

}  // namespace turnwright
