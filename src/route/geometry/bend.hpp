// SPDX-License-Identifier: MIT
#pragma once
// Bending of the real stepped workpiece as it is held.
#include <optional>

#include "turnwright/route/outline.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

/// The work in local coordinates: held at `jaw` (between centres: pinned there), free to the right
/// or with a centre at `centre`.
struct HeldWork {
  const Outline& shape;
  Length jaw{}, centre{};
  Support support = Support::chuck;
  Pressure elastic_modulus{};
  const Practice& practice;         // of centres and rests
  double chuck_compliance = 0;      // m/N
  const Outline* hollow = nullptr;  // the void in it
  std::optional<Length> steady{};   // z of a steady rest
  bool follows = false;             // a follow rest beside the tool
};

/// Deflection under the force, for a unit force (m/N), at z.
double compliance_at(const HeldWork& work, Length z);
/// Largest less smallest deflection along a stretch, for a unit force (m/N).
double compliance_range(const HeldWork& work, Length from, Length to);
/// The first bending frequency of a plain bar of a diameter that stands out so far: a cantilever,
/// or propped at its free end by a centre. S. Timoshenko, Vibration Problems in Engineering, 1937:
/// f = k^2 / (2 pi l^2) sqrt(E I / (rho A)), k = 1.875 and 3.927.
Frequency bending_frequency(const Material& material, Length diameter, Length out, bool propped);
/// What work may turn at that stands out of its chuck, its free end loose or at a centre: half the
/// first bending frequency.
Frequency steady_speed(const Material& material, const Operation& operation, bool propped);
/// The diameter of a plain bar of the same volume between two z.
Length effective_diameter(const Outline& shape, Length from, Length to);

}  // namespace turnwright
