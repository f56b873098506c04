// SPDX-License-Identifier: MIT
#include "turnwright/shop/material.hpp"

namespace turnwright {

CuttingGroup::CuttingGroup() = default;
CuttingGroup::CuttingGroup(const CuttingGroup&) = default;
CuttingGroup::CuttingGroup(CuttingGroup&&) noexcept = default;
CuttingGroup& CuttingGroup::operator=(const CuttingGroup&) = default;
CuttingGroup& CuttingGroup::operator=(CuttingGroup&&) noexcept = default;
CuttingGroup::~CuttingGroup() = default;

}  // namespace turnwright
