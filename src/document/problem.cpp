// SPDX-License-Identifier: MIT
#include "turnwright/document/problem.hpp"

namespace turnwright {

Message one_of(const std::vector<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  return {"expected.one-of", {{"names", list}}};
}

}  // namespace turnwright
