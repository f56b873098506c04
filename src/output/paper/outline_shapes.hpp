// SPDX-License-Identifier: MIT
#pragma once
// Outlines as paths of a drawing, above and below the centre line.
#include "html/outline_path.hpp"
#include "turnwright/output/paper.hpp"

namespace turnwright {

/// The body with the void in it; `top` is where the scale's picture begins.
paper::Path body_path(const Outline& outside, const Outline& hollow, const Scale& scale,
                      double top);

/// Where `drawn` is new: it runs below `other` (`Envelope::lower`, the outside) or above it (the
/// void), faces too.
paper::Path new_path(const Outline& drawn, const Outline& other, Envelope where, const Scale& scale,
                     double top);

}  // namespace turnwright
