// SPDX-License-Identifier: MIT
#include "method_words.hpp"

#include "turnwright/compare/plan_method.hpp"

namespace turnwright {

std::optional<MachineKind> machine_kind_named(std::string_view word) {
  if (word == "manual") return MachineKind::manual;
  if (word == "CNC") return MachineKind::cnc;
  return std::nullopt;
}

bool is_bar(std::string_view stock) { return stock == "bar"; }

std::string joined_names(const std::vector<Method>& methods) {
  std::string name;
  for (const Method& method : methods)
    name += (name.empty() ? "" : std::string(and_record)) + method.name;
  return name;
}

std::vector<Method> methods_named(const Shop& shop, std::string_view name) {
  std::vector<Method> methods;
  for (std::size_t from = 0; from <= name.size();) {
    const std::size_t to = std::min(name.find(and_record, from), name.size());
    const Method* method = method_named(shop, name.substr(from, to - from));
    if (method == nullptr) return {};
    methods.push_back(*method);
    from = to + and_record.size();
  }
  return methods;
}

bool is_turned_round(std::string_view pieces) { return pieces == "turned round"; }

}  // namespace turnwright
