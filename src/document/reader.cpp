// SPDX-License-Identifier: MIT
#include "turnwright/document/reader.hpp"

#include <algorithm>
#include <utility>

#include "turnwright/quantity/thousands.hpp"

namespace turnwright {

void ProblemList::add(Position at, int width, Message what, Message expected,
                      std::string suggestion) {
  if (full()) return add_to_rest();
  Problem problem;
  problem.file = document_.file;
  problem.at = at;
  problem.width = width;
  problem.what = std::move(what);
  problem.expected = std::move(expected);
  problem.suggestion = std::move(suggestion);
  problem.source_line = line_of(document_.bytes, at.line);
  problems_.push_back(std::move(problem));
}

void ProblemList::add_to_rest() {
  if (problems_.size() == most_problems) {
    Problem rest;
    rest.file = document_.file;
    rest.stands_for = 0;
    problems_.push_back(std::move(rest));
  }
  Problem& rest = problems_.back();
  rest.what = {"document.more-problems", {{"n", ++rest.stands_for}}};
}

void ProblemList::add(const Node& node, Message what, Message expected, std::string suggestion) {
  const auto width = node.kind == Node::Kind::text
                         ? std::max<std::size_t>(characters(node.text), 1) + (node.quoted ? 2 : 0)
                         : std::size_t{1};
  add(node.at, static_cast<int>(width), std::move(what), std::move(expected),
      std::move(suggestion));
}

void ProblemList::add_inside(const Node& node, std::size_t offset, std::size_t width, Message what,
                             Message expected, std::string suggestion) {
  Position at = node.at;
  const std::string_view before = std::string_view(node.text).substr(0, offset);
  at.column += static_cast<int>(characters(before)) + (node.quoted ? 1 : 0);
  add(at, static_cast<int>(std::max<std::size_t>(width, 1)), std::move(what), std::move(expected),
      std::move(suggestion));
}

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

namespace {

// A whole file may be one text: as much of it as shows where it is.
std::string beginning_of(const std::string& text) {
  constexpr std::size_t most = 80;  // characters
  if (characters(text) <= most) return text;
  std::size_t end = 0;
  for (std::size_t n = 0; n < most; ++n) do
      ++end;
    while ((static_cast<unsigned char>(text[end]) & 0xC0) == 0x80);
  return text.substr(0, end) + " …";
}

}  // namespace

Message described(const Node& node) {
  switch (node.kind) {
    case Node::Kind::nothing:
      return "document.nothing";
    case Node::Kind::list:
      return "document.list";
    case Node::Kind::map:
      return "document.map";
    case Node::Kind::text:
      break;
  }
  return {"document.text", {{"text", beginning_of(node.text)}}};
}

Message found(const Node& node) { return {"document.found", {{"what", described(node)}}}; }

std::optional<std::string> read_text(const Node& node, ProblemList& notes,
                                     const Message& expected) {
  if (node.kind == Node::Kind::text && !node.text.empty()) return node.text;
  notes.add(node, found(node), expected);
  return std::nullopt;
}

std::optional<double> read_si(const Node& node, const Unit& bare, ProblemList& notes) {
  const auto text = read_text(node, notes, number_in(bare));
  if (!text) return std::nullopt;
  TextFault fault;
  const auto found = read_quantity(*text, bare, fault);
  if (!found) {
    notes.add(node, fault.what, fault.expected, fault.suggestion);
    return std::nullopt;
  }
  return in_own_currency(*found, node, notes);
}

std::optional<double> in_own_currency(const TypedQuantity& found, const Node& node,
                                      ProblemList& notes) {
  const auto factor = notes.currencies().factor(found.unit.currency);
  if (factor) return *factor == 1 ? found.si : found.si * *factor;
  notes.add(
      node,
      {"number.no-exchange", {{"currency", found.unit.currency}, {"own", notes.currencies().own}}},
      {"expected.exchange", {{"currency", found.unit.currency}}});
  return std::nullopt;
}

std::optional<bool> read_yes_no(const Node& node, ProblemList& notes) {
  if (node.text == "yes" || node.text == "true") return true;
  if (node.text == "no" || node.text == "false") return false;
  notes.add(node, found(node), "expected.yes-or-no");
  return std::nullopt;
}

std::optional<int> read_whole(const Node& node, ProblemList& notes, int low, int high) {
  if (node.kind == Node::Kind::text)
    if (const auto value = read_whole(node.text, low, high)) return value;
  for (const char mark : {'.', ','})
    if (node.kind == Node::Kind::text && parts_thousands(node.text, mark)) {
      std::string digits = node.text;
      std::erase(digits, mark);
      notes.add(node, Message{"number.thousands-or-decimals", {{"text", node.text}}},
                Message{"expected.without-marks", {{"digits", digits}}});
      return std::nullopt;
    }
  notes.add(node, found(node), {"expected.whole-number", {{"low", low}, {"high", high}}});
  return std::nullopt;
}

MapReader::MapReader(const Node& node, ProblemList& notes, Message what)
    : node_(node), notes_(notes), what_(std::move(what)) {
  if (!is_map()) notes_.add(node, found(node), {"expected.map", {{"what", what_}}});
}

const Node* MapReader::find(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.emplace_back(key);
  for (const Member& member : node_.members)
    if (member.key == key) return &member.value;
  return nullptr;
}

const Node* MapReader::need(std::string_view key) {
  const Node* found = find(key);
  if (found == nullptr && is_map())
    notes_.add(node_.at, 1, {"document.lacks-key", {{"what", what_}, {"key", key}}});
  return found;
}

std::optional<std::string> MapReader::text(std::string_view key) {
  const Node* found = find(key);
  if (found == nullptr) return std::nullopt;
  return read_text(*found, notes_, "expected.text");
}

std::string MapReader::text_or(std::string_view key, std::string_view otherwise) {
  return text(key).value_or(std::string(otherwise));
}

std::optional<int> MapReader::whole(std::string_view key, int low, int high) {
  const Node* found = find(key);
  if (found == nullptr) return std::nullopt;
  return read_whole(*found, notes_, low, high);
}

std::optional<bool> MapReader::yes_no(std::string_view key) {
  const Node* found = find(key);
  if (found == nullptr) return std::nullopt;
  return read_yes_no(*found, notes_);
}

std::optional<std::string> MapReader::one_of(std::string_view key,
                                             const std::vector<std::string>& words) {
  const Node* found = find(key);
  if (found == nullptr) return std::nullopt;
  if (std::find(words.begin(), words.end(), found->text) != words.end()) return found->text;
  notes_.add(*found, turnwright::found(*found), turnwright::one_of(words),
             nearest(found->text, words));
  return std::nullopt;
}

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "{Ra: 3,2}": of a number with a decimal comma the rest looks like a key without a value.
bool is_rest_of_number(const Member& member, const Member* before) {
  if (before == nullptr || member.value.kind != Node::Kind::nothing || member.key.empty())
    return false;
  const Node& number = before->value;
  return is_digit(member.key.front()) && number.kind == Node::Kind::text && !number.quoted &&
         !number.text.empty() && is_digit(number.text.back()) &&
         number.text.find('.') == std::string::npos;
}

void add_comma_in_number(ProblemList& notes, const Node& number, const std::string& rest) {
  const std::string text = number.text + "," + rest;
  const std::string figure = text.substr(0, text.find_first_not_of("0123456789,"));
  const int width = static_cast<int>(characters(text));
  if (parts_thousands(figure, ','))
    notes.add(number.at, width, {"number.thousands-or-decimals", {{"text", figure}}},
              {"expected.without-marks", {{"digits", number.text + rest}}});
  else
    notes.add(number.at, width, {"number.decimal-comma", {{"text", text}}},
              "expected.decimal-point", number.text + "." + rest);
}

}  // namespace

void MapReader::finish() {
  const Member* before = nullptr;
  for (const Member& member : node_.members) {
    const Member* last = std::exchange(before, &member);
    if (std::find(known_.begin(), known_.end(), member.key) != known_.end()) continue;
    if (is_rest_of_number(member, last)) {
      add_comma_in_number(notes_, last->value, member.key);
      continue;
    }
    if (notes_.full()) {
      notes_.add(member.at, 1, {"document.unknown-key", {{"key", member.key}}});
      continue;
    }
    std::vector<std::string> sorted = known_;
    std::sort(sorted.begin(), sorted.end());
    notes_.add(member.at, static_cast<int>(characters(member.key)),
               {"document.unknown-key", {{"key", member.key}}}, turnwright::one_of(sorted),
               nearest(member.key, known_));
  }
}

std::vector<const Node*> as_list(const Node& node) {
  std::vector<const Node*> items;
  if (node.kind == Node::Kind::list)
    for (const Node& item : node.items) items.push_back(&item);
  else
    items.push_back(&node);
  return items;
}

}  // namespace turnwright
