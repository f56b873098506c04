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

std::optional<double> read_in_range(const Node& node, const Unit& unit, double low, double high,
                                    ProblemList& notes) {
  const double least = coherent(low, unit), most = coherent(high, unit);
  const auto si = read_si(node, unit, notes);
  if (!si || (*si >= least && *si <= most)) return si;
  notes.add(node, found(node),
            {"expected.range", {{"low", Measure{least, unit}}, {"high", Measure{most, unit}}}});
  return std::nullopt;
}

double units_per_euro(const Currencies& currencies) {
  // Orders of magnitude, from memory; all others are worth about a euro.
  static constexpr std::array<std::pair<std::string_view, double>, 4> smaller{
      {{"SEK", 10}, {"PLN", 5}, {"CZK", 25}, {"JPY", 150}}};
  for (const auto& [code, units] : smaller)
    if (code == currencies.own) return units;
  return 1;
}

double share_up_to(MapReader& map, std::string_view key, double most, double otherwise) {
  return in_range(map, key, unit::ratio, 0, most).value_or(Number(otherwise)).si;
}

void add_unknown_row(ProblemList& notes, const Node& node, std::string_view section,
                     const std::vector<std::string>& rows) {
  const std::string near = nearest(node.text, rows);
  notes.add(node, {"shop.unknown-row", {{"section", section}, {"name", node.text}}},
            near.empty() ? one_of(rows) : Message(), near);
}

std::vector<double> ratios(MapReader& map, std::string_view key) {
  std::vector<double> list;
  for (const Number n : quantities(map, key, unit::ratio)) list.push_back(n.si);
  return list;
}

}  // namespace turnwright
