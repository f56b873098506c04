// SPDX-License-Identifier: MIT
#pragma once
// Where the tools of a route stand in the turret.
#include <cstddef>
#include <string>
#include <vector>

#include "turnwright/route/route.hpp"

namespace turnwright {

/// Stations of a machine for a route: its mounted tools first, then those to be loaded, in the
/// order of their use.
class ToolList {
 public:
  explicit ToolList(const Route& route);
  /// "T3"; the tool is one of the route.
  std::string station(const LoadedTool& tool) const;
  bool is_mounted(const LoadedTool& tool) const;
  std::size_t place_of(const LoadedTool& tool) const;
  std::size_t size() const { return tools_.size(); }

 private:
  std::vector<LoadedTool> tools_;
  std::size_t mounted_ = 0;
};
/// Tools of an operation, each once, in the order of their use.
std::vector<LoadedTool> tools_of(const Operation& operation);

}  // namespace turnwright
