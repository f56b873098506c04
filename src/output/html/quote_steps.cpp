// SPDX-License-Identifier: MIT
// Operations step by step, and both times of a piece.
#include <algorithm>
#include <array>

#include "drawing/operation_drawing.hpp"
#include "formatting.hpp"
#include "html/charts.hpp"
#include "html/drawing_svg.hpp"
#include "html/quote_page.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

// Colours by what a minute is, the same in every chart.
enum Colour { cutting, moving, tool_change, handling, beside, attending };

// Of the method's number among those that are used, so that no two are called alike.
std::string group_of(const Operation& operation, std::size_t method) {
  return (method > 0 ? "m" + std::to_string(method + 1) : "") + "op" +
         std::to_string(operation.number);
}
std::string nth(std::size_t k) { return "n" + std::to_string(k); }

Message about(const Operation& operation, const Step& s, const StepTime& t, const Words& words) {
  std::vector<Place> places{{"step", step_label(operation, s)},
                            {"work", word_of(s.kind)},
                            {"minutes", minutes_text(t.machine, words)},
                            {"removed", measure(s.removed, unit::cm3, 3)}};
  if (s.given) return {"page.step-as-given", std::move(places)};
  places.emplace_back("tool", s.tool);
  places.emplace_back(
      "speed", speed_text(speed_range(t.segments), words) + " " + words.unit(unit::m_per_min));
  places.emplace_back("feed", measure(s.used.feed, unit::mm_per_rev, 3));
  places.emplace_back("depth", measure(s.used.depth, unit::mm, 3));
  places.emplace_back("passes", pass_count(passes_of(s).size()));
  return {"page.step", std::move(places)};
}

void draw_one_step(PageWriter& page, const Job& job, const Operation& operation,
                   const OperationTime& time, std::size_t k) {
  Markup& m = page.markup();
  const Step& s = operation.steps[k];
  m.open("figure", {{"class", nth(k + 1)}});
  put_picture(m, step_drawing(job, operation, k, page.words()));
  m.open("figcaption");
  page.paragraph(about(operation, s, time.steps[k], page.words()));
  if (!s.why.empty()) page.note(s.why);
  for (const LimitCheck& l : s.limits)
    if (l.binding) page.note({"page.limit", {{"limit", limit_label(l)}}});
  m.close().close().raw("\n");
}

void choice(PageWriter& page, const std::string& group, const std::string& id, std::size_t k,
            const std::string& label) {
  Markup& m = page.markup();
  Markup::Attributes radio{{"type", "radio"}, {"name", group}, {"id", id}, {"class", nth(k)}};
  if (k == 0) radio.emplace_back("checked", "");
  m.single("input", radio);
  m.put("label", label, {{"for", id}});
}

// The operation as a whole, then its steps.
void choices(PageWriter& page, const Operation& operation, const std::string& group) {
  Markup& m = page.markup();
  m.open("div", {{"class", "choices"}});
  choice(page, group, group + "all", 0, page.words()("page.whole-operation"));
  for (std::size_t k = 0; k < operation.steps.size(); ++k) {
    const Step& step = operation.steps[k];
    choice(page, group, group + "step" + std::to_string(step.number), k + 1,
           step_label(operation, step) + " " + page.words()(word_of(step.kind)));
  }
  m.close();
}

void draw_operation(PageWriter& page, const Job& job, const Operation& operation,
                    const OperationTime& time, std::size_t method) {
  Markup& m = page.markup();
  const std::string group = group_of(operation, method);
  m.open("fieldset", {{"class", "step"}, {"id", group}});
  m.put("legend", page.words()({operation.from_left ? "page.operation-turned" : "page.operation",
                                {{"op", operation_label(operation)},
                                 {"clamping", clamping_label(operation)}}}));
  if (!operation.why.empty()) page.note(operation.why);
  choices(page, operation, group);
  m.open("figure", {{"class", nth(0)}});
  put_picture(m, operation_drawing(job, operation, page.words()));
  m.close();
  for (std::size_t k = 0; k < operation.steps.size(); ++k)
    draw_one_step(page, job, operation, time, k);
  m.close().raw("\n");
}

class BarPieces {
 public:
  BarPieces(Bar& bar, const Words& words) : bar_(bar), words_(words) {}
  void add(Time time, Colour colour, const Message& what, bool hatched = false) {
    if (time.si > 0) bar_.pieces.push_back({in(time, unit::min), colour, words_(what), hatched});
  }

 private:
  Bar& bar_;
  const Words& words_;
};

Message part_of_step(const char* id, const Operation& operation, const Step& step) {
  return {id, {{"step", step_label(operation, step)}, {"work", word_of(step.kind)}}};
}

Bar machine_bar(const Operation& operation, const OperationTime& t, const Words& words) {
  Bar bar{words({"page.machine-bar", {{"op", operation_label(operation)}}}), {}};
  BarPieces list(bar, words);
  for (const ElementTime& e : t.elements)
    if (e.stops_machine()) list.add(e.machine, handling, word_of(e));
  for (std::size_t k = 0; k < t.steps.size(); ++k) {
    const StepTime& s = t.steps[k];
    const Step& step = operation.steps[k];
    list.add(s.tool_change + s.speed_change + s.edge_change, tool_change,
             part_of_step("page.changes-of", operation, step));
    list.add(s.cutting, cutting, part_of_step("page.cutting-of", operation, step));
    list.add(s.moving + s.trial_cuts + s.given, moving,
             part_of_step("page.moving-of", operation, step));
  }
  return bar;
}

Bar person_bar(const Operation& operation, const OperationTime& t, const Words& words) {
  Bar bar{words({"page.operator-bar", {{"op", operation_label(operation)}}}), {}};
  BarPieces list(bar, words);
  Time known(0.0);
  for (const ElementTime& e : t.elements) {
    if (!e.stops_machine()) continue;
    known += e.machine;
    list.add(e.machine, handling, word_of(e));
  }
  for (const ElementTime& e : t.elements) {
    if (e.stops_machine()) continue;
    known += e.person;
    list.add(e.person, beside, {"page.beside", {{"element", word_of(e)}}});
  }
  list.add(t.person - known, attending, "page.attending", true);
  return bar;
}

void bars(PageWriter& page, const Quote& q) {
  const Words& words = page.words();
  std::vector<Bar> list;
  for (std::size_t i = 0; i < q.route.operations.size(); ++i) {
    list.push_back(machine_bar(q.route.operations[i], q.times.operations[i], words));
    list.push_back(person_bar(q.route.operations[i], q.times.operations[i], words));
  }
  page.markup().open("figure");
  draw_bars(page, list, "page.time-bars", words.unit(unit::min));
  page.markup().open("figcaption");
  page.key(handling, words("page.key-handling"));
  page.key(cutting, words("page.key-cutting"));
  page.key(moving, words("page.key-moving"));
  page.key(tool_change, words("page.key-changes"));
  page.key(beside, words("text.beside-cutting"));
  page.key(attending, words("page.key-attending"));
  page.markup().close().close();
}

// Of the columns that some step of the operation has a time in.
struct TimeColumn {
  const char* heading;
  Time (*of)(const StepTime&);
};
constexpr std::array time_columns{
    TimeColumn{"page.cutting", [](const StepTime& t) { return t.cutting; }},
    TimeColumn{"page.moving", [](const StepTime& t) { return t.moving; }},
    TimeColumn{"page.changes",
               [](const StepTime& t) { return t.tool_change + t.speed_change + t.edge_change; }},
    TimeColumn{"page.trial-cuts", [](const StepTime& t) { return t.trial_cuts + t.given; }},
    TimeColumn{"page.machine", [](const StepTime& t) { return t.machine; }}};

Table step_table(const Operation& operation, const OperationTime& time, const Words& words) {
  std::vector<const TimeColumn*> shown;
  for (const TimeColumn& column : time_columns)
    if (std::any_of(time.steps.begin(), time.steps.end(),
                    [&](const StepTime& t) { return !is_shown_as_zero(column.of(t)); }))
      shown.push_back(&column);
  Table table;
  table.columns = {words_column("text.step"), words_column("text.work"), words_column("text.tool")};
  for (const TimeColumn* column : shown) table.columns.push_back(number_column(column->heading));
  for (std::size_t k = 0; k < operation.steps.size(); ++k) {
    const Step& s = operation.steps[k];
    Cells cells{step_label(operation, s), words(word_of(s.kind)), words.name(s.tool)};
    for (const TimeColumn* column : shown)
      cells.push_back(is_shown_as_zero(column->of(time.steps[k]))
                          ? ""
                          : minutes_text(column->of(time.steps[k]), words));
    table.add(std::move(cells));
  }
  return table;
}

// The elements of a kind in one line: "machine stopped, min: load and unload 0.58, door 0.08".
void elements(PageWriter& page, const OperationTime& time, const char* line,
              bool (*of)(const ElementTime&)) {
  const Words& words = page.words();
  Messages list;
  for (const ElementTime& e : time.elements)
    if (of(e) && !is_shown_as_zero(e.shown()))
      list.push_back(
          {"page.element", {{"element", word_of(e)}, {"minutes", minutes_text(e.shown(), words)}}});
  if (!list.empty()) page.note({line, {{"list", words.joined(list, ", ")}}});
}

void draw_times_of(PageWriter& page, const Quote& q) {
  const Words& words = page.words();
  bars(page, q);
  for (std::size_t i = 0; i < q.route.operations.size(); ++i) {
    const Operation& operation = q.route.operations[i];
    const OperationTime& time = q.times.operations[i];
    page.heading(3, {"page.operation-times",
                     {{"op", operation_label(operation)},
                      {"cycle", minutes_text(time.machine, words)},
                      {"operator", minutes_text(time.person, words)},
                      {"setup", minutes_text(time.setup, words)}}});
    page.table(step_table(operation, time, words), "page.times");
    elements(page, time, "page.elements-stopped",
             [](const ElementTime& e) { return e.stops_machine(); });
    elements(page, time, "page.elements-beside",
             [](const ElementTime& e) { return e.internal && !e.away; });
    elements(page, time, "page.elements-away", [](const ElementTime& e) { return e.away; });
  }
  page.note({"page.times-mean",
             {{"cycle", minutes_text(q.times.machine_each, words)},
              {"operator", minutes_text(q.times.person_each, words)},
              {"setup", minutes_text(q.times.setup, words)}}});
}

}  // namespace

std::string step_rules(const PartQuote& part) {
  std::size_t most = 0;
  for (const UsedMethod& used : used_in(part))
    for (const Operation& operation : used.quote->route.operations)
      most = std::max(most, operation.steps.size());
  std::string rules = "@media screen { .step figure { display: none; }\n";
  for (std::size_t k = 0; k <= most; ++k)
    rules += (k > 0 ? ",\n" : "") + (".step:has(input." + nth(k)) + ":checked) figure." + nth(k);
  return rules + " { display: block; } }\n";
}

void draw_steps(PageWriter& page, const QuotePage& of) {
  const std::vector<UsedMethod> used = used_in(of.part);
  for (std::size_t m = 0; m < used.size(); ++m) {
    head_of_method(page, used[m], used.size());
    const Quote& q = *used[m].quote;
    for (std::size_t i = 0; i < q.route.operations.size(); ++i)
      draw_operation(page, q.route.job, q.route.operations[i], q.times.operations[i], m);
  }
  page.paragraph("page.arrow-keys", "soft on-screen");
}

void draw_times(PageWriter& page, const QuotePage& of) {
  const std::vector<UsedMethod> all = used_in(of.part);
  for (const UsedMethod& used : all) {
    head_of_method(page, used, all.size());
    draw_times_of(page, *used.quote);
  }
  page.paragraph("text.beside-adds-nothing", "soft on-screen");
}

}  // namespace turnwright
