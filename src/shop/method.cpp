// SPDX-License-Identifier: MIT
#include "turnwright/shop/method.hpp"

namespace turnwright {

Method::Method() = default;
Method::Method(const Method&) = default;
Method::Method(Method&&) noexcept = default;
Method& Method::operator=(const Method&) = default;
Method& Method::operator=(Method&&) noexcept = default;
Method::~Method() = default;

}  // namespace turnwright
