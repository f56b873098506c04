// SPDX-License-Identifier: MIT
#pragma once
// The part files that a request names, read from beside it.
#include "turnwright/part/request.hpp"

namespace turnwright::cli {

struct OrderedPart {
  std::string path, text;
  Checked<Part> part;
};
/// Every part of the request, or why it cannot be read, in its order.
std::vector<OrderedPart> ordered_parts(const Request& request);

}  // namespace turnwright::cli
