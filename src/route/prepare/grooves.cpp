// SPDX-License-Identifier: MIT
// Grooves along the outside and in bores.
#include <cmath>

#include "prepare/drawn_list.hpp"
#include "turnwright/route/planned.hpp"

namespace turnwright {
namespace {

// A groove as a dip: its place and bottom radius, as drawn.
struct Dip {
  Length from{}, to{}, r{};
};
struct Cut {
  Length width{}, bottom{};
};

Planned<Cut> cut_of(const DrawnList& list, std::size_t i, const Groove& g, const Shop& shop) {
  const Length r = list.surfaces[i].right_radius;
  switch (g.kind) {
    case GrooveKind::circlip: {
      const Length nominal = list.elements[i].size.nominal;
      const CirclipGroove* ring = shop.standards.circlip(nominal, list.flipped());
      if (ring == nullptr) return Infeasible{"prepare.no-circlip-listed", {}};
      return Cut{ring->width, list.turned(ring->bottom / 2.0)};
    }
    case GrooveKind::o_ring:
      return Cut{shop.practice.o_ring_width * g.section,
                 r - shop.practice.o_ring_depth * g.section};
    case GrooveKind::plain:
    case GrooveKind::vee:
    case GrooveKind::half_round:
      break;
  }
  return Cut{g.width, g.bottom ? list.turned(*g.bottom / 2.0) : g.depth ? r - *g.depth : r};
}

Dip placed(const DrawnList& list, std::size_t i, const Groove& g, const Cut& cut) {
  const Surface& s = list.surfaces[i];
  if (!g.at_shoulder) {
    const Length to = -g.from.value_or(Length(0.0));
    return {to - cut.width, to, cut.bottom};
  }
  if (list.left_wall(i).si > s.left_radius.si + same_point)
    return {s.left, s.left + cut.width, cut.bottom};
  return {s.right - cut.width, s.right, cut.bottom};
}

Message misfit(const DrawnList& list, const Surface& s, const Dip& dip) {
  if (!list.flipped() && dip.r.si <= same_point) return "prepare.groove-cuts-through";
  if (dip.r.si >= min(s.left_radius, s.right_radius).si - same_point)
    return "prepare.groove-above-surface";
  if (dip.from.si < s.left.si - same_point || dip.to.si > s.right.si + same_point)
    return {"part.groove-outside-element",
            {{"at", -dip.to}, {"end", -dip.from}, {"from", -s.right}, {"to", -s.left}}};
  return {};
}

Planned<Dip> dip_of(const DrawnList& list, std::size_t i, const Groove& g, const Shop& shop) {
  const auto cut = cut_of(list, i, g, shop);
  if (!cut) return cut.infeasible();
  const Dip dip = placed(list, i, g, *cut);
  const Message wrong = misfit(list, list.surfaces[i], dip);
  if (!wrong.empty()) return Infeasible{wrong, {}};
  return dip;
}

// A V with its floor, where it has one, or an arc; else the rectangle that a plunge leaves.
Outline shape_of(const Groove& g, const Dip& dip, Length surface) {
  const Point right{dip.to, surface}, left{dip.from, surface};
  if (g.kind == GrooveKind::half_round)
    return Outline({arc_between(left, right, g.radius, Bulge::in)});
  if (g.kind != GrooveKind::vee) return Outline::cylinder(dip.from, dip.to, dip.r);
  const Length wall = (surface - dip.r) * std::tan(g.angle.si / 2);
  const Point from{dip.from + wall, dip.r}, to{dip.to - wall, dip.r};
  std::vector<Segment> pieces{{left, from, Bulge::none, {}, {}}};
  if (to.z.si - from.z.si > same_point) pieces.push_back({from, to, Bulge::none, {}, {}});
  pieces.push_back({to, right, Bulge::none, {}, {}});
  return Outline(pieces);
}

}  // namespace

Outline with_grooves(Preparation& p, const DrawnList& list, Outline outline) {
  for (std::size_t i = 0; i < list.surfaces.size(); ++i)
    for (const Groove& g : list.elements[i].grooves) {
      const auto dip = dip_of(list, i, g, p.shop);
      if (!dip) {
        p.refuse(g.at, dip.infeasible().why, "prepare.expect-size-that-fits");
        return outline;
      }
      outline =
          lowered(outline, shape_of(g, *dip, list.surfaces[i].right_radius), {dip->from, dip->to});
    }
  return outline;
}

}  // namespace turnwright
