// SPDX-License-Identifier: MIT
#pragma once
#include "html/markup.hpp"
#include "turnwright/output/drawing.hpp"

namespace turnwright {

/// A drawing as SVG; the style says what "fill-body", "pen" and "pen-pale" look like. `attributes`
/// are its size and class.
void put_drawing(Markup& m, const paper::Drawing& drawing, Markup::Attributes attributes);

/// On the inside page, in pixels.
void put_picture(Markup& m, const paper::Drawing& drawing);

}  // namespace turnwright
