// SPDX-License-Identifier: MIT
#include "turnwright/quantity/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

#include "turnwright/quantity/thousands.hpp"

namespace turnwright {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

// Digits, one point, an exponent; "" when the text does not start with a number.
std::size_t decimal_length(std::string_view text) {
  std::size_t i = 0;
  if (i < text.size() && (text[i] == '-' || text[i] == '+')) ++i;
  const std::size_t first = i;
  while (i < text.size() && is_digit(text[i])) ++i;
  const std::size_t whole = i - first;
  if (whole > 1 && text[first] == '0') return 0;
  std::size_t places = 0;
  if (i < text.size() && text[i] == '.') {
    std::size_t j = i + 1;
    while (j < text.size() && is_digit(text[j])) ++j;
    places = j - i - 1;
    if (places > 0) i = j;
  }
  if (whole == 0 && places == 0) return 0;
  if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
    std::size_t j = i + 1;
    if (j < text.size() && (text[j] == '-' || text[j] == '+')) ++j;
    const std::size_t digits = j;
    while (j < text.size() && is_digit(text[j])) ++j;
    if (j > digits) i = j;
  }
  return i;
}

std::optional<double> plain(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

// "a/b" at the start of text: both whole, b not zero.
std::optional<TypedNumber> fraction(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size() && is_digit(text[i])) ++i;
  if (i == 0 || i > 6 || i >= text.size() || text[i] != '/') return std::nullopt;
  std::size_t j = i + 1;
  while (j < text.size() && is_digit(text[j])) ++j;
  if (j == i + 1 || j - i > 7) return std::nullopt;
  const auto top = plain(text.substr(0, i)), bottom = plain(text.substr(i + 1, j - i - 1));
  if (!top || !bottom || *bottom == 0) return std::nullopt;
  return TypedNumber{*top / *bottom, j};
}

}  // namespace

std::optional<TypedNumber> leading_number(std::string_view text, bool fractions) {
  if (fractions) {
    if (const auto f = fraction(text)) return f;
    std::size_t i = 0;
    while (i < text.size() && is_digit(text[i])) ++i;
    if (i > 0 && i < text.size() && text[i] == '-') {
      if (const auto f = fraction(text.substr(i + 1)))
        if (const auto whole = plain(text.substr(0, i)))
          return TypedNumber{*whole + f->value, i + 1 + f->used};
    }
  }
  const std::size_t n = decimal_length(text);
  if (n == 0) return std::nullopt;
  const auto value = plain(text.substr(0, n));
  if (!value) return std::nullopt;
  return TypedNumber{*value, n};
}

std::optional<double> read_number(std::string_view text) {
  const auto n = leading_number(text);
  if (!n || n->used != text.size()) return std::nullopt;
  return n->value;
}

std::optional<int> read_whole(std::string_view text, int low, int high) {
  if (parts_thousands(text, '.')) return std::nullopt;  // a thousand to half of the world
  const auto n = read_number(text);
  if (!n || *n < low || *n > high || *n != std::floor(*n)) return std::nullopt;
  return static_cast<int>(*n);
}

Message number_in(const Unit& unit) {
  if (unit.name.empty()) return "expected.number";
  return {"expected.number-in", {{"unit", unit.name}}};
}

std::optional<TypedQuantity> read_quantity(std::string_view text, const Unit& otherwise,
                                           TextFault& fault) {
  text = trimmed(text);
  const Message expected = number_in(otherwise);
  const auto number = leading_number(text);
  if (!number) {
    fault = {{"number.not-a-number", {{"text", text}}}, expected, ""};
    return std::nullopt;
  }
  std::string_view rest = text.substr(number->used);
  if (rest.size() > 1 && rest.front() == ',' && is_digit(rest[1])) {
    std::string point(text);
    point[number->used] = '.';
    fault = {{"number.decimal-comma", {{"text", text}}}, "expected.decimal-point", point};
    return std::nullopt;
  }
  rest = trimmed(rest);
  TypedQuantity found;
  found.value = number->value;
  if (rest.empty()) {
    found.bare = true;
    found.unit = {std::string(otherwise.name), otherwise.dim,   otherwise.si,
                  otherwise.degrees,           otherwise.angle, ""};
    found.si = coherent(number->value, otherwise);
    return found;
  }
  const auto typed = read_unit(rest);
  if (!typed) {
    fault = {{"number.unknown-unit", {{"text", rest}}}, expected, ""};
    return std::nullopt;
  }
  // An angle is a pure number too, but 85 deg is no share and 85 % no angle.
  if (!(typed->dim == otherwise.dim) || typed->angle != otherwise.angle) {
    fault = {{"number.other-dimension", {{"text", rest}}}, expected, ""};
    return std::nullopt;
  }
  found.unit = *typed;
  found.si = coherent(number->value, typed->unit());
  if (!std::isfinite(found.si)) {
    fault = {{"number.out-of-proportion", {{"text", text}}}, expected, ""};
    return std::nullopt;
  }
  return found;
}

std::string shortest(double value) {
  std::array<char, 40> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value == 0 ? 0.0 : value);
  return error == std::errc{} ? std::string(buffer.data(), end) : std::string("0");
}

std::string fixed(double value, int places) {
  std::array<char, 400> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                          std::chars_format::fixed, places);
  std::string text = error == std::errc{} ? std::string(buffer.data(), end) : std::string("0");
  if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

std::string readable(double value, int digits) {
  if (!std::isfinite(value)) return value > 0 ? "unlimited" : "none";
  if (value == 0) return "0";
  const double size = std::abs(value);
  if (size < 1e-4 || size >= 1e9) {
    std::array<char, 40> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                            std::chars_format::general, digits);
    return error == std::errc{} ? std::string(buffer.data(), end) : std::string("0");
  }
  const int magnitude = static_cast<int>(std::floor(std::log10(size))) + 1;
  std::string text = fixed(value, std::max(0, digits - magnitude));
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

namespace {

// Optimal string alignment: insert, delete, replace, or swap two neighbours.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i)
    for (std::size_t j = 1; j <= b.size(); ++j) {
      d[i][j] = std::min(
          {d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0u : 1u)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[a.size()][b.size()];
}

}  // namespace

std::size_t character_length(std::string_view s) {
  if (s.empty()) return 0;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(s[i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return first == 0 ? 0 : 1;
  const std::size_t n = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || n > s.size()) return 0;
  for (std::size_t k = 1; k < n; ++k)
    if ((byte(k) & 0xC0) != 0x80) return 0;
  const unsigned char second = byte(1);
  if ((first == 0xE0 && second < 0xA0) || (first == 0xED && second > 0x9F) ||
      (first == 0xF0 && second < 0x90) || (first == 0xF4 && second > 0x8F))
    return 0;
  return n;
}

namespace {

// What stands for no character (Unicode 15.0, 23.7): U+FDD0 to U+FDEF, the last two of each plane.
bool is_noncharacter(std::string_view c) {
  if (c.size() == 3 && c >= "\xEF\xB7\x90" && c <= "\xEF\xB7\xAF") return true;
  if (!c.ends_with("\xBF\xBE") && !c.ends_with("\xBF\xBF")) return false;
  return c.size() == 3 ? c[0] == '\xEF' : (static_cast<unsigned char>(c[1]) & 0x0F) == 0x0F;
}

}  // namespace

bool is_showable(std::string_view character) {
  if (character.size() == 1) return character[0] >= ' ' && character[0] != 0x7f;
  if (character.size() == 2) return character >= "\xC2\xA0";  // C1
  // Line and paragraph separators, embeddings and overrides; isolates.
  return !is_noncharacter(character) &&
         !(character >= "\xE2\x80\xA8" && character <= "\xE2\x80\xAE") &&
         !(character >= "\xE2\x81\xA6" && character <= "\xE2\x81\xA9");
}

std::string showable(std::string_view text, bool lines) {
  std::string shown_text;
  shown_text.reserve(text.size());
  while (!text.empty()) {
    const std::size_t n = character_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(n, 1));
    if (n > 0 && (is_showable(character) || (lines && (character == "\n" || character == "\t"))))
      shown_text += character;
    else
      shown_text += '?';
    text.remove_prefix(character.size());
  }
  return shown_text;
}

std::string nearest(std::string_view word, const std::vector<std::string>& names) {
  constexpr std::size_t longest = 60;  // nobody mistypes a longer name
  std::string best;
  std::size_t best_distance = word.size() / 3 + 2;
  if (word.size() > longest) return best;
  for (const std::string& name : names) {
    if (name.size() > longest) continue;
    const std::size_t distance = edit_distance(word, name);
    if (distance >= best_distance) continue;
    best_distance = distance;
    best = name;
  }
  return best;
}

}  // namespace turnwright
