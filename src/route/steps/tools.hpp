// SPDX-License-Identifier: MIT
#pragma once
// Which tool of the shop does a job.
#include "turnwright/shop/shop.hpp"

namespace turnwright {

/// Whether a tool goes on this lathe.
bool goes_on(const Tool& tool, const Machine& machine);
/// The first tool of a kind: one that is mounted in the machine before the shop's list; or nullptr.
const Tool* tool_of(const Shop& shop, const Machine& machine, ToolKind kind);
/// The narrowest parting tool that reaches so deep, or nullptr.
const Tool* parting_tool(const Shop& shop, Length reach);

}  // namespace turnwright
