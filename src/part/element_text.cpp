// SPDX-License-Identifier: MIT
#include "element_text.hpp"

#include <algorithm>
#include <array>

#include "examples.hpp"

namespace turnwright {
namespace {

constexpr std::array attribute_words{
    "Ra",      "Rz",     "chamfer", "round", "fillet", "relief",  "undercut", "groove",
    "circlip", "O-ring", "knurl",   "seat",  "runout", "coaxial", "square",   "flat",
    "gauge",   "ground", "no",      "leave", "allow",  "V-groove"};
constexpr std::array repeatable{"chamfer", "round",   "fillet",   "relief",
                                "groove",  "circlip", "O-ring",   "runout",
                                "coaxial", "square",  "V-groove", "round groove"};

// More than one element or one cell ever has; what takes longer is no drawing.
constexpr std::size_t most_attributes = 100, most_items = 500;

template <class Words>
bool contains(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_roughness_class(std::string_view word) {
  return word.size() >= 2 && word.size() <= 3 && word[0] == 'N' &&
         std::all_of(word.begin() + 1, word.end(), is_digit);
}

// "square 20 x12" is a polygon, "square 0.02 to A" a tie.
bool is_attribute(const std::vector<Piece>& words) {
  if (words.empty()) return false;
  const std::string& first = words.front().text;
  if (is_roughness_class(first)) return true;
  if (first == "square")
    return std::any_of(words.begin(), words.end(), [](const Piece& w) { return w.text == "to"; });
  return contains(attribute_words, first);
}

struct Attribute {
  std::string key;
  Piece value;
};

Attribute attribute_of(const std::vector<Piece>& words) {
  const Piece& first = words[0];
  const Piece yes{"yes", first.offset};
  if (is_roughness_class(first.text)) return {"N", first};
  if (first.text == "no" && words.size() > 1)  // "no spiral"
    return {"no " + words[1].text, yes};
  if (words.size() == 1) return {first.text, yes};
  if (first.text == "round" && words[1].text == "groove")
    return {"round groove", words.size() > 2 ? joined(words, 2, words.size()) : yes};
  return {first.text, joined(words, 1, words.size())};
}

void append(Node& value, Node more) {
  if (value.kind != Node::Kind::list) {
    Node list;
    list.kind = Node::Kind::list;
    list.at = value.at;
    list.items.push_back(std::move(value));
    value = std::move(list);
  }
  value.items.push_back(std::move(more));
}

// An attribute text as a member of the element's map. Repeatable ones gather in lists.
void add_attribute(const Node& whole, const std::vector<Piece>& words, Node& element) {
  Attribute attribute = attribute_of(words);
  Node value = piece_node(whole, attribute.value);
  for (Member& old : element.members)
    if (old.key == attribute.key && contains(repeatable, attribute.key)) {
      append(old.value, std::move(value));
      return;
    }
  element.members.push_back(member(std::move(attribute.key), std::move(value)));
}

// "x42,5" written with a decimal comma.
bool is_decimal_comma(const Piece& before, const Piece& after) {
  return !before.text.empty() && is_digit(before.text.back()) && !after.text.empty() &&
         is_digit(after.text.front());
}

void add_decimal_comma(const Node& item, const Piece& before, const Piece& after,
                       ProblemList& problems) {
  const Piece last = split_words(before.text, before.offset).back();
  const std::string text = last.text + "," + after.text;
  std::string number = last.text + "." + after.text;
  if (number.starts_with("x")) number.erase(0, 1);
  problems.add_inside(item, last.offset, text.size(),
                      Message{"number.decimal-comma", {{"text", text}}}, "expected.decimal-point",
                      number);
}

void add_not_an_attribute(const Node& item, const Piece& word, ProblemList& problems) {
  add_at(problems, item, word, Message{"part.not-an-attribute", {{"word", word.text}}},
         Message{"part.wants-attributes",
                 {{"examples", "Ra, chamfer, fillet, relief, groove, seat, runout"}}},
         nearest(word.text, {attribute_words.begin(), attribute_words.end()}));
}

// The text after a comma: an attribute of the element before it.
void read_attribute(const Node& item, const std::vector<Piece>& words, ProblemList& problems,
                    std::vector<Node>& maps) {
  if (!maps.empty())
    add_attribute(item, words, maps.back());
  else
    add_at(problems, item, words[0], Message{"part.attribute-first", {{"word", words[0].text}}},
           Message{"part.wants-element-first", {{"example", "30 k6 x42"}}});
}

// True, and said, where a text has more pieces than are read.
bool too_many(const Node& item, std::size_t pieces, std::size_t most, ProblemList& problems) {
  if (pieces <= most) return false;
  problems.add(item.at, 1, Message{"part.too-many-pieces", {{"most", most}}},
               "part.wants-turned-part");
  return true;
}

void read_item(const Node& item, ProblemList& problems, std::vector<Node>& maps) {
  const std::vector<Piece> pieces = split_at(item.text, ',');
  if (too_many(item, pieces.size(), most_attributes, problems)) return;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::vector<Piece> words = split_words(pieces[i].text, pieces[i].offset);
    if (words.empty())
      problems.add_inside(item, pieces[i].offset, 1, "part.nothing-between-commas",
                          "part.wants-attribute");
    else if (i > 0 && is_decimal_comma(pieces[i - 1], pieces[i]))
      add_decimal_comma(item, pieces[i - 1], words[0], problems);
    else if (is_attribute(words))
      read_attribute(item, words, problems, maps);
    else if (i == 0)
      maps.push_back(shape_map(item, words, problems));
    else if (is_not_turned(words[0].text))
      add_not_turned(problems, item, words[0]);
    else if (words[0].text == "square")
      add_at(problems, item, words[0], "part.tie-without-datum", such_as("square 0.02 to A"));
    else
      add_not_an_attribute(item, words[0], problems);
  }
}

// One cell of a table holds several items: "30 k6 x42, Ra 0.8 | 40 x78".
void read_items(const Node& cell, ProblemList& problems, std::vector<Node>& maps) {
  const std::vector<Piece> items = split_at(cell.text, '|');
  if (too_many(cell, items.size(), most_items, problems)) return;
  for (const Piece& item : items) read_item(piece_node(cell, item), problems, maps);
}

// The sign of multiplication is an x that somebody set well.
Node with_plain_x(Node item) {
  constexpr std::string_view sign = "\xC3\x97";
  for (std::size_t at = item.text.find(sign); at != std::string::npos; at = item.text.find(sign))
    item.text.replace(at, sign.size(), "x");
  return item;
}

// What stands of a text in the line where it begins; all of it where it does not run on.
std::string_view first_line(const Node& item, std::string_view line) {
  std::size_t start = 0;
  for (int column = 1; column < item.at.column && start < line.size(); ++column)
    start += std::max<std::size_t>(character_length(line.substr(start)), 1);
  line.remove_prefix(std::min(start, line.size()));
  const std::size_t end = line.find_last_not_of(' ');
  line = line.substr(0, end == std::string_view::npos ? 0 : end + 1);
  const bool runs_on = !item.quoted && !line.empty() && line.size() < item.text.size() &&
                       item.text.starts_with(line);
  return runs_on ? line : std::string_view(item.text);
}

// The lines of a file, asked for from the first to the last.
class Lines {
 public:
  explicit Lines(std::string_view bytes) : bytes_(bytes) {}
  std::string_view at(int line) {
    if (line < line_) line_ = 1, start_ = 0;
    for (; line_ < line && start_ < bytes_.size(); ++line_)
      start_ = std::min(bytes_.find('\n', start_), bytes_.size() - 1) + 1;
    const std::string_view text = bytes_.substr(start_, bytes_.find('\n', start_) - start_);
    return text.ends_with('\r') ? text.substr(0, text.size() - 1) : text;
  }

 private:
  std::string_view bytes_;
  int line_ = 1;
  std::size_t start_ = 0;
};

bool is_element(const Node& item, std::string_view text, const ProblemList& problems) {
  Node alone = item;
  alone.text = text;
  ProblemList own(problems.document());
  std::vector<Node> maps;
  read_items(with_plain_x(alone), own, maps);
  return own.clean() && !maps.empty();
}

// A text may go on in the next line; where both are elements by themselves, the second lacks its
// dash.
bool lacks_dash(const Node& item, Lines& lines, ProblemList& problems) {
  const std::string_view first = first_line(item, lines.at(item.at.line));
  if (first.size() == item.text.size() || first.back() == ',') return false;
  const std::string_view rest = std::string_view(item.text).substr(first.size());
  if (!rest.starts_with(' ') || !is_element(item, first, problems) ||
      !is_element(item, rest.substr(1), problems))
    return false;
  const int next = item.at.line + 1;
  const std::string_view below = lines.at(next);
  const std::size_t blanks = std::min(below.find_first_not_of(' '), below.size());
  problems.add({next, static_cast<int>(blanks) + 1}, 1, "part.line-without-dash",
               Message{"part.wants-dash", {{"dash", "- "}}});
  return true;
}

}  // namespace

std::vector<Node> element_maps(const Node& list, ProblemList& problems) {
  std::vector<Node> maps;
  Lines lines(problems.document().bytes);
  for (const Node* item : as_list(list)) {
    if (item->kind == Node::Kind::map && !item->members.empty()) {
      maps.push_back(*item);
    } else if (item->kind == Node::Kind::text && !item->text.empty()) {
      if (!lacks_dash(*item, lines, problems)) read_items(with_plain_x(*item), problems, maps);
    } else {
      problems.add(*item, found(*item),
                   Message{"part.wants-element-or-map", {{"example", "30 k6 x42"}}});
    }
  }
  return maps;
}

}  // namespace turnwright
