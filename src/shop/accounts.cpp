// SPDX-License-Identifier: MIT
#include "turnwright/shop/accounts.hpp"

namespace turnwright {

Accounts::Accounts() = default;
Accounts::Accounts(const Accounts&) = default;
Accounts::Accounts(Accounts&&) noexcept = default;
Accounts& Accounts::operator=(const Accounts&) = default;
Accounts& Accounts::operator=(Accounts&&) noexcept = default;
Accounts::~Accounts() = default;

}  // namespace turnwright
