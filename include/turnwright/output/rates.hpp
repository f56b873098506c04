// SPDX-License-Identifier: MIT
#pragma once
// What the books say an hour costs, as text and as JSON.
#include <string>

#include "turnwright/estimate/books.hpp"

namespace turnwright {

/// Rates from the books, what they contain, and what they return at other hours; without books the
/// words of the rates given.
std::string rates_text(const Shop& shop);
std::string rates_json(const Shop& shop);

}  // namespace turnwright
