// SPDX-License-Identifier: MIT
// Each node: its kind and whether it was quoted, its place, then its text, items or members.
// Numbers by 128s, the lowest first.
#include "turnwright/document/packed.hpp"

#include <cstdint>

namespace turnwright {
namespace {

constexpr unsigned quoted_flag = 4;

class Packer {
 public:
  void node(const Node& n) {
    number(static_cast<std::uint64_t>(n.kind) | (n.quoted ? quoted_flag : 0U));
    place(n.at);
    switch (n.kind) {
      case Node::Kind::nothing:
        break;
      case Node::Kind::text:
        text(n.text);
        break;
      case Node::Kind::list:
        number(n.items.size());
        for (const Node& item : n.items) node(item);
        break;
      case Node::Kind::map:
        number(n.members.size());
        for (const Member& m : n.members) {
          text(m.key);
          place(m.at);
          node(m.value);
        }
    }
  }
  std::string take() { return std::move(bytes_); }

 private:
  void number(std::uint64_t value) {
    for (; value >= 0x80; value >>= 7) bytes_ += static_cast<char>((value & 0x7f) | 0x80);
    bytes_ += static_cast<char>(value);
  }
  void place(const Position& at) {
    number(static_cast<std::uint64_t>(at.line));
    number(static_cast<std::uint64_t>(at.column));
  }
  void text(const std::string& t) {
    number(t.size());
    bytes_ += t;
  }
  std::string bytes_;
};

class Unpacker {
 public:
  explicit Unpacker(std::string_view bytes) : bytes_(bytes) {}

  Node node() {
    Node n;
    const std::uint64_t head = number();
    n.kind = static_cast<Node::Kind>(head & (quoted_flag - 1));
    n.quoted = (head & quoted_flag) != 0;
    n.at = place();
    if (n.kind == Node::Kind::text) n.text = text();
    if (n.kind == Node::Kind::list) {
      const std::size_t count = number();
      n.items.reserve(count);
      for (std::size_t i = 0; i < count; ++i) n.items.push_back(node());
    }
    if (n.kind == Node::Kind::map) {
      const std::size_t count = number();
      n.members.reserve(count);
      for (std::size_t i = 0; i < count; ++i) {
        Member& m = n.members.emplace_back();
        m.key = text();
        m.at = place();
        m.value = node();
      }
    }
    return n;
  }

 private:
  std::uint64_t number() {
    std::uint64_t value = 0;
    for (int shift = 0; at_ < bytes_.size(); shift += 7) {
      const auto byte = static_cast<unsigned char>(bytes_[at_++]);
      value |= static_cast<std::uint64_t>(byte & 0x7f) << shift;
      if (byte < 0x80) break;
    }
    return value;
  }
  Position place() {
    const auto line = static_cast<int>(number());
    return {line, static_cast<int>(number())};
  }
  std::string text() {
    const std::size_t length = number();
    const std::string_view t = bytes_.substr(at_, length);
    at_ += t.size();
    return std::string(t);
  }
  std::string_view bytes_;
  std::size_t at_ = 0;
};

}  // namespace

std::string packed(const Node& node) {
  Packer packer;
  packer.node(node);
  return packer.take();
}

Node unpacked(std::string_view bytes) { return Unpacker(bytes).node(); }

}  // namespace turnwright
