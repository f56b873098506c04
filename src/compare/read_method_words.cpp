// SPDX-License-Identifier: MIT
#include "method_words.hpp"

namespace turnwright {

std::optional<MachineKind> machine_kind_named(std::string_view word) {
  if (word == "manual") return MachineKind::manual;
  if (word == "CNC") return MachineKind::cnc;
  return std::nullopt;
}

bool is_bar(std::string_view stock) { return stock == "bar"; }

bool is_turned_round(std::string_view pieces) { return pieces == "turned round"; }

}  // namespace turnwright
