// SPDX-License-Identifier: MIT
// What a customer must see of a request that came before.
#include <algorithm>
#include <filesystem>

#include "turnwright/part/request.hpp"

namespace turnwright {
namespace {

// Where the part file is, from wherever the request stands.
std::filesystem::path file_of(const Request& request, const RequestItem& item) {
  return (std::filesystem::path(request.file).parent_path() / item.part).lexically_normal();
}

// For each line of the one request that of the other, each once, in their order.
std::vector<const RequestItem*> partners(const Request& now, const Request& before) {
  std::vector<const RequestItem*> found;
  std::vector<bool> taken(before.parts.size());
  for (const RequestItem& item : now.parts) {
    found.push_back(nullptr);
    for (std::size_t i = 0; i < before.parts.size() && found.back() == nullptr; ++i) {
      const RequestItem& old = before.parts[i];
      if (taken[i] || file_of(now, item) != file_of(before, old) ||
          item.selling.option != old.selling.option)
        continue;
      taken[i] = true;
      found.back() = &old;
    }
  }
  return found;
}

bool same_money(const Request& a, const Request& b) {
  auto charge = [](const Charge& x, const Charge& y) {
    return x.what == y.what && x.price == y.price;
  };
  const bool clause = a.clause && b.clause
                          ? a.clause->of == b.clause->of && a.clause->base == b.clause->base
                          : !a.clause && !b.clause;
  return clause && a.currency == b.currency && a.rebate == b.rebate && a.tax == b.tax &&
         std::equal(a.charges.begin(), a.charges.end(), b.charges.begin(), b.charges.end(), charge);
}

bool same_delivery(const Request& a, const Request& b) {
  const Tolerance x = a.tolerance.value_or(Tolerance{}), y = b.tolerance.value_or(Tolerance{});
  return a.terms == b.terms && a.packing == b.packing && x.over == y.over && x.under == y.under &&
         x.overrun_invoiced == y.overrun_invoiced;
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
    const std::vector<const RequestItem*> old = partners(now_, before_);
    for (std::size_t i = 0; i < old.size(); ++i)
      if (old[i] != nullptr)
        compare(now_.parts[i], *old[i]);
      else
        add("request.change-new", now_, now_.parts[i]);
    for (const RequestItem& item : before_.parts)
      if (std::none_of(old.begin(), old.end(), [&](const RequestItem* o) { return o == &item; }))
        add("request.change-left-out", before_, item);
    if (!same_delivery(now_, before_)) changes_.emplace_back("request.change-delivery");
    if (now_.payment != before_.payment) changes_.emplace_back("request.change-payment");
    if (!same_money(now_, before_)) changes_.emplace_back("request.change-money");
    return std::move(changes_);
  }

 private:
  // "P-9", "P-9 (drawn bar)" of an option.
  std::string name_of(const Request& of, const RequestItem& item) const {
    const std::string& option = item.selling.option;
    return name_(of, item) + (option.empty() ? "" : " (" + option + ")");
  }
  void add(const char* id, const Request& of, const RequestItem& item) {
    changes_.push_back({id, {{"part", name_of(of, item)}}});
  }
  void compare(const RequestItem& item, const RequestItem& old) {
    if (item.quantities.empty() != old.quantities.empty())
      add("request.change-other-quantities", now_, item);
    else if (item.quantities != old.quantities)
      changes_.push_back({"request.change-quantities",
                          {{"part", name_of(now_, item)},
                           {"now", listed(item.quantities)},
                           {"before", listed(old.quantities)}}});
    if (item.releases != old.releases)
      changes_.push_back(
          {"request.change-releases",
           {{"part", name_of(now_, item)}, {"now", item.releases}, {"before", old.releases}}});
    if (item.price_unit != old.price_unit) add("request.change-price-unit", now_, item);
    if (item.week != old.week || item.lead_days != old.lead_days)
      add("request.change-week", now_, item);
    if (item.customers_material != old.customers_material || item.condition != old.condition)
      add("request.change-material", now_, item);
    if (item.not_offered.empty() != old.not_offered.empty())
      add(item.not_offered.empty() ? "request.change-offered" : "request.change-not-offered", now_,
          item);
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
