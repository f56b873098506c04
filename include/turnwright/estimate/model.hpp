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

/// What the time of a stretch of a pass depends on beside speed and feed.
template <class N>
struct PassCells {
  LengthOf<N> large_diameter, small_diameter, path;
  AreaOf<N> swept;
};

/// The cutting time of a stretch. `spindle` is the lever's speed at constant spindle speed, else
/// the fastest that the machine allows.
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

inline PassCells<double> cells_of(const CutSegment& s) {
  return {s.large_diameter, s.small_diameter, s.path(), s.swept};
}
inline Time pass_time(const CutSegment& s) {
  return pass_time<double>(s.motion, s.constant_speed, cells_of(s), s.surface_speed, s.feed,
                           s.constant_speed ? s.spindle : s.fastest);
}

/// The surface speed that a stretch along the axis is cut with; of an arc the mean, its surface
/// over its length (Pappus).
template <class N>
SpeedOf<N> real_speed(Motion motion, bool constant_speed, const PassCells<N>& pass, SpeedOf<N> v,
                      FrequencyOf<N> spindle) {
  const SpeedOf<N> at_spindle =
      motion == Motion::arc
          ? pass.swept / pass.path * spindle
          : figure::SurfaceSpeed::work_out<N>({pass.large_diameter, spindle}).surface_speed;
  return constant_speed ? at_spindle : min(v, at_spindle);
}
inline Speed real_speed(const CutSegment& s) {
  return real_speed<double>(s.motion, s.constant_speed, cells_of(s), s.surface_speed,
                            s.constant_speed ? s.spindle : s.fastest);
}

/// The minutes at the wanted speed `v` that wear an edge as the stretch does at the speeds that its
/// spindle gives: no lathe runs faster than it can, and a geared one has steps. Under a skin the
/// wanted speed is the one that the edge lasts as long at.
template <class N>
TimeOf<N> wear_time(Motion motion, bool constant_speed, const PassCells<N>& pass, SpeedOf<N> v,
                    LengthOf<N> feed, FrequencyOf<N> spindle, TimeOf<N> cutting, Pure<N> exponent) {
  const auto& [D, d, path, swept] = pass;
  const bool changes = value_of(D.si) - value_of(d.si) > same_point;
  if (motion == Motion::across && changes) {
    if (constant_speed)
      return figure::WearTimeOneSpindleSpeed::work_out<N>({D, d, path, feed, spindle, v, exponent})
          .time;
    return figure::WearTimeSlopedPath::work_out<N>({D, d, path, feed, v, spindle, exponent}).time;
  }
  const SpeedOf<N> real = real_speed(motion, constant_speed, pass, v, spindle);
  return figure::WearTime::work_out<N>({cutting, real, v, exponent}).time;
}

inline Time wear_time(const CutSegment& s, Time cutting, double exponent) {
  return wear_time<double>(s.motion, s.constant_speed, cells_of(s), s.surface_speed, s.feed,
                           s.constant_speed ? s.spindle : s.fastest, cutting, Number(exponent));
}

/// Machine and operator time of one operation from its parts. `run` is cutting and everything the
/// machine does by itself; `external` stops it; `internal` is done beside it; `away` by the person
/// alone, where the machine waits for nobody. A person gives `share` of the running time.
template <class N>
struct ClockedTime {
  TimeOf<N> machine, person;
};
template <class N>
ClockedTime<N> clocked_time(TimeOf<N> run, TimeOf<N> external, TimeOf<N> internal, TimeOf<N> away,
                            Pure<N> share) {
  // Internal work lengthens the cycle only when it exceeds it.
  const TimeOf<N> beside = internal + away;
  return {external + max(run, internal), external + max(beside, min(run, share * run + beside))};
}

template <class N>
struct EdgeNeed {
  Pure<N> share;      // of an edge, per piece
  AmountOf<N> price;  // of an edge
};
/// Work of another firm, in the order of the route.
template <class N>
struct OutsideStage {
  AmountOf<N> each, minimum, fixed;  // by the piece with its least, and by the lot
  Pure<N> scrap;                     // of what goes in
  bool after_roughing = false;
};
/// What a lot costs by: quantities, times, rates and prices, with nothing of shop or part.
template <class N>
struct LotInputs {
  Pure<N> quantity, scrap_share, setting_pieces;
  Pure<N> scrap_from;                  // smaller lots plan no piece for scrap
  Pure<N> releases = Pure<N>(N(1.0));  // equal lots that it is delivered in
  Pure<N> service_pieces =
      Pure<N>(N(0.0));                // run in a release for a service level; 0: by the shares
  Pure<N> learned = Pure<N>(N(1.0));  // mean time of the lot's pieces as a share of the planned
  TimeOf<N> setup_machine, setup_person, machine_each, person_each;
  TimeOf<N> first_time;                   // of the setup, what a repeat order has none of
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
  TimeOf<N> other_time_each, other_time_lot;  // own time, at the hour's rates
  // Own time on other machines, by their own hours, with all that is in them.
  AmountOf<N> other_cost_each = AmountOf<N>(N(0.0)), other_cost_lot = AmountOf<N>(N(0.0));
  AmountOf<N> one_off_each, one_off_lot;          // bought, by the piece and in this first order
  TimeOf<N> one_off_time_each, one_off_time_lot;  // the same of own time
};
/// What a lot takes and costs, unrounded.
template <class N>
struct LotLines {
  Pure<N> pieces;  // run through in each release: good ones and scrap
  Pure<N> made;    // blanks of all releases: setting pieces too
  TimeOf<N> machine_each, person_each, setup_saved;
  TimeOf<N> machine_setup, person_setup;  // of all releases
  TimeOf<N> machine_run, person_run;      // of all releases, without setup
  AmountOf<N> setup, machine, labour, inserts, material, other, outside, one_offs;
};

/// Pieces of one release by stage, from the good ones back.
template <class N>
struct StagePieces {
  Pure<N> roughed, finished;  // run before and after the work that follows roughing
  std::vector<Pure<N>> outside;
};
/// From a number to start with onwards, by what is to be expected.
template <class N>
StagePieces<N> stages_from_start(const LotInputs<N>& in, Pure<N> good) {
  StagePieces<N> p;
  p.outside.assign(in.outside.size(), good);
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
template <class N>
StagePieces<N> stage_pieces(const LotInputs<N>& in, Pure<N> good) {
  if (value_of(in.service_pieces.si) > 0) return stages_from_start(in, good);
  StagePieces<N> p;
  p.outside.assign(in.outside.size(), good);
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
AmountOf<N> time_cost(TimeOf<N> t, RateOf<N> r) {
  return figure::TimeCost::work_out<N>({t, r}).cost;
}

/// What stands once for each release, for all of them. What is one, or none, adds no term to a live
/// formula.
template <class N, class X>
X of_all_releases(const LotInputs<N>& in, X x) {
  return value_of(in.releases.si) > 1 ? in.releases * x : x;
}

/// Times a piece, and the setup that is saved, where the lot is turned round piece by piece.
template <class N>
void turn_round(const LotInputs<N>& in, Pure<N> good, LotLines<N>& out) {
  out.machine_each = in.machine_each;
  out.person_each = in.person_each;
  out.setup_saved = TimeOf<N>(N(0.0));
  if (value_of(in.turned_round_up_to.si) <= 0) return;
  const TimeOf<N> none(N(0.0));
  auto at_once = [&](TimeOf<N> t) { return select(good <= in.turned_round_up_to, t, none); };
  out.machine_each = in.machine_each + at_once(in.round_each);
  out.person_each = in.person_each + at_once(in.round_each);
  out.setup_saved = at_once(in.round_ready);
}

/// Setup of all releases; what is done for the first time is done in the first of them.
template <class N>
TimeOf<N> setup_time(const LotInputs<N>& in, TimeOf<N> once) {
  const TimeOf<N> all = of_all_releases(in, once);
  if (value_of(in.releases.si) <= 1 || value_of(in.first_time.si) <= 0) return all;
  return all - (in.releases - 1.0) * in.first_time;
}

/// The lot's time of one clock; `rough`: of `each`, before the work after roughing.
template <class N>
TimeOf<N> lot_time(const LotInputs<N>& in, const StagePieces<N>& stages, TimeOf<N> each,
                   TimeOf<N> rough) {
  const bool lost_between = value_of(in.rough_machine.si) > 0;
  TimeOf<N> t = lost_between ? stages.finished * (each - rough) + stages.roughed * rough
                             : stages.roughed * each;
  if (value_of(in.learned.si) != 1.0) t = t * in.learned;
  return of_all_releases(in, t);
}

template <class N>
AmountOf<N> insert_cost(const LotInputs<N>& in, Pure<N> pieces) {
  AmountOf<N> inserts(N(0.0));
  for (const EdgeNeed<N>& edge : in.edges) {
    const Pure<N> shared = edge.share * pieces;
    // A small batch starts every tool on a fresh edge, and a larger one uses no fewer.
    const Pure<N> least =
        whole_up(edge.share * min(pieces, in.whole_edges_up_to / (1.0 - in.scrap_share)));
    inserts = inserts + max(shared, least) * edge.price;
  }
  return of_all_releases(in, inserts);
}

/// Own work beside the turning; the overhead is that of the lathe's hour.
template <class N>
AmountOf<N> other_cost(const LotInputs<N>& in, const StagePieces<N>& stages) {
  const RateOf<N> hour = in.machine_rate + in.person_rate;
  AmountOf<N> cost = time_cost<N>(stages.finished * in.other_time_each + in.other_time_lot, hour) *
                     (1.0 + in.overhead);
  if (value_of(in.other_cost_each.si) > 0 || value_of(in.other_cost_lot.si) > 0)
    cost = cost + stages.finished * in.other_cost_each + in.other_cost_lot;
  return of_all_releases(in, cost);
}

template <class N>
AmountOf<N> outside_cost(const LotInputs<N>& in, const StagePieces<N>& stages) {
  AmountOf<N> charged(N(0.0));
  for (std::size_t i = 0; i < in.outside.size(); ++i) {
    const auto& [each, minimum, fixed, scrap, after_roughing] = in.outside[i];
    charged = charged + figure::OutsideCharge::work_out<N>(
                            {stages.outside[i], each, minimum, fixed, in.outside_overhead})
                            .charge;
  }
  return of_all_releases(in, charged);
}

/// Of what is paid once: bought with the overhead on outside work, own time at the hour's rates.
template <class N>
AmountOf<N> one_off_cost(const LotInputs<N>& in, AmountOf<N> bought, TimeOf<N> own) {
  return bought * (1.0 + in.outside_overhead) +
         time_cost<N>(own, in.machine_rate + in.person_rate) * (1.0 + in.overhead);
}

template <class N>
LotLines<N> lot_lines(const LotInputs<N>& in) {
  LotLines<N> out;
  const Pure<N> good = value_of(in.releases.si) > 1 ? in.quantity / in.releases : in.quantity;
  const StagePieces<N> stages = stage_pieces(in, good);
  out.pieces = stages.roughed;
  out.made = of_all_releases(in, out.pieces + in.setting_pieces);
  const Pure<N> charged = 1.0 + in.overhead;
  turn_round(in, good, out);
  out.machine_setup = setup_time(in, in.setup_machine - out.setup_saved);
  out.person_setup = setup_time(in, in.setup_person - out.setup_saved);
  out.setup = (time_cost<N>(out.machine_setup, in.machine_rate) +
               time_cost<N>(out.person_setup, in.person_rate)) *
              charged;
  out.machine_run = lot_time(in, stages, out.machine_each, in.rough_machine);
  out.person_run = lot_time(in, stages, out.person_each, in.rough_person);
  out.machine = time_cost<N>(out.machine_run, in.machine_rate) * charged;
  out.labour = time_cost<N>(out.person_run, in.person_rate) * charged;
  out.inserts = insert_cost(in, out.pieces);
  out.material = out.made * in.material_each;
  if (value_of(in.pieces_per_bar.si) > 0)
    out.material = out.material + whole_up(out.made / in.pieces_per_bar) * in.bar_each;
  out.other = other_cost(in, stages);
  out.outside = outside_cost(in, stages);
  out.one_offs = one_off_cost<N>(in, in.quantity * in.one_off_each + in.one_off_lot,
                                 in.quantity * in.one_off_time_each + in.one_off_time_lot);
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
