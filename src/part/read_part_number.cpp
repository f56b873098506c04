// SPDX-License-Identifier: MIT
#include "turnwright/document/node.hpp"
#include "turnwright/part/file_kind.hpp"
#include "turnwright/part/part_number.hpp"

namespace turnwright {

std::string part_number_in(std::string_view text) {
  if (kind_of_file(text) != FileKind::part) return "";
  const auto document = read_document("", text);
  if (!document) return "";
  for (const Member& part : document->root.members)
    for (const Member& member : part.value.members)
      if (part.key == "part" && member.key == "number") return member.value.text;
  return "";
}

}  // namespace turnwright
