// SPDX-License-Identifier: MIT
#include "json/json.hpp"
#include "turnwright/output/draft.hpp"

namespace turnwright {
namespace {

Json run_json(const ModelRun& r) {
  Json j{{"form", name_of(r.form)},
         {"from_m", json_number(r.from)},
         {"to_m", json_number(r.to)},
         {"diameter_from_m", json_number(r.diameter_from)},
         {"diameter_to_m", json_number(r.diameter_to)}};
  if (r.form != RunForm::arc) return j;
  j["radius_m"] = json_number(r.radius);
  j["bulges_out"] = r.bulges_out;
  return j;
}

Json runs_json(const std::vector<ModelRun>& runs) {
  Json list = Json::array();
  for (const ModelRun& r : runs) list.push_back(run_json(r));
  return list;
}

Json feature_json(const ModelFeature& f) {
  return {{"kind", name_of(f.kind)},
          {"count", f.count},
          {"from_m", json_number(f.from)},
          {"to_m", json_number(f.to)},
          {"what", json_message(other_work_of(f))}};
}

Json recesses_json(const std::vector<RingRecess>& recesses) {
  Json list = Json::array();
  for (const RingRecess& r : recesses)
    list.push_back({{"from_m", json_number(r.from)},
                    {"to_m", json_number(r.to)},
                    {"inner_m", json_number(r.inner)},
                    {"outer_m", json_number(r.outer)}});
  return list;
}

Json draft_part(const Draft& d) {
  Json j{{"number", d.number}, {"overall", d.overall}, {"units", d.inch ? "inch" : "metric"}};
  j["outside"] = d.outside;
  j["bore_from_right"] = d.bore_right;
  j["bore_from_left"] = d.bore_left;
  j["other_work"] = json_messages(d.other_work);
  j["to_confirm"] = json_messages(d.to_confirm);
  return j;
}

void add_model(Json& j, const Recognition& m) {
  j["turned_share"] = json_number(m.turned_share);
  j["volume_m3"] = json_number(m.volume);
  j["outline_volume_m3"] = json_number(m.outline_volume);
  j["volume_ratio"] = json_number(m.volume_ratio());
  j["length_m"] = json_number(m.length);
  j["outside"] = runs_json(m.outside);
  j["bore"] = runs_json(m.bore);
  j["recesses"] = recesses_json(m.recesses);
  j["features"] = Json::array();
  for (const ModelFeature& f : m.features) j["features"].push_back(feature_json(f));
}

}  // namespace

std::string draft_json(const DraftedModel& drafted) {
  const Recognition& m = drafted.model;
  Json j = json_head("draft");
  j["file"] = drafted.file;
  j["product"] = m.product;
  j["verdict"] = name_of(m.verdict);
  j["why_no_draft"] = json_message(drafted.why_not);
  j["solids"] = Json::array();
  for (const auto& box : m.solids)
    j["solids"].push_back(
        {{"size_m", {json_number(box[0]), json_number(box[1]), json_number(box[2])}}});
  j["solid"] = m.solid;
  if (m.solid > 0) add_model(j, m);
  if (drafted.why_not.empty()) {
    j["draft"] = draft_part(drafted.draft);
    if (drafted.job) j["draft"]["volume_m3"] = json_number(draft_volume(*drafted.job));
  }
  return json_text(j);
}

}  // namespace turnwright
