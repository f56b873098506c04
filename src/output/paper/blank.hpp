// SPDX-License-Identifier: MIT
#pragma once
// What every document for paper begins with.
#include "turnwright/output/paper.hpp"
#include "turnwright/output/words.hpp"
#include "view/facts.hpp"

namespace turnwright {

/// With language, size of paper and count of pages as the reader has them.
paper::Paper blank_paper(std::string title, const Words& words);

inline paper::Column words_of(std::string heading = "", bool stretches = false) {
  return {std::move(heading), paper::Align::left, stretches};
}
inline paper::Column numbers_of(std::string heading) {
  return {std::move(heading), paper::Align::right, false};
}
inline paper::Text heading_text(std::string text, double points = 12) {
  return {std::move(text), paper::Role::heading, {.points = points, .bold = true}, 4};
}

/// Names beside values, without lines.
paper::Table facts_table(const Facts& facts);

}  // namespace turnwright
