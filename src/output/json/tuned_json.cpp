// SPDX-License-Identifier: MIT
#include "json/json.hpp"
#include "turnwright/output/tuned.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

Json nose_json(const LargerNose& nose) {
  return {{"tool", nose.tool},
          {"now_m", nose.now.si},
          {"larger_m", nose.larger.si},
          {"fits", nose.fits},
          {"quantity", nose.quantity},
          {"cost_before", nose.before.text()},
          {"cost", nose.fits ? Json(nose.with.text()) : Json(nullptr)}};
}

}  // namespace

std::string tuned_json(const Tuned& t, const Shop& shop) {
  Json j = json_head("tune");
  j["currency"] = shop.policy.currency;
  j["part"] = t.handbook.route().job.part.number;
  j["rule"] = name_of(t.rule);
  j["conditions"] = t.best.conditions == ConditionsRule::least_time ? "least time" : "least cost";
  j["made_by"] = t.handbook.recipe;
  j["quantity"] = t.quantity;
  j["machine"] = t.best.route().machine.name;
  auto given = [](const Conditions& c) {
    return Json{{"surface_speed_m_per_s", c.surface_speed.si},
                {"feed_m", c.feed.si},
                {"depth_m", c.depth.si}};
  };
  auto limits = [](const std::vector<LimitId>& ids) {
    Json list = Json::array();
    for (const LimitId id : ids) list.push_back(name_of(id));
    return list;
  };
  j["steps"] = Json::array();
  for (const TunedStep& s : t.steps)
    j["steps"].push_back({{"number", s.label},
                          {"kind", name_of(s.kind)},
                          {"tool", s.tool},
                          {"handbook", given(s.handbook)},
                          {"best", given(s.best)},
                          {"passes_before", s.passes_before},
                          {"passes", s.passes},
                          {"cutting_before_s", s.cutting_before.si},
                          {"cutting_s", s.cutting.si},
                          {"edge_life_s", s.life.si},
                          {"limited_by", limits(s.limited_by)},
                          {"worth", s.worth},
                          {"tuned", s.gap >= 0},
                          {"gap", s.gap >= 0 ? Json(s.gap) : Json(nullptr)}});
  auto lots = [](const Quote& q) {
    Json list = Json::array();
    for (const Price& p : q.prices)
      list.push_back({{"quantity", p.quantity}, {"cost", p.cost.text()}, {"each", p.each.text()}});
    return list;
  };
  j["handbook"] = {{"cycle_per_part_s", t.handbook.quote->times.machine_each.si},
                   {"lots", lots(*t.handbook.quote)}};
  j["best"] = {{"cycle_per_part_s", t.best.quote->times.machine_each.si},
               {"lots", lots(*t.best.quote)}};
  j["handbook"]["contribution_per_h"] = in(t.hour_before, unit::money_per_h);
  j["best"]["contribution_per_h"] = in(t.hour, unit::money_per_h);
  j["roughing_depth_share"] = t.roughing_depth;
  const Rate worth = t.best.hour_worth;
  j["hour_worth_per_h"] = worth.si > 0 ? Json(in(worth, unit::money_per_h)) : Json(nullptr);
  j["plans"] = t.best.plans;
  j["keeps_handbook"] = t.keeps_handbook;
  j["proved"] = t.proved_to <= 1e-6;
  j["larger_nose"] = t.nose ? nose_json(*t.nose) : Json(nullptr);
  j["cautions"] = json_messages(t.cautions);
  return json_text(j);
}

}  // namespace turnwright
