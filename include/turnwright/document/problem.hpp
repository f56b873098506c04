// SPDX-License-Identifier: MIT
#pragma once
// Something wrong in an input, with its place, and the result of reading: a value or all problems.
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "turnwright/quantity/message.hpp"

namespace turnwright {

/// Line and column count from 1, columns in characters. 0 means no place is known.
struct Position {
  int line = 0;
  int column = 0;
};

struct Problem {
  std::string file;
  Position at;
  int width = 1;               // characters to underline
  Message what;                // unknown key 'diametre'
  Message expected;            // diameter, length, thread; may be empty
  std::string suggestion;      // "diameter"; may be empty
  std::string source_line;     // the line of the file, may be empty
  std::size_t stands_for = 1;  // problems: more where it sums up those that are not listed
};

using Problems = std::vector<Problem>;

/// More than anybody reads in one go; what comes after is counted.
inline constexpr std::size_t most_problems = 200;

/// Names to choose from, as what was expected.
Message one_of(const std::vector<std::string>& names);

/// The value read, or every problem found (never both, never neither).
template <class T>
class Checked {
 public:
  Checked(T value) : value_(std::move(value)) {}                  // NOLINT
  Checked(Problems problems) : problems_(std::move(problems)) {}  // NOLINT
  explicit operator bool() const { return value_.has_value(); }
  const T& operator*() const { return *value_; }
  T& operator*() { return *value_; }
  const T* operator->() const { return &*value_; }
  T* operator->() { return &*value_; }
  const Problems& problems() const { return problems_; }

 private:
  std::optional<T> value_;
  Problems problems_;
};

}  // namespace turnwright
