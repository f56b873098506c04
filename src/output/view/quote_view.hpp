// SPDX-License-Identifier: MIT
#pragma once
// A quote with every number that screens, paper and files derive from it, worked out once.
#include <optional>
#include <span>
#include <vector>

#include "turnwright/compare/questions.hpp"
#include "turnwright/estimate/quote.hpp"

namespace turnwright {

/// The price listed for a quantity; null when the list has none.
const Price* listed_price(const Quote& quote, int quantity);
struct PriceView {
  const Price* price = nullptr;
  Money income;
  Rate contribution{};                 // an hour of the machine, at that income
  std::optional<double> worst_margin;  // share of the income at P90; none before it is drawn
  int release = 0;                     // pieces of one release
};

struct QuoteView {
  const Quote* quote = nullptr;
  std::vector<PriceView> prices;
  std::size_t main = 0;        // of `prices`: the middle quantity
  double cutting_share = 0;    // of the cycle time
  double material_share = 0;   // of the blank that stays in the part
  Removal removal{};           // volume removed over the cycle time
  UnitPrice price_per_mass{};  // of the finished part, at the largest quantity
  bool drawn = false;          // P10, P50, P90 are there

  const PriceView& main_price() const { return prices[main]; }
  const PriceView& largest() const { return prices.back(); }
};
QuoteView view_of(const Quote& quote);

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

}  // namespace turnwright
