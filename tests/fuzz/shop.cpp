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

std::optional<Job> job_of(const std::uint8_t* data, std::size_t size) {
  const auto part = read_part("fuzz.yaml", text_of(data, size));
  if (!part) return std::nullopt;
  auto job = prepare(*part, shop());
  if (!job) return std::nullopt;
  return std::move(*job);
}

}  // namespace turnwright::fuzz
