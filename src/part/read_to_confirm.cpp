// SPDX-License-Identifier: MIT
// What a draft leaves to be settled: its points in words, and what stands empty until somebody
// knows.
#include "part_sections.hpp"

namespace turnwright {

bool SectionReading::is_open(const Node& node) const {
  return draft &&
         (node.kind == Node::Kind::nothing || (node.kind == Node::Kind::text && node.text.empty()));
}

std::vector<std::string> read_to_confirm(const SectionReading& in, const Node& node) {
  std::vector<std::string> points;
  for (const Node* item : as_list(node))
    if (auto text = read_text(*item, in.problems, "expected.text"))
      points.push_back(std::move(*text));
  return points;
}

Messages to_fill_in(const Part& part) {
  Messages open;
  if (part.material.empty()) open.emplace_back("part.fill-in-material");
  for (const OtherWork& work : part.other_work)
    if (work.is_open()) open.push_back({"part.fill-in-work", {{"what", work.what}}});
  return open;
}

}  // namespace turnwright
