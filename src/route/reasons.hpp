// SPDX-License-Identifier: MIT
#pragma once
// Reasons that follow each other.
#include "turnwright/quantity/message.hpp"

namespace turnwright {

/// "first; second"; one of them alone where the other is empty.
inline Message both(Message first, Message second) {
  if (first.empty()) return second;
  if (second.empty()) return first;
  return Message{"plan.both", {{"first", std::move(first)}, {"second", std::move(second)}}};
}

inline Message chained(const Messages& all) {
  Message chain;
  for (const Message& next : all) chain = both(std::move(chain), next);
  return chain;
}

/// "Op 10: why".
inline Message in_operation(int number, Message why) {
  return Message{"plan.in-operation", {{"operation", number}, {"why", std::move(why)}}};
}

}  // namespace turnwright
