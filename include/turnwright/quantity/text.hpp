// SPDX-License-Identifier: MIT
#pragma once
// Numbers and quantities in and out of text. Reading is strict: a decimal point, no decimal comma,
// no hexadecimal, no leading zeros, nothing that is not finite; inch fractions as 1-1/4.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/quantity/message.hpp"

namespace turnwright {

/// What was wrong with a number or quantity text, ready for a message.
struct TextFault {
  Message what;
  Message expected;
  std::string suggestion;  // "" when there is none
};

/// "a number in mm", as what was expected.
Message number_in(const Unit& unit);

struct TypedNumber {
  double value = 0;
  std::size_t used = 0;  // characters of the text that belong to the number
};

/// The number at the start of `text`; an inch fraction "1-1/4" or "3/8" counts when `fractions`.
std::optional<TypedNumber> leading_number(std::string_view text, bool fractions = true);
/// The whole text is a number.
std::optional<double> read_number(std::string_view text);
/// The whole text is a whole number from `low` to `high`.
std::optional<int> read_whole(std::string_view text, int low, int high);

struct TypedQuantity {
  double si = 0;
  double value = 0;   // as typed
  TypedUnit unit;     // the bare unit when none was typed
  bool bare = false;  // no unit was typed
};
/// "1-1/4 in", "300 ft/min", "0.2 mm/rev", "45 EUR/h"; a bare number takes `otherwise`.
std::optional<TypedQuantity> read_quantity(std::string_view text, const Unit& otherwise,
                                           TextFault& fault);

/// Shortest text that reads back to the same double.
std::string shortest(double value);
/// Fixed number of places, trailing zeros kept; independent of any locale.
std::string fixed(double value, int places);
/// A few significant digits, no trailing zeros: what a person wants to read.
std::string readable(double value, int digits = 4);

/// Bytes of the character that the text begins with; 0 where it is not UTF-8, or NUL.
std::size_t character_length(std::string_view text);
/// True for what may be shown as it stands: no control character, nothing that turns the direction
/// of writing over (Unicode 15.0, UAX 9), so that no name repaints a terminal or reads as another.
bool is_showable(std::string_view character);
/// The text with a "?" for whatever may not be shown; line ends and tabs stay where `lines`.
std::string showable(std::string_view text, bool lines = false);

/// The nearest of `names` by edit distance, or "" when none is near.
std::string nearest(std::string_view word, const std::vector<std::string>& names);

}  // namespace turnwright
