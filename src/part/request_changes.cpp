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

// What a price rests on beside the part itself: by hand, or the terms that it is worked out by.
bool same_prices(const Selling& a, const Selling& b) {
  for (const auto& [quantity, price] : a.prices)
    if (const auto other = b.prices.find(quantity);
        other != b.prices.end() && other->second.si != price.si)
      return false;
  if (a.prices.empty() != b.prices.empty()) return false;
  return !a.prices.empty() ||
         (a.margin == b.margin && a.discount.value_or(0) == b.discount.value_or(0));
}

// Made of the same, so that both can be made or neither.
bool same_work(const RequestItem& a, const RequestItem& b) {
  return a.customers_material == b.customers_material && a.condition == b.condition &&
         a.quantities == b.quantities && a.releases == b.releases && a.repeat == b.repeat;
}

std::string listed(const std::vector<int>& quantities) {
  std::string text;
  for (const int n : quantities) text += (text.empty() ? "" : ", ") + std::to_string(n);
  return text;
}

class Changes {
 public:
  Changes(const Request& now, const Request& before, const PartNamer& name,
          const IsOffered& is_offered)
      : now_(now), before_(before), name_(name), is_offered_(is_offered) {}

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
  // Of a line that is not offered nothing more is said.
  bool compare_offered(const RequestItem& item, const RequestItem& old) {
    const bool is = is_offered_(now_, item);
    const bool was =
        old.not_offered.empty() && (is && same_work(item, old) ? is : is_offered_(before_, old));
    if (is != was) add(is ? "request.change-offered" : "request.change-not-offered", now_, item);
    return is && was;
  }
  void compare(const RequestItem& item, const RequestItem& old) {
    if (!compare_offered(item, old)) return;
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
    if (!same_prices(item.selling, old.selling) || item.repeat != old.repeat)
      add("request.change-prices", now_, item);
  }

  const Request &now_, &before_;
  const PartNamer& name_;
  const IsOffered& is_offered_;
  Messages changes_;
};

}  // namespace

Messages changes_since(const Request& now, const Request& before, const PartNamer& name,
                       const IsOffered& is_offered) {
  return Changes(now, before, name, is_offered).all();
}

}  // namespace turnwright
