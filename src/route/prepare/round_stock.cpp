// SPDX-License-Identifier: MIT
// Round bar and tube: the diameter, from the sizes that are sold.
#include <algorithm>
#include <cmath>

#include "prepare/stock.hpp"
#include "turnwright/shop/condition_word.hpp"

namespace turnwright {
namespace {

const std::vector<Length>& sizes_sold(const StockChoice& choice) {
  const StockCondition& c = choice.condition;
  return choice.job().part.inch && !c.inch_sizes.empty() ? c.inch_sizes : c.sizes;
}

// The diameter that cleans up, or the one that surfaces are left at.
Length needed_diameter(const StockChoice& choice, const LargestDiameters& largest) {
  return largest.turned.si > largest.drawn.si + same_point || largest.drawn.si == 0
             ? largest.turned + choice.condition.clean_up_at(largest.turned)
             : largest.drawn;
}

std::optional<Length> next_size(const StockChoice& choice, Length needed) {
  const auto& sizes = sizes_sold(choice);
  const auto next = std::find_if(sizes.begin(), sizes.end(),
                                 [&](Length d) { return d.si >= needed.si - same_point; });
  if (next == sizes.end()) return std::nullopt;
  return *next;
}

Message size_text(std::optional<Length> size) {
  return size ? Message{"prepare.size", {{"size", *size}}} : Message{"prepare.no-size-listed"};
}

// The sizes sold next to one that is not.
Messages neighbours(const std::vector<Length>& sizes, Length d) {
  const auto above =
      std::find_if(sizes.begin(), sizes.end(), [&](Length x) { return x.si > d.si - same_point; });
  Messages near;
  if (above != sizes.begin() && !sizes.empty()) near.push_back(size_text(*std::prev(above)));
  if (above != sizes.end()) near.push_back(size_text(*above));
  return near;
}

void name_neighbours(const StockChoice& choice, Length d) {
  const auto& sizes = sizes_sold(choice);
  if (const auto at = next_size(choice, d); at && std::abs(at->si - d.si) < same_point) return;
  choice.preparation.caution({"prepare.size-not-listed",
                              {{"size", d},
                               {"condition", condition_word(choice.condition.name)},
                               {"near", neighbours(sizes, d)}}});
}

// The size that the part file asks for; false: the part does not fit into it.
bool take_asked(const StockChoice& choice, const LargestDiameters& largest, Length needed) {
  const Length d = choice.stock().diameter = choice.asked.size;
  const Length part = max(largest.turned, largest.drawn);
  const Message next = size_text(next_size(choice, needed));
  if (d.si < part.si - same_point) {
    choice.refuse({"prepare.stock-too-small", {{"stock", d}, {"part", part}}},
                  {"prepare.expect-at-least", {{"size", needed}, {"next", next}}});
    return false;
  }
  choice.stock().cleans_up =
      d.si >= needed.si - same_point || largest.turned.si <= largest.drawn.si;
  if (!choice.stock().cleans_up)
    choice.preparation.caution({"prepare.little-clean-up",
                                {{"stock", d},
                                 {"condition", condition_word(choice.condition.name)},
                                 {"clean_up", choice.condition.clean_up_at(largest.turned)},
                                 {"next", next}}});
  name_neighbours(choice, d);
  return true;
}

bool take_next(const StockChoice& choice, Length needed) {
  const auto next = next_size(choice, needed);
  if (!next)
    choice.refuse({"prepare.no-bar-so-large",
                   {{"condition", condition_word(choice.condition.name)}, {"size", needed}}},
                  "prepare.expect-round-stock");
  else
    choice.stock().diameter = *next;
  return next.has_value();
}

void check_as_drawn(const StockChoice& choice, Length drawn) {
  const Stock& s = choice.stock();
  if (drawn.si > 0 && std::abs(drawn.si - s.diameter.si) > same_point)
    choice.refuse({"prepare.as-drawn-off-size", {{"size", drawn}, {"stock", s.diameter}}},
                  "prepare.expect-drawn-size");
  if (drawn.si > 0 && s.skin)
    choice.preparation.caution(
        {"prepare.as-drawn-with-skin", {{"condition", condition_word(s.condition)}}});
}

}  // namespace

void choose_diameter(const StockChoice& choice, const LargestDiameters& largest) {
  const StockForm asked = choice.asked.form;
  const Length needed = needed_diameter(choice, largest);
  const bool taken = asked == StockForm::round || asked == StockForm::tube
                         ? take_asked(choice, largest, needed)
                         : take_next(choice, needed);
  if (!taken) return;
  check_as_drawn(choice, largest.drawn);
  Stock& s = choice.stock();
  s.upper = s.diameter + choice.condition.over(s.diameter);
  s.section = pi / 4 * square(s.upper);
}

}  // namespace turnwright
