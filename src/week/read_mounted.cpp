// SPDX-License-Identifier: MIT
#include "read_times.hpp"

namespace turnwright {
namespace {

using Words = std::vector<std::string_view>;

Words split(std::string_view text) {
  Words words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

std::optional<MountedItem> sized_item(MountedKind kind, std::string_view text) {
  const auto mm = read_number(text);
  if (!mm || *mm <= 0) return std::nullopt;
  return mounted_item(kind, *mm * unit::mm);
}

std::optional<MountedItem> mounted_of(std::string_view text) {
  if (text == "jaws, hard") return MountedItem{MountedKind::hard_jaws, "", 0};
  if (text == "jaws, soft") return MountedItem{MountedKind::soft_jaws, "", 0};
  Words words = split(text);
  if (words.size() < 2) return std::nullopt;
  if (words.front() == "tool")
    return MountedItem{MountedKind::tool, std::string(text.substr(words.front().size() + 1)), 0};
  const std::string_view last = words.back();
  words.pop_back();
  if (words == Words{"bar"}) return sized_item(MountedKind::bar, last);
  if (words == Words{"soft", "jaws", "bored", "to"})
    return sized_item(MountedKind::bored_jaws, last);
  return std::nullopt;
}

}  // namespace

std::optional<MountedItem> read_mounted(const Node& node, ProblemList& problems) {
  const auto text = read_text(node, problems, "week.a-mounted-item");
  if (!text) return std::nullopt;
  auto item = mounted_of(*text);
  if (!item) problems.add(node, found(node), "week.a-mounted-item");
  return item;
}

}  // namespace turnwright
