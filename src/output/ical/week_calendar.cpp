// SPDX-License-Identifier: MIT
#include "turnwright/output/json.hpp"
#include "turnwright/output/week.hpp"
#include "turnwright/quantity/text.hpp"

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
void add_line(std::string& out, const std::string& name, const std::string& text) {
  std::string whole = name + ":" + escaped(text);
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

std::string compact(std::string text) {
  std::erase_if(text, [](char c) { return c == '-' || c == ':'; });
  return text;
}

}  // namespace

std::string week_calendar(const Week& week, const WeekProblem& wp, const WeekPlan& plan,
                          const Words& words) {
  std::string out = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Turnwright//" +
                    std::string(version) + "//EN\r\n";
  for (std::size_t j = 0; j < wp.orders.size(); ++j) {
    const Minute done = plan.plan.done[j];
    if (done == never) continue;
    const WeekOrder& o = week.orders[wp.orders[j]];
    out += "BEGIN:VEVENT\r\n";
    add_line(out, "UID",
             "order-" + std::to_string(j) + "-" + compact(iso_text(week, done)) + "@turnwright");
    // No clock: the stamp is the week's own moment.
    out += "DTSTAMP:" + compact(iso_text(week, week.now)) + "Z\r\n";
    out += "DTSTART:" + compact(iso_text(week, done)) + "\r\n";
    add_line(out, "SUMMARY",
             words({"calendar.order-done", {{"order", lot_title(week, wp, j)}, {"due", o.due}}}));
    out += "END:VEVENT\r\n";
  }
  return out + "END:VCALENDAR\r\n";
}

}  // namespace turnwright
