// SPDX-License-Identifier: MIT
#include "html/quote_page.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "formatting.hpp"
#include "html/drawing_svg.hpp"
#include "html/page_style.hpp"
#include "turnwright/output/part_drawing.hpp"
#include "view/labels.hpp"
#include "view/sources.hpp"

namespace turnwright {
namespace {

void draw_material(PageWriter& page, const QuotePage& of) {
  page.markup().open("figure");
  put_picture(page.markup(), part_drawing(of.quote.route.job, page.words()));
  page.markup().close();
  const std::vector<UsedMethod> all = used_in(of.part);
  for (const UsedMethod& used : all) {
    head_of_method(page, used, all.size());
    const MaterialCost& material = used.quote->material;
    page.note({"page.blank",
               {{"blank", blank_label(used.quote->route.job.stock)},
                {"in", measure(material.blank, unit::kg, 3)},
                {"out", measure(material.finished, unit::kg, 3)}}});
    page.note(volume_check(used.quote->route.audit));
  }
}

void draw_questions(PageWriter& page, const QuotePage& of) {
  const std::vector<Question>& questions = of.methods.questions;
  if (const std::size_t n = of.quote.route.job.part.to_confirm.size(); n > 0)
    page.note({"text.and-to-confirm", {{"n", n}}});
  if (questions.empty()) return page.note("page.no-questions");
  const Words& words = page.words();
  Table table;
  table.columns = {words_column("text.question"), words_column("text.otherwise"),
                   number_column(question_price_heading(of.part)), number_column("text.change")};
  for (const Question& q : questions)
    table.add({words(q.ask), words(q.otherwise), words.money(q.each),
               signed_percent(q.change, words, 0)});
  page.table(table, "page.questions");
}

// What to mind in operations, each with all that it holds for.
struct OperationCaution {
  Message caution;
  Messages operations;
};
std::vector<OperationCaution> cautions_of(const Quote& q) {
  std::vector<OperationCaution> all;
  for (std::size_t i = 0; i < q.route.operations.size(); ++i)
    for (const Message& caution :
         operation_cautions(q.route.job, q.route.operations[i], q.times.operations[i])) {
      auto found = std::find_if(all.begin(), all.end(), [&](const OperationCaution& other) {
        return other.caution == caution;
      });
      if (found == all.end()) found = all.insert(all.end(), {caution, {}});
      const Message name = operation_label(q.route.operations[i]);
      if (found->operations.empty() || found->operations.back() != name)
        found->operations.push_back(name);
    }
  return all;
}

void draw_cautions(PageWriter& page, const QuotePage& of) {
  Messages list = of.quote.cautions;
  for (const UsedMethod& used : used_in(of.part))
    for (const OperationCaution& c : cautions_of(*used.quote)) {
      add_once(list, {"page.caution-of",
                      {{"op", verbatim(page.words().joined(c.operations, ", "))},
                       {"caution", c.caution}}});
    }
  list.insert(list.end(), usual_cautions().begin(), usual_cautions().end());
  page.list(list);
}

Table rate_table(const QuotePage& of, const Words& words) {
  Table table;
  table.columns = {words_column("page.rate"), words_column("page.value"),
                   words_column("page.source")};
  for (const RateUse& r : rates_used(of.part, of.shop, words))
    table.add({r.name, r.value, words(source_label(of.shop, r.source))});
  return table;
}

Table figure_table(const QuotePage& of, const Words& words) {
  Table table;
  table.columns = {words_column("page.figure"), words_column("page.formula"),
                   words_column("page.source")};
  for (const FigureUse& f : figures_used(of.quote.route.job.part, of.shop.policy))
    table.add({words.name(f.name), words.name(f.formula), words.name(f.source)});
  return table;
}

Table input_table(const QuotePage& of, const Words& words) {
  Table table;
  table.columns = {words_column("page.input"), words_column("page.digest")};
  for (const InputDigest& d : of.inputs) table.add({words.name(d.path), words.name(d.sha256)});
  table.add({words("page.version"), version});
  return table;
}

void draw_sources(PageWriter& page, const QuotePage& of) {
  page.begin_fold("page.sources-of");
  page.table(rate_table(of, page.words()), "page.rate");
  page.table(figure_table(of, page.words()), "page.figure");
  page.table(input_table(of, page.words()), "page.input");
  page.end_fold();
}

struct Section {
  const char* id;
  const char* heading;
  void (*draw)(PageWriter&, const QuotePage&);
};
constexpr std::array sections{Section{"part", "page.part", draw_material},
                              Section{"steps", "page.steps", draw_steps},
                              Section{"prices", "page.prices", draw_prices},
                              Section{"risks", "page.risks", draw_risks},
                              Section{"questions", "page.questions", draw_questions},
                              Section{"times", "page.times", draw_times},
                              Section{"money", "page.money", draw_money},
                              Section{"methods", "page.methods", draw_methods},
                              Section{"cautions", "page.cautions", draw_cautions},
                              Section{"sources", "page.sources", draw_sources}};

void draw_head(PageWriter& page, const QuotePage& of) {
  const Quote& q = of.quote;
  const Job& job = q.route.job;
  Markup& m = page.markup();
  m.open("header");
  page.warning("page.internal");
  m.put("h1", part_title(job.part, page.words()));
  for (const UsedMethod& used : used_in(of.part))
    page.note({"page.about",
               {{"material", job.material.name},
                {"stock", stock_label(used.quote->route.job)},
                {"machine", used.quote->route.machine.name},
                {"rate", used.quote->rate}}});
  if (!q.delivery.empty()) page.paragraph({"text.delivery", {{"delivery", q.delivery}}});
  for (const Message& u : q.unconfirmed) page.warning({"page.not-confirmed", {{"what", u}}});
  m.open("nav", {{"aria-label", page.words()("page.on-this-page")}});
  for (const Section& section : sections)
    m.put("a", page.words().heading(section.heading), {{"href", std::string("#") + section.id}});
  m.close().close().raw("\n");
}

}  // namespace

void head_of_method(PageWriter& page, const UsedMethod& used, std::size_t methods) {
  if (methods > 1) page.heading(3, verbatim(used.name));
}

std::string quote_page(const PartQuote& quoted, const Shop& shop,
                       const std::vector<InputDigest>& inputs, const Words& words) {
  const QuoteView view = view_of(quoted);
  const QuotePage of{quoted, quoted.quote, view, quoted.methods, shop, inputs};
  const Part& part = quoted.quote.route.job.part;
  PageWriter page(words);
  page.begin(words({"page.title", {{"number", part.number}, {"name", part.name}}}),
             page_style + step_rules(quoted));
  draw_head(page, of);
  page.markup().open("main");
  for (const Section& section : sections) {
    page.markup().open("section", {{"class", section.id}});
    page.heading(2, section.heading, section.id);
    section.draw(page, of);
    page.markup().close();
  }
  page.markup().close();
  return page.end();
}

}  // namespace turnwright
