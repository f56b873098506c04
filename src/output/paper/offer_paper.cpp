// SPDX-License-Identifier: MIT
// The quotation, on one page wherever it fits.
#include "paper/blank.hpp"
#include "view/offer_view.hpp"

namespace turnwright {
namespace {

constexpr double title_points = 25, sender_points = 13.5, total_points = 11.5, order_points = 14;
constexpr double smallest_type = 0.86;  // of its size, where that saves a page
constexpr paper::Type bold_total{.points = total_points, .bold = true};

std::string joined(const std::vector<std::string>& lines, std::size_t from = 0) {
  std::string text;
  for (std::size_t i = from; i < lines.size(); ++i) text += (i > from ? "\n" : "") + lines[i];
  return text;
}

// An empty line parts paragraphs.
void add_paragraphs(paper::Blocks& blocks, const std::string& text, double before,
                    const Words& words) {
  std::vector<std::string> now;
  auto end = [&] {
    if (now.empty()) return;
    blocks.emplace_back(paper::Text{joined(now), paper::Role::text, {}, before});
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

paper::Beside head_of(const CustomerQuote& quote, const OfferTexts& texts, const Words& words) {
  paper::Beside head;
  head.left_share = 0.56;
  const std::vector<std::string> sender = lines_of(texts.sender, words);
  if (!sender.empty()) {
    head.left.emplace_back(
        paper::Text{sender.front(), paper::Role::text, {.points = sender_points, .bold = true}});
    head.left.emplace_back(
        paper::Text{joined(sender, 1), paper::Role::text, {.points = 9, .ink = paper::Ink::grey}});
  }
  head.left.emplace_back(
      paper::Text{joined(address_lines(quote, words)), paper::Role::text, {.points = 11}, 9});
  head.right.emplace_back(paper::Text{
      words("offer.title"), paper::Role::title, {.points = title_points, .bold = true}});
  head.right.emplace_back(facts_table(head_facts(quote, words)));
  return head;
}

// Over quantity and price, the amount behind it.
paper::Row amount_row(const std::string& name, const std::string& amount, std::size_t span = 2) {
  paper::Cell label{name};
  label.span = span;
  label.right = true;
  label.type = {.points = 9, .ink = paper::Ink::grey};
  return {{std::move(label), {amount}}};
}

void add_price(paper::Group& group, const CustomerQuote& quote, const CustomerPrice& p,
               const Words& words) {
  group.rows.push_back(
      {{{words.whole(p.quantity), quantity_note(p, words), {.points = total_points}},
        {words.money(p.each), price_note(p, words), {.points = total_points}},
        {words.money(p.total), "", bold_total}}});
  if (p.minimum_surcharge.hundredths() > 0 && quote.orders.size() > 1)
    group.rows.push_back(
        amount_row(words(surcharge_label(quote)), words.money(p.minimum_surcharge)));
}

paper::Group group_of(const CustomerQuote& quote, std::size_t i, const Words& words) {
  const CustomerItem& item = quote.items[i];
  paper::Group group;
  group.described.push_back({std::to_string(i + 1) + ". " + item_title(item, words),
                             paper::Role::heading,
                             {.points = 11, .bold = true}});
  for (const Fact& fact : item_facts(item, words))
    group.described.push_back(
        {fact.name + ": " + fact.value, paper::Role::text, {.points = 9, .ink = paper::Ink::grey}});
  if (!item.offered)
    group.described.push_back({not_offered_text(item, words), paper::Role::text, {}});
  for (const CustomerPrice& p : item.prices) add_price(group, quote, p, words);
  for (const CustomerCharge& charge : item.once)
    group.rows.push_back(amount_row(words({"offer.charged-once", {{"what", charge.what}}}),
                                    words.money(charge.price)));
  return group;
}

paper::Group order_group(const std::vector<OrderRow>& rows, const Words& words) {
  paper::Group group;
  for (const OrderRow& row : rows) {
    paper::Row one = amount_row(row.name, words.money(row.amount), 3);
    if (row.total) {
      one.cells.front().type = bold_total;
      one.cells.back().type = {.points = order_points, .bold = true};
    }
    group.rows.push_back(std::move(one));
  }
  return group;
}

// One head for all items, again on every page.
paper::Table prices_of(const CustomerQuote& quote, const Words& words) {
  paper::Table table{words("offer.title")};
  table.rules = paper::Rules::groups;
  table.before = 5;
  table.columns = {words_of(words("offer.part"), true), numbers_of(words("offer.quantity")),
                   numbers_of(words({"offer.unit-price", {{"currency", quote.currency}}})),
                   numbers_of(words({"offer.total", {{"currency", quote.currency}}}))};
  for (std::size_t i = 0; i < quote.items.size(); ++i)
    table.groups.push_back(group_of(quote, i, words));
  const std::vector<OrderRow> rows = order_rows(quote, words);
  if (!rows.empty()) table.groups.push_back(order_group(rows, words));
  return table;
}

}  // namespace

paper::Paper offer_paper(const CustomerQuote& quote, const OfferTexts& texts, const Words& words) {
  paper::Paper paper = blank_paper(offer_title(quote, words), words);
  paper.date = text_of(quote.date);
  paper.margin = 16;
  paper.foot = paper.title;
  paper.pages = 1;
  paper.smallest = smallest_type;
  paper::Blocks& blocks = paper.blocks;
  if (texts.provisional) {
    paper.across = words("offer.provisional");
    blocks.emplace_back(paper::Text{words("offer.provisional-note"),
                                    paper::Role::text,
                                    {.points = 11, .bold = true, .ink = paper::Ink::red}});
  }
  blocks.emplace_back(head_of(quote, texts, words));
  add_paragraphs(blocks, texts.opening, 4, words);
  blocks.emplace_back(prices_of(quote, words));
  paper::Table delivery = facts_table(delivery_facts(quote, words));
  delivery.before = 4;
  blocks.emplace_back(std::move(delivery));
  add_paragraphs(blocks, texts.terms, 2, words);
  for (const Message& term : charge_terms(quote, words))
    blocks.emplace_back(paper::Text{words(term), paper::Role::text, {}, 1});
  add_paragraphs(blocks, texts.closing, 3, words);
  return paper;
}

}  // namespace turnwright
