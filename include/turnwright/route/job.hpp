// SPDX-License-Identifier: MIT
#pragma once
// The part and the shop brought together: the material found, every size at its mean, tolerances in
// grades, the stock chosen, the outlines drawn. z is 0 at the finished right-hand face and negative
// to the left.
#include <string>
#include <vector>

#include "turnwright/part/part.hpp"
#include "turnwright/route/outline.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// One element of the outside as it is turned.
struct Surface {
  std::size_t element = 0;
  std::string name;        // "30 k6"
  Length left{}, right{};  // z, left < right
  Length left_radius{}, right_radius{};
  Length tolerance{};  // on diameter, width
  int grade = 14;      // IT
  Length ra{};         // 0: nothing asked
  bool as_drawn = false;
  bool gripable = true;     // a plain cylinder without thread, knurl or polygon
  bool toleranced = false;  // by fit or deviations on the drawing
  double gauge_share = -1;  // -1: by grade
  int edges = 2;            // to deburr

  Length diameter() const { return 2.0 * max(left_radius, right_radius); }
  bool needs_finish() const;
};

/// Volume that is no function of z.
struct Feature {
  std::string name;
  Volume volume{};
  Length z{};
};

/// A time the estimator gave with `allow`.
struct GivenTime {
  std::string name;
  Time time{};
  Length z{};         // where, to tell the holding
  bool left = false;  // belongs to the left-hand end (bore from left)
};

struct Stock {
  std::string condition;
  Length diameter{}, upper{};  // nominal and at its upper limit
  Length length{};             // of this piece's blank, kerf not counted
  Length facing_right{}, facing_left{};
  bool skin = false;
  bool from_bar = false;
  bool customers = false;
  double price_factor = 1;
};

struct Job {
  Part part;
  Material material;
  std::vector<Surface> surfaces;  // from the right
  Outline finished;               // the part as it leaves the lathe
  Outline turned;                 // the same without its grooves
  std::vector<Feature> features;
  std::vector<GivenTime> given;
  Stock stock;
  std::vector<std::string> cautions;
  std::vector<std::string> unconfirmed;

  Length left() const { return -part.overall; }
};

/// All problems that only part and shop together show (unknown material, fit not listed, features
/// that are not planned and carry no `allow`, stock that does not clean up), or the job.
Checked<Job> prepare(const Part& part, const Shop& shop);

}  // namespace turnwright
