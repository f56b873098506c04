// SPDX-License-Identifier: MIT
#include "audit.hpp"

#include <algorithm>
#include <cmath>

#include "length_text.hpp"

namespace turnwright {
namespace {

// Shoulder undercuts come off with the finishing cut of their corner.
void give_undercuts(Route& route, const Job& job) {
  for (const Feature& f : job.features) {
    if (!f.undercut) continue;
    Step* owner = nullptr;
    for (Operation& operation : route.operations)
      for (Step& step : operation.steps)
        if ((step.kind == StepKind::finish || step.kind == StepKind::bore) &&
            f.z >= step.from - Length(same_point) && f.z <= step.to + Length(same_point))
          owner = &step;
    if (owner != nullptr)
      owner->removed += f.volume;
    else
      route.audit.regions.push_back("the " + f.name + " is reached by no step");
  }
}

// Threads and knurls change no outline: each needs a step of its own.
void find_forgotten(Route& route, const Job& job) {
  std::vector<std::size_t> made;
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      if (step.kind == StepKind::knurl || step.kind == StepKind::thread ||
          step.kind == StepKind::tap)
        made.insert(made.end(), step.gauged.begin(), step.gauged.end());
  for (std::size_t n = 0; n < job.surfaces.size(); ++n) {
    const Element& e = job.element_of(job.surfaces[n]);
    const bool wanted = !e.allow && (e.knurl || e.kind == ElementKind::thread);
    if (wanted && std::find(made.begin(), made.end(), n) == made.end())
      route.audit.regions.push_back((e.knurl ? "the knurl of " : "the thread ") +
                                    job.surfaces[n].name + " is reached by no step");
  }
}

void compare_outlines(Route& route, const Job& job) {
  const Outline& end = route.operations.back().after;
  auto region = [&](const Interval& i) {
    return length_text(job, -i.to) + " to " + length_text(job, -i.from) +
           " from the right-hand face";
  };
  for (const Interval& i : where_above(end, job.finished))
    route.audit.regions.push_back(region(i) + " is reached by no step");
  for (const Interval& i : where_above(job.finished, end))
    route.audit.regions.push_back(region(i) + " is cut too deep");
  if (!job.bored() && route.operations.back().hollow_after.empty()) return;
  const Outline none = Outline::cylinder(job.left(), Length(0.0), Length(0.0));
  auto within = [&](const Outline& hollow) {
    return combine(hollow, none, Envelope::upper).only(job.left(), Length(0.0));
  };
  const Outline made = within(route.operations.back().hollow_after), wanted = within(job.hollow());
  for (const Interval& i : where_above(wanted, made))
    route.audit.regions.push_back("the bore at " + region(i) + " is reached by no step");
  for (const Interval& i : where_above(made, wanted))
    route.audit.regions.push_back("the bore at " + region(i) + " is cut too wide");
}

void last_cautions(Route& route, const Job& job) {
  const Machine& m = route.machine;
  for (const Surface& s : job.surfaces)
    if (s.toleranced && s.grade < m.finest_grade)
      route.cautions.push_back(s.name + " asks for IT" + std::to_string(s.grade) +
                               ", finer than the IT" + std::to_string(m.finest_grade) + " that " +
                               m.name +
                               " holds by turning: check every piece, or leave 0.3 mm and grind");
  if (job.material.chips_burn)
    route.cautions.push_back(
        "chips of " + job.material.name +
        " can burn: keep them swept, no water on a chip fire, a class D extinguisher at hand");
}

}  // namespace

void audit_route(Route& route, const Job& job) {
  Audit& a = route.audit;
  a.stock = body_volume(route.operations.front().before, route.operations.front().hollow_before);
  a.part = job.volume();
  for (const Feature& f : route.job.features) a.features += f.volume;
  give_undercuts(route, job);
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps) a.removed += step.removed;
  find_forgotten(route, job);
  compare_outlines(route, job);
  a.imbalance = std::abs((a.stock - a.part + a.features - a.removed).si) / a.stock.si;
  if (a.imbalance > 1e-9 || !a.regions.empty()) {
    route.feasible = false;
    route.why_not = "the volumes do not add up";
    for (const std::string& r : a.regions) route.why_not += "; " + r;
    route.would_help = "a tool that reaches the region, or 'allow' with a time";
  }
  last_cautions(route, job);
}

}  // namespace turnwright
