// SPDX-License-Identifier: MIT
// The money of a request: what is fixed of a line's price, and what all lines share.
#include <algorithm>

#include "examples.hpp"
#include "pieces.hpp"
#include "request_sections.hpp"

namespace turnwright {
namespace {

constexpr double most_margin = 0.9, most_discount = 0.9, most_tax = 0.5, most_off = 0.5;
constexpr int longest_lead = 3650;  // days
constexpr Amount dearest(1e7);

bool is_price(double price) { return price > 0 && price <= dearest.si; }

Message wants_price() { return {"request.wants-price", {{"most", Figure{dearest.si, 8}}}}; }

// A price by hand for each quantity of the line.
void read_prices(const Node& list, ProblemList& problems, RequestItem& item) {
  const auto nodes = as_list(list);
  if (nodes.size() != item.quantities.size()) {
    problems.add(list, "request.prices-not-as-quantities", "request.wants-price-per-quantity");
    return;
  }
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const auto price = read_si(*nodes[i], unit::money, problems);
    if (!price) continue;
    if (!is_price(*price))
      problems.add(*nodes[i], found(*nodes[i]), wants_price());
    else
      item.selling.prices[item.quantities[i]] = Amount(*price);
  }
}

// {what: freight, price: 85.00}
Charge read_charge(const Node& node, ProblemList& problems) {
  Charge charge;
  MapReader map(node, problems, "request.a-charge");
  if (map.need("what") != nullptr) charge.what = map.text_or("what", "");
  if (const Node* price = map.need("price")) {
    const auto amount = map.quantity("price", unit::money);
    if (amount && !is_price(amount->si)) problems.add(*price, found(*price), wants_price());
    charge.exact = amount.value_or(Amount(0.0));
    charge.price = rounded(charge.exact);
  }
  map.finish();
  return charge;
}

// {of: alloy surcharge, base: 2.10 EUR/kg, date: 2026-12-01}
PriceClause read_clause(const Node& node, ProblemList& problems) {
  PriceClause clause;
  MapReader map(node, problems, section("price clause"));
  if (map.need("of") != nullptr) clause.of = map.text_or("of", "");
  if (map.need("base") != nullptr) clause.base = map.text_or("base", "");
  if (map.need("date") != nullptr) clause.date = read_day(map, "date").value_or(Date());
  map.finish();
  return clause;
}

// A currency that the shop has a rate of.
std::string read_code(const Node& node, ProblemList& problems) {
  if (!is_currency(node.text))
    problems.add(node, found(node), such_as("EUR", "USD"));
  else if (!problems.currencies().factor(node.text))
    problems.add(
        node, {"number.no-exchange", {{"currency", node.text}, {"own", problems.currencies().own}}},
        {"expected.exchange", {{"currency", node.text}}});
  return node.text;
}

// "3 weeks", "10 days": in days; 0 and a problem when it is neither.
int read_days(const Node& node, ProblemList& problems) {
  const auto words = split_words(node.text);
  if (words.size() == 2) {
    const std::string unit = words[1].text;
    const int days = unit == "weeks" || unit == "week" ? 7
                     : unit == "days" || unit == "day" ? 1
                                                       : 0;
    const auto n = read_whole(words[0].text, 1, longest_lead);
    if (n && days > 0 && *n <= longest_lead / days) return *n * days;
  }
  problems.add(node, found(node), such_as("3 weeks", "10 days"));
  return 0;
}

}  // namespace

std::optional<double> read_share(MapReader& map, std::string_view key, double least, double most) {
  const auto share = map.quantity(key, unit::ratio);
  if (!share || (share->si >= least && share->si <= most))
    return share ? std::optional(share->si) : std::nullopt;
  map.notes().add(*map.find(key), found(*map.find(key)),
                  Message{"request.wants-share", {{"least", Share{least}}, {"most", Share{most}}}});
  return std::nullopt;
}

void read_selling(MapReader& map, RequestItem& item) {
  item.selling.margin = read_share(map, "margin", -most_margin, most_margin);
  item.selling.discount = read_share(map, "discount", 0, most_discount);
  item.selling.option = map.text_or("option", "");
  if (const Node* prices = map.find("price")) read_prices(*prices, map.notes(), item);
}

void read_lead_times(const Node& list, ProblemList& problems, RequestItem& item) {
  const auto nodes = as_list(list);
  if (nodes.size() != 1 && nodes.size() != item.quantities.size())
    problems.add(list, "request.lead-times-not-as-quantities", "request.wants-lead-per-quantity");
  for (const Node* node : nodes) item.lead_days.push_back(read_days(*node, problems));
}

void read_order(const Node& node, ProblemList& problems, Request& request) {
  MapReader map(node, problems, section("order"));
  request.payment = map.text_or("payment", "");
  if (const Node* currency = map.find("currency"))
    request.currency = read_code(*currency, problems);
  request.rebate = read_share(map, "rebate", 0, most_off);
  request.tax = read_share(map, "tax", 0, most_tax);
  if (const Node* list = map.find("charges"))
    for (const Node* charge : as_list(*list))
      request.charges.push_back(read_charge(*charge, problems));
  if (const Node* clause = map.find("price clause"))
    request.clause = read_clause(*clause, problems);
  map.finish();
}

std::optional<Tolerance> read_tolerance(MapReader& map) {
  const auto over = read_share(map, "over delivery", 0, most_off),
             under = read_share(map, "under delivery", 0, most_off);
  const auto overrun = map.one_of("overrun", {"invoiced", "free"});
  if (!over && !under && !overrun) return std::nullopt;
  return Tolerance{over.value_or(0), under.value_or(0), overrun != "free"};
}

}  // namespace turnwright
