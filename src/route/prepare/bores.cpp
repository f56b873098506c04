// SPDX-License-Identifier: MIT
// The surfaces of the bores, each listed from its mouth.
#include "prepare/holes.hpp"
#include "prepare/sizes.hpp"

namespace turnwright {
namespace {

bool goes_through(const Preparation& p, const Element& e) {
  return e.to.si > p.job.part.overall.si - same_point;
}

// The core hole of a blind thread is drilled deeper.
Length blind_run_out(const Preparation& p, const Element& e, bool last) {
  const ThreadRunout* row = p.shop.standards.runout(e.thread.pitch);
  return last && !goes_through(p, e) && !e.undercut && row != nullptr ? row->blind : Length(0.0);
}

// A tap drill of the set, where one is near enough.
Length core_radius(const Shop& shop, const Thread& thread) {
  const Length core = thread.core();
  for (const Tool& t : shop.tools)
    if (t.kind == ToolKind::drill)
      for (const Length d : t.sizes)
        if (d.si > core.si - 0.1e-3 && d.si < core.si + 0.1 * thread.pitch.si) return d / 2.0;
  return core / 2.0;
}

// Radii at the mouth's end of an element and at its inner end.
struct Ends {
  Length mouth{}, inner{};
};

Ends ends_of(Preparation& p, const Element& e, Surface& s, bool first) {
  Ends ends;
  ends.mouth = ends.inner = mean_radius(p, e, e.size, s);
  if (e.kind == ElementKind::cone || e.kind == ElementKind::arc)
    ends.inner = mean_radius(p, e, e.left_size, s);
  if (e.kind == ElementKind::thread) ends.mouth = ends.inner = core_radius(p.shop, e.thread);
  if (e.kind != ElementKind::arc || e.from_step) return ends;
  const bool left = s.region == Region::bore_left;
  ends.mouth = first  ? Length(0.0)
               : left ? p.job.surfaces.back().right_radius
                      : p.job.surfaces.back().left_radius;
  return ends;
}

void place(const Preparation& p, const Element& e, bool last, Surface& s) {
  const bool left = s.region == Region::bore_left;
  s.left = left ? p.job.left() + e.from : -e.to;
  s.right = left ? p.job.left() + e.to : -e.from;
  if (e.kind != ElementKind::thread) return;
  const Length deeper = blind_run_out(p, e, last);
  s.left = left ? s.left : s.left - deeper;
  s.right = left ? s.right + deeper : s.right;
}

void measure(Preparation& p, Region region, std::size_t i) {
  const auto& list = p.elements(region);
  const Element& e = list[i];
  Surface s = plain_surface(p.shop, e, i, region);
  s.gripable = false;
  place(p, e, i + 1 == list.size(), s);
  const Ends ends = ends_of(p, e, s, i == 0);
  const bool left = region == Region::bore_left;
  s.left_radius = left ? ends.mouth : ends.inner;
  s.right_radius = left ? ends.inner : ends.mouth;
  leave_on(p, e, s, -1.0);
  p.job.surfaces.push_back(s);
}

}  // namespace

void measure_bore(Preparation& p, Region region) {
  const auto& list = p.elements(region);
  if (list.empty() || p.made_by_stated_time(region)) return;
  const std::size_t first = p.job.surfaces.size();
  for (std::size_t i = 0; i < list.size(); ++i) measure(p, region, i);
  Bore& bore = p.bore(region);
  bore.through = goes_through(p, list.back());
  const Length overall = p.job.part.overall;
  if (list.back().to.si > overall.si + same_point)
    p.refuse(list.back().at, {"prepare.bore-beyond-part", {{"beyond", list.back().to - overall}}},
             {"prepare.expect-bore-within", {{"length", overall}}});
  if (!p.clean()) return;
  open_hole(std::span<const Surface>(p.job.surfaces).subspan(first), list, p.shop, bore);
  bore.narrow += first;
}

}  // namespace turnwright
