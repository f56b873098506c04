// SPDX-License-Identifier: MIT
#include <map>

#include "turnwright/output/json.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/quantity/text.hpp"
#include "view/machine_sheet.hpp"
#include "view/week_view.hpp"

namespace turnwright {
namespace {

constexpr std::size_t longest_line = 75;  // bytes, RFC 5545, 3.1

// RFC 5545, 3.3.11: what is escaped.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : showable(text)) {
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return out;
}

// Folded where it is longer than a line may be, never inside a character.
void add_escaped(std::string& out, const std::string& name, const std::string& text) {
  std::string whole = name + ":" + text;
  std::size_t room = longest_line;
  while (whole.size() > room) {
    std::size_t cut = room;
    while (cut > 1 && (static_cast<unsigned char>(whole[cut]) & 0xC0) == 0x80) --cut;
    out += whole.substr(0, cut) + "\r\n ";
    whole.erase(0, cut);
    room = longest_line - 1;
  }
  out += whole + "\r\n";
}

void add_line(std::string& out, const std::string& name, const std::string& text) {
  add_escaped(out, name, escaped(text));
}
// Of several lines.
void add_lines(std::string& out, const std::string& name, const Cells& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : "\\n") + escaped(line);
  if (!text.empty()) add_escaped(out, name, text);
}

std::string compact(std::string text) {
  std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
  return text;
}

// What an event is told by (RFC 5545, 3.8.4.7): by its work, not by its time, so that who takes up
// the next plan has each once. What has one name several times is numbered.
class Identities {
 public:
  std::string of(const std::string& name) {
    const int n = ++taken_[name];
    return name + (n > 1 ? "-" + std::to_string(n) : "") + "@turnwright";
  }

 private:
  std::map<std::string, int> taken_;
};

// The stamp is the week's own moment, for there is no clock; a later plan stands instead of it
// (3.8.7.4).
void begin_event(std::string& out, const Week& week, const std::string& id) {
  out += "BEGIN:VEVENT\r\n";
  add_line(out, "UID", id);
  out += "SEQUENCE:" + std::to_string(minutes_before(week) + week.now) + "\r\n";
  out += "DTSTAMP:" + compact(iso_text(week, week.now)) + "Z\r\n";
}
void begin_event(std::string& out, const Week& week, const std::string& id, Minute from) {
  begin_event(out, week, id);
  out += "DTSTART:" + compact(iso_text(week, from)) + "\r\n";
}

// On the day on which it is due, all of it; of a row that names none, on the day of now.
void add_left_out(std::string& out, const Week& week, const WeekProblem& wp, const Words& words) {
  Identities ids;
  for (const LeftOut& left : all_left_out(week, wp)) {
    const Date day = left.due.value_or(days_after(week.from, week.now / minutes_a_day));
    begin_event(out, week, ids.of("left-out-" + left.order));
    out += "DTSTART;VALUE=DATE:" + compact(text_of(day)) + "\r\n";
    add_line(
        out, "SUMMARY",
        words(left.order.empty() || !left.due
                  ? Message("calendar.row-not-planned")
                  : Message("calendar.not-planned", {{"order", left.order}, {"due", *left.due}})));
    Cells lines;
    for (const Message& why : reasons_of(left)) lines.push_back(words(why));
    add_lines(out, "DESCRIPTION", lines);
    out += "END:VEVENT\r\n";
  }
}

void add_orders(std::string& out, const Week& week, const WeekProblem& wp, const Plan& plan,
                const Words& words) {
  Identities ids;
  for (std::size_t j = 0; j < wp.orders.size(); ++j) {
    const Minute done = plan.done[j];
    if (done == never) continue;
    const WeekOrder& o = week.orders[wp.orders[j]];
    // What is done at midnight is done on the day before.
    const Minute on_its_day = done % minutes_a_day == 0 ? done - 1 : done;
    begin_event(out, week, ids.of("order-" + lot_name(week, wp, j)), on_its_day);
    const Message title = lot_title(week, wp, j);
    const Message order = o.state == OrderState::quoted ? only_quoted(title) : title;
    add_line(out, "SUMMARY", words({"calendar.order-done", {{"order", order}, {"due", o.due}}}));
    out += "END:VEVENT\r\n";
  }
  add_left_out(out, week, wp, words);
}

// When it runs, what it needs, who does it.
Cells described(const SheetRow& row, const Words& words) {
  Cells lines;
  if (row.run == nullptr) return lines;
  lines.push_back(words({"calendar.runs-from", {{"from", verbatim(row.runs_from)}}}));
  for (std::string& line : sheet_lines(row)) lines.push_back(std::move(line));
  const auto people = [&](const char* id, const std::vector<std::string>& names) {
    if (!names.empty()) lines.push_back(words({id, {{"people", verbatims(names)}}}));
  };
  people("calendar.sets-up", row.run->people.sets);
  people("calendar.attends", row.run->people.runs);
  return lines;
}

// "operation-118-10"; of a time in which the machine is down, by when it begins.
std::string name_of(const SheetRow& row, const MachineSheet& sheet, const Week& week,
                    const WeekProblem& wp) {
  if (row.run == nullptr)
    return "down-" + sheet.machine + "-" + compact(iso_text(week, row.span.from));
  const int operation = row.run->run->operation;
  return "operation-" + lot_name(week, wp, row.run->lot) + "-" +
         std::to_string(wp.names[static_cast<std::size_t>(operation)].operation);
}

void add_operations(std::string& out, const Week& week, const WeekProblem& wp, const WeekView& view,
                    const Plan& plan, const Words& words) {
  Identities ids;
  for (const MachineSheet& sheet : machine_sheets(week, wp, plan, view, words))
    for (const SheetRow& row : sheet.rows) {
      begin_event(out, week, ids.of(name_of(row, sheet, week, wp)), row.span.from);
      out += "DTEND:" + compact(iso_text(week, row.span.to)) + "\r\n";
      add_line(out, "SUMMARY", sheet.machine + ": " + row.work);
      add_line(out, "LOCATION", sheet.machine);
      add_line(out, "CATEGORIES", sheet.machine);
      add_lines(out, "DESCRIPTION", described(row, words));
      out += "END:VEVENT\r\n";
    }
}

}  // namespace

std::string week_calendar(const Week& week, const WeekProblem& wp,
                          const std::vector<MachineLoad>& loads, const WeekPlan& plan,
                          const Words& words, CalendarEvents events) {
  std::string out = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Turnwright//" +
                    std::string(version) + "//EN\r\n";
  if (events == CalendarEvents::orders)
    add_orders(out, week, wp, plan.plan, words);
  else
    add_operations(out, week, wp, view_of(week, wp, loads, plan), plan.plan, words);
  return out + "END:VCALENDAR\r\n";
}

}  // namespace turnwright
