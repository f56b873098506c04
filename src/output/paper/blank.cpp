// SPDX-License-Identifier: MIT
#include "paper/blank.hpp"

#include <array>

namespace turnwright {
namespace paper {

const char* name_of(Colour colour) {
  static constexpr std::array names{"none",  "green", "blue", "yellow", "red", "black",
                                    "white", "shade", "body", "cut",    "ink"};
  return names[static_cast<std::size_t>(colour)];
}

Colour colour_named(std::string_view name) {
  for (const Colour colour :
       {Colour::green, Colour::blue, Colour::yellow, Colour::red, Colour::black, Colour::white})
    if (name_of(colour) == name) return colour;
  return Colour::none;
}

}  // namespace paper

paper::Paper blank_paper(std::string title, const Words& words) {
  paper::Paper paper;
  paper.title = std::move(title);
  paper.language = words.language() == Language::de ? "de" : "en";
  paper.letter = words.letter();
  paper.count = words(
      {"offer.page",
       {{"page", std::string(1, paper::page_mark)}, {"pages", std::string(1, paper::pages_mark)}}});
  return paper;
}

paper::Table facts_table(const Facts& facts) {
  paper::Table table;
  table.columns = {words_of(), words_of("", true)};
  table.rules = paper::Rules::none;
  for (const Fact& fact : facts)
    table.add({{{fact.name, "", {.ink = paper::Ink::grey}}, {fact.value}}});
  return table;
}

}  // namespace turnwright
