// SPDX-License-Identifier: MIT
#include "blank.hpp"

#include <algorithm>
#include <cmath>

#include "features.hpp"
#include "length_text.hpp"
#include "profile.hpp"

namespace turnwright {
namespace {

constexpr Length least_cored(30e-3);  // smaller holes are cast solid (from memory)

class Blank {
 public:
  Blank(Job& job, const Shop& shop, const Complaints& complaints)
      : job_(job), shop_(shop), complaints_(complaints), asked_(job.part.stock) {}

  void choose() {
    const StockCondition* c = condition();
    if (c == nullptr) return;
    Stock& s = job_.stock;
    s.form = asked_.form == StockForm::automatic ? StockForm::round : asked_.form;
    s.condition = c->name;
    s.skin = c->skin;
    s.price_factor = c->price_factor;
    s.from_bar = asked_.from_bar;
    s.customers = asked_.customers;
    Length largest(0.0), drawn(0.0);
    for (const Surface& surface : job_.outside())
      (surface.as_drawn ? drawn : largest) =
          max(surface.as_drawn ? drawn : largest, surface.diameter());
    if (cast()) {
      shaped(*c);
      return;
    }
    if (s.form == StockForm::hexagon || s.form == StockForm::square)
      flats(*c, largest, drawn);
    else
      diameter(*c, largest, drawn);
    if (s.form == StockForm::tube) tube();
    no_polygon_on_round_bar();
    lengths(*c);
  }

 private:
  bool cast() const {
    return asked_.form == StockForm::casting || asked_.form == StockForm::forging;
  }
  void add(Position at, std::string what, std::string expected = "", std::string near = "") {
    complaints_.add(at.line > 0 ? at : Position{1, 1}, std::move(what), std::move(expected),
                    std::move(near));
  }
  void caution(std::string text) { job_.cautions.push_back(std::move(text)); }

  const StockCondition* condition() {
    std::string name = asked_.condition;
    if (name.empty() && cast()) {
      name = asked_.form == StockForm::casting ? "casting" : "forging";
    } else if (name.empty()) {
      const bool drawn = asked_.from_bar || asked_.form == StockForm::hexagon ||
                         asked_.form == StockForm::square ||
                         std::any_of(job_.outside().begin(), job_.outside().end(),
                                     [](const Surface& s) { return s.as_drawn; });
      name = drawn ? "drawn" : "hot rolled";
    }
    // "drawn h11": the tolerance belongs to the condition.
    const std::size_t blank = name.rfind(" h");
    if (blank != std::string::npos) name = name.substr(0, blank);
    if (const StockCondition* c = shop_.condition(name)) return c;
    std::vector<std::string> names;
    std::string list;
    for (const StockCondition& c : shop_.conditions) {
      names.push_back(c.name);
      list += (list.empty() ? "" : ", ") + c.name;
    }
    add(asked_.at, "unknown stock condition '" + name + "'", "one of " + list,
        nearest(name, names));
    return nullptr;
  }

  // A polygon on the drawing is the bar's own: flats are not turned.
  void no_polygon_on_round_bar() {
    const Stock& s = job_.stock;
    for (const Element& e : job_.part.outside) {
      if (e.kind != ElementKind::polygon) continue;
      const StockForm needed = e.hexagon ? StockForm::hexagon : StockForm::square;
      if (s.form == needed && std::abs(s.flats.si - e.size.nominal.si) < same_point) continue;
      add(e.at, e.text + " is not turned from this stock",
          std::string("stock: {") + (e.hexagon ? "hexagon: " : "square: ") +
              length_text(job_, e.size.nominal) +
              "}, or a round element and the flats as other work");
    }
  }
  void flats(const StockCondition& c, Length largest, Length drawn) {
    Stock& s = job_.stock;
    const bool hexagon = s.form == StockForm::hexagon;
    s.flats = asked_.size;
    s.diameter = s.upper = corners_of(hexagon) * s.flats;
    s.section = (hexagon ? std::sqrt(3.0) / 2 : 1.0) * square(s.flats);
    if (s.skin)
      caution("a " + c.name + " " + (hexagon ? "hexagon" : "square") + " has a scale skin");
    const Length round = largest;
    if (round.si > s.flats.si + same_point)
      add(asked_.at,
          std::string(hexagon ? "hexagon " : "square ") + length_text(job_, s.flats) +
              " is smaller than the part, " + length_text(job_, round) + ": its flats would show",
          "at least " + length_text(job_, round) + " across flats");
    if (drawn.si > s.diameter.si + same_point)
      add(asked_.at, "the part's flats are larger than the bar's", "a larger bar");
  }
  void tube() {
    Stock& s = job_.stock;
    s.bore = s.diameter - 2.0 * asked_.wall;
    s.section = s.section - pi / 4 * square(s.bore);
    const Outline hollow = job_.hollow();
    const Outline hole = Outline::cylinder(job_.left(), Length(0.0), s.bore / 2.0);
    const bool open = hollow.empty() || !where_above(hole, hollow).empty();
    if (open)
      add(asked_.at,
          "the tube's bore of " + length_text(job_, s.bore) + " is larger than the part's",
          "a bore of at least " + length_text(job_, s.bore) + " through, or round stock");
  }
  // A casting or forging: the finished shape with stock on every side.
  void shaped(const StockCondition& c) {
    Stock& s = job_.stock;
    const Length on = asked_.size;
    std::vector<Segment> pieces;
    const auto outside = job_.outside();
    for (auto it = outside.rbegin(); it != outside.rend(); ++it)
      pieces.push_back({{it->left, it->left_radius + on},
                        {it->right, it->right_radius + on},
                        Bulge::none,
                        {},
                        {}});
    const Outline grown(pieces);
    job_.rough = combine(
        combine(grown.moved(on, Length(0.0)), grown.moved(-on, Length(0.0)), Envelope::upper),
        grown, Envelope::upper);
    for (const Bore& bore : job_.bores)
      if (!bore.empty()) core(bore, on);
    s.facing_right = s.facing_left = on;
    s.length = job_.part.overall + 2.0 * on;
    s.diameter = s.upper = 2.0 * job_.rough.largest();
    if (s.from_bar) add(asked_.at, "a casting does not come from the bar", "fed from: blank");
    if (!job_.part.right_face.machined || !job_.part.left_face.machined)
      caution("a face of a casting that stays raw still carries its stock in this plan");
    caution("the " + c.name + " carries " + length_text(job_, on) +
            " a side; sand, hard spots and shift are not in the time");
  }
  void core(const Bore& bore, Length on) {
    if (!bore.through) return;
    const Length narrow = smallest(bore.turned);
    if (narrow - on < least_cored / 2.0) return;
    const Outline hole = Outline::cylinder(job_.left() - on, on, narrow - on);
    job_.raw_bore = job_.raw_bore.empty() ? hole : combine(job_.raw_bore, hole, Envelope::upper);
  }
  static Length smallest(const Outline& o) {
    Length least(1e9);
    for (const Segment& s : o.pieces()) least = min(least, min(s.from.r, s.to.r));
    return least;
  }

  void diameter(const StockCondition& c, Length largest, Length drawn) {
    Stock& s = job_.stock;
    const std::vector<Length>& sizes =
        job_.part.inch && !c.inch_sizes.empty() ? c.inch_sizes : c.sizes;
    const Length needed = largest.si > drawn.si + same_point || drawn.si == 0
                              ? largest + c.clean_up_at(largest)
                              : drawn;
    auto next = std::find_if(sizes.begin(), sizes.end(),
                             [&](Length d) { return d.si >= needed.si - same_point; });
    const std::string next_size =
        next == sizes.end() ? "none on the list" : length_text(job_, *next);
    if (asked_.form == StockForm::round || asked_.form == StockForm::tube) {
      s.diameter = asked_.size;
      if (s.diameter.si < max(largest, drawn).si - same_point) {
        add(asked_.at,
            "stock " + length_text(job_, s.diameter) + " is smaller than the part, " +
                length_text(job_, max(largest, drawn)),
            "at least " + length_text(job_, needed) + "; the next size is " + next_size);
        return;
      }
      if (s.diameter.si < needed.si - same_point && largest.si > drawn.si)
        caution("stock " + length_text(job_, s.diameter) + " leaves less than the " + c.name +
                " clean-up of " + length_text(job_, c.clean_up_at(largest)) +
                " on diameter; the next size is " + next_size);
      name_neighbours(c, sizes, s.diameter);
    } else {
      if (next == sizes.end()) {
        add(asked_.at,
            "no " + c.name + " bar on the list is as large as " + length_text(job_, needed),
            "a size given as stock: {round: …}");
        return;
      }
      s.diameter = *next;
    }
    if (drawn.si > 0 && std::abs(drawn.si - s.diameter.si) > same_point)
      add(asked_.at,
          "'as drawn' at " + length_text(job_, drawn) + " on stock of " +
              length_text(job_, s.diameter),
          "stock of the drawn size, or the surface turned");
    if (drawn.si > 0 && s.skin)
      caution("a surface stays as the bar is bought, but " + c.name + " bar has a scale skin");
    s.upper = s.diameter + c.over(s.diameter);
    s.section = pi / 4 * square(s.upper);
  }
  void name_neighbours(const StockCondition& c, const std::vector<Length>& sizes, Length d) {
    const auto above = std::find_if(sizes.begin(), sizes.end(),
                                    [&](Length x) { return x.si > d.si - same_point; });
    if (above != sizes.end() && std::abs(above->si - d.si) < same_point) return;
    std::string near;
    if (above != sizes.begin() && !sizes.empty()) near = length_text(job_, *std::prev(above));
    if (above != sizes.end()) near += (near.empty() ? "" : " and ") + length_text(job_, *above);
    caution("stock " + length_text(job_, d) + " is not on the list of " + c.name +
            " bar; the next sizes are " + near);
  }

  void lengths(const StockCondition& c) {
    Stock& s = job_.stock;
    const Length each = asked_.facing.value_or(c.facing);
    s.facing_right = job_.part.right_face.machined ? each : Length(0.0);
    s.facing_left = job_.part.left_face.machined && !s.from_bar ? each : Length(0.0);
    s.length = job_.part.overall + s.facing_right + s.facing_left;
    if (!asked_.length) return;
    const Length spare = *asked_.length - job_.part.overall;
    const int ends = (s.facing_right.si > 0 ? 1 : 0) + (s.facing_left.si > 0 ? 1 : 0);
    if (spare.si < -same_point || (ends == 0 && spare.si > same_point)) {
      add(asked_.at,
          "a blank of " + length_text(job_, *asked_.length) + " for a part of " +
              length_text(job_, job_.part.overall),
          "the part's length and something to face");
      return;
    }
    s.length = *asked_.length;
    if (ends == 0) return;
    const Length share = spare / static_cast<double>(ends);
    if (s.facing_right.si > 0) s.facing_right = share;
    if (s.facing_left.si > 0) s.facing_left = share;
  }

  Job& job_;
  const Shop& shop_;
  const Complaints& complaints_;
  const PartStock& asked_;
};

}  // namespace

void choose_stock(Job& job, const Shop& shop, const Complaints& complaints) {
  Blank(job, shop, complaints).choose();
}

}  // namespace turnwright
