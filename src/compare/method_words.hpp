// SPDX-License-Identifier: MIT
#pragma once
// The words that a record of a method chooses with, as files spell them.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/shop/machine.hpp"
#include "turnwright/shop/method.hpp"

namespace turnwright {

/// Between the records of a method's name.
inline constexpr std::string_view and_record = " + ";
/// "parted from the bar + two finish cuts".
std::string joined_names(const std::vector<Method>& methods);

/// "manual", "CNC"; nothing for the name of a machine.
std::optional<MachineKind> machine_kind_named(std::string_view word);
/// "bar" through the spindle, else a sawn blank.
bool is_bar(std::string_view stock);
/// "turned round" piece by piece, else operation by operation.
bool is_turned_round(std::string_view pieces);

}  // namespace turnwright
