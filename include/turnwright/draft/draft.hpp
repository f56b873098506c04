// SPDX-License-Identifier: MIT
#pragma once
// The part file that a recognised model gives: elements as a drawing writes them, other work
// without minutes, and what the model cannot say.
#include <string>
#include <vector>

#include "turnwright/draft/recognition.hpp"

namespace turnwright {

/// How much is taken for edges, corners and grooves: all that is one; else every surface is an
/// element of its own.
enum class DraftDetail { features, surfaces };

/// A groove in an end face, as a part file has it.
struct DraftFaceGroove {
  std::string width, depth, from;
};

struct DraftRequest {
  std::string number;
  bool flipped = false;  // the heavier end was asked for at the right
  DraftDetail detail = DraftDetail::features;
};

struct Draft {
  std::string number, name;
  bool inch = false;
  std::string overall;
  std::string hexagon, square;  // stock of flats, across them; "": round
  std::vector<std::string> outside, bore_right, bore_left;  // "30 x42, chamfer 1x45 right"
  std::vector<DraftFaceGroove> right_grooves, left_grooves;
  Messages other_work;
  Volume other_recesses{};  // of ring recesses among it
  Messages to_confirm;
  std::size_t elements() const { return outside.size() + bore_right.size() + bore_left.size(); }
};

/// The words that other work is written with.
Message other_work_of(const ModelFeature& feature);

/// Of a model that is turned.
Draft draft_of(const Recognition& model, const DraftRequest& request);

}  // namespace turnwright
