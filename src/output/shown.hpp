// SPDX-License-Identifier: MIT
#pragma once
// Numbers as people read them, in metric or inch.
#include <string>

#include "turnwright/estimate/times.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

struct Shown {
  bool inch = false;

  const UnitOf<Dim{1}>& length() const { return inch ? unit::inch : unit::mm; }
  const UnitOf<Dim{1, 0, -1}>& speed() const { return inch ? unit::ft_per_min : unit::m_per_min; }
  const UnitOf<Dim{1}>& feed() const { return inch ? unit::inch_per_rev : unit::mm_per_rev; }
  const UnitOf<Dim{0, 1}>& mass() const { return inch ? unit::lb : unit::kg; }
  const UnitOf<Dim{1}>& roughness() const { return inch ? unit::uin : unit::um; }

  std::string mm(Length l, int digits = 5) const { return with_unit(l.si, length(), digits); }
  std::string number(Length l, int digits = 5) const { return readable(in(l, length()), digits); }
  std::string kg(Mass m) const { return with_unit(m.si, mass(), 3); }
  /// Any value of a limit, in the unit that suits this reader.
  std::string value(double si, const Unit& u) const {
    if (!inch) return with_unit(si, u, 3);
    if (u.name == unit::mm.name) return with_unit(si, unit::inch, 3);
    if (u.name == unit::mm_per_rev.name) return with_unit(si, unit::inch_per_rev, 3);
    if (u.name == unit::um.name) return with_unit(si, unit::uin, 3);
    return with_unit(si, u, 3);
  }
};

inline std::string minutes(Time t, int places = 2) { return fixed(in(t, unit::min), places); }

/// "WF-310  winch spindle  rev B  (new order)".
std::string part_title(const Job& job);

/// "round 55 mm hot rolled", "hexagon 24 mm drawn", "casting, 3.5 mm a side".
std::string stock_text(const Job& job, const Shown& shown);

/// "chuck, soft jaws on 40 mm, free 110 mm (2.8 diameters)".
std::string clamping_text(const Operation& operation, const Shown& shown);

/// "after turning: keyway, 6.00 min each".
std::string other_work_text(const OtherWork& work, const std::string& currency);

/// What to mind in this operation, by what it really has.
std::vector<std::string> clamping_cautions(const Job& job, const Operation& operation,
                                           const OperationTime& time, const Shown& shown);

/// Cuts of a step: a contour of many stretches is one.
int cuts_of(const Step& step);

/// The work as it is held, cut from the right: jaws as #, a centre as <.
std::string clamping_sketch(const Job& job, const Operation& operation, int width);

/// Text in a column, by characters.
std::string padded(std::string text, std::size_t width, bool right = false);

}  // namespace turnwright
