// SPDX-License-Identifier: MIT
#pragma once
// The catalogue as it is built in: sorted by id, made from templates/words by compile_words.
#include <span>
#include <string_view>

namespace turnwright {

struct Sentence {
  std::string_view id;
  std::string_view one;    // for the number 1; empty: `other` serves
  std::string_view other;  // for all numbers
};
std::span<const Sentence> sentences_en();
std::span<const Sentence> sentences_de();

}  // namespace turnwright
