// SPDX-License-Identifier: MIT
// The stock of a row in the words that people write it in: "round 36, drawn, bar", "dia 36 bar",
// "Rund 36 gezogen, Stange". Each becomes the map that a part file would hold.
#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "pieces.hpp"
#include "row_cells.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

/// A word of a stock cell and what it says: a key of the map, and its value where the word is it.
struct StockWord {
  std::string_view word, key, value;
};
// Both languages: what a customer writes is not the language that the shop reads.
constexpr std::array stock_words{
    StockWord{"round", "round", ""},
    StockWord{"rd", "round", ""},
    StockWord{"rund", "round", ""},
    StockWord{"dia", "round", ""},
    StockWord{"diameter", "round", ""},
    StockWord{"durchmesser", "round", ""},
    StockWord{"ø", "round", ""},
    StockWord{"Ø", "round", ""},
    StockWord{"⌀", "round", ""},
    StockWord{"hexagon", "hexagon", ""},
    StockWord{"hex", "hexagon", ""},
    StockWord{"sechskant", "hexagon", ""},
    StockWord{"6kt", "hexagon", ""},
    StockWord{"square", "square", ""},
    StockWord{"vierkant", "square", ""},
    StockWord{"4kt", "square", ""},
    StockWord{"tube", "tube", ""},
    StockWord{"rohr", "tube", ""},
    StockWord{"casting", "casting", ""},
    StockWord{"guss", "casting", ""},
    StockWord{"forging", "forging", ""},
    StockWord{"bar", "fed from", "bar"},
    StockWord{"stange", "fed from", "bar"},
    StockWord{"stangenmaterial", "fed from", "bar"},
    StockWord{"barstock", "fed from", "bar"},
    StockWord{"blank", "fed from", "blank"},
    StockWord{"sawn", "fed from", "blank"},
    StockWord{"zuschnitt", "fed from", "blank"},
    StockWord{"rolled", "condition", "hot rolled"},
    StockWord{"drawn", "condition", "drawn"},
    StockWord{"gezogen", "condition", "drawn"},
    StockWord{"gewalzt", "condition", "hot rolled"},
    StockWord{"warmgewalzt", "condition", "hot rolled"},
    StockWord{"peeled", "condition", "peeled"},
    StockWord{"geschält", "condition", "peeled"},
    StockWord{"ground", "condition", "ground"},
    StockWord{"geschliffen", "condition", "ground"},
    StockWord{"beigestellt", "supplied by", "customer"},
};
// Beside a word that says it all: "hot rolled", "fed from bar", "bar stock".
constexpr std::array fillers{"hot",      "cold", "from", "fed", "stock", "steel",
                             "material", "of",   "aus",  "von", "der",   "vom"};

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return text;
}

const StockWord* stock_word(const std::string& text) {
  const std::string word = lower(text);
  for (const StockWord& known : stock_words)
    if (known.word == word) return &known;
  return nullptr;
}

bool is_filler(const std::string& text) {
  const std::string word = lower(text);
  return std::any_of(fillers.begin(), fillers.end(), [&](const char* f) { return word == f; });
}

bool is_unit(const std::string& text) {
  const std::string word = lower(text);
  return word == "mm" || word == "in" || word == "inch" || word == "\"";
}

/// A stock cell as it is read, word by word.
class StockCell {
 public:
  explicit StockCell(const Node& cell) : cell_(cell), map_(map_node(cell.at)) {}

  // The map, or none where the words contradict each other or say nothing of stock.
  std::optional<Node> read() {
    for (const Piece& group : split_at(cell_.text, ',')) read_group(group);
    if (form_.empty() && !size_.text.empty() && says("fed from")) form_ = "round";
    if (form_.empty() != size_.text.empty()) clear_ = false;
    if (!form_.empty()) put(form_, size_);
    if (!condition_.text.empty()) put("condition", condition_);
    if (!clear_ || map_.members.empty()) return std::nullopt;
    return std::move(map_);
  }

 private:
  void read_group(const Piece& group) {
    const std::vector<Piece> words = with_forms_apart(split_words(group.text, group.offset));
    std::size_t first = words.size(), last = 0;  // of the words that are not known
    for (std::size_t i = 0; i < words.size(); ++i)
      if (!take(words, i)) {
        first = std::min(first, i);
        last = i + 1;
      }
    if (first >= last) return;
    // A condition that only the shop knows by name.
    if (!condition_.text.empty()) clear_ = false;
    condition_ = joined(words, first, last);
  }

  // "Ø36" as two words.
  static std::vector<Piece> with_forms_apart(const std::vector<Piece>& words) {
    std::vector<Piece> apart;
    for (const Piece& word : words) {
      const std::size_t digit = word.text.find_first_of("0123456789");
      const bool glued = digit != std::string::npos && digit > 0 &&
                         stock_word(word.text.substr(0, digit)) != nullptr;
      if (!glued) {
        apart.push_back(word);
        continue;
      }
      apart.push_back({word.text.substr(0, digit), word.offset});
      apart.push_back({word.text.substr(digit), word.offset + digit});
    }
    return apart;
  }

  bool take(const std::vector<Piece>& words, std::size_t i) {
    const Piece& word = words[i];
    if (is_unit(word.text) && i > 0 && is_digit(words[i - 1].text[0])) {
      size_.text += " " + word.text;
      return true;
    }
    if (const StockWord* known = stock_word(word.text)) {
      take_known(*known, word);
      return true;
    }
    if (is_digit(word.text[0])) {
      if (!size_.text.empty()) clear_ = false;
      size_ = word;
      return true;
    }
    return is_filler(word.text);
  }

  void take_known(const StockWord& known, const Piece& word) {
    if (!known.value.empty()) {
      put(std::string(known.key), {std::string(known.value), word.offset});
      return;
    }
    if (!form_.empty() && form_ != known.key) clear_ = false;
    form_ = known.key;
  }

  bool says(std::string_view key) const {
    return std::any_of(map_.members.begin(), map_.members.end(),
                       [&](const Member& m) { return m.key == key; });
  }
  void put(const std::string& key, const Piece& value) {
    for (const Member& m : map_.members)
      if (m.key == key) {
        clear_ = clear_ && m.value.text == value.text;
        return;
      }
    map_.members.push_back(member(key, piece_node(cell_, value)));
  }

  const Node& cell_;
  Node map_;
  std::string form_;
  Piece size_, condition_;
  bool clear_ = true;
};

}  // namespace

Node stock_node(const Node& cell) {
  if (lower(cell.text) == "auto") {
    Node automatic = cell;
    automatic.text = "auto";
    return automatic;
  }
  if (auto map = StockCell(cell).read()) return std::move(*map);
  return cell;
}

}  // namespace turnwright
