// SPDX-License-Identifier: MIT
#pragma once
// The sheets of a quote's workbook, one file a sheet. Live cells are handed from one to the next in
// LiveCells; a changed quantity, rate, speed or feed is followed everywhere.
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/model.hpp"
#include "turnwright/output/workbook.hpp"
#include "xlsx/sheet_headings.hpp"
#include "xlsx/spreadsheet.hpp"

namespace turnwright {

/// What the sheets are written from, and into.
struct QuoteBook {
  const PartQuote& part;
  const Quote& quote;  // of the method that is written, else the list's
  const Comparison& methods;
  const Shop& shop;
  const std::vector<InputDigest>& inputs;
  const Words& words;
  Spreadsheet& book;
  std::string drawing = {};  // of the part, as PNG

  /// The reader's unit in place of a metric one.
  Unit unit(const Unit& metric) const { return words.inch() ? counterpart(metric) : metric; }
  /// Its name, for a heading with the place {unit}.
  Message with_unit(const char* id, const Unit& metric) const {
    return {id, {{"unit", words.unit(metric)}}};
  }
  Message money(Message what) const { return in_currency(std::move(what), quote.currency); }
};

/// In the order of the book.
enum QuoteSheet {
  quote_sheet,
  steps_sheet,
  passes_sheet,
  methods_sheet,
  prices_sheet,
  working_sheet
};
inline constexpr int quote_sheets = 6;

inline constexpr int steps_printed = 9;  // columns of the steps that are on paper

struct StepCells {
  SpeedOf<Expression> speed;
  LengthOf<Expression> feed;
  TimeOf<Expression> cutting, machine;
  Pure<Expression> taylor_n;        // where it wears an edge, and the next two
  TimeOf<Expression> wear;          // minutes at `speed` that wear as much
  Pure<Expression> share;           // of an edge
  AmountOf<Expression> edge_price;  // where it has one
};

struct PriceStepCells {
  AmountOf<Expression> step, below;
};

struct PriceCells {
  Pure<Expression> quantity;
  AmountOf<Expression> cost, each, total, rebate, surcharge, gain;
  Pure<Expression> margin;                  // share of what the lot brings
  std::vector<AmountOf<Expression>> lines;  // of the cost, in the order of the columns
};

/// Of a method that prices of the list are by.
struct LiveCells {
  std::string name;                  // of the method, where there are several
  std::size_t index = 0;             // of the part's methods
  bool first = true;                 // its inputs have names
  int steps_row = 0;                 // where its block of the steps sheet begins
  model::LotInputs<Expression> lot;  // quantity is set per price
  Pure<Expression> operator_share, allowance;
  PressureOf<Expression> specific_force;
  Pure<Expression> force_rise;
  std::vector<StepCells> steps;  // of all operations
  std::vector<model::ClockedTime<Expression>> operations;
  TimeOf<Expression> machine_each, person_each, setup;
};

/// Of all prices.
struct ListCells {
  Pure<Expression> margin, price_unit;
  Pure<Expression> kept;    // of the price, where a discount is taken off
  Pure<Expression> rebate;  // off the goods, where there is one
  AmountOf<Expression> minimum_order, one_off_prices;  // the lines that stand beside the prices
  std::vector<PriceStepCells> price_steps;
  int end = 0;  // the first free row of the prices sheet
  std::vector<PriceCells> prices;
  int first_row = 0;  // of the prices, on their sheet
};

/// Of the prices sheet: what a chart of it shows.
namespace price_column {
enum Column { quantity = 0, setup = 3, each = 13 };
}

/// The step of a price of this size.
AmountOf<Expression> step_of(const std::vector<PriceStepCells>& steps, AmountOf<Expression> price);

/// The unrounded price of a piece of a lot, as the policy or the request has it.
AmountOf<Expression> live_price(const QuoteBook& of, const ListCells& list,
                                AmountOf<Expression> cost, Pure<Expression> quantity);

/// A step with its operation and time, in the order of the work.
struct StepPlace {
  const Operation* operation = nullptr;
  const Step* step = nullptr;
  const StepTime* time = nullptr;
};
std::vector<StepPlace> steps_of(const Quote& quote);

// In this order: each needs the cells of those before it.
/// Rates, allowances and what a lot costs by, a row each, method below method.
void write_price_inputs(const QuoteBook& of, LiveCells& live, ListCells& list);
/// Speeds, feeds and depths of the steps.
void write_step_inputs(const QuoteBook& of, LiveCells& live);
/// The first row after a method's block of the steps sheet.
int steps_end(const QuoteBook& of, const LiveCells& live);
void write_passes_head(const QuoteBook& of);
/// A row per stretch of each pass, from `row` on; the first free row.
int write_passes(const QuoteBook& of, LiveCells& live, int row);
/// Times, edges and power of the steps; below them the operations.
void write_step_times(const QuoteBook& of, LiveCells& live);
void write_prices(const QuoteBook& of, std::vector<LiveCells>& methods, ListCells& list);
void write_methods(const QuoteBook& of);
void write_working(const QuoteBook& of);
void write_quote(const QuoteBook& of, const std::vector<LiveCells>& methods, const ListCells& list);

}  // namespace turnwright
