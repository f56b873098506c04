// SPDX-License-Identifier: MIT
#pragma once
// Problems found while part and shop are brought together.
#include <string>

#include "turnwright/document/problem.hpp"

namespace turnwright {

struct Complaints {
  const std::string& file;
  Problems& list;

  void add(Position at, std::string what, std::string expected = "",
           std::string suggestion = "") const {
    list.push_back({file, at, 1, std::move(what), std::move(expected), std::move(suggestion), ""});
  }
};

}  // namespace turnwright
