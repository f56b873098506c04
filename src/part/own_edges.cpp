// SPDX-License-Identifier: MIT
// Broken edges that become elements of their own: chamfers whose foot lies deeper than the step
// beside them, and edges where a bore right through opens into the wider one from the other face,
// which are drawn on the narrow bore and turned with the wide one.
#include <algorithm>
#include <cmath>

#include "part_sections.hpp"

namespace turnwright {
namespace {

constexpr double same_point = 1e-9;

Length height_of(const EdgeBreak& edge) {
  return edge.round ? edge.width : edge.width * std::tan(edge.angle.si);
}

// The chamfer as a cone between its foot and the cylinder; `near`: at the end that comes first.
Element cone_of(const EdgeBreak& edge, const Element& cylinder, Region region, bool near) {
  Element cone;
  cone.kind = ElementKind::cone;
  cone.text = cylinder.text;
  cone.at = edge.at;
  cone.ra = cylinder.ra;
  cone.to = edge.width;  // a length, until placed
  cone.size = cone.left_size = cylinder.size;
  Size& foot = near ? cone.size : cone.left_size;
  foot = {};
  const double outwards = region == Region::outside ? -2.0 : 2.0;
  foot.nominal = cylinder.size.nominal + outwards * height_of(edge);
  return cone;
}

bool goes_through(const std::vector<Element>& bore, Length overall) {
  return !bore.empty() && bore.back().to.si > overall.si - same_point;
}

// The broken edge as the last element of the wide bore, from its mouth.
Element between(const EdgeBreak& edge, const Element& narrow, Length wide_end) {
  Element e;
  e.kind = edge.round ? ElementKind::arc : ElementKind::cone;
  e.radius = edge.round ? edge.width : Length(0.0);
  e.hollow = e.from_step = edge.round;
  e.left_size.nominal = narrow.left_size.nominal;
  e.size.nominal = narrow.left_size.nominal + 2.0 * height_of(edge);
  e.text = narrow.text;
  e.at = edge.at;
  e.from = wide_end;
  e.to = wide_end + edge.width;
  e.flat = true;
  return e;
}

void move_from(std::vector<Element>& narrow, std::vector<Element>& wide, Length overall,
               ProblemList& problems) {
  if (!goes_through(narrow, overall) || wide.empty() || goes_through(wide, overall)) return;
  const Length bore = wide.back().left_size.nominal, end = wide.back().to;
  auto& breaks = narrow.back().breaks;
  const auto at_end = [](const EdgeBreak& e) { return e.side == Side::left; };
  const auto found = std::find_if(breaks.begin(), breaks.end(), at_end);
  if (found == breaks.end() || bore <= narrow.back().left_size.nominal) return;
  const Element edge = between(*found, narrow.back(), end);
  if (edge.size.nominal.si > bore.si + same_point)
    problems.add(
        found->at, 1,
        Message{"part.edge-wider-than-bore", {{"opens", edge.size.nominal}, {"bore", bore}}},
        Message{"part.wants-smaller-edge"});
  breaks.erase(found);
  wide.push_back(edge);
}

}  // namespace

void append_with_edges(std::vector<Element>& list, ReadElement read, Region region,
                       ProblemList& problems) {
  std::vector<Element> before, behind;
  Element& e = read.element;
  for (const EdgeBreak& edge : read.below_step) {
    const bool near = (edge.side == Side::right) != (region == Region::bore_left);
    if (e.kind != ElementKind::cylinder || edge.side == Side::unsaid || (e.through && !near)) {
      problems.add(edge.at, 1, "part.below-step", "part.wants-below-step");
      continue;
    }
    Element cone = cone_of(edge, e, region, near);
    const bool ordinate = e.from.si < 0;
    if (ordinate && !near) {
      cone.from = e.from;
      cone.to = e.to;
    }
    if (!e.through && !(ordinate && near)) e.to -= edge.width;
    (near ? before : behind).push_back(std::move(cone));
  }
  list.insert(list.end(), before.begin(), before.end());
  list.push_back(std::move(e));
  list.insert(list.end(), behind.begin(), behind.end());
}

void place_edges_between_bores(Part& part, ProblemList& problems) {
  move_from(part.bore_right, part.bore_left, part.overall, problems);
  move_from(part.bore_left, part.bore_right, part.overall, problems);
}

}  // namespace turnwright
