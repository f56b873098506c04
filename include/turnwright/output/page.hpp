// SPDX-License-Identifier: MIT
#pragma once
// The inside of a quote as one HTML page: no network, no script; prints; dark and light.
#include <string>
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

std::string quote_page(const PartQuote& part, const Shop& shop,
                       const std::vector<InputDigest>& inputs, const Words& words);

}  // namespace turnwright
