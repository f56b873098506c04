// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>
#include <set>

#include "table_columns.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/quantity/unit.hpp"
#include "turnwright/week/actuals.hpp"

namespace turnwright {
namespace {

constexpr Minute longest_booking = 16 * 60;

const std::vector<std::string>& columns() {
  static const std::vector<std::string> all{"order", "operation", "machine", "person", "kind",
                                            "start", "end",       "good",    "scrap",  "note"};
  return all;
}

std::optional<BookedKind> kind_named(const std::string& text) {
  if (text == "setup") return BookedKind::setup;
  if (text == "run") return BookedKind::run;
  if (text == "stop") return BookedKind::stop;
  return std::nullopt;
}

// On which it ends.
Date day_of(const Booking& b) { return days_after(earliest_day(), days_before(b.to - 1)); }

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
      add(1, {"actuals.no-rows", one_of(columns()), ""});
      return std::move(out_);
    }
    const std::vector<std::string> needed(columns().begin(), columns().end() - 1);
    out_.problems = lacking_columns(table_.file(), *head, needed, columns());
    if (!out_.problems.empty()) return std::move(out_);
    columns_.emplace(*head);
    while (const auto row = table_.next()) read_row(*row);
    reject_overlaps();
    for (const Booking& b : out_.rows) out_.last = std::max(out_.last, std::optional(day_of(b)));
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
  std::string cell(const TableRow& row, const char* name) const {
    return columns_->cell(row, name);
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
    const auto from = read_moment(start, earliest_day()), to = read_moment(end, earliest_day());
    if (!from || !to) {
      const bool zone = has_zone(start) || has_zone(end);
      return Fault{{"actuals.found-times", {{"from", start}, {"to", end}}},
                   zone ? "actuals.times-without-zone" : "actuals.times-as",
                   ""};
    }
    const Minute length = *to - *from;
    if (length <= 0) return Fault{"actuals.ends-early", "actuals.later-end", ""};
    const auto hours = [](Minute m) {
      return measure(static_cast<double>(m) * unit::min, unit::h, 4);
    };
    if (length > longest_booking)
      return Fault{{"actuals.long-booking", {{"hours", hours(length)}}},
                   {"actuals.at-most", {{"hours", hours(longest_booking)}}},
                   ""};
    b.from = *from;
    b.to = *to;
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
      const Booking* longest = rows.front();  // of those before, that which ends last
      for (std::size_t i = 1; i < rows.size(); ++i) {
        const Booking& now = *rows[i];
        if (now.from < longest->to) {
          add(now.line, {{"actuals.booked-twice",
                          {{"machine", machine}, {"line", std::to_string(longest->line)}}},
                         "actuals.one-thing",
                         ""});
          bad.insert({now.line, longest->line});
        }
        if (now.to > longest->to) longest = &now;
      }
    }
    std::erase_if(out_.rows, [&](const Booking& b) { return bad.contains(b.line); });
  }

  RowReader& table_;
  Bookings out_;
  std::optional<TableColumns> columns_;
};

}  // namespace

Bookings read_bookings(RowReader& table) { return BookingReader(table).read(); }

}  // namespace turnwright
