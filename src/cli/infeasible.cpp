// SPDX-License-Identifier: MIT
#include "infeasible.hpp"

#include <ostream>

#include "turnwright/output/json.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright::cli {

void say_infeasible(const Session& session, const Job& job, const Infeasible& infeasible) {
  session.streams.err << infeasible_text(job.part.number, infeasible,
                                         session.words_for(job.part.inch));
}

Exit put_infeasible(const Session& session, Outputs& outputs, const Job& job,
                    const Infeasible& infeasible) {
  if (session.options.json)
    outputs.put_json(outputs.path(job.part.number, ".json"), infeasible_json(job, infeasible));
  else
    say_infeasible(session, job, infeasible);
  return Exit::answer_is_no;
}

}  // namespace turnwright::cli
