// SPDX-License-Identifier: MIT
#include "turnwright/week/actuals.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr double outlier_factor = 3;  // a booking three times off is a slip, not a speed
constexpr Minute longest_booking = 16 * 60;

constexpr std::array columns{"order", "operation", "machine", "person", "kind",
                             "start", "end",       "good",    "scrap",  "note"};

std::optional<Minute> moment(const std::string& text) {
  if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ')) return std::nullopt;
  const auto day = read_date(std::string_view(text).substr(0, 10));
  const auto clock = read_clock(std::string_view(text).substr(11, 5));
  if (!day || !clock) return std::nullopt;
  const Minute found = minutes_to(*read_date("1970-01-01"), *day, *clock);
  return std::abs(found) == never ? std::nullopt : std::optional<Minute>(found);
}

class Reading {
 public:
  explicit Reading(TableReader& reader) : reader_(reader) {}
  Bookings read() {
    const auto head = reader_.next();
    if (!head) {
      out_.problems.push_back(
          {reader_.file(), {1, 1}, 1, "no rows", "order,operation,machine,…", "", ""});
      return out_;
    }
    if (!columns_of(*head)) return out_;
    while (const auto row = reader_.next()) booking(*row);
    overlaps();
    return std::move(out_);
  }

 private:
  void problem(int line, std::string what, std::string expected, std::string near = "") {
    out_.problems.push_back(
        {reader_.file(), {line, 1}, 1, std::move(what), std::move(expected), std::move(near), ""});
  }
  bool columns_of(const TableRow& head) {
    for (std::size_t i = 0; i < head.cells.size(); ++i) at_[head.cells[i].text] = i;
    bool all = true;
    for (const char* name : columns) {
      if (at_.contains(name) || std::string_view(name) == "note") continue;
      problem(head.line, std::string("the table lacks the column '") + name + "'",
              "order,operation,machine,person,kind,start,end,good,scrap,note");
      all = false;
    }
    return all;
  }
  std::string cell(const TableRow& row, const char* name) const {
    const auto found = at_.find(name);
    return found == at_.end() || found->second >= row.cells.size() ? ""
                                                                   : row.cells[found->second].text;
  }
  void booking(const TableRow& row) {
    if (!row.problems.empty()) {
      out_.problems.insert(out_.problems.end(), row.problems.begin(), row.problems.end());
      return;
    }
    Booking b;
    b.line = row.line;
    b.order = cell(row, "order");
    b.machine = cell(row, "machine");
    b.person = cell(row, "person");
    const std::string kind = cell(row, "kind");
    const auto setup = read_number(cell(row, "operation"));
    const auto from = moment(cell(row, "start")), to = moment(cell(row, "end"));
    if (b.order.empty() || b.machine.empty() || !setup || *setup < 1 || *setup > 10000)
      return problem(row.line, "no order, operation or machine", "118,10,Tarn CNC 1,…");
    b.setup = static_cast<int>(*setup);
    if (kind != "make-ready" && kind != "run" && kind != "stop")
      return problem(row.line, "found '" + kind + "'", "make-ready, run or stop",
                     nearest(kind, {"make-ready", "run", "stop"}));
    b.kind = kind == "run"    ? BookedKind::run
             : kind == "stop" ? BookedKind::stop
                              : BookedKind::make_ready;
    if (!from || !to)
      return problem(row.line, "found '" + cell(row, "start") + "' to '" + cell(row, "end") + "'",
                     "times as 2026-11-20T06:10");
    if (*to <= *from) return problem(row.line, "ends before it begins", "a later end");
    if (*to - *from > longest_booking)
      return problem(row.line, readable((*to - *from) / 60.0) + " hours in one booking",
                     "at most 16 hours");
    b.from = *from;
    b.to = *to;
    for (const auto& [name, into] : {std::pair{"good", &b.good}, {"scrap", &b.scrap}}) {
      const std::string text = cell(row, name);
      const auto n = text.empty() ? std::optional<double>(0.0) : read_number(text);
      if (!n || *n < 0 || *n > 1e7 || *n != std::floor(*n))
        return problem(row.line, "found '" + text + "' pieces", "a whole number");
      *into = static_cast<int>(*n);
    }
    if (b.kind == BookedKind::run && b.good + b.scrap == 0)
      return problem(row.line, "a run without a piece", "good or scrap pieces");
    const std::string day = cell(row, "end").substr(0, 10);
    out_.last = std::max(out_.last, day);
    out_.rows.push_back(std::move(b));
  }
  // Two things at one time on one machine: neither can be believed.
  void overlaps() {
    std::map<std::string, std::vector<const Booking*>> by_machine;
    for (const Booking& b : out_.rows) by_machine[b.machine].push_back(&b);
    std::set<int> bad;
    for (auto& [machine, rows] : by_machine) {
      std::sort(rows.begin(), rows.end(),
                [](const Booking* a, const Booking* b) { return a->from < b->from; });
      for (std::size_t i = 1; i < rows.size(); ++i) {
        if (rows[i]->from >= rows[i - 1]->to) continue;
        problem(rows[i]->line,
                machine + " is booked twice, also in line " + std::to_string(rows[i - 1]->line),
                "one thing at a time");
        bad.insert(rows[i]->line);
        bad.insert(rows[i - 1]->line);
      }
    }
    std::erase_if(out_.rows, [&](const Booking& b) { return bad.contains(b.line); });
  }

  TableReader& reader_;
  Bookings out_;
  std::map<std::string, std::size_t> at_;
};

void work_out(Factor& f) {
  double sum = 0, squares = 0;
  std::size_t n = 0;
  for (Comparing& c : f.orders) {
    const double log = std::log(c.ratio());
    c.outlier = std::abs(log) > std::log(outlier_factor);
    if (c.outlier) continue;
    sum += log;
    squares += log * log;
    ++n;
  }
  if (n == 0) return;
  const double count = static_cast<double>(n), mean = sum / count;
  f.raw = std::exp(mean);
  f.spread =
      n > 1 ? std::exp(std::sqrt(std::max(0.0, (squares - count * mean * mean) / (count - 1)))) : 1;
  f.proposed = drawn_to_one(mean, n);
}

}  // namespace

double drawn_to_one(double mean_log, std::size_t n) {
  const auto count = static_cast<double>(n);
  return std::exp(mean_log * count / (count + pull));
}

Bookings read_bookings(TableReader& reader) { return Reading(reader).read(); }

std::vector<Factor> factors_of(const Bookings& bookings, const std::vector<Estimated>& estimates) {
  struct Sums {
    double ready = 0, run = 0;
    int pieces = 0;
  };
  std::map<std::tuple<std::string, int, std::string>, Sums> booked;
  for (const Booking& b : bookings.rows) {
    Sums& s = booked[{b.order, b.setup, b.machine}];
    if (b.kind == BookedKind::make_ready) s.ready += b.to - b.from;
    if (b.kind != BookedKind::run) continue;
    s.run += b.to - b.from;
    s.pieces += b.good + b.scrap;
  }
  std::map<std::pair<std::string, bool>, Factor> factors;
  for (const Estimated& e : estimates) {
    const auto found = booked.find({e.order, e.setup, e.called});
    if (found == booked.end()) continue;
    auto add = [&](bool ready, double is, double was) {
      if (is <= 0 || was <= 0) return;
      Factor& f = factors[{e.machine, ready}];
      f.machine = e.machine;
      f.make_ready = ready;
      f.orders.push_back({e.order + "/" + std::to_string(e.setup), is, was, false});
    };
    add(true, found->second.ready, e.ready);
    add(false, found->second.run, found->second.pieces * e.run_each);
  }
  std::vector<Factor> list;
  for (auto& [key, factor] : factors) {
    work_out(factor);
    list.push_back(std::move(factor));
  }
  return list;
}

std::string corrections_file(const std::vector<Factor>& factors, const std::string& last_day) {
  std::string out =
      "# A proposal from booked times. It holds only where you put this file into the shop "
      "folder;\n"
      "# quotes that are out do not change.\nunits: metric\ncorrections:\n";
  for (const Factor& f : factors) {
    const auto n = std::count_if(f.orders.begin(), f.orders.end(),
                                 [](const Comparing& c) { return !c.outlier; });
    if (n == 0) continue;
    const char* of = f.make_ready ? "make-ready" : "running";
    out += "- {name: \"" + f.machine + ", " + of + "\", machine: \"" + f.machine + "\", of: " + of +
           ", factor: " + fixed(std::clamp(f.proposed, 0.5, 3.0), 3) + ", source: \"own records, " +
           std::to_string(n) + " orders, to " + last_day + "\", basis: own records}\n";
  }
  return out;
}

}  // namespace turnwright
