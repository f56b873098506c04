// SPDX-License-Identifier: MIT
#pragma once
// Cones that fit another.
#include "turnwright/part/part.hpp"

namespace turnwright {

/// A taper given by its ratio or its number, or named as a seat, has a mate, and a gauge like it.
inline bool is_fitted_taper(const Element& element) {
  return element.kind == ElementKind::cone &&
         (element.morse || element.taper || !element.seat.empty());
}

}  // namespace turnwright
