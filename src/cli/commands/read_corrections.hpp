// SPDX-License-Identifier: MIT
#pragma once
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// Corrections and nothing else: a proposal of an earlier run.
bool holds_corrections(const NamedText& file);

}  // namespace turnwright::cli
