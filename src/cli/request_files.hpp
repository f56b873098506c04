// SPDX-License-Identifier: MIT
#pragma once
// The part files that a request or a week names, read from beside it.
#include <optional>
#include <ostream>

#include "turnwright/part/request.hpp"
#include "turnwright/route/job.hpp"

namespace turnwright::cli {

struct OrderedPart {
  std::string path, text;
  Checked<Part> part;
};
/// The part file of this name beside `file`; a problem at `at` of that file, which is a
/// "request" or a "week", when there is none.
OrderedPart part_beside(const std::string& file, const std::string& name, Position at,
                        const char* from);
/// Every part of the request, or why it cannot be read, in its order.
std::vector<OrderedPart> ordered_parts(const Request& request);
/// The part with the shop; its problems are said, with the lines of its text.
std::optional<Job> job_of(const Checked<Part>& part, const std::string& text, const Shop& shop,
                          std::ostream& err);

}  // namespace turnwright::cli
