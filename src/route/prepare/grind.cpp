// SPDX-License-Identifier: MIT
#include "prepare/grind.hpp"

#include <algorithm>

namespace turnwright {
namespace {

Infeasible not_ground(Message why) {
  return {std::move(why), {"plan.try-tie-between-seats", "plan.try-price-of-grinder"}};
}

// Which elements of the outside are tied to each other.
std::vector<bool> tied_seats(const std::vector<Element>& outside) {
  std::vector<bool> ground(outside.size());
  for (std::size_t i = 0; i < outside.size(); ++i)
    for (const Tie& tie : outside[i].ties)
      for (std::size_t n = 0; n < outside.size(); ++n)
        if (outside[n].seat == tie.datum) ground[i] = ground[n] = true;
  return ground;
}

void leave_on(const Practice& practice, Element& e) {
  e.leave = practice.left_for_grinding;
  e.ties.clear();
  e.ra = practice.ground_seat_roughness;
  e.size.letters.clear();
  e.size.toleranced = true;
  e.size.upper = practice.ground_seat_turned_to;
  e.size.lower = -practice.ground_seat_turned_to;
}

void buy_grinding(Part& part, const OutsideWork& grinding, std::int64_t seats) {
  OtherWork work;
  work.what = grinding.name;
  work.price = static_cast<double>(seats) * grinding.each;
  work.days = grinding.days;
  part.other_work.push_back(work);
  if (grinding.lot.si <= 0) return;
  work.price = grinding.lot;
  work.per = ChargedBy::lot;
  work.days = 0;
  part.other_work.push_back(work);
}

}  // namespace

Planned<Job> left_for_grinding(const Job& job, const Shop& shop) {
  const OutsideWork* grinding = shop.outside(OutsideWorkId::grinding_between_centres);
  if (grinding == nullptr) return not_ground("plan.no-price-of-grinding");
  Part part = job.part;
  const std::vector<bool> ground = tied_seats(part.outside);
  const auto seats = std::count(ground.begin(), ground.end(), true);
  if (seats == 0) return not_ground("plan.no-tied-seats");
  for (std::size_t i = 0; i < part.outside.size(); ++i)
    if (ground[i]) leave_on(shop.practice, part.outside[i]);
  part.centres.keep = CentreUse::yes;
  buy_grinding(part, *grinding, seats);
  auto changed = prepare(part, shop);
  if (!changed) return not_ground(changed.problems().front().what);
  return *changed;
}

}  // namespace turnwright
