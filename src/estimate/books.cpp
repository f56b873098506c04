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

// Of the lathes that a class names, the mean; one where it names none.
double operator_share(const BookedMachine& of, const std::vector<Machine>& lathes) {
  double sum = 0;
  int found = 0;
  for (const Machine& lathe : lathes) {
    if (std::find(of.lathes.begin(), of.lathes.end(), lathe.name) == of.lathes.end()) continue;
    sum += lathe.operator_share;
    ++found;
  }
  return found > 0 ? sum / found : 1;
}

// All that people attend is shared out.
void share_out_people(BookRates& r) {
  Time shares(0.0);
  for (const MachineClassCost& m : r.machines) shares += m.people * m.hours;
  if (shares.si <= 0 || r.attended.si <= 0) return;
  for (MachineClassCost& m : r.machines) m.people *= r.attended.si / shares.si;
}

void add_machines(const Accounts& books, const std::vector<Machine>& lathes, BookRates& r) {
  for (const BookedMachine& m : books.machines) {
    const double kilowatt_hours = in(m.power, unit::kW) * in(m.running_hours, unit::h);
    const Amount running =
        m.floor.si * books.floor_cost + kilowatt_hours * books.energy + m.service;
    const auto cost = figure::MachineHour::work_out<>(
        {m.price, m.residual, m.years, books.interest, running, m.running_hours});
    r.machines.push_back({m.name, m.number, cost.per_year, cost.per_hour,
                          static_cast<double>(m.number) * m.running_hours,
                          operator_share(m, lathes), m.lathes});
    r.machine_cost += static_cast<double>(m.number) * cost.per_year;
  }
}

// Mean rate of the shop's lathes of a class; none where it has no such lathe.
std::optional<Rate> mean_quoted(const MachineClassCost& c, const Shop& shop) {
  Rate sum(0.0);
  int found = 0;
  for (const std::string& name : c.lathes)
    for (const Machine& m : shop.machines) {
      if (m.name != name) continue;
      sum += quoted_rate(m.rate, c.people);
      ++found;
    }
  if (found == 0) return std::nullopt;
  return sum / static_cast<double>(found);
}

}  // namespace

BookRates work_out_books(const Accounts& books, const std::vector<Machine>& lathes) {
  BookRates r;
  add_people(books, r);
  add_machines(books, lathes, r);
  share_out_people(r);
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

Rate quoted_rate(const HourlyRate& rate, double people) {
  if (rate.all_in) return *rate.all_in;
  return (rate.machine + people * rate.person) * (1 + rate.overhead);
}

Rate needed_rate(const BookRates& rates, const MachineClassCost& of) {
  return (of.per_hour + of.people * rates.labour_rate) * (1 + rates.overhead_share);
}

const MachineClassCost* class_of(const BookRates& rates, const std::string& lathe) {
  for (const MachineClassCost& c : rates.machines)
    if (std::find(c.lathes.begin(), c.lathes.end(), lathe) != c.lathes.end()) return &c;
  return nullptr;
}

std::optional<Recovery> recovery_of_quoted(const BookRates& rates, const Shop& shop, double share) {
  Recovery r{share, share * overheads_on_purchases(shop), {}};
  for (const MachineClassCost& c : rates.machines) {
    const auto quoted = mean_quoted(c, shop);
    if (!quoted) return std::nullopt;
    r.returned += share * c.hours * *quoted;
  }
  r.under_recovered = rates.total - r.returned;
  return r;
}

}  // namespace turnwright
