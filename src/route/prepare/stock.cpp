// SPDX-License-Identifier: MIT
#include "prepare/stock.hpp"

#include <algorithm>
#include <cmath>

#include "prepare/corners.hpp"
#include "prepare/part_words.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/shop/condition_word.hpp"

namespace turnwright {
namespace {

// Stock that nobody wrote has no place: the head of the file.
Position place_of(const PartStock& asked) { return asked.at.line > 0 ? asked.at : Position{1, 1}; }

const StockCondition* find_condition(Preparation& p) {
  const PartStock& asked = p.job.part.stock;
  const auto outside = p.job.outside();
  const bool drawn =
      std::any_of(outside.begin(), outside.end(), [](const Surface& s) { return s.as_drawn; });
  const std::string name = condition_asked(asked, drawn);
  if (const StockCondition* c = p.shop.condition(name)) return c;
  std::vector<std::string> names;
  for (const StockCondition& c : p.shop.conditions) names.push_back(c.name);
  p.refuse(place_of(asked), {"prepare.unknown-condition", {{"condition", name}}}, one_of(names),
           nearest(name, names));
  return nullptr;
}

LargestDiameters largest_diameters(const Job& job) {
  LargestDiameters largest{Length(0.0), Length(0.0)};
  for (const Surface& s : job.outside()) {
    Length& d = s.as_drawn ? largest.drawn : largest.turned;
    d = max(d, s.diameter());
  }
  return largest;
}

// A polygon on the drawing is the bar's own: flats are not turned.
void refuse_polygons_on_round_bar(const StockChoice& choice) {
  const Stock& s = choice.stock();
  for (const Element& e : choice.job().part.outside) {
    if (e.kind != ElementKind::polygon) continue;
    const StockForm needed = e.hexagon ? StockForm::hexagon : StockForm::square;
    if (s.form == needed && std::abs(s.flats.si - e.size.nominal.si) < same_point) continue;
    const Place size("size", e.size.nominal);
    choice.preparation.refuse(e.at.line > 0 ? e.at : Position{1, 1},
                              {"prepare.flats-not-turned", {{"element", e.text}}},
                              e.hexagon ? Message("prepare.expect-hexagon-stock", {size})
                                        : Message("prepare.expect-square-stock", {size}));
  }
}

void size_flats(const StockChoice& choice) {
  Stock& s = choice.stock();
  const bool hexagon = s.form == StockForm::hexagon;
  s.flats = choice.asked.size;
  s.diameter = s.upper = corners_of(hexagon) * s.flats;
  s.section = (hexagon ? std::sqrt(3.0) / 2 : 1.0) * square(s.flats);
}

void choose_flats(const StockChoice& choice, const LargestDiameters& largest) {
  size_flats(choice);
  const Stock& s = choice.stock();
  const bool hexagon = s.form == StockForm::hexagon;
  const Place condition("condition", condition_word(choice.condition.name));
  if (s.skin)
    choice.preparation.caution(hexagon ? Message("prepare.hexagon-with-skin", {condition})
                                       : Message("prepare.square-with-skin", {condition}));
  const std::vector<Place> sizes{{"size", s.flats}, {"part", largest.turned}};
  if (largest.turned.si > s.flats.si + same_point)
    choice.refuse(hexagon ? Message("prepare.hexagon-too-small", sizes)
                          : Message("prepare.square-too-small", sizes),
                  {"prepare.expect-across-flats", {{"size", largest.turned}}});
  if (largest.drawn.si > s.diameter.si + same_point)
    choice.refuse("prepare.flats-larger-than-bar", "prepare.expect-larger-bar");
}

void open_tube(const StockChoice& choice) {
  const Job& job = choice.job();
  Stock& s = choice.stock();
  s.bore = s.diameter - 2.0 * choice.asked.wall;
  s.section = s.section - pi / 4 * square(s.bore);
  const Outline hollow = job.hollow();
  const Outline hole = Outline::cylinder(job.left(), Length(0.0), s.bore / 2.0);
  if (hollow.empty() || !where_above(hole, hollow).empty())
    choice.refuse({"prepare.tube-bore-too-large", {{"bore", s.bore}}},
                  {"prepare.expect-bore-or-round", {{"bore", s.bore}}});
}

void share_length(const StockChoice& choice) {
  Stock& s = choice.stock();
  const Length asked = *choice.asked.length, overall = choice.job().part.overall;
  const Length spare = asked - overall;
  const int ends = (s.facing_right.si > 0 ? 1 : 0) + (s.facing_left.si > 0 ? 1 : 0);
  if (spare.si < -same_point || (ends == 0 && spare.si > same_point)) {
    choice.refuse({"prepare.blank-length", {{"blank", asked}, {"part", overall}}},
                  "prepare.expect-length-to-face");
    return;
  }
  s.length = asked;
  if (ends == 0) return;
  const Length share = spare / static_cast<double>(ends);
  if (s.facing_right.si > 0) s.facing_right = share;
  if (s.facing_left.si > 0) s.facing_left = share;
}

void choose_lengths(const StockChoice& choice) {
  const Part& part = choice.job().part;
  Stock& s = choice.stock();
  const Length each = choice.asked.facing.value_or(choice.condition.facing);
  s.facing_right = part.right_face.machined ? each : Length(0.0);
  s.facing_left = part.left_face.machined && !s.from_bar ? each : Length(0.0);
  s.length = part.overall + s.facing_right + s.facing_left;
  if (choice.asked.length) share_length(choice);
}

// A price that is confirmed is that of the material; what its condition adds may be a guess.
void note_price(const StockChoice& choice) {
  const Job& job = choice.job();
  const Stock& s = choice.stock();
  if (s.customers || !job.material.price || !job.material.price_confirmed) return;
  if (!s.price_is_guessed()) return;
  choice.preparation.job.unconfirmed.push_back(
      {"prepare.price-factor",
       {{"material", job.material.name},
        {"condition", condition_word(s.condition)},
        {"factor", Figure{s.price_factor}},
        {"basis", Message(std::string("basis.") + name_of(s.price_factor_basis))}}});
}

void note_condition(const StockChoice& choice) {
  Stock& s = choice.stock();
  const PartStock& asked = choice.asked;
  s.form = asked.form == StockForm::automatic ? StockForm::round : asked.form;
  s.condition = choice.condition.name;
  s.skin = choice.condition.skin;
  s.price_factor = choice.condition.price_factor;
  s.price_factor_basis = choice.condition.source.basis;
  s.from_bar = asked.from_bar;
  s.customers = asked.customers;
  note_price(choice);
}

void choose_bar(const StockChoice& choice) {
  const LargestDiameters largest = largest_diameters(choice.job());
  const StockForm form = choice.stock().form;
  if (form == StockForm::hexagon || form == StockForm::square)
    choose_flats(choice, largest);
  else
    choose_diameter(choice, largest);
  if (form == StockForm::tube) open_tube(choice);
  refuse_polygons_on_round_bar(choice);
  choose_lengths(choice);
}

}  // namespace

void StockChoice::refuse(Message what, Message expected) const {
  preparation.refuse(place_of(asked), std::move(what), std::move(expected));
}

void choose_stock(Preparation& p) {
  const StockCondition* condition = find_condition(p);
  if (condition == nullptr) return;
  const StockChoice choice{p, p.job.part.stock, *condition};
  note_condition(choice);
  if (choice.asked.is_shaped())
    shape_casting(choice);
  else
    choose_bar(choice);
}

}  // namespace turnwright
