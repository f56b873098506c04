// SPDX-License-Identifier: MIT
#include "xlsx/quote_sheets.hpp"

namespace turnwright {
namespace {

constexpr int head_row = 3;

namespace at {
enum Column {
  operation,
  step,
  pass,
  motion,
  large_diameter,
  small_diameter,
  path,
  swept,
  speed_factor,
  feed_factor,
  speed,
  feed,
  spindle,
  cutting,
  wear
};
}  // namespace at

const std::vector<double>& widths() {
  static const std::vector<double> all{9, 7, 7, 15, 10, 10, 11, 11, 8, 8, 10, 9, 11, 10, 13};
  return all;
}

Messages headings(const QuoteBook& of) {
  return {"xlsx.operation",
          "text.step",
          "explain.pass-head",
          "xlsx.motion",
          of.with_unit("xlsx.large-diameter", unit::mm),
          of.with_unit("xlsx.small-diameter", unit::mm),
          of.with_unit("xlsx.path", unit::mm),
          of.with_unit("xlsx.swept", unit::mm2),
          "xlsx.speed-factor",
          "xlsx.feed-factor",
          of.with_unit("text.speed", unit::m_per_min),
          of.with_unit("text.feed", unit::mm_per_rev),
          of.with_unit("xlsx.spindle", unit::rev_per_min),
          "xlsx.cutting-min",
          "xlsx.wear-min"};
}

const char* word_of(Motion motion) {
  switch (motion) {
    case Motion::along:
      return "xlsx.along";
    case Motion::across:
      return "xlsx.across";
    default:
      return "xlsx.on-an-arc";
  }
}

model::PassCells<Expression> write_geometry(const QuoteBook& of, const CutSegment& s, int row) {
  const Unit mm = of.unit(unit::mm);
  auto length = [&](int column, Length l) {
    return of.book.input(passes_sheet, row, column, l, mm, Look::number3);
  };
  model::PassCells<Expression> cells;
  cells.large_diameter = length(at::large_diameter, s.large_diameter);
  cells.small_diameter = length(at::small_diameter, s.small_diameter);
  cells.path = length(at::path, s.path());
  cells.swept = AreaOf<Expression>(Expression(0.0));
  if (s.motion == Motion::arc)
    cells.swept =
        of.book.input(passes_sheet, row, at::swept, s.swept, of.unit(unit::mm2), Look::number);
  return cells;
}

// Speed and feed are those of the step, each by its factor.
void write_segment(const QuoteBook& of, const StepPlace& place, const CutSegment& s,
                   const StepCells& cells, int row) {
  Spreadsheet& book = of.book;
  const Step& step = *place.step;
  book.text(passes_sheet, row, at::motion, of.words(word_of(s.motion)));
  const model::PassCells<Expression> geometry = write_geometry(of, s, row);
  const auto speed_factor =
      book.input(passes_sheet, row, at::speed_factor, s.surface_speed / step.used.surface_speed,
                 unit::ratio, Look::number3);
  const auto feed_factor = book.input(passes_sheet, row, at::feed_factor, s.feed / step.used.feed,
                                      unit::ratio, Look::number3);
  const auto v = book.formula(passes_sheet, row, at::speed, cells.speed * speed_factor,
                              of.unit(unit::m_per_min), Look::number);
  const auto f = book.formula(passes_sheet, row, at::feed, cells.feed * feed_factor,
                              of.unit(unit::mm_per_rev), Look::number3);
  const auto n =
      book.input(passes_sheet, row, at::spindle, s.constant_speed ? s.spindle : s.fastest,
                 unit::rev_per_min, s.constant_speed ? Look::input : Look::whole);
  const auto cutting =
      book.formula(passes_sheet, row, at::cutting,
                   model::pass_time<Expression>(s.motion, s.constant_speed, geometry, v, f, n),
                   unit::min, Look::number3);
  if (place.time->edge_share > 0)
    book.formula(passes_sheet, row, at::wear,
                 model::wear_time<Expression>(s.motion, s.constant_speed, geometry, v, f, n,
                                              cutting, cells.taylor_n),
                 unit::min, Look::number3);
}

// The first free row after the passes of a step.
int write_step(const QuoteBook& of, const StepPlace& place, const StepCells& cells, int row) {
  int number = 0;
  for (const auto& segments : passes_of(*place.step)) {
    ++number;
    for (const CutSegment& segment : segments) {
      of.book.value(passes_sheet, row, at::operation, place.operation->number, Look::whole);
      of.book.text(passes_sheet, row, at::step, step_label(*place.operation, *place.step));
      of.book.value(passes_sheet, row, at::pass, number, Look::whole);
      write_segment(of, place, segment, cells, row++);
    }
  }
  return row;
}

}  // namespace

void write_passes_head(const QuoteBook& of) {
  of.book.text(passes_sheet, 0, 0, of.words("xlsx.passes-title"), Look::title);
  of.book.text(passes_sheet, 1, 0, of.words("xlsx.passes-note"), Look::note);
  of.book.widths(passes_sheet, widths());
  write_headings(of.book, of.words, passes_sheet, head_row, headings(of), widths());
}

int write_passes(const QuoteBook& of, LiveCells& live, int row) {
  if (!live.name.empty())
    of.book.text(passes_sheet, row++, 0, of.words.name(live.name), Look::label);
  const std::vector<StepPlace> places = steps_of(of.quote);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const int first = row;
    row = write_step(of, places[i], live.steps[i], row);
    if (row == first) continue;
    const StepTime& time = *places[i].time;
    auto sum = [&](int column, Time value) {
      return of.book.sum(passes_sheet, column, first, row - 1, value, unit::min, steps_sheet);
    };
    live.steps[i].cutting = sum(at::cutting, time.cutting);
    if (time.edge_share > 0) live.steps[i].wear = sum(at::wear, time.wear());
  }
  return row;
}

}  // namespace turnwright
