// SPDX-License-Identifier: MIT
#pragma once
// The records of all files by section, a later file's over an earlier one's of the same name.
#include <functional>
#include <map>
#include <memory>

#include "record.hpp"

namespace turnwright {

struct RecordNode {
  const Node* node;
  ProblemList* notes;
  bool own;
  std::shared_ptr<const RecordNode> under{};  // of the same name in an earlier file
};

/// Section -> records in the order of first appearance
using Section = std::vector<std::pair<std::string, RecordNode>>;
using Sections = std::map<std::string, Section>;

/// What stands under `name` of a record; none where it has none.
const Node* name_node(const Node& record);

/// The section's records, each handed to `read` as a map whose unknown keys are reported.
void each_record(const Sections& sections, std::string_view name,
                 const std::function<void(MapReader&, bool own)>& read);

/// A material that leaves something out has it from the shipped record of its name, from the one
/// that it is `like`, or from the first of its group.
void read_materials(const Sections& sections, Shop& shop);
void read_grades(const Sections& sections, Shop& shop);
void read_cutting(const Sections& sections, Shop& shop);
/// A method that leaves something out has it from the record of its name in an earlier file.
void read_methods(const Sections& sections, Shop& shop);

// ---- check_references.cpp
/// A name that a record uses of another, or has itself as a row that the program looks up, must be
/// known: else what the shop wrote would never be asked for.
void check_references(const Sections& sections, const Shop& shop);

}  // namespace turnwright
