// SPDX-License-Identifier: MIT
#include <cmath>

#include "json/json.hpp"
#include "turnwright/output/words.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

// Points along an arc close enough that no chord misses it by more than 1e-6 m.
void add_points(Json& list, const Segment& s, double mirror_sign) {
  auto add = [&](double z, double r) {
    list.push_back({json_number(z * mirror_sign), json_number(r)});
  };
  add(s.from.z.si, s.from.r.si);
  if (s.bulge != Bulge::none) {
    const double R = s.radius.si;
    const double angle = length(s).si / R;
    const int n = std::max(
        2, static_cast<int>(std::ceil(angle / (2 * std::acos(std::max(-1.0, 1 - 0.9e-6 / R))))));
    // Equal steps of the angle, not of z.
    const double a = std::atan2(s.from.r.si - s.centre.r.si, s.from.z.si - s.centre.z.si);
    double b = std::atan2(s.to.r.si - s.centre.r.si, s.to.z.si - s.centre.z.si);
    if (b - a > pi) b -= 2 * pi;
    if (a - b > pi) b += 2 * pi;
    for (int i = 1; i < n; ++i) {
      const double t = a + (b - a) * i / n;
      add(s.centre.z.si + R * std::cos(t), s.centre.r.si + R * std::sin(t));
    }
  }
  add(s.to.z.si, s.to.r.si);
}

Json profile(const Outline& outline) {
  Json list = Json::array();
  for (const Segment& s : outline.pieces()) add_points(list, s, 1);
  return list;
}

Json part_json(const Job& job) {
  Json p;
  p["number"] = job.part.number;
  p["name"] = job.part.name;
  p["revision"] = job.part.revision;
  p["material"] = job.material.name;
  const Outline hollow = job.bored() ? job.hollow().only(job.left(), Length(0.0)) : Outline();
  p["profile"] = {{"outer", profile(job.finished)}, {"inner", profile(hollow)}};
  p["volume_m3"] = json_number(job.volume());
  p["mass_kg"] = json_number(job.volume() * job.material.density);
  p["features"] = Json::array();
  for (const Feature& f : job.features)
    p["features"].push_back({{"name", json_message(f.name)}, {"volume_m3", json_number(f.volume)}});
  return p;
}

const char* name_of_form(StockForm form) {
  switch (form) {
    case StockForm::hexagon:
      return "hexagon";
    case StockForm::square:
      return "square";
    case StockForm::tube:
      return "tube";
    case StockForm::casting:
      return "casting";
    case StockForm::forging:
      return "forging";
    default:
      return "round";
  }
}

// A piece of a fed bar has the kerf in its volume, and not in its length.
Json stock_json(const Job& job, Volume volume, Length kerf) {
  const Stock& s = job.stock;
  return {{"form", name_of_form(s.form)},
          {"condition", s.condition},
          {"diameter_m", json_number(s.diameter)},
          {"upper_limit_m", json_number(s.upper)},
          {"bore_m", json_number(s.bore)},
          {"length_m", json_number(s.length)},
          {"pieces", s.pieces},
          {"sawn_length_m", json_number(s.sawn)},
          {"kerf_m", json_number(s.section.si > 0 ? kerf : Length(0.0))},
          {"fed_from", s.from_bar ? "bar" : "blank"},
          {"volume_m3", json_number(volume)},
          {"mass_kg", json_number(volume * job.material.density)}};
}

Json conditions_json(const Conditions& c) {
  return {{"surface_speed_m_per_s", json_number(c.surface_speed)},
          {"feed_m", json_number(c.feed)},
          {"depth_m", json_number(c.depth)}};
}

const char* name_of(Motion motion) {
  if (motion == Motion::along) return "along";
  return motion == Motion::across ? "across" : "arc";
}

Json segment_json(const CutSegment& cut, const SegmentTime& t) {
  return {{"motion", name_of(cut.motion)},
          {"from", {json_number(cut.from.z), json_number(cut.from.r)}},
          {"to", {json_number(cut.to.z), json_number(cut.to.r)}},
          {"spindle", cut.constant_speed ? "constant-speed" : "constant-surface-speed"},
          {"surface_speed_m_per_s", json_number(cut.surface_speed)},
          {"start_per_s", json_number(t.start)},
          {"end_per_s", json_number(t.end)},
          {"cut_at_start_m_per_s", json_number(t.at_large)},
          {"cut_at_end_m_per_s", json_number(t.at_small)},
          {"fastest_per_s", json_number(cut.fastest)},
          {"feed_m", json_number(cut.feed)},
          {"depth_m", json_number(cut.depth)},
          {"approach_m", json_number(cut.approach)},
          {"cut_m", json_number(cut.cut)},
          {"overrun_m", json_number(cut.overrun)},
          {"cutting_s", json_number(t.cutting)},
          {"wear_s", json_number(t.wear)},
          {"other_s", json_number(t.moving)}};
}

// Each pass with its segments, and the sums of their times.
Json passes_json(const Step& step, const StepTime& t) {
  Json passes = Json::array();
  std::size_t i = 0;
  for (const auto& segments : passes_of(step)) {
    Json pass{{"segments", Json::array()}};
    Time cutting(0.0), other(0.0);
    for (const CutSegment& cut : segments) {
      pass["segments"].push_back(segment_json(cut, t.segments[i]));
      cutting += t.segments[i].cutting;
      other += t.segments[i].moving;
      ++i;
    }
    pass["cutting_s"] = json_number(cutting);
    pass["other_s"] = json_number(other);
    passes.push_back(std::move(pass));
  }
  return passes;
}

Json step_json(const Operation& operation, const Step& step, const StepTime& t,
               double operator_share) {
  Json s;
  s["number"] = step_label(operation, step);
  s["kind"] = name_of(step.kind);
  s["where"] = {{"from_z_m", json_number(step.from)}, {"to_z_m", json_number(step.to)}};
  s["tool"] = step.tool;
  s["grade"] = step.grade;
  s["why"] = json_message(step.why);
  if (step.stick_out.si > 0) s["stick_out_m"] = json_number(step.stick_out);
  s["removed_m3"] = json_number(step.removed);
  s["wanted"] = conditions_json(step.wanted);
  s["used"] = conditions_json(step.used);
  const SpeedRange speeds = speed_range(t.segments);
  s["cut_with"] = {{"slowest_m_per_s", json_number(speeds.slowest)},
                   {"fastest_m_per_s", json_number(speeds.fastest)}};
  s["limits"] = Json::array();
  for (const LimitCheck& l : step.limits)
    s["limits"].push_back({{"id", name_of(l.limit)},
                           {"name", Words()("limit." + std::string(name_of(l.limit)))},
                           {"allowed", json_number(l.allowed)},
                           {"actual", json_number(l.actual)},
                           {"unit", unit_suffix(l.unit)},
                           {"binding", l.binding},
                           {"changed", name_of(l.changed)}});
  s["passes"] = passes_json(step, t);
  s["times"] = {{"cutting_s", json_number(t.cutting)},
                {"moving_s", json_number(t.moving)},
                {"tool_change_s", json_number(t.tool_change)},
                {"speed_change_s", json_number(t.speed_change)},
                {"gauging_s", json_number(t.trial_cuts)},
                {"edge_change_s", json_number(t.edge_change)},
                {"given_s", json_number(t.given)},
                {"total_s", json_number(t.machine)}};
  s["operator"] = {{"attending_s", json_number(operator_share * t.machine)},
                   {"total_s", json_number(operator_share * t.machine)}};
  s["edge"] = {{"life_s", json_number(t.life)},
               {"share", json_number(t.edge_share)},
               {"steady_m_per_s", json_number(t.steady_speed)},
               {"taylor_exponent", json_number(step.taylor_exponent)},
               {"taylor_constant_m_per_s", json_number(step.taylor_constant)}};
  return s;
}

Json element_json(const ElementTime& e, bool internal_key) {
  Json j{{"name", name_of(e.id)},
         {"machine_s", json_number(e.machine)},
         {"operator_s", json_number(e.person)}};
  if (e.count > 0) j["count"] = e.count;
  if (e.factor != 1) j["factor"] = json_number(e.factor);
  if (internal_key) {
    j["internal"] = e.internal;
    j["away"] = e.away;
    j["basis"] = name_of(e.basis);
  }
  return j;
}

Json operation_json(const Route& route, std::size_t i, const RouteTimes& times) {
  const Operation& operation = route.operations[i];
  const OperationTime& t = times.operations[i];
  Json s;
  s["number"] = operation.number;
  s["machine"] = route.machine.name;
  s["clamping"] = json_message(clamping_of(operation));
  s["grip"] = {{"from_z_m", json_number(operation.grip_from)},
               {"to_z_m", json_number(operation.grip_to)},
               {"diameter_m", json_number(operation.grip_diameter)},
               {"jaws", name_of(operation.jaws)}};
  s["stick_out_m"] = json_number(operation.stick_out);
  s["support"] = operation.support == Support::chuck              ? "none"
                 : operation.support == Support::chuck_and_centre ? "centre"
                                                                  : "between-centres";
  if (operation.steady) s["support"] = "centre-and-steady";
  s["clocked"] = operation.four_jaw;
  s["why"] = json_message(operation.why);
  s["steps"] = Json::array();
  for (std::size_t k = 0; k < operation.steps.size(); ++k)
    s["steps"].push_back(
        step_json(operation, operation.steps[k], t.steps[k], times.operator_share));
  s["elements"] = Json::array();
  for (const ElementTime& e : t.elements) s["elements"].push_back(element_json(e, true));
  s["times"] = {{"machine_s", json_number(t.machine)}, {"operator_s", json_number(t.person)}};
  Json ready{{"machine_s", json_number(t.setup)},
             {"operator_s", json_number(t.setup)},
             {"elements", Json::array()}};
  for (const ElementTime& e : t.setup_elements) ready["elements"].push_back(element_json(e, false));
  s["setup"] = std::move(ready);
  return s;
}

}  // namespace

void add_route(Json& j, const Route& route, const RouteTimes& times, const Shop& shop,
               const std::vector<Price>& prices) {
  const Volume stock = route.operations.empty() ? Volume(0.0) : route.audit.stock;
  j["part"] = part_json(route.job);
  j["stock"] = stock_json(route.job, stock, kerf_of(route, shop));
  j["method"] = name_of(route.method);
  j["feasible"] = true;
  j["operations"] = Json::array();
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    j["operations"].push_back(operation_json(route, i, times));
  Json t{{"cycle_per_part_s", json_number(times.machine_each)},
         {"operator_per_part_s", json_number(times.person_each)},
         {"setup_s", json_number(times.setup)},
         {"allowance",
          {{"share", json_number(shop.policy.allowance)},
           {"on", shop.policy.allowance_on_shift ? "shift" : "work"}}},
         {"batch", Json::array()}};
  // Of all that is run: scrap, and the setup of every release.
  for (const Price& p : prices)
    t["batch"].push_back({{"quantity", p.quantity},
                          {"make", p.made},
                          {"machine_s", json_number(p.machine)},
                          {"operator_s", json_number(p.person)}});
  j["times"] = std::move(t);
  const Audit& a = route.audit;
  j["audit"] = {{"stock_m3", json_number(a.stock)},
                {"part_m3", json_number(a.part)},
                {"features_m3", json_number(a.features)},
                {"removed_m3", json_number(a.removed)},
                {"imbalance", json_number(a.imbalance)}};
  j["problems"] = Json::array();
  j["cautions"] = json_messages(route.cautions);
}

std::string route_json(const Route& route, const RouteTimes& times, const Shop& shop,
                       const MadeBy& made_by) {
  Json j = json_head("route");
  if (made_by.quantity > 0) {
    j["made_by"] = made_by.method;
    j["quantity"] = made_by.quantity;
  }
  add_route(j, route, times, shop, make_quote(route, shop).prices);
  return json_text(j);
}

std::string infeasible_json(const Job& job, const Infeasible& infeasible) {
  Json j = json_head("route");
  j["part"] = part_json(job);
  j["stock"] = stock_json(job, Volume(0.0), Length(0.0));
  j["feasible"] = false;
  j["why_not"] = json_message(infeasible.why);
  j["remedies"] = json_messages(infeasible.remedies);
  return json_text(j);
}

}  // namespace turnwright
