// SPDX-License-Identifier: MIT
// Prices the part file that comes in, with the rates that ship with the library.
#include <iostream>
#include <iterator>
#include <turnwright/compare/compare.hpp>
#include <turnwright/output/words.hpp>

using namespace turnwright;

int refuse(const Problems& problems) {
  for (const Problem& problem : problems) std::cerr << problem_text(problem, Words());
  return 2;
}

int main() {
  const auto shop = read_shop(shipped_rates(), shipped_rates().size());
  if (!shop) return refuse(shop.problems());
  const auto part = read_part("part", std::string(std::istreambuf_iterator<char>(std::cin), {}));
  if (!part) return refuse(part.problems());
  const auto job = prepare(*part, *shop);
  if (!job) return refuse(job.problems());
  const auto priced = price_part(*job, *shop, {});
  if (!priced) return std::cerr << Words()(priced.infeasible().why) << '\n', 1;
  for (const Price& price : priced->quote.prices)
    std::cout << price.quantity << " " << price.each.text() << '\n';
}
