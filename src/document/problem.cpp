// SPDX-License-Identifier: MIT
#include "turnwright/document/problem.hpp"

#include <algorithm>

namespace turnwright {
namespace {

constexpr std::size_t widest_line = 160;

// Control characters would let a file repaint the terminal.
std::string harmless(const std::string& text) {
  std::string clean;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    clean += byte < 0x20 || byte == 0x7f ? '?' : c;
  }
  return clean;
}

}  // namespace

std::string words_of(const Problem& problem) {
  return problem.what + (problem.expected.empty() ? "" : "; expected " + problem.expected) +
         (problem.suggestion.empty() ? "" : "; did you mean '" + problem.suggestion + "'?");
}

std::string text_of(const Problem& problem) {
  std::string text = harmless(problem.file);
  if (problem.at.line > 0)
    text += ":" + std::to_string(problem.at.line) + ":" + std::to_string(problem.at.column);
  text += ": " + harmless(words_of(problem)) + "\n";
  if (problem.source_line.empty() || problem.at.column < 1) return text;
  if (problem.source_line.size() > widest_line) return text;
  text += "  " + harmless(problem.source_line) + "\n  ";
  text.append(static_cast<std::size_t>(problem.at.column - 1), ' ');
  text += "^";
  const int underline = std::clamp(problem.width - 1, 0, 60);
  text.append(static_cast<std::size_t>(underline), '~');
  return text + "\n";
}

}  // namespace turnwright
