// SPDX-License-Identifier: MIT
#pragma once
// What a part has beside its outline: threads with their run-out, face grooves; and how a bore is
// opened.
#include <span>

#include "complaints.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright {

/// Corners over flats of a hexagon or a square.
double corners_of(bool hexagon);

/// Where a thread's undercut goes into the outline.
struct UndercutDip {
  Region region = Region::outside;
  Length from{}, to{}, radius{};  // z
};

/// Fills `threads` and `features` with their grooves; a thread that cannot run out is a problem.
std::vector<UndercutDip> find_threads(Job& job, const Shop& shop, const Complaints& complaints);
/// The undercuts cut into the drawn outlines.
void cut_undercuts(Job& job, const std::vector<UndercutDip>& undercuts);
/// Fills `face_cuts` and `features`.
void find_face_grooves(Job& job, const Complaints& complaints);

/// How far under a bored size its hole is drilled: 1 to 2 mm (common practice).
Length under_size(const Surface& bored);

/// Which hole is drilled first, and whether it or a reamer makes the size. `surfaces` are those of
/// one bore, from its mouth.
void open_hole(std::span<Surface> surfaces, const std::vector<Element>& elements, const Shop& shop,
               Bore& bore);

}  // namespace turnwright
