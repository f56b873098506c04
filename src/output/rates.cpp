// SPDX-License-Identifier: MIT
#include "turnwright/output/rates.hpp"

#include "json_head.hpp"
#include "shown.hpp"
#include "turnwright/quantity/money.hpp"

namespace turnwright {
namespace {

constexpr double shares[] = {1.0, 0.8, 1.2};
constexpr double one_shift =
    3000;  // running hours a year that one shift does not give (business sense)

std::string money(Amount a) { return rounded(a).text(); }
std::string an_hour(Rate r) { return fixed(in(r, unit::money_per_h), 2); }
std::string hours(Time t) { return readable(in(t, unit::h), 6); }

void given_rates(const Shop& shop, std::string& out) {
  out += "THE RATES AS GIVEN\n";
  for (const Machine& m : shop.machines)
    out += "  " + padded(m.name, 24) + rate_in_words(m, shop.policy.currency) + "\n";
  const Policy& p = shop.policy;
  out += "  on material " + readable(p.overhead_on_material * 100) + " %, on outside work " +
         readable(p.overhead_on_outside * 100) + " % overhead\n";
}

void recoveries(const BookRates& r, const Shop& shop, std::string& out) {
  out += "\nRECOVERY, when the hours come out otherwise and the books do not\n";
  out += "  hours     these rates return          open";
  const bool quoted = recovery_of_quoted(r, shop, 1).has_value();
  out += quoted ? "   the quoted rates return          open\n" : "\n";
  for (const double share : shares) {
    const Recovery own = recovery(r, share);
    out += "  " + padded(fixed(share * 100, 0) + " %", 6) + padded(money(own.returned), 20, true) +
           padded(money(own.open), 16, true);
    if (quoted) {
      const Recovery given = *recovery_of_quoted(r, shop, share);
      out += padded(money(given.returned), 26, true) + padded(money(given.open), 14, true);
    }
    out += "\n";
  }
  out += "  open: what the books hold and nobody pays; below 0 it is more than the books\n";
}

}  // namespace

std::string rates_text(const Shop& shop) {
  std::string out;
  if (shop.books.empty()) {
    given_rates(shop, out);
    return out +
           "\nNo books beside the rates: 'book people', 'book machines', 'book values' and 'book "
           "overheads'\nof a year say what an hour has to bring; hours, wages and machines known "
           "by "
           "heart are enough\nfor a first answer.\n";
  }
  const BookRates r = work_out_books(shop.books);
  out += "RATES FROM THE BOOKS, " + shop.policy.currency + " a year\n";
  out += "  labour    " + padded(money(r.labour), 14, true) + "  " + hours(r.attended) +
         " attended hours: " + an_hour(r.labour_rate) + " each\n";
  out += "  machines  " + padded(money(r.machine_cost), 14, true) + "\n";
  for (const MachineClassCost& m : r.machines) {
    const Time each = m.hours / static_cast<double>(m.number);
    out += "    " + padded(m.name, 20) + std::to_string(m.number) + " x " +
           padded(money(m.per_year), 10, true) + ", " + hours(each) +
           " running hours each: " + an_hour(m.per_hour) + " an hour\n";
    if (in(each, unit::h) > one_shift)
      out += "      more running hours than one shift gives: is that so?\n";
  }
  out += "  overhead  " + padded(money(r.overhead), 14, true) + "  " +
         fixed(r.overhead_share * 100, 2) + " % on labour and machines\n";
  for (const BookedOverhead& o : shop.books.overheads)
    out += "    " + padded(o.name, 20) + padded(money(o.amount), 14, true) + "\n";
  out += "  all       " + padded(money(r.total), 14, true) + "\n";
  out += "  " + readable(r.machines_per_person, 3) +
         " machines run while one person attends: " + an_hour(r.all_in) +
         " all-in for an hour of a machine\n\n";
  given_rates(shop, out);
  recoveries(r, shop, out);
  return out;
}

std::string rates_json(const Shop& shop) {
  Json j = json_head("rates");
  j["currency"] = shop.policy.currency;
  j["given"] = Json::array();
  for (const Machine& m : shop.machines)
    j["given"].push_back(
        {{"machine", m.name}, {"contains", rate_in_words(m, shop.policy.currency)}});
  if (!shop.books.empty()) {
    const BookRates r = work_out_books(shop.books);
    auto rate = [](Rate x) { return fixed(in(x, unit::money_per_h), 4); };
    Json b{{"attended_s", r.attended.si},
           {"labour", money(r.labour)},
           {"labour_per_hour", rate(r.labour_rate)},
           {"machine_cost", money(r.machine_cost)},
           {"overhead", money(r.overhead)},
           {"overhead_share", r.overhead_share},
           {"total", money(r.total)},
           {"machines_per_person", r.machines_per_person},
           {"all_in_per_hour", rate(r.all_in)}};
    b["machines"] = Json::array();
    for (const MachineClassCost& m : r.machines)
      b["machines"].push_back({{"name", m.name},
                               {"number", m.number},
                               {"per_year", money(m.per_year)},
                               {"per_hour", rate(m.per_hour)},
                               {"hours_s", m.hours.si}});
    b["recovery"] = Json::array();
    for (const double share : shares) {
      const Recovery own = recovery(r, share);
      Json row{
          {"hours_share", share}, {"returned", money(own.returned)}, {"open", money(own.open)}};
      if (const auto given = recovery_of_quoted(r, shop, share))
        row["quoted"] = {{"returned", money(given->returned)}, {"open", money(given->open)}};
      b["recovery"].push_back(std::move(row));
    }
    j["books"] = std::move(b);
  }
  return json_text(j);
}

}  // namespace turnwright
