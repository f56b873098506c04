// SPDX-License-Identifier: MIT
#pragma once
// The part and the shop brought together: the material found, every size at its mean, tolerances in
// grades, the stock chosen, the outlines drawn. z is 0 at the finished right-hand face and negative
// to the left.
#include <array>
#include <span>
#include <string>
#include <vector>

#include "turnwright/part/part.hpp"
#include "turnwright/route/outline.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// One element of the outside or of a bore as it is turned.
struct Surface {
  std::size_t element = 0;  // in its list
  Region region = Region::outside;
  Message name;            // "30 k6"
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
  bool inside() const { return region != Region::outside; }
  /// A roughing cut does not do for it.
  bool needs_finish(const Practice& practice) const;
  /// The drawing asks for a finer grade than the lathe holds by turning.
  bool finer_than(const Machine& machine) const {
    return toleranced && grade < machine.finest_grade;
  }
};

/// A thread on a surface, with the groove that it takes off.
struct ThreadCut {
  std::size_t surface = 0;
  Thread thread;
  bool inside = false;
  Length from{}, to{};       // z, from < to: the full thread
  Length depth{};            // radial, from the blank
  Length run_out{};          // room beyond the full thread
  bool runs_to_left = true;  // cut towards the left, out of the free end at the right
  Volume volume{};
};

/// A groove in an end face, with its volume.
struct FaceCut {
  bool left = false;
  FaceGroove groove;
  Volume volume{};
};

/// How the bores from one face look and how they are opened.
struct Bore {
  Outline turned, finished;  // the void: r = 0 is material; without and with its inside grooves
  bool through = false;
  Length drilled{};        // diameter of the hole that is drilled first; 0: none
  bool to_size = false;    // the drill makes the narrowest element
  bool reamed = false;     // a reamer does, after the drill
  std::size_t narrow = 0;  // the narrowest of the job's surfaces in it
  bool empty() const { return turned.empty(); }
};

/// Volume that is no function of z.
struct Feature {
  Message name;
  Volume volume{};
  Length z{};
  bool undercut = false;  // comes off with the finishing cut of its corner
};

/// A time that the estimator stated with `allow`, taken as it stands.
struct GivenTime {
  Message name;
  Time time{};
  Length z{};         // where, to find the operation that it belongs to
  bool left = false;  // belongs to the left-hand end (bore from left)
};

struct Stock {
  StockForm form = StockForm::round;
  std::string condition;
  Length diameter{}, upper{};  // nominal and at its upper limit; over the corners of flats
  Length flats{};              // across flats, hexagon and square
  Length bore{};               // of a tube
  Area section{};              // of a bar, at the upper limit; 0: a casting
  Length length{};             // of this piece's blank, kerf not counted
  Length facing_right{}, facing_left{};
  bool skin = false;
  bool from_bar = false;
  bool customers = false;
  bool cleans_up = true;    // as its condition asks for
  double price_factor = 1;  // of its condition, on the material's price
  Basis price_factor_basis = Basis::typical;
  int pieces = 0;  // turned and parted one after the other from one sawn length; 0: it is not so
  Length sawn{};   // that length: the pieces, their kerfs and the end that stays in the jaws

  /// The shop does not know from its own records what bar of this condition costs.
  bool price_is_guessed() const {
    return price_factor != 1 && price_factor_basis > Basis::own_records;
  }
  /// A parting tool cuts the piece off.
  bool parted() const { return from_bar || pieces > 0; }
};

struct Job {
  Job();  // written once, in job.cpp, not in every file that copies one
  Job(const Job&);
  Job(Job&&) noexcept;
  Job& operator=(const Job&);
  Job& operator=(Job&&) noexcept;
  ~Job();

  Part part;
  Material material;
  std::vector<Surface> surfaces;  // the outside from the right, then the bores
  Outline finished;               // the outside as it leaves the lathe
  Outline turned;                 // the same without its grooves
  std::array<Bore, 2> bores;      // from the right, from the left
  std::vector<ThreadCut> threads;
  std::vector<FaceCut> face_cuts;
  Outline raw_outside, raw_bore;  // a casting or forging as it comes, and its cored hole
  std::vector<Feature> features;
  std::vector<GivenTime> given;
  Stock stock;
  Messages cautions;
  Messages unconfirmed;  // prices

  Length left() const { return -part.overall; }
  /// The surfaces of the outside.
  std::span<const Surface> outside() const { return {surfaces.data(), part.outside.size()}; }
  const Element& element_of(const Surface& s) const {
    const auto& list = s.region == Region::outside      ? part.outside
                       : s.region == Region::bore_right ? part.bore_right
                                                        : part.bore_left;
    return list[s.element];
  }
  /// The void of the finished part, of both bores.
  Outline hollow() const;
  Outline hollow_turned() const;  // the same without inside grooves
  Volume volume() const;
  bool bored() const { return !bores[0].empty() || !bores[1].empty(); }
};

/// "round 55 mm, hot rolled", "casting, 3.5 mm per side".
Message stock_label(const Job& job);
/// "from bar, 112 mm", "sawn 112 mm".
Message blank_label(const Stock& stock);

/// All problems that only part and shop together show (unknown material, fit not listed, features
/// that are not planned and carry no `allow`, stock that does not clean up), or the job.
Checked<Job> prepare(const Part& part, const Shop& shop);

}  // namespace turnwright
