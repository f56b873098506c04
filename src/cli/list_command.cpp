// SPDX-License-Identifier: MIT
#include "list_command.hpp"

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <fstream>
#include <iostream>
#include <optional>
#include <ostream>
#include <thread>

#include "files.hpp"
#include "print.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/price_table.hpp"

namespace turnwright::cli {
namespace {

constexpr std::size_t chunk_size = 256;

struct RowResult {
  std::string rows;  // of the priced table
  Problems problems;
  std::string why_not;  // read, but no way of making it
  bool priced() const { return problems.empty() && why_not.empty(); }
};

RowResult priced(const PartTable& table, const TableRow& row, const Shop& shop,
                 const std::string& machine) {
  RowResult result;
  const auto part = table.read(row);
  if (!part) {
    result.problems = part.problems();
    return result;
  }
  const auto job = prepare(*part, shop);
  if (!job) {
    result.problems = in_file(job.problems(), row);
    return result;
  }
  const Route route = plan_route(*job, shop, {machine, WayKind::rough_then_finish});
  if (!route.feasible)
    result.why_not = "not possible: " + route.why_not +
                     (route.would_help.empty() ? "" : "; would help: " + route.would_help);
  else
    result.rows =
        price_table_rows(with_band(make_quote(route, shop), shop), table.cell(row, "notes"));
  return result;
}

std::string one_line(const RowResult& result) {
  std::string text = result.why_not;
  for (const Problem& p : result.problems) {
    text += text.empty() ? "" : " | ";
    text += words_of(p);
  }
  return text;
}

std::vector<RowResult> work(const PartTable& table, const std::vector<TableRow>& rows,
                            const Shop& shop, const Options& o) {
  std::vector<RowResult> results(rows.size());
  std::atomic<std::size_t> at{0};
  auto take = [&] {
    for (std::size_t i = at++; i < rows.size(); i = at++)
      results[i] = priced(table, rows[i], shop, o.machine);
  };
  const std::size_t wanted =
      o.jobs > 0 ? static_cast<std::size_t>(o.jobs) : std::thread::hardware_concurrency();
  const std::size_t others = std::min(std::max<std::size_t>(wanted, 1), rows.size()) - 1;
  {
    std::vector<std::jthread> threads;
    threads.reserve(others);
    for (std::size_t i = 0; i < others; ++i) threads.emplace_back(take);
    take();
  }
  return results;
}

// "priced.csv" -> "priced.again.csv".
std::string again_path(const std::string& output) {
  return output.substr(0, output.size() - 4) + ".again.csv";
}

}  // namespace

bool is_list(const std::string& path) { return path.ends_with(".csv"); }

Exit list_command(const Options& o, const Streams& s, const Shop& shop) {
  std::ifstream in(o.operands[0], std::ios::binary);
  if (!in || is_folder(o.operands[0])) throw DiskFailed(o.operands[0] + ": cannot be read");
  TableReader reader(o.operands[0], in);
  const auto head = reader.next();
  if (!head) {
    s.err << o.operands[0] << ": no rows; expected a first row of columns, then a row a part\n";
    return Exit::input_wrong;
  }
  const auto table = PartTable::read_head(reader.file(), *head);
  if (!table) {
    print(table.problems(), s.err);
    return Exit::input_wrong;
  }
  std::optional<WholeFile> output, again;
  if (!o.output.empty()) {
    output.emplace(o.output);
    again.emplace(again_path(o.output));
    again->stream() << again_head(*table);
  }
  std::ostream& out = output ? output->stream() : s.out;
  const bool progress = &s.err == &std::cerr && ::isatty(STDERR_FILENO) != 0;
  std::size_t done = 0, refused = 0;
  bool more = true;
  while (more) {
    std::vector<TableRow> rows;
    while (rows.size() < chunk_size && more) {
      auto row = reader.next();
      more = row.has_value();
      if (row) rows.push_back(std::move(*row));
    }
    if (rows.empty()) break;
    const std::vector<RowResult> results = work(*table, rows, shop, o);
    if (done == 0) out << price_table_head();
    for (std::size_t i = 0; i < rows.size(); ++i) {
      out << results[i].rows;
      if (results[i].priced()) continue;
      ++refused;
      print(results[i].problems, s.err);
      if (!results[i].why_not.empty())
        s.err << o.operands[0] << ":" << rows[i].line << ": " << table->cell(rows[i], "number")
              << ": " << results[i].why_not << "\n";
      if (again) again->stream() << again_row(*table, rows[i], one_line(results[i]));
    }
    done += rows.size();
    if (progress) s.err << "\r" << done << " parts" << (more ? "" : "\n") << std::flush;
  }
  s.err << done - refused << " priced, " << refused << " refused\n";
  if (done == refused) return Exit::input_wrong;
  if (output) {
    output->keep();
    s.err << "written: " << o.output;
    if (refused > 0) {
      again->keep();
      s.err << " and " << again_path(o.output) << " (what was refused)";
    }
    s.err << "\n";
  }
  return refused > 0 ? Exit::answer_is_no : Exit::done;
}

}  // namespace turnwright::cli
