// SPDX-License-Identifier: MIT
// The speed card as one page to hang at the lathe, A4 or Letter.
#include "formatting.hpp"
#include "html/page_writer.hpp"
#include "turnwright/output/bench.hpp"
#include "view/card_view.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

// Rows that a page takes in each size of type.
constexpr std::size_t large_type_to = 14, middle_type_to = 26;

constexpr const char* card_style = R"css(
html { font: 9pt/1.25 "Liberation Sans", Arial, sans-serif; color: #111; background: #fff; }
body { max-width: 277mm; margin: 8mm auto; padding: 0 4mm; }
main.middle { font-size: 7.6pt; } main.small { font-size: 6.8pt; line-height: 1.06; }
h1 { font-size: 17pt; margin: 0 0 1mm; } h2 { font-size: 1.15em; margin: 2.5mm 0 1mm; }
p { margin: 0.6mm 0; } ul { margin: 1mm 0 0; padding-left: 5mm; columns: 2; column-gap: 8mm; } li { break-inside: avoid; }
.wide { overflow-x: auto; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { text-align: right; padding: 0.35mm 1.3mm; border-bottom: 0.15mm solid #b9b9b9; white-space: nowrap; }
th { border-bottom: 0.4mm solid #111; font-weight: 600; } .left { text-align: left; }
tr.material td { text-align: left; font-weight: 700; background: #ececec; border-top: 0.3mm solid #111; }
td.off { font-style: italic; }
.green { background: #cdeccd; } .blue { background: #cfe0f7; } .yellow { background: #fbf0b2; }
.red { background: #f8cfcb; } .black { background: #d6d6d6; } .white { background: #fff; }
.shop { float: right; margin-top: -9mm; }
.foot { margin-top: 2mm; font-size: 0.85em; color: #333; }
td, tr { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
@media screen and (max-width: 700px) { .foot, p, li { overflow-wrap: anywhere; } ul { columns: 1; } .shop { float: none; margin: 0; } }
@media print { body { margin: 0; padding: 0; max-width: none; } .wide { overflow: visible; } }
)css";

const char* type_size(const SpeedCard& card) {
  const std::size_t rows = card.rows.size() + turning_groups(card).size();
  return rows <= large_type_to ? "large" : rows <= middle_type_to ? "middle" : "small";
}

void head_cell(Markup& m, const std::string& text, bool left = false) {
  m.put("th", text, left ? Markup::Attributes{{"class", "left"}} : Markup::Attributes{});
}
void left_cell(Markup& m, const std::string& text) { m.put("td", text, {{"class", "left"}}); }

void cell(Markup& m, const SpeedCard& card, const CardCell& c, const Words& words) {
  std::string kind = c.off_band ? "off" : "";
  if (c.possible && c.range >= 0)
    kind += " " + card.machine.lever_ranges[static_cast<std::size_t>(c.range)].colour;
  m.put("td", cell_text(c, words),
        kind.empty() ? Markup::Attributes{} : Markup::Attributes{{"class", kind}});
}

void turning_head(Markup& m, const SpeedCard& card, const Words& words) {
  m.open("thead").open("tr");
  head_cell(m, words.heading("text.work"), true);
  head_cell(m, words.heading("text.tool"), true);
  head_cell(m, words.heading({"text.speed", {{"unit", words.unit(unit::m_per_min)}}}));
  head_cell(m, words.heading({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}));
  head_cell(m, words.heading({"text.depth", {{"unit", words.unit(unit::mm)}}}));
  if (card.machine.manual())
    for (const Length d : card.diameters) head_cell(m, length_text(d, words, 4));
  head_cell(m, words.heading("card.source-head"));
  m.close().close();
}

void turning_row(Markup& m, const SpeedCard& card, const CardRow& row, const Words& words) {
  m.open("tr");
  left_cell(m, words(work_word(row.work)));
  left_cell(m, words.name(row.tool->name));
  m.put("td", speed_number(row.surface_speed, words)).put("td", feed_text(row, words));
  m.put("td", row.depth.si > 0 ? length_number(row.depth, words, 2) : "");
  if (card.machine.manual())
    for (const CardCell& c : row.cells) cell(m, card, c, words);
  m.put("td",
        "[" + words.whole(static_cast<std::int64_t>(source_number(sources_of(card), row))) + "]");
  m.close();
}

void turning(PageWriter& page, const SpeedCard& card) {
  Markup& m = page.markup();
  const Words& words = page.words();
  const std::string columns =
      std::to_string(6 + (card.machine.manual() ? card.diameters.size() : 0));
  page.begin_wide({"card.title", {{"machine", card.machine.name}}});
  m.open("table");
  turning_head(m, card, words);
  m.open("tbody");
  for (const CardGroup& group : turning_groups(card)) {
    m.open("tr", {{"class", "material"}})
        .put("td", words.name(group.material->name), {{"colspan", columns}})
        .close();
    for (const CardRow* row : group.rows) turning_row(m, card, *row, words);
  }
  m.close().close().close();
}

void drilling(PageWriter& page, const SpeedCard& card) {
  Markup& m = page.markup();
  const Words& words = page.words();
  const auto rows = drilling_rows(card);
  if (rows.empty()) return;
  page.heading(2, {"card.drilling", {{"unit", words.unit(unit::mm)}}});
  page.begin_wide("card.material");
  m.open("table").open("thead").open("tr");
  head_cell(m, words.heading("card.material"), true);
  head_cell(m, words.heading("text.tool"), true);
  head_cell(m, words.heading({"text.feed", {{"unit", words.unit(unit::mm_per_rev)}}}));
  for (const Length d : card.drills) head_cell(m, length_text(d, words, 4));
  m.close().close().open("tbody");
  for (const CardRow* row : rows) {
    m.open("tr");
    left_cell(m, words.name(row->material->name));
    left_cell(m, words.name(row->tool->name));
    m.put("td", feed_text(*row, words));
    for (const CardCell& c : row->cells) cell(m, card, c, words);
    m.close();
  }
  m.close().close().close();
}

void notes(PageWriter& page, const SpeedCard& card) {
  page.heading(2, "card.notes");
  page.list(card_notes(card));
  const auto sources = sources_of(card);
  for (std::size_t n = 1; n <= sources.size(); ++n) page.paragraph(source_line(sources, n), "foot");
}

}  // namespace

std::string card_page(const SpeedCard& card, const Words& words) {
  PageWriter page(words);
  const Message title{"card.title", {{"machine", card.machine.name}}};
  const std::string paper = words.letter() ? "Letter" : "A4";
  page.begin(words(title),
             card_style + std::string("@page { size: ") + paper + " landscape; margin: 9mm; }\n");
  page.markup().open("main", {{"class", type_size(card)}});
  page.heading(1, title);
  page.paragraph(card.machine.manual()
                     ? Message{"card.how-manual", {{"unit", words.unit(unit::mm)}}}
                     : Message{"card.how-cnc"});
  if (const Message shop = card_shop(card); !shop.empty()) page.paragraph(shop, "shop");
  turning(page, card);
  drilling(page, card);
  notes(page, card);
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
