// SPDX-License-Identifier: MIT
// The outlines of a job from its surfaces, edges, corners and grooves.
#include "geometry/profile.hpp"
#include "prepare/drawn_list.hpp"

namespace turnwright {
namespace {

// The outline of a list; none when an element does not fit.
std::optional<Outline> drawn(Preparation& p, const DrawnList& list) {
  const std::size_t problems = p.problems.size();
  std::vector<Segment> pieces;
  for (std::size_t i = list.surfaces.size(); i-- > 0;) {
    const auto own = pieces_of(p, list, i);
    if (p.problems.size() > problems) return std::nullopt;
    pieces.insert(pieces.end(), own.begin(), own.end());
  }
  return Outline(pieces);
}

// A surface of a bore, seen from its mouth at z = 0 and turned over.
Surface from_its_mouth(Surface s, Length part_left) {
  if (s.region == Region::bore_left) {
    const Length l = s.left;
    s.left = part_left - s.right;
    s.right = part_left - l;
    std::swap(s.left_radius, s.right_radius);
  }
  s.left_radius = inversion_radius - s.left_radius;
  s.right_radius = inversion_radius - s.right_radius;
  return s;
}

// A void as the job keeps it: real radii, global z, with the point of its drill where it is blind.
Outline kept(Preparation& p, Region region, const Outline& as_drawn) {
  const Bore& bore = p.bore(region);
  Outline real = inverted(as_drawn, inversion_radius);
  if (!bore.through && !p.elements(region).back().flat) real = with_point(real, bore.drilled / 2.0);
  return region == Region::bore_left ? real.mirrored(p.job.left()) : real;
}

}  // namespace

void draw_outside(Preparation& p) {
  Job& job = p.job;
  const DrawnList list{{job.outside().begin(), job.outside().end()}, job.part.outside, {}, {}};
  const auto turned = drawn(p, list);
  if (!turned) return;
  job.turned = *turned;
  job.finished = with_grooves(p, list, *turned);
}

void draw_bore(Preparation& p, Region region) {
  const auto& elements = p.elements(region);
  if (elements.empty() || p.made_by_stated_time(region)) return;
  Bore& bore = p.bore(region);
  DrawnList list{{}, elements, inversion_radius, bore.through ? Length(0.0) : inversion_radius};
  for (const Surface& s : p.job.surfaces)
    if (s.region == region) list.surfaces.push_back(from_its_mouth(s, p.job.left()));
  const auto turned = drawn(p, list);
  if (!turned) return;
  bore.turned = kept(p, region, *turned);
  bore.finished = kept(p, region, with_grooves(p, list, *turned));
}

}  // namespace turnwright
