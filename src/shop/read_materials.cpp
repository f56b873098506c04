// SPDX-License-Identifier: MIT
// Materials, grades and the rows of the cutting table, which lean on records of their own kind.
#include <algorithm>

#include "sections.hpp"

namespace turnwright {

void each_record(const Sections& sections, std::string_view name,
                 const std::function<void(MapReader&, bool own)>& read) {
  const auto section = sections.find(std::string(name));
  if (section == sections.end()) return;
  for (const auto& [record, node] : section->second) {
    MapReader map(*node.node, *node.notes, {"shop.record-of", {{"section", name}}});
    if (!map.is_map()) continue;
    read(map, node.own);
    map.finish();
  }
}

namespace {

std::string text_under(const Node& node, std::string_view key) {
  for (const Member& member : node.members)
    if (member.key == key) return member.value.text;
  return "";
}

template <class T>
const T* named(const std::vector<T>& records, const std::string& name) {
  const auto found = std::find_if(records.begin(), records.end(),
                                  [&](const T& record) { return record.name == name; });
  return found == records.end() ? nullptr : &*found;
}

// Names and prices are a material's own.
Material without_names(Material m) {
  m.also.clear();
  m.condition.clear();
  m.price.reset();
  m.price_confirmed = false;
  m.price_date.clear();
  return m;
}

// What a material's record leaves out: of the one that it is like, or the first of its group.
std::optional<Material> material_like(const Node& node, const Shop& shop, ProblemList& notes) {
  const std::string like = text_under(node, "like"), group = text_under(node, "group");
  if (!like.empty()) {
    const Material* found = shop.material(like);
    if (found != nullptr) return without_names(*found);
    const Message what("shop.material");
    notes.add(node, {"shop.unknown-name", {{"what", what}, {"name", like}}},
              {"expected.of-the-rates", {{"what", what}}}, shop.material_names(like).front());
    return std::nullopt;
  }
  for (const Material& m : shop.materials)
    if (m.group == group) return without_names(m);
  return std::nullopt;
}

// A record that does not say how the material cuts leaves that to another.
bool says_all(const Node& node) {
  return text_under(node, "like").empty() && !text_under(node, "kc1.1").empty() &&
         !text_under(node, "density").empty() && !text_under(node, "hardness").empty();
}

// A name that the rates do not have, and nothing that says how it cuts: mistyped, or half written.
bool is_unknown(const RecordNode& record, const Shop& shop, const std::optional<Material>& base) {
  const Node& node = *record.node;
  if (base || record.under != nullptr || says_all(node) || !text_under(node, "like").empty() ||
      !text_under(node, "group").empty())
    return false;
  std::vector<std::string> names;
  for (const Material& m : shop.materials) names.push_back(m.name);
  const std::string name = text_under(node, "name");
  record.notes->add(node,
                    {"shop.unknown-name", {{"what", Message("shop.material")}, {"name", name}}},
                    "expected.material-or-like", nearest(name, names));
  return true;
}

Material material_of(const RecordNode& record, const Shop& shop) {
  std::optional<Material> base;
  if (!says_all(*record.node)) {
    if (record.under != nullptr && text_under(*record.node, "like").empty())
      base = material_of(*record.under, shop);
    else
      base = material_like(*record.node, shop, *record.notes);
  }
  if (is_unknown(record, shop, base)) return {};
  MapReader map(*record.node, *record.notes, {"shop.record-of", {{"section", "materials"}}});
  Material m = read_material(map, base ? &*base : nullptr);
  map.finish();
  return m;
}

}  // namespace

// Those that say all first, so that the others find what they are like.
void read_materials(const Sections& sections, Shop& shop) {
  const auto section = sections.find("materials");
  if (section == sections.end()) return;
  std::vector<std::optional<Material>> read(section->second.size());
  for (const bool complete : {true, false})
    for (std::size_t i = 0; i < read.size(); ++i) {
      const RecordNode& record = section->second[i].second;
      if (record.node->kind != Node::Kind::map || says_all(*record.node) != complete) continue;
      read[i] = material_of(record, shop);
      shop.materials.push_back(*read[i]);
    }
  shop.materials.clear();
  for (std::optional<Material>& m : read)
    if (m) shop.materials.push_back(std::move(*m));
}

void read_grades(const Sections& sections, Shop& shop) {
  each_record(sections, "grades", [&](MapReader& map, bool) {
    const std::string like = text_under(map.node(), "like");
    const Grade* base = like.empty() ? nullptr : named(shop.grades, like);
    if (base == nullptr && !like.empty())
      map.notes().add(map.node(),
                      {"shop.unknown-name", {{"what", Message("shop.grade")}, {"name", like}}},
                      {"expected.of-the-rates", {{"what", Message("shop.grade")}}});
    shop.grades.push_back(read_grade(map, base));
  });
}

void read_cutting(const Sections& sections, Shop& shop) {
  each_record(sections, "cutting groups", [&](MapReader& map, bool) {
    shop.cutting_groups.push_back(read_cutting_group(map));
  });
  std::vector<NamedRow> rows;
  each_record(sections, "cutting rows",
              [&](MapReader& map, bool) { rows.push_back(read_named_row(map)); });
  add_rows(rows, shop.cutting_groups);
}

}  // namespace turnwright
