// SPDX-License-Identifier: MIT
#include <cctype>

#include "html/offer_style.hpp"
#include "html/page_writer.hpp"
#include "view/offer_view.hpp"

namespace turnwright {
namespace {

// Stand for the counters of a style sheet while our own sentence is filled in.
constexpr char page_mark = '\n', pages_mark = '\t';

bool plain_in_css(char c) {
  return static_cast<unsigned char>(c) >= 0x80 ||
         std::isalnum(static_cast<unsigned char>(c)) != 0 || c == ' ' || c == '-' || c == '_';
}

// What `content` of a style sheet shows: what could end the text, or the sheet, goes as a code
// point.
std::string css_content(const std::string& text, bool counters = false) {
  constexpr const char* hex = "0123456789abcdef";
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (counters && c == page_mark)
      out += "\" counter(page) \"";
    else if (counters && c == pages_mark)
      out += "\" counter(pages) \"";
    else if (plain_in_css(c))
      out += c;
    else
      out += std::string("\\0000") + hex[byte >> 4] + hex[byte & 15];
  }
  return out + "\"";
}

// The margin boxes of a page, with its number and the quotation's.
std::string paper_rules(const CustomerQuote& quote, const Words& words) {
  constexpr const char* look = "; font: 8pt \"Liberation Sans\", Arial, sans-serif; color: #555 }";
  const std::string count = words(
      {"offer.page", {{"page", std::string(1, page_mark)}, {"pages", std::string(1, pages_mark)}}});
  return std::string("\n@page { size: ") + (words.letter() ? "letter" : "A4") +
         "; margin: 16mm 16mm 18mm; @bottom-right { content: " + css_content(count, true) + look +
         " @bottom-left { content: " + css_content(offer_title(quote, words)) + look + " }";
}

void put_facts(Markup& m, const Facts& facts) {
  m.open("dl");
  for (const Fact& fact : facts) m.put("dt", fact.name).put("dd", fact.value);
  m.close();
}

void put_lines(Markup& m, const std::vector<std::string>& lines, std::size_t from = 0) {
  for (std::size_t i = from; i < lines.size(); ++i) {
    if (i > from) m.single("br");
    m.text(lines[i]);
  }
}

// An empty line parts paragraphs.
void put_paragraphs(Markup& m, const std::string& text, const Words& words) {
  std::vector<std::string> now;
  auto end = [&] {
    if (now.empty()) return;
    m.open("p");
    put_lines(m, now);
    m.close().raw("\n");
    now.clear();
  };
  for (const std::string& line : lines_of(text, words)) {
    if (line.empty())
      end();
    else
      now.push_back(line);
  }
  end();
}

void put_head(Markup& m, const CustomerQuote& quote, const OfferTexts& texts, const Words& words) {
  const std::vector<std::string> sender = lines_of(texts.sender, words);
  m.open("header").open("div").open("p", {{"class", "from"}});
  if (!sender.empty()) m.put("b", sender.front());
  put_lines(m, sender, 1);
  m.close().open("p");
  put_lines(m, address_lines(quote, words));
  m.close().close().open("div").put("h1", words("offer.title"));
  put_facts(m, head_facts(quote, words));
  m.close().close().raw("\n");
}

void put_row(Markup& m, const std::vector<std::string>& cells) {
  m.open("tr");
  for (std::size_t i = 0; i < cells.size(); ++i)
    m.put("td", cells[i], i == 0 ? Markup::Attributes{{"class", "what"}} : Markup::Attributes{});
  m.close().raw("\n");
}

void put_wide_row(Markup& m, const char* kind, const std::string& text) {
  m.open("tr", {{"class", kind}}).put("td", text, {{"class", "what"}, {"colspan", "3"}}).close();
}

void put_price(Markup& m, const CustomerQuote& quote, const CustomerPrice& p, const Words& words) {
  put_row(m, {quantity_text(p, words), unit_price_text(p, words), words.money(p.total)});
  if (p.minimum_surcharge.hundredths() > 0 && quote.orders.size() > 1)
    put_row(m, {"", words(surcharge_label(quote)), words.money(p.minimum_surcharge)});
}

void put_item(Markup& m, const CustomerQuote& quote, std::size_t i, const Words& words) {
  const CustomerItem& item = quote.items[i];
  m.open("tbody");
  put_wide_row(m, "title", std::to_string(i + 1) + ". " + item_title(item, words));
  std::string facts;
  for (const Fact& fact : item_facts(item, words))
    facts.append(facts.empty() ? "" : "; ").append(fact.name).append(": ").append(fact.value);
  put_wide_row(m, "facts", facts);
  if (!item.offered) put_wide_row(m, "facts", not_offered_text(item, words));
  for (const CustomerPrice& p : item.prices) put_price(m, quote, p, words);
  for (const CustomerCharge& charge : item.once)
    put_row(
        m, {words({"offer.charged-once", {{"what", charge.what}}}), "", words.money(charge.price)});
  m.close();
}

void put_order(Markup& m, const std::vector<OrderRow>& rows, const Words& words) {
  if (rows.empty()) return;
  m.open("tbody");
  for (const OrderRow& row : rows) put_row(m, {row.name, "", words.money(row.amount)});
  m.close();
}

// One head for all items, repeated on every page: the price's unit stands with the price.
void put_prices(Markup& m, const CustomerQuote& quote, const Words& words) {
  m.open("table").open("thead").open("tr");
  m.put("th", words("offer.quantity"), {{"scope", "col"}});
  m.put("th", words({"offer.unit-price", {{"currency", quote.currency}}}), {{"scope", "col"}});
  m.put("th", words({"offer.total", {{"currency", quote.currency}}}), {{"scope", "col"}});
  m.close().close().raw("\n");
  for (std::size_t i = 0; i < quote.items.size(); ++i) put_item(m, quote, i, words);
  put_order(m, order_rows(quote, words), words);
  m.close().raw("\n");
}

}  // namespace

std::string offer_page(const CustomerQuote& quote, const OfferTexts& texts, const Words& words) {
  Markup m;
  begin_page(m, words.language(), offer_title(quote, words),
             paper_rules(quote, words) + offer_style);
  m.raw("\n");
  put_head(m, quote, texts, words);
  put_paragraphs(m, texts.opening, words);
  put_prices(m, quote, words);
  m.open("div", {{"class", "block"}});
  put_facts(m, delivery_facts(quote, words));
  m.close().open("div", {{"class", "block"}});
  put_paragraphs(m, texts.terms, words);
  for (const Message& term : charge_terms(quote)) m.put("p", words(term));
  m.close();
  put_paragraphs(m, texts.closing, words);
  m.close().close().raw("\n");
  return m.take();
}

}  // namespace turnwright
