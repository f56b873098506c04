// SPDX-License-Identifier: MIT
#include "xlsx/sheet_names.hpp"

#include <algorithm>
#include <string_view>

namespace turnwright {
namespace {

constexpr std::size_t longest = 31, room_for_number = 3;

bool begins_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

std::string allowed(const std::string& text) {
  std::string name;
  std::size_t characters = 0;
  for (const char c : text) {
    if (std::string_view("[]:*?/\\'").find(c) != std::string_view::npos) continue;
    if (begins_character(c) && ++characters > longest - room_for_number) break;
    name += c;
  }
  return name.empty() ? "1" : name;
}

// Spreadsheet programs take "Steps" and "STEPS" for one.
std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

}  // namespace

std::vector<std::string> sheet_names(const std::vector<std::string>& wanted) {
  std::vector<std::string> names, used;
  for (const std::string& text : wanted) {
    std::string name = allowed(text);
    for (int count = 2; std::find(used.begin(), used.end(), lower(name)) != used.end(); ++count)
      name = allowed(text) + " " + std::to_string(count);
    used.push_back(lower(name));
    names.push_back(std::move(name));
  }
  return names;
}

std::string reference_of(const std::string& sheet) {
  return std::all_of(sheet.begin(), sheet.end(), is_letter) ? sheet : "'" + sheet + "'";
}

}  // namespace turnwright
