// SPDX-License-Identifier: MIT
#pragma once
// The arithmetic of times and money, once, for any number type: with double it is the engine, with
// the recording number it writes the workbook's live formulas.
#include <vector>

#include "turnwright/figure/money.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/figure/times.hpp"
#include "turnwright/figure/tool_life.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright::model {

/// What a pass's time depends on beside speed and feed.
template <class N>
struct PassCells {
  LengthOf<N> large_diameter, small_diameter, path;
  AreaOf<N> swept;
};

/// The cutting time of a pass. `spindle` is the lever's speed on a pass at constant spindle speed,
/// else the clamp.
template <class N>
TimeOf<N> pass_time(Motion motion, bool constant_speed, const PassCells<N>& pass, SpeedOf<N> v,
                    LengthOf<N> feed, FrequencyOf<N> spindle) {
  if (motion == Motion::across && !constant_speed)
    return figure::SlopedPathTime::work_out<N>(
               {pass.large_diameter, pass.small_diameter, pass.path, feed, v, spindle})
        .time;
  if (motion == Motion::arc && !constant_speed)
    return figure::CurvedPathTime::work_out<N>({pass.swept, pass.path, feed, v, spindle}).time;
  FrequencyOf<N> n = spindle;
  if (!constant_speed)
    n = min(figure::SpindleSpeed::work_out<N>({v, pass.large_diameter}).spindle_speed, spindle);
  // Approach and overrun are part of the path.
  const LengthOf<N> none(N(0.0));
  return figure::TurningTime::work_out<N>({pass.path, feed, n, Pure<N>(N(1.0)), none, none}).time;
}

inline Time pass_time(const Pass& pass) {
  return pass_time<double>(pass.motion, pass.constant_speed,
                           {pass.large_diameter, pass.small_diameter, pass.path(), pass.swept},
                           pass.surface_speed, pass.feed,
                           pass.constant_speed ? pass.spindle : pass.fastest);
}

/// Machine and operator time of one holding from its parts. `run` is cutting and everything the
/// machine does by itself; `external` stops it; `internal` is done beside it. A person gives
/// `share` of the running time.
template <class N>
struct HoldingTime {
  TimeOf<N> machine, person;
};
template <class N>
HoldingTime<N> holding_time(TimeOf<N> run, TimeOf<N> external, TimeOf<N> internal, Pure<N> share) {
  // Internal work lengthens the cycle only when it exceeds it.
  return {external + max(run, internal),
          external + max(internal, min(run, share * run + internal))};
}

/// What one lot of a quantity costs and brings.
template <class N>
struct EdgeNeed {
  Pure<N> share;      // of an edge a piece
  AmountOf<N> price;  // of an edge
};
template <class N>
struct LotInputs {
  Pure<N> quantity, scrap_share, setting_pieces;
  Pure<N> scrap_from;  // smaller lots plan no piece for scrap
  TimeOf<N> make_ready_machine, make_ready_person, machine_each, person_each;
  RateOf<N> machine_rate, person_rate;
  Pure<N> overhead;
  // A lot this small goes through both holdings piece by piece, turned round at once: other
  // handling a piece, less make-ready. 0: never.
  Pure<N> turned_round_up_to;
  TimeOf<N> round_each, round_ready;
  std::vector<EdgeNeed<N>> edges;
  Pure<N> whole_edges_up_to;
  AmountOf<N> material_each;                  // overhead included
  AmountOf<N> other_each, other_lot;          // bought, its overhead included
  TimeOf<N> other_time_each, other_time_lot;  // own time, at the hour's rates
};
template <class N>
struct LotLines {
  Pure<N> pieces;  // run through: good ones and scrap
  Pure<N> made;    // blanks: setting pieces too
  TimeOf<N> machine_each, person_each, make_ready_saved;
  AmountOf<N> make_ready, machine, labour, edges, material, other;
};
template <class N>
LotLines<N> lot_lines(const LotInputs<N>& in) {
  LotLines<N> out;
  out.pieces = select(in.quantity < in.scrap_from, in.quantity,
                      whole_up(in.quantity / (1.0 - in.scrap_share)));
  out.made = out.pieces + in.setting_pieces;
  const Pure<N> charged = 1.0 + in.overhead;
  auto cost = [](TimeOf<N> t, RateOf<N> r) { return figure::TimeCost::work_out<N>({t, r}).cost; };
  out.machine_each = in.machine_each;
  out.person_each = in.person_each;
  out.make_ready_saved = TimeOf<N>(N(0.0));
  if (value_of(in.turned_round_up_to.si) > 0) {
    const TimeOf<N> none(N(0.0));
    auto at_once = [&](TimeOf<N> t) {
      return select(in.quantity <= in.turned_round_up_to, t, none);
    };
    out.machine_each = in.machine_each + at_once(in.round_each);
    out.person_each = in.person_each + at_once(in.round_each);
    out.make_ready_saved = at_once(in.round_ready);
  }
  out.make_ready = (cost(in.make_ready_machine - out.make_ready_saved, in.machine_rate) +
                    cost(in.make_ready_person - out.make_ready_saved, in.person_rate)) *
                   charged;
  out.machine = cost(out.pieces * out.machine_each, in.machine_rate) * charged;
  out.labour = cost(out.pieces * out.person_each, in.person_rate) * charged;
  out.edges = AmountOf<N>(N(0.0));
  for (const EdgeNeed<N>& edge : in.edges) {
    const Pure<N> shared = edge.share * out.pieces;
    // A small batch starts every tool on a fresh edge, and a larger one uses no fewer.
    const Pure<N> least =
        whole_up(edge.share * min(out.pieces, in.whole_edges_up_to / (1.0 - in.scrap_share)));
    out.edges = out.edges + max(shared, least) * edge.price;
  }
  out.material = out.made * in.material_each;
  const RateOf<N> hour = in.machine_rate + in.person_rate;
  out.other = out.pieces * in.other_each + in.other_lot +
              cost(out.pieces * in.other_time_each + in.other_time_lot, hour) * charged;
  return out;
}

/// The unrounded price of one piece of a lot.
template <class N>
AmountOf<N> price_each(AmountOf<N> cost, Pure<N> quantity, Pure<N> margin, bool markup) {
  const AmountOf<N> each = cost / quantity;
  return markup ? figure::PriceFromMarkup::work_out<N>({each, margin}).price
                : figure::PriceFromMargin::work_out<N>({each, margin}).price;
}

}  // namespace turnwright::model
