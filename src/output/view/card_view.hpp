// SPDX-License-Identifier: MIT
#pragma once
// The card as tables: what text, page and table show alike.
#include <span>
#include <vector>

#include "turnwright/compare/speed_card.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// The rows of one material, or the drills of all.
struct CardGroup {
  const Material* material = nullptr;
  std::vector<const CardRow*> rows;
};
/// By material, without drilling.
std::vector<CardGroup> turning_groups(const SpeedCard& card);
std::vector<const CardRow*> drilling_rows(const SpeedCard& card);

/// "560", "710 *" where it is off the band, "-" where it is not done here.
std::string cell_text(const CardCell& cell, const Words& words);
/// "0.2–0.4" or one number.
std::string feed_text(const CardRow& row, const Words& words);
/// Any cell is off the band; any machine range is named.
bool any_off_band(const SpeedCard& card);
/// The sources of the rows, each once.
struct CardSource {
  std::string text;
  Basis basis = Basis::typical;
};
std::vector<CardSource> sources_of(const SpeedCard& card);
/// Which of them a row has, from 1.
std::size_t source_number(const std::vector<CardSource>& sources, const CardRow& row);
Message source_line(const std::vector<CardSource>& sources, std::size_t number);
/// What the marks mean and for which pitch threading is shown.
Messages card_notes(const SpeedCard& card);
/// Shop and day; empty where the card bears neither.
Message card_shop(const SpeedCard& card);
Message work_word(CardWork work);

}  // namespace turnwright
