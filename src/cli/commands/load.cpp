// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "command.hpp"
#include "files.hpp"
#include "list_reader.hpp"
#include "outputs.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/output/workbook.hpp"
#include "week_inputs.hpp"
#include "what_if.hpp"

namespace turnwright::cli {
namespace {

void put_week(const Session& session, const Week& week, const PlannedWeek& p) {
  const Options& o = session.options;
  Outputs outputs(session, false);
  const std::string& to = o.output;
  const FileFormat format = format_of(to);
  const WeekShown shown{o.weeks};
  if (format == FileFormat::workbook)
    outputs.put_workbook(to, [&](const std::string& temporary) {
      write_week_workbook(week, p.problem, p.loads, p.plan, session.words, temporary, shown);
    });
  else if (format == FileFormat::page)
    outputs.put(to, week_page(week, p.problem, p.loads, p.plan, session.words, shown));
  else if (format == FileFormat::pdf)
    outputs.put_paper(to, week_lists_paper(week, p.problem, p.loads, p.plan, session.words, shown));
  else if (format == FileFormat::table)
    outputs.put(to, week_table(week, p.problem, p.plan));
  else if (format == FileFormat::calendar)
    outputs.put(to,
                week_calendar(week, p.problem, p.loads, p.plan, session.words,
                              o.operations ? CalendarEvents::operations : CalendarEvents::orders));
  else if (o.json || format == FileFormat::json)
    outputs.put_json(to, week_json(week, p.problem, p.loads, p.plan));
  else
    outputs.put(to,
                week_text(week, p.problem, p.loads, p.plan, session.words, {o.why, o.full}, shown));
}

// A row that is no order of the week, with what is wrong with it.
LeftOut left_out(const ReadOrders::Row& row) {
  LeftOut left{row.number, std::nullopt, {}, true};
  for (const Problem& problem : row.problems) left.why.push_back(placed_reason(problem));
  return left;
}

// A plan, with what is to be said of it; nothing: there is nothing to plan.
std::optional<PlannedWeek> planned_of(const Session& session, const WeekInputs& inputs,
                                      const std::vector<PostedRun>* like = nullptr) {
  Planning planning = inputs.planning(session);
  planning.like = like;
  PlannedWeek planned = planned_week(inputs.week, planning);
  session.print(planned.problems);
  session.print(planned.doubts);
  for (const ReadOrders& list : inputs.lists)
    for (const ReadOrders::Row& row : list.rows)
      if (!row.problems.empty()) planned.problem.left_out.push_back(left_out(row));
  const std::vector<WeekOrder>& orders = inputs.week.orders;
  const auto held = static_cast<std::size_t>(std::count_if(
      orders.begin(), orders.end(), [](const WeekOrder& order) { return !order.hold.empty(); }));
  const auto in_plan = static_cast<std::size_t>(planned.orders);
  const std::size_t all = orders.size() + inputs.rows_refused();
  if (in_plan + held < all)
    session.note({"cli.orders-left-out", {{"n", all - held - in_plan}, {"all", all}}});
  if (in_plan > 0) return planned;
  session.note({"cli.nothing-to-plan", {{"path", inputs.week.file}}});
  return std::nullopt;
}

// Beside an answer that is not read here; the text says it itself.
void say_changes(const Session& session, const Messages& changes) {
  if (session.options.output.empty() && !session.options.json) return;
  session.note("weekpage.changes");
  for (const Message& change : changes)
    session.streams.err << "  " << session.words(change) << "\n";
  if (changes.empty()) session.streams.err << "  " << session.words("weekpage.no-changes") << "\n";
}

// Rows of lists that are not in the plan, beside the answer: as lists that are read again.
void put_refused(const Session& session, const WeekInputs& inputs, const PlannedWeek& planned) {
  const std::string& to = session.options.output;
  if (to.empty()) return;
  for (const ReadOrders& list : inputs.lists) {
    const std::string text = again_list(session, list, inputs.week, planned);
    const std::string stem = std::filesystem::path(list.path).stem().string();
    const std::string path = rejected_path(
        inputs.lists.size() == 1 ? to : to.substr(0, to.rfind('.')) + "." + stem + ".");
    if (text.empty() || same_file(path, list.path)) continue;
    write_text(path, text);
    session.note({"cli.written-refused", {{"path", path}}});
  }
}

// Two weeks side by side, or one and what it would be by --without and --down.
Exit side_by_side(const Session& session) {
  const Options& o = session.options;
  if (!o.output.empty() && format_of(o.output) != FileFormat::json &&
      format_of(o.output) != FileFormat::text)
    return session.wrong({"cli.sides-output", {{"path", o.output}}});
  const bool files = o.operands.size() == 2;
  const auto one = week_inputs(session, o.operands.front());
  auto other = files ? week_inputs(session, o.operands.back()) : one;
  if (!one || !other) return Exit::input_wrong;
  if (const Message fault = change_week(o, other->week); !fault.empty())
    return session.wrong(fault);
  const auto planned = planned_of(session, *one);
  if (!planned) return Exit::input_wrong;
  // What the change does is told from what another search finds.
  const std::vector<PostedRun> as_it_is =
      as_posted(one->week, planned->problem, planned->plan.plan);
  const auto changed = planned_of(session, *other, &as_it_is);
  if (!changed) return Exit::input_wrong;
  const bool json = o.json || format_of(o.output) == FileFormat::json;
  const auto name = [&](const WeekInputs& inputs, const char* id) {
    if (files) return inputs.week.file;
    return json ? session.words(id) : session.words.heading(id);
  };
  const WeekSide a{name(*one, "weekpage.as-it-is"), one->week, planned->problem, planned->plan};
  const WeekSide b{name(*other, "weekpage.what-if"), other->week, changed->problem, changed->plan};
  Outputs outputs(session, false);
  if (json)
    outputs.put_json(o.output, weeks_json(a, b));
  else
    outputs.put(o.output, weeks_text(a, b, session.words));
  return changed->holds() ? Exit::done : Exit::answer_is_no;
}

}  // namespace

Exit load(Session& session) {
  const Options& o = session.options;
  const bool what_if = asks_what_if(o) || o.operands.size() == 2;
  if (o.operands.empty() || o.operands.size() > 2) return session.wrong("cli.which-week");
  if (const Message fault =
          output_fault(session, {".xlsx", ".html", ".pdf", ".csv", ".ics", ".json", ".txt"}, false);
      !fault.empty())
    return session.wrong(fault);
  if (!read_shop_files(session)) return Exit::input_wrong;
  if (what_if) return side_by_side(session);
  const auto inputs = week_inputs(session, o.operands[0]);
  if (!inputs) return Exit::input_wrong;
  const auto planned = planned_of(session, *inputs);
  if (!planned) return Exit::input_wrong;
  if (planned->plan.changes) say_changes(session, *planned->plan.changes);
  put_week(session, inputs->week, *planned);
  put_refused(session, *inputs, *planned);
  return planned->holds() && inputs->rows_refused() == 0 ? Exit::done : Exit::answer_is_no;
}

}  // namespace turnwright::cli
