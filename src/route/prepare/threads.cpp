// SPDX-License-Identifier: MIT
// Threads, with the groove that each takes off and the room that its tool has to run out.
#include "turnwright/figure/threads.hpp"
#include "prepare/part_words.hpp"
#include "prepare/preparation.hpp"

namespace turnwright {
namespace {

// A thread to settle: its surface and the element on it.
struct Candidate {
  std::size_t index;  // of the surface
  const Surface& surface;
  const Element& element;
  const Thread& thread() const { return element.thread; }
};

// The neighbour in the list, or null at its end.
const Surface* beside(const Job& job, std::size_t i, bool right) {
  const std::size_t n = job.surfaces.size();
  // A bore from the left is listed from its mouth too: its right-hand side is the next one.
  const bool next = right == (job.surfaces[i].region == Region::bore_left);
  if (!next && i == 0) return nullptr;
  const std::size_t j = next ? i + 1 : i - 1;
  return j < n && job.surfaces[j].region == job.surfaces[i].region ? &job.surfaces[j] : nullptr;
}

// A tool that cuts the thread leaves its surface at this end without touching anything.
bool leaves(const Job& job, const Candidate& c, bool right) {
  const Surface& s = c.surface;
  const Surface* other = beside(job, c.index, right);
  if (other == nullptr) {
    const bool mouth = right != (s.region == Region::bore_left);
    return s.region == Region::outside || mouth || job.bores[s.region == Region::bore_left].through;
  }
  const Length r = right ? other->left_radius : other->right_radius;
  return s.inside() ? r.si > s.right_radius.si - same_point
                    : r.si < s.right_radius.si + 0.1 * c.thread().pitch.si;
}

// The full thread gives way by so much at the end that the tool leaves it at.
void shorten(ThreadCut& cut, Length by) {
  (cut.runs_to_left ? cut.from : cut.to) = cut.runs_to_left ? cut.from + by : cut.to - by;
  cut.run_out = by / 2.0;
}

// Width and bottom diameter of an undercut, as written or by the standard's row.
Length undercut_width(const Undercut& u, const ThreadRunout& row, bool inside) {
  return u.width.si > 0 ? u.width
         : inside       ? row.inside_width
         : u.short_form ? row.short_width
                        : row.width;
}
Length undercut_bottom(const Undercut& u, const ThreadRunout& row, bool inside, Length major) {
  return u.bottom.si > 0 ? u.bottom : inside ? major + row.above : major - row.below;
}

bool refuse_undercut(Preparation& p, const Candidate& c, const ThreadCut& cut, Length width,
                     Length bottom) {
  const Position at = c.element.undercut->at;
  const Length root = c.surface.right_radius + (cut.inside ? cut.depth : -cut.depth);
  if (width.si > c.element.length().si - c.thread().pitch.si) {
    p.refuse(at, {"prepare.undercut-too-wide", {{"width", width}, {"length", c.element.length()}}},
             "prepare.expect-longer-thread");
    return true;
  }
  if (cut.inside ? bottom / 2.0 < root : bottom / 2.0 > root) {
    p.refuse(at, {"prepare.undercut-above-root", {{"bottom", bottom}, {"root", 2.0 * root}}},
             cut.inside ? Message("prepare.expect-larger-bottom")
                        : Message("prepare.expect-smaller-bottom"));
    return true;
  }
  return false;
}

bool runs_into_undercut(Preparation& p, const Candidate& c, const ThreadRunout& row, ThreadCut& cut,
                        std::vector<UndercutDip>& dips) {
  const Undercut& u = *c.element.undercut;
  const Surface& s = c.surface;
  const Length width = undercut_width(u, row, cut.inside);
  const Length bottom = undercut_bottom(u, row, cut.inside, c.thread().major);
  if (refuse_undercut(p, c, cut, width, bottom)) return false;
  shorten(cut, width);
  dips.push_back({s.region, cut.runs_to_left ? s.left : s.right - width,
                  cut.runs_to_left ? s.left + width : s.right, bottom / 2.0});
  return true;
}

// At a shoulder the thread ends short of it, by the standard's ordinary run-out.
void run_out_at_shoulder(Preparation& p, const Candidate& c, ThreadCut& cut) {
  const Length by = p.shop.practice.shoulder_run_out_pitches * c.thread().pitch;
  shorten(cut, by);
  p.job.cautions.push_back(
      {"prepare.thread-short-of-shoulder", {{"thread", c.thread().designation}, {"by", by}}});
}

void refuse_without_run_out(Preparation& p, const Candidate& c, const ThreadRunout* row) {
  const Place thread("thread", c.thread().designation);
  const Message expected =
      row == nullptr ? Message("prepare.expect-run-out")
                     : Message("prepare.expect-run-out-wide",
                               {{"width", c.surface.inside() ? row->inside_width : row->width}});
  p.refuse(c.element.at, {"prepare.thread-without-run-out", {thread}}, expected,
           with_undercut(c.element.text));
}

const Groove* run_out_groove(const Practice& practice, const Candidate& c) {
  for (const Groove& g : c.element.grooves)
    if (g.at_shoulder && g.width.si >= practice.least_runout_groove * c.thread().pitch.si)
      return &g;
  return nullptr;
}

// The room beyond the full thread; shortens it by its undercut. False: there is none.
bool runs_out(Preparation& p, const Candidate& c, bool far_free, ThreadCut& cut,
              std::vector<UndercutDip>& dips) {
  const ThreadRunout* row = p.shop.standards.runout(c.thread().pitch);
  if (c.element.undercut) return row == nullptr || runs_into_undercut(p, c, *row, cut, dips);
  if (const Groove* groove = run_out_groove(p.shop.practice, c)) {
    shorten(cut, groove->width);
    return true;
  }
  if (far_free) {
    cut.run_out = c.thread().pitch;
    return true;
  }
  const bool blind_end =
      cut.inside && beside(p.job, c.index, c.surface.region == Region::bore_left) == nullptr;
  if (blind_end && row != nullptr) {
    // The core hole is drilled deeper by the run-out; the usable thread keeps its length.
    shorten(cut, row->blind);
    return true;
  }
  const Length least = (p.shop.practice.shoulder_run_out_pitches + 1) * c.thread().pitch;
  if (c.element.length() > least) {
    run_out_at_shoulder(p, c, cut);
    return true;
  }
  refuse_without_run_out(p, c, row);
  return false;
}

ThreadCut cut_of(const Candidate& c) {
  const Thread& t = c.thread();
  ThreadCut cut;
  cut.surface = c.index;
  cut.thread = t;
  cut.inside = c.surface.inside();
  cut.from = c.surface.left;
  cut.to = c.surface.right;
  const Length r = c.surface.right_radius;
  const Length blank = cut.inside ? (r - t.core() / 2.0) : (t.major / 2.0 - r);
  cut.depth = t.depth(cut.inside) - blank;
  return cut;
}

Volume groove_volume(const ThreadCut& cut, Length radius) {
  return figure::ThreadGrooveVolume::work_out<>(
             {2.0 * radius, cut.thread.pitch, cut.depth, cut.to - cut.from,
              Number(cut.thread.flank_angle()),
              cut.inside ? figure::ThreadKind::internal : figure::ThreadKind::external})
      .volume;
}

void settle(Preparation& p, const Candidate& c, std::vector<UndercutDip>& dips) {
  const Thread& t = c.thread();
  const Place thread("thread", t.designation);
  ThreadCut cut = cut_of(c);
  // Cut towards a shoulder, or away from the free end that there is.
  const bool free_right = leaves(p.job, c, true), free_left = leaves(p.job, c, false);
  cut.runs_to_left = free_right;
  if (!free_right && !free_left) {
    p.refuse(c.element.at, {"prepare.thread-between-shoulders", {thread}},
             "prepare.expect-free-end");
    return;
  }
  if (!runs_out(p, c, cut.runs_to_left ? free_left : free_right, cut, dips)) return;
  if (cut.depth.si <= 0 || cut.to - cut.from < t.pitch) {
    p.refuse(c.element.at,
             {"prepare.thread-without-full-turn", {thread, {"length", c.element.length()}}},
             "prepare.expect-longer-element");
    return;
  }
  cut.volume = groove_volume(cut, c.surface.right_radius);
  p.job.features.push_back(
      {{"feature.thread", {thread}}, cut.volume, (cut.from + cut.to) / 2.0, false});
  p.job.threads.push_back(cut);
}

}  // namespace

std::vector<UndercutDip> find_threads(Preparation& p) {
  std::vector<UndercutDip> dips;
  for (std::size_t i = 0; i < p.job.surfaces.size(); ++i) {
    const Surface& s = p.job.surfaces[i];
    const Element& e = p.job.element_of(s);
    if (e.kind == ElementKind::thread && !e.allow) settle(p, {i, s, e}, dips);
  }
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

}  // namespace turnwright
