// SPDX-License-Identifier: MIT
#pragma once
#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace turnwright {

/// Calls work(0) to work(count - 1), at most so many at once. What one of them throws is thrown
/// here, when all have ended: of several the one with the lowest number.
template <class Work>
void in_parallel(std::size_t count, int threads, Work work) {
  std::vector<std::exception_ptr> faults(count);
  std::atomic<std::size_t> at{0};
  auto next_ones = [&] {
    for (std::size_t i = at++; i < count; i = at++) try {
        work(i);
      } catch (...) {
        faults[i] = std::current_exception();
      }
  };
  {
    std::vector<std::jthread> others;
    for (int i = 1; i < std::min<int>(threads, static_cast<int>(count)); ++i)
      others.emplace_back(next_ones);
    next_ones();
  }
  for (const std::exception_ptr& fault : faults)
    if (fault) std::rethrow_exception(fault);
}

}  // namespace turnwright
