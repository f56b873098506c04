// SPDX-License-Identifier: MIT
#pragma once
// What words of the part file mean to the planner.
#include <optional>
#include <string>
#include <string_view>

#include "turnwright/part/part.hpp"

namespace turnwright {

/// The name of a material that is described by a listed one: "like C45".
std::string name_like(const std::string& listed);
/// H, or a size in plus only: what a reamer of the nominal size makes.
bool hole_basis(const Size& size);
/// The class of the general tolerances, ISO 2768-m where the drawing names none.
std::string_view general_class(const GeneralTolerances& general);
/// The row of the stock conditions that the part asks for, or that suits its form; `drawn`: a
/// surface stays as the bar is bought.
std::string condition_asked(const PartStock& stock, bool drawn);
/// The text of an element with an undercut asked for at its end.
std::string with_undercut(const std::string& element);

/// js and JS, which are of shafts and of holes alike.
bool lies_evenly(const Size& size);
/// A keyway as other work has it, "keyway 10 P9 x36 on 35 h6": the diameter that it goes into, and
/// its length, 0 where it is not said. None of other work, or where no diameter is said.
struct KeywayText {
  Length diameter{}, length{};
};
std::optional<KeywayText> keyway_of(const std::string& work, bool inch);

}  // namespace turnwright
