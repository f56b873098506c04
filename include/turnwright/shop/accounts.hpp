// SPDX-License-Identifier: MIT
#pragma once
// A year of the shop as its books show it: people, machines, what capital, floor and energy cost,
// and the overheads.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

struct BookedPeople {
  std::string name;
  int number = 1;
  Rate wage{};
  Time paid_hours{};       // a year, each
  double at_machines = 1;  // share of them
  Source source;
};

struct BookedMachine {
  std::string name;
  int number = 1;
  Amount price{}, residual{};
  double years = 1;
  Time running_hours{};  // a year, each
  Area floor{};
  Power power{};                    // mean, while it runs
  Amount service{};                 // a year
  std::vector<std::string> lathes;  // the shop's machines of this class
  Source source;
};

struct BookedOverhead {
  std::string name;
  Amount amount{};  // a year
  Source source;
};

struct Accounts {
  Accounts();  // written once, in accounts.cpp, not in every file that copies one
  Accounts(const Accounts&);
  Accounts(Accounts&&) noexcept;
  Accounts& operator=(const Accounts&);
  Accounts& operator=(Accounts&&) noexcept;
  ~Accounts();

  std::vector<BookedPeople> people;
  std::vector<BookedMachine> machines;
  std::vector<BookedOverhead> overheads;
  double on_cost = 0;                          // on wages
  double interest = 0;                         // a year, on the mean of price and residual value
  Amount floor_cost{};                         // a square metre and year
  Amount energy{};                             // a kilowatt hour
  Amount material_bought{}, outside_bought{};  // a year; overheads of their own stand on them

  bool empty() const { return people.empty() && machines.empty() && overheads.empty(); }
};

}  // namespace turnwright
