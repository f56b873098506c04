// SPDX-License-Identifier: MIT
#include "turnwright/shop/row_ids.hpp"

#include <array>

namespace turnwright {
namespace {

using Names = std::string_view;
constexpr std::array<Names, handling_rows> handling{"crane",
                                                    "door",
                                                    "add centre",
                                                    "between centres",
                                                    "turn round",
                                                    "bar advance",
                                                    "new bar",
                                                    "change tool",
                                                    "change speed",
                                                    "change feed",
                                                    "pass",
                                                    "tailstock tool",
                                                    "peck",
                                                    "thread pass",
                                                    "tap and die",
                                                    "true to the rim",
                                                    "true to 0.02",
                                                    "mandrel",
                                                    "steady",
                                                    "draw out",
                                                    "catch the piece",
                                                    "gauge bore",
                                                    "gauge thread",
                                                    "start and stop",
                                                    "trial cut",
                                                    "gauge diameter",
                                                    "gauge length",
                                                    "gauge runout",
                                                    "edge change",
                                                    "offset after edge change",
                                                    "deburr edge",
                                                    "deburr parted edge",
                                                    "blow off",
                                                    "pack"};
constexpr std::array<Names, setup_rows> setup{"machine",
                                              "tool not mounted",
                                              "jaws",
                                              "soft jaws bored",
                                              "four-jaw chuck",
                                              "compound slide set",
                                              "mandrel",
                                              "collet",
                                              "face plate",
                                              "steady",
                                              "tailstock",
                                              "bar feeder",
                                              "between centres",
                                              "next operation",
                                              "program",
                                              "program a feature",
                                              "first-off check of a size",
                                              "drawing and preparing"};
constexpr std::array<Names, step_factor_rows> step_factors{
    "face",          "rough",
    "finish",        "groove",
    "part off",      "centre",
    "drill",         "countersink",
    "ream",          "bore",
    "inside groove", "face groove",
    "thread",        "threads and plunges by hand",
    "tap",           "die",
    "knurl"};
constexpr std::array<Names, accuracy_rows> accuracies{
    "hard jaws", "soft jaws",       "collet",      "four-jaw chuck",
    "mandrel",   "between centres", "one clamping"};
constexpr std::array<Names, factor_rows> factors{"coolant flood",          "coolant dry",
                                                 "machine condition good", "machine condition worn",
                                                 "interrupted corners",    "floor least product"};
constexpr std::array<Names, chip_rows> chips{"long", "short"};

template <class Id, std::size_t Size>
Names at(const std::array<Names, Size>& names, Id id) {
  return names.at(static_cast<std::size_t>(id));
}

}  // namespace

std::string_view name_of(HandlingId id) { return at(handling, id); }
std::string_view name_of(SetupId id) { return at(setup, id); }
std::string_view name_of(StepFactorId id) { return at(step_factors, id); }
std::string_view name_of(AccuracyId id) { return at(accuracies, id); }
std::string_view name_of(FactorId id) { return at(factors, id); }
std::string_view name_of(ChipId id) { return at(chips, id); }
std::string_view name_of(OutsideWorkId) { return "grinding between centres"; }

}  // namespace turnwright
