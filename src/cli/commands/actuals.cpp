// SPDX-License-Identifier: MIT
#include "turnwright/week/actuals.hpp"

#include <algorithm>
#include <ostream>

#include "command.hpp"
#include "commands/read_corrections.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "outputs.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/output/week.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {
namespace {

// Corrections replace corrections, no other file that the shop or the week is read from.
bool replaces_an_input(const Session& session, const Week& week) {
  const std::string& path = session.options.output;
  if (path.empty() || !exists(path)) return false;
  for (const WeekOrder& order : week.orders)
    if (same_file(part_path(week.file, order.part), path)) return true;
  for (const NamedText& file : own_files(session.options.shop))
    if (same_file(file.name, path) && !holds_corrections(file)) return true;
  return false;
}

// The file as it will be read: a proposal that spoils the shop folder is worse than none.
void put_corrections(const Session& session, const Actuals& actuals, const Bookings& bookings) {
  const std::string& path = session.options.output;
  const std::string text =
      corrections_file(actuals.factors, bookings.last,
                       [&](const Message& message) { return session.words(message); });
  std::vector<NamedText> own = own_files(session.options.shop);
  std::erase_if(own, [&](const NamedText& file) { return same_file(file.name, path); });
  own.push_back({path, text});
  if (const auto shop = read_shop_with(own); !shop) {
    session.print(shop.problems());
    throw DiskFailed({"cli.corrections-unreadable", {{"path", path}}});
  }
  write_text(path, text);
  session.note({"cli.proposal-written", {{"path", path}}});
}

}  // namespace

Exit actuals(Session& session) {
  const Options& o = session.options;
  if (o.operands.size() != 2) return session.wrong("cli.actuals-usage");
  if (const Message fault = output_fault(session, {".yaml"}, false); !fault.empty())
    return session.wrong(fault);
  if (!read_shop_files(session)) return Exit::input_wrong;
  const auto inputs = week_inputs(session, o.operands[0]);
  if (!inputs) return Exit::input_wrong;
  if (replaces_an_input(session, inputs->week))
    return session.wrong({"cli.output-is-input", {{"path", o.output}}});
  InputTable in(o.operands[1]);
  TableReader table(o.operands[1], in.stream());
  const Bookings bookings = read_bookings(table);
  session.print(bookings.problems);
  const Actuals found =
      actuals_of(inputs->week, bookings, session.shop, inputs->planning(session).part);
  session.print(found.problems);
  if (found.factors.empty()) {
    session.note({"cli.no-booking", {{"path", o.operands[1]}}});
    return Exit::input_wrong;
  }
  session.streams.out << (o.json
                              ? actuals_json(found.factors, bookings)
                              : actuals_text(found.factors, bookings, found.prices, session.words));
  if (!o.output.empty()) put_corrections(session, found, bookings);
  return bookings.problems.empty() ? Exit::done : Exit::answer_is_no;
}

}  // namespace turnwright::cli
