// SPDX-License-Identifier: MIT
// Steps and their times; below them the operations.
#include <algorithm>

#include "turnwright/figure/cutting.hpp"
#include "view/labels.hpp"
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

constexpr int title_row = 1, force_row = 2, head_row = 3, first_row = 4;  // of a method's block
constexpr int gap_to_operations = 2;
// A limit that is just met does not warn.
constexpr const char* slack = "*1.001";

namespace at {
enum Column {
  step,
  work,
  tool,
  speed,
  feed,
  depth,
  passes,
  cutting,
  machine,  // up to here on paper
  fixed,
  taylor_c,
  taylor_n,
  life,
  wear,
  edge_share,
  edge_change,
  change_share,
  edge_price,
  power,
  available,
  width,
  lead
};
}  // namespace at

const std::vector<double>& widths() {
  static const std::vector<double> all{9,  18, 24, 11, 11, 10, 9,  12, 12, 18, 13,
                                       11, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13};
  return all;
}

Messages step_headings(const QuoteBook& of) {
  return {"text.step",
          "text.work",
          "text.tool",
          of.with_unit("text.speed", unit::m_per_min),
          of.with_unit("text.feed", unit::mm_per_rev),
          of.with_unit("xlsx.depth", unit::mm),
          "xlsx.passes",
          "xlsx.cutting-min",
          "xlsx.machine-min",
          "xlsx.fixed-min",
          of.with_unit("xlsx.taylor-c", unit::m_per_min),
          "xlsx.taylor-n",
          "xlsx.edge-life-min",
          "xlsx.wear-min",
          "xlsx.edge-share",
          "xlsx.edge-change-min",
          "xlsx.its-share-min",
          of.money("xlsx.edge-price"),
          of.with_unit("xlsx.power-used", unit::kW),
          of.with_unit("xlsx.power-available", unit::kW),
          of.with_unit("xlsx.cut-width", unit::mm),
          of.with_unit("xlsx.lead-angle", unit::deg)};
}

void write_force(const QuoteBook& of, LiveCells& live) {
  const Material& m = of.quote.route.job.material;
  const int row = live.steps_row + force_row;
  const Unit pressure = of.unit(unit::N_per_mm2);
  of.book.text(steps_sheet, row, at::step,
               of.words(of.with_unit("xlsx.specific-force", unit::N_per_mm2)), Look::label);
  live.specific_force = of.book.input(steps_sheet, row, at::speed, m.kc11, pressure, Look::input,
                                      live.first ? "specific_force" : "");
  live.force_rise = of.book.input(steps_sheet, row, at::feed, Number(m.mc), unit::ratio,
                                  Look::input, live.first ? "force_rise" : "");
}

StepCells write_step(const QuoteBook& of, const StepPlace& place, int row) {
  const Step& step = *place.step;
  Spreadsheet& book = of.book;
  StepCells cells;
  book.text(steps_sheet, row, at::step, step_label(*place.operation, step));
  book.text(steps_sheet, row, at::work, of.words(word_of(step.kind)));
  book.text(steps_sheet, row, at::tool, of.words.name(step.tool));
  if (step.given) return cells;
  cells.speed = book.input(steps_sheet, row, at::speed, step.used.surface_speed,
                           of.unit(unit::m_per_min), Look::input);
  cells.feed = book.input(steps_sheet, row, at::feed, step.used.feed, of.unit(unit::mm_per_rev),
                          Look::input);
  if (place.time->edge_share > 0)
    cells.taylor_n = book.input(steps_sheet, row, at::taylor_n, Number(step.taylor_exponent),
                                unit::ratio, Look::number3);
  book.value(steps_sheet, row, at::depth, shown(step.used.depth.si, of.unit(unit::mm)),
             Look::number3);
  book.value(steps_sheet, row, at::passes, static_cast<double>(passes_of(step).size()),
             Look::whole);
  return cells;
}

// The share of an edge and of its change, from the edge's life.
TimeOf<Expression> write_edge(const QuoteBook& of, const StepPlace& place, StepCells& cells,
                              const StepCells* first, int row) {
  const Step& step = *place.step;
  const StepTime& time = *place.time;
  Spreadsheet& book = of.book;
  const auto c = book.input(steps_sheet, row, at::taylor_c, step.taylor_constant,
                            of.unit(unit::m_per_min), Look::number);
  const auto life =
      book.formula(steps_sheet, row, at::life,
                   figure::ToolLife::work_out<Expression>({cells.speed, cells.taylor_n, c}).life,
                   unit::min, Look::number);
  const auto wear = book.formula(steps_sheet, row, at::wear, cells.wear, unit::min, Look::number3);
  cells.share = book.formula(steps_sheet, row, at::edge_share,
                             figure::EdgeShare::work_out<Expression>({wear, life}).share,
                             unit::ratio, Look::number3);
  const auto change = book.input(steps_sheet, row, at::edge_change, time.edge_change_whole,
                                 unit::min, Look::number);
  const auto share = book.formula(steps_sheet, row, at::change_share, cells.share * change,
                                  unit::min, Look::number3);
  // A tool has one price of an edge, in its first step.
  cells.edge_price = first == nullptr
                         ? book.input(steps_sheet, row, at::edge_price, time.edge_price,
                                      unit::money, Look::input_money)
                         : book.formula(steps_sheet, row, at::edge_price, first->edge_price * 1.0,
                                        unit::money, Look::money);
  return share;
}

// Power follows speed and feed; it stands out when it is beyond what is available. That of a drill
// or a knurl follows another formula and is checked in the plan.
void write_power(const QuoteBook& of, const LiveCells& live, const StepPlace& place,
                 const StepCells& cells, int row) {
  const Step& step = *place.step;
  Spreadsheet& book = of.book;
  const Tool* tool = of.shop.tool(step.tool);
  const auto limit = std::find_if(step.limits.begin(), step.limits.end(),
                                  [](const LimitCheck& l) { return l.limit == LimitId::power; });
  if (tool == nullptr || limit == step.limits.end()) return;
  if (tool->kind == ToolKind::drill || tool->kind == ToolKind::knurl) return;
  const bool plunges = step.kind == StepKind::groove || step.kind == StepKind::part_off;
  const auto width =
      book.input(steps_sheet, row, at::width, plunges ? tool->width : step.used.depth,
                 of.unit(unit::mm), Look::number3);
  const auto angle =
      book.input(steps_sheet, row, at::lead, tool->lead_angle, unit::deg, Look::number);
  const auto kc = figure::SpecificForce::work_out<Expression>(
                      {live.specific_force, live.force_rise, cells.feed, angle})
                      .specific_force;
  const auto used = figure::CuttingPower::work_out<Expression>(
                        {width, cells.feed, cells.speed, kc, Pure<Expression>(Expression(1.0))})
                        .power;
  const Unit kw = of.unit(unit::kW);
  book.formula(steps_sheet, row, at::power, used, kw, Look::number);
  book.value(steps_sheet, row, at::available, shown(limit->allowed, kw), Look::number);
  book.warn_above(steps_sheet, row, at::power, "=" + cell_name(row, at::available) + slack);
}

void write_times(const QuoteBook& of, const LiveCells& live, const StepPlace& place,
                 StepCells& cells, const StepCells* first, int row) {
  Spreadsheet& book = of.book;
  const auto fixed =
      book.input(steps_sheet, row, at::fixed, place.time->fixed(), unit::min, Look::number3);
  TimeOf<Expression> machine = fixed;
  if (!place.step->segments.empty()) {
    cells.cutting =
        book.formula(steps_sheet, row, at::cutting, cells.cutting, unit::min, Look::number3);
    machine = cells.cutting + fixed;
  }
  if (place.time->edge_share > 0) machine = machine + write_edge(of, place, cells, first, row);
  cells.machine = book.formula(steps_sheet, row, at::machine, machine, unit::min, Look::number3);
  write_power(of, live, place, cells, row);
}

namespace op {
enum Column {
  number,
  clamping,
  person = 5,  // cutting and cycle time stand under those of the steps
  setup,
  cutting,
  cycle,
  running,
  external,
  chips,
  handling,
  internal,
  away,
  setup_fixed,
  proving
};
}  // namespace op

Messages operation_headings() {
  return {"xlsx.operation",
          "text.clampings",
          {},
          {},
          {},
          "text.operator-min",
          "text.setup-min",
          "xlsx.cutting-min",
          "text.cycle-min",
          "xlsx.running-min",
          "xlsx.external-min",
          "xlsx.chip-share",
          "xlsx.handling-min",
          "xlsx.beside-min",
          "xlsx.away-min",
          "xlsx.setup-fixed-min",
          "xlsx.proving-pieces"};
}

// Rows of an operation's steps, both included.
struct StepRows {
  int first = 0, last = 0;
};

TimeOf<Expression> sum_of(const QuoteBook& of, int row, int column, int steps_column,
                          const StepRows& rows, Time value) {
  return of.book.formula(
      steps_sheet, row, column,
      of.book.sum(steps_sheet, steps_column, rows.first, rows.last, value, unit::min, steps_sheet),
      unit::min, Look::number3);
}

Time cutting_of(const OperationTime& t) {
  Time cutting(0.0);
  for (const StepTime& step : t.steps) cutting += step.cutting;
  return cutting;
}

TimeOf<Expression> write_setup(const QuoteBook& of, const OperationTime& t,
                               TimeOf<Expression> machine, int row) {
  Spreadsheet& book = of.book;
  const auto fixed =
      book.input(steps_sheet, row, op::setup_fixed, t.setup_fixed, unit::min, Look::input);
  const auto proving = book.input(steps_sheet, row, op::proving, Number(t.first_off_cycles),
                                  unit::ratio, Look::input);
  return book.formula(steps_sheet, row, op::setup, fixed + proving * machine, unit::min,
                      Look::number);
}

model::ClockedTime<Expression> write_clocks(const QuoteBook& of, const LiveCells& live,
                                            const OperationTime& t, const StepRows& rows, int row) {
  Spreadsheet& book = of.book;
  const auto cut = sum_of(of, row, op::cutting, at::cutting, rows, cutting_of(t));
  const auto run = sum_of(of, row, op::running, at::machine, rows, t.run);
  const auto fixed =
      book.input(steps_sheet, row, op::external, t.external_fixed, unit::min, Look::input);
  const auto chips =
      book.input(steps_sheet, row, op::chips, Number(t.chip_share), unit::ratio, Look::input);
  TimeOf<Expression> handling(Expression(0.0));
  if (of.quote.route.machine.manual())
    handling = book.formula(steps_sheet, row, op::handling, run - cut, unit::min, Look::number3);
  const auto internal =
      book.input(steps_sheet, row, op::internal, t.internal, unit::min, Look::input);
  const auto away = book.input(steps_sheet, row, op::away, t.away, unit::min, Look::input);
  const auto external = fixed + chips * cut + live.allowance * (fixed + handling);
  const auto both =
      model::clocked_time<Expression>(run, external, internal, away, live.operator_share);
  return {book.formula(steps_sheet, row, op::cycle, both.machine, unit::min, Look::number3),
          book.formula(steps_sheet, row, op::person, both.person, unit::min, Look::number3)};
}

void write_operations(const QuoteBook& of, LiveCells& live, int row) {
  write_headings(of.book, of.words, steps_sheet, row - 1, operation_headings(), widths(),
                 op::person);
  StepRows rows{live.steps_row + first_row, live.steps_row + first_row};
  for (std::size_t i = 0; i < of.quote.route.operations.size(); ++i, ++row) {
    const Operation& operation = of.quote.route.operations[i];
    const OperationTime& t = of.quote.times.operations[i];
    rows.last = rows.first + static_cast<int>(operation.steps.size()) - 1;
    of.book.text(steps_sheet, row, op::number, of.words(operation_label(operation)));
    of.book.text(steps_sheet, row, op::clamping, of.words(clamping_of(operation)));
    const auto clocks = write_clocks(of, live, t, rows, row);
    const auto setup = write_setup(of, t, clocks.machine, row);
    live.operations.push_back(clocks);
    live.machine_each = i == 0 ? clocks.machine : live.machine_each + clocks.machine;
    live.person_each = i == 0 ? clocks.person : live.person_each + clocks.person;
    live.setup = i == 0 ? setup : live.setup + setup;
    rows.first = rows.last + 1;
  }
}

// The cells of the first step that wears the tool's edge, where it is an earlier one.
const StepCells* first_of_tool(const std::vector<StepPlace>& places, const LiveCells& live,
                               std::size_t step) {
  for (std::size_t i = 0; i < step; ++i)
    if (places[i].time->edge_share > 0 && places[i].step->tool == places[step].step->tool)
      return &live.steps[i];
  return nullptr;
}

}  // namespace

void write_step_inputs(const QuoteBook& of, LiveCells& live) {
  if (live.first) {
    of.book.text(steps_sheet, 0, at::step, of.words("xlsx.steps-title"), Look::title);
    of.book.text(steps_sheet, title_row, at::step, of.words("xlsx.steps-note"), Look::note);
    of.book.widths(steps_sheet, widths());
    of.book.group(steps_sheet, steps_printed, widths());
  }
  if (!live.name.empty())
    of.book.text(steps_sheet, live.steps_row + (live.first ? 0 : title_row),
                 live.first ? at::speed : at::step, of.words.name(live.name), Look::label);
  write_headings(of.book, of.words, steps_sheet, live.steps_row + head_row, step_headings(of),
                 widths(), at::speed);
  write_force(of, live);
  int row = live.steps_row + first_row;
  for (const StepPlace& place : steps_of(of.quote))
    live.steps.push_back(write_step(of, place, row++));
}

int steps_end(const QuoteBook& of, const LiveCells& live) {
  return live.steps_row + first_row + static_cast<int>(live.steps.size()) + gap_to_operations +
         static_cast<int>(of.quote.route.operations.size());
}

void write_step_times(const QuoteBook& of, LiveCells& live) {
  const std::vector<StepPlace> places = steps_of(of.quote);
  const int first = live.steps_row + first_row;
  for (std::size_t i = 0; i < places.size(); ++i)
    write_times(of, live, places[i], live.steps[i], first_of_tool(places, live, i),
                first + static_cast<int>(i));
  write_operations(of, live, first + static_cast<int>(places.size()) + gap_to_operations);
}

}  // namespace turnwright
