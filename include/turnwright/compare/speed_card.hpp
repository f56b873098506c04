// SPDX-License-Identifier: MIT
#pragma once
// The card to hang at a lathe: what to set for the shop's materials over diameters, with the tools
// and kinds of work side by side, worked out like every step of the planner.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/route/bench.hpp"

namespace turnwright {

enum class CardWork { roughing, finishing, facing, parting, drilling, threading };
const char* name_of(CardWork work);

struct CardRequest {
  std::string machine;
  std::vector<std::string> materials;  // empty: those of the shop's stock list
  std::vector<Length> diameters;       // empty: a series
  bool inch = false;
  std::string shop;          // what it is called; may be empty
  std::optional<Date> date;  // of the card; none: it bears none
};

/// What is set at a diameter.
struct CardCell {
  Length diameter{};
  Frequency spindle{}, exact{};
  double deviation = 0;
  bool off_band = false;  // of the lathe's ladder
  int range = -1;         // of the machine's lever ranges; -1: none
  bool possible = true;   // no tool, or not on this lathe
};

/// A kind of work with a tool in a material.
struct CardRow {
  const Material* material = nullptr;
  CardWork work = CardWork::roughing;
  const Tool* tool = nullptr;
  Speed surface_speed{};
  Length feed_from{}, feed_to{}, depth{};
  std::vector<CardCell> cells;  // of the card's diameters, or drills
  std::string source;           // of the row of the cutting table
  Basis basis = Basis::typical;
};

struct SpeedCard {
  CardRequest request;
  Machine machine;
  Length pitch{};  // that threading is shown for
  std::vector<Length> diameters, drills;
  std::vector<CardRow> rows;  // by material
  double band = 0;
  std::size_t left_out = 0;  // materials of the list that one page does not take
};
/// Only for a machine that the shop has and materials that it knows.
SpeedCard speed_card(const CardRequest& request, const Shop& shop);

/// How often a ladder has no speed within the band for the shop's usual cuts, roughing its
/// materials over the card's diameters; beyond the ends of a ladder there is nothing to be had.
struct LadderHole {
  const Machine* machine = nullptr;
  int cuts = 0, off = 0;
  double widest = 0;  // deviation, at a diameter of a material
  Length at{};
  std::string material;

  void count(const CardRow& row);
};
/// Of the machines that have one.
std::vector<LadderHole> ladder_holes(const Shop& shop);

}  // namespace turnwright
