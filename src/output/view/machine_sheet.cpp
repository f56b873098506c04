// SPDX-License-Identifier: MIT
#include "view/machine_sheet.hpp"

#include <algorithm>
#include <initializer_list>

#include "formatting.hpp"
#include "view/week_people.hpp"

namespace turnwright {
namespace {

std::string joined(std::initializer_list<std::string> parts, const char* between = ", ") {
  std::string text;
  for (const std::string& part : parts)
    if (!part.empty()) text += (text.empty() ? "" : between) + part;
  return text;
}

// How it is held; what it begins with.
std::string held_text(const SheetRow& row) {
  return joined({row.clamping, joined({row.material, row.stock})}, "; ");
}

std::string title_of(const OrderedPart& part) {
  return part.number + (part.number.empty() || part.name.empty() ? "" : " ") + part.name;
}

class SheetWriter {
 public:
  SheetWriter(const Week& week, const WeekProblem& problem, const WeekView& view,
              const Words& words)
      : week_(week), problem_(problem), view_(view), words_(words) {}

  SheetRow of_run(const RunView& v, const RunBefore& before) const {
    SheetRow row;
    row.run = &v;
    row.span = {v.run->setup_from, v.run->to};
    row.work = words_(v.posted);
    row.from = words_(moment_of(week_, row.span.from));
    row.to = words_(moment_of(week_, row.span.to));
    row.runs_from = words_(moment_of(week_, v.run->run_from));
    if (v.run->setup > 0) row.setup_min = words_.whole(v.run->setup);
    add_order(view_.orders[v.lot], row);
    add_tools(tools_to_load(problem_, *v.run, before), row);
    const OrderedPart& part = problem_.parts.at(problem_.orders[v.lot]);
    add_work(*v.run, part, row);
    row.part = words_.name(title_of(part));
    add_pieces(pieces_left(week_, problem_, v.run->operation), title_of(part), row);
    return row;
  }
  SheetRow of_downtime(const Downtime& down) const {
    SheetRow row;
    row.span = down.span;
    row.work = words_(downtime_label(down));
    row.from = words_(beginning_of(week_, row.span.from));
    row.to = words_(moment_of(week_, row.span.to));
    return row;
  }

 private:
  void add_order(const OrderView& order, SheetRow& row) const {
    row.customer = words_.name(order.order->customer);
    row.due = words_(day_of(order.order->due));
    if (order.late && order.fits) row.late = words_(order.lateness);
  }
  // What is still to be made of it.
  void add_pieces(const PiecesLeft& pieces, const std::string& part, SheetRow& row) const {
    std::vector<Place> places{{"n", pieces.left}, {"of", pieces.of}, {"part", part}};
    const bool all = pieces.left == pieces.of;
    row.pieces = all ? words_.whole(pieces.left) : words_({"weekpage.left-of", places});
    row.what = words_({all ? "weekpage.pieces-of" : "weekpage.pieces-left", std::move(places)});
  }
  void add_tools(const std::vector<std::string>& tools, SheetRow& row) const {
    if (tools.empty()) return;
    row.tools = names_text(tools, words_);
    row.load = words_({"weekpage.load-tools", {{"tools", verbatims(tools)}}});
  }
  void add_work(const PlannedRun& run, const OrderedPart& part, SheetRow& row) const {
    const OperationWork& work = operation_work(problem_, run);
    row.clamping = words_(work.clamping);
    if (work.stock.empty()) return;
    row.material = words_.name(part.material);
    row.stock = joined({words_(work.stock), words_(work.blank)});
  }

  const Week& week_;
  const WeekProblem& problem_;
  const WeekView& view_;
  const Words& words_;
};

// In the turret for good, and what the week or the work that it was booked for last says beside it.
std::string mounted_tools(const WeekProblem& problem, std::size_t machine, const Words& words) {
  std::vector<std::string> tools = problem.turrets[machine];
  for (const int key : problem.problem.machines[machine].mounted)
    if (const auto item = problem.items.find(key);
        item != problem.items.end() && item->second.kind == MountedKind::tool)
      tools.push_back(item->second.name);
  if (tools.empty()) return "";
  return words.heading({"weekpage.mounted", {{"tools", verbatims(tools)}}});
}

}  // namespace

Message downtime_label(const Downtime& down) {
  if (down.why.empty()) return "weekpage.down";
  return {"weekpage.down-for", {{"why", down.why}}};
}

std::vector<MachineSheet> machine_sheets(const Week& week, const WeekProblem& problem,
                                         const Plan& plan, const WeekView& view,
                                         const Words& words) {
  const SheetWriter writer(week, problem, view, words);
  const RunsBefore before = runs_before(problem.problem, plan);
  std::vector<MachineSheet> sheets;
  for (std::size_t m = 0; m < week.machines.size(); ++m) {
    MachineSheet sheet{words.name(week.machines[m].name),
                       mounted_tools(problem, m, words),
                       {},
                       words(beyond_line(week, view.shown, runs_on(plan, static_cast<int>(m))))};
    for (const RunView& v : view.runs[m])
      sheet.rows.push_back(writer.of_run(v, before.at(v.run->operation)));
    for (const Downtime& down : view.down[m]) sheet.rows.push_back(writer.of_downtime(down));
    std::stable_sort(
        sheet.rows.begin(), sheet.rows.end(),
        [](const SheetRow& a, const SheetRow& b) { return a.span.from < b.span.from; });
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

std::vector<const SheetRow*> rows_of(const MachineSheet& sheet, const DaysOfWeek& days) {
  std::vector<const SheetRow*> rows;
  for (const SheetRow& row : sheet.rows)
    if (days.has(row.span)) rows.push_back(&row);
  return rows;
}

Table sheet_table(const WeekView& view, const MachineSheet& sheet, const Words& words) {
  Table table;
  table.columns = {words_column("weekpage.work"),
                   words_column("weekpage.part"),
                   number_column("weekpage.pieces"),
                   words_column("weekpage.clamping"),
                   words_column("weekpage.tools-to-load"),
                   words_column("weekpage.setup-from"),
                   number_column("weekpage.setup-min"),
                   words_column("weekpage.runs-from"),
                   words_column("weekpage.to")};
  add_people_columns(view, table);
  for (const SheetRow& row : sheet.rows) {
    if (row.run == nullptr) {
      table.add({"", row.work, "", "", "", row.from, "", "", row.to});
      continue;
    }
    table.add({row.work, joined({row.part, row.customer}), row.pieces, held_text(row), row.tools,
               row.from, row.setup_min, row.runs_from, row.to});
    add_people_cells(view, *row.run, words, table.rows.back().cells);
  }
  return table;
}

Cells sheet_lines(const SheetRow& row) {
  Cells lines;
  for (std::string line : {joined({row.what, row.customer}), held_text(row), row.load})
    if (!line.empty()) lines.push_back(std::move(line));
  return lines;
}

}  // namespace turnwright
