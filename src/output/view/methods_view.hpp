// SPDX-License-Identifier: MIT
#pragma once
// Methods side by side, with what is derived of each worked out once.
#include <array>
#include <optional>
#include <vector>

#include "turnwright/output/methods.hpp"

namespace turnwright {

struct MethodView {
  const MethodResult* method = nullptr;
  const Quote* quote = nullptr;  // null: not feasible
  Time lot_machine{};            // of a lot of the view's quantity, setup of all releases included
  double days_out = 0;           // at other firms
  Messages own_cautions;         // that the quoted method does not have
  std::vector<int> quoted_at;    // quantities of the list
};

struct MethodsView {
  const Comparison* comparison = nullptr;
  std::vector<MethodView> feasible, infeasible;
  std::vector<int> quantities;  // of the prices
};
/// The cheapest at the quantity first; what is not possible for one reason is said once.
MethodsView view_of(const Comparison& comparison, int quantity);
/// Those that a quote shows: what is quoted and the next best, and why another rule of the plan is
/// not possible where the quoted one is. `left_out`: possible ones beside them.
MethodsView shortened(const MethodsView& view, std::size_t& left_out);
/// Without those that are not quoted and cost as much or more at every quantity of the list as the
/// same on another machine; `left_out`: so many.
MethodsView folded(const MethodsView& view, std::size_t& left_out);
/// Pieces that the prices of a comparison are for; 1 where nothing is possible.
int price_unit_of(const Comparison& comparison);
/// It is among the possible ones of a view.
bool shows(const MethodsView& view, const MethodResult& method);
/// Operations with their clamping and times, and the hours of a lot, of what is quoted at the
/// quantity; nothing where none is possible.
Messages leader_lines(const MethodsView& view, int quantity, const Words& words);
/// "1, 20"; empty where it is not quoted.
std::string quoted_at(const MethodView& method, const Words& words);

/// What is quoted at the main quantity, and what is saved by it.
Message verdict(const Comparison& comparison);
/// An amount that is worked out: said to be, where the main price is set by hand.
Place by_calculation(std::string name, Money amount, const Comparison& comparison);
/// At each quantity of the prices, the methods (of `feasible`) that cost least there.
std::vector<std::vector<std::size_t>> cheapest_at(const MethodsView& view);
/// "tuned for cost (Tarn CNC 1)": with its machine where the name has none.
std::string name_and_machine(const std::string& method, const std::string& machine,
                             const Words& words);
std::string name_and_machine(const MethodView& method, const Words& words);
/// What would cost less than the quoted method at its quantity and is not quoted, with the reason;
/// the cheapest first.
Messages not_quoted(const Comparison& comparison);
/// The cheapest of those that only what it is held back by keeps from leading; where nothing else
/// may lead it may also cost more. Empty: there is none.
Message passed_over(const Comparison& comparison);

/// "34 to 49: manual lathe", by a little where others are within the band.
Message leading(const Comparison& comparison, const LeadingRange& range);
/// "manual lathe: not possible: …", with what would help.
Message not_possible(const MethodResult& method);

/// The money of a difference in the order in which it is shown, the total first.
enum class DifferencePart {
  total,
  setup,
  tool_change,
  cutting,
  other_time,
  inserts,
  material,
  outside
};
inline constexpr std::array difference_parts{DifferencePart::total,       DifferencePart::setup,
                                             DifferencePart::tool_change, DifferencePart::cutting,
                                             DifferencePart::other_time,  DifferencePart::inserts,
                                             DifferencePart::material,    DifferencePart::outside};
Amount part_of(const Difference& difference, DifferencePart part);
/// "tool-change".
const char* name_of(DifferencePart part);

/// What leads somewhere on a map, in the order of first appearance, with its letter.
struct MapKey {
  int method = 0;  // of the map's names
  char letter = 'A';
};
std::vector<MapKey> keys_of(const MethodMap& map);
/// Its place in the keys; none for -1.
std::optional<std::size_t> key_of(const std::vector<MapKey>& keys, int method);

}  // namespace turnwright
