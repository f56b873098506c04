// SPDX-License-Identifier: MIT
#pragma once
// What the turner gets, on paper: a page an operation.
#include "turnwright/output/json.hpp"
#include "turnwright/output/paper.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// Clamping drawn with what is turned, tools by station, steps with their sizes and limits and how
/// often they are gauged, cautions, room for what really was.
paper::Paper step_sheet_paper(const Route& route, const RouteTimes& times, const Shop& shop,
                              const Words& words, const MadeBy& made_by = {});

}  // namespace turnwright
