// SPDX-License-Identifier: MIT
#pragma once
// Days in a sheet, which are numbers that a format shows as days (ISO/IEC 29500-1, 18.8.30 and
// 18.17.4.1).
#include <string>
#include <string_view>

namespace turnwright {

/// Whether a number format, by its id or by its own code, shows a day or a time.
bool shows_day(int id, std::string_view code);

/// "2026-12-24", with its time where it has one, "14:30" where it has no day; of the 1904 date
/// system too. A number that is no day stays one.
std::string day_of_sheet(double number, bool from_1904 = false);

}  // namespace turnwright
