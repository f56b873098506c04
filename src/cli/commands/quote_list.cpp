// SPDX-License-Identifier: MIT
// A whole list priced: read, planned and written in chunks, so that memory does not grow with it.
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <optional>
#include <unordered_map>

#include "command.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "list_reader.hpp"
#include "outputs.hpp"
#include "price_output.hpp"
#include "sheet_pictures.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/estimate/pricing.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/part/part_table.hpp"
#include "turnwright/quantity/in_parallel.hpp"

namespace turnwright::cli {
namespace {

constexpr std::size_t chunk_size = 1024;
constexpr std::size_t most_again = 100;  // rows that stand twice are said one by one up to here

struct RowResult {
  std::vector<PriceRow> rows;  // of the priced table
  std::optional<Job> job;      // for its workbook, where one is asked for
  Problems problems;
  Message not_possible;        // read, but there is no method for it
  bool below_minimum = false;  // at a quantity it comes to less than the minimum order
  bool priced() const { return problems.empty() && not_possible.empty(); }
};

Message refusal(const Infeasible& infeasible) {
  if (infeasible.remedies.empty()) return {"cli.not-possible", {{"why", infeasible.why}}};
  return {"cli.not-possible-helps", {{"why", infeasible.why}, {"help", infeasible.remedies}}};
}

RowResult priced(const Session& session, const PartTable& table, const TableRow& row) {
  const Options& o = session.options;
  RowResult result;
  const auto part = table.read(row);
  if (!part) {
    result.problems = part.problems();
    return result;
  }
  const auto job = prepare(*part, session.shop);
  if (!job) {
    result.problems = table.in_row(job.problems(), row);
    return result;
  }
  const auto part_quote = price_part(*job, session.shop, session.fixed);
  if (!part_quote) {
    result.not_possible = refusal(part_quote.infeasible());
    return result;
  }
  const Quote quote = with_band(*part_quote, session.shop).quote;
  result.rows = price_rows(quote, table.cell(row, "notes"));
  result.below_minimum =
      std::any_of(quote.prices.begin(), quote.prices.end(),
                  [&](const Price& price) { return is_below_minimum(price, session.shop.policy); });
  if (!o.workbooks.empty()) result.job = *job;
  return result;
}

std::string one_line(const Session& session, const RowResult& result) {
  const std::string text = session.words(result.not_possible);
  const std::string problems = one_line(session, result.problems);
  return text + (text.empty() || problems.empty() ? "" : " | ") + problems;
}

void write_part_workbook(const Session& session, const Job& job, const std::string& path,
                         SheetPictures& pictures) {
  const PartQuote part = with_band(*quote_part(job, session.shop, session.fixed), session.shop);
  put_verified_workbook(path, [&](const std::string& temporary) {
    const Words words = session.words_for(job.part.inch);
    write_workbook(part, session.shop, {}, words, temporary, pictures.of(part, words));
  });
}

// The families that these rows name, each read once, from the folder of the table.
void read_families(const std::string& list, const std::vector<TableRow>& rows, PartTable& table) {
  const std::filesystem::path folder = std::filesystem::path(list).parent_path();
  for (const TableRow& row : rows) {
    const std::string name = table.cell(row, "family");
    if (name.empty() || table.knows_family(name)) continue;
    const std::string path = (folder / name).string();
    if (exists(path) && !is_folder(path))
      table.add_family(name, read_document(path, read_file(path)));
  }
}

std::string place_of(const std::string& path, const TableRow& row, const Words& words) {
  if (!row.in_sheet) return path + ":" + std::to_string(row.line);
  return words({"cli.sheet-row", {{"path", path}, {"row", std::to_string(row.line)}}});
}

/// A list on its way from rows to prices.
class ListRun {
 public:
  ListRun(const Session& session, PartTable table)
      : session_(session),
        table_(std::move(table)),
        output_(session, session.options.output),
        pictures_(session),
        workbooks_(session.options.workbooks, {session.options.operands[0], session.options.output,
                                               rejected_path(session.options.output)}) {
    if (!session.options.workbooks.empty()) pictures_.prepare();
    if (session.options.output.empty()) return;
    rejected_.emplace(rejected_path(session.options.output));
    rejected_->stream() << again_head(table_);
  }
  void add(const std::vector<TableRow>& rows) {
    read_families(session_.options.operands[0], rows, table_);
    std::vector<RowResult> results(rows.size());
    in_parallel(rows.size(), session_.threads(),
                [&](std::size_t i) { results[i] = priced(session_, table_, rows[i]); });
    for (std::size_t i = 0; i < rows.size(); ++i) add(rows[i], results[i]);
    done_ += rows.size();
    const bool progress = &session_.streams.err == &std::cerr && ::isatty(STDERR_FILENO) != 0;
    // Past the stream, which would not pass on the return to the line's beginning.
    if (progress)
      std::fprintf(stderr, "\r%s", session_.words({"cli.parts-done", {{"n", done_}}}).c_str());
  }
  Exit close() {
    if (again_ > most_again) session_.note({"cli.more-again", {{"n", again_ - most_again}}});
    if (with_notes_ > 0) session_.note({"cli.rows-with-notes", {{"n", with_notes_}}});
    if (below_minimum_ > 0)
      session_.note({"cli.rows-below-minimum",
                     {{"n", below_minimum_}, {"minimum", session_.shop.policy.minimum_order}}});
    session_.note({"cli.priced", {{"priced", done_ - refused_}, {"refused", refused_}}});
    if (done_ == refused_) return Exit::input_wrong;
    const std::string& path = session_.options.output;
    if (!path.empty()) {
      std::vector<PendingFile*> files;
      if (refused_ > 0) files.push_back(&rejected_->finished());
      files.push_back(output_.finished());
      keep_all(files);
      session_.note({"cli.written", {{"path", path}}});
      if (refused_ > 0) session_.note({"cli.written-refused", {{"path", rejected_path(path)}}});
    }
    return refused_ > 0 ? Exit::answer_is_no : Exit::done;
  }

 private:
  // A number that stood in the list before, with the same part or with another.
  void say_if_again(const TableRow& row) {
    const std::string number = table_.cell(row, "number");
    const std::size_t part = std::hash<std::string>()(table_.identity(row));
    const auto [before, is_new] = seen_.emplace(number, Seen{row.line, part});
    if (is_new || number.empty() || ++again_ > most_again) return;
    session_.note({before->second.part == part ? "cli.row-again" : "cli.number-again",
                   {{"number", number}, {"first", before->second.line}, {"row", row.line}}});
  }
  void add(const TableRow& row, const RowResult& result) {
    say_if_again(row);
    output_.add(result.rows);
    below_minimum_ += result.below_minimum ? 1 : 0;
    with_notes_ += table_.cell(row, "notes").empty() ? 0 : 1;
    if (result.job)
      write_part_workbook(session_, *result.job, workbooks_.path(result.job->part.number, ".xlsx"),
                          pictures_);
    if (result.priced()) return;
    ++refused_;
    session_.print(result.problems);
    if (!result.not_possible.empty() && session_.says_more())
      session_.streams.err << place_of(session_.options.operands[0], row, session_.words) << ": "
                           << session_.words.name(table_.cell(row, "number")) << ": "
                           << session_.words(result.not_possible) << "\n";
    if (rejected_) rejected_->stream() << again_row(table_, row, one_line(session_, result));
  }

  const Session& session_;
  PartTable table_;
  PriceOutput output_;
  SheetPictures pictures_;
  FileNames workbooks_;
  std::optional<WholeFile> rejected_;
  std::size_t done_ = 0, refused_ = 0, again_ = 0, below_minimum_ = 0, with_notes_ = 0;
  struct Seen {
    int line = 0;
    std::size_t part = 0;
  };
  std::unordered_map<std::string, Seen> seen_;
};

Message fault_of(const Session& session) {
  const Options& o = session.options;
  if (o.operands.size() > 1) return "cli.one-list";
  if (o.json || o.why || !o.week.empty()) return "cli.part-options";
  if (Message fault = output_fault(session, {".csv", ".xlsx"}, false); !fault.empty()) return fault;
  const std::string again = rejected_path(o.output);
  if (!again.empty() && (same_file(again, o.operands[0]) || again == o.output))
    return {"cli.output-is-input", {{"path", again}}};
  if (!o.workbooks.empty() && !is_folder(o.workbooks))
    return {"cli.workbooks-folder", {{"path", o.workbooks}}};
  return {};
}

// The customer's layout of lists, where a file says it.
Checked<ListLayout> layout_of(const Session& session) {
  const std::string& path = session.options.columns;
  if (path.empty()) return ListLayout{};
  return read_list_layout(path, read_file(path));
}

// What of the file is not read, and how its numbers are.
void say_what_is_read(const Session& session, const ListReader& list, const PartTable& table,
                      std::size_t above) {
  const std::string& path = session.options.operands[0];
  if (Messages others = list.other_sheets(); !others.empty())
    session.note({"cli.sheets-not-read", {{"path", path}, {"sheets", std::move(others)}}});
  if (above > 0) session.note({"cli.rows-above", {{"path", path}, {"n", above}}});
  for (const Message& note : table.notes()) session.note(note);
}

}  // namespace

Exit quote_list(Session& session) {
  const std::string& path = session.options.operands[0];
  if (const Message fault = fault_of(session); !fault.empty()) return session.wrong(fault);
  if (!ready(session)) return Exit::input_wrong;
  const auto layout = layout_of(session);
  if (!layout) {
    session.print(layout.problems());
    return Exit::input_wrong;
  }
  ListReader list(session, path, layout->sheet);
  HeadingWords words = layout->headings;
  words.merge(heading_words(list_columns()));
  const auto [head, above] =
      head_of(list.rows(), [&](const TableRow& row) { return PartTable::is_head(row, words); });
  if (!head) {
    session.note({"cli.no-rows", {{"path", path}}});
    return Exit::input_wrong;
  }
  auto table = PartTable::read_head(list.rows().file(), *head, words);
  if (!table) {
    session.print(table.problems());
    return Exit::input_wrong;
  }
  table->use(session.shop.currencies);
  auto rows = list.chunk(chunk_size);
  table->find_convention(rows);
  table->use_inches(layout->inch);
  say_what_is_read(session, list, *table, above);
  if (rows.empty()) {
    session.note({"cli.only-headings", {{"path", path}, {"line", head->line}}});
    return Exit::input_wrong;
  }
  ListRun run(session, std::move(*table));
  for (; !rows.empty(); rows = list.chunk(chunk_size)) run.add(rows);
  if (list.hidden() > 0) session.note({"cli.rows-hidden", {{"path", path}, {"n", list.hidden()}}});
  if (list.formulas() > 0) session.note({"cli.formulas", {{"path", path}, {"n", list.formulas()}}});
  return run.close();
}

}  // namespace turnwright::cli
