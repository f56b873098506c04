// SPDX-License-Identifier: MIT
// A week planned, looked through by the checker, and written by every writer.
#include <unistd.h>

#include <map>

#include "fuzz.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/route_orders.hpp"

using namespace turnwright;

namespace {

// The orders of every week are of these parts, whatever they name.
Checked<Part> part_of(const Week& /*week*/, const WeekOrder& order) {
  static const std::map<std::string, Part> parts = [] {
    std::map<std::string, Part> read;
    for (const char* name : {"01-winch-spindle.yaml", "02-bush-blank.yaml", "06-guide-bush.yaml",
                             "09-clevis-pin.yaml"})
      read.emplace(name, *read_part(name, fuzz::file(std::string("samples/") + name)));
    return read;
  }();
  const auto found = parts.find(order.part);
  return found == parts.end() ? parts.begin()->second : found->second;
}

void write(const Week& week, const PlannedWeek& planned) {
  fuzz::whole_json(week_json(week, planned.problem, planned.loads, planned.plan));
  (void)week_text(week, planned.problem, planned.loads, planned.plan, fuzz::german(), {true, true},
                  {1});
  (void)week_page(week, planned.problem, planned.loads, planned.plan, fuzz::english());
  (void)paper_page(
      week_lists_paper(week, planned.problem, planned.loads, planned.plan, fuzz::english()));
  for (const CalendarEvents events : {CalendarEvents::orders, CalendarEvents::operations})
    (void)week_calendar(week, planned.problem, planned.loads, planned.plan, fuzz::english(),
                        events);
  (void)week_table(week, planned.problem, planned.plan);
  static const std::string path = "/dev/shm/turnwright-fuzz-" + std::to_string(getpid()) + ".xlsx";
  write_week_workbook(week, planned.problem, planned.loads, planned.plan, fuzz::english(), path);
  unlink(path.c_str());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto week = read_week("fuzz.yaml", fuzz::text_of(data, size), fuzz::shop().currencies);
  if (!week || !unknown_machines(*week, fuzz::shop()).empty() || week->orders.size() > 8 ||
      week->days() > 400)
    return 0;
  const PlannedWeek planned =
      planned_week(*week, {.shop = fuzz::shop(), .part = part_of, .effort = 0.01});
  fuzz::speakable(planned.problems);
  if (planned.orders == 0) return 0;
  for (const Message& fault : faults_of(planned.problem.problem, planned.plan.plan))
    fuzz::hold(false, fuzz::english()(fault).c_str());
  write(*week, planned);
  return 0;
}
