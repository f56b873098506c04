// SPDX-License-Identifier: MIT
#pragma once
// Outlines as paths of a drawing, above and below the centre line.
#include <vector>

#include "drawing/scale.hpp"
#include "turnwright/output/drawing.hpp"
#include "turnwright/route/outline.hpp"

namespace turnwright {

/// A rectangle of the section that is no material.
struct Cut {
  Length from{}, to{}, inner{}, outer{};
};

/// The body with the void and cuts in it.
paper::Path body_path(const Outline& outside, const Outline& hollow, const Scale& scale,
                      const std::vector<Cut>& cuts = {});

/// Where `drawn` is new: it runs below `other` (`Envelope::lower`, the outside) or above it (the
/// void), faces too.
paper::Path new_path(const Outline& drawn, const Outline& other, Envelope where,
                     const Scale& scale);

/// The centre line, longer than the work by so much at both ends.
paper::Shape axis_shape(const Scale& scale, double before, double behind);

}  // namespace turnwright
