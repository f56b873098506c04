// SPDX-License-Identifier: MIT
#include "json/json.hpp"
#include "turnwright/output/bench.hpp"
#include "view/bench_view.hpp"

namespace turnwright {
namespace {

Json spindle_json(const SpindleView& s) {
  return {{"diameter_m", s.diameter.si},
          {"surface_speed_wanted_m_per_s", s.wanted.si},
          {"surface_speed_m_per_s", s.real.si},
          {"exact_per_s", s.exact.si},
          {"by_rule_per_s", s.by_rule.si},
          {"rule_off", s.rule_off},
          {"set_per_s", s.set.si},
          {"deviation", s.deviation},
          {"in_band", s.in_band},
          {"ladder", s.on_ladder}};
}

Json feeds_json(const std::vector<FeedView>& feeds) {
  Json list = Json::array();
  for (const FeedView& f : feeds)
    list.push_back({{"reason", name_of(f.reason)}, {"feed_m", f.feed.si}, {"decides", f.decides}});
  return list;
}

Json step_json(const BenchStepView& v) {
  const StepTime& t = *v.time;
  return {{"kind", name_of(v.step->kind)},
          {"tool", v.tool->name},
          {"grade", v.tool->grade},
          {"spindle", spindle_json(v.spindle)},
          {"feed_m", v.feed.si},
          {"feed_rate_m_per_s", v.feed_rate.si},
          {"feeds", feeds_json(v.feeds)},
          {"depth_m", v.depth.si},
          {"passes", v.passes},
          {"machine_s", t.machine.si},
          {"cutting_s", t.cutting.si},
          {"moving_s", t.moving.si},
          {"tool_change_s", t.tool_change.si},
          {"edge_life_s", t.life.si},
          {"force_N", v.load.force.si},
          {"power_W", v.load.power.si},
          {"rated_power_W", v.rated_power.si},
          {"torque_Nm", v.load.torque.si},
          {"rated_torque_Nm", v.rated_torque.si},
          {"carriage_in_a_minute_m", v.in_a_minute.si},
          {"surface_in_15_seconds_m", v.in_15_seconds.si}};
}

Json at_json(const BenchAt& at) {
  return {{"spindle_per_s", at.set.spindle.si},
          {"surface_speed_m_per_s", at.surface_speed.si},
          {"feed_m", at.set.feed.si},
          {"depth_m", at.set.depth.si},
          {"passes", at.passes},
          {"usual_passes", at.usual_passes},
          {"machine_s", at.time.si},
          {"usual_machine_s", at.usual_time.si},
          {"cutting_s", at.cutting.si},
          {"edge_life_s", at.life.si},
          {"power_W", at.load.power.si},
          {"speed_share", at.speed_share},
          {"feed_share", at.feed_share},
          {"depth_share", at.depth_share},
          {"lost", at.lost ? Json(at.lost->text()) : Json(nullptr)},
          {"careful", json_messages(at.careful)},
          {"brave", json_messages(at.brave)}};
}

Json cell_json(const CardCell& cell) {
  if (!cell.possible) return {{"diameter_m", cell.diameter.si}, {"possible", false}};
  return {{"diameter_m", cell.diameter.si},   {"possible", true},
          {"spindle_per_s", cell.spindle.si}, {"exact_per_s", cell.exact.si},
          {"deviation", cell.deviation},      {"off_band", cell.off_band}};
}

}  // namespace

std::string cut_json(const BenchCut& cut) {
  const Route& route = cut.quote.route;
  Json j = json_head("cut");
  j["currency"] = cut.quote.currency;
  j["work"] = name_of(cut.request.work.kind);
  j["as_written"] = cut.request.work.text;
  j["material"] = route.job.material.name;
  j["machine"] = route.machine.name;
  j["stick_out_m"] = cut.operation().stick_out.si;
  j["steps"] = Json::array();
  for (const std::size_t i : cut.steps)
    j["steps"].push_back(step_json(view_of(cut, cut.step(i), cut.time(i))));
  j["before"] = Json::array();
  for (const std::size_t i : cut.before) {
    const Json why = json_message(cut.step(i).why);
    j["before"].push_back(
        {{"kind", name_of(cut.step(i).kind)}, {"why", why}, {"machine_s", cut.time(i).machine.si}});
  }
  j["others"] = Json::array();
  for (const BenchOtherTime& o : cut.others)
    j["others"].push_back({{"other", name_of(o.other)}, {"machine_s", o.time.si}});
  j["at"] = cut.at ? at_json(*cut.at) : Json(nullptr);
  j["cautions"] = json_messages(route.cautions);
  return json_text(j);
}

std::string card_json(const SpeedCard& card) {
  Json j = json_head("card");
  j["machine"] = card.machine.name;
  j["band"] = card.band;
  j["rows"] = Json::array();
  for (const CardRow& row : card.rows) {
    Json cells = Json::array();
    for (const CardCell& cell : row.cells) cells.push_back(cell_json(cell));
    j["rows"].push_back({{"material", row.material->name},
                         {"work", name_of(row.work)},
                         {"tool", row.tool->name},
                         {"grade", row.tool->grade},
                         {"surface_speed_m_per_s", row.surface_speed.si},
                         {"feed_from_m", row.feed_from.si},
                         {"feed_to_m", row.feed_to.si},
                         {"depth_m", row.depth.si},
                         {"source", row.source},
                         {"cells", cells}});
  }
  return json_text(j);
}

}  // namespace turnwright
