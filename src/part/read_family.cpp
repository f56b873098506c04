// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cctype>

#include "family.hpp"

namespace turnwright {
namespace {

bool contains(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

class FamilySizes {
 public:
  FamilySizes(const RowSizes& sizes, const Node& named, ProblemList& problems)
      : sizes_(sizes), named_(named), problems_(problems) {}

  void fill(Node& node) {
    node.at = place_of_family;
    if (node.kind == Node::Kind::text) node.text = filled(node.text);
    for (Node& item : node.items) fill(item);
    for (Member& member : node.members) {
      member.at = place_of_family;
      fill(member.value);
    }
  }
  /// The sizes that the row has and the family has not.
  void check_unused(const std::vector<std::string>& columns) {
    for (const auto& [name, cell] : sizes_)
      if (!contains(used_, name))
        problems_.add(cell_node(*cell), Message{"part.size-unknown", {{"size", name}}},
                      used_.empty() ? Message{} : one_of(used_), nearest(name, columns));
  }

 private:
  std::string filled(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const std::size_t close = text[i] == '<' ? text.find('>', i) : std::string::npos;
      const std::string name = close == std::string::npos ? "" : text.substr(i + 1, close - i - 1);
      if (!is_size_name(name)) {
        out += text[i];
        continue;
      }
      out += value_of(name);
      i = close;
    }
    return out;
  }
  std::string value_of(const std::string& name) {
    if (!contains(used_, name)) used_.push_back(name);
    const auto found = sizes_.find(name);
    if (found != sizes_.end()) return found->second->text;
    add_missing(name);
    return "";
  }
  void add_missing(const std::string& name) {
    if (contains(missing_, name)) return;
    missing_.push_back(name);
    std::vector<std::string> names;
    for (const auto& [known, cell] : sizes_) names.push_back(known);
    problems_.add(named_, Message{"part.size-missing", {{"size", name}}},
                  Message{"part.wants-column", {{"column", name}}}, nearest(name, names));
  }

  const RowSizes& sizes_;
  const Node& named_;
  ProblemList& problems_;
  std::vector<std::string> used_, missing_;
};

}  // namespace

Node cell_node(const Cell& cell) {
  Node node;
  node.kind = Node::Kind::text;
  node.quoted = cell.quoted;
  node.at = cell.at;
  node.text = cell.text;
  return node;
}

bool is_size_name(std::string_view name) {
  const bool plain = std::all_of(name.begin(), name.end(), [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
  });
  return plain && !name.empty() && std::isalpha(static_cast<unsigned char>(name[0])) != 0;
}

Node filled_family(const Node& root, const RowSizes& sizes, const Node& named,
                   const std::vector<std::string>& columns, ProblemList& problems) {
  FamilySizes family(sizes, named, problems);
  Node copy = root;
  family.fill(copy);
  family.check_unused(columns);
  return copy;
}

}  // namespace turnwright
