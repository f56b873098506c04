// SPDX-License-Identifier: MIT
// The terms that every output uses.
#include <array>
#include <ostream>

#include "command.hpp"

namespace turnwright::cli {
namespace {

constexpr std::array terms{
    "glossary.operation",    "glossary.step",          "glossary.pass",
    "glossary.clamping",     "glossary.stick-out",     "glossary.setup",
    "glossary.cycle-time",   "glossary.operator-time", "glossary.allowance",
    "glossary.batch",        "glossary.release",       "glossary.blank",
    "glossary.method",       "glossary.inserts",       "glossary.first-off",
    "glossary.spot-check",   "glossary.limited-by",    "glossary.confidence",
    "glossary.risk-of-loss", "glossary.posted-plan",   "glossary.under-recovered"};

}  // namespace

Exit words(Session& session) {
  if (!session.options.operands.empty())
    return session.wrong({"cli.no-file", {{"path", session.options.operands[0]}}});
  for (const char* term : terms) session.streams.out << session.words.heading(term) << "\n";
  return Exit::done;
}

}  // namespace turnwright::cli
