// SPDX-License-Identifier: MIT
// A quotation as a workbook of values.
#include "sheet.hpp"
#include "view/offer_view.hpp"

namespace turnwright {
namespace {

// What a sheet may be called: up to 31 characters without []:*?/\ and quotes; bytes are safe.
std::string sheet_name(const std::string& text) {
  std::string name;
  for (const char c : text) {
    const bool begins = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    if (begins && name.size() > 27) break;
    if (std::string_view("[]:*?/\\'").find(c) == std::string_view::npos) name += c;
  }
  return name;
}

enum OfferColumn { what, quantity, unit_price, price_unit, total };

class OfferSheet {
 public:
  OfferSheet(const CustomerQuote& quote, const Words& words, const std::string& path)
      : quote_(quote),
        words_(words),
        book_(path, {sheet_name(words("offer.title"))}),
        f_(book_.formats()) {}

  void write(const OfferTexts& texts) {
    line(offer_title(quote_, words_), f_.title);
    block(texts.sender);
    lines(address_lines(quote_, words_));
    facts(head_facts(quote_, words_));
    block(texts.opening);
    const int head = row_;
    heads();
    for (const CustomerItem& item : quote_.items) write_item(item);
    facts(delivery_facts(quote_, words_));
    block(texts.terms);
    for (const Message& term : charge_terms(quote_)) line(words_(term));
    block(texts.closing);
    set_page(head);
    book_.close();
  }

 private:
  void line(const std::string& text, lxw_format* format = nullptr) {
    book_.text(0, row_++, what, text, format);
  }
  void lines(const std::vector<std::string>& list) {
    for (const std::string& text : list) line(text);
    ++row_;
  }
  void block(const std::string& text) { lines(lines_of(text, words_)); }
  void facts(const Facts& list) {
    for (const Fact& fact : list) {
      book_.text(0, row_, what, fact.name, f_.label);
      book_.text(0, row_++, quantity, fact.value);
    }
    ++row_;
  }
  void heads() {
    const std::string& currency = quote_.currency;
    book_.text(0, row_, what, words_("offer.part"), f_.head);
    book_.text(0, row_, quantity, words_("offer.quantity"), f_.head);
    book_.text(0, row_, unit_price, words_({"offer.unit-price", {{"currency", currency}}}),
               f_.head);
    book_.text(0, row_, price_unit, words_("offer.per-pieces"), f_.head);
    book_.text(0, row_++, total, words_({"offer.total", {{"currency", currency}}}), f_.head);
  }
  void write_item(const CustomerItem& item) {
    line(item_title(item, words_), f_.label);
    for (const Fact& fact : item_facts(item, words_)) line(fact.name + ": " + fact.value, f_.note);
    for (const CustomerPrice& price : item.prices) write_price(price);
    for (const CustomerCharge& charge : item.once) {
      book_.text(0, row_, what, words_({"offer.charged-once", {{"what", charge.what}}}));
      book_.value(0, row_++, total, charge.price.amount().si, f_.money);
    }
    ++row_;
  }
  void write_price(const CustomerPrice& p) {
    if (p.releases > 1) book_.text(0, row_, what, quantity_text(p, words_), f_.note);
    book_.value(0, row_, quantity, p.quantity, f_.whole);
    book_.value(0, row_, unit_price, p.each.amount().si, f_.money);
    book_.value(0, row_, price_unit, p.price_unit, f_.whole);
    book_.value(0, row_++, total, p.total.amount().si, f_.bold_money);
    if (p.minimum_surcharge.hundredths() == 0) return;
    book_.text(0, row_, what, words_(surcharge_label(quote_)), f_.note);
    book_.value(0, row_++, total, p.minimum_surcharge.amount().si, f_.money);
  }
  void set_page(int head) {
    book_.widths(0, {44, 12, 14, 14, 16});
    lxw_worksheet* sheet = book_.sheet(0);
    worksheet_set_paper(sheet, words_.inch() ? 1 : 9);  // letter, A4
    worksheet_fit_to_pages(sheet, 1, 0);
    const auto row = static_cast<lxw_row_t>(head);
    worksheet_repeat_rows(sheet, row, row);
    worksheet_gridlines(sheet, LXW_HIDE_ALL_GRIDLINES);
  }

  const CustomerQuote& quote_;
  const Words& words_;
  Spreadsheet book_;
  const Formats& f_;
  int row_ = 0;
};

}  // namespace

void write_offer_workbook(const CustomerQuote& quote, const OfferTexts& texts, const Words& words,
                          const std::string& path) {
  OfferSheet(quote, words, path).write(texts);
}

}  // namespace turnwright
