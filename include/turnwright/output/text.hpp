// SPDX-License-Identifier: MIT
#pragma once
// Plain text for the terminal: the quote in the estimator's order of reading, the methods, the step
// sheet for the turner. Bytes only; nothing is printed here.
#include <string>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

struct TextOptions {
  bool why = false;   // the reason behind each step, operation and condition; the score of a week
  bool full = false;  // of a week: what each operation needs
};

/// The quote on one screen: prices with their margin and risk, what may go wrong most, how it is
/// made. quote_text has everything.
std::string quote_summary(const PartQuote& part, const Words& words);
std::string quote_text(const PartQuote& part, const Words& words, const TextOptions& options = {});
/// What the turner gets: operations, tools, spindle speed, feed, depth, passes, and the cautions.
std::string step_sheet_text(const Route& route, const RouteTimes& times, const Shop& shop,
                            const Words& words, const MadeBy& made_by = {});
/// Why a part cannot be made, and what would help.
std::string infeasible_text(const std::string& part, const Infeasible& infeasible,
                            const Words& words);
/// The part as understood, to scale, in characters.
std::string sketch(const Job& job, int width);

}  // namespace turnwright
