// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "turnwright/document/reader.hpp"
#include "turnwright/output/offer.hpp"

namespace turnwright {
namespace {

constexpr std::array word_names{"offer",
                                "number",
                                "revision",
                                "date",
                                "valid until",
                                "your reference",
                                "item",
                                "part",
                                "drawing revision",
                                "material",
                                "material supplied",
                                "material as drawn",
                                "mass",
                                "quantity",
                                "price each",
                                "price for",
                                "total",
                                "paid once",
                                "in releases",
                                "minimum surcharge",
                                "with",
                                "delivery",
                                "delivery week",
                                "packing",
                                "certificate",
                                "included",
                                "not included",
                                "page"};

constexpr std::array date_styles{"D.M.Y", "D/M/Y", "M/D/Y", "Y-M-D", "D Month Y"};

std::string two(unsigned n) { return (n < 10 ? "0" : "") + std::to_string(n); }

// A mark may be empty, which other texts may not.
std::string mark(MapReader& map, std::string_view key) {
  const Node* node = map.need(key);
  if (node == nullptr) return "";
  if (node->kind != Node::Kind::nothing && node->kind != Node::Kind::text)
    map.notes().add(*node, "found " + described(*node), "a mark in quotes");
  return node->text;
}

}  // namespace

std::string OfferWords::number(double value, int places) const {
  std::string text = fixed(std::abs(value), places);
  const std::size_t point = std::min(text.find('.'), text.size());
  std::string out = point < text.size() ? decimal_mark + text.substr(point + 1) : "";
  for (std::size_t i = 0; i < point; ++i) {
    if (i > 0 && i % 3 == 0) out.insert(0, thousands_mark);
    out.insert(out.begin(), text[point - 1 - i]);
  }
  return (value < 0 ? "-" : "") + out;
}
std::string OfferWords::money(Money amount) const { return number(amount.amount().si, 2); }

std::string OfferWords::day(Date d) const {
  const auto day = static_cast<unsigned>(d.day()), month = static_cast<unsigned>(d.month());
  const std::string year = text_of(d).substr(0, 4);
  switch (date) {
    case DateStyle::day_month_year_dots:
      return two(day) + "." + two(month) + "." + year;
    case DateStyle::day_month_year:
      return two(day) + "/" + two(month) + "/" + year;
    case DateStyle::month_day_year:
      return two(month) + "/" + two(day) + "/" + year;
    case DateStyle::month_in_words:
      return std::to_string(day) + " " + months[month - 1] + " " + year;
    default:
      return text_of(d);
  }
}

Checked<OfferWords> read_offer_words(std::string file, std::string_view text) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList notes(*document);
  OfferWords w;
  MapReader map(document->root, notes, "the words of an offer");
  if (map.need("language") != nullptr) w.language = map.text_or("language", "en");
  w.decimal_mark = mark(map, "decimal mark");
  w.thousands_mark = mark(map, "thousands mark");
  if (const Node* node = map.need("date")) {
    const auto* style = std::find(date_styles.begin(), date_styles.end(), node->text);
    if (style == date_styles.end())
      notes.add(*node, "found " + described(*node), "D.M.Y, D/M/Y, M/D/Y, Y-M-D or D Month Y");
    else
      w.date = static_cast<DateStyle>(style - date_styles.begin());
  }
  if (const Node* node = map.need("months")) {
    const auto list = as_list(*node);
    if (list.size() != w.months.size())
      notes.add(*node, std::to_string(list.size()) + " months", "twelve");
    for (std::size_t i = 0; i < std::min(list.size(), w.months.size()); ++i)
      w.months[i] = read_text(*list[i], notes, "the name of a month").value_or("");
  }
  w.letter_paper = map.one_of("paper", {"A4", "Letter"}) == "Letter";
  w.pounds = map.one_of("mass", {"kg", "lb"}) == "lb";
  if (const Node* node = map.need("words")) {
    MapReader words(*node, notes, "words");
    for (const char* name : word_names)
      if (words.need(name) != nullptr) w.words[name] = words.text_or(name, "");
    words.finish();
  }
  map.finish();
  if (!notes.clean()) return notes.problems();
  return w;
}

Checked<std::string> filled(const std::string& file, const std::string& text,
                            const CustomerQuote& q, const OfferWords& words) {
  const std::vector<std::pair<std::string, std::string>> values{
      {"customer", q.customer},
      {"contact", q.contact},
      {"their reference", q.reference},
      {"number", q.number},
      {"revision", std::to_string(q.revision)},
      {"date", words.day(q.date)},
      {"valid until", words.day(q.valid_until)},
      {"currency", q.currency},
      {"minimum order", words.money(q.minimum_order)}};
  std::string out;
  Position at{1, 1};
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::size_t close = text[i] == '{' ? text.find('}', i) : std::string::npos;
    if (close == std::string::npos) {
      out += text[i];
      at = text[i] == '\n' ? Position{at.line + 1, 1} : Position{at.line, at.column + 1};
      continue;
    }
    const std::string name = text.substr(i + 1, close - i - 1);
    const auto found =
        std::find_if(values.begin(), values.end(), [&](const auto& v) { return v.first == name; });
    if (found == values.end()) {
      std::vector<std::string> names;
      std::string list;
      for (const auto& v : values) {
        names.push_back(v.first);
        list += (list.empty() ? "{" : ", {") + v.first + "}";
      }
      Problem p;
      p.file = file;
      p.at = at;
      p.what = "unknown '{" + name + "}'";
      p.expected = list;
      p.suggestion = nearest(name, names);
      return Problems{p};
    }
    out += found->second;
    at.column += static_cast<int>(close - i + 1);
    i = close;
  }
  return out;
}

}  // namespace turnwright
