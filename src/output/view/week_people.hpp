// SPDX-License-Identifier: MIT
#pragma once
#include "table.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// Who does what, of a week that tells people apart.
void put_people(const Week& week, const WeekProblem& problem, const Plan& plan, WeekView& view);

/// From, to, work, machine, and what he does there.
Table person_table(const Week& week, const PersonView& person, const Words& words);

/// "Ines, Marek".
std::string names_text(const std::vector<std::string>& names, const Words& words);

}  // namespace turnwright
