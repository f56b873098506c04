// SPDX-License-Identifier: MIT
#include <ostream>

#include "command.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "turnwright/compare/speed_card.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/route/doubts.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {
namespace {

void no_problems(const Session& session, const std::string& path, const std::string& what) {
  session.streams.out << session.words({"cli.no-problems", {{"path", path}, {"what", what}}})
                      << "\n";
}

// Where a lathe's spindle speeds leave a hole for the shop's usual cuts: no problem, but worth
// knowing.
void warn_of_ladders(const Session& session, const Shop& shop) {
  if (!shop.own_machines) return;
  for (const LadderHole& hole : ladder_holes(shop))
    session.note({"card.ladder-hole",
                  {{"machine", hole.machine->name},
                   {"off", hole.off},
                   {"cuts", hole.cuts},
                   {"band", Share{shop.practice.speed_band}},
                   {"share", Share{hole.widest}},
                   {"diameter", measure(hole.at, unit::mm)},
                   {"material", hole.material}}});
}

// What a draft leaves open: what a quote needs first, then what is to be confirmed; and what a
// person would ask of any drawing.
void say_what_is_open(const Session& session, const Job& job, const std::string& text) {
  const Part& part = job.part;
  for (const Message& what : to_fill_in(part))
    session.streams.out << "  " << session.words({"cli.to-fill-in", {{"what", what}}}) << "\n";
  for (const std::string& what : part.to_confirm)
    session.streams.out << "  " << session.words({"prepare.to-confirm", {{"what", what}}}) << "\n";
  for (Problem doubt : doubts_of(job, session.shop)) {
    doubt.source_line = line_of(text, doubt.at.line);
    session.streams.out << problem_text(doubt, session.words);
  }
}

Exit check_folder(const Session& session, const std::string& folder) {
  Options options = session.options;
  options.shop = folder;
  Session other{options, session.streams, session.words, {}, {}, {}};
  if (!read_shop_files(other)) return Exit::input_wrong;
  no_problems(session, folder, session.words("file.shop"));
  warn_of_ladders(session, other.shop);
  return Exit::done;
}

Exit check_week(const Session& session, const std::string& path) {
  const auto inputs = week_inputs(session, path);
  if (!inputs) return Exit::input_wrong;
  const RoutedOrders routed =
      route_orders(inputs->week, session.shop, inputs->planning(session).part);
  session.print(routed.problems);
  if (!routed.problems.empty()) return Exit::input_wrong;
  no_problems(session, path, session.words("file.week"));
  return Exit::done;
}

Exit check_file(const Session& session, const std::string& path) {
  if (!is_standard_input(path) && is_folder(path)) return check_folder(session, path);
  if (!is_standard_input(path) && !is_list(path) && kind_of_file(read_file(path)) == FileKind::week)
    return check_week(session, path);
  return for_each_input(part_inputs(session, {path}), [&](const PartInput& input) {
    const auto job = job_of(session, input);
    if (!job) return Exit::input_wrong;
    no_problems(session, input.path, job->part.number);
    say_what_is_open(session, *job, input.text);
    return Exit::done;
  });
}

}  // namespace

Exit check(Session& session) {
  const auto& paths = session.options.operands;
  if (paths.empty()) return session.wrong("cli.which-file");
  if (!read_shop_files(session)) return Exit::input_wrong;
  return for_each_input(paths, [&](const std::string& path) { return check_file(session, path); });
}

}  // namespace turnwright::cli
