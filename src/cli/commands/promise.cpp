// SPDX-License-Identifier: MIT
#include "turnwright/week/promise.hpp"

#include <ostream>

#include "command.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/quantity/text.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {

Exit promise(Session& session) {
  const Options& o = session.options;
  if (o.operands.size() != 3) return session.wrong("cli.promise-usage");
  const auto pieces = read_whole(o.operands[2], 1, most_pieces);
  if (!pieces) return session.wrong({"cli.no-pieces", {{"text", o.operands[2]}}});
  if (!read_shop_files(session)) return Exit::input_wrong;
  const auto inputs = week_inputs(session, o.operands[0]);
  if (!inputs) return Exit::input_wrong;
  const Week week = with_asked(inputs->week, beside_week(inputs->week, o.operands[1]), *pieces);
  const auto found = promise_for(week, inputs->planning(session));
  if (!found) {
    session.print(found.problems());
    return Exit::input_wrong;
  }
  session.print(found->problems);
  session.streams.out << (o.json ? promise_json(week, *found)
                                 : promise_text(week, *found, session.words));
  return found->p80 == never ? Exit::answer_is_no : Exit::done;
}

}  // namespace turnwright::cli
