// SPDX-License-Identifier: MIT
#pragma once
// The values of a figure, as words of the command line: 60mm, 1/2in, 12,16,20mm, none, unlimited.
#include <string>
#include <variant>

#include "turnwright/figure/catalogue.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/quantity/message.hpp"

namespace turnwright::cli {

/// Whether a value must lie in the field's range: an input must, a result need not.
enum class Range { checked, any };
/// The value of a field with its unit, or what is wrong with the text.
std::variant<FigureValue, Message> read_figure_value(const figure::Field& field,
                                                     const std::string& text, Range range);

}  // namespace turnwright::cli
