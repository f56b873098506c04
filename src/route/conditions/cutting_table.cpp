// SPDX-License-Identifier: MIT
#include "turnwright/route/cutting_table.hpp"

#include <cmath>

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

const char* step_factor_name(StepKind kind, const Tool& tool, const Machine& machine) {
  switch (tool.kind) {
    case ToolKind::inside_groove:
      return "inside groove";
    case ToolKind::face_groove:
      return "face groove";
    case ToolKind::drill:
      return "drill";
    case ToolKind::countersink:
      return "countersink";
    case ToolKind::ream:
      return "ream";
    case ToolKind::bore:
      return "bore";
    case ToolKind::thread:
    case ToolKind::inside_thread:
      return machine.manual() ? "thread by hand" : "thread";
    case ToolKind::tap:
      return "tap";
    case ToolKind::die:
      return "die";
    case ToolKind::knurl:
      return "knurl";
    case ToolKind::centre:
      return "centre";
    default:
      break;
  }
  switch (kind) {
    case StepKind::face:
      return "face";
    case StepKind::finish:
      return "finish";
    case StepKind::groove:
      return "groove";
    case StepKind::part_off:
      return "part off";
    default:
      return "rough";
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
