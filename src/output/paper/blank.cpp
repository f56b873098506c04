// SPDX-License-Identifier: MIT
#include "paper/blank.hpp"

namespace turnwright {

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
