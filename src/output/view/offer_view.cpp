// SPDX-License-Identifier: MIT
#include "view/offer_view.hpp"

#include <algorithm>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

std::string material_text(const CustomerItem& item, const Words& words) {
  const std::string material =
      item.material.empty() ? words("offer.material-as-drawn") : words.name(item.material);
  std::string text =
      item.customers_material ? material + ", " + words("offer.material-supplied") : material;
  if (item.mass) text += ", " + words({"offer.mass", {{"mass", measure(*item.mass, unit::kg, 3)}}});
  return text;
}

std::string work_text(const CustomerItem& item, const Words& words) {
  std::string text;
  for (const std::string& one : item.work) text += (text.empty() ? "" : ", ") + words.name(one);
  return text;
}

// "round 60 mm, hot rolled, sawn 254 mm: 54 for 50, 258 for 250"
std::string supply_text(const CustomerItem& item, const Words& words) {
  std::string text = words(item.stock);
  bool first = true;
  for (const CustomerPrice& p : item.prices) {
    if (first && p.blanks > 0) text += ", " + words(item.blank);
    text += first ? ": " : ", ";
    first = false;
    text +=
        p.blanks > 0
            ? words({"offer.blanks-for", {{"n", p.blanks}, {"qty", p.quantity}}})
            : words({"offer.bar-for", {{"length", measure(p.bar, unit::m)}, {"qty", p.quantity}}});
  }
  const bool bar = std::any_of(item.prices.begin(), item.prices.end(),
                               [](const CustomerPrice& p) { return p.bar.si > 0; });
  return bar ? text + " (" + words("offer.without-remnants") + ")" : text;
}

Message lead_label(int days) {
  constexpr int week = 7;
  if (days % week == 0) return {"offer.in-weeks", {{"n", days / week}}};
  return {"offer.in-days", {{"n", days}}};
}

// What is more than goods at their prices.
bool has_more(const CustomerQuote& q) { return q.rebate > 0 || q.tax > 0 || !q.charges.empty(); }

// Charges, net and tax of the one order.
void add_shares(std::vector<OrderRow>& rows, const CustomerQuote& q, const Words& words) {
  const CustomerOrder& order = q.orders.front();
  for (const CustomerCharge& charge : q.charges)
    rows.push_back({words.name(charge.what), charge.price});
  if (q.tax <= 0) return;
  rows.push_back({words("offer.net"), order.net});
  rows.push_back({words({"offer.tax", {{"share", Share{q.tax}}}}), order.tax});
}

// "10 + 120 + 100"
std::string joined(const CustomerOrder& order, const Words& words) {
  std::string text;
  for (const int quantity : order.quantities)
    text += (text.empty() ? "" : " + ") + words.whole(quantity);
  return text;
}

// Then a certificate of it is theirs.
bool all_is_supplied(const CustomerQuote& q) {
  return std::all_of(q.items.begin(), q.items.end(), [](const CustomerItem& item) {
    return !item.offered || item.customers_material;
  });
}

}  // namespace

std::string offer_title(const CustomerQuote& quote, const Words& words) {
  return words("offer.title") + " " + words.name(quote.number);
}

Facts head_facts(const CustomerQuote& q, const Words& words) {
  Facts facts{{words("offer.number"), words.name(q.number)}};
  if (q.revision > 0) facts.push_back({words("offer.revision"), words.whole(q.revision)});
  facts.push_back({words("offer.date"), words.day(q.date)});
  facts.push_back({words("offer.valid-until"), words.day(q.valid_until)});
  if (!q.reference.empty())
    facts.push_back({words("offer.your-reference"), words.name(q.reference)});
  return facts;
}

Facts delivery_facts(const CustomerQuote& q, const Words& words) {
  Facts facts;
  if (!q.terms.empty()) facts.push_back({words("offer.delivery"), words.name(q.terms)});
  if (!q.packing.empty()) facts.push_back({words("offer.packing"), words.name(q.packing)});
  if (!q.payment.empty()) facts.push_back({words("offer.payment"), words.name(q.payment)});
  if (!all_is_supplied(q))
    facts.push_back({words("offer.certificate"),
                     words(q.material_certificate ? "offer.included" : "offer.not-included")});
  return facts;
}

std::string item_title(const CustomerItem& item, const Words& words) {
  std::string title = words.name(item.number);
  if (!item.name.empty()) title += " " + words.name(item.name);
  if (!item.revision.empty())
    title += ", " + words({"offer.drawing-revision", {{"revision", item.revision}}});
  if (!item.option.empty())
    title = words({"offer.option", {{"what", item.option}, {"item", verbatim(title)}}});
  return title;
}

Facts item_facts(const CustomerItem& item, const Words& words) {
  Facts facts{{words("offer.material"), material_text(item, words)}};
  if (!item.offered) return facts;
  if (item.customers_material)
    facts.push_back({words("offer.to-supply"), supply_text(item, words)});
  if (!item.work.empty()) facts.push_back({words("offer.includes"), work_text(item, words)});
  if (!item.week.empty()) facts.push_back({words("offer.delivery-week"), words.name(item.week)});
  return facts;
}

std::string quantity_note(const CustomerPrice& price, const Words& words) {
  Messages notes;
  if (price.releases > 1)
    notes.push_back({"offer.in-releases",
                     {{"releases", price.releases}, {"pieces", price.quantity / price.releases}}});
  if (price.lead_days > 0) notes.push_back(lead_label(price.lead_days));
  return words.joined(notes, ", ");
}

std::string not_offered_text(const CustomerItem& item, const Words& words) {
  if (item.not_offered.empty()) return words("offer.not-offered");
  return words({"offer.not-offered-because", {{"why", item.not_offered}}});
}

std::string price_note(const CustomerPrice& price, const Words& words) {
  if (price.price_unit == 1) return "";
  return words({"offer.price-per", {{"pieces", price.price_unit}}});
}

Message surcharge_label(const CustomerQuote& quote) {
  return {"offer.minimum-surcharge",
          {{"currency", quote.currency}, {"minimum", quote.minimum_order}}};
}

std::vector<OrderRow> order_rows(const CustomerQuote& quote, const Words& words) {
  std::vector<OrderRow> rows;
  const bool one = quote.orders.size() == 1;
  const bool beside_prices = !one && quote.items.size() == 1;
  if (one && quote.rebate > 0)
    rows.push_back({words({"offer.rebate", {{"share", Share{quote.rebate}}}}),
                    Money() - quote.orders.front().rebate});
  for (const CustomerOrder& order : quote.orders) {
    if (order.surcharge.hundredths() == 0 || beside_prices) continue;
    std::string label = words(surcharge_label(quote));
    if (!one) label += ", " + words({"offer.if-ordered", {{"quantities", joined(order, words)}}});
    rows.push_back({label, order.surcharge});
  }
  if (one) add_shares(rows, quote, words);
  if (!one)
    for (const CustomerCharge& charge : quote.charges)
      rows.push_back({words.name(charge.what), charge.price});
  for (const CustomerOrder& order : quote.orders) {
    std::string label = words("offer.order-total");
    if (!one) label += ", " + words({"offer.if-ordered", {{"quantities", joined(order, words)}}});
    if (one || has_more(quote)) rows.push_back({label, order.total, true});
  }
  return rows;
}

namespace {

// "1.85 EUR/kg" with the reader's marks, to as many places.
std::string amount_in_words(const std::string& text, const Words& words) {
  const auto number = leading_number(text);
  if (!number) return text;
  const std::string digits = text.substr(0, number->used);
  const std::size_t point = std::min(digits.find('.'), digits.size() - 1);
  return words.fixed(number->value, static_cast<int>(digits.size() - 1 - point)) +
         text.substr(number->used);
}

// More, fewer or both, and whether what is more is invoiced.
Message tolerance_line(const Tolerance& t) {
  const std::vector<Place> places{{"over", Share{t.over}}, {"under", Share{t.under}}};
  if (t.over <= 0) return {"offer.tolerance-fewer", places};
  if (t.under <= 0)
    return {t.overrun_invoiced ? "offer.tolerance-more-invoiced" : "offer.tolerance-more-free",
            places};
  return {t.overrun_invoiced ? "offer.tolerance-invoiced" : "offer.tolerance-free", places};
}

}  // namespace

Messages charge_terms(const CustomerQuote& quote, const Words& words) {
  Messages terms = quote.changes;
  if (!quote.exchange.empty()) terms.push_back(quote.exchange);
  if (quote.minimum_order.hundredths() > 0)
    terms.push_back(
        {"offer.minimum-order", {{"currency", quote.currency}, {"minimum", quote.minimum_order}}});
  if (std::any_of(quote.items.begin(), quote.items.end(),
                  [](const CustomerItem& item) { return !item.once.empty(); }))
    terms.emplace_back("offer.one-offs-once");
  if (quote.orders.size() > 1 && quote.rebate > 0)
    terms.push_back({"offer.rebate-of-goods", {{"share", Share{quote.rebate}}}});
  if (quote.orders.size() > 1 && quote.tax > 0)
    terms.push_back({"offer.tax-of-all", {{"share", Share{quote.tax}}}});
  if (quote.clause)
    terms.push_back({"offer.price-clause",
                     {{"of", quote.clause->of},
                      {"base", amount_in_words(quote.clause->base, words)},
                      {"day", quote.clause->date}}});
  if (quote.tolerance) terms.push_back(tolerance_line(*quote.tolerance));
  return terms;
}

std::vector<std::string> address_lines(const CustomerQuote& quote, const Words& words) {
  std::vector<std::string> lines{words.name(quote.customer)};
  if (!quote.contact.empty()) lines.push_back(words.name(quote.contact));
  for (const std::string& line : quote.address) lines.push_back(words.name(line));
  return lines;
}

std::vector<std::string> lines_of(const std::string& text, const Words& words) {
  std::vector<std::string> lines{""};
  for (const char c : text)
    if (c == '\n')
      lines.emplace_back();
    else if (c != '\r')
      lines.back() += c;
  while (!lines.empty() && lines.back().empty()) lines.pop_back();
  for (std::string& line : lines) line = words.name(line);
  return lines;
}

}  // namespace turnwright
