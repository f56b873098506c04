// SPDX-License-Identifier: MIT
#pragma once
#include <map>

#include "table.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// By operation; empty where people are not told apart.
std::map<int, WorkPeople> people_by_operation(const Week& week, const Plan& plan);

/// Who does what, of a week that tells people apart.
void put_people(const Week& week, const WeekProblem& problem, const Plan& plan, WeekView& view);

/// From, to, work, machine, and what he does there.
Table person_table(const Week& week, const PersonView& person, const Words& words);

/// The columns of who sets up and attends, and their cells for a run; none where people are not
/// told apart.
void add_people_columns(const WeekView& view, Table& table);
void add_people_cells(const WeekView& view, const RunView& run, const Words& words, Cells& cells);

/// "Ines, Marek".
std::string names_text(const std::vector<std::string>& names, const Words& words);

}  // namespace turnwright
