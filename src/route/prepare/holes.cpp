// SPDX-License-Identifier: MIT
#include "prepare/holes.hpp"

#include <algorithm>

#include "prepare/part_words.hpp"
#include "steps/tools.hpp"

namespace turnwright {
namespace {

// The largest size of the sets of a kind in a range, or 0.
Length size_between(const Shop& shop, ToolKind kind, Length low, Length high, bool inch = false) {
  Length best(0.0);
  for (const Tool& t : shop.tools)
    if (t.kind == kind && t.for_lathe != ToolFor::cnc && (inch || !t.inch_set))
      for (const Length d : t.sizes)
        if (d.si >= low.si - 1e-7 && d.si <= high.si + 1e-7) best = max(best, d);
  return best;
}

Length of_range(const ReamingStock& r, const std::vector<Length>& values, Length d) {
  for (std::size_t i = 0; i < r.up_to.size(); ++i)
    if (d <= r.up_to[i]) return values[i];
  return values.empty() ? Length(0.4e-3) : values.back();
}

// The narrowest surface decides; the deepest of equals.
std::size_t narrowest(std::span<const Surface> surfaces) {
  std::size_t narrow = 0;
  for (std::size_t i = 0; i < surfaces.size(); ++i)
    if (min(surfaces[i].left_radius, surfaces[i].right_radius).si <
        min(surfaces[narrow].left_radius, surfaces[narrow].right_radius).si + same_point)
      narrow = i;
  return narrow;
}

bool drilled_to_size(const Surface& s, const Element& e, const Practice& practice) {
  const bool thread = e.kind == ElementKind::thread;
  const bool rough = thread || !s.needs_finish(practice);
  return (e.kind == ElementKind::cylinder || thread) && rough && !e.flat;
}

// H6 to H9 in the sizes of the reamers; a tie asks for a bore that is bored.
bool has_reamer(const Surface& s, const Element& e, const Shop& shop) {
  const bool reamer = std::any_of(shop.tools.begin(), shop.tools.end(), [&](const Tool& t) {
    return t.kind == ToolKind::ream && t.has_size(e.size.nominal) &&
           s.right - s.left <= t.deepest * e.size.nominal;
  });
  return e.kind == ElementKind::cylinder && reamer && e.ties.empty() && e.seat.empty() &&
         e.grooves.empty() && !e.flat;
}
bool reamed_to_size(const Surface& s, const Element& e, const Shop& shop) {
  return has_reamer(s, e, shop) && hole_basis(e.size) && s.grade >= shop.practice.finest_reamed &&
         s.grade <= shop.practice.coarsest_reamed;
}

// A reamer leaves its nominal size to H7 above it; wider deviations hold that too.
bool reamer_is_within(const Surface& s, const Element& e, const Shop& shop) {
  constexpr int grade = 7;  // of the reamers
  const auto hole = shop.standards.fit("H", grade, e.size.nominal);
  const Length low = s.diameter() - s.tolerance / 2.0, high = s.diameter() + s.tolerance / 2.0;
  return hole && low.si <= e.size.nominal.si + same_point &&
         (e.size.nominal + hole->upper).si <= high.si + same_point;
}

// No boring bar enters the hole that would be drilled for it, and reaches so deep.
bool no_bar_reaches(const Shop& shop, Length hole, Length depth) {
  return std::none_of(shop.tools.begin(), shop.tools.end(), [&](const Tool& t) {
    return t.kind == ToolKind::bore && bar_fits(t, hole, depth);
  });
}

Length drilled_for_reamer(const Shop& shop, Length d) {
  const Length most = of_range(shop.reaming, shop.reaming.most, d),
               least = of_range(shop.reaming, shop.reaming.least, d);
  return size_between(shop, ToolKind::drill, d - most - Length(0.1e-3), d - least);
}

}  // namespace

Length under_size(const Practice& practice, const Surface& bored) {
  // A fit is rough bored before it is finished.
  return bored.grade <= practice.fine_to ? practice.drilled_under_fit : practice.drilled_under_size;
}

void open_hole(std::span<const Surface> surfaces, const std::vector<Element>& elements,
               const Shop& shop, Bore& bore) {
  bore.narrow = narrowest(surfaces);
  const Surface& s = surfaces[bore.narrow];
  const Element& e = elements[bore.narrow];
  const Length d = 2.0 * min(s.left_radius, s.right_radius);
  const Length same = size_between(shop, ToolKind::drill, d - Length(1e-6), d + Length(1e-6), true);
  if (drilled_to_size(s, e, shop.practice) && same.si > 0) {
    bore.drilled = same;
    bore.to_size = true;
    return;
  }
  if (reamed_to_size(s, e, shop)) {
    bore.drilled = drilled_for_reamer(shop, d);
    bore.reamed = bore.drilled.si > 0;
    if (bore.reamed) return;
  }
  bore.drilled = size_between(shop, ToolKind::drill, Length(0.0), d - under_size(shop.practice, s));
  // What no bar bores is reamed, where that is near enough.
  if (!no_bar_reaches(shop, bore.drilled, e.to) || !has_reamer(s, e, shop) ||
      !reamer_is_within(s, e, shop))
    return;
  const Length for_reamer = drilled_for_reamer(shop, d);
  bore.reamed = for_reamer.si > 0;
  if (bore.reamed) bore.drilled = for_reamer;
}

}  // namespace turnwright
