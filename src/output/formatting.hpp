// SPDX-License-Identifier: MIT
#pragma once
// Numbers as people read them: minutes with two decimals, hours with one, money with cents.
#include <string>

#include "turnwright/output/words.hpp"
#include "turnwright/part/part.hpp"
#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

inline std::string minutes_text(Time t, const Words& words, int places = 2) {
  return words.fixed(in(t, unit::min), places);
}
inline std::string hours_text(Time t, const Words& words) { return words.fixed(in(t, unit::h), 1); }
/// True when it is 0.00 on paper.
inline bool is_shown_as_zero(Time t) { return in(t, unit::min) < 0.005; }

inline std::string percent_text(double share, const Words& words, int places = 0) {
  return words.fixed(100 * share, places) + " %";
}
/// With a plus where it is more.
std::string signed_text(Amount amount, const Words& words);
std::string signed_percent(double share, const Words& words, int places);
/// Number and unit with fixed places, in the reader's counterpart of the metric unit.
std::string fixed_measure(double si, const Unit& metric, int places, const Words& words);

/// A length with the digits that a machinist reads, and its number alone.
inline std::string length_text(Length l, const Words& words, int digits = 5) {
  return words.measure(measure(l, unit::mm, digits));
}
inline std::string length_number(Length l, const Words& words, int digits = 5) {
  return words.bare(measure(l, unit::mm, digits));
}
inline std::string speed_number(Speed v, const Words& words) {
  return words.bare(measure(v, unit::m_per_min, 3));
}
inline std::string feed_number(Length f, const Words& words, int digits = 3) {
  return words.bare(measure(f, unit::mm_per_rev, digits));
}
inline std::string spindle_number(Frequency n, const Words& words, int digits = 4) {
  return words.bare(measure(n, unit::rev_per_min, digits));
}

/// "WF-310  winch spindle  rev. B  (new order)".
std::string part_title(const Part& part, const Words& words);

}  // namespace turnwright
