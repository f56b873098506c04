// SPDX-License-Identifier: MIT
#include "turnwright/quantity/thousands.hpp"

namespace turnwright {
namespace {

std::size_t digits_before(std::string_view text, char mark) {
  const std::size_t end = text.substr(0, text.find(mark)).size();
  for (const char c : text.substr(0, end))
    if (c < '0' || c > '9') return 0;
  return end;
}

}  // namespace

bool parts_thousands(std::string_view text, char mark) {
  const std::size_t first = digits_before(text, mark);
  if (first == 0 || first > 3 || text[0] == '0' || first == text.size()) return false;
  for (;;) {
    text.remove_prefix(text.find(mark) + 1);
    if (digits_before(text, mark) != 3) return false;
    if (text.size() == 3) return true;
  }
}

}  // namespace turnwright
