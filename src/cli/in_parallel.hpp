// SPDX-License-Identifier: MIT
#pragma once
// Work on many things at once; what a worker throws is thrown to the caller.
#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace turnwright::cli {

/// `each` for 0 … count - 1, on so many threads at once.
inline void in_parallel(std::size_t count, int threads,
                        const std::function<void(std::size_t)>& each) {
  std::atomic<std::size_t> at{0};
  std::exception_ptr thrown;
  std::mutex mutex;
  auto work = [&] {
    try {
      for (std::size_t i = at++; i < count; i = at++) each(i);
    } catch (...) {
      const std::lock_guard lock(mutex);
      thrown = std::current_exception();
      at = count;
    }
  };
  {
    std::vector<std::jthread> workers;
    for (std::size_t i = 1; i < std::min(static_cast<std::size_t>(threads), count); ++i)
      workers.emplace_back(work);
    work();
  }
  if (thrown) std::rethrow_exception(thrown);
}

}  // namespace turnwright::cli
