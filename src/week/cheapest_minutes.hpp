// SPDX-License-Identifier: MIT
#pragma once
#include <algorithm>
#include <vector>

#include "priced_hours.hpp"

namespace turnwright {

inline constexpr double no_cost = 1e300;  // it cannot be done

/// So many minutes of one sort of work, in stretches that are added one by one, where they cost
/// least.
class CheapestMinutes {
 public:
  void begin(const PricedWork& work, std::size_t from, double minutes) {
    work_ = &work;
    from_ = from;
    minutes_ = minutes;
    have_ = cost_ = 0;
    parts_.clear();
  }
  /// What they cost when the last of them lie in this stretch, dearer there by so much.
  double ending_in(std::size_t t, double dearer) const {
    if (minutes_ <= 0) return 0;
    const double missing = minutes_ - have_, open = open_in(t);
    if (missing > open) return no_cost;
    const double price = work_->price[t] + dearer;
    double cost = cost_ + missing * price, left = open - missing;
    for (auto part = parts_.rbegin(); left > 0 && part != parts_.rend() && part->price > price;
         ++part) {
      const double moved = std::min(left, part->minutes);
      cost -= moved * (part->price - price);
      left -= moved;
    }
    return cost;
  }
  /// The same, handed out: `take(stretch, minutes)`.
  template <class Take>
  void hand_out(std::size_t t, double dearer, const Take& take) const {
    if (minutes_ <= 0) return;
    const double price = work_->price[t] + dearer;
    double last = minutes_ - have_, left = open_in(t) - last;
    for (auto part = parts_.rbegin(); part != parts_.rend(); ++part) {
      const double moved = part->price > price ? std::min(left, part->minutes) : 0;
      left -= moved;
      last += moved;
      take(part->stretch, part->minutes - moved);
    }
    take(t, last);
  }
  void add(std::size_t t) {
    double more = std::min(open_in(t), minutes_);
    const double price = work_->price[t];
    if (more <= 0 || (have_ >= minutes_ && parts_.back().price <= price)) return;
    const auto place = std::find_if(parts_.rbegin(), parts_.rend(),
                                    [&](const Part& p) { return p.price <= price; });
    parts_.insert(place.base(), {price, more, t});
    have_ += more;
    cost_ += more * price;
    while (have_ > minutes_) drop(have_ - minutes_);
  }

 private:
  struct Part {
    double price, minutes;
    std::size_t stretch;
  };
  double open_in(std::size_t t) const { return t < from_ ? 0 : work_->open[t]; }
  // Minutes are whole numbers: nothing is left of a part that is dropped.
  void drop(double more) {
    Part& dearest = parts_.back();
    const double dropped = std::min(more, dearest.minutes);
    cost_ -= dropped * dearest.price;
    have_ -= dropped;
    dearest.minutes -= dropped;
    if (dearest.minutes <= 0) parts_.pop_back();
  }

  const PricedWork* work_ = nullptr;
  std::size_t from_ = 0;
  double minutes_ = 0, have_ = 0, cost_ = 0;
  std::vector<Part> parts_;  // the cheapest first
};

}  // namespace turnwright
