// SPDX-License-Identifier: MIT
#include "turnwright/route/cutting_table.hpp"

#include <cmath>
#include <optional>

namespace turnwright {
namespace {

const CuttingRow* row_for(const CuttingGroup& group, std::string_view grade, double hardness) {
  const CuttingRow* best = nullptr;
  for (const CuttingRow& row : group.rows) {
    if (row.grade != grade) continue;
    best = &row;
    if (hardness <= row.hardness.high) break;
  }
  return best;
}

// Log-linear between depths; the ends hold beyond.
double between_depths(const CuttingRow& row, Length depth, bool speed) {
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

TableSpeed table_speed(const Shop& shop, const Material& material, std::string_view grade,
                       Length depth) {
  const CuttingGroup* group = shop.cutting_group(material.group);
  if (group == nullptr) return {};
  const CuttingRow* row = row_for(*group, grade, material.hardness.mean());
  if (row == nullptr) return {};
  return {Speed(between_depths(*row, depth, true)), Length(between_depths(*row, depth, false)),
          group, row};
}

}  // namespace turnwright
