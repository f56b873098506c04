// SPDX-License-Identifier: MIT
#include "element_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>

namespace turnwright {
namespace {

constexpr std::array attribute_words{"Ra",       "Rz",      "chamfer", "round",  "fillet", "relief",
                                     "undercut", "groove",  "circlip", "O-ring", "knurl",  "seat",
                                     "runout",   "coaxial", "square",  "flat",   "gauge",  "ground",
                                     "no",       "leave",   "allow"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool roughness_class(std::string_view word) {
  return word.size() >= 2 && word.size() <= 3 && word[0] == 'N' &&
         std::all_of(word.begin() + 1, word.end(), is_digit);
}

// "square 20 x12" is a polygon, "square 0.02 to A" a tie.
bool is_attribute(const std::vector<Piece>& words) {
  if (words.empty()) return false;
  const std::string& first = words.front().text;
  if (roughness_class(first)) return true;
  if (first == "square")
    return std::any_of(words.begin(), words.end(), [](const Piece& w) { return w.text == "to"; });
  return std::find(attribute_words.begin(), attribute_words.end(), first) != attribute_words.end();
}

Node text_node(const Node& whole, const Piece& piece) {
  return piece_node(whole, piece.offset, piece.text);
}

Member member(std::string key, Node value) {
  Member m;
  m.key = std::move(key);
  m.at = value.at;
  m.value = std::move(value);
  return m;
}

Piece joined(const std::vector<Piece>& words, std::size_t from, std::size_t to) {
  if (from >= to || from >= words.size()) return {};
  Piece piece{"", words[from].offset};
  for (std::size_t i = from; i < to && i < words.size(); ++i)
    piece.text += (piece.text.empty() ? "" : " ") + words[i].text;
  return piece;
}

bool is_length(const std::string& word) {
  return word.size() > 1 && word[0] == 'x' &&
         (is_digit(word[1]) || word[1] == '.' || word[1] == '-');
}

bool is_thread(const std::string& word, const std::vector<Piece>& words) {
  const bool metric = word.size() > 1 && word[0] == 'M' && is_digit(word[1]);
  const bool trapezoidal = word.size() > 2 && word.starts_with("Tr") && is_digit(word[2]);
  const bool pipe =
      (word.size() > 1 && (word[0] == 'G' || word[0] == 'R') && is_digit(word[1])) ||
      (word.size() > 2 && (word.starts_with("Rc") || word.starts_with("Rp")) && is_digit(word[2]));
  const bool unified =
      word == "No." || word.starts_with("#") ||
      (words.size() > 1 && words[1].text.starts_with("UN") && !word.empty() && is_digit(word[0]));
  return metric || trapezoidal || pipe || word == "NPT" || unified;
}

// Work of other machines that people write among the elements.
bool not_turned(const std::string& word) {
  static constexpr std::array words{"keyway", "cross", "hole",      "holes",
                                    "slot",   "flats", "eccentric", "milled",
                                    "spline", "gear",  "splines",   "off-centre"};
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// Turns one element text into a map.
class ElementText {
 public:
  ElementText(const Node& whole, std::vector<Piece> words, ProblemList& notes)
      : whole_(whole), words_(std::move(words)), notes_(notes) {}

  Node map() {
    Node node;
    node.kind = Node::Kind::map;
    node.at = text_node(whole_, words_.front()).at;
    members_ = &node.members;
    const std::string& first = words_.front().text;
    if (first == "cone")
      cone();
    else if (first == "arc")
      arc();
    else if (first == "Morse")
      morse();
    else if (first == "hexagon" || first == "square")
      polygon();
    else if (is_thread(first, words_))
      thread();
    else
      cylinder();
    return node;
  }

 private:
  void add(std::string key, const Piece& piece) {
    members_->push_back(member(std::move(key), text_node(whole_, piece)));
  }
  void fault(const Piece& at, std::string what, std::string expected, std::string hint = "") {
    notes_.add_inside(whole_, at.offset, characters(at.text), std::move(what), std::move(expected),
                      std::move(hint));
  }
  // The run: "x42", "x42 ±0.1", "to 72", "through"; from word `i` on to the end.
  void run(std::size_t i) {
    if (i >= words_.size()) {
      fault(words_.back(), "no length after '" + words_.back().text + "'",
            "a length as x42, an end as 'to 72', or 'through'");
      return;
    }
    const Piece& word = words_[i];
    if (word.text == "through" && i + 1 == words_.size()) {
      add("through", {"yes", word.offset});
    } else if (word.text == "to" && i + 1 < words_.size()) {
      add("ends at", joined(words_, i + 1, words_.size()));
    } else if (is_length(word.text)) {
      Piece length = joined(words_, i, words_.size());
      length.text.erase(0, 1);
      ++length.offset;
      add("length", length);
    } else {
      const auto number = leading_number(word.text);
      fault(word, "'" + word.text + "' is no length", "a length as x42, 'to 72' or 'through'",
            number && number->used == word.text.size() ? "x" + word.text : "");
    }
  }
  std::size_t run_start(std::size_t from) const {
    for (std::size_t i = from; i < words_.size(); ++i)
      if (is_length(words_[i].text) || words_[i].text == "through" || words_[i].text == "to")
        return i;
    return words_.size();
  }
  void cylinder() {
    std::size_t first = 0;
    if (words_[0].text == "dia" || words_[0].text == "\xC3\x98") first = 1;
    Piece& lead = words_[first < words_.size() ? first : 0];
    if (lead.text.starts_with("\xC3\x98") && lead.text.size() > 2) {
      lead.text.erase(0, 2);
      lead.offset += 2;
    }
    if (not_turned(words_[0].text)) {
      fault(words_[0], "'" + words_[0].text + "' is not turned about the axis",
            "a line of its own under other work, as 'keyway 10 P9 x36 on 35 h6, 6 min'");
      return;
    }
    if (first >= words_.size() || !leading_number(words_[first].text)) {
      fault(words_[0], "'" + words_[0].text + "' begins no element",
            "a diameter as '30 k6 x42', a thread, cone, arc, hexagon or square");
      return;
    }
    std::size_t end = run_start(first);
    std::size_t size_end = end;
    // A number where the length should be: "30 k6 42".
    if (end == words_.size() && end > first + 1 && leading_number(words_[end - 1].text) &&
        words_[end - 1].text.find_first_not_of("0123456789.") == std::string::npos) {
      end = end - 1;
      size_end = end;
    }
    for (std::size_t i = first; i + 1 < size_end; ++i) {
      if (words_[i].text != "as" || words_[i + 1].text != "drawn") continue;
      add("as drawn", {"yes", words_[i].offset});
      size_end = i;
    }
    add("diameter", joined(words_, first, size_end));
    run(end);
  }
  void thread() {
    const std::size_t end = run_start(1);
    const std::string& first = words_[0].text;
    // "M24x30" would be a pitch of 30: surely a length was meant.
    const std::size_t x = first.find('x');
    if (end == words_.size() && first[0] == 'M' && x != std::string::npos) {
      const auto pitch = leading_number(std::string_view(first).substr(x + 1));
      if (pitch && pitch->value > 8) {
        const std::string length = shortest(pitch->value);
        fault(words_[0], "a pitch of " + length + "?",
              "a pitch of at most 8, and the length as a word of its own",
              first.substr(0, x) + " x" + length);
        return;
      }
    }
    add("thread", joined(words_, 0, end));
    run(end);
  }
  void polygon() {
    const std::size_t end = run_start(1);
    add(words_[0].text, joined(words_, 1, end));
    run(end);
  }
  void morse() {
    Node inner;
    inner.kind = Node::Kind::map;
    inner.at = text_node(whole_, words_.front()).at;
    const std::size_t end = run_start(1);
    inner.members.push_back(member("Morse", text_node(whole_, joined(words_, 1, end))));
    members_->push_back(member("cone", std::move(inner)));
    run(end);
  }
  void cone() {
    Node inner;
    inner.kind = Node::Kind::map;
    inner.at = text_node(whole_, words_.front()).at;
    std::size_t i = 1;
    std::size_t end = 1;
    while (end < words_.size() && words_[end].text != "to" && !is_length(words_[end].text)) ++end;
    inner.members.push_back(member("from", text_node(whole_, joined(words_, i, end))));
    if (end < words_.size() && words_[end].text == "to") {
      i = end + 1;
      end = i;
      while (end < words_.size() && !is_length(words_[end].text)) ++end;
      inner.members.push_back(member("to", text_node(whole_, joined(words_, i, end))));
    }
    std::size_t tail = end + 1;
    while (tail < words_.size() && words_[tail].text != "taper" && words_[tail].text != "half")
      ++tail;
    if (tail < words_.size() && words_[tail].text == "taper")
      inner.members.push_back(
          member("taper", text_node(whole_, joined(words_, tail + 1, words_.size()))));
    else if (tail + 1 < words_.size())
      inner.members.push_back(
          member("half angle", text_node(whole_, joined(words_, tail + 2, words_.size()))));
    members_->push_back(member("cone", std::move(inner)));
    words_.resize(std::min(tail, words_.size()));
    run(end);
  }
  void arc() {
    Node inner;
    inner.kind = Node::Kind::map;
    inner.at = text_node(whole_, words_.front()).at;
    if (words_.size() < 5 || !words_[1].text.starts_with("R") || words_[2].text != "to") {
      fault(words_[0], "an arc that cannot be read", "arc R20 to 40 x12");
      return;
    }
    Piece radius = words_[1];
    radius.text.erase(0, 1);
    ++radius.offset;
    inner.members.push_back(member("radius", text_node(whole_, radius)));
    if (words_.back().text == "hollow") {
      inner.members.push_back(
          member("hollow", text_node(whole_, Piece{"yes", words_.back().offset})));
      words_.pop_back();
    }
    std::size_t end = 3;
    while (end < words_.size() && !is_length(words_[end].text)) ++end;
    inner.members.push_back(member("to", text_node(whole_, joined(words_, 3, end))));
    members_->push_back(member("arc", std::move(inner)));
    run(end);
  }

  const Node& whole_;
  std::vector<Piece> words_;
  ProblemList& notes_;
  std::vector<Member>* members_ = nullptr;
};

// An attribute text as a member of the element's map. Repeatable ones gather in lists.
void add_attribute(const Node& whole, const std::vector<Piece>& words, Node& element) {
  std::string key = words[0].text;
  Piece rest = joined(words, 1, words.size());
  if (rest.text.empty()) rest = {"yes", words[0].offset};
  if (roughness_class(key)) {
    rest = words[0];
    key = "N";
  }
  if (key == "no") {  // "no spiral"
    key = "no " + (words.size() > 1 ? words[1].text : "");
    rest = {"yes", words[0].offset};
  }
  const bool repeats = key == "chamfer" || key == "round" || key == "fillet" || key == "relief" ||
                       key == "groove" || key == "circlip" || key == "O-ring" || key == "runout" ||
                       key == "coaxial" || key == "square";
  Node value = piece_node(whole, rest.offset, rest.text);
  for (Member& old : element.members) {
    if (old.key != key || !repeats) continue;
    if (old.value.kind != Node::Kind::list) {
      Node list;
      list.kind = Node::Kind::list;
      list.at = old.value.at;
      list.items.push_back(std::move(old.value));
      old.value = std::move(list);
    }
    old.value.items.push_back(std::move(value));
    return;
  }
  element.members.push_back(member(std::move(key), std::move(value)));
}

std::vector<Piece> split_at(std::string_view text, char separator) {
  std::vector<Piece> pieces;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i)
    if (i == text.size() || text[i] == separator) {
      pieces.push_back({std::string(text.substr(start, i - start)), start});
      start = i + 1;
    }
  return pieces;
}

// "x42,5" written with a decimal comma.
bool decimal_comma(const Piece& before, const Piece& after) {
  return !before.text.empty() && is_digit(before.text.back()) && !after.text.empty() &&
         is_digit(after.text.front());
}

void read_item(const Node& item, ProblemList& notes, std::vector<Node>& maps) {
  const std::vector<Piece> pieces = split_at(item.text, ',');
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::vector<Piece> words = words_of(pieces[i].text, pieces[i].offset);
    if (words.empty()) {
      notes.add_inside(item, pieces[i].offset, 1, "nothing between the commas", "an attribute");
      continue;
    }
    if (i > 0 && decimal_comma(pieces[i - 1], pieces[i])) {
      const auto last = words_of(pieces[i - 1].text, pieces[i - 1].offset).back();
      std::string number = last.text;
      if (number.starts_with("x")) number.erase(0, 1);
      notes.add_inside(item, last.offset, last.text.size() + 1 + words[0].text.size(),
                       "a decimal comma in '" + last.text + "," + words[0].text + "'",
                       "a decimal point", number + "." + words[0].text);
      continue;
    }
    if (is_attribute(words)) {
      if (maps.empty())
        notes.add_inside(item, words[0].offset, words[0].text.size(),
                         "'" + words[0].text + "' stands before any element",
                         "an element first, as '30 k6 x42'");
      else
        add_attribute(item, words, maps.back());
    } else if (i > 0 && not_turned(words[0].text)) {
      notes.add_inside(item, words[0].offset, words[0].text.size(),
                       "'" + words[0].text + "' is not turned about the axis",
                       "a line of its own under other work, as 'keyway 10 P9 x36 on 35 h6, 6 min'");
    } else if (i > 0) {
      notes.add_inside(item, words[0].offset, words[0].text.size(),
                       "'" + words[0].text + "' is no attribute",
                       "Ra, chamfer, fillet, relief, groove, seat, runout …; one element an item",
                       nearest(words[0].text, {attribute_words.begin(), attribute_words.end()}));
    } else {
      maps.push_back(ElementText(item, words, notes).map());
    }
  }
}

}  // namespace

std::vector<Piece> words_of(std::string_view text, std::size_t offset) {
  std::vector<Piece> words;
  std::size_t i = 0;
  while (i < text.size()) {
    while (i < text.size() && text[i] == ' ') ++i;
    const std::size_t start = i;
    while (i < text.size() && text[i] != ' ') ++i;
    if (i > start) words.push_back({std::string(text.substr(start, i - start)), offset + start});
  }
  return words;
}

Node piece_node(const Node& whole, std::size_t offset, std::string text) {
  Node node;
  node.kind = Node::Kind::text;
  node.at = whole.at;
  const std::string_view before = std::string_view(whole.text).substr(0, offset);
  node.at.column += static_cast<int>(characters(before)) + (whole.quoted ? 1 : 0);
  node.text = std::move(text);
  return node;
}

std::vector<Node> element_maps(const Node& list, ProblemList& notes) {
  std::vector<Node> maps;
  for (const Node* item : as_list(list)) {
    if (item->kind == Node::Kind::map) {
      maps.push_back(*item);
    } else if (item->kind == Node::Kind::text && !item->text.empty()) {
      // One cell of a table holds several items: "30 k6 x42, Ra 0.8 | 40 x78".
      for (const Piece& cell : split_at(item->text, '|'))
        read_item(piece_node(*item, cell.offset, cell.text), notes, maps);
    } else {
      notes.add(*item, "found " + described(*item), "an element as '30 k6 x42' or as a map");
    }
  }
  return maps;
}

}  // namespace turnwright
