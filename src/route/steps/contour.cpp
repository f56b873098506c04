// SPDX-License-Identifier: MIT
#include "steps/contour.hpp"

#include <cmath>

namespace turnwright {
namespace {

bool is_cylinder(const Segment& s) { return s.bulge == Bulge::none && s.from.r.si == s.to.r.si; }
Length largest_radius(const Segment& s) {
  const auto top = turning_point(s);
  return max(max(s.from.r, s.to.r), top ? radius_at(s, *top) : Length(0.0));
}

class ContourPath {
 public:
  ContourPath(const OperationContext& op, Workpiece& work, const Contour& contour)
      : op_(op),
        work_(work),
        contour_(contour),
        top_(contour.inside ? Length(0.0) : work.outside.largest(op.task.zone_left, Length(0.0))) {}

  std::vector<CutSegment> segments() {
    for (auto i = contour_.where.rbegin(); i != contour_.where.rend(); ++i) follow(*i);
    return std::move(segments_);
  }

 private:
  void follow(const Interval& interval) {
    starts_ = true;
    last_r_ = Length(0.0);
    const auto& pieces = contour_.shape.pieces();
    for (auto s = pieces.rbegin(); s != pieces.rend(); ++s) {
      const Length l = max(s->from.z, interval.from), r = min(s->to.z, interval.to);
      if (r.si - l.si > same_point) follow(between(*s, l, r), l, r);
    }
    face_end(interval);
    if (!segments_.empty())
      segments_.back().travel = interval.width() + op_.shop.practice.clear_of_work;
  }

  // The shoulder that a stretch ends at: up to the work outside, down to the hole inside.
  void face_end(const Interval& interval) {
    const Length z = interval.from;
    if (starts_ || z <= op_.job.left() + Length(same_point)) return;
    // The wall of the zone is no shoulder, what the part has there is.
    const bool at_zone = !contour_.inside && z <= op_.task.zone_left + Length(same_point);
    const Length beside = at_zone ? op_.task.target.left_of(z) : contour_.shape.left_of(z);
    const Length to =
        contour_.inside ? max(beside, work_.hollow.empty() ? Length(0.0) : work_.hollow.left_of(z))
                        : min(beside, work_.outside.left_of(z));
    const bool steps =
        contour_.inside ? last_r_.si > to.si + same_point : to.si > last_r_.si + same_point;
    if (!steps) return;
    const Wanted wanted = wanted_at(op_, z + Length(same_point), contour_.inside);
    const Cut cut = cut_at(op_, contour_.tool, contour_.kind, 2.0 * max(last_r_, to),
                           contour_.depth, contour_.by_finish ? wanted.ra : Length(0.0));
    add(across(work_, cut, z, last_r_, to, Length(0.0)), wanted);
  }

  // What stands over the shape here, away from the faces beside it; at least the contour's depth.
  Length depth_over(const Segment& piece, Length l, Length r) const {
    constexpr int samples = 8;
    Length most = contour_.depth;
    // What is left on a shoulder's face is as thick as the stretch is wide, however high it stands.
    if (contour_.inside || r - l <= max(most, op_.shop.practice.axial_allowance)) return most;
    for (int i = 1; i < samples; ++i) {
      const Length z = l + (r - l) * (static_cast<double>(i) / samples);
      most = max(most, work_.outside.left_of(z) - radius_at(piece, z));
    }
    return most;
  }

  // Nothing is asked for where the tool passes over what another operation turns.
  Wanted wanted_on(const Segment& piece, Length l, Length r) const {
    const Length z = (l + r) / 2.0;
    const bool over = !contour_.inside && radius_at(piece, z) > op_.task.target.left_of(z) +
                                                                    op_.shop.practice.smallest_edge;
    return over ? Wanted() : wanted_at(op_, z, contour_.inside);
  }

  // At a lathe worked by hand every land is set by the dial and engaged by itself.
  bool set_by_hand(const Segment& piece, Length width) const {
    return op_.machine.manual() && width > op_.shop.practice.shortest_shoulder &&
           std::abs(piece.to.r.si - last_r_.si) > same_point;
  }

  void follow(const Segment& piece, Length l, Length r) {
    const Wanted wanted = wanted_on(piece, l, r);
    const Length depth = depth_over(piece, l, r);
    const Length before =
        contour_.inside ? piece.from.r : min(piece.from.r + depth, max(top_, piece.from.r));
    Cut cut =
        cut_at(op_, contour_.tool, contour_.kind, 2.0 * max(max(piece.from.r, piece.to.r), before),
               depth, contour_.by_finish ? wanted.ra : Length(0.0));
    cut.conditions.used.depth = depth;
    if (!starts_ && std::abs(piece.to.r.si - last_r_.si) > same_point)
      add(across(work_, cut, r, last_r_, piece.to.r, Length(0.0)), wanted);
    if (set_by_hand(piece, r - l)) starts_ = true;
    if (is_cylinder(piece))
      add(straight(cut, piece.from.r, before, l, r), wanted);
    else
      for (const Segment& part : parts_of(piece, cut)) add(slanted(cut, part), wanted);
    last_r_ = piece.from.r;
  }

  Length approach() const { return starts_ ? op_.shop.practice.approach : Length(0.0); }

  CutSegment straight(const Cut& cut, Length radius, Length before, Length l, Length r) {
    CutSegment segment = along(work_, cut, r, l, radius, before, approach());
    if (contour_.inside) segment.depth = contour_.depth;
    return segment;
  }

  // Arcs are split where the spindle reaches its fastest; from the right.
  std::vector<Segment> parts_of(const Segment& piece, const Cut& cut) const {
    if (piece.bulge == Bulge::none) return {piece};
    const Length clamp =
        cut.conditions.used.surface_speed / (2.0 * (pi * fastest_speed(op_.machine)));
    const std::vector<Segment> parts = split_at_radius(piece, clamp);
    return {parts.rbegin(), parts.rend()};
  }

  // A cone or an arc.
  CutSegment slanted(const Cut& cut, const Segment& part) {
    CutSegment segment = across(work_, cut, part.to.z, part.to.r, part.from.r, Length(0.0));
    segment.from = part.to;
    segment.to = part.from;
    segment.cut = length(part);
    segment.approach = approach();
    segment.motion =
        part.bulge == Bulge::none && segment.approach.si == 0 ? Motion::across : Motion::arc;
    segment.large_diameter = 2.0 * largest_radius(part);
    segment.swept = surface(part) + pi * segment.large_diameter * segment.approach;
    segment.depth = cut.conditions.used.depth;
    set_speed(work_, cut, segment);
    return segment;
  }

  void add(CutSegment segment, const Wanted& wanted) {
    segment.starts_pass = starts_;
    if (!starts_) segment.travel = Length(0.0);
    if (contour_.by_finish && wanted.grade <= op_.shop.practice.two_equal_cuts_to &&
        segment.motion == Motion::along) {
      segment.depth = segment.depth / 2.0;
      segment = as_pass(op_.shop.practice, segment);
      segments_.push_back(segment);
    }
    segments_.push_back(segment);
    starts_ = false;
  }

  const OperationContext& op_;
  Workpiece& work_;
  const Contour& contour_;
  Length top_;  // of the work
  std::vector<CutSegment> segments_;
  bool starts_ = true;
  Length last_r_{};
};

}  // namespace

std::vector<CutSegment> segments_along(const OperationContext& op, Workpiece& work,
                                       const Contour& contour) {
  return ContourPath(op, work, contour).segments();
}

}  // namespace turnwright
