// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "element_text.hpp"
#include "examples.hpp"

namespace turnwright {
namespace {

constexpr std::string_view diameter_sign = "\xC3\x98";
constexpr double coarsest_pitch = 8;  // mm, of a metric thread

bool is_length(const std::string& word) {
  return word.size() > 1 && word[0] == 'x' &&
         (is_digit(word[1]) || word[1] == '.' || word[1] == '-');
}

bool begins_extent(const std::string& word) {
  return is_length(word) || word == "through" || word == "to";
}

bool is_pipe_thread(const std::string& word) {
  return (word.size() > 1 && (word[0] == 'G' || word[0] == 'R') && is_digit(word[1])) ||
         (word.size() > 2 && (word.starts_with("Rc") || word.starts_with("Rp")) &&
          is_digit(word[2])) ||
         word == "NPT";
}

bool is_thread(const std::vector<Piece>& words) {
  const std::string& word = words.front().text;
  const bool metric = word.size() > 1 && word[0] == 'M' && is_digit(word[1]);
  const bool trapezoidal = word.size() > 2 && word.starts_with("Tr") && is_digit(word[2]);
  const bool unified =
      word == "No." || word.starts_with("#") ||
      (words.size() > 1 && words[1].text.starts_with("UN") && !word.empty() && is_digit(word[0]));
  return metric || trapezoidal || is_pipe_thread(word) || unified;
}

/// Turns the words of one shape into a map.
class ShapeText {
 public:
  ShapeText(const Node& whole, std::vector<Piece> words, ProblemList& problems)
      : whole_(whole),
        words_(std::move(words)),
        problems_(problems),
        map_(map_node(piece_node(whole, words_.front()).at)) {}

  Node map() {
    const std::string& first = words_.front().text;
    if (first == "cone")
      cone();
    else if (first == "arc")
      arc();
    else if (first == "Morse")
      morse();
    else if (first == "hexagon" || first == "square")
      polygon();
    else if (is_thread(words_))
      thread();
    else
      cylinder();
    return std::move(map_);
  }

 private:
  void add(std::string key, const Piece& piece) { add_to(map_, std::move(key), piece); }
  void add_to(Node& map, std::string key, const Piece& piece) const {
    map.members.push_back(member(std::move(key), piece_node(whole_, piece)));
  }
  void add_map(std::string key, Node inner) {
    map_.members.push_back(member(std::move(key), std::move(inner)));
  }
  void fault(const Piece& at, Message what, Message expected, std::string suggestion = "") {
    add_at(problems_, whole_, at, std::move(what), std::move(expected), std::move(suggestion));
  }

  // The extent along the axis: "x42", "x42 ±0.1", "to 72", "through"; from word `i` to the end.
  void extent(std::size_t i) {
    if (i >= words_.size()) {
      const Piece& last = words_.back();
      fault(last, Message{"part.no-length-after", {{"word", last.text}}}, wants_extent());
      return;
    }
    const Piece& word = words_[i];
    if (word.text == "through" && i + 1 == words_.size())
      add("through", {"yes", word.offset});
    else if (word.text == "to" && i + 1 < words_.size())
      add("ends at", joined(words_, i + 1, words_.size()));
    else if (is_length(word.text))
      length(i);
    else
      not_a_length(word);
  }
  void length(std::size_t i) {
    Piece text = joined(words_, i, words_.size());
    text.text.erase(0, 1);
    ++text.offset;
    add("length", text);
  }
  void not_a_length(const Piece& word) {
    const auto number = leading_number(word.text);
    fault(word, Message{"part.not-a-length", {{"word", word.text}}}, wants_extent(),
          number && number->used == word.text.size() ? "x" + word.text : "");
  }
  static Message wants_extent() {
    return {"part.wants-extent", {{"length", "x42"}, {"end", "to 72"}, {"through", "through"}}};
  }
  std::size_t find_extent(std::size_t from) const {
    for (std::size_t i = from; i < words_.size(); ++i)
      if (begins_extent(words_[i].text)) return i;
    return words_.size();
  }

  void cylinder() {
    const std::size_t first = words_[0].text == "dia" || words_[0].text == diameter_sign ? 1 : 0;
    take_diameter_sign(words_[first < words_.size() ? first : 0]);
    if (is_not_turned(words_[0].text)) {
      add_not_turned(problems_, whole_, words_[0]);
      return;
    }
    if (first >= words_.size() || !leading_number(words_[first].text)) {
      fault(words_[0], Message{"part.begins-nothing", {{"word", words_[0].text}}},
            Message{"part.wants-element", {{"example", "30 k6 x42"}}});
      return;
    }
    std::size_t end = find_extent(first);
    if (ends_in_bare_number(first, end)) --end;
    add("diameter", joined(words_, first, end_of_size(first, end)));
    extent(end);
  }
  static void take_diameter_sign(Piece& piece) {
    if (!piece.text.starts_with(diameter_sign) || piece.text.size() <= diameter_sign.size()) return;
    piece.text.erase(0, diameter_sign.size());
    piece.offset += diameter_sign.size();
  }
  // A number where the length should be: "30 k6 42".
  bool ends_in_bare_number(std::size_t first, std::size_t end) const {
    return end == words_.size() && end > first + 1 && leading_number(words_[end - 1].text) &&
           words_[end - 1].text.find_first_not_of("0123456789.") == std::string::npos;
  }
  // "as drawn" belongs to the element, not to its diameter.
  std::size_t end_of_size(std::size_t first, std::size_t end) {
    for (std::size_t i = first; i + 1 < end; ++i) {
      if (words_[i].text != "as" || words_[i + 1].text != "drawn") continue;
      add("as drawn", {"yes", words_[i].offset});
      end = i;
    }
    return end;
  }

  void thread() {
    const std::size_t end = find_extent(1);
    if (end == words_.size() && pitch_is_a_length(words_[0].text)) return;
    add("thread", joined(words_, 0, end));
    extent(end);
  }
  // "M24x30" would be a pitch of 30: surely a length was meant.
  bool pitch_is_a_length(const std::string& text) {
    const std::size_t x = text.find('x');
    if (text[0] != 'M' || x == std::string::npos) return false;
    const auto pitch = leading_number(std::string_view(text).substr(x + 1));
    if (!pitch || pitch->value <= coarsest_pitch) return false;
    fault(words_[0], Message{"part.pitch-of", {{"pitch", Figure{pitch->value, 9}}}},
          Message{"part.wants-pitch-and-length", {{"most", Figure{coarsest_pitch}}}},
          text.substr(0, x) + " x" + shortest(pitch->value));
    return true;
  }

  void polygon() {
    const std::size_t end = find_extent(1);
    add(words_[0].text, joined(words_, 1, end));
    extent(end);
  }
  void morse() {
    Node inner = map_node(map_.at);
    const std::size_t end = find_extent(1);
    add_to(inner, "Morse", joined(words_, 1, end));
    add_map("cone", std::move(inner));
    extent(end);
  }

  // "cone 30 to 40 x25", "cone 30 x25 taper 1:10", "cone 30 x25 half angle 5 deg"
  void cone() {
    Node inner = map_node(map_.at);
    std::size_t end = find_end_of_diameter(1, true);
    add_to(inner, "from", joined(words_, 1, end));
    if (end < words_.size() && words_[end].text == "to") {
      const std::size_t from = end + 1;
      end = find_end_of_diameter(from, false);
      add_to(inner, "to", joined(words_, from, end));
    }
    taper(inner, end + 1);
    add_map("cone", std::move(inner));
    extent(end);
  }
  std::size_t find_end_of_diameter(std::size_t from, bool at_to) const {
    std::size_t end = from;
    while (end < words_.size() && !(at_to && words_[end].text == "to") &&
           !is_length(words_[end].text))
      ++end;
    return end;
  }
  std::size_t find_word(std::string_view word, std::size_t from) const {
    while (from < words_.size() && words_[from].text != word) ++from;
    return from;
  }
  // The taper behind the length, taken off the words.
  void taper(Node& inner, std::size_t from) {
    std::size_t at = from;
    while (at < words_.size() && words_[at].text != "taper" && words_[at].text != "half") ++at;
    if (at >= words_.size()) return;
    if (words_[at].text == "taper")
      add_to(inner, "taper", behind(words_[at], at + 1));
    else if (at + 1 < words_.size() && words_[at + 1].text == "angle")
      add_to(inner, "half angle", behind(words_[at], at + 2));
    else
      fault(words_[at], Message{"part.not-expected-here", {{"word", words_[at].text}}},
            such_as("half angle 5 deg"));
    words_.resize(at);
  }
  // The words from `from` on; where there are none, nothing, at the word that wants them.
  Piece behind(const Piece& word, std::size_t from) const {
    return from < words_.size() ? joined(words_, from, words_.size()) : Piece{"", word.offset};
  }

  // "arc R40 to 40 x12", "arc R20 to 40 x12 hollow", "arc R5 from 12 to 20 x6"
  void arc() {
    const std::size_t to = find_word("to", 2);
    const bool from_step = words_.size() > 3 && words_[2].text == "from";
    if (!words_[std::min<std::size_t>(1, words_.size() - 1)].text.starts_with("R") ||
        to + 2 >= words_.size() || (from_step ? to < 4 : to != 2)) {
      fault(words_[0], "part.arc-unreadable",
            such_as("arc R20 to 40 x12", "arc R5 from 12 to 20 x6"));
      return;
    }
    Node inner = map_node(map_.at);
    add_to(inner, "radius", {words_[1].text.substr(1), words_[1].offset + 1});
    if (from_step) add_to(inner, "from", joined(words_, 3, to));
    if (words_.back().text == "hollow") {
      add_to(inner, "hollow", {"yes", words_.back().offset});
      words_.pop_back();
    }
    const std::size_t end = find_end_of_diameter(to + 1, false);
    add_to(inner, "to", joined(words_, to + 1, end));
    add_map("arc", std::move(inner));
    extent(end);
  }

  const Node& whole_;
  std::vector<Piece> words_;
  ProblemList& problems_;
  Node map_;
};

}  // namespace

Node shape_map(const Node& whole, std::vector<Piece> words, ProblemList& problems) {
  return ShapeText(whole, std::move(words), problems).map();
}

bool is_not_turned(const std::string& word) {
  static constexpr std::array words{"keyway", "cross", "hole",      "holes",
                                    "slot",   "flats", "eccentric", "milled",
                                    "spline", "gear",  "splines",   "off-centre"};
  return std::find(words.begin(), words.end(), word) != words.end();
}

void add_not_turned(ProblemList& problems, const Node& whole, const Piece& word) {
  add_at(problems, whole, word, Message{"part.not-turned", {{"word", word.text}}},
         Message{"part.wants-other-work",
                 {{"key", "other work"}, {"example", "keyway 10 P9 x36 on 35 h6, 6 min"}}});
}

}  // namespace turnwright
