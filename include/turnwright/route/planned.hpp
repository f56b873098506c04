// SPDX-License-Identifier: MIT
#pragma once
// How a plan fails, everywhere alike: a value, or why there is none and what would help.
#include <optional>
#include <utility>

#include "turnwright/quantity/message.hpp"

namespace turnwright {

struct Infeasible {
  Message why;
  Messages remedies;  // may be empty
};

template <class T>
class Planned {
 public:
  Planned(T value) : value_(std::move(value)) {}                          // NOLINT
  Planned(Infeasible infeasible) : infeasible_(std::move(infeasible)) {}  // NOLINT
  explicit operator bool() const { return value_.has_value(); }
  const T& operator*() const { return *value_; }
  T& operator*() { return *value_; }
  const T* operator->() const { return &*value_; }
  T* operator->() { return &*value_; }
  /// Only without a value.
  const Infeasible& infeasible() const { return infeasible_; }

 private:
  std::optional<T> value_;
  Infeasible infeasible_;
};

}  // namespace turnwright
