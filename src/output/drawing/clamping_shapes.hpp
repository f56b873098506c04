// SPDX-License-Identifier: MIT
#pragma once
// What holds the work, on a drawing of it.
#include "drawing/scale.hpp"
#include "turnwright/output/drawing.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

inline constexpr double jaw_height = 28, jaw_label = 18;

/// As far left as the clamping reaches.
Length clamped_from(const Operation& operation);

/// What of a bar stays in its jaws, behind the work.
void draw_bar(paper::Drawing& drawing, const Operation& operation, const Scale& scale);

/// Jaws, collet, mandrel or face plate, with their name.
void draw_jaws(paper::Drawing& drawing, const Operation& operation, const Scale& scale,
               const Words& words);

/// Centres in the ends of `work`: the tailstock's where it is there by now, the other where the
/// work turns between them.
void draw_centres(paper::Drawing& drawing, const Operation& operation, bool supported,
                  const Outline& work, const Scale& scale, const Words& words);

}  // namespace turnwright
