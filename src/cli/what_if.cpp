// SPDX-License-Identifier: MIT
#include "what_if.hpp"

#include <algorithm>

#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

Message without_order(const std::string& number, Week& week) {
  const auto erased =
      std::erase_if(week.orders, [&](const WeekOrder& order) { return order.number == number; });
  if (erased > 0) return {};
  std::vector<std::string> numbers;
  for (const WeekOrder& order : week.orders) numbers.push_back(order.number);
  return with_near({"cli.without-unknown", {{"order", number}}}, nearest(number, numbers));
}

// "Tarn CNC 1 2026-12-08..2026-12-10", both days whole.
Message down(const std::string& text, Week& week) {
  const std::size_t blank = text.rfind(' '), dots = text.rfind("..");
  const Message fault{"cli.down-as", {{"text", text}}};
  if (blank == std::string::npos || dots == std::string::npos || dots < blank) return fault;
  const auto from = read_date(std::string_view(text).substr(blank + 1, dots - blank - 1));
  const auto to = read_date(std::string_view(text).substr(dots + 2));
  if (!from || !to || !in_range(*from) || !in_range(*to)) return fault;
  if (*to < *from) return {"cli.down-reversed", {{"from", *from}, {"to", *to}}};
  const std::string name = text.substr(0, blank);
  const auto found = std::find_if(week.machines.begin(), week.machines.end(),
                                  [&](const WeekMachine& m) { return m.name == name; });
  std::vector<std::string> names;
  for (const WeekMachine& m : week.machines) names.push_back(m.name);
  if (found == week.machines.end())
    return with_near({"cli.down-unknown", {{"machine", name}}}, nearest(name, names));
  const Span gone{days_between(week.from, *from) * minutes_a_day, week.end_of(*to)};
  found->down.push_back({gone, ""});
  found->open = Calendar(without(found->open.open(), {gone}));
  return {};
}

}  // namespace

bool asks_what_if(const Options& options) {
  return !options.without.empty() || !options.down.empty();
}

Message change_week(const Options& options, Week& week) {
  if (!options.without.empty())
    if (Message fault = without_order(options.without, week); !fault.empty()) return fault;
  return options.down.empty() ? Message() : down(options.down, week);
}

}  // namespace turnwright::cli
