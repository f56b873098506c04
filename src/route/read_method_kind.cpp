// SPDX-License-Identifier: MIT
#include "turnwright/route/route.hpp"

namespace turnwright {

std::optional<MethodKind> method_kind_named(std::string_view word) {
  if (word == "rough then finish") return MethodKind::rough_then_finish;
  if (word == "two finish cuts") return MethodKind::two_finish_cuts;
  if (word == "between centres") return MethodKind::between_centres;
  if (word == "leave and grind") return MethodKind::leave_and_grind;
  return std::nullopt;
}

}  // namespace turnwright
