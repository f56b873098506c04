// SPDX-License-Identifier: MIT
#pragma once
// Tables of standards that a drawing names.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

/// Deviations from the nominal size, upper and lower.
struct Deviations {
  Length upper{}, lower{};
};

struct FitRow {
  std::string letters;
  bool hole = false;
  enum class Side { upper, lower, centred } side = Side::upper;
  int finest = 1, coarsest = 18;
  Length over{};  // the row begins above this size
  std::vector<Length> up_to;
  std::vector<Length> deviation;
  Source source;
};

struct GeneralTolerance {
  std::string name;
  std::vector<Length> up_to, plus_minus;
  Source source;
};

/// Undercut to DIN 509, form E in the cylinder, form F into the shoulder as well.
struct ReliefSize {
  Length up_to{}, radius{}, depth{}, width{}, face_depth{}, face_height{};
  Source source;
};

struct CentreHole {
  Length shaft_up_to{}, pilot{}, countersink{}, protected_countersink{};
  Source source;
  /// The volume that stays removed, form A or B (60 degrees, and 120 degrees protection for B).
  Volume volume(bool form_b) const;
};

/// Groove of a retaining ring: shaft or bore diameter, width, bottom diameter.
struct CirclipGroove {
  Length diameter{}, width{}, bottom{};
};

/// Run-out of a thread by its pitch: widths of the undercut, and how far its bottom lies below the
/// major diameter (outside) or above it (inside), on diameter.
struct ThreadRunout {
  Length pitch{}, width{}, short_width{}, inside_width{}, below{}, above{};
  Length blind{};  // how much deeper a blind core hole is drilled
  Source source;
};

/// How many passes a single-point thread takes, by pitch, and how they are divided.
struct ThreadPasses {
  std::vector<Length> pitch;
  std::vector<double> passes;
  Length largest_infeed{}, last_infeed{};  // radial, of one pass
  double first_weight = 0.3, inside_factor = 1, hss_factor = 1;
  int spring_manual = 0, spring_cnc = 0;
  Source source;
  /// Between the listed pitches in proportion; beyond the ends at the end's infeed.
  int at(Length p) const;
};

/// How far the start diameter of a knurl lies below the finished one, in pitches.
struct KnurlSize {
  std::string name;
  double share = 0;
  Source source;
};

struct Standards {
  Standards();  // written once, in standards.cpp, not in every file that copies one
  Standards(const Standards&);
  Standards(Standards&&) noexcept;
  Standards& operator=(const Standards&);
  Standards& operator=(Standards&&) noexcept;
  ~Standards();

  std::vector<FitRow> fits;
  std::vector<GeneralTolerance> general;
  std::vector<ReliefSize> reliefs;
  std::vector<CentreHole> centre_holes;
  std::vector<CirclipGroove> circlips, inside_circlips;
  Source circlip_source;
  std::vector<ThreadRunout> runouts;
  ThreadPasses thread_passes;
  std::vector<KnurlSize> knurls;

  /// Upper and lower deviation of "k6" at a size; none when the letter or the size is not listed.
  std::optional<Deviations> fit(std::string_view letters, int grade, Length size) const;
  /// All fits of a hole or a shaft that are listed at a size, as "K7".
  std::vector<std::string> fits_at(Length size, bool hole) const;
  std::optional<Length> general_tolerance(std::string_view name, Length size) const;
  const ReliefSize* relief(Length shaft) const;
  const CentreHole* centre_hole(Length shaft) const;
  const CirclipGroove* circlip(Length diameter, bool inside) const;
  /// The row of this pitch, or of the next larger one.
  const ThreadRunout* runout(Length pitch) const;
  const KnurlSize* knurl(std::string_view kind) const;
};

/// The IT grade (5 to 14, 15 for coarser) whose width at `size` is not above `width`.
int grade_of(Length size, Length width);

}  // namespace turnwright
