// SPDX-License-Identifier: MIT
#include "turnwright/shop/standards.hpp"

#include <cmath>

#include "turnwright/figure/tolerance.hpp"
#include "turnwright/quantity/whole.hpp"

namespace turnwright {

Standards::Standards() = default;
Standards::Standards(const Standards&) = default;
Standards::Standards(Standards&&) noexcept = default;
Standards& Standards::operator=(const Standards&) = default;
Standards& Standards::operator=(Standards&&) noexcept = default;
Standards::~Standards() = default;

namespace {

constexpr double same_point = 1e-9;  // metres: sizes this close are the same
constexpr int finest_grade = 5, coarsest_grade = 14;

Volume cone_frustum(Length large, Length small, double half_angle) {
  const Length height = (large - small) / (2 * std::tan(half_angle));
  return pi / 12 * height * (square(large) + large * small + square(small));
}

}  // namespace

std::optional<Deviations> Standards::fit(std::string_view letters, int grade, Length size) const {
  if (grade < finest_grade || grade > coarsest_grade || size.si <= 0 || size.si > 0.5 + same_point)
    return std::nullopt;
  const Length width =
      figure::ToleranceGrade::work_out<>({size, static_cast<double>(grade)}).tolerance;
  for (const FitRow& row : fits) {
    if (row.letters != letters || grade < row.finest || grade > row.coarsest) continue;
    if (row.over.si > 0 && size.si <= row.over.si + same_point) continue;
    for (std::size_t i = 0; i < row.up_to.size(); ++i) {
      if (size.si > row.up_to[i].si + same_point) continue;
      const Length d = row.deviation[i];
      switch (row.side) {
        case FitRow::Side::upper:
          return Deviations{d, d - width};
        case FitRow::Side::lower:
          return Deviations{d + width, d};
        case FitRow::Side::centred:
          return Deviations{width / 2.0, -(width / 2.0)};
      }
    }
  }
  return std::nullopt;
}

std::vector<std::string> Standards::fits_at(Length size, bool hole) const {
  std::vector<std::string> names;
  for (const FitRow& row : fits)
    for (int grade = finest_grade; grade <= coarsest_grade; ++grade)
      if (row.hole == hole && grade >= row.finest && grade <= row.coarsest &&
          fit(row.letters, grade, size))
        names.push_back(row.letters + std::to_string(grade));
  return names;
}

std::optional<Length> Standards::general_tolerance(std::string_view name, Length size) const {
  for (const GeneralTolerance& row : general) {
    if (row.name != name) continue;
    for (std::size_t i = 0; i < row.up_to.size(); ++i)
      if (size.si <= row.up_to[i].si + same_point) return row.plus_minus[i];
    return row.plus_minus.back();
  }
  return std::nullopt;
}

const ReliefSize* Standards::relief(Length shaft) const {
  for (const ReliefSize& row : reliefs)
    if (shaft.si <= row.up_to.si + same_point) return &row;
  return nullptr;
}
const CentreHole* Standards::centre_hole(Length shaft) const {
  for (const CentreHole& row : centre_holes)
    if (shaft.si <= row.shaft_up_to.si + same_point) return &row;
  return centre_holes.empty() ? nullptr : &centre_holes.back();
}
const CirclipGroove* Standards::circlip(Length diameter, bool inside) const {
  for (const CirclipGroove& row : inside ? inside_circlips : circlips)
    if (std::abs(diameter.si - row.diameter.si) < same_point) return &row;
  return nullptr;
}
const ThreadRunout* Standards::runout(Length pitch) const {
  for (const ThreadRunout& row : runouts)
    if (pitch.si <= row.pitch.si + same_point) return &row;
  return runouts.empty() ? nullptr : &runouts.back();
}
const KnurlSize* Standards::knurl(std::string_view kind) const {
  for (const KnurlSize& row : knurls)
    if (row.name == kind) return &row;
  return nullptr;
}

int ThreadPasses::at(Length p) const {
  if (pitch.empty()) return 1;
  std::size_t i = 0;
  while (i + 1 < pitch.size() && p.si > pitch[i].si + same_point) ++i;
  double n = passes[i];
  if (p.si > pitch[i].si + same_point)  // coarser than the table: in proportion
    n = passes[i] * (p / pitch[i]).si;
  else if (i > 0 && p.si < pitch[i].si - same_point)
    n = passes[i - 1] +
        (passes[i] - passes[i - 1]) * ((p - pitch[i - 1]) / (pitch[i] - pitch[i - 1])).si;
  return whole_above(n - 1e-9);
}

Volume CentreHole::volume(bool form_b) const {
  Volume v = cone_frustum(countersink, pilot, pi / 6) + pi / 4 * square(pilot) * pilot;
  if (form_b) v = v + cone_frustum(protected_countersink, countersink, pi / 3);
  return v;
}

int grade_of(Length size, Length width) {
  for (int grade = 14; grade >= 5; --grade) {
    const Length table =
        figure::ToleranceGrade::work_out<>({size, static_cast<double>(grade)}).tolerance;
    if (table.si <= width.si + 1e-9) return grade == 14 && width.si > 1.6 * table.si ? 15 : grade;
  }
  return 4;
}

}  // namespace turnwright
