// SPDX-License-Identifier: MIT
#pragma once
// Booked times beside the estimate: what they say of each machine, drawn towards "as estimated"
// while they are few (empirical Bayes; B. Efron and C. Morris, Journal of the American Statistical
// Association 68, 1973). A proposal: nothing here changes a rate.
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"
#include "turnwright/quantity/quantity.hpp"
#include "turnwright/week/calendar.hpp"

namespace turnwright {

enum class BookedKind { setup, run, stop };

struct Booking {
  std::string order, machine, person;
  int operation = 0;
  BookedKind kind = BookedKind::run;
  Minute from = 0, to = 0;  // from 1970
  int good = 0, scrap = 0;
  int line = 0;
};

struct Bookings {
  std::vector<Booking> rows;
  Problems problems;  // of rows that are not used
  std::string last;   // day of the latest booking
};
/// The rows that make sense; each other one is a problem with its line.
Bookings read_bookings(TableReader& reader);

/// What an order was estimated at, for one operation.
struct Estimated {
  std::string order, called, machine;  // as it is booked, and of the shop
  int operation = 0;
  double ready = 0, run_each = 0;  // minutes
};

struct BookedRatio {
  std::string order;
  double booked = 0, estimated = 0;  // minutes
  bool outlier = false;              // not in the factor
  double ratio() const { return booked / estimated; }
};
struct Factor {
  std::string machine;
  bool setup = false;
  std::vector<BookedRatio> orders;
  double raw = 1;       // geometric mean of the ratios
  double spread = 1;    // as a factor: one standard deviation of the logarithms
  double proposed = 1;  // exp(n/(n + 4) x mean logarithm)
};
inline constexpr double prior_orders = 4;  // orders that stand for the estimate
/// exp(mean x n/(n + pull)).
double shrunk(double mean_log, std::size_t n);
std::vector<Factor> factors_of(const Bookings& bookings, const std::vector<Estimated>& estimates);

/// The factors as a file of the shop folder, for the owner to put there.
std::string corrections_file(const std::vector<Factor>& factors, const std::string& last_day);

}  // namespace turnwright
