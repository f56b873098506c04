// SPDX-License-Identifier: MIT
#pragma once
// When something is open. Moments are minutes from midnight before the first day of the plan, by
// the shop's own clock: it has no zone, and no hour is skipped or doubled.
#include <vector>

namespace turnwright {

/// Minutes from the start of the plan.
using Minute = int;
inline constexpr Minute never = 1 << 29;
inline constexpr Minute minutes_a_day = 24 * 60;
/// Whole days before a moment; below 0 where it lies before the first day.
constexpr int days_before(Minute t) {
  return t >= 0 ? t / minutes_a_day : -((minutes_a_day - 1 - t) / minutes_a_day);
}

struct Span {
  Minute from = 0, to = 0;  // from < to
};

/// Spans joined where they touch or overlap, in order.
std::vector<Span> joined(std::vector<Span> spans);
/// What is in `a` and not in `b`; both joined.
std::vector<Span> without(const std::vector<Span>& a, const std::vector<Span>& b);
/// What is in both.
std::vector<Span> in_both(const std::vector<Span>& a, const std::vector<Span>& b);

class Calendar {
 public:
  Calendar() = default;
  explicit Calendar(std::vector<Span> open);
  /// Open at every moment.
  static Calendar always();

  const std::vector<Span>& open() const { return open_; }
  /// The first open moment from t on; never when there is none.
  Minute next(Minute t) const;
  /// When `work` open minutes from t on have passed; never when the calendar ends before.
  Minute after(Minute t, Minute work) const;
  /// Open minutes between two moments.
  Minute between(Minute from, Minute to) const;

 private:
  std::size_t span_at(Minute t) const;  // the first that ends after t
  std::vector<Span> open_;
  std::vector<Minute> before_;  // open minutes before each span
};

}  // namespace turnwright
