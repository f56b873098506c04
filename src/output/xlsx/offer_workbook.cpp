// SPDX-License-Identifier: MIT
// A quotation as a workbook of values.
#include <algorithm>

#include "view/offer_view.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {
namespace {

constexpr double sign_height = 54;  // points

enum OfferColumn { what, quantity, unit_price, price_unit, total };

class OfferSheet {
 public:
  OfferSheet(const CustomerQuote& quote, const Words& words, const std::string& path)
      : quote_(quote), words_(words), book_(path, {words("offer.title")}) {}

  void write(const OfferTexts& texts) {
    head_of_page(texts);
    block(texts.opening);
    const int head = row_;
    heads();
    for (const CustomerItem& item : quote_.items) write_item(item);
    write_order();
    facts(delivery_facts(quote_, words_));
    block(texts.terms);
    for (const Message& term : charge_terms(quote_, words_)) line(words_(term));
    block(texts.closing);
    set_page(head);
    book_.close();
  }

 private:
  // As on paper: the sender and the customer at the left, title, number and dates at the right.
  // Over the sender is room for the shop's sign.
  void head_of_page(const OfferTexts& texts) {
    book_.height(0, row_, sign_height);
    if (texts.provisional)
      book_.text(0, row_, what, words_("offer.provisional-note"), Look::warning);
    book_.wide_text(0, row_++, unit_price, total, words_("offer.title"), Look::title);
    const int top = row_;
    block(texts.sender);
    lines(address_lines(quote_, words_));
    int row = top;
    for (const Fact& fact : head_facts(quote_, words_)) {
      book_.text(0, row, unit_price, fact.name, Look::label);
      book_.wide_text(0, row++, price_unit, total, fact.value, Look::text);
    }
    row_ = std::max(row_, row + 1);
  }
  void line(const std::string& text, Look look = Look::text) {
    book_.text(0, row_++, what, text, look);
  }
  void lines(const std::vector<std::string>& list) {
    for (const std::string& text : list) line(text);
    ++row_;
  }
  void block(const std::string& text) { lines(lines_of(text, words_)); }
  void facts(const Facts& list) {
    for (const Fact& fact : list) {
      book_.text(0, row_, what, fact.name, Look::label);
      book_.text(0, row_++, quantity, fact.value);
    }
    ++row_;
  }
  void heads() {
    const std::string& currency = quote_.currency;
    book_.text(0, row_, what, words_("offer.part"), Look::head);
    book_.text(0, row_, quantity, words_("offer.quantity"), Look::head_right);
    book_.text(0, row_, unit_price, words_({"offer.unit-price", {{"currency", currency}}}),
               Look::head_right);
    book_.text(0, row_, price_unit, words_("offer.per-pieces"), Look::head_right);
    book_.text(0, row_++, total, words_({"offer.total", {{"currency", currency}}}),
               Look::head_right);
  }
  void write_item(const CustomerItem& item) {
    line(item_title(item, words_), Look::label);
    for (const Fact& fact : item_facts(item, words_))
      line(fact.name + ": " + fact.value, Look::note);
    if (!item.offered) line(not_offered_text(item, words_));
    for (const CustomerPrice& price : item.prices) write_price(price);
    for (const CustomerCharge& charge : item.once) {
      book_.text(0, row_, what, words_({"offer.charged-once", {{"what", charge.what}}}));
      book_.value(0, row_++, total, charge.price.amount().si, Look::money);
    }
    ++row_;
  }
  void write_price(const CustomerPrice& p) {
    if (p.releases > 1 || p.lead_days > 0)
      book_.text(0, row_, what, quantity_note(p, words_), Look::note);
    book_.value(0, row_, quantity, p.quantity, Look::whole);
    book_.value(0, row_, unit_price, p.each.amount().si, Look::money);
    book_.value(0, row_, price_unit, p.price_unit, Look::whole);
    book_.value(0, row_++, total, p.total.amount().si, Look::bold_money);
    if (p.minimum_surcharge.hundredths() == 0 || quote_.orders.size() == 1) return;
    book_.text(0, row_, what, words_(surcharge_label(quote_)), Look::note);
    book_.value(0, row_++, total, p.minimum_surcharge.amount().si, Look::money);
  }
  void write_order() {
    const std::vector<OrderRow> rows = order_rows(quote_, words_);
    if (rows.empty()) return;
    for (const OrderRow& row : rows) {
      book_.text(0, row_, what, row.name, Look::label);
      book_.value(0, row_++, total, row.amount.amount().si, Look::bold_money);
    }
    ++row_;
  }
  void set_page(int head) {
    book_.widths(0, {44, 12, 14, 14, 16});
    PageSetup setup;
    setup.letter = words_.letter();
    setup.landscape = false;
    setup.repeated_row = head;
    setup.grid = false;
    setup.footer = words_({"offer.page", {{"page", "&P"}, {"pages", "&N"}}});
    book_.page(0, setup);
  }

  const CustomerQuote& quote_;
  const Words& words_;
  Spreadsheet book_;
  int row_ = 0;
};

}  // namespace

void write_offer_workbook(const CustomerQuote& quote, const OfferTexts& texts, const Words& words,
                          const std::string& path) {
  OfferSheet(quote, words, path).write(texts);
}

}  // namespace turnwright
