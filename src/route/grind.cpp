// SPDX-License-Identifier: MIT
#include "grind.hpp"

#include <algorithm>

namespace turnwright {
namespace {

// On diameter, 0.25-0.38 in a machine-shop training text (issuhub 4752, p. 40).
constexpr Length left_on(0.3e-3);
// What the turned seat has to hold before it is ground: about IT10, Ra 3.2 (common practice).
constexpr Length turned_to(0.05e-3);
constexpr Length turned_ra(3.2e-6);

}  // namespace

std::optional<Job> left_for_grinding(const Job& job, const Shop& shop, std::string& why_not) {
  const OutsideWork* grinding = shop.outside("grinding between centres");
  if (grinding == nullptr) {
    why_not = "the rates have no price for grinding between centres";
    return std::nullopt;
  }
  Part part = job.part;
  std::vector<bool> ground(part.outside.size());
  for (std::size_t i = 0; i < part.outside.size(); ++i)
    for (const Tie& tie : part.outside[i].ties)
      for (std::size_t n = 0; n < part.outside.size(); ++n)
        if (part.outside[n].seat == tie.datum) ground[i] = ground[n] = true;
  const auto seats = std::count(ground.begin(), ground.end(), true);
  if (seats == 0) {
    why_not = "no two seats of the outside are tied to each other";
    return std::nullopt;
  }
  for (std::size_t i = 0; i < part.outside.size(); ++i) {
    if (!ground[i]) continue;
    Element& e = part.outside[i];
    e.leave = left_on;
    e.ties.clear();
    e.ra = turned_ra;
    e.size.letters.clear();
    e.size.toleranced = true;
    e.size.upper = turned_to;
    e.size.lower = -turned_to;
  }
  part.centres.keep = CentreUse::yes;
  OtherWork work;
  work.what = std::to_string(seats) + " seats ground between centres";
  work.price = static_cast<double>(seats) * grinding->each;
  work.days = grinding->days;
  part.other_work.push_back(work);
  if (grinding->lot.si > 0) {
    work.what = "grinding, a lot";
    work.price = grinding->lot;
    work.per = ChargedBy::lot;
    work.days = 0;
    part.other_work.push_back(work);
  }
  auto changed = prepare(part, shop);
  if (changed) return *changed;
  why_not = changed.problems().front().what;
  return std::nullopt;
}

}  // namespace turnwright
