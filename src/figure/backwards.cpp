// SPDX-License-Identifier: MIT
// A figure worked backwards: a logarithmic scan of the input's range, a bracketing root finder on
// every change of sign, and the checks that make "one answer" true: a jump is no root, a plateau is
// more than one.
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

#include "turnwright/figure/catalogue.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::figure {
namespace {

constexpr int scan_points = 600;
constexpr double close_enough = 1e-9;

struct Search {
  const Entry& entry;
  std::vector<Numbers> given;
  std::size_t missing, result;
  double target;

  double miss(double si) {
    given[missing] = {si};
    return entry.work_out(given)[result].front() - target;
  }
  bool hits(double value) const {
    return std::abs(value) <= close_enough * std::max(std::abs(target), 1e-300);
  }
};

std::vector<double> scanned_range(const Field& field) {
  const double low = coherent(field.low, field.unit);
  const double high = coherent(std::min(field.high, 1e12), field.unit);
  const double start = low > 0 ? low : high * 1e-12;
  std::vector<double> points;
  if (low <= 0) points.push_back(low);
  const double step = std::log(high / start) / (scan_points - 1);
  for (int i = 0; i < scan_points; ++i) points.push_back(start * std::exp(step * i));
  points.back() = high;
  return points;
}

std::optional<double> bracketed_root(Search& search, double a, double b, double fa, double fb) {
  std::uintmax_t most = 200;
  const auto [left, right] =
      boost::math::tools::toms748_solve([&](double x) { return search.miss(x); }, a, b, fa, fb,
                                        boost::math::tools::eps_tolerance<double>(50), most);
  const double fl = search.miss(left), fr = search.miss(right);
  const double best = std::abs(fl) <= std::abs(fr) ? left : right;
  // A sign change without a value near the target is a jump (whole pieces), not a root.
  if (!search.hits(std::min(std::abs(fl), std::abs(fr)))) return std::nullopt;
  return best;
}

// How far the value stays: the plateau around a root, or the root itself.
std::pair<double, double> extent(Search& search, double root) {
  std::pair<double, double> ends{root, root};
  for (const double sign : {-1.0, 1.0}) {
    if (!search.hits(search.miss(root * (1 + sign * 1e-6)))) continue;
    double inside = 1e-6, outside = 2e-6;
    while (outside < 0.9 && search.hits(search.miss(root * (1 + sign * outside)))) {
      inside = outside;
      outside *= 2;
    }
    for (int i = 0; i < 40; ++i) {
      const double middle = (inside + outside) / 2;
      (search.hits(search.miss(root * (1 + sign * middle))) ? inside : outside) = middle;
    }
    (sign < 0 ? ends.first : ends.second) = root * (1 + sign * inside);
  }
  return ends;
}

}  // namespace

Backwards work_backwards(const Entry& entry, std::vector<Numbers> given, std::size_t missing,
                         std::size_t result, double target) {
  const Field& field = entry.inputs[missing];
  const std::string name(field.name);
  Search search{entry, std::move(given), missing, result, target};
  std::vector<double> roots;
  std::optional<double> plateau_from, plateau_to;
  bool jumped = false, moved = false;
  double last_x = 0, last_f = 0, first_f = 0;
  bool have_last = false;
  for (const double x : scanned_range(field)) {
    const double f = search.miss(x);
    if (!std::isfinite(f)) {
      have_last = false;
      continue;
    }
    if (!have_last) first_f = f;
    moved = moved || f != first_f;
    if (search.hits(f)) {
      if (have_last && search.hits(last_f)) {
        if (!plateau_from) plateau_from = last_x;
        plateau_to = x;
      }
      roots.push_back(x);
    } else if (have_last && !search.hits(last_f) && (f < 0) != (last_f < 0)) {
      if (const auto root = bracketed_root(search, last_x, x, last_f, f))
        roots.push_back(*root);
      else
        jumped = true;
    }
    last_x = x;
    last_f = f;
    have_last = true;
  }
  if (roots.size() == 1 && !plateau_from) {
    const auto [from, to] = extent(search, roots.front());
    if (to - from > 1e-7 * std::abs(roots.front())) {
      plateau_from = from;
      plateau_to = to;
    }
  }
  auto shown_as = [&](double x) { return Measure{x, field.unit, 6}; };
  if (!moved) return {false, false, 0, {"backwards.unmoved", {{"input", name}}}};
  if (plateau_from)
    return {false,
            true,
            0,
            {"backwards.plateau",
             {{"input", name}, {"from", shown_as(*plateau_from)}, {"to", shown_as(*plateau_to)}}}};
  if (roots.empty() && jumped) return {false, true, 0, "backwards.jumps"};
  if (roots.empty())
    return {false,
            true,
            0,
            {"backwards.none",
             {{"input", name},
              {"from", shown_as(coherent(field.low, field.unit))},
              {"to", shown_as(coherent(field.high, field.unit))}}}};
  if (roots.size() > 1) {
    Messages list;
    for (const double root : roots) list.push_back({"backwards.root", {{"x", shown_as(root)}}});
    return {false, true, 0, {"backwards.several", {{"input", name}, {"roots", list}}}};
  }
  return {true, true, roots.front(), {}};
}

}  // namespace turnwright::figure
