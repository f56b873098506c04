// SPDX-License-Identifier: MIT
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/week.hpp"
#include "view/week_view.hpp"

namespace turnwright {
namespace {

Message date_of(const Week& week, Minute t) {
  if (t == never) return {"weekpage.beyond-calendar", {{"to", week.to}}};
  return moment_of(week, t);
}

Table date_table(const Week& week, const Promise& p, const Words& words) {
  Table table;
  table.columns = {words_column(), words_column(), words_column()};
  auto add = [&](const char* what, Minute t, const Message& note = {}) {
    table.add({words(what), words(date_of(week, t)), words(note)});
  };
  add("weekpage.planned", p.planned);
  add("weekpage.confidence-50", p.p50);
  add("weekpage.confidence-80", p.p80, p.p80 == never ? Message() : "weekpage.date-to-promise");
  add("weekpage.confidence-95", p.p95);
  return table;
}

Message with_overtime(const Week& week, const Promise& p, const Sooner& s, const Words& words) {
  return {"weekpage.sooner",
          {{"date", date_of(week, s.p80)},
           {"hours", words.fixed(s.minutes / 60.0, 1)},
           {"machines", verbatims(p.machines)},
           {"until", moment_of(week, s.until)},
           {"cost", rounded(s.cost)}}};
}

}  // namespace

std::string promise_text(const Week& week, const Promise& p, const Words& words) {
  const WeekOrder& order = week.orders[p.order];
  TextWriter out(words);
  out.section({"weekpage.promise", {{"n", order.quantity}, {"part", order.part}}});
  out.table(date_table(week, p, words));
  out.line("weekpage.confidence-means");
  for (const Sooner& s : p.sooner) out.line(with_overtime(week, p, s, words));
  if (!p.bottleneck.empty()) out.line({"weekpage.bottleneck", {{"machine", p.bottleneck}}});
  out.lines(p.chain, 2);
  return out.take();
}

}  // namespace turnwright
