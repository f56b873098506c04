// SPDX-License-Identifier: MIT
#pragma once
// Booked times beside the estimate: what they say of each machine, drawn towards "as estimated"
// while they are few (empirical Bayes; B. Efron and C. Morris, Journal of the American Statistical
// Association 68, 1973). A proposal: nothing here changes a rate.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "turnwright/document/table.hpp"
#include "turnwright/week/route_orders.hpp"

namespace turnwright {

enum class BookedKind { setup, run, stop };

struct Booking {
  std::string order, machine, person;
  int operation = 0;
  BookedKind kind = BookedKind::run;
  Minute from = 0, to = 0;  // from 1970
  int good = 0, scrap = 0;
  int line = 0;
  Minute paused = 0;  // of it, by the pauses of its machine's shifts, where they are known
};

struct Bookings {
  std::vector<Booking> rows;
  Problems problems;         // of rows that are not used
  std::optional<Date> last;  // day of the latest booking
};
/// The rows that make sense; each other one is a problem with its line.
Bookings read_bookings(RowReader& table);

/// What is finished and done of the week's orders, by what is booked: an operation whose good
/// pieces are all there, or after which another is booked, is finished; the first other one runs
/// where it was booked last, unless something else was booked there after it. Problems, by `file`:
/// bookings of orders or machines that the week has not.
Problems take_status(Week& week, const Bookings& bookings, const std::string& file);

/// What an order was estimated at, for one operation.
struct Estimated {
  std::string order, called, machine;  // as it is booked, and of the shop
  int operation = 0;
  double setup = 0, run_each = 0;  // minutes
  double proving = 0;              // of the setup: pieces run to prove it, which is running time
};
std::vector<Estimated> estimates_of(const Week& week, const std::vector<OrderRoutes>& routes);

struct BookedRatio {
  std::string order;
  int operation = 0;
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
  // Of setup, how far it goes with running: the correlation of their logarithms, order by order.
  double with_running = 0;
};
inline constexpr double prior_orders = 4;  // orders that stand for the estimate
/// exp(mean x n/(n + prior_orders)).
double shrunk(double mean_log, std::size_t n);
/// What a further order may lie about the proposed factor, one standard deviation of logarithms as
/// a factor: the orders' spread, and what few of them leave open of their middle. 1: fewer than
/// `least_orders` say nothing.
double further_spread(const Factor& factor);
inline constexpr std::size_t least_orders = 6;  // below, a spread is a guess: from memory
std::vector<Factor> factors_of(const Bookings& bookings, const std::vector<Estimated>& estimates);

/// An order's price each before and after the corrections.
struct Repriced {
  std::string order;
  Money before, after;
};
/// The ten orders that the factors would move most, the most first.
std::vector<Repriced> repriced(const Week& week, const Shop& shop,
                               const std::vector<OrderRoutes>& routes,
                               const std::vector<Factor>& factors);

/// Bookings against a week's orders, estimated without earlier corrections, so that none is counted
/// twice.
struct Actuals {
  std::vector<Factor> factors;  // none: no booking is of an order of this week
  std::vector<Repriced> prices;
  Problems problems;  // of orders that could not be estimated
};
Actuals actuals_of(const Week& week, const Bookings& bookings, Shop shop, const PartReader& part);

/// The factors as a file of the shop folder, for the owner to put there. `say` writes the sentences
/// that the file holds.
std::string corrections_file(const std::vector<Factor>& factors, const std::optional<Date>& last,
                             const std::function<std::string(const Message&)>& say);

}  // namespace turnwright
