// SPDX-License-Identifier: MIT
// Load with live sums, orders, plan.
#include "turnwright/output/week.hpp"
#include "view/machine_sheet.hpp"
#include "view/week_people.hpp"
#include "xlsx/sheet_headings.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {
namespace {

enum SheetIndex { load_sheet, orders_sheet, plan_sheet };
constexpr int head_row = 3, first_row = 4;
constexpr int rows_per_machine = 3;  // by day: required, available, in the plan
// Hours that are as good as equal do not stand out.
constexpr const char* slack = "+0.05";
constexpr double a_minute = 1.0 / minutes_a_day;

namespace at {
enum Column { name, required, available, share, planned, first_day };
}

struct WeekBook {
  const Week& week;
  const WeekProblem& problem;
  const WeekView& view;
  const Words& words;
  Spreadsheet& book;

  double day(Date date) const {
    using namespace std::chrono;
    constexpr sys_days first = year(1899) / December / 30;
    return static_cast<double>((sys_days(date) - first).count());
  }
  double moment(Minute t) const { return day(week.from) + t / double(minutes_a_day); }
  // Midnight ends the day before, also for who sees the day alone.
  double end(Minute t) const { return moment(t) - (t % minutes_a_day == 0 ? a_minute : 0); }
  int last_day() const { return at::first_day + view.shown.days() - 1; }
  void title(int sheet, const Message& text) const {
    book.text(sheet, 0, 0, words(text), Look::title);
  }
};

void write_sum(const WeekBook& of, int row, int column, int row_of_days, double value) {
  const std::string formula = "=SUM(" + cell_name(row_of_days, at::first_day) + ":" +
                              cell_name(row_of_days, of.last_day()) + ")";
  of.book.plain_formula(load_sheet, row, column, formula, value, Look::number);
}

void write_days(const WeekBook& of, const LoadView& view, int row) {
  const MachineLoad& load = *view.load;
  for (int day = of.view.shown.first; day <= of.view.shown.last; ++day) {
    const int column = at::first_day + day - of.view.shown.first;
    const auto d = static_cast<std::size_t>(day);
    of.book.value(load_sheet, row, column, load.required[d], Look::input);
    of.book.value(load_sheet, row + 1, column, load.available[d], Look::input);
    of.book.value(load_sheet, row + 2, column, view.planned_on[d], Look::number);
    of.book.warn_above(load_sheet, row, column, "=" + cell_name(row + 1, column) + slack);
  }
}

// What each machine requires, has and is given in the plan: live sums of its days, which stand
// below.
void write_machine(const WeekBook& of, const LoadView& load, int row, int days_row) {
  of.book.text(load_sheet, row, at::name, of.words(load.load->title()), Look::label);
  of.book.text(load_sheet, days_row, at::name, of.words(load.load->title()), Look::label);
  of.book.text(load_sheet, days_row, at::planned, of.words("weekpage.required"), Look::note);
  of.book.text(load_sheet, days_row + 1, at::planned, of.words("weekpage.available"), Look::note);
  of.book.text(load_sheet, days_row + 2, at::planned, of.words("weekpage.planned-hours"),
               Look::note);
  write_days(of, load, days_row);
  write_sum(of, row, at::required, days_row, load.required);
  write_sum(of, row, at::available, days_row + 1, load.available);
  write_sum(of, row, at::planned, days_row + 2, load.planned);
  const std::string required = cell_name(row, at::required),
                    available = cell_name(row, at::available);
  const std::string formula = "=IF(" + available + ">0," + required + "/" + available + ",0)";
  of.book.plain_formula(load_sheet, row, at::share, formula, load.share, Look::percent);
}

void write_chart(const WeekBook& of, int row) {
  const int last = first_row + static_cast<int>(of.view.loads.size()) - 1;
  ColumnChart chart;
  chart.title = of.words("chart.hours");
  chart.y_axis = of.words("chart.hours-axis");
  for (const auto& [column, name] : {std::pair{at::required, "weekpage.required"},
                                     std::pair{at::available, "weekpage.available"},
                                     std::pair{at::planned, "weekpage.planned-hours"}})
    chart.series.push_back({of.words(name),
                            {},
                            {load_sheet, first_row, at::name, last, at::name},
                            {load_sheet, first_row, column, last, column}});
  of.book.chart(load_sheet, row, 0, chart);
}

// The days of all machines, below their sums.
void write_load(const WeekBook& of) {
  const auto date = [&](int day) { return days_after(of.week.from, day); };
  const DaysOfWeek& shown = of.view.shown;
  of.title(load_sheet,
           {"xlsx.load-title", {{"from", date(shown.first)}, {"to", date(shown.last)}}});
  of.book.text(load_sheet, 1, 0, of.words("xlsx.load-note"), Look::note);
  const std::vector<double> widths{24, 10, 10, 9, 12};
  of.book.widths(load_sheet, widths);
  write_headings(
      of.book, of.words, load_sheet, head_row,
      {{}, "weekpage.required", "weekpage.available", "weekpage.share", "weekpage.planned-hours"},
      widths);
  const int days_head = first_row + static_cast<int>(of.view.loads.size()) + 1;
  Messages headings{"weekpage.hours-a-day", {}, {}, {}, {}};
  for (int d = shown.first; d <= shown.last; ++d) headings.push_back(day_of(date(d)));
  write_headings(of.book, of.words, load_sheet, days_head, headings, widths);
  int row = first_row, days_row = days_head + 1;
  for (const LoadView& load : of.view.loads) {
    write_machine(of, load, row++, days_row);
    days_row += rows_per_machine;
  }
  if (!of.view.loads.empty()) write_chart(of, days_row + 1);
}

void write_order(const WeekBook& of, const OrderView& order, int row) {
  of.book.text(orders_sheet, row, 0, of.words(order.name));
  of.book.value(orders_sheet, row, 1, order.pieces, Look::whole);
  of.book.value(orders_sheet, row, 2, of.day(order.order->due), Look::day);
  if (order.fits)
    of.book.value(orders_sheet, row, 3, of.end(order.done), Look::moment);
  else
    of.book.text(orders_sheet, row, 3, of.words("weekpage.not-in-calendar"));
}

void write_flow(const WeekBook& of, const OrderView& order, int row) {
  const Waiting& w = order.waiting;
  int column = 5;
  if (order.fits) of.book.value(orders_sheet, row, column, order.days_in_work, Look::number);
  for (const double hours : {w.machine, w.pinned, w.people, w.material, w.outside})
    of.book.value(orders_sheet, row, ++column, hours, Look::number);
}

void write_lateness(const WeekBook& of, const OrderView& order, const WeekPlan& plan, int row) {
  constexpr int days = 4, why = 12;
  for (const LateReason& late : plan.late) {
    if (late.lot != order.lot) continue;
    if (order.fits) of.book.value(orders_sheet, row, days, late.days, Look::number);
    if (!late.chain.empty()) of.book.text(orders_sheet, row, why, of.words(late.chain.front()));
  }
}

// Sentences under the orders, with a heading.
void write_lines(const WeekBook& of, const char* heading, const Messages& lines, int& row) {
  if (lines.empty()) return;
  of.book.text(orders_sheet, ++row, 0, of.words.heading(heading), Look::label);
  for (const Message& line : lines) of.book.text(orders_sheet, ++row, 0, of.words(line));
  ++row;
}

void write_orders(const WeekBook& of, const WeekPlan& plan) {
  of.title(orders_sheet, "xlsx.orders-title");
  const std::vector<double> widths{14, 9, 16, 20, 11, 11, 11, 11, 11, 11, 11, 2, 60};
  of.book.widths(orders_sheet, widths);
  write_headings(
      of.book, of.words, orders_sheet, head_row,
      {"weekpage.order", "weekpage.pieces", "weekpage.due", "weekpage.done", "xlsx.late-days",
       "xlsx.days-in-work", "xlsx.waits-machine", "xlsx.waits-pinned", "xlsx.waits-people",
       "xlsx.waits-material", "xlsx.waits-outside", "", "xlsx.why-late"},
      widths, 1, 11);
  int row = first_row;
  for (const OrderView& order : of.view.orders) {
    if (!order.shown) continue;
    write_order(of, order, row);
    write_flow(of, order, row);
    write_lateness(of, order, plan, row++);
  }
  write_lines(of, "weekpage.refused", not_planned(of.problem), row);
  write_lines(of, "weekpage.short", short_orders(of.week, of.problem), row);
  write_lines(of, "weekpage.held", held_orders(of.week), row);
  write_lines(of, "weekpage.waiting", gap_lines(plan, of.view), row);
}

// Texts first, then numbers and times.
struct PlanColumns {
  Messages headings{"weekpage.machine", "weekpage.order", "weekpage.part", "weekpage.clamping",
                    "weekpage.tools-to-load"};
  std::vector<double> widths{20, 9, 22, 64, 40};
  int numbers_from = 0;

  explicit PlanColumns(bool with_people) {
    if (with_people) add({"weekpage.sets-up", "weekpage.attends"}, {20, 20});
    numbers_from = static_cast<int>(headings.size());
    add({"xlsx.operation", "weekpage.pieces", "weekpage.setup-from", "weekpage.runs-from",
         "weekpage.to", "weekpage.setup-min"},
        {6, 9, 18, 18, 18, 11});
  }

 private:
  void add(const Messages& more, const std::vector<double>& wide) {
    headings.insert(headings.end(), more.begin(), more.end());
    widths.insert(widths.end(), wide.begin(), wide.end());
  }
};

void write_run(const WeekBook& of, const MachineSheet& sheet, const SheetRow& work,
               const PlanColumns& columns, int row) {
  const RunView& view = *work.run;
  const PlannedRun& run = *view.run;
  std::vector<std::string> texts{sheet.machine, of.words(lot_title(of.week, of.problem, view.lot)),
                                 work.part, work.clamping, work.tools};
  if (!of.view.people.empty()) {
    texts.push_back(names_text(view.people.sets, of.words));
    texts.push_back(names_text(view.people.runs, of.words));
  }
  write_texts(of.book, plan_sheet, row, texts, columns.widths);
  int column = columns.numbers_from;
  const auto number = [&](double value, Look look) {
    of.book.value(plan_sheet, row, column++, value, look);
  };
  number(of.problem.names[static_cast<std::size_t>(run.operation)].operation, Look::whole);
  number(pieces_left(of.week, of.problem, run.operation).left, Look::whole);
  for (const Minute moment : {run.setup_from, run.run_from})
    number(of.moment(moment), Look::moment);
  number(of.end(run.to), Look::moment);
  number(static_cast<double>(run.setup), Look::whole);
}

void write_plan(const WeekBook& of, const WeekPlan& plan) {
  of.title(plan_sheet, "xlsx.plan-title");
  if (!of.view.beyond.empty()) of.book.text(plan_sheet, 1, 0, of.words(of.view.beyond), Look::note);
  const PlanColumns columns(!of.view.people.empty());
  of.book.widths(plan_sheet, columns.widths);
  write_headings(of.book, of.words, plan_sheet, head_row, columns.headings, columns.widths,
                 columns.numbers_from);
  int row = first_row;
  for (const MachineSheet& sheet :
       machine_sheets(of.week, of.problem, plan.plan, of.view, of.words))
    for (const SheetRow& work : sheet.rows)
      if (work.run != nullptr) write_run(of, sheet, work, columns, row++);
}

}  // namespace

void write_week_workbook(const Week& week, const WeekProblem& problem,
                         const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                         const Words& words, const std::string& path, WeekShown shown) {
  Spreadsheet book(
      path, {words("xlsx.sheet-load"), words("xlsx.sheet-orders"), words("xlsx.sheet-plan")});
  const WeekView view = view_of(week, problem, loads, plan, shown);
  const WeekBook of{week, problem, view, words, book};
  write_load(of);
  write_orders(of, plan);
  write_plan(of, plan);
  PageSetup setup;
  setup.letter = words.letter();
  setup.footer = "&A, " + page_footer(words);
  setup.repeated_row = head_row;
  setup.freeze = true;
  setup.frozen_columns = 1;
  for (const int sheet : {load_sheet, orders_sheet, plan_sheet}) book.page(sheet, setup);
  book.close();
}

}  // namespace turnwright
