// SPDX-License-Identifier: MIT
#include "setup_items.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

// What an element of the setup mounts; nothing where it mounts nothing that may stay for the next.
std::optional<MountedItem> mounted_by(const ElementTime& e, const Operation& operation,
                                      const Stock& stock) {
  switch (e.id) {
    case ElementId::setup_jaws:
      return MountedItem{
          operation.jaws == Jaws::soft ? MountedKind::soft_jaws : MountedKind::hard_jaws, "", 0};
    case ElementId::setup_soft_jaws_bored:
      return mounted_item(MountedKind::bored_jaws, operation.grip_diameter);
    case ElementId::setup_bar_feeder:
      return mounted_item(MountedKind::bar, stock.diameter);
    default:
      return std::nullopt;
  }
}

// As a week file writes it.
std::string name_of(const LoadedTool& loaded) {
  if (loaded.size.si <= 0) return loaded.tool;
  return loaded.tool + " " + readable(in(loaded.size, unit::mm), 5) + " " +
         std::string(unit::mm.name);
}

// Tools of an operation that are not always in the turret.
std::set<std::string> extra_tools(const Operation& operation, const Machine& machine) {
  std::set<std::string> tools;
  const auto& mounted = machine.mounted_tools;
  for (const Step& step : operation.steps)
    if (!step.given && std::find(mounted.begin(), mounted.end(), step.tool) == mounted.end())
      tools.insert(name_of(loaded_tool(step)));
  return tools;
}

}  // namespace

int whole_minutes(double minutes) {
  constexpr double most = 1 << 25;  // 63 years
  return static_cast<int>(std::lround(std::clamp(minutes, 0.0, most)));
}

MountedItem mounted_item(MountedKind kind, Length diameter) {
  const double mm = in(diameter, unit::mm);
  // As it is written, so that what a week file says is the same.
  return {kind, "", read_number(readable(mm, 5)).value_or(mm)};
}

SetupSplit split_setup(const Quote& quote, std::size_t k) {
  const OperationTime& time = quote.times.operations[k];
  const Operation& operation = quote.route.operations[k];
  SetupSplit split;
  split.rest = in(time.setup, unit::min);
  double tool_minutes = 0;
  int counted = 0;
  for (const ElementTime& e : time.setup_elements) {
    const double minutes = in(e.machine, unit::min);
    if (e.id == ElementId::setup_program || e.id == ElementId::setup_program_features ||
        e.id == ElementId::setup_proving) {
      split.first += minutes;
      split.rest -= minutes;
    } else if (e.id == ElementId::setup_tools) {
      tool_minutes = minutes;
      counted = e.count;
    } else if (auto item = mounted_by(e, operation, quote.route.job.stock)) {
      split.items.push_back({std::move(*item), whole_minutes(minutes)});
      split.rest -= split.items.back().minutes;
    }
  }
  // The operation before brought some of its tools: they are mounted only when it ran just before.
  const double each = counted > 0 ? tool_minutes / counted : 0;
  for (const std::string& tool : extra_tools(operation, quote.route.machine))
    split.items.push_back({{MountedKind::tool, tool, 0}, 0});
  if (each <= 0) return split;
  split.rest -= tool_minutes;
  for (MountedTime& mounted : split.items)
    if (mounted.minutes == 0) mounted.minutes = whole_minutes(each);
  return split;
}

}  // namespace turnwright
