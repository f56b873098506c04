// SPDX-License-Identifier: MIT
// Where each minute of a piece goes, the longest first.
#include <algorithm>

#include "formatting.hpp"
#include "text/explain.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

struct PieceTime {
  Message what, basis;
  Time time{};
  bool beside = false;  // the cutting
};

Message step_name(const Operation& operation, const Step& step) {
  return {
      "explain.step-name",
      {{"step", step_label(operation, step)}, {"work", word_of(step.kind)}, {"tool", step.tool}}};
}
Message element_name(const Operation& operation, const ElementTime& element) {
  return {"explain.element-name",
          {{"element", word_of(element)}, {"op", operation_label(operation)}}};
}

std::vector<PieceTime> shares_of(const Quote& q) {
  std::vector<PieceTime> list;
  for (std::size_t i = 0; i < q.route.operations.size(); ++i) {
    const Operation& operation = q.route.operations[i];
    const OperationTime& t = q.times.operations[i];
    for (std::size_t k = 0; k < operation.steps.size(); ++k)
      list.push_back({step_name(operation, operation.steps[k]), "explain.worked-out",
                      t.steps[k].machine, false});
    for (const ElementTime& e : t.elements)
      list.push_back({element_name(operation, e), word_of(e.basis), e.shown(), !e.stops_machine()});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const PieceTime& a, const PieceTime& b) { return a.time > b.time; });
  return list;
}

void setup(TextWriter& out, const Quote& q) {
  const Words& words = out.words();
  out.section({"explain.setup", {{"minutes", minutes_text(q.times.setup, words)}}});
  Table table;
  table.columns = {words_column(), number_column("text.minutes"), words_column("text.rests-on")};
  for (std::size_t i = 0; i < q.times.operations.size(); ++i)
    for (const ElementTime& e : q.times.operations[i].setup_elements)
      if (!is_shown_as_zero(e.machine))
        table.add({words(element_name(q.route.operations[i], e)), minutes_text(e.machine, words),
                   words(word_of(e.basis))});
  out.table(table);
}

}  // namespace

void explain_minutes(TextWriter& out, const Explained& what) {
  const Quote& q = what.quote;
  const Words& words = out.words();
  out.section({"explain.minutes",
               {{"machine", q.route.machine.name},
                {"cycle", minutes_text(q.times.machine_each, words)},
                {"operator", minutes_text(q.times.person_each, words)}}});
  Table table;
  table.columns = {words_column("explain.what"), number_column("text.minutes"),
                   number_column("explain.share"), words_column("text.rests-on")};
  for (const PieceTime& s : shares_of(q))
    if (!is_shown_as_zero(s.time))
      table.add({words(s.what), minutes_text(s.time, words),
                 s.beside ? words("explain.beside")
                          : percent_text((s.time / q.times.machine_each).si, words),
                 words(s.basis)});
  out.table(table);
  out.line("text.beside-adds-nothing");
  setup(out, q);
}

}  // namespace turnwright
