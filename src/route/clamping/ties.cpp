// SPDX-License-Identifier: MIT
#include "clamping/ties.hpp"

#include <algorithm>
#include <optional>

#include "turnwright/route/joints.hpp"

namespace turnwright {
namespace {

// The operation that a surface is finished in; none for what stays as drawn.
std::optional<std::size_t> finished_in(const Route& route, std::size_t surface) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    for (const Step& step : route.operations[i].steps)
      if (std::find(step.gauged.begin(), step.gauged.end(), surface) != step.gauged.end())
        found = i;
  return found;
}

struct Held {
  AccuracyId accuracy;
  const char* how;
};

Held row_of(const Operation& o) {
  if (o.mandrel) return {AccuracyId::mandrel, "clamping.mandrel"};
  if (o.support == Support::between_centres)
    return {AccuracyId::between_centres, "clamping.between-centres"};
  if (o.four_jaw || o.face_plate) return {AccuracyId::four_jaw_chuck, "clamping.four-jaws"};
  if (o.collet) return {AccuracyId::collet, "clamping.collet"};
  if (o.jaws == Jaws::soft) return {AccuracyId::soft_jaws, "clamping.soft-jaws"};
  return {AccuracyId::hard_jaws, "clamping.hard-jaws"};
}

// Two surfaces are as true to each other as the later operation is held on what the earlier one
// has made; in one clamping as true as the spindle runs.
std::optional<Held> held_between(const Route& route, const TiedPair& pair) {
  const auto surface = finished_in(route, pair.surface_index);
  const auto datum = finished_in(route, pair.datum_index);
  if (!surface) return std::nullopt;
  if (surface == datum) return Held{AccuracyId::one_clamping, "clamping.one-clamping"};
  return row_of(route.operations[std::max(*surface, datum.value_or(0))]);
}

// The drawing's tolerance is the grinder's.
bool is_left_on(const Job& job, const Surface& s) { return job.element_of(s).leave.si > 0; }

}  // namespace

bool is_seat(const Job& job, std::size_t surface, std::string_view datum) {
  return job.element_of(job.surfaces[surface]).seat == datum;
}

std::vector<TiedPair> tied_pairs(const Job& job) {
  std::vector<TiedPair> pairs;
  for (std::size_t i = 0; i < job.surfaces.size(); ++i)
    for (const Tie& tie : job.element_of(job.surfaces[i]).ties)
      for (std::size_t n = 0; n < job.surfaces.size(); ++n)
        if (is_seat(job, n, tie.datum))
          pairs.push_back({tie, job.surfaces[i], job.surfaces[n], i, n});
  return pairs;
}

Message named(const TiedPair& pair) {
  const std::vector<Place> places{
      {"surface", pair.surface.name}, {"datum", pair.datum.name}, {"value", pair.tie.value}};
  switch (pair.tie.kind) {
    case TieKind::runout:
      return {"clamping.tie-runout", places};
    case TieKind::coaxial:
      return {"clamping.tie-coaxial", places};
    case TieKind::square:
      break;
  }
  return {"clamping.tie-square", places};
}

Message accuracy_of(const Shop& shop, AccuracyId id, Message clamping) {
  const auto row = std::find_if(shop.clampings.begin(), shop.clampings.end(),
                                [&](const ClampingKind& k) { return k.name == name_of(id); });
  if (row == shop.clampings.end()) return clamping;
  return Message{"clamping.true-to",
                 {{"clamping", std::move(clamping)},
                  {"accuracy", row->accuracy},
                  {"basis", Message(std::string("basis.") + name_of(row->source.basis))}}};
}

Messages joint_cautions(const Route& route, const Shop& shop) {
  Messages cautions;
  const Held held = row_of(route.operations.back());
  for (const std::size_t n : joined_surfaces(route, shop.practice.overlap))
    cautions.push_back({"clamping.joint",
                        {{"surface", route.job.surfaces[n].name},
                         {"clamping", accuracy_of(shop, held.accuracy, held.how)}}});
  return cautions;
}

std::vector<OpenTie> open_ties(const Route& route, const Shop& shop) {
  std::vector<OpenTie> open;
  const Job& job = route.job;
  for (const TiedPair& pair : tied_pairs(job)) {
    if (is_left_on(job, pair.surface) || is_left_on(job, pair.datum)) continue;
    const auto held = held_between(route, pair);
    if (!held) continue;
    const Length accuracy = shop.accuracy(held->accuracy);
    if (pair.tie.value.si >= accuracy.si - same_point) continue;
    open.push_back({named(pair), accuracy_of(shop, held->accuracy, held->how),
                    (accuracy / pair.tie.value).si});
  }
  return open;
}

}  // namespace turnwright
