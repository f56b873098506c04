// SPDX-License-Identifier: MIT
#pragma once
// What the books say an hour costs, as text and as JSON.
#include <string>

#include "turnwright/estimate/books.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// Rates from the books, what they contain, and what they return at other hours; without books
/// what the rates given contain.
std::string rates_text(const Shop& shop, const Words& words);
std::string rates_json(const Shop& shop);

}  // namespace turnwright
