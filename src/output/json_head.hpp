// SPDX-License-Identifier: MIT
#pragma once
// How every JSON output begins and is written.
#include <nlohmann/json.hpp>
#include <string>

#include "turnwright/output/json.hpp"

namespace turnwright {

using Json = nlohmann::ordered_json;

inline Json json_head(const char* schema) {
  Json j;
  j["schema"] = std::string("turnwright/") + schema + "/1";
  j["version"] = version;
  return j;
}

/// The ways with their prices, who leads, and the differences.
void add_methods(Json& j, const Comparison& comparison);
/// A difference's total and its causes.
void add_causes(Json& j, const Difference& difference);

inline std::string json_text(const Json& j) {
  return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace turnwright
