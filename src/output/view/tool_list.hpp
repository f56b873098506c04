// SPDX-License-Identifier: MIT
#pragma once
// Where the tools of a route stand in the turret, and what is gauged.
#include <string>
#include <vector>

#include "turnwright/route/route.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// Stations of a machine for a route: its mounted tools first, then those to be loaded, in the
/// order of their use.
class ToolList {
 public:
  explicit ToolList(const Route& route);
  /// "T3"; the tool is one of the route.
  std::string station(const std::string& tool) const;
  bool is_mounted(const std::string& tool) const;
  std::size_t size() const { return tools_.size(); }

 private:
  std::size_t place_of(const std::string& tool) const;
  std::vector<std::string> tools_;
  std::size_t mounted_ = 0;
};
/// Tools of an operation, each once, in the order of their use.
std::vector<std::string> tools_of(const Operation& operation);

/// A size that is finished in an operation, and how often it is measured.
struct Gauged {
  Message size;             // as drawn
  double share = 1;         // of the pieces
  bool toleranced = false;  // else a spot check
};
/// Those that are measured at all.
std::vector<Gauged> gauged_in(const Operation& operation, const Job& job, const Shop& shop);

}  // namespace turnwright
