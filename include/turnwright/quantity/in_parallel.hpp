// SPDX-License-Identifier: MIT
#pragma once
// Work on many things at once.
#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

namespace turnwright {

/// The processors of this machine, at least one.
inline int processors() {
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

/// Calls work(0) to work(count - 1), at most `threads` at once, fewer where no more are to be had.
/// After one has thrown no other is begun; of what they throw the lowest number's is thrown here,
/// when all have ended.
template <class Work>
void in_parallel(std::size_t count, int threads, Work work) {
  std::vector<std::exception_ptr> faults(count);
  std::atomic<std::size_t> at{0};
  auto next_ones = [&] {
    for (std::size_t i = at++; i < count; i = at++) try {
        work(i);
      } catch (...) {
        faults[i] = std::current_exception();
        at = count;
      }
  };
  {
    std::vector<std::jthread> others;
    try {
      for (int i = 1; i < std::min<int>(threads, static_cast<int>(count)); ++i)
        others.emplace_back(next_ones);
    } catch (const std::system_error&) {
      // Those that run do the work.
    }
    next_ones();
  }
  for (const std::exception_ptr& fault : faults)
    if (fault) std::rethrow_exception(fault);
}

}  // namespace turnwright
