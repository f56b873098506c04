// SPDX-License-Identifier: MIT
#include "turnwright/route/cutting_table.hpp"

#include <cmath>
#include <optional>

namespace turnwright {
namespace {

// A row for the step itself, or one of turning.
const CuttingRow* row_for(const CuttingGroup& group, std::string_view grade, double hardness,
                          std::optional<StepFactorId> step) {
  const CuttingRow* best = nullptr;
  for (const CuttingRow& row : group.rows) {
    if (row.grade != grade || !(step ? row.is_for(*step) : row.steps.empty())) continue;
    best = &row;
    if (hardness <= row.hardness.high) break;
  }
  return best;
}

// The step's own row before one of turning, the grade's before those of the grade it is like.
const CuttingRow* best_row(const CuttingGroup& group, const Shop& shop, const TableLookup& lookup,
                           double hardness) {
  std::string_view grade = lookup.grade;
  for (int tries = 0; tries < 2 && !grade.empty(); ++tries) {
    if (const CuttingRow* own = row_for(group, grade, hardness, lookup.step)) return own;
    if (const CuttingRow* row = row_for(group, grade, hardness, std::nullopt)) return row;
    const Grade* record = shop.grade(grade);
    grade = record != nullptr ? std::string_view(record->like) : std::string_view();
  }
  return nullptr;
}

// Log-linear between depths; the ends hold beyond.
double between_depths(const CuttingRow& row, Length depth, bool speed) {
  if (!speed && row.feed.empty()) return 0;
  auto value = [&](std::size_t i) { return speed ? row.speed[i].si : row.feed[i].si; };
  const std::size_t n = row.depth.size();
  if (depth <= row.depth[0]) return value(0);
  for (std::size_t i = 1; i < n; ++i)
    if (depth <= row.depth[i]) {
      const double t = std::log(depth.si / row.depth[i - 1].si) /
                       std::log(row.depth[i].si / row.depth[i - 1].si);
      return value(i - 1) * std::pow(value(i) / value(i - 1), t);
    }
  return value(n - 1);
}

}  // namespace

namespace {
// Where the tool alone decides.
std::optional<StepFactorId> factor_of_tool(ToolKind kind, bool by_hand) {
  switch (kind) {
    case ToolKind::inside_groove:
      return StepFactorId::inside_groove;
    case ToolKind::face_groove:
      return StepFactorId::face_groove;
    case ToolKind::drill:
      return StepFactorId::drill;
    case ToolKind::countersink:
      return StepFactorId::countersink;
    case ToolKind::ream:
      return StepFactorId::ream;
    case ToolKind::bore:
      return StepFactorId::bore;
    case ToolKind::thread:
    case ToolKind::inside_thread:
      return by_hand ? StepFactorId::thread_by_hand : StepFactorId::thread;
    case ToolKind::tap:
      return StepFactorId::tap;
    case ToolKind::die:
      return StepFactorId::die;
    case ToolKind::knurl:
      return StepFactorId::knurl;
    case ToolKind::centre:
      return StepFactorId::centre;
    default:
      return std::nullopt;
  }
}
}  // namespace

StepFactorId step_factor_of(StepKind kind, const Tool& tool, const Machine& machine) {
  const bool plunges = tool.kind == ToolKind::groove || tool.kind == ToolKind::part_off;
  if (plunges && machine.manual() && kind != StepKind::rough) return StepFactorId::thread_by_hand;
  if (const auto id = factor_of_tool(tool.kind, machine.manual())) return *id;
  switch (kind) {
    case StepKind::face:
      return StepFactorId::face;
    case StepKind::finish:
      return StepFactorId::finish;
    case StepKind::groove:
      return StepFactorId::groove;
    case StepKind::part_off:
      return StepFactorId::part_off;
    default:
      return StepFactorId::rough;
  }
}

TableSpeed table_speed(const Shop& shop, const Material& material, const TableLookup& lookup) {
  const CuttingGroup* group = shop.cutting_group(material.group);
  if (group == nullptr) return {};
  const CuttingRow* row = best_row(*group, shop, lookup, material.hardness.mean());
  if (row == nullptr) return {};
  const Grade* grade = shop.grade(row->grade);
  TableSpeed found;
  found.group = group;
  found.row = row;
  found.at = found.own() ? lookup.size : lookup.depth;
  found.speed = Speed(between_depths(*row, found.at, true));
  found.feed = Length(between_depths(*row, found.at, false));
  found.factor = found.own() ? 1.0 : shop.step_factor(lookup.step).speed_of(row->grade);
  if (row->reference_life.si > 0)
    found.reference_life = row->reference_life;
  else if (grade != nullptr)
    found.reference_life = grade->reference_life;
  return found;
}

}  // namespace turnwright
