// SPDX-License-Identifier: MIT
#include <algorithm>

#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr double near_rating = 0.8;           // of the fastest speed, worth a word
constexpr Mass two_people = 10 * unit::kg;    // from memory
constexpr Mass crane_needed = 25 * unit::kg;  // above it a crane
constexpr double long_stick_out = 3;          // diameters out of the chuck alone

bool parts_off(const Operation& operation) {
  return std::any_of(operation.steps.begin(), operation.steps.end(),
                     [](const Step& step) { return step.kind == StepKind::part_off; });
}

bool runs_fast(const Step& step, const StepTime& time) {
  for (std::size_t i = 0; i < step.segments.size(); ++i)
    if (max(time.segments[i].start, time.segments[i].end) >= near_rating * step.segments[i].fastest)
      return true;
  return false;
}
bool runs_fast(const Operation& operation, const OperationTime& time) {
  for (std::size_t k = 0; k < operation.steps.size(); ++k)
    if (runs_fast(operation.steps[k], time.steps[k])) return true;
  return false;
}

void clamping_cautions(const Operation& o, Messages& list) {
  if (o.from_bar) list.emplace_back("sheet.bar-whips");
  if (o.support == Support::chuck && o.free_ratio > long_stick_out)
    list.push_back({"sheet.long-stick-out", {{"ratio", Figure{o.free_ratio, 2}}}});
}

void holder_cautions(const Operation& o, Messages& list) {
  if (o.face_plate)
    list.emplace_back("sheet.face-plate");
  else if (o.four_jaw)
    list.emplace_back("sheet.four-jaws");
  if (o.mass > crane_needed)
    list.push_back({"sheet.crane", {{"mass", measure(o.mass, unit::kg, 3)}}});
  else if (o.mass > two_people)
    list.push_back({"sheet.two-people", {{"mass", measure(o.mass, unit::kg, 3)}}});
}

}  // namespace

Messages operation_cautions(const Job& job, const Operation& operation, const OperationTime& time) {
  Messages list;
  clamping_cautions(operation, list);
  if (runs_fast(operation, time)) list.emplace_back("sheet.near-rated-speed");
  holder_cautions(operation, list);
  if (parts_off(operation)) list.emplace_back("sheet.parting");
  if (!job.material.short_chips) list.emplace_back("sheet.long-chips");
  if (job.material.chips_burn) list.emplace_back("sheet.burning-chips");
  return list;
}

const Messages& usual_cautions() {
  static const Messages list{"sheet.plates-first", "sheet.chuck-speed", "sheet.nothing-sticks-out",
                             "sheet.check-grip",   "sheet.guards",      "sheet.hot-chips",
                             "sheet.chip-fire"};
  return list;
}

}  // namespace turnwright
