// SPDX-License-Identifier: MIT
#include "html/css_content.hpp"

#include <cctype>

#include "turnwright/output/paper.hpp"

namespace turnwright {
namespace {

bool plain_in_css(char c) {
  return static_cast<unsigned char>(c) >= 0x80 ||
         std::isalnum(static_cast<unsigned char>(c)) != 0 || c == ' ' || c == '-' || c == '_';
}

}  // namespace

std::string css_content(const std::string& text, bool counters) {
  constexpr const char* hex = "0123456789abcdef";
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (counters && c == paper::page_mark)
      out += "\" counter(page) \"";
    else if (counters && c == paper::pages_mark)
      out += "\" counter(pages) \"";
    else if (plain_in_css(c))
      out += c;
    else
      out += std::string("\\0000") + hex[byte >> 4] + hex[byte & 15];
  }
  return out + "\"";
}

}  // namespace turnwright
