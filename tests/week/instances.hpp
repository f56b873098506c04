// SPDX-License-Identifier: MIT
#pragma once
// Public scheduling instances as problems of ours, so that the shipped decoder and search solve
// them. The files stay where they are: in data/instances beside the project, when they are there.
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "turnwright/week/plan.hpp"

namespace turnwright::test {

inline std::string instances_folder() {
  return std::string(TURNWRIGHT_ROOT) + "/../shared/reference/data/instances/";
}
inline bool have_instances() {
  return static_cast<bool>(std::ifstream(instances_folder() + "README.md"));
}

inline void add_operation(PlanProblem& p, int job, std::vector<Choice> choices) {
  p.lots[static_cast<std::size_t>(job)].operations.push_back(static_cast<int>(p.operations.size()));
  p.operations.push_back({job, std::move(choices), 0});
}
inline Choice plain(int machine, Minute run) {
  Choice c;
  c.machine = machine;
  c.run = run;
  return c;
}

/// J. E. Beasley, OR-Library: one machine, total weighted tardiness; 125 of n jobs.
inline std::vector<PlanProblem> weighted_tardiness(int n) {
  std::ifstream in(instances_folder() + "wt/wt" + std::to_string(n) + ".txt");
  std::vector<PlanProblem> all;
  std::vector<int> numbers(static_cast<std::size_t>(3 * n));
  for (;;) {
    for (int& x : numbers)
      if (!(in >> x)) return all;
    PlanProblem p;
    p.score = Score::weighted_tardiness;
    p.machines.resize(1);
    p.lots.resize(static_cast<std::size_t>(n));
    for (int j = 0; j < n; ++j) {
      PlannedLot& lot = p.lots[static_cast<std::size_t>(j)];
      lot.weight = numbers[static_cast<std::size_t>(n + j)];
      lot.due = numbers[static_cast<std::size_t>(2 * n + j)];
      add_operation(p, j, {plain(0, numbers[static_cast<std::size_t>(j)])});
    }
    all.push_back(std::move(p));
  }
}

/// A job a line: machine (from 0) and duration in turn.
inline PlanProblem job_shop(const std::string& name) {
  std::ifstream in(instances_folder() + "jobshop/" + name + ".txt");
  int jobs = 0, machines = 0;
  in >> jobs >> machines;
  PlanProblem p;
  p.score = Score::makespan;
  p.lots.resize(static_cast<std::size_t>(jobs));
  p.machines.resize(static_cast<std::size_t>(machines));
  for (int j = 0; j < jobs; ++j)
    for (int k = 0; k < machines; ++k) {
      int m = 0, t = 0;
      in >> m >> t;
      add_operation(p, j, {plain(m, t)});
    }
  return p;
}

/// A job a line: its operations, each with its options of machine (from 1) and duration.
inline PlanProblem flexible_job_shop(const std::string& name) {
  std::ifstream in(instances_folder() + "flexjobshop/" + name + ".txt");
  std::string line;
  std::getline(in, line);
  std::istringstream head(line);
  int jobs = 0, machines = 0;
  head >> jobs >> machines;
  PlanProblem p;
  p.score = Score::makespan;
  p.lots.resize(static_cast<std::size_t>(jobs));
  p.machines.resize(static_cast<std::size_t>(machines));
  for (int j = 0; j < jobs; ++j) {
    int operations = 0;
    in >> operations;
    for (int k = 0; k < operations; ++k) {
      int options = 0;
      in >> options;
      std::vector<Choice> choices;
      for (int i = 0; i < options; ++i) {
        int m = 0, t = 0;
        in >> m >> t;
        choices.push_back(plain(m - 1, t));
      }
      add_operation(p, j, std::move(choices));
    }
  }
  return p;
}

/// Identical machines with setup times by family; our own instances, proven optima.
inline PlanProblem parallel_setup(const std::string& name, Score score) {
  std::ifstream in(instances_folder() + "parallel_setup/" + name + ".txt");
  std::string line;
  std::vector<int> numbers;
  while (std::getline(in, line)) {
    if (line.empty() || line[0] == '#') continue;
    std::istringstream words(line);
    std::string word;
    while (words >> word)
      if (std::isdigit(static_cast<unsigned char>(word[0])) != 0)
        numbers.push_back(std::stoi(word));
  }
  std::size_t at = 0;
  const int jobs = numbers[at++], machines = numbers[at++], families = numbers[at++];
  PlanProblem p;
  p.score = score;
  p.lots.resize(static_cast<std::size_t>(jobs));
  p.machines.resize(static_cast<std::size_t>(machines));
  for (int j = 0; j < jobs; ++j) {
    const int run = numbers[at++];
    PlannedLot& lot = p.lots[static_cast<std::size_t>(j)];
    lot.weight = numbers[at++];
    lot.due = numbers[at++];
    const int family = numbers[at++];
    std::vector<Choice> choices;
    for (int m = 0; m < machines; ++m) {
      choices.push_back(plain(m, run));
      choices.back().family = family;
    }
    add_operation(p, j, std::move(choices));
  }
  for (int row = 0; row <= families; ++row) {
    p.changeover.emplace_back();
    for (int f = 0; f < families; ++f) p.changeover.back().push_back(numbers[at++]);
  }
  return p;
}

/// First column and the value of another of a CSV table beside the instances.
inline std::map<std::string, double> known_values(const std::string& file, std::size_t column) {
  std::ifstream in(instances_folder() + file);
  std::map<std::string, double> values;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::istringstream cells(line);
    std::string name, cell;
    std::getline(cells, name, ',');
    for (std::size_t i = 1; i <= column; ++i) std::getline(cells, cell, ',');
    values[name] = std::stod(cell);
  }
  return values;
}

}  // namespace turnwright::test
