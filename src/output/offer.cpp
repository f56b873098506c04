// SPDX-License-Identifier: MIT
#include "turnwright/output/offer.hpp"

#include "page_parts.hpp"
#include "sheet.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

std::string replaced(std::string text, const std::string& name, const std::string& value) {
  const std::size_t at = text.find(name);
  return at == std::string::npos ? text : text.replace(at, name.size(), value);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines{""};
  for (const char c : text)
    if (c == '\n')
      lines.emplace_back();
    else if (c != '\r')
      lines.back() += c;
  while (!lines.empty() && lines.back().empty()) lines.pop_back();
  return lines;
}

// What page and workbook both say of an item, in the customer's words.
struct ItemWords {
  std::string title;
  std::vector<std::pair<std::string, std::string>> facts;
};
ItemWords words_of(const CustomerItem& item, const OfferWords& w) {
  ItemWords out;
  out.title = item.number + (item.name.empty() ? "" : " " + item.name);
  if (!item.revision.empty()) out.title += ", " + w("drawing revision") + " " + item.revision;
  std::string material = item.material.empty() ? w("material as drawn") : item.material;
  if (item.customers_material) material += ", " + w("material supplied");
  out.facts.emplace_back(w("material"), material);
  std::string work;
  for (const std::string& one : item.work) work += (work.empty() ? "" : ", ") + one;
  if (!work.empty()) out.facts.emplace_back(w("with"), work);
  if (item.mass) {
    const double mass = w.pounds ? in(*item.mass, unit::lb) : in(*item.mass, unit::kg);
    out.facts.emplace_back(w("mass"), w.number(mass, 2) + (w.pounds ? " lb" : " kg"));
  }
  if (!item.week.empty()) out.facts.emplace_back(w("delivery week"), item.week);
  return out;
}
std::string quantity_text(const CustomerPrice& p, const OfferWords& w) {
  if (p.releases == 1) return w.number(p.quantity, 0);
  return w.number(p.quantity, 0) + " " +
         replaced(replaced(w("in releases"), "{count}", std::to_string(p.releases)), "{each}",
                  std::to_string(p.quantity / p.releases));
}
std::string price_head(const CustomerPrice& p, const OfferWords& w) {
  return p.price_unit == 1 ? w("price each")
                           : replaced(w("price for"), "{pieces}", w.number(p.price_unit, 0));
}
std::vector<std::pair<std::string, std::string>> head_facts(const CustomerQuote& q,
                                                            const OfferWords& w) {
  std::vector<std::pair<std::string, std::string>> facts{{w("number"), q.number}};
  if (q.revision > 0) facts.emplace_back(w("revision"), std::to_string(q.revision));
  facts.emplace_back(w("date"), w.day(q.date));
  facts.emplace_back(w("valid until"), w.day(q.valid_until));
  if (!q.reference.empty()) facts.emplace_back(w("your reference"), q.reference);
  return facts;
}
std::vector<std::pair<std::string, std::string>> delivery_facts(const CustomerQuote& q,
                                                                const OfferWords& w) {
  std::vector<std::pair<std::string, std::string>> facts;
  if (!q.terms.empty()) facts.emplace_back(w("delivery"), q.terms);
  if (!q.packing.empty()) facts.emplace_back(w("packing"), q.packing);
  facts.emplace_back(w("certificate"), q.material_certificate ? w("included") : w("not included"));
  return facts;
}

// What a sheet may be called: up to 31 characters without []:*?/\\ and quotes; bytes are safe.
std::string sheet_name(const std::string& text) {
  std::string name;
  for (const char c : text)
    if (std::string_view("[]:*?/\\'").find(c) == std::string_view::npos) name += c;
  return name.empty() || name.size() > 31 ? "Offer" : name;
}

constexpr const char* style_sheet = R"css(
html { font: 10pt/1.4 "Liberation Sans", Arial, sans-serif; color: #1b1b1b; background: #fff; }
body { max-width: 178mm; margin: 12mm auto; padding: 0 5mm; }
header { display: grid; grid-template-columns: 1fr auto; gap: 10mm; align-items: start;
  margin-bottom: 7mm; }
.from { font-size: 9pt; color: #4a4a4a; margin: 0 0 9mm; }
.from b { display: block; font-size: 12.5pt; color: #1b1b1b; }
h1 { font-size: 19pt; margin: 0 0 3mm; font-weight: 600; }
dl { display: grid; grid-template-columns: auto 1fr; gap: 0.6mm 5mm; margin: 0; }
dt { color: #555; } dd { margin: 0; }
table { width: 100%; border-collapse: collapse; margin: 7mm 0; font-variant-numeric: tabular-nums; }
th { font-weight: 600; text-align: right; border-bottom: 0.4mm solid #1b1b1b; padding: 1.2mm 2mm; }
th:first-child, td.what { text-align: left; }
td { text-align: right; padding: 0.9mm 2mm; vertical-align: top; }
tbody { break-inside: avoid; }
tbody tr:last-child td { padding-bottom: 3mm; border-bottom: 0.2mm solid #b5b5b5; }
tbody tr.title td { padding-top: 3mm; font-weight: 600; border: 0; }
tr.facts td { color: #4a4a4a; font-size: 9.5pt; border: 0; }
.block { break-inside: avoid; margin: 5mm 0; }
p { margin: 0 0 2.5mm; orphans: 3; widows: 3; }
thead { display: table-header-group; }
@media print { body { margin: 0; padding: 0; max-width: none; } }
)css";

class OfferPage {
 public:
  OfferPage(const CustomerQuote& q, const OfferWords& w, const OfferTexts& texts)
      : q_(q), w_(w), texts_(texts) {}

  std::string page() {
    begin_page(m_, w_.language, w_("offer") + " " + q_.number, paper() + style_sheet);
    m_.raw("\n");
    head();
    paragraphs(texts_.opening);
    prices();
    m_.open("div", {{"class", "block"}});
    facts(delivery_facts(q_, w_));
    m_.close();
    m_.open("div", {{"class", "block"}});
    paragraphs(texts_.terms);
    m_.close();
    paragraphs(texts_.closing);
    m_.close().close().raw("\n");
    return m_.take();
  }

 private:
  std::string paper() const {
    std::string count = "\"" + css(w_("page")) + "\"";
    count = replaced(count, "{page}", "\" counter(page) \"");
    count = replaced(count, "{pages}", "\" counter(pages) \"");
    return std::string("\n@page { size: ") + (w_.letter_paper ? "letter" : "A4") +
           "; margin: 16mm 16mm 18mm; @bottom-right { content: " + count +
           "; font: 8pt \"Liberation Sans\", Arial, sans-serif; color: #555 } @bottom-left { "
           "content: \"" +
           css(w_("offer") + " " + q_.number) +
           "\"; font: 8pt \"Liberation Sans\", Arial, sans-serif; color: #555 } }";
  }
  // A string of a style sheet: what could end it, or the sheet, goes as a code point.
  static std::string css(const std::string& text) {
    std::string out;
    for (const char c : text) {
      const bool plain = static_cast<unsigned char>(c) >= 0x80 ||
                         std::isalnum(static_cast<unsigned char>(c)) != 0 || c == ' ' || c == '-' ||
                         c == '_' || c == '{' || c == '}';
      if (plain) {
        out += c;
      } else {
        constexpr const char* hex = "0123456789abcdef";
        const auto byte = static_cast<unsigned char>(c);
        out += std::string("\\0000") + hex[byte >> 4] + hex[byte & 15];
      }
    }
    return out;
  }
  void facts(const std::vector<std::pair<std::string, std::string>>& list) {
    m_.open("dl");
    for (const auto& [name, value] : list) m_.put("dt", name).put("dd", value);
    m_.close();
  }
  void lines(const std::vector<std::string>& list) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (i > 0) m_.single("br");
      m_.text(list[i]);
    }
  }
  void paragraphs(const std::string& text) {
    std::vector<std::string> now;
    auto end = [&] {
      if (now.empty()) return;
      m_.open("p");
      lines(now);
      m_.close().raw("\n");
      now.clear();
    };
    for (const std::string& line : lines_of(text)) {
      if (line.empty())
        end();
      else
        now.push_back(line);
    }
    end();
  }
  void head() {
    const std::vector<std::string> sender = lines_of(texts_.sender);
    m_.open("header").open("div").open("p", {{"class", "from"}});
    if (!sender.empty()) m_.put("b", sender.front());
    if (sender.size() > 1) lines({sender.begin() + 1, sender.end()});
    m_.close().open("p");
    std::vector<std::string> to{q_.customer};
    if (!q_.contact.empty()) to.push_back(q_.contact);
    to.insert(to.end(), q_.address.begin(), q_.address.end());
    lines(to);
    m_.close().close().open("div").put("h1", w_("offer"));
    facts(head_facts(q_, w_));
    m_.close().close().raw("\n");
  }
  void cells(const std::vector<std::string>& list, const char* kind) {
    m_.open("tr");
    for (std::size_t i = 0; i < list.size(); ++i)
      m_.put(
          kind, list[i],
          i == 0 && kind[1] == 'd' ? Markup::Attributes{{"class", "what"}} : Markup::Attributes{});
    m_.close().raw("\n");
  }
  void prices() {
    // One head for all items, repeated on every page: the price's unit stands with the price.
    m_.open("table").open("thead");
    m_.open("tr");
    for (const std::string& head :
         {w_("quantity"), w_("price each") + ", " + q_.currency, w_("total") + ", " + q_.currency})
      m_.put("th", head, {{"scope", "col"}});
    m_.close().close().raw("\n");
    int number = 0;
    for (const CustomerItem& item : q_.items) {
      const ItemWords words = words_of(item, w_);
      m_.open("tbody").open("tr", {{"class", "title"}});
      m_.put("td", std::to_string(++number) + ". " + words.title,
             {{"class", "what"}, {"colspan", "3"}});
      m_.close();
      std::string facts;
      for (const auto& [name, value] : words.facts)
        (facts += facts.empty() ? "" : "; ").append(name).append(": ").append(value);
      m_.open("tr", {{"class", "facts"}})
          .put("td", facts, {{"class", "what"}, {"colspan", "3"}})
          .close();
      for (const CustomerPrice& p : item.prices) {
        const std::string price =
            (p.price_unit == 1 ? "" : price_head(p, w_) + ": ") + w_.money(p.each);
        cells({quantity_text(p, w_), price, w_.money(p.total)}, "td");
        if (p.minimum_surcharge.hundredths() > 0)
          cells({"", w_("minimum surcharge"), w_.money(p.minimum_surcharge)}, "td");
      }
      for (const CustomerCharge& c : item.once)
        cells({c.what + ", " + w_("paid once"), "", w_.money(c.price)}, "td");
      m_.close();
    }
    m_.close().raw("\n");
  }

  const CustomerQuote& q_;
  const OfferWords& w_;
  const OfferTexts& texts_;
  Markup m_;
};

}  // namespace

std::string offer_page(const CustomerQuote& quote, const OfferWords& words,
                       const OfferTexts& texts) {
  return OfferPage(quote, words, texts).page();
}

void write_offer_workbook(const CustomerQuote& q, const OfferWords& w, const OfferTexts& texts,
                          const std::string& path) {
  Spreadsheet book(path, {sheet_name(w("offer"))});
  const Formats& f = book.formats();
  int row = 0;
  auto line = [&](const std::string& text, lxw_format* format = nullptr) {
    book.text(0, row++, 0, text, format);
  };
  auto pairs = [&](const std::vector<std::pair<std::string, std::string>>& list) {
    for (const auto& [name, value] : list) {
      book.text(0, row, 0, name, f.label);
      book.text(0, row++, 1, value);
    }
  };
  line(w("offer") + " " + q.number, f.title);
  for (const std::string& text : lines_of(texts.sender)) line(text);
  ++row;
  line(q.customer, f.label);
  if (!q.contact.empty()) line(q.contact);
  for (const std::string& text : q.address) line(text);
  ++row;
  pairs(head_facts(q, w));
  ++row;
  for (const std::string& text : lines_of(texts.opening)) line(text);
  ++row;
  const std::vector<std::string> heads{w("part"), w("quantity"), w("price each"), "",
                                       w("total") + ", " + q.currency};
  for (std::size_t i = 0; i < heads.size(); ++i)
    book.text(0, row, static_cast<int>(i), heads[i], f.head);
  const auto head_row = static_cast<lxw_row_t>(row++);
  for (const CustomerItem& item : q.items) {
    const ItemWords words = words_of(item, w);
    line(words.title, f.label);
    for (const auto& [name, value] : words.facts) {
      std::string fact = name;
      line(fact.append(": ").append(value), f.note);
    }
    for (const CustomerPrice& p : item.prices) {
      if (p.releases > 1) book.text(0, row, 0, quantity_text(p, w), f.note);
      book.value(0, row, 1, p.quantity, f.whole);
      book.value(0, row, 2, p.each.amount().si, f.money);
      if (p.price_unit > 1) book.text(0, row, 3, price_head(p, w), f.note);
      book.value(0, row++, 4, p.total.amount().si, f.bold_money);
      if (p.minimum_surcharge.hundredths() == 0) continue;
      book.text(0, row, 2, w("minimum surcharge"), f.note);
      book.value(0, row++, 4, p.minimum_surcharge.amount().si, f.money);
    }
    for (const CustomerCharge& c : item.once) {
      book.text(0, row, 0, c.what + ", " + w("paid once"));
      book.value(0, row++, 4, c.price.amount().si, f.money);
    }
    ++row;
  }
  pairs(delivery_facts(q, w));
  ++row;
  for (const std::string& text : lines_of(texts.terms)) line(text);
  ++row;
  for (const std::string& text : lines_of(texts.closing)) line(text);
  book.widths(0, {44, 12, 14, 14, 16});
  lxw_worksheet* sheet = book.sheet(0);
  worksheet_set_paper(sheet, w.letter_paper ? 1 : 9);
  worksheet_fit_to_pages(sheet, 1, 0);
  worksheet_repeat_rows(sheet, head_row, head_row);
  worksheet_gridlines(sheet, LXW_HIDE_ALL_GRIDLINES);
  book.close();
}

}  // namespace turnwright
