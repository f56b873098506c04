// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <optional>
#include <ostream>

#include "command.hpp"
#include "files.hpp"
#include "infeasible.hpp"
#include "part_outputs.hpp"
#include "turnwright/output/tuned.hpp"

namespace turnwright::cli {
namespace {

struct RuleWord {
  std::string_view word;
  TuneRule rule;
};
constexpr std::array rules{RuleWord{"cost", TuneRule::cost}, RuleWord{"time", TuneRule::time},
                           RuleWord{"contribution", TuneRule::contribution}};

std::optional<TuneRule> rule_of(const std::string& word) {
  if (word.empty()) return TuneRule::cost;
  const auto* found =
      std::find_if(rules.begin(), rules.end(), [&](const RuleWord& r) { return r.word == word; });
  return found == rules.end() ? std::nullopt : std::optional(found->rule);
}

Exit tune_part(const Session& session, Outputs& outputs, const PartInput& input, TuneRule rule,
               std::vector<Part>& tuned_parts) {
  const Options& o = session.options;
  const auto job = job_of(session, input);
  if (!job) return Exit::input_wrong;
  const auto chosen = price_part(*job, session.shop, session.fixed, o.quantity);
  if (!chosen) return put_infeasible(session, outputs, *job, chosen.infeasible());
  const Comparison& methods = chosen->methods;
  const Tuned t =
      turnwright::tune(job->part, session.shop, methods.quoted(), rule, methods.quantity);
  for (const MethodResult* method : {&t.handbook, &t.best})
    if (!method->feasible())
      return put_infeasible(session, outputs, *job, method->quote.infeasible());
  const std::string path = outputs.path(job->part.number, o.json ? ".json" : ".txt");
  if (o.json || format_of(path) == FileFormat::json)
    outputs.put_json(path, tuned_json(t, session.shop));
  else
    outputs.put(path, tuned_text(t, session.shop, session.words_for(job->part.inch)));
  tuned_parts.push_back(job->part);
  return Exit::done;
}

}  // namespace

Exit tune(Session& session) {
  const Options& o = session.options;
  const auto rule = rule_of(o.rule);
  if (!rule) return session.wrong({"cli.unknown-rule", {{"rule", o.rule}}});
  if (const Message fault = part_words_fault(session, {".txt", ".json"}); !fault.empty())
    return session.wrong(fault);
  if (!ready(session)) return Exit::input_wrong;
  std::vector<Part> tuned_parts;
  const Exit exit = put_each_part(session, part_inputs(session, o.operands),
                                  [&](Outputs& outputs, const PartInput& input) {
                                    return tune_part(session, outputs, input, *rule, tuned_parts);
                                  });
  if (tuned_parts.size() > 1 && !o.json)
    session.streams.out << "\n"
                        << effects_text(shop_effects(tuned_parts, session.shop, o.machine),
                                        session.shop, session.words);
  return exit;
}

}  // namespace turnwright::cli
