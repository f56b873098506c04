// SPDX-License-Identifier: MIT
// What a customer must see of a request that came before.
#include <algorithm>

#include "turnwright/part/request.hpp"

namespace turnwright {
namespace {

bool are_one(const RequestItem& a, const RequestItem& b) {
  return a.part == b.part && a.selling.option == b.selling.option;
}
const RequestItem* same_line(const Request& request, const RequestItem& item) {
  const auto found = std::find_if(request.parts.begin(), request.parts.end(),
                                  [&](const RequestItem& other) { return are_one(item, other); });
  return found == request.parts.end() ? nullptr : &*found;
}

std::string listed(const std::vector<int>& quantities) {
  std::string text;
  for (const int n : quantities) text += (text.empty() ? "" : ", ") + std::to_string(n);
  return text;
}

class Changes {
 public:
  Changes(const Request& now, const Request& before, const PartNamer& name)
      : now_(now), before_(before), name_(name) {}

  Messages all() && {
    for (const RequestItem& item : now_.parts)
      if (const RequestItem* old = same_line(before_, item))
        compare(item, *old);
      else
        add("request.change-new", item);
    for (const RequestItem& old : before_.parts)
      if (same_line(now_, old) == nullptr) add("request.change-left-out", old);
    if (now_.terms != before_.terms || now_.packing != before_.packing)
      changes_.emplace_back("request.change-delivery");
    if (now_.payment != before_.payment) changes_.emplace_back("request.change-payment");
    return std::move(changes_);
  }

 private:
  // "P-9", "P-9 (drawn bar)" of an option.
  std::string name_of(const RequestItem& item) const {
    const std::string& option = item.selling.option;
    return name_(item.part) + (option.empty() ? "" : " (" + option + ")");
  }
  void add(const char* id, const RequestItem& item) {
    changes_.push_back({id, {{"part", name_of(item)}}});
  }
  void compare(const RequestItem& item, const RequestItem& old) {
    if (item.quantities != old.quantities)
      changes_.push_back({"request.change-quantities",
                          {{"part", name_of(item)},
                           {"now", listed(item.quantities)},
                           {"before", listed(old.quantities)}}});
    if (item.releases != old.releases)
      changes_.push_back(
          {"request.change-releases",
           {{"part", name_of(item)}, {"now", item.releases}, {"before", old.releases}}});
    if (item.week != old.week || item.lead_days != old.lead_days) add("request.change-week", item);
    if (item.customers_material != old.customers_material || item.condition != old.condition)
      add("request.change-material", item);
    if (item.not_offered.empty() != old.not_offered.empty())
      add(item.not_offered.empty() ? "request.change-offered" : "request.change-not-offered", item);
  }

  const Request &now_, &before_;
  const PartNamer& name_;
  Messages changes_;
};

}  // namespace

Messages changes_since(const Request& now, const Request& before, const PartNamer& name) {
  return Changes(now, before, name).all();
}

}  // namespace turnwright
