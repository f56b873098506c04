// SPDX-License-Identifier: MIT
#pragma once
// What is said of a part that cannot be made.
#include "outputs.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/route/planned.hpp"

namespace turnwright::cli {

void say_infeasible(const Session& session, const Job& job, const Infeasible& infeasible);
/// The same, as JSON where that was asked for; the exit status of an answer that is no.
Exit put_infeasible(const Session& session, Outputs& outputs, const Job& job,
                    const Infeasible& infeasible);

}  // namespace turnwright::cli
