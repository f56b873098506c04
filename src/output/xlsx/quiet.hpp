// SPDX-License-Identifier: MIT
#pragma once

namespace turnwright {

/// While one stands, what C libraries write to `stderr` goes nowhere: the spreadsheet library
/// prints its faults there by itself. std::cerr is a stream of its own and still writes.
class Quiet {
 public:
  Quiet();
  Quiet(const Quiet&) = delete;
  Quiet& operator=(const Quiet&) = delete;
  ~Quiet();
};

}  // namespace turnwright
