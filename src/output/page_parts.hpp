// SPDX-License-Identifier: MIT
#pragma once
// What every page begins with and every picture and table of a page is made of.
#include <cmath>
#include <string>
#include <vector>

#include "markup.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

/// A length of a picture, to a hundredth of a pixel.
inline std::string px(double v) { return readable(std::round(v * 100) / 100, 7); }

/// Up to and with <body>. Nothing is fetched, and a text that looked like markup could do nothing.
inline void begin_page(Markup& m, const std::string& language, const std::string& title,
                       const std::string& style) {
  m.raw("<!DOCTYPE html>\n").open("html", {{"lang", language}}).open("head");
  m.single("meta", {{"charset", "utf-8"}});
  m.single("meta", {{"http-equiv", "Content-Security-Policy"},
                    {"content", "default-src 'none'; style-src 'unsafe-inline'"}});
  m.single("meta", {{"name", "viewport"}, {"content", "width=device-width"}});
  m.put("title", title);
  m.open("style").raw(style).close().close().raw("\n").open("body");
}

inline void begin_picture(Markup& m, double width, double height, const std::string& label,
                          const std::string& kind = "") {
  Markup::Attributes attributes{{"viewBox", "0 0 " + px(width) + " " + px(height)},
                                {"width", px(width)},
                                {"height", px(height)}};
  if (!kind.empty()) attributes.emplace_back("class", kind);
  attributes.emplace_back("role", "img");
  attributes.emplace_back("aria-label", label);
  m.open("svg", attributes);
}
inline void picture_text(Markup& m, double x, double y, const std::string& words,
                         const char* anchor) {
  m.put("text", words, {{"x", px(x)}, {"y", px(y)}, {"text-anchor", anchor}});
}

/// Which colour is what: `colour` is a variable of the style, as "k0".
inline void colour_key(Markup& m, const std::string& colour, const std::string& name) {
  m.open("span", {{"style", "white-space: nowrap; margin-right: 16px"}});
  m.open("span", {{"class", "key"}, {"style", "--c: var(--" + colour + ")"}}).close();
  m.text(name).close().raw(" ");
}

using Cells = std::vector<std::string>;
/// Cells of a row; from one column on and before another they hold words and stand left.
inline void table_cells(Markup& m, const char* kind, const Cells& cells, std::size_t text_from,
                        std::size_t text_to) {
  m.open("tr");
  for (std::size_t i = 0; i < cells.size(); ++i) {
    Markup::Attributes attributes;
    if (kind[1] == 'h') attributes.emplace_back("scope", "col");
    if (i >= text_from && i < text_to) attributes.emplace_back("class", "text");
    m.put(kind, cells[i], attributes);
  }
  m.close();
}
inline void begin_table(Markup& m, const Cells& heads, std::size_t text_from = 99,
                        std::size_t text_to = 99) {
  m.open("div",
         {{"class", "wide"}, {"tabindex", "0"}, {"role", "region"}, {"aria-label", "table"}});
  m.open("table").open("thead");
  table_cells(m, "th", heads, text_from, text_to);
  m.close().open("tbody").raw("\n");
}
inline void table_row(Markup& m, const Cells& cells, std::size_t text_from = 99,
                      std::size_t text_to = 99) {
  table_cells(m, "td", cells, text_from, text_to);
  m.raw("\n");
}
inline void end_table(Markup& m) { m.close().close().close().raw("\n"); }

}  // namespace turnwright
