// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "command.hpp"
#include "outputs.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/output/workbook.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {
namespace {

void put_week(const Session& session, const Week& week, const PlannedWeek& p) {
  const Options& o = session.options;
  Outputs outputs(session, false);
  const std::string& to = o.output;
  const FileFormat format = format_of(to);
  if (format == FileFormat::workbook)
    outputs.put_workbook(to, [&](const std::string& temporary) {
      write_week_workbook(week, p.problem, p.loads, p.plan, session.words, temporary);
    });
  else if (format == FileFormat::page)
    outputs.put(to, week_page(week, p.problem, p.loads, p.plan, session.words));
  else if (format == FileFormat::table)
    outputs.put(to, week_table(week, p.problem, p.plan));
  else if (format == FileFormat::calendar)
    outputs.put(to, week_calendar(week, p.problem, p.plan, session.words));
  else if (o.json || format == FileFormat::json)
    outputs.put_json(to, week_json(week, p.problem, p.loads, p.plan));
  else
    outputs.put(to, week_text(week, p.problem, p.loads, p.plan, session.words, {o.why}));
}

}  // namespace

Exit load(Session& session) {
  const Options& o = session.options;
  if (o.operands.size() != 1) return session.wrong("cli.which-week");
  if (const Message fault =
          output_fault(session, {".xlsx", ".html", ".csv", ".ics", ".json", ".txt"}, false);
      !fault.empty())
    return session.wrong(fault);
  if (!read_shop_files(session)) return Exit::input_wrong;
  const auto inputs = week_inputs(session, o.operands[0]);
  if (!inputs) return Exit::input_wrong;
  const PlannedWeek planned = planned_week(inputs->week, inputs->planning(session));
  session.print(planned.problems);
  const std::size_t all = inputs->week.orders.size();
  const auto in_plan = static_cast<std::size_t>(planned.orders);
  const auto held = static_cast<std::size_t>(
      std::count_if(inputs->week.orders.begin(), inputs->week.orders.end(),
                    [](const WeekOrder& order) { return !order.hold.empty(); }));
  if (in_plan + held < all)
    session.note({"cli.orders-left-out", {{"n", all - held - in_plan}, {"all", all}}});
  if (in_plan == 0) {
    session.note({"cli.nothing-to-plan", {{"path", inputs->week.file}}});
    return Exit::input_wrong;
  }
  if (inputs->posted) {
    session.note("cli.changes-heading");
    for (const Message& change : planned.changes)
      session.streams.err << "  " << session.words(change) << "\n";
    if (planned.changes.empty()) session.note("cli.no-changes");
  }
  put_week(session, inputs->week, planned);
  return planned.holds() ? Exit::done : Exit::answer_is_no;
}

}  // namespace turnwright::cli
