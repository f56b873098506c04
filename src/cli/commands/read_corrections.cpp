// SPDX-License-Identifier: MIT
#include "read_corrections.hpp"

#include <algorithm>

#include "turnwright/document/node.hpp"

namespace turnwright::cli {

bool holds_corrections(const NamedText& file) {
  const auto document = read_document(file.name, file.text);
  if (!document) return false;
  const auto& members = document->root.members;
  return !members.empty() && std::all_of(members.begin(), members.end(), [](const Member& m) {
    return m.key == "description" || m.key == "units" || m.key == "corrections";
  });
}

}  // namespace turnwright::cli
