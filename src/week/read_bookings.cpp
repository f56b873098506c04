// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "turnwright/quantity/text.hpp"
#include "turnwright/quantity/unit.hpp"
#include "turnwright/week/actuals.hpp"

namespace turnwright {
namespace {

constexpr Minute longest_booking = 16 * 60;

constexpr std::array columns{"order", "operation", "machine", "person", "kind",
                             "start", "end",       "good",    "scrap",  "note"};

struct Moment {
  Date day;
  Minute minute = 0;  // from 1970
};
std::optional<Moment> moment_in(const std::string& text) {
  if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ')) return std::nullopt;
  const auto day = read_date(std::string_view(text).substr(0, 10));
  const auto clock = read_clock(std::string_view(text).substr(11, 5));
  if (!day || !clock || !in_range(*day)) return std::nullopt;
  const Date first{std::chrono::year(first_year), std::chrono::January, std::chrono::day(1)};
  return Moment{*day, days_between(first, *day) * minutes_a_day + *clock};
}

std::optional<BookedKind> kind_named(const std::string& text) {
  if (text == "setup") return BookedKind::setup;
  if (text == "run") return BookedKind::run;
  if (text == "stop") return BookedKind::stop;
  return std::nullopt;
}

// What is wrong with a row.
struct Fault {
  Message what, expected;
  std::string near;
};

class BookingReader {
 public:
  explicit BookingReader(RowReader& table) : table_(table) {}
  Bookings read() {
    const auto head = table_.next();
    if (!head) {
      add(1, {"actuals.no-rows", column_names(), ""});
      return std::move(out_);
    }
    if (!columns_of(*head)) return std::move(out_);
    while (const auto row = table_.next()) read_row(*row);
    reject_overlaps();
    return std::move(out_);
  }

 private:
  void add(int line, Fault fault, const std::string& text = "") {
    out_.problems.push_back({table_.file(),
                             {line, 1},
                             1,
                             std::move(fault.what),
                             std::move(fault.expected),
                             std::move(fault.near),
                             text});
  }
  static Message column_names() {
    return one_of(std::vector<std::string>(columns.begin(), columns.end()));
  }
  bool columns_of(const TableRow& head) {
    for (std::size_t i = 0; i < head.cells.size(); ++i) at_[head.cells[i].text] = i;
    bool all = true;
    for (const std::string name : columns) {
      if (at_.contains(name) || name == "note") continue;
      add(head.line, {{"actuals.no-column", {{"name", name}}}, column_names(), ""}, head.text);
      all = false;
    }
    return all;
  }
  std::string cell(const TableRow& row, const char* name) const {
    const auto at = at_.find(name);
    return at == at_.end() || at->second >= row.cells.size() ? "" : row.cells[at->second].text;
  }
  void read_row(const TableRow& row) {
    if (!row.problems.empty()) {
      out_.problems.insert(out_.problems.end(), row.problems.begin(), row.problems.end());
      return;
    }
    Booking b;
    b.line = row.line;
    for (const auto read :
         {&BookingReader::read_work, &BookingReader::read_times, &BookingReader::read_pieces})
      if (auto fault = (this->*read)(row, b)) return add(row.line, std::move(*fault), row.text);
    out_.last = std::max(out_.last, std::optional(day_));
    out_.rows.push_back(std::move(b));
  }
  std::optional<Fault> read_work(const TableRow& row, Booking& b) {
    b.order = cell(row, "order");
    b.machine = cell(row, "machine");
    b.person = cell(row, "person");
    const auto operation = read_whole(cell(row, "operation"), 1, 10000);
    if (b.order.empty() || b.machine.empty() || !operation)
      return Fault{"actuals.no-work", "actuals.work-as", ""};
    b.operation = *operation;
    const std::string text = cell(row, "kind");
    const auto kind = kind_named(text);
    if (!kind)
      return Fault{{"actuals.found", {{"what", text}}},
                   one_of({"setup", "run", "stop"}),
                   nearest(text, {"setup", "run", "stop"})};
    b.kind = *kind;
    return std::nullopt;
  }
  std::optional<Fault> read_times(const TableRow& row, Booking& b) {
    const std::string start = cell(row, "start"), end = cell(row, "end");
    const auto from = moment_in(start), to = moment_in(end);
    if (!from || !to)
      return Fault{{"actuals.found-times", {{"from", start}, {"to", end}}}, "actuals.times-as", ""};
    const Minute length = to->minute - from->minute;
    if (length <= 0) return Fault{"actuals.ends-early", "actuals.later-end", ""};
    const auto hours = [](Minute m) {
      return measure(static_cast<double>(m) * unit::min, unit::h, 4);
    };
    if (length > longest_booking)
      return Fault{{"actuals.long-booking", {{"hours", hours(length)}}},
                   {"actuals.at-most", {{"hours", hours(longest_booking)}}},
                   ""};
    b.from = from->minute;
    b.to = to->minute;
    day_ = to->day;
    return std::nullopt;
  }
  std::optional<Fault> read_pieces(const TableRow& row, Booking& b) {
    for (const auto& [name, into] : {std::pair{"good", &b.good}, {"scrap", &b.scrap}}) {
      const std::string text = cell(row, name);
      const auto n = text.empty() ? 0 : read_whole(text, 0, most_pieces);
      if (!n) return Fault{{"actuals.found-pieces", {{"what", text}}}, "actuals.whole-number", ""};
      *into = *n;
    }
    if (b.kind == BookedKind::run && b.good + b.scrap == 0)
      return Fault{"actuals.run-without-piece", "actuals.good-or-scrap", ""};
    return std::nullopt;
  }
  // Two things at one time on one machine: neither can be believed.
  void reject_overlaps() {
    std::map<std::string, std::vector<const Booking*>> by_machine;
    for (const Booking& b : out_.rows) by_machine[b.machine].push_back(&b);
    std::set<int> bad;
    for (auto& [machine, rows] : by_machine) {
      std::sort(rows.begin(), rows.end(),
                [](const Booking* a, const Booking* b) { return a->from < b->from; });
      for (std::size_t i = 1; i < rows.size(); ++i) {
        const Booking &before = *rows[i - 1], &now = *rows[i];
        if (now.from >= before.to) continue;
        add(now.line, {{"actuals.booked-twice",
                        {{"machine", machine}, {"line", std::to_string(before.line)}}},
                       "actuals.one-thing",
                       ""});
        bad.insert({now.line, before.line});
      }
    }
    std::erase_if(out_.rows, [&](const Booking& b) { return bad.contains(b.line); });
  }

  RowReader& table_;
  Bookings out_;
  std::map<std::string, std::size_t> at_;
  Date day_{};  // on which the row's booking ends
};

}  // namespace

Bookings read_bookings(RowReader& table) { return BookingReader(table).read(); }

}  // namespace turnwright
