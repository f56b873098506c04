// SPDX-License-Identifier: MIT
#include "turnwright/output/json.hpp"

#include <cmath>

#include "json_head.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

// Whole numbers without a point, unlimited as null.
Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  if (value == std::floor(value) && std::abs(value) < 9e15) return static_cast<std::int64_t>(value);
  return value;
}
template <Dim D>
Json number(Quantity<D> q) {
  return number(q.si);
}

// Points along an arc close enough that no chord misses it by more than 1e-6 m.
void add_points(Json& list, const Segment& s, double mirror_sign) {
  auto add = [&](double z, double r) { list.push_back({number(z * mirror_sign), number(r)}); };
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

Json part_json(const Route& route) {
  const Job& job = route.job;
  Json p;
  p["number"] = job.part.number;
  p["name"] = job.part.name;
  p["revision"] = job.part.revision;
  p["material"] = job.material.name;
  const Outline hollow = job.bored() ? job.hollow().only(job.left(), Length(0.0)) : Outline();
  p["profile"] = {{"outer", profile(job.finished)}, {"inner", profile(hollow)}};
  p["volume_m3"] = number(job.volume());
  p["mass_kg"] = number(job.volume() * job.material.density);
  p["features"] = Json::array();
  for (const Feature& f : job.features)
    p["features"].push_back({{"name", f.name}, {"volume_m3", number(f.volume)}});
  return p;
}

Json stock_json(const Route& route) {
  const Stock& s = route.job.stock;
  const Volume v = route.operations.empty() ? Volume(0.0) : route.audit.stock;
  static const std::pair<StockForm, const char*> forms[] = {{StockForm::hexagon, "hexagon"},
                                                            {StockForm::square, "square"},
                                                            {StockForm::tube, "tube"},
                                                            {StockForm::casting, "casting"},
                                                            {StockForm::forging, "forging"}};
  const char* form = "round";
  for (const auto& [f, name] : forms)
    if (s.form == f) form = name;
  return {{"form", form},
          {"condition", s.condition},
          {"diameter_m", number(s.diameter)},
          {"upper_limit_m", number(s.upper)},
          {"bore_m", number(s.bore)},
          {"length_m", number(s.length)},
          {"volume_m3", number(v)},
          {"mass_kg", number(v * route.job.material.density)}};
}

Json conditions_json(const Conditions& c) {
  return {{"surface_speed_m_per_s", number(c.surface_speed)},
          {"feed_m", number(c.feed)},
          {"depth_m", number(c.depth)}};
}

std::string unit_suffix(const Unit& unit) {
  if (unit.dim == Dim{1}) return "m";
  if (unit.dim == Dim{2, 1, -3}) return "W";
  if (unit.dim == Dim{2, 1, -2}) return "Nm";
  if (unit.dim == Dim{0, 0, -1}) return "per_s";
  return "";
}

Json pass_json(const Pass& pass, const PassTime& t) {
  return {{"from", {number(pass.from.z), number(pass.from.r)}},
          {"to", {number(pass.to.z), number(pass.to.r)}},
          {"spindle", pass.constant_speed ? "constant speed" : "constant surface speed"},
          {"surface_speed_m_per_s", number(pass.surface_speed)},
          {"start_per_s", number(t.start)},
          {"end_per_s", number(t.end)},
          {"fastest_per_s", number(pass.fastest)},
          {"feed_m", number(pass.feed)},
          {"depth_m", number(pass.depth)},
          {"approach_m", number(pass.approach)},
          {"cut_m", number(pass.cut)},
          {"overrun_m", number(pass.overrun)},
          {"cutting_s", number(t.cutting)},
          {"other_s", number(t.moving)}};
}

Json step_json(const Step& step, const StepTime& t, double operator_share) {
  Json s;
  s["number"] = step.number;
  s["kind"] = name_of(step.kind);
  s["where"] = {{"from_z_m", number(step.from)}, {"to_z_m", number(step.to)}};
  s["tool"] = step.tool;
  s["grade"] = step.grade;
  s["why"] = step.why;
  s["removed_m3"] = number(step.removed);
  s["wanted"] = conditions_json(step.wanted);
  s["used"] = conditions_json(step.used);
  s["limits"] = Json::array();
  for (const LimitCheck& l : step.limits)
    s["limits"].push_back({{"name", l.name},
                           {"allowed", number(l.allowed)},
                           {"actual", number(l.actual)},
                           {"unit", unit_suffix(l.unit)},
                           {"binding", l.binding},
                           {"changed", l.changed}});
  s["passes"] = Json::array();
  for (std::size_t i = 0; i < step.passes.size(); ++i)
    s["passes"].push_back(pass_json(step.passes[i], t.passes[i]));
  s["times"] = {{"cutting_s", number(t.cutting)},
                {"moving_s", number(t.moving)},
                {"tool_change_s", number(t.tool_change)},
                {"speed_change_s", number(t.speed_change)},
                {"gauging_s", number(t.trial_cuts)},
                {"edge_change_s", number(t.edge_change)},
                {"given_s", number(t.given)},
                {"total_s", number(t.machine)}};
  s["operator"] = {{"attending_s", number(operator_share * t.machine)},
                   {"total_s", number(operator_share * t.machine)}};
  s["edge"] = {{"life_s", number(t.life)}, {"share", number(t.edge_share)}};
  return s;
}

Json element_json(const ElementTime& e, bool internal_key) {
  Json j{{"name", e.name}, {"machine_s", number(e.machine)}, {"operator_s", number(e.person)}};
  if (internal_key) {
    j["internal"] = e.internal;
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
  s["clamping"] = operation.clamping;
  s["grip"] = {{"from_z_m", number(operation.grip_from)},
               {"to_z_m", number(operation.grip_to)},
               {"diameter_m", number(operation.grip_diameter)},
               {"jaws", operation.jaws == Jaws::soft ? "soft" : "hard"}};
  s["stick_out_m"] = number(operation.stick_out);
  s["support"] = operation.support == Support::chuck              ? "none"
                 : operation.support == Support::chuck_and_centre ? "centre"
                                                                  : "between centres";
  if (operation.steady) s["support"] = "centre and steady";
  s["clocked"] = operation.four_jaw;
  s["why"] = operation.why;
  s["steps"] = Json::array();
  for (std::size_t k = 0; k < operation.steps.size(); ++k)
    s["steps"].push_back(step_json(operation.steps[k], t.steps[k], times.operator_share));
  s["elements"] = Json::array();
  for (const ElementTime& e : t.elements) s["elements"].push_back(element_json(e, true));
  s["times"] = {{"machine_s", number(t.machine)}, {"operator_s", number(t.person)}};
  Json ready{
      {"machine_s", number(t.setup)}, {"operator_s", number(t.setup)}, {"elements", Json::array()}};
  for (const ElementTime& e : t.setup_elements) ready["elements"].push_back(element_json(e, false));
  s["setup"] = std::move(ready);
  return s;
}

void add_route(Json& j, const Route& route, const RouteTimes& times, const Shop& shop) {
  j["part"] = part_json(route);
  j["stock"] = stock_json(route);
  j["method"] = name_of(route.method);
  j["feasible"] = route.feasible;
  if (!route.feasible) {
    j["why_not"] = route.why_not;
    j["would_help"] = route.would_help;
    return;
  }
  j["operations"] = Json::array();
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    j["operations"].push_back(operation_json(route, i, times));
  Json t{{"cycle_per_part_s", number(times.machine_each)},
         {"operator_per_part_s", number(times.person_each)},
         {"setup_s", number(times.setup)},
         {"allowance",
          {{"share", number(shop.policy.allowance)},
           {"on", shop.policy.allowance_on_shift ? "shift" : "work"}}},
         {"batch", Json::array()}};
  for (const int q : route.job.part.quantities)
    t["batch"].push_back({{"quantity", q},
                          {"machine_s", number(times.setup + q * times.machine_each)},
                          {"operator_s", number(times.setup + q * times.person_each)}});
  j["times"] = std::move(t);
  const Audit& a = route.audit;
  j["audit"] = {{"stock_m3", number(a.stock)},
                {"part_m3", number(a.part)},
                {"features_m3", number(a.features)},
                {"removed_m3", number(a.removed)},
                {"imbalance", number(a.imbalance)}};
  j["problems"] = Json::array();
  j["cautions"] = route.cautions;
}

Json price_json(const Price& p) {
  Json j{{"quantity", p.quantity}, {"made", p.made}, {"lines", Json::array()}};
  for (const CostLine& l : p.lines)
    j["lines"].push_back({{"name", l.name}, {"amount", l.amount.text()}});
  j["cost"] = p.cost.text();
  j["each"] = p.each.text();
  j["price_unit"] = p.price_unit;
  j["total"] = p.total.text();
  j["minimum_surcharge"] = p.minimum_surcharge.text();
  j["margin"] = p.margin.text();
  j["margin_share"] = number(p.margin_share);
  j["low_each"] = p.low_each.text();
  j["likely_each"] = p.likely_each.text();
  j["high_each"] = p.high_each.text();
  if (p.at_once_each.hundredths() > 0) j["at_once_each"] = p.at_once_each.text();
  if (p.causes.empty()) return j;
  j["p10_each"] = p.p10_each.text();
  j["p50_each"] = p.p50_each.text();
  j["p90_each"] = p.p90_each.text();
  j["loss_chance"] = number(p.loss_chance);
  j["causes"] = Json::array();
  for (const BandCause& c : p.causes)
    j["causes"].push_back({{"name", c.name},
                           {"low_each", rounded(c.low_each).text()},
                           {"high_each", rounded(c.high_each).text()},
                           {"basis", name_of(c.basis)}});
  return j;
}

Json figure_value(const FigureValue& v) {
  if (!v.word.empty()) return {{"value", v.word}, {"unit", ""}, {"si", v.word}};
  if (!v.list)
    return {{"value", number(v.shown.front())}, {"unit", v.unit}, {"si", number(v.si.front())}};
  Json j{{"value", Json::array()}, {"unit", v.unit}, {"si", Json::array()}};
  for (const double x : v.shown) j["value"].push_back(number(x));
  for (const double x : v.si) j["si"].push_back(number(x));
  return j;
}

}  // namespace

void add_causes(Json& j, const Difference& d) {
  j["total"] = fixed(d.total.si, 2);
  j["setup"] = fixed(d.setup.si, 2);
  j["tool_change"] = fixed(d.tool_change.si, 2);
  j["cutting"] = fixed(d.cutting.si, 2);
  j["other_time"] = fixed(d.other_time.si, 2);
  j["edges"] = fixed(d.edges.si, 2);
  j["material"] = fixed(d.material.si, 2);
}
void add_methods(Json& j, const Comparison& c) {
  j["methods"] = Json::array();
  for (const MethodResult& w : c.methods) {
    Json method{{"name", w.name}, {"feasible", w.feasible()}};
    if (w.feasible()) {
      method["cycle_per_part_s"] = number(w.quote.times.machine_each);
      method["operator_per_part_s"] = number(w.quote.times.person_each);
      method["setup_s"] = number(w.quote.times.setup);
      method["on"] = w.route.machine.name;
      method["clampings"] = w.route.operations.size();
      method["cautions"] = w.route.cautions;
      method["prices"] = Json::array();
      for (const Price& p : w.quote.prices) method["prices"].push_back(price_json(p));
    } else {
      method["why_not"] = w.route.why_not;
      method["would_help"] = w.route.would_help;
    }
    method["notes"] = w.route.two_cut_notes;
    j["methods"].push_back(std::move(method));
  }
  j["lead"] = Json::array();
  for (const LeadingRange& l : c.lead) {
    Json lead{{"from", l.from},
              {"to", l.to},
              {"method", c.methods[l.method].name},
              {"either", Json::array()}};
    for (const std::size_t i : l.either) lead["either"].push_back(c.methods[i].name);
    j["lead"].push_back(std::move(lead));
  }
  j["break_even"] = c.break_even > 0 ? Json(c.break_even) : Json(nullptr);
  j["differences"] = Json::array();
  for (const Difference& d : c.differences) {
    Json difference{{"quantity", d.quantity}};
    add_causes(difference, d);
    j["differences"].push_back(std::move(difference));
  }
}

std::string figure_json(const FigureAnswer& answer) {
  Json j = json_head("figure");
  j["figure"] = answer.entry->name;
  j["inputs"] = Json::object();
  for (const FigureValue& v : answer.inputs) j["inputs"][v.name] = figure_value(v);
  j["results"] = Json::object();
  for (const FigureValue& v : answer.results) j["results"][v.name] = figure_value(v);
  j["solved_for"] = answer.solved_for.empty() ? Json(nullptr) : Json(answer.solved_for);
  j["formula"] = answer.entry->formula;
  j["source"] = answer.entry->source;
  return json_text(j);
}

std::string route_json(const Route& route, const RouteTimes& times, const Shop& shop) {
  Json j = json_head("route");
  add_route(j, route, times, shop);
  return json_text(j);
}

std::string quote_json(const Quote& quote, const Comparison& methods, const Shop& shop,
                       const std::vector<InputDigest>& inputs, const Request* request) {
  Json j = json_head("quote");
  add_route(j, quote.route, quote.times, shop);
  const Machine& m = quote.route.machine;
  j["currency"] = quote.currency;
  if (!quote.delivery.empty()) j["delivery"] = quote.delivery;
  j["rates"] = Json::array();
  auto rate = [&](const char* name, Rate r) {
    j["rates"].push_back({{"name", std::string(name) + " of " + m.name},
                          {"per_hour", fixed(in(r, unit::money_per_h), 4)},
                          {"source", m.source.text},
                          {"basis", name_of(m.source.basis)}});
  };
  if (m.rate.all_in)
    rate("all-in rate", *m.rate.all_in);
  else
    rate("machine rate", m.rate.machine), rate("person rate", m.rate.person);
  if (quote.route.job.material.price)
    j["rates"].push_back(
        {{"name", "price of " + quote.route.job.material.name},
         {"per_kg", fixed(in(*quote.route.job.material.price, unit::money_per_kg), 4)},
         {"source", quote.route.job.material.source.text},
         {"status", quote.material.status},
         {"date", quote.route.job.material.price_date}});
  j["other_work"] = Json::array();
  for (const OtherWork& w : quote.route.job.part.other_work) {
    Json work{{"what", w.what}, {"after", w.after}, {"per", name_of(w.per)}};
    if (w.time) work["operator_s"] = number(*w.time);
    if (w.price) work["price"] = rounded(*w.price).text();
    work["setup_s"] = number(w.setup);
    work["days"] = number(w.days);
    if (w.price) {
      work["minimum"] = rounded(w.minimum).text();
      work["certificate"] = rounded(w.certificate).text();
      work["transport"] = rounded(w.transport).text();
      work["scrap_share"] = number(w.scrap);
    }
    j["other_work"].push_back(std::move(work));
  }
  j["one_offs"] = Json::array();
  for (const OneOffLine& o : quote.one_offs)
    j["one_offs"].push_back({{"what", o.what}, {"cost", o.cost.text()}, {"price", o.price.text()}});
  j["request"] = request == nullptr ? Json(nullptr)
                                    : Json{{"customer", request->customer},
                                           {"number", request->number},
                                           {"revision", request->revision},
                                           {"date", text_of(request->date)},
                                           {"valid_days", request->valid_days}};
  j["prices"] = Json::array();
  for (const Price& p : quote.prices) j["prices"].push_back(price_json(p));
  j["questions"] = Json::array();
  for (const Question& q : methods.questions)
    j["questions"].push_back({{"ask", q.ask},
                              {"otherwise", q.otherwise},
                              {"quantity", q.quantity},
                              {"each", q.each.text()},
                              {"change_share", number(q.change)}});
  j["larger_for_less"] = Json::array();
  for (const LargerForLess& l : larger_for_less(quote.prices))
    j["larger_for_less"].push_back({{"from", l.from}, {"quantity", l.quantity}});
  add_methods(j, methods);
  j["inputs"] = Json::array();
  for (const InputDigest& d : inputs)
    j["inputs"].push_back({{"path", d.path}, {"sha256", d.sha256}});
  j["unconfirmed"] = quote.unconfirmed;
  return json_text(j);
}

}  // namespace turnwright
