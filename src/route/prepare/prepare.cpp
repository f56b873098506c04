// SPDX-License-Identifier: MIT
// Part and shop brought together, in the order of work.
#include <algorithm>

#include "geometry/profile.hpp"
#include "prepare/preparation.hpp"
#include "turnwright/document/reader.hpp"
#include "turnwright/route/doubts.hpp"

namespace turnwright {

void Preparation::refuse(Position at, Message what, Message expected, std::string suggestion) {
  problems.push_back(
      {job.part.file, at, 1, std::move(what), std::move(expected), std::move(suggestion), ""});
}

const std::vector<Element>& Preparation::elements(Region region) const {
  return region == Region::outside      ? job.part.outside
         : region == Region::bore_right ? job.part.bore_right
                                        : job.part.bore_left;
}

bool Preparation::made_by_stated_time(Region region) const {
  const auto& list = elements(region);
  return std::any_of(list.begin(), list.end(),
                     [](const Element& e) { return e.allow && e.kind != ElementKind::thread; });
}

Message surface_name(const Element& element, Region region) {
  return region == Region::outside
             ? verbatim(element.text)
             : Message{"prepare.surface-in-bore", {{"element", element.text}}};
}

bool Surface::needs_finish(const Practice& practice) const {
  const bool smooth = ra.si > 0 && ra.si < practice.rough_roughness.si - 1e-12;
  return !as_drawn && (grade < practice.rough_grade || smooth);
}

Outline Job::hollow() const { return joined(bores[0].finished, bores[1].finished); }
Outline Job::hollow_turned() const { return joined(bores[0].turned, bores[1].turned); }
Volume Job::volume() const { return body_volume(finished, hollow()); }

namespace {

void find_other_machines(Preparation& p) {
  std::vector<std::string> known;
  for (const OtherMachine& machine : p.shop.other_machines) known.push_back(machine.name);
  for (const OtherWork& work : p.job.part.other_work)
    if (!work.machine.empty() && p.shop.other_machine(work.machine) == nullptr)
      p.refuse(work.at, {"prepare.unknown-other-machine", {{"machine", work.machine}}},
               known.empty() ? Message("prepare.expect-other-machine") : one_of(known),
               nearest(work.machine, known));
}

}  // namespace

Checked<Job> prepare(const Part& part, const Shop& shop) {
  Preparation p{shop, {}, {}};
  p.job.part = part;
  find_material(p);
  refuse_unplanned(p);
  find_other_machines(p);
  measure_outside(p);
  for (const Region region : bore_regions) measure_bore(p, region);
  if (!p.clean()) return p.problems;
  const std::vector<UndercutDip> undercuts = find_threads(p);
  if (!p.clean()) return p.problems;
  draw_outside(p);
  for (const Region region : bore_regions) draw_bore(p, region);
  if (!p.clean()) return p.problems;
  cut_undercuts(p.job, undercuts);
  check_walls(p);
  find_face_grooves(p);
  caution_what_is_asked(p);
  doubt_finished_fits(p);
  if (p.clean() && !part.material.empty()) choose_stock(p);
  if (!p.clean()) return p.problems;
  for (const Problem& doubt : doubts_of(p.job, shop)) add_once(p.job.unconfirmed, doubt.what);
  return std::move(p.job);
}

}  // namespace turnwright
