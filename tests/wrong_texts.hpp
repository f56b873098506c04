// SPDX-License-Identifier: MIT
#pragma once
// Tables of wrong input and of every word that is said of it. A table is blocks between blank
// lines: the input, then indented each problem with line and column; one that ends in … is compared
// up to there. Lines that begin with "# " are remarks. The words were read through by hand, not
// only written down.
#include <fstream>

#include "support.hpp"

namespace turnwright::test {

struct WrongText {
  std::string text;
  std::vector<std::string> said;
};

inline std::vector<WrongText> wrong_texts(const std::string& table) {
  std::ifstream in(std::string(TURNWRIGHT_ROOT) + "/tests/" + table);
  REQUIRE(in);
  std::vector<WrongText> all;
  bool between = true;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("# ")) continue;
    if (line.empty()) {
      between = true;
      continue;
    }
    if (between) all.emplace_back();
    between = false;
    if (line.starts_with("    "))
      all.back().said.push_back(line.substr(4));
    else
      all.back().text += line + "\n";
  }
  return all;
}

/// "6:8: 'k66' is not a fit; expected …"
inline std::string spoken(const Problem& p) {
  const std::string place = std::to_string(p.at.line) + ":" + std::to_string(p.at.column) + ": ";
  return (p.at.line > 0 ? place : "") + problem_words(p, Words());
}

inline bool agree(const std::string& expected, const std::string& spoken) {
  constexpr std::string_view open = "…";
  if (!expected.ends_with(open)) return expected == spoken;
  return spoken.starts_with(expected.substr(0, expected.size() - open.size()));
}

/// Every text of the table is refused by `read`, with every problem that stands there and no other.
template <class Read>
void check_wrong(const std::string& table, std::size_t least, Read read) {
  const std::vector<WrongText> all = wrong_texts(table);
  CHECK(all.size() >= least);
  for (const WrongText& wrong : all) {
    std::vector<std::string> said;
    for (const Problem& p : read(wrong.text)) said.push_back(spoken(p));
    std::string listed;
    for (const std::string& s : said) listed += "    " + s + "\n";
    INFO(table << "\n" << wrong.text << listed);
    REQUIRE_FALSE(wrong.said.empty());
    CHECK(std::equal(said.begin(), said.end(), wrong.said.begin(), wrong.said.end(),
                     [](const auto& s, const auto& expected) { return agree(expected, s); }));
  }
}

}  // namespace turnwright::test
