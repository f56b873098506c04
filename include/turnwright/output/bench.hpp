// SPDX-License-Identifier: MIT
#pragma once
// One cut, said, worked on paper, as a file; and the speed card of a lathe.
#include <string>

#include "turnwright/compare/bench_cut.hpp"
#include "turnwright/compare/speed_card.hpp"
#include "turnwright/output/paper.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// What to set, then why.
std::string cut_text(const BenchCut& cut, const Words& words);
/// The same as a worked example: formula, units brought to one, numbers, result; inch and metric.
std::string cut_working_text(const BenchCut& cut, const Words& words);
std::string cut_json(const BenchCut& cut);

std::string card_text(const SpeedCard& card, const Words& words);
paper::Paper card_paper(const SpeedCard& card, const Words& words);
std::string card_table(const SpeedCard& card);
std::string card_json(const SpeedCard& card);

}  // namespace turnwright
