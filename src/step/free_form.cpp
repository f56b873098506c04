// SPDX-License-Identifier: MIT
// Surfaces given by points (NURBS, surfaces of revolution, extrusions): tested by their normals,
// then taken for a line or a circle where the meridian is one.
#include <BRepTopAdaptor_FClass2d.hxx>
#include <gp_Pnt2d.hxx>

#include <algorithm>
#include <cmath>
#include <optional>

#include "face.hpp"
#include "face_edges.hpp"
#include "surface_frame.hpp"

namespace turnwright::step {
namespace {

using Meridian = std::vector<MeridianPoint>;
constexpr int normals_each_side = 9, along_meridian = 64, patch_samples = 24;

MeridianPoint meridian(const gp_Pnt& p) { return {p.Z(), radius_of(p)}; }

struct Normals {
  bool turned = true, square = true;  // in the meridian plane; all along the axis
};
Normals normals_of(const SurfaceFrame& frame, const Scale& scale) {
  Normals n;
  for (int i = 0; i < normals_each_side; ++i)
    for (int j = 0; j < normals_each_side; ++j) {
      const auto p = frame.point((i + 0.5) / normals_each_side, (j + 0.5) / normals_each_side);
      if (!p || radius_of(p->at) < 1e-6 * scale.size) continue;
      if (std::abs(p->around()) > same_direction) n.turned = false;
      if (std::hypot(p->normal.X(), p->normal.Y()) > same_direction) n.square = false;
    }
  return n;
}

// The longest step of (z, r) along one parameter.
double variation(const SurfaceFrame& frame, bool along_u) {
  double most = 0;
  for (const double across : {1.0 / 6, 0.5, 5.0 / 6})
    for (int i = 0; i < normals_each_side; ++i) {
      const double a = double(i) / normals_each_side, b = double(i + 1) / normals_each_side;
      const MeridianPoint p = meridian(along_u ? frame.at(a, across) : frame.at(across, a));
      const MeridianPoint q = meridian(along_u ? frame.at(b, across) : frame.at(across, b));
      most = std::max(most, std::hypot(q.r - p.r, q.z - p.z));
    }
  return most;
}

Meridian along_parameter(const SurfaceFrame& frame, bool along_u) {
  Meridian m;
  for (int i = 0; i <= along_meridian; ++i) {
    const double share = double(i) / along_meridian;
    m.push_back(meridian(along_u ? frame.at(share, 0.5) : frame.at(0.5, share)));
  }
  return m;
}

Meridian points_inside(const Face& face, const SurfaceFrame& frame) {
  Meridian m;
  BRepTopAdaptor_FClass2d inside(face.shape, 1e-7);
  for (int i = 0; i < patch_samples; ++i)
    for (int j = 0; j < patch_samples; ++j) {
      const double u = (i + 0.5) / patch_samples, v = (j + 0.5) / patch_samples;
      if (inside.Perform(gp_Pnt2d(frame.box().u(u), frame.box().v(v))) != TopAbs_OUT)
        m.push_back(meridian(frame.at(u, v)));
    }
  for_each_edge(face.shape, [&](const BRepAdaptor_Curve& curve) {
    for (int i = 0; i <= 16; ++i) m.push_back(meridian(point_along(curve, i / 16.0)));
  });
  return m;
}

// Where neither parameter runs along the meridian: points of the face, by r, or by z on a cylinder.
Meridian of_patch(const Face& face, const SurfaceFrame& frame, const Scale& scale) {
  Meridian all = points_inside(face, frame);
  if (all.size() < 8) return {};
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.r < b.r; });
  const bool by_z = all.back().r - all.front().r < 1e-3 * scale.size;
  if (by_z)
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.z < b.z; });
  Meridian few;
  const std::size_t step = std::max<std::size_t>(1, all.size() / along_meridian);
  for (std::size_t i = 0; i < all.size(); i += step) few.push_back(all[i]);
  few.push_back(all.back());
  return few;
}

Meridian meridian_of(const Face& face, const SurfaceFrame& frame, const Scale& scale) {
  const double u = variation(frame, true), v = variation(frame, false);
  const bool patch = std::min(u, v) > 0.02 * std::max(u, v);
  return patch ? of_patch(face, frame, scale) : along_parameter(frame, u > v);
}

bool is_line(const Meridian& m, double tolerance) {
  const double dz = m.back().z - m.front().z, dr = m.back().r - m.front().r;
  const double length = std::hypot(dz, dr);
  if (length < 1e-9) return false;
  return std::all_of(m.begin(), m.end(), [&](const MeridianPoint& p) {
    return std::abs((p.z - m.front().z) * dr - (p.r - m.front().r) * dz) / length <= tolerance;
  });
}

struct Circle {
  MeridianPoint centre;
  double radius = 0;
};
std::optional<Circle> circle_of(const Meridian& m, double tolerance) {
  const MeridianPoint a = m.front(), b = m[(m.size() - 1) / 2], c = m.back();
  const double az = b.z - a.z, ar = b.r - a.r, bz = c.z - a.z, br = c.r - a.r;
  const double d = 2 * (az * br - ar * bz);
  if (std::abs(d) < 1e-12) return std::nullopt;
  const double qa = az * az + ar * ar, qb = bz * bz + br * br;
  const double uz = (br * qa - ar * qb) / d, ur = (az * qb - bz * qa) / d;
  const Circle circle{{a.z + uz, a.r + ur}, std::hypot(uz, ur)};
  for (const MeridianPoint& p : m)
    if (std::abs(std::hypot(p.z - circle.centre.z, p.r - circle.centre.r) - circle.radius) >
        tolerance)
      return std::nullopt;
  return circle;
}

void put(Face& face, Piece piece, bool outwards) {
  if (piece.from.z > piece.to.z) std::swap(piece.from, piece.to);
  if (piece.to.z - piece.from.z < 1e-9) return;
  piece.outwards = outwards;
  face.pieces.push_back(std::move(piece));
}

// The material of a rounded edge lies within its circle, that of a fillet around it.
bool material_in_circle(const SurfaceFrame& frame, const Circle& circle) {
  const auto p = frame.point(0.5, 0.5);
  if (!p) return true;
  const MeridianPoint at = meridian(p->at);
  return (at.z - circle.centre.z) * p->normal.Z() + (at.r - circle.centre.r) * p->radial() > 0;
}

// In pieces that are functions of z, cut where the circle turns back along it.
void put_arc(Face& face, const Meridian& m, const Circle& circle, bool material_within) {
  MeridianPoint start = m.front();
  std::size_t from = 0;
  for (std::size_t i = 1; i < m.size(); ++i) {
    const bool last = i + 1 == m.size();
    if (!last && (m[i].z - m[i - 1].z) * (m[i + 1].z - m[i].z) >= 0) continue;
    const double turn = m[i].z > circle.centre.z ? circle.radius : -circle.radius;
    const MeridianPoint end = last ? m[i] : MeridianPoint{circle.centre.z + turn, circle.centre.r};
    Piece p;
    p.form = PieceForm::arc;
    p.centre = circle.centre;
    p.radius = circle.radius;
    p.from = start;
    p.to = end;
    p.upper = m[(from + i) / 2].r > circle.centre.r;
    put(face, p, p.upper == material_within);
    start = end;
    from = i;
  }
}

void put_points(Face& face, Meridian m, bool outwards) {
  std::sort(m.begin(), m.end(), [](const auto& a, const auto& b) { return a.z < b.z; });
  Piece p;
  p.form = PieceForm::free;
  p.from = m.front();
  p.to = m.back();
  p.points = std::move(m);
  put(face, p, outwards);
}

}  // namespace

bool take_as_free_form(Face& face, const Scale& scale) {
  const SurfaceFrame frame(face.shape);
  const Normals normals = normals_of(frame, scale);
  if (!normals.turned) return false;
  if (normals.square) return true;  // a face square to the axis
  const Meridian m = meridian_of(face, frame, scale);
  if (m.empty()) return false;
  const bool outwards = frame.faces_outwards();
  if (is_line(m, scale.sampled())) {
    Piece p;
    p.from = m.front();
    p.to = m.back();
    if (std::abs(p.from.z - p.to.z) > 1e-6 * scale.size) put(face, p, outwards);
  } else if (const auto circle = circle_of(m, scale.sampled())) {
    put_arc(face, m, *circle, material_in_circle(frame, *circle));
  } else {
    put_points(face, m, outwards);
  }
  return true;
}

}  // namespace turnwright::step
