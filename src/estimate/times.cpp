// SPDX-License-Identifier: MIT
#include "turnwright/estimate/times.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "turnwright/estimate/model.hpp"
#include "turnwright/figure/stock.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

class TimeEstimator {
 public:
  TimeEstimator(const Route& route, const Shop& shop)
      : route_(route), shop_(shop), machine_(route.machine), manual_(machine_.manual()) {}

  RouteTimes times() {
    out_.allowance = allowance_factor(shop_.policy) - 1;
    out_.operator_share = machine_.operator_share;
    for (const Operation& operation : route_.operations) {
      OperationTime t;
      std::string tool;
      for (const Step& step : operation.steps) t.steps.push_back(step_time(step, tool));
      elements(operation, t);
      total(t);
      out_.machine_each += t.machine;
      out_.person_each += t.person;
      out_.operations.push_back(std::move(t));
    }
    std::set<std::string> ready(machine_.mounted_tools.begin(), machine_.mounted_tools.end());
    for (std::size_t i = 0; i < out_.operations.size(); ++i) setup(i, ready);
    return std::move(out_);
  }

 private:
  Time element(std::string_view name) const { return shop_.element(name).on(machine_.kind); }
  Time ready(std::string_view name) const { return shop_.ready(name).on(machine_.kind); }

  // What a pass takes beside cutting and moving: dials, half-nuts, reversing.
  Time handling(StepKind kind, const Tool* tool) const {
    if (kind == StepKind::tap || (tool != nullptr && tool->kind == ToolKind::die))
      return element("tap and die");
    return element(kind == StepKind::thread ? "thread pass" : "pass");
  }
  PassTime pass_time(const Pass& pass, Time handling) const {
    PassTime t;
    t.cutting = model::pass_time(pass);
    auto n = [&](Length d) {
      if (pass.constant_speed) return pass.spindle;
      return d.si <= 0 ? pass.fastest : min(pass.surface_speed / (pi * d), pass.fastest);
    };
    t.start = n(pass.large_diameter);
    t.end = n(pass.motion == Motion::along ? pass.large_diameter : pass.small_diameter);
    if (pass.starts_path) t.moving = handling;
    if (pass.pecks > 0) t.moving += static_cast<double>(pass.pecks) * element("peck");
    if (!manual_ && pass.travel.si > 0)
      t.moving += pass.travel / machine_.rapid + machine_.acceleration_time;
    return t;
  }

  StepTime step_time(const Step& step, std::string& tool) {
    StepTime t;
    const Time hand = handling(step.kind, shop_.tool(step.tool));
    for (const Pass& pass : step.passes) {
      t.passes.push_back(pass_time(pass, hand));
      t.cutting += t.passes.back().cutting;
      t.moving += t.passes.back().moving;
    }
    // Each drill of a set is put into the tailstock by itself.
    if (step.tailstock)
      t.tool_change = element("tailstock tool");
    else if (step.tool != tool || step.kind == StepKind::drill)
      t.tool_change = element("change tool");
    tool = step.tool;
    t.speed_change =
        step.speed_changes * element("change speed") + step.feed_changes * element("change feed");
    const bool set_by_dial = step.kind == StepKind::finish || step.kind == StepKind::bore ||
                             step.kind == StepKind::groove;
    for (const std::size_t n : step.gauged) {
      const Surface& s = route_.job.surfaces[n];
      if (set_by_dial && s.toleranced && s.grade <= 10)
        t.trial_cuts += (s.grade <= 8 ? 2.0 : 1.0) * element("trial cut");
    }
    if (step.given) t.given = *step.given;
    edges(step, t);
    t.machine = t.cutting + t.fixed() + t.edge_change;
    return t;
  }

  void edges(const Step& step, StepTime& t) {
    const Tool* tool = shop_.tool(step.tool);
    if (tool == nullptr || t.cutting.si <= 0 || step.taylor_constant.si <= 0) return;
    t.life = figure::ToolLife::work_out<>(
                 {step.used.surface_speed, step.taylor_exponent, step.taylor_constant})
                 .life;
    t.edge_share = figure::EdgeShare::work_out<>({t.cutting, t.life}).share.si;
    t.edge_price = tool->price / static_cast<double>(std::max(tool->edges, 1));
    const bool fine = std::any_of(step.gauged.begin(), step.gauged.end(),
                                  [&](std::size_t n) { return route_.job.surfaces[n].grade <= 8; });
    t.edge_change_whole = shop_.edge_change(*tool, machine_.kind, fine);
    t.edge_change = t.edge_share * t.edge_change_whole;
  }

  Time load_time(Mass mass) const {
    const LoadTimes& load = shop_.load;
    const auto& times = manual_ ? load.manual : load.cnc;
    for (std::size_t i = 0; i < load.up_to.size(); ++i)
      if (mass.si <= load.up_to[i].si + 1e-9) return times[i];
    return element("crane");
  }

  void add(OperationTime& t, std::string name, Time machine, Time person, bool internal,
           Basis basis) {
    if (machine.si == 0 && person.si == 0) return;
    t.elements.push_back({std::move(name), machine, person, internal, basis});
  }
  void both(OperationTime& t, std::string name, std::string_view key) {
    const HandlingElement& e = shop_.element(key);
    add(t, std::move(name), e.on(machine_.kind), e.on(machine_.kind), false, e.source.basis);
  }

  void elements(const Operation& operation, OperationTime& t) {
    if (operation.from_bar) {
      both(t, "bar advance", "bar advance");
      const double parts = parts_per_bar();
      const HandlingElement& bar = shop_.element("new bar");
      add(t, "new bar, its share", bar.on(machine_.kind) / parts, bar.on(machine_.kind) / parts,
          false, bar.source.basis);
    } else {
      const Time load = load_time(operation.mass);
      add(t, "load and unload", load, load, false, shop_.load.source.basis);
      both(t, "door", "door");
    }
    if (operation.four_jaw && operation.clocked_fine) both(t, "clocked to 0.02", "true to 0.02");
    if (operation.four_jaw && !operation.clocked_fine)
      both(t, "trued to the rim", "true to the rim");
    if (operation.support == Support::chuck_and_centre) both(t, "centre in and out", "add centre");
    if (operation.steady || operation.follow)
      both(t, operation.follow ? "follow rest" : "steady rest", "steady");
    if (operation.mandrel) both(t, "mandrel in and out", "mandrel");
    if (operation.support == Support::between_centres)
      both(t, "centres and driver", "between centres");
    both(t, "start and stop", "start and stop");
    both(t, "blow off", "blow off");
    gauging(operation, t);
    deburring(operation, t);
    if (&operation == &route_.operations.back()) {
      const HandlingElement& pack = shop_.element("pack");
      add(t, "pack", Time(0.0), pack.on(machine_.kind), true, pack.source.basis);
    }
  }
  double parts_per_bar() const {
    const auto p = figure::PartsPerBar::work_out<>(
        {shop_.bars.bar_length, route_.job.part.overall, kerf_of(route_, shop_),
         route_.job.stock.facing_right, shop_.bars.bar_end});
    return std::max(1.0, p.parts.si);
  }
  void gauging(const Operation& operation, OperationTime& t) {
    const HandlingElement& diameter = shop_.element("gauge diameter");
    Time sum(0.0);
    for (const Step& step : operation.steps)
      for (const std::size_t n : step.gauged) {
        const Surface& s = route_.job.surfaces[n];
        const double share = s.gauge_share >= 0 ? s.gauge_share : shop_.gauging_share(s.grade);
        const bool thread = step.kind == StepKind::thread || step.kind == StepKind::tap;
        sum += share * element(thread       ? "gauge thread"
                               : s.inside() ? "gauge bore"
                                            : "gauge diameter");
      }
    sum += shop_.gauging_share(11) * element("gauge length");
    // Beside the cutting on CNC, at a standing spindle on a manual lathe.
    add(t, "gauging", manual_ ? sum : Time(0.0), sum, !manual_, diameter.source.basis);
    if (operation.check_all) {
      const Time runout = element("gauge runout");
      add(t, "gauging runout, every piece", manual_ ? runout : Time(0.0), runout, !manual_,
          diameter.source.basis);
    }
  }
  void deburring(const Operation& operation, OperationTime& t) {
    int edges = 0;
    bool parted = false;
    for (const Step& step : operation.steps) {
      for (const std::size_t n : step.gauged) edges += route_.job.surfaces[n].edges;
      parted = parted || step.kind == StepKind::part_off;
    }
    const HandlingElement& edge = shop_.element("deburr edge");
    const Time time = edges * edge.on(machine_.kind);
    add(t, "deburr, " + std::to_string(edges) + " edges", time, time, false, edge.source.basis);
    if (!parted) return;
    if (!machine_.parts_catcher) both(t, "catch the piece", "catch the piece");
    // An edge that was broken before parting leaves no burr.
    const auto& breaks = route_.job.part.outside.back().breaks;
    if (std::any_of(breaks.begin(), breaks.end(),
                    [](const EdgeBreak& b) { return b.side == Side::left; }))
      return;
    const Time hand = element("deburr parted edge");
    add(t, "deburr the parted edge by hand", manual_ ? hand : Time(0.0), hand, !manual_,
        edge.source.basis);
  }

  void total(OperationTime& t) {
    Time cutting(0.0), run(0.0);
    for (const StepTime& s : t.steps) {
      cutting += s.cutting;
      run += s.machine;
      if (manual_) t.attended_handling += s.machine - s.cutting;
    }
    const ChipShare& chips = shop_.chip_share(route_.job.material.short_chips);
    t.chip_share = manual_ ? chips.manual : chips.cnc;
    for (const ElementTime& e : t.elements)
      (e.internal ? t.internal : t.external_fixed) += e.internal ? e.person : e.machine;
    const Time clearing = t.chip_share * cutting;
    // What own records say beside the estimate, as an element of its own.
    if (const double factor = shop_.correction(machine_.name, false); factor != 1) {
      const Time external =
          t.external_fixed + clearing + out_.allowance * (t.external_fixed + t.attended_handling);
      const Time planned =
          model::clocked_time<double>(run, external, t.internal, machine_.operator_share).machine;
      const Time more = (factor - 1) * planned / (1 + out_.allowance);
      add(t, "own records, x" + readable(factor), more, more, false, Basis::own_records);
      t.external_fixed += more;
    }
    add(t, "chips", clearing, clearing, false, chips.source.basis);
    const Time allowance = out_.allowance * (t.external_fixed + t.attended_handling);
    add(t, "allowance: personal, fatigue, delay", allowance, allowance, false,
        policy_basis("allowance"));
    t.run = run;
    t.external = t.external_fixed + clearing + allowance;
    const auto both_clocks =
        model::clocked_time<double>(t.run, t.external, t.internal, machine_.operator_share);
    t.machine = both_clocks.machine;
    t.person = both_clocks.person;
  }
  Basis policy_basis(const std::string& name) const {
    const auto found = shop_.policy.sources.find(name);
    return found == shop_.policy.sources.end() ? Basis::typical : found->second.basis;
  }

  // ---- setup
  void setup(std::size_t i, std::set<std::string>& mounted) {
    const Operation& operation = route_.operations[i];
    OperationTime& t = out_.operations[i];
    auto put = [&](std::string name, Time time, std::string_view key) {
      if (time.si > 0)
        t.setup_elements.push_back(
            {std::move(name), time, time, false, shop_.ready(key).source.basis});
    };
    if (i == 0) {
      put("machine", ready("machine"), "machine");
      put("drawing and preparing", ready("drawing and preparing"), "drawing and preparing");
    } else {
      put("next operation", ready("next operation"), "next operation");
    }
    int tools = 0;
    for (const Step& step : operation.steps)
      if (!step.given && mounted.insert(step.tool).second) ++tools;
    put(std::to_string(tools) + " tools not standing", tools * ready("tool not mounted"),
        "tool not mounted");
    if (operation.face_plate)
      put("face plate", ready("face plate"), "face plate");
    else if (operation.four_jaw)
      put("four-jaw chuck", ready("four-jaw chuck"), "four-jaw chuck");
    else if (operation.collet)
      put("collet", ready("collet"), "collet");
    else if (operation.support != Support::between_centres)
      put("jaws", ready("jaws"), "jaws");
    if (operation.steady || operation.follow)
      put("steady or follow rest", ready("steady"), "steady");
    if (operation.mandrel) put("mandrel", ready("mandrel"), "mandrel");
    if (operation.jaws == Jaws::soft && !operation.four_jaw)
      put("soft jaws bored", ready("soft jaws bored"), "soft jaws bored");
    if (operation.support == Support::chuck_and_centre)
      put("tailstock", ready("tailstock"), "tailstock");
    if (operation.support == Support::between_centres)
      put("between centres", ready("between centres"), "between centres");
    int cones = 0;
    for (const Step& step : operation.steps)
      for (const std::size_t n : step.gauged) {
        const Surface& s = route_.job.surfaces[n];
        cones += route_.job.element_of(s).kind == ElementKind::cone ? 1 : 0;
      }
    put(std::to_string(cones) + " cones tried", cones * ready("compound slide set"),
        "compound slide set");
    if (operation.from_bar) put("bar feeder", ready("bar feeder"), "bar feeder");
    program(i, put);
    first_off(operation, t, put);
    for (const ElementTime& e : t.setup_elements) t.setup += e.machine;
    if (const double factor = shop_.correction(machine_.name, true); factor != 1) {
      const Time more = (factor - 1) * t.setup;
      t.setup_elements.push_back(
          {"own records, x" + readable(factor), more, more, false, Basis::own_records});
      t.setup += more;
    }
    t.setup_fixed = t.setup - t.first_off_cycles * t.machine;
    out_.setup += t.setup;
  }
  template <class Put>
  void program(std::size_t i, Put put) {
    if (route_.job.part.repeat) return;
    if (i == 0) put("program, first time", ready("program"), "program");
    std::size_t features = 0;
    for (const Step& step : route_.operations[i].steps) features += step.gauged.size();
    put("program, " + std::to_string(features) + " features, first time",
        static_cast<double>(features) * ready("program a feature"), "program a feature");
  }
  template <class Put>
  void first_off(const Operation& operation, OperationTime& t, Put put) {
    if (manual_) return;  // in the trial cuts
    // A first piece runs at half speed: a cycle more; proving a new program takes another.
    t.first_off_cycles = route_.job.part.repeat ? 1 : 2;
    put("first-off piece", t.machine, "first-off check of a size");
    if (!route_.job.part.repeat) put("proving the program, first time", t.machine, "program");
    int sizes = 0;
    for (const Step& step : operation.steps)
      for (const std::size_t n : step.gauged) sizes += route_.job.surfaces[n].toleranced ? 1 : 0;
    put("first-off check, " + std::to_string(sizes) + " sizes",
        sizes * ready("first-off check of a size"), "first-off check of a size");
  }

  const Route& route_;
  const Shop& shop_;
  const Machine& machine_;
  bool manual_;
  RouteTimes out_;
};

}  // namespace

double allowance_factor(const Policy& policy) {
  return figure::StandardTime::work_out<>(
             {1.0 * unit::s, 1.0, policy.allowance,
              policy.allowance_on_shift ? figure::AllowanceOn::shift : figure::AllowanceOn::work})
      .standard_time.si;
}

Length kerf_of(const Route& route, const Shop& shop) {
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      if (step.kind == StepKind::part_off) return step.to - step.from;
  return shop.bars.saw_kerf;
}

RouteTimes times_of(const Route& route, const Shop& shop) {
  return TimeEstimator(route, shop).times();
}

}  // namespace turnwright
