// SPDX-License-Identifier: MIT
// The rows that the cost of a lot rests on, and how far each may be off.
#include <cmath>

#include "turnwright/estimate/band.hpp"
#include "turnwright/figure/sure_quantity.hpp"
#include "turnwright/shop/policy_rows.hpp"

namespace turnwright {
namespace {

double band_of(const Policy& policy, Basis basis) {
  const auto found = policy.bands.find(basis);
  return found == policy.bands.end() ? 0.3 : found->second;
}
// A record's own band, else the one of its basis.
double band_of(const Policy& policy, const Source& source) {
  return source.band ? *source.band : band_of(policy, source.basis);
}

// Of the cycle time.
struct RunningShares {
  double cutting = 0, given = 0;
};
RunningShares running_shares(const RouteTimes& times) {
  Time cutting(0.0), all(0.0), given(0.0);
  for (const OperationTime& operation : times.operations) {
    all += operation.machine;
    for (const StepTime& step : operation.steps) {
      cutting += step.cutting;
      given += step.given;
    }
  }
  if (all.si <= 0) return {};
  return {(cutting / all).si, (given / all).si};
}

const Source& source_of_speeds(const Material& material, const Shop& shop) {
  static const Source unknown;
  const CuttingGroup* group = shop.cutting_group(material.group);
  return group == nullptr ? unknown : group->source;
}

// How booked times of the machine lie about the estimate; null where they do not say.
const Correction* booked_spread(const Quote& quote, const Shop& shop, bool setup) {
  for (const Correction& c : shop.corrections)
    if (c.machine == quote.route.machine.name && c.setup == setup && c.spread > 1) return &c;
  return nullptr;
}

class BandRows {
 public:
  BandRows(const Quote& quote, const Shop& shop, int quantity)
      : quote_(quote),
        shop_(shop),
        policy_(shop.policy),
        lot_(lot_of(quote, quantity)),
        lines_(model::lot_lines(lot_)),
        first_plan_(quote.route.job.part.repeat ? 0 : policy_.planning_error) {}

  std::vector<BandRow> with_shortage(Amount each) && {
    add_times();
    add_bought();
    add_shortage(each);
    return std::move(rows_);
  }

 private:
  BandRow* add(BandRowId id, Amount amount, double band, Basis basis, SharedError shared) {
    if (amount.si <= 0) return nullptr;
    BandRow row;
    row.row = id;
    row.amount = amount;
    row.band = band;
    row.basis = basis;
    row.upward = policy_.upward;
    row.of(shared) = shared == SharedError::prices ? policy_.common_error_of_prices
                                                   : policy_.common_error_of_times;
    rows_.push_back(row);
    return &rows_.back();
  }
  BandRow* add(BandRowId id, Amount amount, Basis basis, SharedError shared) {
    return add(id, amount, band_of(policy_, basis), basis, shared);
  }
  // Planned work: by the bands of its source and the first plan, or as booked times have it, all
  // errors in one. `share` is what setup has of the error of running.
  void add_planned(BandRowId id, Amount amount, const Source& source, const Correction* booked,
                   double share) {
    BandRow* row = add(id, amount, band_of(policy_, source), source.basis, SharedError::times);
    if (row == nullptr) return;
    row->of(SharedError::first_plan) = first_plan_;
    if (booked == nullptr) return;
    const double wide = band_of_spread(std::log(booked->spread));
    row->shared = {};
    row->of(SharedError::booked) = wide * share;
    row->band = wide * std::sqrt(1 - share * share);
    row->basis = Basis::own_records;
    row->upward = 1;
  }
  void add_times() {
    const RunningShares shares = running_shares(quote_.times);
    const Amount running = lines_.machine + lines_.labour;
    const Correction *setup = booked_spread(quote_, shop_, true),
                     *run = booked_spread(quote_, shop_, false);
    add_planned(BandRowId::setup_times, lines_.setup, shop_.setup_element(SetupId::machine).source,
                setup, setup == nullptr ? 0 : setup->with_running);
    add_planned(BandRowId::cutting_speeds_and_feeds, running * shares.cutting,
                source_of_speeds(quote_.route.job.material, shop_), run, 1);
    add_planned(BandRowId::handling_times, running * (1 - shares.cutting - shares.given),
                shop_.load.source, run, 1);
    add(BandRowId::given_times, running * shares.given, Basis::given, SharedError::times);
    add(BandRowId::other_work, lines_.other, Basis::given, SharedError::times);
  }
  void add_bought() {
    add(BandRowId::inserts, lines_.inserts, Basis::from_memory, SharedError::prices);
    const Source& price = quote_.route.job.material.source;
    const bool known = quote_.material.status == PriceStatus::confirmed &&
                       !quote_.route.job.stock.price_is_guessed();
    const Basis priced = known ? Basis::found : Basis::typical;
    add(BandRowId::material_price, lines_.material,
        price.band ? *price.band : band_of(policy_, priced), priced, SharedError::prices);
    add(BandRowId::outside_work, lines_.outside, Basis::given, SharedError::prices);
    add(BandRowId::one_offs, lines_.one_offs, Basis::given, SharedError::prices);
  }
  // A piece too few is not invoiced; the cost of all that were run stands.
  void add_shortage(Amount each) {
    double yield = 1 - lot_.scrap_share.si;
    for (const auto& stage : lot_.outside) yield *= 1 - stage.scrap.si;
    BandRow row;
    row.row = BandRowId::scrap;
    row.basis = policy_.basis_of(scrap_share_row);
    row.missing = each;
    row.short_by =
        figure::chances_of_shortage(lot_.quantity.si, (lot_.releases * lines_.pieces).si, yield);
    if (row.short_by.size() > 1) rows_.push_back(std::move(row));
  }

  const Quote& quote_;
  const Shop& shop_;
  const Policy& policy_;
  model::LotInputs<double> lot_;
  model::LotLines<double> lines_;
  double first_plan_;
  std::vector<BandRow> rows_;
};

}  // namespace

std::vector<BandRow> band_rows(const Quote& quote, const Shop& shop, int quantity, Amount each) {
  return BandRows(quote, shop, quantity).with_shortage(each);
}

}  // namespace turnwright
