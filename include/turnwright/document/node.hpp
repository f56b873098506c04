// SPDX-License-Identifier: MIT
#pragma once
// A YAML text as a plain tree with positions. Refused, as problems with their place: duplicate
// keys, anchors and aliases, tags, a second document, depth over 64, size over 16 MiB, more
// values than `most_nodes`, bytes that are not UTF-8, NUL. Nothing in here crashes on any input.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/problem.hpp"

namespace turnwright {

struct Member;

struct Node {
  Node();  // written once, in node.cpp, not in every file that copies one
  Node(const Node&);
  Node(Node&&) noexcept;
  Node& operator=(const Node&);
  Node& operator=(Node&&) noexcept;
  ~Node();

  enum class Kind { nothing, text, list, map };
  Kind kind = Kind::nothing;
  bool quoted = false;
  Position at;
  std::string text;
  std::vector<Node> items;      // of a list
  std::vector<Member> members;  // of a map, in the order of the file
};

struct Member {
  std::string key;
  Position at;
  Node value;
};

struct Document {
  std::string file;
  std::string bytes;
  Node root;
};

inline constexpr std::size_t largest_document = std::size_t{16} << 20;
inline constexpr int deepest_document = 64;
inline constexpr std::size_t most_nodes = 1'000'000;

Checked<Document> read_document(std::string file, std::string_view bytes);

/// The text of one line of `bytes`, without its end.
std::string line_of(std::string_view bytes, int line);

}  // namespace turnwright
