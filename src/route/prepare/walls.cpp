// SPDX-License-Identifier: MIT
// Walls around the bores.
#include <algorithm>

#include "geometry/profile.hpp"
#include "prepare/preparation.hpp"

namespace turnwright {
namespace {

const Element& widest_element(const std::vector<Element>& list) {
  return *std::max_element(list.begin(), list.end(), [](const Element& a, const Element& b) {
    return max(a.size.nominal, a.left_size.nominal) < max(b.size.nominal, b.left_size.nominal);
  });
}

bool point_comes_out(const Job& job, const Outline& hollow) {
  return hollow.left() < job.left() - Length(same_point) && !job.bores[0].through;
}

void refuse_thin_wall(Preparation& p, Region region, Length at) {
  p.refuse(widest_element(p.elements(region)).at,
           {"prepare.no-wall", {{"at", -at}, {"outside", 2.0 * p.job.finished.left_of(at)}}},
           {"prepare.expect-wall", {{"wall", p.shop.practice.least_wall}}});
}

void check_wall(Preparation& p, Region region) {
  const Outline& hollow = p.bore(region).finished;
  if (hollow.empty()) return;
  const Length least = p.shop.practice.least_wall;
  const auto thin = where_above(hollow.moved(Length(0.0), least), p.job.finished);
  const bool inside = std::any_of(thin.begin(), thin.end(), [&](const Interval& i) {
    return i.to > p.job.left() && i.from.si < 0 && i.width().si > 10 * same_point;
  });
  if (region == Region::bore_right && point_comes_out(p.job, hollow))
    p.refuse(p.elements(region).back().at, "prepare.drill-point-comes-out",
             "prepare.expect-shallower-bore");
  else if (inside)
    refuse_thin_wall(p, region, thin.front().to);
}

void check_that_bores_keep_apart(Preparation& p) {
  const Bore &right = p.job.bores[0], &left = p.job.bores[1];
  if (right.finished.empty() || left.finished.empty()) return;
  if (right.finished.left() < left.finished.right() - Length(same_point) && !right.through &&
      !left.through)
    p.refuse(p.job.part.bore_left.back().at, "prepare.bores-meet",
             {"prepare.expect-depths", {{"length", p.job.part.overall}}});
}

}  // namespace

void check_walls(Preparation& p) {
  for (const Region region : bore_regions) check_wall(p, region);
  check_that_bores_keep_apart(p);
}

}  // namespace turnwright
