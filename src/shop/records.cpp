// SPDX-License-Identifier: MIT
#include "turnwright/shop/records.hpp"

#include <algorithm>

#include "read_rate_files.hpp"
#include "turnwright/document/write_yaml.hpp"

namespace turnwright {
namespace {

YamlValue value_of(const Node& node, bool in_one_line) {
  YamlValue value = YamlValue::of(node.text);
  if (node.kind == Node::Kind::list) {
    value = YamlValue::list({});
    for (const Node& item : node.items) value.items.push_back(value_of(item, true));
  } else if (node.kind == Node::Kind::map) {
    value = YamlValue::map({});
    for (const Member& member : node.members)
      value.fields.push_back({member.key, value_of(member.value, true)});
  }
  value.in_one_line = in_one_line && node.kind != Node::Kind::text;
  return value;
}

Problems unknown(Message what, const std::string& name, const std::vector<std::string>& known) {
  Problem problem;
  problem.what = std::move(what);
  problem.suggestion = nearest(name, known);
  if (problem.suggestion.empty()) problem.expected = one_of(known);
  return {problem};
}

Problems no_section(const std::string& section) {
  return unknown({"shop.unknown-section", {{"key", section}}}, section, section_names());
}

Problems no_record(const std::string& section, const std::string& name, const Section& records) {
  std::vector<std::string> names;
  for (const auto& [known, record] : records) names.push_back(known);
  return unknown({"shop.unknown-row", {{"section", section}, {"name", name}}}, name, names);
}

}  // namespace

Checked<std::string> records_text(const std::vector<NamedText>& files, const std::string& section,
                                  const std::string& name) {
  const RateFiles rates(files, files.size());
  if (Problems problems = rates.problems(); !problems.empty()) return problems;
  const auto found = rates.sections().find(section);
  if (found == rates.sections().end()) return no_section(section);
  std::string text = section + ":\n", file;
  bool any = false;
  for (const auto& [known, record] : found->second) {
    if (!name.empty() && known != name) continue;
    const std::string& from = record.notes->document().file;
    if (from != file) text += "# " + from + "\n";
    file = from;
    text += yaml_text(YamlValue::list({value_of(*record.node, false)}));
    any = true;
  }
  if (!any) return no_record(section, name, found->second);
  return text;
}

}  // namespace turnwright
