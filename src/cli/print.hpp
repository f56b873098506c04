// SPDX-License-Identifier: MIT
#pragma once
#include <ostream>

#include "turnwright/document/problem.hpp"

namespace turnwright::cli {

inline void print(const Problems& problems, std::ostream& err) {
  for (const Problem& p : problems) err << text_of(p);
}

}  // namespace turnwright::cli
