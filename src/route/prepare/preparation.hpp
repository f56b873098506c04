// SPDX-License-Identifier: MIT
#pragma once
// A part becoming a job: what is settled so far, and what is wrong with it.
#include <string>
#include <vector>

#include "turnwright/route/job.hpp"

namespace turnwright {

struct Preparation {
  const Shop& shop;
  Job job;
  Problems problems;

  bool clean() const { return problems.empty(); }
  void refuse(Position at, Message what, Message expected, std::string suggestion = "");
  void caution(Message message) { job.cautions.push_back(std::move(message)); }

  /// The elements of the outside or of a bore.
  const std::vector<Element>& elements(Region region) const;
  /// A bore with a time of its own stays solid: the estimator's minutes make it.
  bool made_by_stated_time(Region region) const;
  Bore& bore(Region region) { return job.bores[region == Region::bore_left ? 1 : 0]; }
};

/// How a surface is called: its text, as one of a bore where it is.
Message surface_name(const Element& element, Region region);

inline constexpr Region bore_regions[] = {Region::bore_right, Region::bore_left};

// The rooms that fill it, in the order in which they are asked. Each adds problems and cautions.

/// `material`, changed as the part file describes one that the shop does not list.
void find_material(Preparation& preparation);
/// Notes the times that the estimator stated; refuses what is not turned.
void refuse_unplanned(Preparation& preparation);
/// Cautions of fits that hardening or a coat comes after: who grinds them, before or after the
/// coat?
void doubt_finished_fits(Preparation& preparation);
/// `surfaces` of the outside, every size at its mean.
void measure_outside(Preparation& preparation);
/// `surfaces` of the bores from one face, and how they are opened.
void measure_bore(Preparation& preparation, Region region);

/// Where a thread's undercut goes into the outline.
struct UndercutDip {
  Region region = Region::outside;
  Length from{}, to{}, radius{};  // z
};
/// `threads` and `features` with their grooves; a thread that cannot run out is a problem.
std::vector<UndercutDip> find_threads(Preparation& preparation);
/// `turned` and `finished` of the outside, and the wedges of its reliefs as `features`.
void draw_outside(Preparation& preparation);
/// The same for the bores from one face; they are measured.
void draw_bore(Preparation& preparation, Region region);
/// The undercuts cut into the drawn outlines.
void cut_undercuts(Job& job, const std::vector<UndercutDip>& undercuts);
/// Every place of a bore needs a wall around it, and the two bores must not run into each other.
void check_walls(Preparation& preparation);
/// `face_cuts` and their `features`.
void find_face_grooves(Preparation& preparation);
/// Cautions on roughness that turning hardly gives, or that looks like another unit.
void caution_what_is_asked(Preparation& preparation);
/// A roughness that is usual in the unit of the other system.
bool looks_like_other_unit(const Part& part, Length ra);
/// `stock`, and the shape of a casting or forging.
void choose_stock(Preparation& preparation);

}  // namespace turnwright
