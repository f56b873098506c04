// SPDX-License-Identifier: MIT
#include <algorithm>

#include "examples.hpp"
#include "turnwright/document/reader.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright {
namespace {

void read_columns(const Node& node, ProblemList& problems, HeadingWords& headings) {
  if (node.kind != Node::Kind::map)
    return problems.add(node, found(node), such_as("{Zeichnungs-Nr: number, Kontur: outside}"));
  std::vector<std::string> names;
  for (const ListColumn& column : list_columns()) names.push_back(column.name);
  for (const Member& member : node.members) {
    const std::string& name = member.value.text;
    if (std::find(names.begin(), names.end(), name) == names.end())
      problems.add(member.value, Message{"part.column-unknown", {{"column", name}}}, one_of(names),
                   nearest(name, names));
    headings[plain_heading(member.key)] = name;
  }
}

}  // namespace

Checked<ListLayout> read_list_layout(std::string file, std::string_view text) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList problems(*document);
  ListLayout layout;
  MapReader map(document->root, problems, "part.a-list-layout");
  layout.sheet = map.text_or("sheet", "");
  layout.inch = map.one_of("units", {"metric", "inch"}) == "inch";
  if (const Node* columns = map.find("columns")) read_columns(*columns, problems, layout.headings);
  map.finish();
  if (!problems.clean()) return problems.problems();
  return layout;
}

}  // namespace turnwright
