// SPDX-License-Identifier: MIT
#include "audit.hpp"

#include <algorithm>
#include <cmath>

#include "reasons.hpp"

namespace turnwright {
namespace {

// The last step whose finishing cut goes past z, or null.
Step* finished_by(Route& route, Length z) {
  Step* owner = nullptr;
  for (Operation& operation : route.operations)
    for (Step& step : operation.steps)
      if ((step.kind == StepKind::finish || step.kind == StepKind::bore) &&
          z >= step.from - Length(same_point) && z <= step.to + Length(same_point))
        owner = &step;
  return owner;
}

// Shoulder undercuts come off with the finishing cut of their corner.
void give_undercuts(Route& route, const Job& job) {
  for (const Feature& f : job.features) {
    if (!f.undercut) continue;
    if (Step* owner = finished_by(route, f.z))
      owner->removed += f.volume;
    else
      route.audit.regions.push_back({"audit.feature-not-reached", {{"feature", f.name}}});
  }
}

std::vector<std::size_t> surfaces_with_features(const Route& route) {
  std::vector<std::size_t> made;
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      if (step.kind == StepKind::knurl || step.kind == StepKind::thread ||
          step.kind == StepKind::tap)
        made.insert(made.end(), step.gauged.begin(), step.gauged.end());
  return made;
}

// Threads and knurls change no outline: each needs a step of its own.
void find_forgotten(Route& route, const Job& job) {
  const std::vector<std::size_t> made = surfaces_with_features(route);
  for (std::size_t n = 0; n < job.surfaces.size(); ++n) {
    const Element& e = job.element_of(job.surfaces[n]);
    const bool wanted = !e.allow && (e.knurl || e.kind == ElementKind::thread);
    if (!wanted || std::find(made.begin(), made.end(), n) != made.end()) continue;
    const Place surface("surface", job.surfaces[n].name);
    route.audit.regions.push_back(e.knurl ? Message{"audit.knurl-not-reached", {surface}}
                                          : Message{"audit.thread-not-reached", {surface}});
  }
}

// At the foot of a fillet cuts meet within nanometres.
bool is_nothing(const Outline& high, const Outline& low, const Interval& i) {
  constexpr Length nothing(10e-9);
  const Length middle = (i.from + i.to) / 2.0;
  return high.left_of(middle) - low.left_of(middle) < nothing &&
         high.left_of(i.to) - low.left_of(i.to) < nothing &&
         high.right_of(i.from) - low.right_of(i.from) < nothing;
}

void note_regions(Route& route, const char* id, const Outline& high, const Outline& low) {
  for (const Interval& i : where_above(high, low))
    if (!is_nothing(high, low, i))
      route.audit.regions.push_back({id, {{"from", -i.to}, {"to", -i.from}}});
}

void compare_outlines(Route& route, const Job& job) {
  const Operation& last = route.operations.back();
  note_regions(route, "audit.not-reached", last.after, job.finished);
  note_regions(route, "audit.too-deep", job.finished, last.after);
  if (!job.bored() && last.hollow_after.empty()) return;
  const Outline none = Outline::cylinder(job.left(), Length(0.0), Length(0.0));
  auto within = [&](const Outline& hollow) {
    return combine(hollow, none, Envelope::upper).only(job.left(), Length(0.0));
  };
  const Outline made = within(last.hollow_after), wanted = within(job.hollow());
  note_regions(route, "audit.bore-not-reached", wanted, made);
  note_regions(route, "audit.bore-too-wide", made, wanted);
}

void add_last_cautions(Route& route, const Job& job, const Practice& practice) {
  const Machine& m = route.machine;
  for (const Surface& s : job.surfaces)
    if (s.finer_than(m))
      add_once(route.cautions, {"audit.finer-than-machine",
                                {{"surface", s.name},
                                 {"grade", s.grade},
                                 {"finest", m.finest_grade},
                                 {"machine", m.name},
                                 {"leave", practice.left_for_grinding}}});
  if (job.material.chips_burn)
    route.cautions.push_back({"audit.chips-burn", {{"material", job.material.name}}});
}

void add_volumes(Route& route, const Job& job) {
  Audit& a = route.audit;
  a.stock = body_volume(route.operations.front().before, route.operations.front().hollow_before);
  a.part = job.volume();
  for (const Feature& f : route.job.features) a.features += f.volume;
  give_undercuts(route, job);
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps) a.removed += step.removed;
  a.imbalance = std::abs((a.stock - a.part + a.features - a.removed).si) / a.stock.si;
}

}  // namespace

Planned<Route> audited(Route route, const Job& job, const Practice& practice) {
  add_volumes(route, job);
  find_forgotten(route, job);
  compare_outlines(route, job);
  if (route.audit.imbalance > 1e-9 || !route.audit.regions.empty())
    return Infeasible{both("audit.volumes-do-not-add-up", chained(route.audit.regions)),
                      {"plan.try-tool-that-reaches", "plan.try-stated-time"}};
  add_last_cautions(route, job, practice);
  return route;
}

}  // namespace turnwright
