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

const std::vector<std::string>& price_columns() {
  static const std::vector<std::string> columns{"number",
                                                "name",
                                                "revision",
                                                "material",
                                                "machine",
                                                "good pieces",
                                                "price each",
                                                "price unit",
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
                                                "one-offs",
                                                "not confirmed",
                                                "notes"};
  return columns;
}

std::vector<PriceRow> price_rows(const Quote& q, const std::string& notes) {
  const Part& part = q.route.job.part;
  std::string unconfirmed;
  for (const std::string& u : q.unconfirmed) unconfirmed += (unconfirmed.empty() ? "" : "; ") + u;
  Money one_offs;
  for (const OneOffLine& o : q.one_offs) one_offs = one_offs + o.price;
  std::vector<PriceRow> rows;
  for (const Price& p : q.prices) {
    auto money = [](Money m) { return PriceCell{m.text(), m.amount().si, 2}; };
    auto number = [](double value, int places) {
      return PriceCell{fixed(value, places), value, places};
    };
    auto text = [](const std::string& words) { return PriceCell{words, {}, 0}; };
    rows.push_back({text(part.number),
                    text(part.name),
                    text(part.revision),
                    text(q.route.job.material.name),
                    text(q.route.machine.name),
                    number(p.quantity, 0),
                    money(p.each),
                    number(p.price_unit, 0),
                    money(p.total),
                    money(p.minimum_surcharge),
                    text(q.currency),
                    money(p.cost),
                    number(p.margin_share, 4),
                    money(p.p10_each),
                    money(p.p50_each),
                    money(p.p90_each),
                    number(p.loss_chance, 3),
                    number(in(q.times.machine_each, unit::min), 3),
                    number(in(q.times.person_each, unit::min), 3),
                    number(in(q.times.setup, unit::min), 1),
                    money(one_offs),
                    text(unconfirmed),
                    text(notes)});
  }
  return rows;
}

std::string price_line(const PriceRow& row) {
  std::vector<std::string> cells;
  for (const PriceCell& cell : row) cells.push_back(cell.text);
  return joined(cells);
}
std::string price_head() { return joined(price_columns()); }

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
