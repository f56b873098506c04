// SPDX-License-Identifier: MIT
#include "command.hpp"
#include "files.hpp"
#include "infeasible.hpp"
#include "part_outputs.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/output/step_sheet.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright::cli {
namespace {

Exit route_part(const Session& session, Outputs& outputs, const PartInput& input) {
  const Options& o = session.options;
  const auto job = job_of(session, input);
  if (!job) return Exit::input_wrong;
  const auto part = price_part(*job, session.shop, session.fixed, o.quantity);
  if (!part) return put_infeasible(session, outputs, *job, part.infeasible());
  const Quote& quote = *part->methods.quoted().quote;
  const MadeBy made_by{part->methods.quoted().recipe, part->methods.quantity};
  const std::string path = outputs.path(job->part.number, o.json ? ".json" : ".txt");
  const Words words = session.words_for(job->part.inch);
  switch (o.json ? FileFormat::json : format_of(path)) {
    case FileFormat::json:
      outputs.put_json(path, route_json(quote.route, quote.times, session.shop, made_by));
      break;
    case FileFormat::page:
    case FileFormat::pdf:
      outputs.put_paper(path,
                        step_sheet_paper(quote.route, quote.times, session.shop, words, made_by));
      break;
    default:
      outputs.put(path, step_sheet_text(quote.route, quote.times, session.shop, words, made_by));
  }
  return Exit::done;
}

}  // namespace

Exit route(Session& session) {
  if (const Message fault = part_words_fault(session, {".txt", ".html", ".pdf", ".json"});
      !fault.empty())
    return session.wrong(fault);
  if (!ready(session)) return Exit::input_wrong;
  return put_each_part(session, part_inputs(session, session.options.operands),
                       [&](Outputs& outputs, const PartInput& input) {
                         return route_part(session, outputs, input);
                       });
}

}  // namespace turnwright::cli
