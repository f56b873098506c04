// SPDX-License-Identifier: MIT
#pragma once
// The program as a function: words in, streams out, an exit status back.
#include <iosfwd>
#include <string>
#include <vector>

namespace turnwright::cli {

enum class Exit { done = 0, answer_is_no = 1, input_wrong = 2, disk_failed = 3 };

struct Streams {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
};

/// `words`: the command line without the program's name.
int run(const std::vector<std::string>& words, const Streams& streams);

}  // namespace turnwright::cli
