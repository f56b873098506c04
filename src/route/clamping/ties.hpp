// SPDX-License-Identifier: MIT
#pragma once
// Tolerances of position between surfaces, and how true the clampings hold them.
#include "turnwright/route/route.hpp"

namespace turnwright {

/// A tie between two surfaces.
struct TiedPair {
  const Tie& tie;
  const Surface &surface, &datum;
  std::size_t surface_index = 0, datum_index = 0;  // of the job
};
bool is_seat(const Job& job, std::size_t surface, std::string_view datum);
/// All ties of a job, with every surface that has the seat of their datum.
std::vector<TiedPair> tied_pairs(const Job& job);
/// "35 h6 to 30 k6 (run-out 0.02 mm)".
Message named(const TiedPair& pair);
/// "soft jaws, true to about 0.015 mm (from memory)".
Message accuracy_of(const Shop& shop, AccuracyId id, Message clamping);
/// The ties that ask for more than the clampings of the planned operations hold.
std::vector<OpenTie> open_ties(const Route& route, const Shop& shop);
/// What to say of surfaces that are finished from both ends.
Messages joint_cautions(const Route& route, const Shop& shop);

}  // namespace turnwright
