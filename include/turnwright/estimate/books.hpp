// SPDX-License-Identifier: MIT
#pragma once
// Rates that give the books back: what an hour of people and machines has to bring, and what rates
// return when the hours come out otherwise than planned. Absorption costing (P. F. Ostwald and T.
// S. McLaren, Cost Analysis and Estimating for Engineering and Management, 2004; any text).
#include <optional>
#include <string>
#include <vector>

#include "turnwright/shop/shop.hpp"

namespace turnwright {

struct MachineClassCost {
  std::string name;
  int number = 1;
  Amount per_year{};  // each
  Rate per_hour{};    // running
  Time hours{};       // of all of them, a year
  double people = 1;  // whose hours one of its hours takes: by the operator share of its lathes
  std::vector<std::string> lathes;
};

struct BookRates {
  Time attended{};     // hours of people at machines, a year
  Amount labour{};     // with on-cost
  Rate labour_rate{};  // an attended hour
  std::vector<MachineClassCost> machines;
  Amount machine_cost{}, overhead{}, total{};
  double overhead_share = 0;       // on labour and machines
  double machines_per_person = 0;  // that run while one person attends
  Rate all_in{};                   // a machine hour at that
};

/// The rates at which the planned hours return all costs of the books. The hours of people go to
/// the classes as their hours run, by the operator share of the lathes that they name: one where
/// they name none.
BookRates work_out_books(const Accounts& books, const std::vector<Machine>& lathes);
/// What an hour of a class has to bring, all-in: machine, its people, and the overhead on both.
Rate needed_rate(const BookRates& rates, const MachineClassCost& of);

/// What rates return at a share of the planned hours, and what of the books is under-recovered.
struct Recovery {
  double share = 1;
  Amount returned{}, under_recovered{};
};
/// The rates worked out from the books: every hour at its rate, overhead on top.
Recovery recovery(const BookRates& rates, double share);
/// What an hour of a lathe is quoted at: all-in, or machine and the people whose hour it takes,
/// with the overhead on both.
Rate quoted_rate(const HourlyRate& rate, double people);
/// The class that names a lathe; null: none.
const MachineClassCost* class_of(const BookRates& rates, const std::string& lathe);
/// What a year's purchases bring through the overheads on them; nothing where the books name none.
Amount overheads_on_purchases(const Shop& shop);
/// The rates that the shop quotes with, and the overheads on what it buys; none when a class of the
/// books has no lathe.
std::optional<Recovery> recovery_of_quoted(const BookRates& rates, const Shop& shop, double share);

}  // namespace turnwright
