// SPDX-License-Identifier: MIT
// How a route's parts are called and counted.
#include "turnwright/route/route.hpp"

#include <tuple>

namespace turnwright {

Route::Route() = default;
Route::Route(const Route&) = default;
Route::Route(Route&&) noexcept = default;
Route& Route::operator=(const Route&) = default;
Route& Route::operator=(Route&&) noexcept = default;
Route::~Route() = default;

Operation::Operation() = default;
Operation::Operation(const Operation&) = default;
Operation::Operation(Operation&&) noexcept = default;
Operation& Operation::operator=(const Operation&) = default;
Operation& Operation::operator=(Operation&&) noexcept = default;
Operation::~Operation() = default;

Step::Step() = default;
Step::Step(const Step&) = default;
Step::Step(Step&&) noexcept = default;
Step& Step::operator=(const Step&) = default;
Step& Step::operator=(Step&&) noexcept = default;
Step::~Step() = default;

const char* name_of(StepKind kind) {
  switch (kind) {
    case StepKind::face:
      return "face";
    case StepKind::centre:
      return "centre";
    case StepKind::drill:
      return "drill";
    case StepKind::rough:
      return "rough";
    case StepKind::bore:
      return "bore";
    case StepKind::finish:
      return "finish";
    case StepKind::ream:
      return "ream";
    case StepKind::groove:
      return "groove";
    case StepKind::knurl:
      return "knurl";
    case StepKind::chamfer:
      return "chamfer";
    case StepKind::tap:
      return "tap";
    case StepKind::thread:
      return "thread";
    case StepKind::part_off:
      return "part-off";
    case StepKind::given:
      break;
  }
  return "given";
}

const char* name_of(Jaws jaws) {
  switch (jaws) {
    case Jaws::soft:
      return "soft";
    case Jaws::padded:
      return "padded";
    case Jaws::hard:
      break;
  }
  return "hard";
}

const char* name_of(MethodKind method) {
  switch (method) {
    case MethodKind::rough_then_finish:
      return "rough-then-finish";
    case MethodKind::two_finish_cuts:
      return "two-finish-cuts";
    case MethodKind::between_centres:
      return "between-centres";
    case MethodKind::leave_and_grind:
      break;
  }
  return "leave-and-grind";
}

bool LoadedTool::operator<(const LoadedTool& other) const {
  return std::tie(tool, size.si) < std::tie(other.tool, other.size.si);
}
bool LoadedTool::operator==(const LoadedTool& other) const {
  return tool == other.tool && size.si == other.size.si;
}
LoadedTool loaded_tool(const Step& step) {
  const bool sized =
      step.kind == StepKind::drill || step.kind == StepKind::ream || step.kind == StepKind::tap;
  if (!sized || step.tailstock || step.segments.empty()) return {step.tool, Length(0.0)};
  return {step.tool, step.segments.front().large_diameter};
}

std::vector<std::span<const CutSegment>> passes_of(const Step& step) {
  std::vector<std::span<const CutSegment>> passes;
  const std::span<const CutSegment> all(step.segments);
  std::size_t first = 0;
  for (std::size_t i = 1; i <= all.size(); ++i) {
    if (i < all.size() && !all[i].starts_pass) continue;
    passes.push_back(all.subspan(first, i - first));
    first = i;
  }
  return passes;
}

std::string step_label(const Operation& operation, const Step& step) {
  return std::to_string(operation.number) + "." + std::to_string(step.number);
}

namespace {
Message holder_words(Holder holder) {
  switch (holder) {
    case Holder::chuck:
      return "clamping.chuck";
    case Holder::four_jaw_chuck:
      return "clamping.four-jaw-chuck";
    case Holder::face_plate:
      return "clamping.face-plate";
    case Holder::bar_in_chuck:
      return "clamping.bar-in-chuck";
    case Holder::bar_in_collet:
      return "clamping.bar-in-collet";
    case Holder::mandrel:
      return "clamping.mandrel";
    case Holder::dog:
      return "clamping.dog";
    case Holder::face_driver:
      break;
  }
  return "clamping.face-driver";
}

Message with_centre(const Operation& operation, Message holder) {
  if (operation.support != Support::chuck_and_centre) return holder;
  const Place place("holder", std::move(holder));
  return operation.centre_in_bore ? Message{"clamping.with-centre-in-bore", {place}}
                                  : Message{"clamping.with-centre", {place}};
}
}  // namespace

Message clamping_of(const Operation& operation) {
  Message clamping = with_centre(operation, holder_words(operation.holder));
  if (operation.follow) clamping = {"clamping.with-follow-rest", {{"clamping", clamping}}};
  if (!operation.steady) return clamping;
  return {"clamping.with-steady-rest", {{"clamping", std::move(clamping)}}};
}

}  // namespace turnwright
