// SPDX-License-Identifier: MIT
#include "record.hpp"

#include <array>

namespace turnwright {
namespace {

// `given` is never written: it is what the estimator says of one part.
constexpr std::array written_bases{Basis::found, Basis::own_records, Basis::common_practice,
                                   Basis::from_memory, Basis::typical};

}  // namespace

std::string_view file_word(Basis basis) {
  switch (basis) {
    case Basis::own_records:
      return "own records";
    case Basis::common_practice:
      return "common practice";
    case Basis::from_memory:
      return "from memory";
    default:
      return name_of(basis);
  }
}

Source source_of(MapReader& map) {
  Source source;
  if (map.need("source") != nullptr) source.text = map.text_or("source", "");
  std::vector<std::string> words;
  for (const Basis basis : written_bases) words.emplace_back(file_word(basis));
  map.need("basis");
  const auto word = map.one_of("basis", words);
  for (const Basis basis : written_bases)
    if (word == file_word(basis)) source.basis = basis;
  if (const auto band = map.quantity("band", unit::ratio)) {
    source.band = band->si;
    if (band->si < 0 || band->si >= 1)
      map.notes().add(map.node().at, 1, {"shop.band", {{"band", Figure{band->si}}}},
                      "expected.share-below-1");
  }
  return source;
}

std::vector<double> ratios(MapReader& map, std::string_view key) {
  std::vector<double> list;
  for (const Number n : quantities(map, key, unit::ratio)) list.push_back(n.si);
  return list;
}

}  // namespace turnwright
