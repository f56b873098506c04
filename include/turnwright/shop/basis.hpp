// SPDX-License-Identifier: MIT
#pragma once
// Where a value comes from, and how far it is to be trusted.
#include <optional>
#include <string>
#include <string_view>

namespace turnwright {

/// In the order of trust. `given`: the estimator gave it for this part.
enum class Basis { given, own_records, found, common_practice, from_memory, typical };

struct Source {
  std::string text;
  Basis basis = Basis::typical;
  std::optional<double> band;  // the record's own width, a share; none: by its basis
};

/// "common-practice": how JSON spells it; the words stand under "basis." and this.
const char* name_of(Basis basis);
/// How rate files spell it: "common practice".
std::string_view file_word(Basis basis);

}  // namespace turnwright
