// SPDX-License-Identifier: MIT
#pragma once
// What would help a part that cannot be made: only what does.
#include "turnwright/compare/compare.hpp"

namespace turnwright {

/// The refusal with those of its remedies that help when they are tried on this part, with what
/// else does; remedies that no plan can try (a tool, another firm) stay.
Infeasible with_tried_remedies(Infeasible refused, const Job& job, const Shop& shop,
                               const FixedMethod& fixed);

}  // namespace turnwright
