// SPDX-License-Identifier: MIT
#pragma once
// The inside quote: costs by line at each quantity, the price, its band, and what was assumed.
#include <string>
#include <vector>

#include "turnwright/estimate/model.hpp"
#include "turnwright/estimate/times.hpp"
#include "turnwright/quantity/date.hpp"

namespace turnwright {

/// The rows that a cost rests on, each with one band. `name_of` is how JSON spells it; the words
/// stand under "band." and this.
enum class BandRowId {
  setup_times,
  cutting_speeds_and_feeds,
  handling_times,
  given_times,
  inserts,
  material_price,
  other_work,
  outside_work,
  one_offs,
  scrap
};
const char* name_of(BandRowId row);

/// A row that widens the band: cost of a price unit with it alone low or high, less the likely.
struct BandCause {
  BandRowId row = BandRowId::setup_times;
  Amount low_each{}, high_each{};
  Basis basis = Basis::typical;
};

/// Lines of the cost of a lot; the words stand under "cost." and the name. `running` is machine and
/// person at one all-in rate.
enum class CostKind {
  setup,
  running,
  machine,
  labour,
  inserts,
  material,
  other_work,
  outside_work,
  one_offs
};
const char* name_of(CostKind kind);

struct CostLine {
  CostKind kind = CostKind::setup;
  Money amount;
};

struct Price {
  int quantity = 1;
  int releases = 1;                   // equal lots that it is delivered in
  std::string method, made_on;        // by which it is made, and the machine
  std::size_t method_index = 0;       // of the methods that a part is quoted by
  Time cycle{}, attended{}, setup{};  // of the method: a piece, and a batch
  int made = 1;                       // blanks bought: scrap and setting pieces too
  std::vector<CostLine> lines;
  int price_unit = 1;  // pieces that every "each" is for
  Money cost, each, total, minimum_surcharge, margin;
  Money worked_out;  // `each` before a price fixed by hand takes its place
  double rebate_share = 0;
  Money rebate;  // off total, as a line of the order; the surcharge is what is missing after it
  Money once;    // charged once, beside total
  Money minimum_order;  // what is ordered comes to; 0 where other lines are ordered with it
  Money at_once_each;   // were it delivered in one lot
  double margin_share = 0;
  Money low_each, likely_each, high_each;  // all rows low, all likely, all high: no probability
  // Cost of a price unit that is not exceeded at 10, 50, 90 % confidence; the chance of not
  // covering cost; the widest causes. Empty until with_band draws them.
  Money p10_each, p50_each, p90_each;
  double loss_chance = 0;
  std::vector<BandCause> causes;
  Time machine{}, person{};  // of the lot, setup of every release included

  /// What the lot brings.
  Money income() const { return total + minimum_surcharge - rebate; }
};

/// A price holds up to the next quantity of the list; from here on that next quantity costs less in
/// total.
struct LargerForLess {
  int from = 1, quantity = 1;
};

/// A one-off that stands as a line of its own, beside the prices.
struct OneOffLine {
  std::string what;
  Amount bought{};
  Time own{};
  Money cost, price;
};

enum class PriceStatus { confirmed, not_confirmed, no_price, supplied };
const char* name_of(PriceStatus status);

/// Material of one blank, by its parts.
struct MaterialCost {
  Length length{};  // of bar, saw or parting kerf included; 0: not by length
  Mass blank{}, finished{};
  Amount bar{}, cut_charge{}, credit{}, overhead{}, each{};
  int pieces_per_bar = 0;  // where whole bars are charged, or the ends of sawn lengths
  Amount whole_bar{};      // what each costs, overhead included
  Amount by_bar{};         // what of `each` that replaces
  double credit_share = 0;
  PriceStatus status = PriceStatus::no_price;
};

struct Quote {
  Quote();  // written once, in quote.cpp, not in every file that copies one
  Quote(const Quote&);
  Quote(Quote&&) noexcept;
  Quote& operator=(const Quote&);
  Quote& operator=(Quote&&) noexcept;
  ~Quote();

  std::string method;  // as its records are called; empty: the planner's rule alone
  Route route;
  RouteTimes times;
  model::LotInputs<double> lot;  // quantity is set per price
  MaterialCost material;
  double service_level = 0;  // of lots that have enough good pieces; 0: by the scrap shares
  std::vector<OneOffLine> one_offs;
  std::vector<Price> prices;
  Messages unconfirmed;
  Messages cautions;  // of the route, and the exchange rates that amounts were converted by
  std::string currency;
  Message rate;      // an hour of the machine and what it contains
  Message delivery;  // the day that a plan of the week lets us promise; empty: not asked
  bool split_rate = false;
};

/// Costs a feasible route at the part's quantities.
Quote make_quote(const Route& route, const Shop& shop);
/// What nobody has confirmed: prices, and how the drawing was read.
Messages to_confirm(const Quote& quote);
/// The price at one quantity, without the rule that a list never rises.
Price price_at(const Quote& quote, const Shop& shop, int quantity);
/// The steps that wear one tool's edge, of all operations in their order: its edges are charged
/// once.
struct EdgeUse {
  std::string tool;
  std::vector<std::size_t> steps;  // of all steps of the route, in order
};
std::vector<EdgeUse> edge_uses(const Route& route, const RouteTimes& times);

/// What is known of a lot of this quantity: its pieces for a service level, what is learned.
model::LotInputs<double> lot_of(const Quote& quote, int quantity);
/// The price each of a quantity that comes in so many equal lots, first-time work done once.
Money each_in_lots(const Quote& quote, const Shop& shop, int quantity, int lots);
/// The unrounded lines of a lot, in money.
model::LotLines<double> lot_lines(const Quote& quote, int quantity);
/// Their sum.
Amount lot_cost(const Quote& quote, int quantity);
/// The same of one quantity after another, without copying what a lot costs by each time.
class LotCosts {
 public:
  explicit LotCosts(const Quote& quote);
  Amount at(int quantity);

 private:
  const Quote* quote_;
  model::LotInputs<double> lot_;
  bool plain_;  // nothing of the lot but its quantity follows the quantity
};
/// Machine time of a lot, the setup of every release included: what the machine is taken for.
Time lot_machine_time(const Quote& quote, int quantity);
/// What a lot that brings `income` leaves for an hour of the machine once material, inserts and
/// outside work are paid, at its lot_machine_time; 0 without machine time.
Rate contribution_per_hour(const Quote& quote, int quantity, Money income);
/// The quantity that questions, reasons and sensitivities are asked at: the middle one of the part.
int main_quantity(const Part& part);
/// How many operations, from the first, come before the work that follows roughing: both ends are
/// roughed, it goes out, both are finished. 0 where no work follows roughing.
std::size_t roughing_operations(const Route& route);
/// No price each of a list rises with the quantity: a running maximum from the largest down. What
/// is fixed by hand stays.
void never_rising(std::vector<Price>& prices, const Part& part);
/// The next larger one that is delivered in as many lots: no price is higher than that of a smaller
/// quantity. Nothing where there is none.
std::optional<std::size_t> next_alike(const std::vector<Price>& prices, std::size_t index);

/// Adds to what is not confirmed when the material's price is older, on the day of the request,
/// than the policy lets pass, or dated after it.
void mark_old_price(Quote& quote, Date on, const Policy& policy);

/// Where to offer the next quantity of the list instead, in its order.
std::vector<LargerForLess> larger_for_less(const std::vector<Price>& prices);

}  // namespace turnwright
