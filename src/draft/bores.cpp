// SPDX-License-Identifier: MIT
// The void divided into what is bored from the right and from the left.
#include <algorithm>

#include "drafting.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

using Runs = std::vector<ModelRun>;
constexpr Length edge_at_most = 4.0 * unit::mm;  // of a chamfer at the far end

// Seen from the left-hand face.
Runs from_left(const Runs& runs, Length length) {
  Runs seen;
  for (auto it = runs.rbegin(); it != runs.rend(); ++it) {
    ModelRun r = *it;
    r.from = length - it->to;
    r.to = length - it->from;
    std::swap(r.diameter_from, r.diameter_to);
    r.centre_z = length - it->centre_z;
    seen.push_back(r);
  }
  return seen;
}

Length narrowest_of(const Runs& runs) {
  Length least = runs.front().diameter_from;
  for (const ModelRun& r : runs) least = min(least, min(r.diameter_from, r.diameter_to));
  return least;
}

// The runs that follow one another from z = 0.
std::size_t reached_from_start(const Runs& runs) {
  Length z(0.0);
  std::size_t n = 0;
  while (n < runs.size() && same(runs[n].from, z)) z = runs[n++].to;
  return n;
}

// An edge of the narrowest place, broken towards the end face or towards the wider bore there.
bool is_broken_edge(const ModelRun& r, const ModelRun* next) {
  return r.form == RunForm::line && r.to - r.from < edge_at_most &&
         r.diameter_to.si > r.diameter_from.si + same_size &&
         (next == nullptr || next->diameter_from.si > r.diameter_to.si - same_size);
}

// Of a hole that goes through: up to and with its narrowest place, and a chamfer right behind it.
std::size_t up_to_narrowest(const Runs& runs) {
  const Length least = narrowest_of(runs);
  std::size_t last = 0;
  for (std::size_t i = 0; i < runs.size(); ++i)
    if (same(runs[i].diameter_from, least) && same(runs[i].diameter_to, least)) last = i;
  if (last + 1 < runs.size() &&
      is_broken_edge(runs[last + 1], last + 2 < runs.size() ? &runs[last + 2] : nullptr))
    ++last;
  return last + 1;
}

bool is_blunt(const Runs& runs) { return !runs.empty() && runs.back().diameter_to.si > same_size; }

ContourRuns blind(Runs runs, Region region) {
  ContourRuns contour{std::move(runs), region, false, false};
  const bool round_end = !contour.runs.empty() && contour.runs.back().form != RunForm::line;
  contour.flat = is_blunt(contour.runs) || round_end;
  return contour;
}

void split_through(const Runs& runs, Length length, Bores& bores) {
  const auto at = runs.begin() + static_cast<std::ptrdiff_t>(up_to_narrowest(runs));
  bores.right = {{runs.begin(), at}, Region::bore_right, true, false};
  bores.left = {from_left({at, runs.end()}, length), Region::bore_left, false, false};
  const Runs& left = bores.left.runs;
  bores.left.flat = !left.empty() && !same(left.back().diameter_to, narrowest_of(runs));
}

}  // namespace

Bores bores_of(const Recognition& model) {
  Bores bores;
  bores.right.region = Region::bore_right;
  bores.left.region = Region::bore_left;
  const Runs runs = drawn_runs(model.bore);
  if (runs.empty()) return bores;
  const std::size_t n = reached_from_start(runs);
  if (n == runs.size() && same(runs.back().to, model.length)) {
    split_through(runs, model.length, bores);
    return bores;
  }
  const Runs left = from_left(runs, model.length);
  const std::size_t m = std::min(reached_from_start(left), runs.size() - n);
  bores.right =
      blind({runs.begin(), runs.begin() + static_cast<std::ptrdiff_t>(n)}, Region::bore_right);
  bores.left =
      blind({left.begin(), left.begin() + static_cast<std::ptrdiff_t>(m)}, Region::bore_left);
  if (n + m < runs.size())
    bores.to_confirm.push_back(
        {"draft.closed-cavity", {{"from", runs[n].from}, {"to", runs[runs.size() - m - 1].to}}});
  return bores;
}

}  // namespace turnwright
