// SPDX-License-Identifier: MIT
#pragma once
#include <string>
#include <vector>

namespace turnwright {

/// A name and what stands beside it.
struct Fact {
  std::string name, value;
};
using Facts = std::vector<Fact>;

}  // namespace turnwright
