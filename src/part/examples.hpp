// SPDX-License-Identifier: MIT
#pragma once
// Messages that every reader of this room needs: a section by its key, examples of what is
// expected.
#include <string>
#include <utility>

#include "turnwright/document/reader.hpp"

namespace turnwright {

/// A section of the file by its key.
inline Message section(std::string key) { return {"part.section", {{"key", std::move(key)}}}; }

inline Message such_as(std::string example) {
  return {"part.such-as", {{"example", std::move(example)}}};
}
inline Message such_as(std::string first, std::string second) {
  return {"part.such-as-either", {{"first", std::move(first)}, {"second", std::move(second)}}};
}
inline Message such_as(std::string first, std::string second, std::string third) {
  return {
      "part.such-as-any",
      {{"first", std::move(first)}, {"second", std::move(second)}, {"third", std::move(third)}}};
}

}  // namespace turnwright
