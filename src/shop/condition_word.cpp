// SPDX-License-Identifier: MIT
#include "turnwright/shop/condition_word.hpp"

#include <array>

namespace turnwright {

Message condition_word(const std::string& name) {
  // As rates/stock.yaml calls them.
  static constexpr std::array shipped{
      std::pair{"hot rolled", "condition.hot-rolled"}, std::pair{"peeled", "condition.peeled"},
      std::pair{"drawn", "condition.drawn"},           std::pair{"ground", "condition.ground"},
      std::pair{"casting", "condition.casting"},       std::pair{"forging", "condition.forging"}};
  for (const auto& [known, word] : shipped)
    if (name == known) return word;
  return verbatim(name);
}

}  // namespace turnwright
