// SPDX-License-Identifier: MIT
#include "turnwright/output/price_table.hpp"

#include "shown.hpp"

namespace turnwright {
namespace {

std::string joined(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i > 0 ? "," : "") + table_cell(cells[i]);
  return line + "\n";
}
bool remark_of_ours(const std::string& column) { return column == "problem"; }

}  // namespace

std::string price_table_head() {
  return joined({"number",
                 "name",
                 "revision",
                 "material",
                 "machine",
                 "good pieces",
                 "price each",
                 "total",
                 "minimum surcharge",
                 "currency",
                 "cost",
                 "margin share",
                 "cost each P10",
                 "cost each P50",
                 "cost each P90",
                 "chance of loss",
                 "machine each min",
                 "operator each min",
                 "make-ready min",
                 "not confirmed",
                 "notes"});
}

std::string price_table_rows(const Quote& q, const std::string& notes) {
  const Part& part = q.route.job.part;
  std::string unconfirmed;
  for (const std::string& u : q.unconfirmed) unconfirmed += (unconfirmed.empty() ? "" : "; ") + u;
  std::string rows;
  for (const Price& p : q.prices)
    rows += joined({part.number,
                    part.name,
                    part.revision,
                    q.route.job.material.name,
                    q.route.machine.name,
                    std::to_string(p.quantity),
                    p.each.text(),
                    p.total.text(),
                    p.minimum_surcharge.text(),
                    q.currency,
                    p.cost.text(),
                    fixed(p.margin_share, 4),
                    p.p10_each.text(),
                    p.p50_each.text(),
                    p.p90_each.text(),
                    fixed(p.loss_chance, 3),
                    minutes(q.times.machine_each, 3),
                    minutes(q.times.person_each, 3),
                    minutes(q.times.make_ready, 1),
                    unconfirmed,
                    notes});
  return rows;
}

std::string again_head(const PartTable& table) {
  std::vector<std::string> cells;
  for (const std::string& c : table.columns())
    if (!remark_of_ours(c)) cells.push_back(c);
  cells.emplace_back("problem");
  return joined(cells);
}

std::string again_row(const PartTable& table, const TableRow& row, const std::string& problem) {
  std::vector<std::string> cells;
  for (std::size_t i = 0; i < table.columns().size(); ++i)
    if (!remark_of_ours(table.columns()[i]))
      cells.push_back(i < row.cells.size() ? row.cells[i].text : "");
  cells.push_back(problem);
  return joined(cells);
}

}  // namespace turnwright
