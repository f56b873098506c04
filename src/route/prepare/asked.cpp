// SPDX-License-Identifier: MIT
// Cautions on what the drawing asks for: what turning hardly gives, and what looks like another
// unit.
#include <algorithm>
#include <array>
#include <cmath>

#include "prepare/preparation.hpp"

namespace turnwright {
namespace {

// Roughness grades of ISO 1302, table of Ra, in um and in uin.
constexpr std::array usual_um{0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.3, 12.5};
constexpr std::array usual_uin{16.0, 32.0, 63.0, 125.0, 250.0, 500.0};
constexpr double um_of_uin = 0.0254;

template <std::size_t N>
bool is_one_of(double value, const std::array<double, N>& usual) {
  return std::any_of(usual.begin(), usual.end(),
                     [&](double u) { return std::abs(value - u) < 1e-6 * u; });
}

void caution_unit(Preparation& p, Length ra) {
  if (!looks_like_other_unit(p.job.part, ra)) return;
  p.caution(p.job.part.inch
                ? Message{"prepare.roughness-like-um",
                          {{"value", Figure{in(ra, unit::um) / um_of_uin, 3}}}}
                : Message{"prepare.roughness-like-uin", {{"value", Figure{in(ra, unit::um), 3}}}});
}

}  // namespace

// 3.2 in an inch file, 125 in a metric one.
bool looks_like_other_unit(const Part& part, Length ra) {
  const double um = in(ra, unit::um);
  return part.inch ? is_one_of(um / um_of_uin, usual_um) : is_one_of(um, usual_uin);
}

void caution_what_is_asked(Preparation& p) {
  const Practice& practice = p.shop.practice;
  std::vector<Length> seen;
  for (const Surface& s : p.job.surfaces) {
    if (s.ra.si <= 0 || s.as_drawn) continue;
    if (std::find(seen.begin(), seen.end(), s.ra) == seen.end()) {
      seen.push_back(s.ra);
      caution_unit(p, s.ra);
    }
    if (s.ra < practice.finest_turned && !p.job.element_of(s).allow)
      p.caution({"prepare.finer-than-turned",
                 {{"surface", s.name},
                  {"ra", measure(s.ra, unit::um, 2)},
                  {"finest", measure(practice.finest_turned, unit::um, 2)}}});
  }
}

}  // namespace turnwright
