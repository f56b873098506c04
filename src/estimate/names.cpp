// SPDX-License-Identifier: MIT
#include <array>

#include "turnwright/estimate/quote.hpp"

namespace turnwright {
namespace {

template <class Id, std::size_t Size>
const char* at(const std::array<const char*, Size>& names, Id id) {
  return names.at(static_cast<std::size_t>(id));
}

}  // namespace

const char* name_of(ElementId id) {
  static constexpr std::array<const char*,
                              static_cast<std::size_t>(ElementId::setup_own_records) + 1>
      names{"load-and-unload",
            "bar-advance",
            "new-bar",
            "door",
            "clocked",
            "trued-to-the-rim",
            "centre",
            "follow-rest",
            "steady-rest",
            "drawn-out",
            "mandrel",
            "centres-and-driver",
            "start-and-stop",
            "blow-off",
            "gauging",
            "gauging-runout",
            "deburring",
            "deburring-parted-edge",
            "catch-the-piece",
            "pack",
            "own-records",
            "chips",
            "allowance",
            "setup-machine",
            "setup-drawing",
            "setup-next-operation",
            "setup-tools",
            "setup-jaws",
            "setup-soft-jaws-bored",
            "setup-four-jaw-chuck",
            "setup-compound-slide",
            "setup-mandrel",
            "setup-collet",
            "setup-face-plate",
            "setup-rest",
            "setup-tailstock",
            "setup-bar-feeder",
            "setup-between-centres",
            "setup-program",
            "setup-program-features",
            "setup-proving",
            "setup-first-off-piece",
            "setup-first-off-check",
            "setup-own-records"};
  return at(names, id);
}

const char* name_of(CostKind kind) {
  static constexpr std::array<const char*, 9> names{"setup",      "running",      "machine",
                                                    "labour",     "inserts",      "material",
                                                    "other-work", "outside-work", "one-offs"};
  return at(names, kind);
}

const char* name_of(BandRowId row) {
  static constexpr std::array<const char*, 10> names{"setup-times",    "cutting-speeds-and-feeds",
                                                     "handling-times", "given-times",
                                                     "inserts",        "material-price",
                                                     "other-work",     "outside-work",
                                                     "one-offs",       "scrap"};
  return at(names, row);
}

const char* name_of(PriceStatus status) {
  static constexpr std::array<const char*, 4> names{"confirmed", "not-confirmed", "no-price",
                                                    "supplied"};
  return at(names, status);
}

}  // namespace turnwright
