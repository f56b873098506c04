// SPDX-License-Identifier: MIT
#include "list_command.hpp"

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <fstream>
#include <iostream>
#include <map>
#include <memory>
#include <optional>
#include <ostream>
#include <thread>

#include "files.hpp"
#include "price_output.hpp"
#include "print.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/document/workbook_table.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright::cli {
namespace {

constexpr std::size_t chunk_size = 1024;

struct RowResult {
  std::vector<PriceRow> rows;  // of the priced table
  std::optional<Job> job;      // for its workbook, where one is asked for
  Problems problems;
  std::string why_not;  // read, but no way of making it
  bool priced() const { return problems.empty() && why_not.empty(); }
};

RowResult priced(const PartTable& table, const TableRow& row, const Shop& shop, const Options& o) {
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
  const Route route = plan_route(*job, shop, {o.machine, MethodKind::rough_then_finish});
  if (!route.feasible)
    result.why_not = "not possible: " + route.why_not +
                     (route.would_help.empty() ? "" : "; would help: " + route.would_help);
  else
    result.rows = price_rows(with_band(make_quote(route, shop), shop), table.cell(row, "notes"));
  if (!o.workbooks.empty() && result.priced()) result.job = *job;
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
      results[i] = priced(table, rows[i], shop, o);
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

// "priced.csv" or "priced.xlsx" -> "priced.again.csv".
std::string again_path(const std::string& output) {
  return output.substr(0, output.rfind('.')) + ".again.csv";
}

// A workbook a part, named by its number; a second part of that number gets a number more.
class PartBooks {
 public:
  explicit PartBooks(std::string folder) : folder_(std::move(folder)) {}
  void write(const Job& job, const Shop& shop, const Options& o) {
    const Comparison methods = compare_methods(job, shop, o.machine);
    const Quote quote = with_band(methods.methods.front().quote, shop);
    const std::string name = file_name(job.part.number);
    const int count = ++names_[name];
    const std::string path =
        folder_ + "/" + name + (count > 1 ? "-" + std::to_string(count) : "") + ".xlsx";
    write_whole(path, [&](const std::string& temporary) {
      write_workbook(quote, methods, shop, {}, o.inch || (job.part.inch && !o.metric), temporary);
      verify_workbook(temporary);
    });
  }

 private:
  std::string folder_;
  std::map<std::string, int> names_;
};

// The families that these rows name, each read once, from the folder of the table.
void read_families(const std::string& list, const std::vector<TableRow>& rows, PartTable& table) {
  const std::size_t slash = list.rfind('/');
  const std::string folder = slash == std::string::npos ? "" : list.substr(0, slash + 1);
  for (const TableRow& row : rows) {
    const std::string name = table.cell(row, "family");
    if (name.empty() || table.knows_family(name)) continue;
    const std::string path = name.starts_with("/") ? name : folder + name;
    if (exists(path) && !is_folder(path))
      table.add_family(name, read_document(path, read_file(path)));
  }
}

std::string line_place(const TableRow& row) {
  return row.in_sheet ? ", row " + std::to_string(row.line) : ":" + std::to_string(row.line);
}

}  // namespace

bool is_list(const std::string& path) { return path.ends_with(".csv") || path.ends_with(".xlsx"); }

Exit list_command(const Options& o, const Streams& s, const Shop& shop) {
  const std::string& path = o.operands[0];
  std::ifstream in = open_file(path);
  std::unique_ptr<RowReader> reader;
  const WorkbookReader* sheet = nullptr;
  if (path.ends_with(".xlsx")) {
    auto book = std::make_unique<WorkbookReader>(path);
    sheet = book.get();
    reader = std::move(book);
  } else {
    reader = std::make_unique<TableReader>(path, in);
  }
  const auto head = reader->next();
  if (!head) {
    s.err << path << ": no rows; expected a first row of columns, then a row a part\n";
    return Exit::input_wrong;
  }
  auto table = PartTable::read_head(reader->file(), *head);
  if (!table) {
    print(table.problems(), s.err);
    return Exit::input_wrong;
  }
  PriceOutput output(o.output, s.out);
  std::optional<WholeFile> again;
  if (!o.output.empty()) {
    again.emplace(again_path(o.output));
    again->stream() << again_head(*table);
  }
  PartBooks books(o.workbooks);
  const bool progress = &s.err == &std::cerr && ::isatty(STDERR_FILENO) != 0;
  std::size_t done = 0, refused = 0;
  bool more = true;
  while (more) {
    std::vector<TableRow> rows;
    while (rows.size() < chunk_size && more) {
      auto row = reader->next();
      more = row.has_value();
      if (row) rows.push_back(std::move(*row));
    }
    if (rows.empty()) break;
    read_families(path, rows, *table);
    const std::vector<RowResult> results = work(*table, rows, shop, o);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      output.add(results[i].rows);
      if (results[i].job) books.write(*results[i].job, shop, o);
      if (results[i].priced()) continue;
      ++refused;
      print(results[i].problems, s.err);
      if (!results[i].why_not.empty())
        s.err << path << line_place(rows[i]) << ": " << table->cell(rows[i], "number") << ": "
              << results[i].why_not << "\n";
      if (again) again->stream() << again_row(*table, rows[i], one_line(results[i]));
    }
    done += rows.size();
    if (progress) s.err << "\r" << done << " parts" << (more ? "" : "\n") << std::flush;
  }
  if (sheet != nullptr && sheet->formulas() > 0)
    s.err
        << path << ": " << sheet->formulas()
        << " cells hold formulas; they are not worked out, the values saved with them were read\n";
  s.err << done - refused << " priced, " << refused << " refused\n";
  if (done == refused) return Exit::input_wrong;
  if (!o.output.empty()) {
    output.keep();
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
