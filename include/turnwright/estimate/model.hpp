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

inline Time pass_time(const CutSegment& pass) {
  return pass_time<double>(pass.motion, pass.constant_speed,
                           {pass.large_diameter, pass.small_diameter, pass.path(), pass.swept},
                           pass.surface_speed, pass.feed,
                           pass.constant_speed ? pass.spindle : pass.fastest);
}

/// Machine and operator time of one operation from its parts. `run` is cutting and everything the
/// machine does by itself; `external` stops it; `internal` is done beside it. A person gives
/// `share` of the running time.
template <class N>
struct ClockedTime {
  TimeOf<N> machine, person;
};
template <class N>
ClockedTime<N> clocked_time(TimeOf<N> run, TimeOf<N> external, TimeOf<N> internal, Pure<N> share) {
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
/// Work done elsewhere, in the order of the route.
template <class N>
struct OutsideStage {
  AmountOf<N> each, minimum, fixed;  // by the piece with its least, and by the lot
  Pure<N> scrap;                     // of what goes in
  bool after_roughing = false;
};
template <class N>
struct LotInputs {
  Pure<N> quantity, scrap_share, setting_pieces;
  Pure<N> scrap_from;                  // smaller lots plan no piece for scrap
  Pure<N> releases = Pure<N>(N(1.0));  // equal lots that the quantity is called off in
  Pure<N> service_pieces =
      Pure<N>(N(0.0));                // run in a release for a service level; 0: by the shares
  Pure<N> learned = Pure<N>(N(1.0));  // mean time of the lot's pieces as a share of the planned
  TimeOf<N> setup_machine, setup_person, machine_each, person_each;
  TimeOf<N> rough_machine, rough_person;  // of these, before the work after roughing
  RateOf<N> machine_rate, person_rate;
  Pure<N> overhead;
  // A lot this small goes through both operations piece by piece, turned round at once: other
  // handling a piece, less setup. 0: never.
  Pure<N> turned_round_up_to;
  TimeOf<N> round_each, round_ready;
  std::vector<EdgeNeed<N>> edges;
  Pure<N> whole_edges_up_to;
  AmountOf<N> material_each;  // overhead included; without the bar where whole ones are charged
  Pure<N> pieces_per_bar = Pure<N>(N(0.0));  // 0: the length used is charged
  AmountOf<N> bar_each;                      // a whole bar
  std::vector<OutsideStage<N>> outside;
  Pure<N> outside_overhead;
  TimeOf<N> other_time_each, other_time_lot;      // own time, at the hour's rates
  AmountOf<N> one_off_each, one_off_lot;          // spread over pieces, in this first order
  TimeOf<N> one_off_time_each, one_off_time_lot;  // the same of own time
};
template <class N>
struct LotLines {
  Pure<N> pieces;  // run through in each release: good ones and scrap
  Pure<N> made;    // blanks of all releases: setting pieces too
  TimeOf<N> machine_each, person_each, setup_saved;
  TimeOf<N> machine_run, person_run;  // of all releases, without setup
  AmountOf<N> setup, machine, labour, inserts, material, other, outside, one_offs;
};

/// Pieces of one release by stage, from the good ones back.
template <class N>
struct StagePieces {
  Pure<N> roughed, finished;  // run before and after the work that follows roughing
  std::vector<Pure<N>> outside;
};
template <class N>
StagePieces<N> stage_pieces(const LotInputs<N>& in, Pure<N> good) {
  StagePieces<N> p;
  p.outside.assign(in.outside.size(), good);
  if (value_of(in.service_pieces.si) > 0) {
    // From a number to start with onwards, by what is to be expected.
    Pure<N> n = p.roughed = p.finished = in.service_pieces;
    for (const bool roughing : {true, false}) {
      for (std::size_t i = 0; i < in.outside.size(); ++i) {
        if (in.outside[i].after_roughing != roughing) continue;
        p.outside[i] = n;
        n = whole_up(n * (1.0 - in.outside[i].scrap));
      }
      if (!roughing) break;
      p.finished = n;
      if (!in.outside.empty()) n = whole_up(n * (1.0 - in.scrap_share));
    }
    return p;
  }
  Pure<N> n = good;
  for (const bool roughing : {false, true}) {
    for (std::size_t i = in.outside.size(); i-- > 0;)
      if (in.outside[i].after_roughing == roughing)
        n = p.outside[i] = whole_up(n / (1.0 - in.outside[i].scrap));
    if (roughing) break;
    n = p.finished = select(good < in.scrap_from, n, whole_up(n / (1.0 - in.scrap_share)));
  }
  p.roughed = n;
  return p;
}

template <class N>
LotLines<N> lot_lines(const LotInputs<N>& in) {
  LotLines<N> out;
  // What is one, or none, adds no term to a live formula.
  const bool releases = value_of(in.releases.si) > 1;
  auto of_all = [&](auto x) { return releases ? in.releases * x : x; };
  const Pure<N> good = releases ? in.quantity / in.releases : in.quantity;
  const StagePieces<N> stages = stage_pieces(in, good);
  out.pieces = stages.roughed;
  out.made = of_all(out.pieces + in.setting_pieces);
  const Pure<N> charged = 1.0 + in.overhead;
  auto cost = [](TimeOf<N> t, RateOf<N> r) { return figure::TimeCost::work_out<N>({t, r}).cost; };
  out.machine_each = in.machine_each;
  out.person_each = in.person_each;
  out.setup_saved = TimeOf<N>(N(0.0));
  if (value_of(in.turned_round_up_to.si) > 0) {
    const TimeOf<N> none(N(0.0));
    auto at_once = [&](TimeOf<N> t) { return select(good <= in.turned_round_up_to, t, none); };
    out.machine_each = in.machine_each + at_once(in.round_each);
    out.person_each = in.person_each + at_once(in.round_each);
    out.setup_saved = at_once(in.round_ready);
  }
  out.setup = of_all((cost(in.setup_machine - out.setup_saved, in.machine_rate) +
                      cost(in.setup_person - out.setup_saved, in.person_rate)) *
                     charged);
  const bool lost_between = value_of(in.rough_machine.si) > 0;
  auto run = [&](TimeOf<N> each, TimeOf<N> rough) {
    TimeOf<N> t = lost_between ? stages.finished * (each - rough) + stages.roughed * rough
                               : stages.roughed * each;
    if (value_of(in.learned.si) != 1.0) t = t * in.learned;
    return of_all(t);
  };
  out.machine_run = run(out.machine_each, in.rough_machine);
  out.person_run = run(out.person_each, in.rough_person);
  out.machine = cost(out.machine_run, in.machine_rate) * charged;
  out.labour = cost(out.person_run, in.person_rate) * charged;
  out.inserts = AmountOf<N>(N(0.0));
  for (const EdgeNeed<N>& edge : in.edges) {
    const Pure<N> shared = edge.share * out.pieces;
    // A small batch starts every tool on a fresh edge, and a larger one uses no fewer.
    const Pure<N> least =
        whole_up(edge.share * min(out.pieces, in.whole_edges_up_to / (1.0 - in.scrap_share)));
    out.inserts = out.inserts + max(shared, least) * edge.price;
  }
  out.inserts = of_all(out.inserts);
  out.material = out.made * in.material_each;
  if (value_of(in.pieces_per_bar.si) > 0)
    out.material = out.material + whole_up(out.made / in.pieces_per_bar) * in.bar_each;
  const RateOf<N> hour = in.machine_rate + in.person_rate;
  out.other =
      of_all(cost(stages.finished * in.other_time_each + in.other_time_lot, hour) * charged);
  out.outside = AmountOf<N>(N(0.0));
  for (std::size_t i = 0; i < in.outside.size(); ++i) {
    const auto& [each, minimum, fixed, scrap, after_roughing] = in.outside[i];
    out.outside = out.outside + figure::OutsideCharge::work_out<N>(
                                    {stages.outside[i], each, minimum, fixed, in.outside_overhead})
                                    .charge;
  }
  out.outside = of_all(out.outside);
  out.one_offs = in.quantity * in.one_off_each + in.one_off_lot +
                 cost(in.quantity * in.one_off_time_each + in.one_off_time_lot, hour) * charged;
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
