// SPDX-License-Identifier: MIT
#include "record.hpp"

namespace turnwright {

Source source_of(MapReader& map) {
  Source source;
  if (map.need("source") != nullptr) source.text = map.text_or("source", "");
  static const std::vector<std::string> words{"found", "own records", "common practice",
                                              "from memory", "typical"};
  map.need("basis");
  const auto word = map.one_of("basis", words);
  if (word == "found") source.basis = Basis::found;
  if (word == "own records") source.basis = Basis::own_records;
  if (word == "common practice") source.basis = Basis::common_practice;
  if (word == "from memory") source.basis = Basis::from_memory;
  if (const auto band = map.quantity("band", unit::ratio)) {
    source.band = band->si;
    if (band->si < 0 || band->si >= 1)
      map.notes().add(map.node().at, 1, "a band of " + readable(band->si),
                      "a share from 0 to below 1");
  }
  return source;
}

std::vector<double> ratios(MapReader& map, std::string_view key) {
  std::vector<double> list;
  for (const Number n : quantities(map, key, unit::ratio)) list.push_back(n.si);
  return list;
}

}  // namespace turnwright
