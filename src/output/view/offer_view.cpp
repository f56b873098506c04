// SPDX-License-Identifier: MIT
#include "view/offer_view.hpp"

#include <algorithm>

namespace turnwright {
namespace {

std::string material_text(const CustomerItem& item, const Words& words) {
  const std::string material =
      item.material.empty() ? words("offer.material-as-drawn") : words.name(item.material);
  return item.customers_material ? material + ", " + words("offer.material-supplied") : material;
}

std::string work_text(const CustomerItem& item, const Words& words) {
  std::string text;
  for (const std::string& one : item.work) text += (text.empty() ? "" : ", ") + words.name(one);
  return text;
}

// "10 + 120 + 100"
std::string joined(const CustomerOrder& order, const Words& words) {
  std::string text;
  for (const int quantity : order.quantities)
    text += (text.empty() ? "" : " + ") + words.whole(quantity);
  return text;
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
  facts.push_back({words("offer.certificate"),
                   words(q.material_certificate ? "offer.included" : "offer.not-included")});
  return facts;
}

std::string item_title(const CustomerItem& item, const Words& words) {
  std::string title = words.name(item.number);
  if (!item.name.empty()) title += " " + words.name(item.name);
  if (!item.revision.empty())
    title += ", " + words({"offer.drawing-revision", {{"revision", item.revision}}});
  return title;
}

Facts item_facts(const CustomerItem& item, const Words& words) {
  Facts facts{{words("offer.material"), material_text(item, words)}};
  if (!item.work.empty()) facts.push_back({words("offer.includes"), work_text(item, words)});
  if (item.mass)
    facts.push_back({words("offer.mass"), words.measure(measure(*item.mass, unit::kg, 3))});
  if (!item.week.empty()) facts.push_back({words("offer.delivery-week"), words.name(item.week)});
  return facts;
}

std::string quantity_text(const CustomerPrice& price, const Words& words) {
  if (price.releases == 1) return words.whole(price.quantity);
  return words({"offer.in-releases",
                {{"qty", price.quantity},
                 {"releases", price.releases},
                 {"pieces", price.quantity / price.releases}}});
}

std::string unit_price_text(const CustomerPrice& price, const Words& words) {
  if (price.price_unit == 1) return words.money(price.each);
  return words({"offer.price-per", {{"price", price.each}, {"pieces", price.price_unit}}});
}

Message surcharge_label(const CustomerQuote& quote) {
  return {"offer.minimum-surcharge",
          {{"currency", quote.currency}, {"minimum", quote.minimum_order}}};
}

std::vector<OrderRow> order_rows(const CustomerQuote& quote, const Words& words) {
  std::vector<OrderRow> rows;
  const bool one = quote.orders.size() == 1;
  if (!one && quote.items.size() == 1) return rows;
  for (const CustomerOrder& order : quote.orders) {
    if (order.surcharge.hundredths() == 0) continue;
    std::string label = words(surcharge_label(quote));
    if (!one) label += ", " + words({"offer.if-ordered", {{"quantities", joined(order, words)}}});
    rows.push_back({label, order.surcharge});
  }
  if (one) rows.push_back({words("offer.order-total"), quote.orders.front().total});
  return rows;
}

Messages charge_terms(const CustomerQuote& quote) {
  Messages terms;
  if (quote.minimum_order.hundredths() > 0)
    terms.push_back(
        {"offer.minimum-order", {{"currency", quote.currency}, {"minimum", quote.minimum_order}}});
  if (std::any_of(quote.items.begin(), quote.items.end(),
                  [](const CustomerItem& item) { return !item.once.empty(); }))
    terms.emplace_back("offer.one-offs-once");
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
