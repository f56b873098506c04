// SPDX-License-Identifier: MIT
#include "turnwright/shop/machine.hpp"

namespace turnwright {

Machine::Machine() = default;
Machine::Machine(const Machine&) = default;
Machine::Machine(Machine&&) noexcept = default;
Machine& Machine::operator=(const Machine&) = default;
Machine& Machine::operator=(Machine&&) noexcept = default;
Machine::~Machine() = default;

}  // namespace turnwright
