// SPDX-License-Identifier: MIT
// Problems of files as they are printed.
#include <algorithm>

#include "turnwright/output/words.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr std::size_t widest_line = 160;

}  // namespace

std::string problem_words(const Problem& problem, const Words& words) {
  if (problem.expected.empty() && problem.suggestion.empty()) return words(problem.what);
  if (problem.suggestion.empty())
    return words({"problem.expected", {{"what", problem.what}, {"expected", problem.expected}}});
  if (problem.expected.empty())
    return words({"problem.near", {{"what", problem.what}, {"near", problem.suggestion}}});
  return words(
      {"problem.expected-near",
       {{"what", problem.what}, {"expected", problem.expected}, {"near", problem.suggestion}}});
}

std::string problem_text(const Problem& problem, const Words& words) {
  std::string text = words.name(showable(problem.file));
  if (problem.at.line > 0)
    text += ":" + std::to_string(problem.at.line) + ":" + std::to_string(problem.at.column);
  if (!text.empty()) text += ": ";
  text += showable(problem_words(problem, words)) + "\n";
  if (problem.source_line.empty() || problem.at.column < 1) return text;
  if (problem.source_line.size() > widest_line) return text;
  text += "  " + words.name(showable(problem.source_line)) + "\n  ";
  text.append(static_cast<std::size_t>(problem.at.column - 1), ' ');
  text += "^";
  const int underline = std::clamp(problem.width - 1, 0, 60);
  text.append(static_cast<std::size_t>(underline), '~');
  return text + "\n";
}

}  // namespace turnwright
