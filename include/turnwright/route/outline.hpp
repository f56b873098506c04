// SPDX-License-Identifier: MIT
#pragma once
// An outline: r as a function of z in straight and circular pieces. A face is the jump between two
// pieces; no material is r = 0. Removing material is the lower of two outlines, protecting it the
// upper.
//   Outline after = combine(work, cut, Envelope::lower);
#include <vector>

#include "turnwright/route/segment.hpp"

namespace turnwright {

struct Interval {
  Length from{}, to{};  // from < to
  Length width() const { return to - from; }
};

class Outline {
 public:
  Outline() = default;
  /// Pieces from left to right; gaps are filled with r = 0.
  explicit Outline(const std::vector<Segment>& pieces);
  static Outline cylinder(Length left, Length right, Length r);

  const std::vector<Segment>& pieces() const { return pieces_; }
  bool empty() const { return pieces_.empty(); }
  Length left() const { return pieces_.front().from.z; }
  Length right() const { return pieces_.back().to.z; }
  /// r just left and just right of z; 0 outside.
  Length left_of(Length z) const;
  Length right_of(Length z) const;
  Length largest() const;
  /// The largest r between two z.
  Length largest(Length from, Length to) const;
  Volume volume() const;
  /// The part between two z, outside of it r = 0 (within the same ends).
  Outline only(Length from, Length to) const;
  /// Moved along the axis and outwards.
  Outline moved(Length dz, Length dr) const;
  /// Seen from the other end: z becomes mirror - z.
  Outline mirrored(Length mirror) const;

 private:
  std::vector<Segment> pieces_;
};

enum class Envelope { lower, upper };
Outline combine(const Outline& a, const Outline& b, Envelope take);

/// Volume of a body with an outside and a void in it.
Volume body_volume(const Outline& outside, const Outline& hollow);
/// Its surface: what a bath or a blast reaches, faces and bores too.
Area body_surface(const Outline& outside, const Outline& hollow);
/// r becomes `about` - r: a void as an outside, so that one set of rules serves both.
Outline inverted(const Outline& o, Length about);

/// The work lowered to `shape` between two z; elsewhere as it is.
Outline lowered(const Outline& work, const Outline& shape, const Interval& where);

/// Where `high` is above `low` by more than `same_point`, joined where they meet.
std::vector<Interval> where_above(const Outline& high, const Outline& low);

/// What a tool that comes from the right can leave at best: `limit` raised behind every shoulder by
/// a ray that falls to the left at `angle`.
Outline reachable(const Outline& limit, Number angle);

/// One roughing level: `work` cut down to `radius` where `limit` allows it.
struct Level {
  Outline after;
  std::vector<Interval> cuts;
};
Level cut_level(const Outline& work, const Outline& limit, Length radius);

}  // namespace turnwright
