// SPDX-License-Identifier: MIT
#include "turnwright/part/request.hpp"

namespace turnwright {

Request::Request() = default;
Request::Request(const Request&) = default;
Request::Request(Request&&) noexcept = default;
Request& Request::operator=(const Request&) = default;
Request& Request::operator=(Request&&) noexcept = default;
Request::~Request() = default;

}  // namespace turnwright
