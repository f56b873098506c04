// SPDX-License-Identifier: MIT
#pragma once
// The words that a record of a method chooses with, as files spell them.
#include <optional>
#include <string_view>

#include "turnwright/shop/machine.hpp"

namespace turnwright {

/// Between the records of a method's name.
inline constexpr std::string_view and_record = " + ";

/// "manual", "CNC"; nothing for the name of a machine.
std::optional<MachineKind> machine_kind_named(std::string_view word);
/// "bar" through the spindle, else a sawn blank.
bool is_bar(std::string_view stock);
/// "turned round" piece by piece, else operation by operation.
bool is_turned_round(std::string_view pieces);

}  // namespace turnwright
