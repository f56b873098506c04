// SPDX-License-Identifier: MIT
// What each piece takes beside the steps: loading, clamping, gauging, deburring.
#include <algorithm>

#include "time_context.hpp"
#include "turnwright/figure/stock.hpp"
#include "turnwright/route/fitted_taper.hpp"

namespace turnwright {
namespace {

class PieceElements {
 public:
  explicit PieceElements(const TimeContext& c) : c_(c) {}

  // A row of the handling table that stops the machine.
  void row(ElementId id, HandlingId row) {
    external(id, c_.element(row), c_.shop.element(row).source.basis);
  }
  void external(ElementId id, Time time, Basis basis, int count = 0) {
    add({id, count, 1, time, time, false, basis});
  }
  // Beside the cutting on CNC, at a standing spindle on a manual lathe.
  void beside_cutting(ElementId id, Time time, Basis basis) {
    add({id, 0, 1, c_.manual() ? time : Time(0.0), time, !c_.manual(), basis});
  }
  // Where the machine does not wait for it.
  void away(ElementId id, HandlingId row) {
    add({id, 0, 1, Time(0.0), c_.element(row), false, c_.shop.element(row).source.basis, true});
  }
  void add(const ElementTime& element) {
    if (element.machine.si != 0 || element.person.si != 0) list_.push_back(element);
  }
  std::vector<ElementTime> list() && { return std::move(list_); }

 private:
  const TimeContext& c_;
  std::vector<ElementTime> list_;
};

double parts_per_bar(const TimeContext& c) {
  const Job& job = c.route.job;
  const auto p = figure::PartsPerBar::work_out<>({c.shop.bars.bar_length, job.part.overall,
                                                  kerf_of(c.route, c.shop), job.stock.facing_right,
                                                  c.shop.bars.bar_end});
  return std::max(1.0, p.parts.si);
}

Time load_time(const TimeContext& c, Mass mass) {
  const LoadTimes& load = c.shop.load;
  const auto& times = c.manual() ? load.manual : load.cnc;
  for (std::size_t i = 0; i < load.up_to.size(); ++i)
    if (mass.si <= load.up_to[i].si + 1e-9) return times[i];
  return c.element(HandlingId::crane);
}

void loading(const TimeContext& c, const Operation& operation, PieceElements& out) {
  if (!operation.from_bar) {
    out.external(ElementId::load_and_unload,
                 load_time(c, operation.mass) / static_cast<double>(operation.pieces),
                 c.shop.load.source.basis);
    return out.row(ElementId::door, HandlingId::door);
  }
  out.row(ElementId::bar_advance, HandlingId::bar_advance);
  out.external(ElementId::new_bar, c.element(HandlingId::new_bar) / parts_per_bar(c),
               c.shop.element(HandlingId::new_bar).source.basis);
}

void clamping(const Operation& operation, PieceElements& out) {
  if (operation.four_jaw && operation.clocked_fine)
    out.row(ElementId::clocked, HandlingId::true_to_002);
  if (operation.four_jaw && !operation.clocked_fine)
    out.row(ElementId::trued_to_the_rim, HandlingId::true_to_the_rim);
  if (operation.support == Support::chuck_and_centre)
    out.row(ElementId::centre, HandlingId::add_centre);
  if (operation.follow) out.row(ElementId::follow_rest, HandlingId::steady);
  if (operation.steady) out.row(ElementId::steady_rest, HandlingId::steady);
  if (operation.drawn_in) out.row(ElementId::drawn_out, HandlingId::draw_out);
  if (operation.mandrel) out.row(ElementId::mandrel, HandlingId::mandrel);
  if (operation.support == Support::between_centres)
    out.row(ElementId::centres_and_driver, HandlingId::between_centres);
}

Time gauge_time(const TimeContext& c, const Step& step, const Surface& s) {
  if (step.kind == StepKind::thread || step.kind == StepKind::tap)
    return c.element(HandlingId::gauge_thread);
  const bool by_gauge = s.inside() || is_fitted_taper(c.route.job.element_of(s));
  return c.element(by_gauge ? HandlingId::gauge_bore : HandlingId::gauge_diameter);
}

void gauging(const TimeContext& c, const Operation& operation, PieceElements& out) {
  const Basis basis = c.shop.element(HandlingId::gauge_diameter).source.basis;
  Time sum(0.0);
  for (const Step& step : operation.steps)
    for (const std::size_t n : step.gauged) {
      const Surface& s = c.surface(n);
      const double share = s.gauge_share >= 0 ? s.gauge_share : c.shop.gauging_share(s.grade);
      sum += share * gauge_time(c, step, s);
    }
  sum +=
      c.shop.gauging_share(c.shop.practice.lengths_gauged_as) * c.element(HandlingId::gauge_length);
  out.beside_cutting(ElementId::gauging, sum, basis);
  if (operation.check_all)
    out.beside_cutting(ElementId::gauging_runout, c.element(HandlingId::gauge_runout), basis);
}

// An edge that was broken before parting leaves no burr.
bool broken_before_parting(const Part& part) {
  const auto& breaks = part.outside.back().breaks;
  return std::any_of(breaks.begin(), breaks.end(),
                     [](const EdgeBreak& b) { return b.side == Side::left; });
}

void deburring(const TimeContext& c, const Operation& operation, PieceElements& out) {
  int edges = 0;
  bool parted = false;
  for (const Step& step : operation.steps) {
    for (const std::size_t n : step.gauged) edges += c.surface(n).edges;
    parted = parted || step.kind == StepKind::part_off;
  }
  const Basis basis = c.shop.element(HandlingId::deburr_edge).source.basis;
  out.external(ElementId::deburring, edges * c.element(HandlingId::deburr_edge), basis, edges);
  if (!parted) return;
  if (!c.machine().parts_catcher) out.row(ElementId::catch_the_piece, HandlingId::catch_the_piece);
  if (!broken_before_parting(c.route.job.part))
    out.beside_cutting(ElementId::deburring_parted_edge, c.element(HandlingId::deburr_parted_edge),
                       basis);
}

}  // namespace

std::vector<ElementTime> piece_elements(const TimeContext& c, const Operation& operation) {
  PieceElements out(c);
  loading(c, operation, out);
  clamping(operation, out);
  out.row(ElementId::start_and_stop, HandlingId::start_and_stop);
  out.row(ElementId::blow_off, HandlingId::blow_off);
  gauging(c, operation, out);
  deburring(c, operation, out);
  if (&operation == &c.route.operations.back()) out.away(ElementId::pack, HandlingId::pack);
  return std::move(out).list();
}

}  // namespace turnwright
