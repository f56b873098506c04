// SPDX-License-Identifier: MIT
#pragma once
// A quote with every number that screens, paper and files derive from it, worked out once.
#include <optional>
#include <span>
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// The price listed for a quantity; null when the list has none.
const Price* listed_price(const Quote& quote, int quantity);
struct PriceView {
  const Price* price = nullptr;
  Money income;
  Money cost_each;                     // of a price unit, as planned
  Rate contribution{};                 // an hour of the machine, at that income
  std::optional<double> worst_margin;  // share of the income at P90; none before it is drawn
  int release = 0;                     // pieces of one release
};

struct QuoteView {
  const Quote* quote = nullptr;
  std::vector<PriceView> prices;
  std::size_t main = 0;        // of `prices`: the middle quantity
  double cutting_share = 0;    // of the cycle time
  Removal removal{};           // volume removed over the cycle time
  UnitPrice price_per_mass{};  // of the finished part, at the largest quantity
  bool drawn = false;          // P10, P50, P90 are there

  const PriceView& main_price() const { return prices[main]; }
  const PriceView& largest() const { return prices.back(); }
};
QuoteView view_of(const PartQuote& part);
/// Of the blank, what stays in the part.
double material_share(const Quote& quote);

/// What holds for one of the prices only: what the minimum order adds, what it would cost at once.
Messages price_notes(const PriceView& view);
/// "C45, round 50 mm, …: 3.2 kg in, 1.9 kg out".
Message stock_line(const Quote& quote, const Words& words);

/// What a kilogram of the material costs, how sure that is, and what its condition makes of it.
Message price_of_material(const Quote& quote, const Words& words);

/// Each operation with its clamping, cycle time and setup.
Messages operation_lines(const Quote& quote, const Words& words);

/// A method that quantities are quoted by, the main quantity's first.
struct UsedMethod {
  const Quote* quote = nullptr;
  std::size_t index = 0;  // of the methods
  std::string name;
  std::vector<int> quantities;  // of the list
};
std::vector<UsedMethod> used_in(const PartQuote& part);
/// What the next best of the main quantity costs, and from where on it would lead.
Message next_best(const Comparison& methods);
/// The same, with what is passed over, and before it what calculation gives where a price is set by
/// hand.
Messages next_best_lines(const PartQuote& part);
/// "price each at 50", of the questions' other answers.
Message question_price_heading(const PartQuote& part);
/// An hour of each machine that the quantities are quoted on, with what it contains.
Messages hours_of(const PartQuote& part);
/// Kinds of cost line of any of the prices, in their order.
std::vector<CostKind> cost_kinds(const Quote& quote);
/// The amount of a kind; 0 where the price has no line of it.
Money amount_of(const Price& price, CostKind kind);

/// "34 to 49 pieces: quote 50, it is cheaper in total".
Message larger_for_less_label(const LargerForLess& found);

/// The first answer that turns the main price into a loss; null when none does.
const Question* losing_question(const QuoteView& view, const std::vector<Question>& questions);

/// Cost a piece over quantities, evenly on a logarithmic scale from a third of the smallest
/// quantity on the list (dearer lots would flatten all the rest) to twice the largest.
struct CostCurve {
  std::vector<double> quantity, cost;
};
CostCurve cost_curve(const Quote& quote, int points);
/// The same with each quantity by the method that it is quoted by.
CostCurve cost_curve(const PartQuote& part, int points);

/// "volume check: OK", or by how much it is off; `why` says the figure anyway.
Message volume_check(const Audit& audit, bool why = false);

/// A pass with its stretches and their times.
struct PassView {
  std::span<const CutSegment> segments;
  std::span<const SegmentTime> times;
  Length path{}, large_diameter{};
  Frequency slowest{}, fastest{};
  Time cutting{}, moving{};
};
std::vector<PassView> pass_views(const Step& step, const StepTime& time);

/// Slowest and fastest spindle speed of stretches; 0 when there is none.
struct SpindleRange {
  Frequency slowest{}, fastest{};
};
SpindleRange spindle_range(std::span<const SegmentTime> times);
/// The surface speeds that stretches are cut with, each at its largest diameter; 0 when there is
/// none. A geared lathe has steps, and no spindle runs faster than it can.
struct SpeedRange {
  Speed slowest{}, fastest{};
};
SpeedRange speed_range(std::span<const SegmentTime> times);
/// "91" or "84–91", in the reader's unit.
std::string speed_text(const SpeedRange& range, const Words& words);

}  // namespace turnwright
