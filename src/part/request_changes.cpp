// SPDX-License-Identifier: MIT
// What a customer must see of a request that came before.
#include <algorithm>
#include <filesystem>

#include "turnwright/part/request_changes.hpp"

namespace turnwright {
namespace {

// Where the part file is, from wherever the request stands.
std::filesystem::path file_of(const Request& request, const RequestItem& item) {
  return (std::filesystem::path(request.file).parent_path() / item.part).lexically_normal();
}

// What a line is known by: the same number is the same part, in a new revision and another file
// too.
struct KnownLine {
  const RequestItem* item;
  LineName name;
  std::filesystem::path file;
  bool taken = false;
};

std::vector<KnownLine> known_lines(const Request& request, const LineNamer& name) {
  std::vector<KnownLine> lines;
  lines.reserve(request.parts.size());
  for (const RequestItem& item : request.parts)
    lines.push_back({&item, name(request, item), file_of(request, item)});
  return lines;
}

bool same_number(const KnownLine& a, const KnownLine& b) { return a.name.number == b.name.number; }
bool same_file(const KnownLine& a, const KnownLine& b) { return a.file == b.file; }

// For each line of the one request that of the other, each once, in their order. What fits best is
// taken first: number and file, then the number, then the file.
std::vector<const KnownLine*> partners(const std::vector<KnownLine>& now,
                                       std::vector<KnownLine>& before) {
  std::vector<const KnownLine*> found(now.size(), nullptr);
  const auto pair_by = [&](auto fits) {
    for (std::size_t i = 0; i < now.size(); ++i)
      for (KnownLine& old : before) {
        if (found[i] != nullptr || old.taken || !fits(now[i], old) ||
            now[i].item->selling.option != old.item->selling.option)
          continue;
        old.taken = true;
        found[i] = &old;
      }
  };
  pair_by(
      [](const KnownLine& a, const KnownLine& b) { return same_number(a, b) && same_file(a, b); });
  pair_by(same_number);
  pair_by(same_file);
  return found;
}

bool same_charges(const Request& a, const Request& b) {
  return std::equal(
      a.charges.begin(), a.charges.end(), b.charges.begin(), b.charges.end(),
      [](const Charge& x, const Charge& y) { return x.what == y.what && x.price == y.price; });
}

bool same_clause(const Request& a, const Request& b) {
  if (!a.clause || !b.clause) return !a.clause && !b.clause;
  return a.clause->of == b.clause->of && a.clause->base == b.clause->base;
}

bool same_delivery(const Request& a, const Request& b) {
  const Tolerance x = a.tolerance.value_or(Tolerance{}), y = b.tolerance.value_or(Tolerance{});
  return a.terms == b.terms && a.packing == b.packing && x.over == y.over && x.under == y.under &&
         x.overrun_invoiced == y.overrun_invoiced;
}

bool by_hand(const Selling& selling) { return !selling.prices.empty(); }

// What a price rests on beside the part itself: it is by hand, or the terms it is worked out by.
bool same_terms(const RequestItem& a, const RequestItem& b) {
  if (a.repeat != b.repeat || by_hand(a.selling) != by_hand(b.selling)) return false;
  return by_hand(a.selling) || (a.selling.margin == b.selling.margin &&
                                a.selling.discount.value_or(0) == b.selling.discount.value_or(0));
}

// The quantities of both at which they differ.
std::vector<int> other_prices(const LinePrices& now, const LinePrices& before) {
  std::vector<int> quantities;
  for (const auto& [quantity, price] : now)
    if (const auto was = before.find(quantity); was != before.end() && was->second != price)
      quantities.push_back(quantity);
  return quantities;
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
  Changes(const Request& now, const Request& before, const LineNamer& name, const LineOffer& offer)
      : now_(now), before_(before), name_(name), offer_(offer) {}

  Messages all() && {
    const std::vector<KnownLine> lines = known_lines(now_, name_);
    std::vector<KnownLine> old_lines = known_lines(before_, name_);
    const std::vector<const KnownLine*> old = partners(lines, old_lines);
    for (std::size_t i = 0; i < old.size(); ++i)
      if (old[i] != nullptr)
        compare(lines[i], *old[i]);
      else
        add("request.change-new", lines[i]);
    for (const KnownLine& line : old_lines)
      if (!line.taken) add("request.change-left-out", line);
    compare_order();
    return std::move(changes_);
  }

 private:
  // "P-9", "P-9 (drawn bar)" of an option.
  static std::string name_of(const KnownLine& line) {
    const std::string& option = line.item->selling.option;
    return line.name.number + (option.empty() ? "" : " (" + option + ")");
  }
  void add(const char* id, const KnownLine& line) {
    changes_.push_back({id, {{"part", name_of(line)}}});
  }
  void compare_order() {
    const auto say = [&](bool same, const char* id) {
      if (!same) changes_.emplace_back(id);
    };
    say(same_delivery(now_, before_), "request.change-delivery");
    say(now_.payment == before_.payment, "request.change-payment");
    say(now_.currency == before_.currency, "request.change-currency");
    say(now_.rebate == before_.rebate, "request.change-rebate");
    say(now_.tax == before_.tax, "request.change-tax");
    say(same_charges(now_, before_), "request.change-charges");
    say(same_clause(now_, before_), "request.change-clause");
  }
  static bool same_drawing(const KnownLine& line, const KnownLine& old) {
    return line.name.revision == old.name.revision && same_file(line, old);
  }
  // Of a line that is not offered nothing more is said.
  bool compare_offered(const KnownLine& line, const KnownLine& old) {
    const bool is = offer_(now_, *line.item).has_value();
    const bool alike = same_work(*line.item, *old.item) && same_drawing(line, old);
    const bool was = old.item->not_offered.empty() &&
                     (is && alike ? is : offer_(before_, *old.item).has_value());
    if (is != was) add(is ? "request.change-offered" : "request.change-not-offered", line);
    return is && was;
  }
  void compare_revision(const KnownLine& line, const KnownLine& old) {
    const auto said = [](const std::string& revision) {
      return revision.empty() ? Message("request.no-revision") : verbatim(revision);
    };
    if (line.name.revision == old.name.revision) return;
    changes_.push_back({"request.change-revision",
                        {{"part", name_of(line)},
                         {"now", said(line.name.revision)},
                         {"before", said(old.name.revision)}}});
  }
  void compare_quantities(const KnownLine& line, const KnownLine& old) {
    const RequestItem &item = *line.item, &was = *old.item;
    if (item.quantities.empty() != was.quantities.empty())
      add("request.change-other-quantities", line);
    else if (item.quantities != was.quantities)
      changes_.push_back({"request.change-quantities",
                          {{"part", name_of(line)},
                           {"now", listed(item.quantities)},
                           {"before", listed(was.quantities)}}});
    if (item.releases != was.releases)
      changes_.push_back(
          {"request.change-releases",
           {{"part", name_of(line)}, {"now", item.releases}, {"before", was.releases}}});
  }
  // What was quoted before is known where it is by hand; worked out, only that it is another.
  void compare_prices(const KnownLine& line, const KnownLine& old) {
    const RequestItem &item = *line.item, &was = *old.item;
    if (!same_terms(item, was)) return add("request.change-prices", line);
    if (!by_hand(item.selling) && same_drawing(line, old)) return;
    if (now_.currency != before_.currency || item.price_unit != was.price_unit) return;
    const LinePrices now = *offer_(now_, item), before = *offer_(before_, was);
    const std::vector<int> quantities = other_prices(now, before);
    if (quantities.empty()) return;
    if (!by_hand(item.selling)) return add("request.change-prices", line);
    for (const int quantity : quantities)
      changes_.push_back({"request.change-price",
                          {{"part", name_of(line)},
                           {"quantity", quantity},
                           {"now", now.at(quantity)},
                           {"before", before.at(quantity)}}});
  }
  void compare(const KnownLine& line, const KnownLine& old) {
    const RequestItem &item = *line.item, &was = *old.item;
    if (!compare_offered(line, old)) return;
    compare_revision(line, old);
    compare_quantities(line, old);
    if (item.price_unit != was.price_unit) add("request.change-price-unit", line);
    if (item.week != was.week || item.lead_days != was.lead_days) add("request.change-week", line);
    if (item.customers_material != was.customers_material || item.condition != was.condition)
      add("request.change-material", line);
    compare_prices(line, old);
  }

  const Request &now_, &before_;
  const LineNamer& name_;
  const LineOffer& offer_;
  Messages changes_;
};

}  // namespace

Messages changes_since(const Request& now, const Request& before, const LineNamer& name,
                       const LineOffer& offer) {
  return Changes(now, before, name, offer).all();
}

}  // namespace turnwright
