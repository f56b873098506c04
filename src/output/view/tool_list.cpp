// SPDX-License-Identifier: MIT
#include "view/tool_list.hpp"

#include <algorithm>

namespace turnwright {
namespace {

void add_new(std::vector<LoadedTool>& list, const LoadedTool& tool) {
  if (std::find(list.begin(), list.end(), tool) == list.end()) list.push_back(tool);
}

}  // namespace

ToolList::ToolList(const Route& route) {
  for (const std::string& tool : route.machine.mounted_tools) tools_.push_back({tool, Length(0.0)});
  mounted_ = tools_.size();
  for (const Operation& operation : route.operations)
    for (const LoadedTool& tool : tools_of(operation))
      if (!is_mounted(tool)) add_new(tools_, tool);
}

// What is mounted in any size stands where its name does.
std::size_t ToolList::place_of(const LoadedTool& tool) const {
  const auto any = std::find(tools_.begin(), tools_.end(), LoadedTool{tool.tool, Length(0.0)});
  const auto found = any != tools_.end() ? any : std::find(tools_.begin(), tools_.end(), tool);
  return static_cast<std::size_t>(found - tools_.begin());
}
std::string ToolList::station(const LoadedTool& tool) const {
  return "T" + std::to_string(place_of(tool) + 1);
}
bool ToolList::is_mounted(const LoadedTool& tool) const { return place_of(tool) < mounted_; }

std::vector<LoadedTool> tools_of(const Operation& operation) {
  std::vector<LoadedTool> tools;
  for (const Step& step : operation.steps)
    if (!step.given) add_new(tools, loaded_tool(step));
  return tools;
}

}  // namespace turnwright
