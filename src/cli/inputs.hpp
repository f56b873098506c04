// SPDX-License-Identifier: MIT
#pragma once
// The part files that a command works on: by name, from standard input, or those that a request or
// a week names, read from beside it.
#include <algorithm>
#include <istream>
#include <memory>
#include <streambuf>
#include <string>
#include <vector>

#include "paths.hpp"
#include "session.hpp"
#include "turnwright/part/file_kind.hpp"
#include "turnwright/part/request.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright::cli {

/// A part to work on, read; of a request with the request.
struct PartInput {
  std::string path, text;
  Checked<Part> part;
  std::shared_ptr<const Request> request;
};

/// Bytes that were read ahead, and then what the stream still has.
class ReadAhead : public std::streambuf {
 public:
  /// Reads the first line ahead, as far as a row may be long.
  explicit ReadAhead(std::istream& in);
  const std::string& first_line() const { return line_; }

 protected:
  int_type underflow() override;

 private:
  std::istream& in_;
  std::string line_;
  char next_ = 0;
};
/// A file, or standard input for "-".
std::string text_of(const Session& session, const std::string& path);
/// Names a file of another kind as what it is, with the command that takes it; empty: it is of one
/// of the kinds, or of none that is known.
Message other_kind(const Session& session, const std::string& path, std::string_view text,
                   std::initializer_list<FileKind> wanted);

/// All parts of the operands, those of requests one by one.
std::vector<PartInput> part_inputs(const Session& session, const std::vector<std::string>& paths);
/// Where a file of this name lies beside `file`.
std::string part_path(const std::string& file, const std::string& name);
/// The part file of this name beside `file`; a problem at `at` of that file when there is none.
PartInput part_beside(const Session& session, const std::string& file, const std::string& name,
                      Position at);
/// Every part of the request, or why it cannot be read, in its order.
std::vector<PartInput> parts_of(const Session& session, std::shared_ptr<const Request> request);

/// Says which lines a request promises later than it is wanted.
void note_after_wanted(const Session& session, const Request& request);

/// The part with the shop; its problems are said, with the lines of its text.
std::optional<Job> job_of(const Session& session, const PartInput& input);

/// Each of several inputs through `each`; the worst exit status: 2 only when every one was wrong.
template <class Inputs, class Each>
Exit for_each_input(const Inputs& inputs, Each each) {
  Exit worst = Exit::done;
  std::size_t refused = 0;
  for (const auto& input : inputs) {
    const Exit exit = each(input);
    if (exit == Exit::input_wrong) ++refused;
    worst = std::max(worst, exit == Exit::input_wrong ? Exit::answer_is_no : exit);
  }
  return refused == inputs.size() ? Exit::input_wrong : worst;
}

}  // namespace turnwright::cli
