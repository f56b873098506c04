// SPDX-License-Identifier: MIT
#include <iostream>

#include "turnwright/cli/run.hpp"

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  return turnwright::cli::run({words + std::min(count, 1), words + count},
                              {std::cin, std::cout, std::cerr});
}
