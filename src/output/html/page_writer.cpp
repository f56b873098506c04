// SPDX-License-Identifier: MIT
#include "html/page_writer.hpp"

#include <algorithm>

namespace turnwright {
namespace {

// The first column names the row and stands left by the style.
Markup::Attributes attributes_of(const Table& table, std::size_t column) {
  if (column > 0 && table.columns[column].align == Align::left) return {{"class", "text"}};
  return {};
}

void head_of(Markup& m, const Table& table, const Words& words) {
  m.open("thead").open("tr");
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    Markup::Attributes attributes = attributes_of(table, i);
    attributes.insert(attributes.begin(), {"scope", "col"});
    m.put("th", words.heading(table.columns[i].heading), attributes);
  }
  m.close().close();
}

}  // namespace

std::string language_code(Language language) { return language == Language::de ? "de" : "en"; }

void begin_page(Markup& m, const std::string& language, const std::string& title,
                const std::string& style) {
  m.raw("<!DOCTYPE html>\n").open("html", {{"lang", language}}).open("head");
  m.single("meta", {{"charset", "utf-8"}});
  m.single("meta", {{"http-equiv", "Content-Security-Policy"},
                    {"content", "default-src 'none'; style-src 'unsafe-inline'"}});
  m.single("meta", {{"name", "viewport"}, {"content", "width=device-width"}});
  m.put("title", title);
  m.open("style").raw(style).close().close().raw("\n").open("body");
}

void begin_picture(Markup& m, double width, double height, const std::string& label,
                   const std::string& kind) {
  Markup::Attributes attributes{{"viewBox", "0 0 " + px(width) + " " + px(height)},
                                {"width", px(width)},
                                {"height", px(height)}};
  if (!kind.empty()) attributes.emplace_back("class", kind);
  attributes.emplace_back("role", "img");
  attributes.emplace_back("aria-label", label);
  m.open("svg", attributes);
}

void picture_text(Markup& m, double x, double y, const std::string& words, const char* anchor) {
  m.put("text", words, {{"x", px(x)}, {"y", px(y)}, {"text-anchor", anchor}});
}

void picture_rect(Markup& m, double x, double y, double width, double height,
                  const std::string& kind, const std::string& title) {
  if (width <= 0 || height <= 0) return;
  m.open(
      "rect",
      {{"class", kind}, {"x", px(x)}, {"y", px(y)}, {"width", px(width)}, {"height", px(height)}});
  if (!title.empty()) m.put("title", title);
  m.close();
}

std::string PageWriter::end() {
  m_.close().close().raw("\n");
  return m_.take();
}

void PageWriter::heading(int level, const Message& message, const std::string& id) {
  Markup::Attributes attributes;
  if (!id.empty()) attributes.emplace_back("id", id);
  m_.put("h" + std::to_string(level), words_.heading(message), attributes);
}

void PageWriter::paragraph(const Message& message, const char* kind) {
  Markup::Attributes attributes;
  if (*kind != '\0') attributes.emplace_back("class", kind);
  m_.put("p", words_.heading(message), attributes);
}

void PageWriter::list(const Messages& messages) {
  if (messages.empty()) return;
  m_.open("ul");
  for (const Message& message : messages) item(message);
  m_.close();
}

void PageWriter::begin_wide(const Message& label) {
  m_.open(
      "div",
      {{"class", "wide"}, {"tabindex", "0"}, {"role", "region"}, {"aria-label", words_(label)}});
}

void PageWriter::table(const Table& table, const Message& label) {
  begin_wide(label);
  m_.open("table");
  head_of(m_, table, words_);
  m_.open("tbody").raw("\n");
  for (const Table::Row& row : table.rows) {
    m_.open("tr");
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const bool strong = std::find(row.strong.begin(), row.strong.end(), i) != row.strong.end();
      m_.put("td", i < row.cells.size() ? row.cells[i] : "",
             strong ? Markup::Attributes{{"class", "strong"}} : attributes_of(table, i));
    }
    m_.close().raw("\n");
  }
  m_.close().close().close().raw("\n");
}

void PageWriter::begin_fold(const Message& summary) {
  m_.open("details").put("summary", words_.heading(summary));
}

void PageWriter::key(const std::string& colour, const std::string& name) {
  m_.open("span", {{"style", "display: inline-block; margin-right: 16px"}});
  m_.open("span", {{"class", "key"}, {"style", "--c: var(--" + colour + ")"}}).close();
  m_.text(name).close().raw(" ");
}

}  // namespace turnwright
