// SPDX-License-Identifier: MIT
#include "view/tool_list.hpp"

#include <algorithm>

namespace turnwright {
namespace {

void add_new(std::vector<std::string>& list, const std::string& name) {
  if (std::find(list.begin(), list.end(), name) == list.end()) list.push_back(name);
}

}  // namespace

ToolList::ToolList(const Route& route) : tools_(route.machine.mounted_tools) {
  mounted_ = tools_.size();
  for (const Operation& operation : route.operations)
    for (const std::string& tool : tools_of(operation)) add_new(tools_, tool);
}

std::size_t ToolList::place_of(const std::string& tool) const {
  return static_cast<std::size_t>(std::find(tools_.begin(), tools_.end(), tool) - tools_.begin());
}
std::string ToolList::station(const std::string& tool) const {
  return "T" + std::to_string(place_of(tool) + 1);
}
bool ToolList::is_mounted(const std::string& tool) const { return place_of(tool) < mounted_; }

std::vector<std::string> tools_of(const Operation& operation) {
  std::vector<std::string> tools;
  for (const Step& step : operation.steps)
    if (!step.given) add_new(tools, step.tool);
  return tools;
}

}  // namespace turnwright
