// SPDX-License-Identifier: MIT
// Names that records use: of one another, and of the rows that the program looks up. A record that
// nothing would ever ask for is a slip of the pen.
#include <algorithm>

#include "sections.hpp"

namespace turnwright {
namespace {

using Names = std::vector<std::string>;

bool is_one_of(const std::string& name, const Names& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

template <class Records>
Names names_of(const Records& records) {
  Names names;
  for (const auto& record : records) names.push_back(record.name);
  return names;
}

template <class Id>
Names rows_of(int rows) {
  Names names;
  for (int i = 0; i < rows; ++i) names.emplace_back(name_of(static_cast<Id>(i)));
  return names;
}

void add_unknown(ProblemList& notes, const Node& node, const Message& what, const Message& name,
                 const std::string& near) {
  notes.add(node, {"shop.unknown-name", {{"what", what}, {"name", name}}},
            {"expected.of-the-rates", {{"what", what}}}, near);
}

class References {
 public:
  explicit References(const Sections& sections) : sections_(sections) {}

  /// What stands under `key` of the section's records is one of `names`.
  void check(std::string_view section, std::string_view key, const Names& names,
             const Message& what) const {
    each(section, [&](const RecordNode& record) {
      for (const Member& member : record.node->members) {
        if (member.key != key) continue;
        for (const Node* item : as_list(member.value))
          if (!is_one_of(item->text, names))
            add_unknown(*record.notes, *item, what, described(*item), nearest(item->text, names));
      }
    });
  }
  /// The section's records themselves are rows that the program looks up.
  void check_rows(std::string_view section, const Names& names) const {
    each(section, [&](const RecordNode& record) {
      const Node& name = *name_node(*record.node);
      if (!is_one_of(name.text, names)) add_unknown_row(*record.notes, name, section, names);
    });
  }
  /// Grades are keys in the maps of the kinds of step.
  void check_grades_of_steps(const Names& grades) const {
    each("kinds of step", [&](const RecordNode& record) {
      for (const Member& member : record.node->members)
        for (const Member& share : member.value.members)
          if (!is_one_of(share.key, grades))
            add_unknown(*record.notes, share.value, "shop.grade", verbatim(share.key),
                        nearest(share.key, grades));
    });
  }

 private:
  template <class Check>
  void each(std::string_view section, Check check) const {
    const auto found = sections_.find(std::string(section));
    if (found == sections_.end()) return;
    for (const auto& [name, record] : found->second) check(record);
  }

  const Sections& sections_;
};

// A method is for one lathe, or for all of a kind.
Names machines_of_methods(const Shop& shop) {
  Names names = names_of(shop.machines);
  names.insert(names.end(), {"manual", "CNC"});
  return names;
}

Names handling_names() {
  Names names = rows_of<HandlingId>(handling_rows);
  names.emplace_back("load");  // by the weight of the work
  return names;
}

Names band_names() {
  Names names;
  for (const Basis basis : {Basis::found, Basis::own_records, Basis::common_practice,
                            Basis::from_memory, Basis::typical, Basis::given})
    names.emplace_back(file_word(basis));
  return names;
}

}  // namespace

void check_references(const Sections& sections, const Shop& shop) {
  const References references(sections);
  const Names grades = names_of(shop.grades), groups = names_of(shop.cutting_groups);
  references.check_grades_of_steps(grades);
  references.check("materials", "group", groups, "shop.cutting-group");
  references.check("cutting rows", "group", groups, "shop.cutting-group");
  references.check("cutting rows", "grade", grades, "shop.grade");
  references.check("tools", "grade", grades, "shop.grade");
  references.check("methods", "tools", grades, "shop.grade");
  references.check("methods", "machine", machines_of_methods(shop), "shop.machine");
  references.check("methods", "condition", names_of(shop.conditions), "shop.stock-condition");
  references.check("machines", "mounted tools", names_of(shop.tools), "shop.tool");
  references.check("corrections", "machine", names_of(shop.machines), "shop.machine");
  references.check_rows("handling", handling_names());
  references.check_rows("setup", rows_of<SetupId>(setup_rows));
  references.check_rows("kinds of step", rows_of<StepFactorId>(step_factor_rows));
  references.check_rows("clampings", rows_of<AccuracyId>(accuracy_rows));
  references.check_rows("chips", rows_of<ChipId>(chip_rows));
  references.check_rows("outside work",
                        {std::string(name_of(OutsideWorkId::grinding_between_centres))});
  references.check_rows("bands", band_names());
}

}  // namespace turnwright
