// SPDX-License-Identifier: MIT
#pragma once
// Work that is on its machine already.
#include <optional>

#include "turnwright/week/plan.hpp"

namespace turnwright {

/// When its machine is open next; nothing where that is down for longer than the day that work
/// which runs waits for it.
inline std::optional<Minute> opens_again(const Calendar& calendar, Minute now) {
  const Minute next = calendar.next(now);
  if (next == never || next >= now + minutes_a_day) return std::nullopt;
  return next;
}

/// It is set up there: nothing but what is left of its run.
inline void take_as_set_up(Choice& choice) {
  choice.setup = choice.proving = 0;
  for (SetupItem& item : choice.items) item.minutes = 0;
}

}  // namespace turnwright
