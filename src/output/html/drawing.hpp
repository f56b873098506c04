// SPDX-License-Identifier: MIT
#pragma once
// The workpiece to scale, as SVG.
#include <cstddef>

#include "html/page_writer.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

/// The finished part with centre line, diameters and lengths.
void draw_part(PageWriter& page, const Job& job);

/// An operation as a whole: all that it removes shaded, clamped as it begins.
void draw_operation_whole(PageWriter& page, const Operation& operation);

/// One step in its operation: what it removes shaded, what is left, jaws and centre.
void draw_step(PageWriter& page, const Operation& operation, std::size_t step);

}  // namespace turnwright
