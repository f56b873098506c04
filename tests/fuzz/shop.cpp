// SPDX-License-Identifier: MIT
#include "fuzz.hpp"

namespace turnwright::fuzz {

const Shop& shop() {
  static const Shop read = [] {
    std::vector<NamedText> files = shipped_rates();
    const std::size_t own_from = files.size();
    files.push_back({"shop.yaml", file("samples/shop/shop.yaml")});
    return *read_shop(files, own_from);
  }();
  return read;
}

}  // namespace turnwright::fuzz
