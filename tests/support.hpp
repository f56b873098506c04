// SPDX-License-Identifier: MIT
#pragma once
// What many tests need: the shipped shop, a part from text, a plan in one call, fixed random draws.
#include <catch2/catch.hpp>

#include <cstdint>
#include <string>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::test {

/// Draws that are the same on every machine (splitmix64).
class Draws {
 public:
  explicit Draws(std::uint64_t seed) : state_(seed) {}
  double real(double low, double high) {
    return low + (high - low) * (static_cast<double>(next() >> 11) * 0x1.0p-53);
  }
  int whole(int low, int high) {
    return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
  }

 private:
  std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
  }
  std::uint64_t state_;
};

/// "120 m/min": a quantity where a formula shows its numbers.
inline std::string metric_text(double si, const Unit& unit) {
  const std::string number = readable(shown(si, unit), 5);
  return unit.name.empty() ? number : number + " " + std::string(unit.name);
}

/// A message in English.
inline std::string english(const Message& message) { return Words()(message); }

inline std::string problems_text(const Problems& problems) {
  std::string text;
  for (const Problem& p : problems) text += problem_text(p, Words());
  return text;
}

inline const Shop& shipped_shop() {
  static const Shop shop = [] {
    const auto read = read_shop(shipped_rates(), shipped_rates().size());
    INFO(problems_text(read.problems()));
    REQUIRE(read);
    return *read;
  }();
  return shop;
}

/// The shipped rates with records of a shop over them.
inline Checked<Shop> shop_with(const std::string& own_file) {
  auto files = shipped_rates();
  const std::size_t own = files.size();
  files.push_back({"mine.yaml", own_file});
  return read_shop(files, own);
}

inline Part part_of(const std::string& text) {
  const auto part = read_part("part.yaml", text);
  INFO(problems_text(part.problems()));
  REQUIRE(part);
  return *part;
}
inline Job job_of(const std::string& text, const Shop& shop = shipped_shop()) {
  const auto job = prepare(part_of(text), shop);
  INFO(problems_text(job.problems()));
  REQUIRE(job);
  return *job;
}
inline Route route_of(const std::string& text, const std::string& machine = "",
                      MethodKind method = MethodKind::rough_then_finish,
                      const Shop& shop = shipped_shop()) {
  const auto route = plan_route(job_of(text, shop), shop, {machine, method});
  INFO(english(route.infeasible().why));
  REQUIRE(route);
  return *route;
}

/// The stepped shaft of the tests, invented: two fits, a relief, a groove, two operations.
inline std::string shaft(
    const std::string& material = "42CrMo4 +QT",
    const std::string& stock = "{round: 55, condition: hot rolled}",
    const std::string& seat = "30 k6 x42, Ra 0.8, relief F, seat A",
    const std::string& other = "35 h6 x110, Ra 0.8, relief F, runout 0.02 to A, chamfer 1x45 left",
    const std::string& more = "") {
  return "part: {number: T-1}\nmaterial: " + material + "\nstock: " + stock +
         "\nquantities: [10, 50, 250]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\n" + more +
         "outside:\n  - 24 x30, chamfer 1.5x45\n  - " + seat +
         "\n  - 40 x78\n  - 50 x40, chamfer 1x45 both\n  - " + other + "\n";
}

}  // namespace turnwright::test
