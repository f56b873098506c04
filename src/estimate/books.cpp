// SPDX-License-Identifier: MIT
#include "turnwright/estimate/books.hpp"

#include <algorithm>

#include "turnwright/figure/money.hpp"

namespace turnwright {
namespace {

void add_people(const Accounts& books, BookRates& r) {
  for (const BookedPeople& p : books.people) {
    const double n = p.number;
    r.labour += n * p.wage * p.paid_hours * (1 + books.on_cost);
    r.attended += n * p.paid_hours * p.at_machines;
  }
}

void add_machines(const Accounts& books, BookRates& r) {
  for (const BookedMachine& m : books.machines) {
    const double kilowatt_hours = in(m.power, unit::kW) * in(m.running_hours, unit::h);
    const Amount running =
        m.floor.si * books.floor_cost + kilowatt_hours * books.energy + m.service;
    const auto cost = figure::MachineHour::work_out<>(
        {m.price, m.residual, m.years, books.interest, running, m.running_hours});
    r.machines.push_back({m.name, m.number, cost.per_year, cost.per_hour,
                          static_cast<double>(m.number) * m.running_hours, m.lathes});
    r.machine_cost += static_cast<double>(m.number) * cost.per_year;
  }
}

// Mean rate of the shop's lathes of a class; none where it has no such lathe.
std::optional<Rate> mean_quoted(const MachineClassCost& c, const BookRates& books,
                                const Shop& shop) {
  Rate sum(0.0);
  int found = 0;
  for (const std::string& name : c.lathes)
    for (const Machine& m : shop.machines) {
      if (m.name != name) continue;
      sum += quoted_rate(m.rate, books.machines_per_person);
      ++found;
    }
  if (found == 0) return std::nullopt;
  return sum / static_cast<double>(found);
}

}  // namespace

BookRates work_out_books(const Accounts& books) {
  BookRates r;
  add_people(books, r);
  add_machines(books, r);
  for (const BookedOverhead& o : books.overheads) r.overhead += o.amount;
  Time machine_hours(0.0);
  for (const MachineClassCost& m : r.machines) machine_hours += m.hours;
  r.total = r.labour + r.machine_cost + r.overhead;
  const Amount base = r.labour + r.machine_cost;
  if (r.attended.si > 0) r.labour_rate = r.labour / r.attended;
  if (base.si > 0) r.overhead_share = (r.overhead / base).si;
  if (r.attended.si > 0) r.machines_per_person = (machine_hours / r.attended).si;
  if (machine_hours.si > 0) r.all_in = r.total / machine_hours;
  return r;
}

Recovery recovery(const BookRates& rates, double share) {
  // Hour by hour, not the total again: a rate that was lost on the way would show.
  Amount hours = share * rates.attended * rates.labour_rate;
  for (const MachineClassCost& m : rates.machines) hours += share * m.hours * m.per_hour;
  Recovery r{share, hours * (1 + rates.overhead_share), {}};
  r.under_recovered = rates.total - r.returned;
  return r;
}

Amount overheads_on_purchases(const Shop& shop) {
  return shop.books.material_bought * shop.policy.overhead_on_material +
         shop.books.outside_bought * shop.policy.overhead_on_outside;
}

Rate quoted_rate(const HourlyRate& rate, double machines_per_person) {
  if (rate.all_in) return *rate.all_in;
  const double people = machines_per_person > 0 ? 1 / machines_per_person : 1;
  return (rate.machine + people * rate.person) * (1 + rate.overhead);
}

std::optional<Rate> needed_rate(const BookRates& rates, const std::string& lathe) {
  const double people = rates.machines_per_person > 0 ? 1 / rates.machines_per_person : 1;
  for (const MachineClassCost& c : rates.machines)
    if (std::find(c.lathes.begin(), c.lathes.end(), lathe) != c.lathes.end())
      return (c.per_hour + people * rates.labour_rate) * (1 + rates.overhead_share);
  return std::nullopt;
}

std::optional<Recovery> recovery_of_quoted(const BookRates& rates, const Shop& shop, double share) {
  Recovery r{share, share * overheads_on_purchases(shop), {}};
  for (const MachineClassCost& c : rates.machines) {
    const auto quoted = mean_quoted(c, rates, shop);
    if (!quoted) return std::nullopt;
    r.returned += share * c.hours * *quoted;
  }
  r.under_recovered = rates.total - r.returned;
  return r;
}

}  // namespace turnwright
