// SPDX-License-Identifier: MIT
#include <malloc.h>

#include <iostream>

#include "turnwright/cli/run.hpp"

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  // What is freed is soon taken again: giving it back to the system in between costs more.
  constexpr int kept = 64 << 20, ahead = 1 << 20, large = 4 << 20;
  mallopt(M_TRIM_THRESHOLD, kept);
  mallopt(M_TOP_PAD, ahead);
  mallopt(M_MMAP_THRESHOLD, large);
  return turnwright::cli::run({words + std::min(count, 1), words + count},
                              {std::cin, std::cout, std::cerr});
}
