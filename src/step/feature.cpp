// SPDX-License-Identifier: MIT
// What a group of faces is taken for.
#include "feature.hpp"

#include <gp_Lin.hxx>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <set>

#include "face_group.hpp"

namespace turnwright::step {
namespace {

using Guess = std::optional<Feature>;
using Sizes = std::vector<std::pair<std::string, double>>;

Feature feature_with(const FaceGroup& group, FeatureKind kind, Sizes sizes) {
  return {kind, std::move(sizes), group.z.low, group.z.high, 1};
}

bool parallel(const gp_Dir& a, const gp_Dir& b) { return std::abs(std::abs(a.Dot(b)) - 1) < 5e-7; }

Guess free_form(const FaceGroup& group) {
  if (group.free == 0 || group.free * 2 < group.faces) return std::nullopt;
  return feature_with(
      group, FeatureKind::free_form,
      {{"faces", group.free}, {"inner", 2 * group.r.low}, {"outer", 2 * group.r.high}});
}

struct Bores {
  double smallest = 0, largest = 0;
};
Bores bores_of(const FaceGroup& group) {
  Extent radius;
  for (const CylinderFace& c : group.cylinders) radius.take(c.radius);
  return {2 * radius.low, 2 * radius.high};
}

Sizes hole_sizes(const FaceGroup& group) {
  const Bores bores = bores_of(group);
  Sizes sizes{{"diameter", bores.smallest}};
  if (bores.largest - bores.smallest > 2e-4) sizes.emplace_back("stepped", bores.largest);
  if (group.cones > 0) sizes.emplace_back("cones", group.cones);
  return sizes;
}

Feature hole(const FaceGroup& group, const gp_Ax1& axis) {
  Sizes sizes = hole_sizes(group);
  const double tilt = std::abs(axis.Direction().Z());
  const double off = gp_Lin(axis).Distance(gp_Lin(gp::OZ()));
  const gp_Pnt at = axis.Location();
  if (tilt > 1 - 1e-6) {
    sizes.emplace_back("pitch circle", 2 * std::hypot(at.X(), at.Y()));
    sizes.emplace_back("depth", group.z.high - group.z.low);
    return feature_with(group, FeatureKind::axial_hole, std::move(sizes));
  }
  if (tilt > 1e-3) return feature_with(group, FeatureKind::oblique_hole, std::move(sizes));
  if (off > 1e-3) sizes.emplace_back("offset", off);
  return feature_with(group, FeatureKind::cross_hole, std::move(sizes));
}

// Cylinders about one line: a hole, or an eccentric.
Guess round_things(const FaceGroup& group) {
  if (group.cylinders.empty() || !group.along.empty()) return std::nullopt;
  const CylinderFace& first = group.cylinders.front();
  for (const CylinderFace& c : group.cylinders)
    if (!parallel(c.axis.Direction(), first.axis.Direction())) return std::nullopt;
  if (first.concave) return hole(group, first.axis);
  if (std::abs(first.axis.Direction().Z()) < 1 - 1e-6) return std::nullopt;
  const gp_Pnt at = first.axis.Location();
  return feature_with(group, FeatureKind::eccentric,
                      {{"diameter", 2 * first.radius}, {"offset", std::hypot(at.X(), at.Y())}});
}

std::size_t directions_of(const std::vector<PlaneFace>& planes) {
  std::set<long> angles;
  for (const PlaneFace& p : planes) {
    const double degrees = std::atan2(p.normal.Y(), p.normal.X()) * 180 / std::numbers::pi;
    angles.insert(std::lround(std::fmod(degrees + 720, 360) * 10) % 3600);
  }
  return angles.size();
}

bool at_one_distance(const std::vector<PlaneFace>& planes) {
  return std::all_of(planes.begin(), planes.end(), [&](const PlaneFace& p) {
    return std::abs(p.distance - planes.front().distance) < 0.01;
  });
}

// Planes at one distance around the axis: hexagon, square, or one flat.
Guess polygon(const FaceGroup& group) {
  const auto& planes = group.along;
  if (group.free > 0 || !group.cylinders.empty() || planes.empty() || !group.oblique.empty() ||
      !at_one_distance(planes))
    return std::nullopt;
  const double across = 2 * std::abs(planes.front().distance);
  const bool outside = planes.front().distance > 0;
  const std::size_t sides = directions_of(planes);
  if (sides == 6)
    return feature_with(group, outside ? FeatureKind::hexagon : FeatureKind::hexagon_socket,
                        {{"across", across}});
  if (sides == 4)
    return feature_with(group, outside ? FeatureKind::square : FeatureKind::square_socket,
                        {{"across", across}});
  if (planes.size() == 1 && outside)
    return feature_with(group, FeatureKind::flat, {{"from axis", planes.front().distance}});
  return std::nullopt;
}

// The floor of a keyway: a plane square to its walls, outside the axis.
double floor_of(const FaceGroup& group, const PlaneFace& wall) {
  for (const PlaneFace& p : group.along)
    if (std::abs(p.normal.Dot(wall.normal)) < 1e-3 && p.distance > 0) return p.distance;
  return 0;
}

Feature between_walls(const FaceGroup& group, const PlaneFace& wall, double width) {
  const double length = group.z.high - group.z.low;
  if (const double floor = floor_of(group, wall); floor > 0)
    return feature_with(group, FeatureKind::keyway,
                        {{"width", width}, {"length", length}, {"floor", floor}});
  return feature_with(group, FeatureKind::slot,
                      {{"width", width},
                       {"length", length},
                       {"inner", 2 * group.r.low},
                       {"outer", 2 * group.r.high}});
}

// A pair of walls that face each other.
Guess slot(const FaceGroup& group) {
  const auto& planes = group.along;
  for (std::size_t i = 0; i < planes.size(); ++i)
    for (std::size_t j = i + 1; j < planes.size(); ++j) {
      const double width = -(planes[i].distance + planes[j].distance);
      if (planes[i].normal.Dot(planes[j].normal) < -0.99999 && width > 0)
        return between_walls(group, planes[i], width);
    }
  return std::nullopt;
}

}  // namespace

bool Feature::operator==(const Feature& other) const {
  if (kind != other.kind || sizes.size() != other.sizes.size()) return false;
  for (std::size_t i = 0; i < sizes.size(); ++i)
    if (sizes[i].first != other.sizes[i].first ||
        std::abs(sizes[i].second - other.sizes[i].second) > 2e-3)
      return false;
  return std::abs(from - other.from) < 0.01 && std::abs(to - other.to) < 0.01;
}

Feature feature_of(const std::vector<const Face*>& faces) {
  const FaceGroup group(faces);
  for (Guess (*guess)(const FaceGroup&) : {free_form, round_things, polygon, slot})
    if (Guess feature = guess(group)) return *feature;
  return feature_with(
      group, FeatureKind::other,
      {{"faces", group.faces}, {"inner", 2 * group.r.low}, {"outer", 2 * group.r.high}});
}

}  // namespace turnwright::step
