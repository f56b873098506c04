// SPDX-License-Identifier: MIT
#include <algorithm>

#include "sheet.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright {
namespace {

enum SheetIndex { load_sheet, orders_sheet, plan_sheet };
constexpr int head_row = 3, name_column = 0, sum_column = 1, first_day = 4;

class WeekSpreadsheet {
 public:
  WeekSpreadsheet(const Week& week, const WeekProblem& wp, const std::vector<Load>& loads,
                  const WeekPlan& plan, const std::string& path)
      : week_(week),
        wp_(wp),
        loads_(loads),
        plan_(plan),
        book_(path, {"Load", "Orders", "Plan"}),
        f_(book_.formats()) {}

  void write() {
    load();
    orders();
    plan();
    book_.widths(load_sheet, {24, 10, 10, 9});
    book_.widths(orders_sheet, {14, 9, 12, 20, 11, 50});
    book_.widths(plan_sheet, {22, 14, 8, 20, 20, 20, 14});
    for (int i = 0; i < 3; ++i) {
      worksheet_set_paper(book_.sheet(i), 9);
      worksheet_set_landscape(book_.sheet(i));
      worksheet_fit_to_pages(book_.sheet(i), 1, 0);
      worksheet_set_footer(book_.sheet(i), "&L&A&RPage &P of &N");
    }
    book_.close();
  }

 private:
  // Hours a machine and day, asked for above those there; the sums are live.
  void load() {
    const int s = load_sheet;
    book_.text(s, 0, 0,
               "Hours asked for and there, " + text_of(week_.from) + " to " + text_of(week_.to),
               f_.title);
    book_.text(s, 1, 0, "Coloured cells are inputs: change hours and the sums and shares follow.",
               f_.note);
    const char* heads[] = {"", "asked for, h", "there, h", "share"};
    for (int i = 0; i < 4; ++i) book_.text(s, head_row, i, heads[i], f_.head);
    const int days = week_.days();
    for (int d = 0; d < days; ++d)
      book_.text(s, head_row, first_day + d, day_text(days_after(week_.from, d)), f_.head);
    int row = head_row + 1;
    for (const Load& load : loads_) {
      book_.text(s, row, name_column, load.name, f_.label);
      book_.text(s, row + 1, name_column, "  there", f_.note);
      for (int d = 0; d < days; ++d) {
        const auto i = static_cast<std::size_t>(d);
        book_.value(s, row, first_day + d, load.needed[i], f_.input);
        book_.value(s, row + 1, first_day + d, load.there[i], f_.input);
      }
      sum(s, row, sum_column, row, load.sum_needed());
      sum(s, row, sum_column + 1, row + 1, load.sum_there());
      const std::string need = cell_name(row, sum_column), there = cell_name(row, sum_column + 1);
      const double share = load.sum_there() > 0 ? load.sum_needed() / load.sum_there() : 0;
      std::string formula = "=IF(";
      formula.append(there).append(">0,").append(need).append("/").append(there).append(",0)");
      put(s, row, sum_column + 2, formula, f_.percent, share);
      over(row, first_day, first_day + days - 1);
      row += 2;
    }
    chart(row + 1);
  }
  void sum(int sheet, int row, int column, int of_row, double value) {
    put(sheet, row, column,
        "=SUM(" + cell_name(of_row, first_day) + ":" +
            cell_name(of_row, first_day + week_.days() - 1) + ")",
        f_.number, value);
  }
  void put(int sheet, int row, int column, const std::string& formula, lxw_format* format,
           double value) {
    if (worksheet_write_formula_num(book_.sheet(sheet), static_cast<lxw_row_t>(row),
                                    static_cast<lxw_col_t>(column), formula.c_str(), format,
                                    value) != LXW_NO_ERROR)
      throw CannotWrite("the workbook cannot be written");
  }
  // A day on which more is asked for than there is stands out.
  void over(int row, int from, int to) {
    for (int column = from; column <= to; ++column) {
      lxw_conditional_format rule{};
      std::string there = "=" + cell_name(row + 1, column) + "+0.05";
      rule.type = LXW_CONDITIONAL_TYPE_CELL;
      rule.criteria = LXW_CONDITIONAL_CRITERIA_GREATER_THAN;
      rule.value_string = there.data();
      rule.format = f_.warning;
      worksheet_conditional_format_cell(book_.sheet(load_sheet), static_cast<lxw_row_t>(row),
                                        static_cast<lxw_col_t>(column), &rule);
    }
  }
  void chart(int at) {
    lxw_chart* chart = workbook_add_chart(book_.raw(), LXW_CHART_COLUMN);
    for (const int column : {sum_column, sum_column + 1}) {
      // Every second row holds a machine's sums; the rows between are empty in these columns.
      lxw_chart_series* series = chart_add_series(chart, nullptr, nullptr);
      const auto last = static_cast<lxw_row_t>(head_row + 2 * static_cast<int>(loads_.size()) - 1);
      chart_series_set_categories(series, "Load", head_row + 1, name_column, last, name_column);
      chart_series_set_values(series, "Load", head_row + 1, static_cast<lxw_col_t>(column), last,
                              static_cast<lxw_col_t>(column));
      chart_series_set_name(series, column == sum_column ? "asked for" : "there");
    }
    chart_title_set_name(chart, "Hours asked for and there");
    chart_axis_set_name(chart->y_axis, "h");
    worksheet_insert_chart(book_.sheet(load_sheet), static_cast<lxw_row_t>(at), 0, chart);
  }

  void orders() {
    const int s = orders_sheet;
    book_.text(s, 0, 0, "Orders", f_.title);
    const char* heads[] = {"order", "pieces", "due", "done", "late, days", "why"};
    for (int i = 0; i < 6; ++i) book_.text(s, head_row, i, heads[i], f_.head);
    int row = head_row + 1;
    for (std::size_t j = 0; j < wp_.orders.size(); ++j, ++row) {
      const Order& o = week_.orders[wp_.orders[j]];
      const Minute done = plan_.plan.done[j];
      book_.text(s, row, 0, job_name(week_, wp_, j));
      book_.value(s, row, 1, job_pieces(week_, wp_, j), f_.whole);
      book_.text(s, row, 2, text_of(o.due));
      book_.text(s, row, 3, done == never ? "not in this calendar" : moment_text(week_, done));
      for (const LateReason& late : plan_.late) {
        if (late.job != j) continue;
        if (done != never) book_.value(s, row, 4, late.days, f_.number);
        book_.text(s, row, 5, late.chain.empty() ? "" : late.chain.front());
      }
    }
  }
  void plan() {
    const int s = plan_sheet;
    book_.text(s, 0, 0, "Plan, machine by machine", f_.title);
    const char* heads[] = {"machine",   "order", "operation",      "make-ready from",
                           "runs from", "to",    "make-ready, min"};
    for (int i = 0; i < 7; ++i) book_.text(s, head_row, i, heads[i], f_.head);
    int row = head_row + 1;
    for (std::size_t m = 0; m < week_.machines.size(); ++m)
      for (const PlannedRun* run : runs_on(plan_.plan, static_cast<int>(m))) {
        const OperationName& n = wp_.names[static_cast<std::size_t>(run->operation)];
        book_.text(s, row, 0, week_.machines[static_cast<std::size_t>(run->machine)].name);
        book_.text(s, row, 1, job_name(week_, wp_, job_of(wp_, run->operation)));
        book_.value(s, row, 2, n.operation, f_.whole);
        book_.text(s, row, 3, moment_text(week_, run->ready_from));
        book_.text(s, row, 4, moment_text(week_, run->run_from));
        book_.text(s, row, 5, moment_text(week_, run->to));
        book_.value(s, row++, 6, run->ready, f_.whole);
      }
  }

  const Week& week_;
  const WeekProblem& wp_;
  const std::vector<Load>& loads_;
  const WeekPlan& plan_;
  Spreadsheet book_;
  const Formats& f_;
};

}  // namespace

void write_week_workbook(const Week& week, const WeekProblem& problem,
                         const std::vector<Load>& loads, const WeekPlan& plan,
                         const std::string& path) {
  WeekSpreadsheet(week, problem, loads, plan, path).write();
}

}  // namespace turnwright
