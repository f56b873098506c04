// SPDX-License-Identifier: MIT
#include <array>

#include "turnwright/output/drawing.hpp"

namespace turnwright::paper {

const char* name_of(Colour colour) {
  static constexpr std::array names{"none",  "green", "blue", "yellow", "red", "black",
                                    "white", "shade", "body", "cut",    "ink"};
  return names[static_cast<std::size_t>(colour)];
}

Colour colour_named(std::string_view name) {
  for (const Colour colour :
       {Colour::green, Colour::blue, Colour::yellow, Colour::red, Colour::black, Colour::white})
    if (name_of(colour) == name) return colour;
  return Colour::none;
}

}  // namespace turnwright::paper
