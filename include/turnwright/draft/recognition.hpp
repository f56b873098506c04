// SPDX-License-Identifier: MIT
#pragma once
// A solid model as it was recognised: the outline of its turned faces from the right-hand end, and
// what is not turned. Made by the plug-in that reads models; here it is only read.
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/draft/model_words.hpp"
#include "turnwright/quantity/message.hpp"
#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

/// A stretch of an outline, from the right to the left.
struct ModelRun {
  RunForm form = RunForm::line;
  Length from{}, to{};                    // from the right-hand end
  Length diameter_from{}, diameter_to{};  // there
  Length radius{};                        // of an arc
  bool bulges_out = true;                 // away from the axis
  Length centre_z{}, centre_r{};          // of an arc
};

/// A ring of no material between the outside and the bore.
struct RingRecess {
  Length from{}, to{};
  Length inner{}, outer{};  // diameters, in its middle
  Volume volume{};
};

/// What is milled, drilled or broached. Sizes that its kind does not have are 0.
struct ModelFeature {
  FeatureKind kind = FeatureKind::other;
  int count = 1;
  Length from{}, to{};
  Length width{}, length{}, floor{};      // keyway, slot; the floor's distance from the axis
  Length diameter{}, stepped{}, depth{};  // hole; stepped: its larger diameter
  Length pitch_circle{}, offset{};        // hole, eccentric
  Length across{}, from_axis{};           // flats
  Length inner{}, outer{};                // diameters it lies between
  int faces = 0, cones = 0;
};

struct Recognition {
  ModelVerdict verdict = ModelVerdict::unreadable;
  bool inch = false;
  std::string product;                        // as the file names it
  int faces = 0;                              // of the whole file
  std::vector<std::array<Length, 3>> solids;  // the box of each
  int solid = 0;                              // the one recognised, from 1
  double turned_share = 0;                    // of its surface
  Volume volume{}, outline_volume{};
  Length void_at{}, void_diameter{};  // about where the outline has more than the model
  Length length{};
  std::vector<ModelRun> outside, bore;
  std::vector<RingRecess> recesses;
  std::vector<ModelFeature> features;

  double volume_ratio() const { return outline_volume.si > 0 ? (volume / outline_volume).si : 0; }
};

/// The plug-in's document; nothing when it is none.
std::optional<Recognition> read_recognition(std::string_view json);

}  // namespace turnwright
