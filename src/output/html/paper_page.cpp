// SPDX-License-Identifier: MIT
// Documents for paper as HTML.
#include <algorithm>
#include <array>
#include <cstdio>

#include "html/css_content.hpp"
#include "html/drawing_svg.hpp"
#include "html/page_writer.hpp"
#include "html/paper_style.hpp"
#include "turnwright/output/palette.hpp"
#include "turnwright/output/paper.hpp"

namespace turnwright {
namespace {

using Attributes = Markup::Attributes;

void add_class(std::string& kind, const char* name) {
  if (*name != '\0') kind.append(kind.empty() ? "" : " ").append(name);
}

const char* class_of(paper::Ink ink) {
  return ink == paper::Ink::grey ? "grey" : ink == paper::Ink::red ? "red" : "";
}

std::string css_of(unsigned rgb) {
  std::array<char, 8> text{};
  std::snprintf(text.data(), text.size(), "#%06x", rgb & 0xffffff);
  return text.data();
}

std::string fill_of(paper::Colour colour) {
  return colour == paper::Colour::none ? "none" : css_of(paper::rgb_of(colour));
}

// Red of a ground is another than of ink.
const char* class_of(paper::Colour colour) {
  if (colour == paper::Colour::none) return "";
  return colour == paper::Colour::red ? "redground" : paper::name_of(colour);
}

Attributes attributes_of(std::string kind, const paper::Type& type, double before = 0) {
  if (type.bold) add_class(kind, "bold");
  add_class(kind, class_of(type.ink));
  std::string style;
  if (type.points > 0) style += "font-size: " + px(type.points) + "pt";
  if (before > 0) style += (style.empty() ? "" : "; ") + ("margin-top: " + px(before)) + "mm";
  Attributes attributes;
  if (!kind.empty()) attributes.emplace_back("class", kind);
  if (!style.empty()) attributes.emplace_back("style", style);
  return attributes;
}

const char* element_of(paper::Role role) {
  switch (role) {
    case paper::Role::title:
      return "h1";
    case paper::Role::heading:
      return "h2";
    case paper::Role::item:
      return "li";
    default:
      return "p";
  }
}

void put_lines(Markup& m, const std::string& text) {
  std::size_t from = 0;
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', from)) {
    m.text(text.substr(from, at - from)).single("br");
    from = at + 1;
  }
  m.text(text.substr(from));
}

void put_text(Markup& m, const paper::Text& text) {
  m.open(element_of(text.role), attributes_of("", text.type, text.before));
  put_lines(m, text.text);
  m.close().raw("\n");
}

// As wide as it is, beside a column that takes the rest.
bool is_tight(const paper::Table& table, std::size_t column) {
  return !table.columns[column].stretches &&
         std::any_of(table.columns.begin(), table.columns.end(),
                     [](const paper::Column& c) { return c.stretches; });
}

void put_cell(Markup& m, const paper::Table& table, const paper::Cell& cell, std::size_t column,
              bool heads) {
  std::string kind;
  if (cell.right || (!heads && table.columns[column].align == paper::Align::right))
    add_class(kind, "n");
  if (cell.italic) add_class(kind, "slant");
  if (!heads && cell.span == 1 && is_tight(table, column)) add_class(kind, "tight");
  add_class(kind, class_of(cell.ground));
  Attributes attributes = attributes_of(kind, cell.type);
  const std::size_t span = heads ? table.columns.size() - column : cell.span;
  if (span > 1) attributes.emplace_back("colspan", std::to_string(span));
  m.open("td", attributes);
  put_lines(m, cell.text);
  if (!cell.below.empty()) m.put("small", cell.below);
  m.close();
}

void put_row(Markup& m, const paper::Table& table, const paper::Row& row, std::size_t column) {
  for (const paper::Cell& cell : row.cells) {
    if (column >= table.columns.size()) break;
    put_cell(m, table, cell, column, row.heads);
    column += cell.span;
  }
}

void put_group(Markup& m, const paper::Table& table, const paper::Group& group) {
  m.open("tbody").raw("\n");
  const std::size_t first = group.described.empty() ? 0 : 1;
  const std::size_t rows = std::max<std::size_t>(group.rows.size(), 1);
  for (std::size_t i = 0; i < rows; ++i) {
    m.open("tr");
    if (i == 0 && first > 0) {
      m.open("td", {{"class", "what"},
                    {"rowspan", std::to_string(rows)},
                    {"colspan", std::to_string(group.rows.empty() ? table.columns.size() : 1)}});
      for (const paper::Text& text : group.described) put_text(m, text);
      m.close();
    }
    if (i < group.rows.size()) put_row(m, table, group.rows[i], first);
    m.close().raw("\n");
  }
  m.close().raw("\n");
}

void put_head(Markup& m, const paper::Table& table) {
  if (!table.has_head()) return;
  m.open("thead").open("tr");
  for (const paper::Column& column : table.columns) {
    Attributes attributes{{"scope", "col"}};
    if (column.align == paper::Align::right) attributes.emplace_back("class", "n");
    m.put("th", column.heading, attributes);
  }
  m.close().close().raw("\n");
}

const char* class_of(paper::Rules rules) {
  switch (rules) {
    case paper::Rules::groups:
      return "groups";
    case paper::Rules::rows:
      return "rows";
    case paper::Rules::grid:
      return "grid";
    default:
      return "plain";
  }
}

void put_table(Markup& m, const paper::Table& table) {
  Attributes region{{"class", "wide"}};
  if (!table.label.empty()) {
    region.emplace_back("tabindex", "0");
    region.emplace_back("role", "region");
    region.emplace_back("aria-label", table.label);
  }
  region.emplace_back("style", "margin-top: " + px(table.before) + "mm");
  m.open("div", region);
  m.open("table", attributes_of(class_of(table.rules), {.points = table.points})).raw("\n");
  put_head(m, table);
  for (const paper::Group& group : table.groups) put_group(m, table, group);
  m.close().close().raw("\n");
}

void put_blocks(Markup& m, const paper::Blocks& blocks);

void put_beside(Markup& m, const paper::Beside& beside) {
  const std::string columns =
      px(100 * beside.left_share) + "fr " + px(100 - 100 * beside.left_share) + "fr";
  m.open("div", {{"class", "beside"}, {"style", "grid-template-columns: " + columns}});
  for (const paper::Blocks* side : {&beside.left, &beside.right}) {
    m.open("div");
    put_blocks(m, *side);
    m.close();
  }
  m.close().raw("\n");
}

struct BlockWriter {
  Markup& m;
  void operator()(const paper::Text& text) const { put_text(m, text); }
  void operator()(const paper::Table& table) const { put_table(m, table); }
  void operator()(const paper::Drawing& drawing) const {
    const double wide = drawing.highest * drawing.width / drawing.height;
    put_drawing(m, drawing, {{"style", "width: " + px(wide) + "mm"}});
  }
  void operator()(const paper::Beside& beside) const { put_beside(m, beside); }
  void operator()(const paper::NewPage&) const { m.single("hr").raw("\n"); }
};

bool is_item(const paper::Block& block) {
  const auto* text = std::get_if<paper::Text>(&block.is);
  return text != nullptr && text->role == paper::Role::item;
}

// Items that follow each other are one list.
void put_blocks(Markup& m, const paper::Blocks& blocks) {
  bool in_list = false;
  for (const paper::Block& block : blocks) {
    if (is_item(block) != in_list) {
      if (in_list)
        m.close();
      else
        m.open("ul");
      in_list = !in_list;
    }
    std::visit(BlockWriter{m}, block.is);
  }
  if (in_list) m.close();
}

std::string page_rules(const paper::Paper& paper) {
  const std::string look = "; font: 8pt \"Liberation Sans\", Arial, sans-serif; color: " +
                           css_of(paper::rgb_of(paper::Ink::grey)) + " }";
  const double width =
      paper.letter ? (paper.landscape ? 279.4 : 215.9) : (paper.landscape ? 297 : 210);
  return std::string("\n@page { size: ") + (paper.letter ? "letter" : "A4") +
         (paper.landscape ? " landscape" : "") + "; margin: " + px(paper.margin) + "mm " +
         px(paper.margin) + "mm " + px(paper.margin + 3) +
         "mm; @bottom-right { content: " + css_content(paper.count, true) + look +
         " @bottom-left { content: " + css_content(paper.foot) + look +
         " }\nhtml { font-size: " + px(paper.points) +
         "pt; }\nbody { max-width: " + px(width - 2 * paper.margin) + "mm; }";
}

// What the style and the classes call the colours.
std::string palette_rules() {
  std::string rules = "\n:root { --ink: " + css_of(paper::rgb_of(paper::Colour::ink)) +
                      "; --grey: " + css_of(paper::rgb_of(paper::Ink::grey)) +
                      "; --line: " + css_of(paper::line_rgb) + "; }\n";
  for (const paper::Ink ink : {paper::Ink::grey, paper::Ink::red})
    rules += std::string(".") + class_of(ink) + " { color: " + css_of(paper::rgb_of(ink)) + "; } ";
  for (const paper::Colour ground :
       {paper::Colour::green, paper::Colour::blue, paper::Colour::yellow, paper::Colour::red,
        paper::Colour::black, paper::Colour::white, paper::Colour::shade})
    rules += std::string(".") + class_of(ground) + " { background: " + fill_of(ground) + "; } ";
  for (const paper::Colour fill :
       {paper::Colour::none, paper::Colour::body, paper::Colour::cut, paper::Colour::white})
    rules += std::string(".fill-") + paper::name_of(fill) + " { fill: " + fill_of(fill) + "; } ";
  rules.pop_back();
  return rules;
}

// As an outline, which lets what it lies under be read.
void put_across(Markup& m, const std::string& text) {
  if (text.empty()) return;
  m.open("svg", {{"class", "across"}, {"viewBox", "0 0 210 297"}, {"aria-hidden", "true"}});
  m.put("text", text,
        {{"x", "105"},
         {"y", "160"},
         {"transform", "rotate(-54 105 148)"},
         {"text-anchor", "middle"},
         {"textLength", "250"},
         {"font-size", "40"},
         {"font-weight", "700"},
         {"style", "fill: none; stroke: #c9b8b8; stroke-width: 0.6"}});
  m.close().raw("\n");
}

}  // namespace

std::string paper_page(const paper::Paper& paper) {
  Markup m;
  begin_page(m, paper.language, paper.title, page_rules(paper) + palette_rules() + paper_style);
  m.raw("\n");
  put_across(m, paper.across);
  m.open("main");
  put_blocks(m, paper.blocks);
  m.close().close().close().raw("\n");
  return m.take();
}

}  // namespace turnwright
