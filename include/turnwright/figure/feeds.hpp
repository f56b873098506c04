// SPDX-License-Identifier: MIT
#pragma once
// Feed per revolution and feed rate.
#include "turnwright/figure/identity.hpp"

namespace turnwright::figure {

struct FeedRate {
  template <class N = double>
  struct Inputs {
    LengthOf<N> feed;
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  struct Results {
    SpeedOf<N> feed_rate;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.feed * given.spindle_speed};
  }
  static constexpr Identity identity{
      "feed-rate",
      std::array{needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000)},
      std::array{result("feed-rate", "vf", unit::mm_per_min)}, "vf = f n",
      "definition; ISO 3002-1:1982, feed speed"};
};

struct ShopFeed {
  template <class N = double>
  struct Inputs {
    LengthOf<N> depth;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> feed;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.depth / 10.0};
  }
  static constexpr Identity identity{"shop-feed",
                                     std::array{needed("depth", "ap", unit::mm, 0.001, 100)},
                                     std::array{result("feed", "f", unit::mm_per_rev)},
                                     "f = ap / 10", "common practice, no published source"};
};

}  // namespace turnwright::figure
