// SPDX-License-Identifier: MIT
#include "week_inputs.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>

#include "files.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/week/actuals.hpp"

namespace turnwright::cli {
namespace {

// Each part file is read once, however many orders it has.
PartReader part_reader(const Session& session) {
  auto read = std::make_shared<std::map<std::string, Checked<Part>>>();
  return [&session, read](const Week& week, const WeekOrder& order) -> Checked<Part> {
    const auto found = read->find(order.part);
    if (found != read->end()) return found->second;
    const std::string path = part_path(week.file, order.part);
    if (order.row && (!exists(path) || is_folder(path)))
      return Problems{problem_of(week, order, {"cli.no-part-file", {{"name", order.part}}},
                                 "cli.path-or-number")};
    return read->emplace(order.part, part_beside(session, week.file, order.part, order.at).part)
        .first->second;
  };
}

bool is_moment(const std::string& text) {
  const auto t = read_moment(text, earliest_day());
  return t && *t % time_step == 0 && text.size() == 16;
}

// What is booked says where the orders stand; rows that are no use are said.
void take_booked(const Session& session, Week& week) {
  const std::string& path = session.options.booked;
  InputTable in(path);
  TableReader table(path, in.stream());
  const Bookings bookings = read_bookings(table);
  session.print(bookings.problems);
  session.print(take_status(week, bookings, path));
}

}  // namespace

Planning WeekInputs::planning(const Session& session) const {
  return {session.shop, part_reader(session), posted ? &*posted : nullptr, session.threads(),
          session.options.effort};
}

std::optional<WeekInputs> week_inputs(const Session& session, const std::string& path) {
  const std::string text = text_of(session, path);
  if (const Message fault = other_kind(session, path, text, {FileKind::week}); !fault.empty()) {
    session.say(fault);
    return std::nullopt;
  }
  const std::string& now = session.options.now;
  if (!now.empty() && !is_moment(now)) {
    session.say({"cli.now-wrong", {{"now", now}}});
    return std::nullopt;
  }
  const auto week = read_week(path, text, session.shop.currencies, now);
  const Problems problems = week ? unknown_machines(*week, session.shop) : week.problems();
  session.print(problems);
  if (!problems.empty()) return std::nullopt;
  WeekInputs inputs{*week, std::nullopt, {}};
  auto lists = read_order_lists(session, inputs.week);
  if (!lists) return std::nullopt;
  inputs.lists = std::move(*lists);
  session.print(find_parts(inputs.week));
  if (!session.options.booked.empty()) take_booked(session, inputs.week);
  if (session.options.posted.empty()) return inputs;
  InputTable in(session.options.posted);
  TableReader table(session.options.posted, in.stream());
  const auto posted = read_posted(inputs.week, table);
  if (!posted) {
    session.print(posted.problems());
    return std::nullopt;
  }
  inputs.posted = *posted;
  return inputs;
}

std::size_t WeekInputs::rows_refused() const {
  std::size_t refused = 0;
  for (const ReadOrders& list : lists)
    for (const ReadOrders::Row& row : list.rows) refused += row.problems.empty() ? 0 : 1;
  return refused;
}

std::string beside_week(const Week& week, const std::string& part) {
  namespace fs = std::filesystem;
  const fs::path folder = fs::absolute(week.file).parent_path();
  return fs::absolute(part).lexically_proximate(folder).string();
}

std::optional<Message> delivery_message(const Session& session, const PartInput& input,
                                        const Part& part) {
  const auto inputs = week_inputs(session, session.options.week);
  if (!inputs) return std::nullopt;
  const int most = part.quantities.empty() ? 1 : part.quantities.back();
  const Week week = with_asked(inputs->week, beside_week(inputs->week, input.path), most);
  const auto promise = promise_for(week, inputs->planning(session));
  if (!promise) {
    session.print(promise.problems());
    return std::nullopt;
  }
  session.print(promise->problems);
  return delivery_of(week, *promise);
}

}  // namespace turnwright::cli
