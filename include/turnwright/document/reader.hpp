// SPDX-License-Identifier: MIT
#pragma once
// Helpers for the rooms that turn a document into their own types: every problem is gathered with
// its place, unknown keys are refused with the nearest known one.
//   MapReader map(node, notes);
//   auto d = map.quantity<Dim{1}>("diameter", unit::mm);
//   map.finish();
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/node.hpp"
#include "turnwright/quantity/currency.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

/// Gathers the problems of one document: the first `most_problems`, and one that counts the rest.
class ProblemList {
 public:
  explicit ProblemList(const Document& document, Currencies currencies = {})
      : document_(document), currencies_(std::move(currencies)) {}
  void add(Position at, int width, Message what, Message expected = {},
           std::string suggestion = "");
  void add(const Node& node, Message what, Message expected = {}, std::string suggestion = "");
  /// A fault inside the text of a node, `offset` characters from its start.
  void add_inside(const Node& node, std::size_t offset, std::size_t width, Message what,
                  Message expected = {}, std::string suggestion = "");
  const Problems& problems() const { return problems_; }
  bool clean() const { return problems_.empty(); }
  /// No other is listed: what it takes to word one can be saved.
  bool full() const { return problems_.size() >= most_problems; }
  const Document& document() const { return document_; }
  /// What amounts may be written in.
  const Currencies& currencies() const { return currencies_; }
  void use(Currencies currencies) { currencies_ = std::move(currencies); }

 private:
  const Document& document_;
  Currencies currencies_;
  void add_to_rest();
  Problems problems_;
};

/// Characters (not bytes) of an UTF-8 text.
std::size_t characters(std::string_view text);
/// Byte offset of the first fault in the encoding (UTF-8 without NUL), or npos.
std::size_t bad_byte(std::string_view text);
/// What the node is, for a message: a list, '42'.
Message described(const Node& node);
/// "found '42'", as what is wrong.
Message found(const Node& node);

/// The text of a scalar; a problem when it is something else or empty.
std::optional<std::string> read_text(const Node& node, ProblemList& notes, const Message& expected);
/// An amount in another currency is converted by the record of the shop; a problem without one.
std::optional<double> read_si(const Node& node, const Unit& bare, ProblemList& notes);
/// The same of a quantity that stands inside the text of a node.
std::optional<double> in_own_currency(const TypedQuantity& found, const Node& node,
                                      ProblemList& notes);
std::optional<bool> read_yes_no(const Node& node, ProblemList& notes);
std::optional<int> read_whole(const Node& node, ProblemList& notes, int low, int high);

/// One map of the file. Each look-up marks its key as known; `finish` reports the others.
class MapReader {
 public:
  MapReader(const Node& node, ProblemList& notes, Message what);
  ~MapReader() = default;
  MapReader(const MapReader&) = delete;
  MapReader& operator=(const MapReader&) = delete;

  bool is_map() const { return node_.kind == Node::Kind::map; }
  const Node& node() const { return node_; }
  ProblemList& notes() { return notes_; }

  const Node* find(std::string_view key);
  /// As find; a problem when the key is missing.
  const Node* need(std::string_view key);
  std::optional<std::string> text(std::string_view key);
  std::string text_or(std::string_view key, std::string_view otherwise);
  std::optional<int> whole(std::string_view key, int low, int high);
  std::optional<bool> yes_no(std::string_view key);
  template <Dim D>
  std::optional<Quantity<D>> quantity(std::string_view key, const UnitOf<D>& bare) {
    const Node* found = find(key);
    if (found == nullptr) return std::nullopt;
    const auto si = read_si(*found, bare, notes_);
    if (!si) return std::nullopt;
    return Quantity<D>(*si);
  }
  template <Dim D>
  Quantity<D> quantity_or(std::string_view key, const UnitOf<D>& bare, Quantity<D> otherwise) {
    return quantity(key, bare).value_or(otherwise);
  }
  template <Dim D>
  Quantity<D> needed(std::string_view key, const UnitOf<D>& bare) {
    if (need(key) == nullptr) return Quantity<D>(0.0);
    return quantity(key, bare).value_or(Quantity<D>(0.0));
  }
  /// One of the words, or a problem with the nearest.
  std::optional<std::string> one_of(std::string_view key, const std::vector<std::string>& words);
  void finish();

 private:
  const Node& node_;
  ProblemList& notes_;
  Message what_;
  std::vector<std::string> known_;
};

/// The node as a list: a list's items, or the node itself as the only item.
std::vector<const Node*> as_list(const Node& node);

}  // namespace turnwright
