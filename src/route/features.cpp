// SPDX-License-Identifier: MIT
#include "features.hpp"

#include <algorithm>
#include <cmath>

#include "length_text.hpp"
#include "profile.hpp"
#include "turnwright/figure/threads.hpp"

namespace turnwright {
namespace {

constexpr double least_groove_pitches = 2;  // a groove this wide lets a threading tool out (memory)

// What lies beside a surface of a list, seen from the tool that comes from the right.
struct Neighbours {
  bool right_free = true, left_free = true;  // nothing stands in the way of a tool there
  bool left_end = false;                     // it is the last of its list
};

// One list of surfaces: the outside, or a bore from its mouth.
class ThreadFinder {
 public:
  ThreadFinder(Job& job, const Shop& shop, const Complaints& complaints,
               std::vector<UndercutDip>& dips)
      : job_(job), shop_(shop), complaints_(complaints), dips_(dips) {}

  void find() {
    for (std::size_t i = 0; i < job_.surfaces.size(); ++i) {
      const Surface& s = job_.surfaces[i];
      const Element& e = job_.element_of(s);
      if (e.kind == ElementKind::thread && !e.allow) thread(i, s, e);
    }
  }

 private:
  // The neighbour in the list, or null at its end.
  const Surface* beside(std::size_t i, bool right) const {
    const std::size_t n = job_.surfaces.size();
    // A bore from the left is listed from its mouth too: its right-hand side is the next one.
    const bool next = right == (job_.surfaces[i].region == Region::bore_left);
    if (!next && i == 0) return nullptr;
    const std::size_t j = next ? i + 1 : i - 1;
    return j < n && job_.surfaces[j].region == job_.surfaces[i].region ? &job_.surfaces[j]
                                                                       : nullptr;
  }
  // A tool that cuts `depth` into the surface leaves it at this end without touching anything.
  bool leaves(std::size_t i, bool right, const Thread& t) const {
    const Surface& s = job_.surfaces[i];
    const Surface* other = beside(i, right);
    if (other == nullptr) {
      const bool mouth = right != (s.region == Region::bore_left);
      return s.region == Region::outside || mouth ||
             job_.bores[s.region == Region::bore_left].through;
    }
    const Length r = right ? other->left_radius : other->right_radius;
    return s.inside() ? r.si > s.right_radius.si - same_point
                      : r.si < s.right_radius.si + 0.1 * t.pitch.si;
  }
  void thread(std::size_t i, const Surface& s, const Element& e) {
    const Thread& t = e.thread;
    ThreadCut cut;
    cut.surface = i;
    cut.thread = t;
    cut.inside = s.inside();
    cut.from = s.left;
    cut.to = s.right;
    const Length blank =
        cut.inside ? (s.right_radius - t.core() / 2.0) : (t.major / 2.0 - s.right_radius);
    cut.depth = t.depth(cut.inside) - blank;
    // Cut towards a shoulder, or away from the free end that there is.
    const bool free_right = leaves(i, true, t), free_left = leaves(i, false, t);
    cut.runs_to_left = free_right;
    if (!free_right && !free_left) {
      complaints_.add(e.at, "the thread " + t.designation + " stands between two shoulders",
                      "a free end for the tool to come from");
      return;
    }
    const bool far_free = cut.runs_to_left ? free_left : free_right;
    if (!run_out(s, e, far_free, cut)) return;
    const Length radius = s.right_radius;
    if (cut.depth.si <= 0 || cut.to - cut.from < t.pitch) {
      complaints_.add(e.at,
                      "the thread " + t.designation + " has no full turn on its length of " +
                          length_text(job_, e.length()),
                      "a longer element");
      return;
    }
    cut.volume = figure::ThreadGrooveVolume::work_out<>(
                     {2.0 * radius, t.pitch, cut.depth, cut.to - cut.from, Number(t.flank_angle()),
                      cut.inside ? figure::ThreadKind::internal : figure::ThreadKind::external})
                     .volume;
    job_.features.push_back(
        {"thread " + t.designation, cut.volume, (cut.from + cut.to) / 2.0, false});
    job_.threads.push_back(cut);
  }
  // The room beyond the full thread; shortens it by its undercut.
  bool run_out(const Surface& s, const Element& e, bool far_free, ThreadCut& cut) {
    const Thread& t = e.thread;
    const ThreadRunout* row = shop_.standards.runout(t.pitch);
    auto shorten = [&](Length by) {
      (cut.runs_to_left ? cut.from : cut.to) = cut.runs_to_left ? cut.from + by : cut.to - by;
      cut.run_out = by / 2.0;
    };
    if (e.undercut) {
      const Undercut& u = *e.undercut;
      if (row == nullptr) return true;
      const Length width = u.width.si > 0 ? u.width
                           : cut.inside   ? row->inside_width
                           : u.short_form ? row->short_width
                                          : row->width;
      const Length bottom = u.bottom.si > 0 ? u.bottom
                            : cut.inside    ? t.major + row->above
                                            : t.major - row->below;
      const Length root = s.right_radius + (cut.inside ? cut.depth : -cut.depth);
      if (width.si > e.length().si - t.pitch.si) {
        complaints_.add(u.at,
                        "an undercut of " + length_text(job_, width) + " in a thread of " +
                            length_text(job_, e.length()),
                        "a thread longer than its undercut and a turn");
        return false;
      }
      if (cut.inside ? bottom / 2.0 < root : bottom / 2.0 > root) {
        complaints_.add(u.at,
                        "an undercut to " + length_text(job_, bottom) +
                            " does not reach the root of the thread, " +
                            length_text(job_, 2.0 * root),
                        cut.inside ? "a larger bottom" : "a smaller bottom");
        return false;
      }
      shorten(width);
      dips_.push_back({s.region, cut.runs_to_left ? s.left : s.right - width,
                       cut.runs_to_left ? s.left + width : s.right, bottom / 2.0});
      return true;
    }
    for (const Groove& g : e.grooves)
      if (g.at_shoulder && g.width.si >= least_groove_pitches * t.pitch.si) {
        shorten(g.width);
        return true;
      }
    if (far_free) {
      cut.run_out = t.pitch;
      return true;
    }
    const bool blind_end =
        cut.inside && beside(cut.surface, s.region == Region::bore_left) == nullptr;
    if (blind_end && row != nullptr) {
      // The core hole is drilled deeper by the run-out; the usable thread keeps its length.
      shorten(row->blind);
      return true;
    }
    std::string width =
        row == nullptr
            ? ""
            : " (" + length_text(job_, cut.inside ? row->inside_width : row->width) + " wide)";
    complaints_.add(
        e.at, "the thread " + t.designation + " ends at a shoulder and has no room to run out",
        "undercut DIN 76-A" + width +
            ", a groove at the shoulder, or the time you give it: add ', allow 6 min'",
        e.text + ", undercut DIN 76-A");
    return false;
  }

  Job& job_;
  const Shop& shop_;
  const Complaints& complaints_;
  std::vector<UndercutDip>& dips_;
};

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

}  // namespace

double corners_of(bool hexagon) { return hexagon ? 2 / std::sqrt(3.0) : std::sqrt(2.0); }

std::vector<UndercutDip> find_threads(Job& job, const Shop& shop, const Complaints& complaints) {
  std::vector<UndercutDip> dips;
  ThreadFinder(job, shop, complaints, dips).find();
  return dips;
}

void cut_undercuts(Job& job, const std::vector<UndercutDip>& undercuts) {
  for (const UndercutDip& dip : undercuts) {
    const Interval where{dip.from, dip.to};
    if (dip.region == Region::outside) {
      job.finished = lowered(job.finished, Outline::cylinder(dip.from, dip.to, dip.radius), where);
      continue;
    }
    Outline& hollow = job.bores[dip.region == Region::bore_left ? 1 : 0].finished;
    hollow = combine(hollow, Outline::cylinder(dip.from, dip.to, dip.radius), Envelope::upper);
  }
}

void find_face_grooves(Job& job, const Complaints& complaints) {
  for (const bool left : {false, true})
    for (const FaceGroove& g : (left ? job.part.left_face : job.part.right_face).grooves) {
      const Length outer = g.inner + 2.0 * g.width;
      const Length end =
          2.0 * (left ? job.finished.right_of(job.left()) : job.finished.left_of(Length(0.0)));
      const Length hole =
          2.0 * (left ? job.hollow().right_of(job.left()) : job.hollow().left_of(Length(0.0)));
      if (outer.si > end.si - same_point || g.inner.si < hole.si - same_point ||
          g.depth > job.part.overall) {
        complaints.add(g.at,
                       "a face groove from " + length_text(job, g.inner) + " to " +
                           length_text(job, outer) + " is not on the face, which goes from " +
                           length_text(job, hole) + " to " + length_text(job, end),
                       "a groove inside the face");
        continue;
      }
      FaceCut cut{left, g, pi / 4 * (square(outer) - square(g.inner)) * g.depth};
      job.features.push_back({"face groove from " + length_text(job, g.inner), cut.volume,
                              left ? job.left() : Length(0.0), false});
      job.face_cuts.push_back(cut);
    }
}

namespace {
// H, or a size in plus only: what a reamer of the nominal size makes.
bool hole_basis(const Size& size) {
  return size.letters == "H" || (size.letters.empty() && size.toleranced &&
                                 size.lower.si > -same_point && size.lower.si < same_point);
}
}  // namespace

Length under_size(const Surface& bored) {
  // A fit is rough bored before it is finished.
  return bored.grade <= 8 ? Length(1.5e-3) : Length(1e-3);
}

void open_hole(std::span<Surface> surfaces, const std::vector<Element>& elements, const Shop& shop,
               Bore& bore) {
  // The narrowest surface decides; the deepest of equals.
  std::size_t narrow = 0;
  for (std::size_t i = 0; i < surfaces.size(); ++i)
    if (min(surfaces[i].left_radius, surfaces[i].right_radius).si <
        min(surfaces[narrow].left_radius, surfaces[narrow].right_radius).si + same_point)
      narrow = i;
  bore.narrow = narrow;
  const Surface& s = surfaces[narrow];
  const Element& e = elements[narrow];
  const Length d = 2.0 * min(s.left_radius, s.right_radius);
  const bool straight = e.kind == ElementKind::cylinder || e.kind == ElementKind::thread;
  const Length same = size_between(shop, ToolKind::drill, d - Length(1e-6), d + Length(1e-6), true);
  const bool rough = !s.needs_finish() || e.kind == ElementKind::thread;
  if (straight && rough && same.si > 0 && !e.flat) {
    bore.drilled = same;
    bore.to_size = true;
    return;
  }
  // H6 to H9 in the sizes of the reamers; a tie asks for a bore that is bored.
  const bool reamer = std::any_of(shop.tools.begin(), shop.tools.end(), [&](const Tool& t) {
    return t.kind == ToolKind::ream && t.has_size(e.size.nominal) &&
           s.right - s.left <= t.deepest * e.size.nominal;
  });
  if (straight && e.kind == ElementKind::cylinder && reamer && hole_basis(e.size) && s.grade >= 6 &&
      s.grade <= 9 && e.ties.empty() && e.seat.empty() && e.grooves.empty() && !e.flat) {
    const Length most = of_range(shop.reaming, shop.reaming.most, d),
                 least = of_range(shop.reaming, shop.reaming.least, d);
    bore.drilled = size_between(shop, ToolKind::drill, d - most - Length(0.1e-3), d - least);
    bore.reamed = bore.drilled.si > 0;
    if (bore.reamed) return;
  }
  bore.drilled = size_between(shop, ToolKind::drill, Length(0.0), d - under_size(s));
}

}  // namespace turnwright
