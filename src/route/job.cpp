// SPDX-License-Identifier: MIT
#include "turnwright/route/job.hpp"

namespace turnwright {

Job::Job() = default;
Job::Job(const Job&) = default;
Job::Job(Job&&) noexcept = default;
Job& Job::operator=(const Job&) = default;
Job& Job::operator=(Job&&) noexcept = default;
Job::~Job() = default;

}  // namespace turnwright
