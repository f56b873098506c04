// SPDX-License-Identifier: MIT
// The priced list: its columns are words of a file, in English in every language; a workbook has
// them in the reader's.
#include "turnwright/output/price_table.hpp"

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

std::string joined(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i > 0 ? "," : "") + table_cell(cells[i]);
  return line + "\n";
}

PriceCell money_cell(Money m) { return {m.text(), m.amount().si, 2}; }
PriceCell number_cell(double value, int places) { return {fixed(value, places), value, places}; }
PriceCell text_cell(std::string text) { return {std::move(text), {}, 0}; }
// English in a file, as its columns are.
PriceCell messages_cell(const Messages& messages) {
  return {Words().joined(messages, between_messages), {}, 0, messages};
}
PriceCell minutes_cell(Time t, int places) { return number_cell(in(t, unit::min), places); }

Money sum_of(const std::vector<OneOffLine>& one_offs) {
  Money sum;
  for (const OneOffLine& o : one_offs) sum = sum + o.price;
  return sum;
}

// A row's cells in the order of the columns.
PriceRow price_row(const Quote& q, const Price& p, const std::string& notes) {
  const Part& part = q.route.job.part;
  return {text_cell(part.number),
          text_cell(part.name),
          text_cell(part.revision),
          text_cell(q.route.job.material.name),
          text_cell(p.method),
          text_cell(p.made_on),
          number_cell(p.quantity, 0),
          money_cell(p.each),
          number_cell(p.price_unit, 0),
          money_cell(p.total),
          money_cell(p.minimum_surcharge),
          text_cell(q.currency),
          money_cell(p.cost),
          number_cell(p.margin_share, 4),
          money_cell(p.p10_each),
          money_cell(p.p50_each),
          money_cell(p.p90_each),
          number_cell(p.loss_chance, 3),
          minutes_cell(p.cycle, 3),
          minutes_cell(p.attended, 3),
          minutes_cell(p.setup, 1),
          money_cell(sum_of(q.one_offs)),
          messages_cell(to_confirm(q)),
          text_cell(notes)};
}

}  // namespace

const std::vector<PriceColumn>& price_columns() {
  static const std::vector<PriceColumn> columns{{"number", "xlsx.list-number", 16},
                                                {"name", "xlsx.list-name", 24},
                                                {"revision", "xlsx.list-revision"},
                                                {"material", "xlsx.list-material", 16},
                                                {"method", "text.method", 46},
                                                {"machine", "xlsx.list-machine", 22},
                                                {"qty", "text.qty"},
                                                {"price each", "text.price-each"},
                                                {"price unit", "xlsx.list-price-unit"},
                                                {"total", "text.total-price"},
                                                {"minimum surcharge", "xlsx.surcharge"},
                                                {"currency", "xlsx.list-currency"},
                                                {"cost", "text.cost"},
                                                {"margin share", "xlsx.margin-share"},
                                                {"cost each P10", "xlsx.cost-p10"},
                                                {"cost each P50", "xlsx.cost-p50"},
                                                {"cost each P90", "xlsx.cost-p90"},
                                                {"risk of loss", "text.risk-of-loss"},
                                                {"cycle time min", "text.cycle-min"},
                                                {"operator time min", "text.operator-min"},
                                                {"setup min", "text.setup-min"},
                                                {"one-offs", "cost.one-offs"},
                                                {"not confirmed", "text.not-confirmed", 60},
                                                {"notes", "xlsx.list-notes", 40}};
  return columns;
}

std::vector<PriceRow> price_rows(const Quote& q, const std::string& notes) {
  std::vector<PriceRow> rows;
  for (const Price& p : q.prices) rows.push_back(price_row(q, p, notes));
  return rows;
}

std::string price_line(const PriceRow& row) {
  std::vector<std::string> cells;
  for (const PriceCell& cell : row) cells.push_back(cell.text);
  return joined(cells);
}

std::string price_head() {
  std::vector<std::string> cells;
  for (const PriceColumn& column : price_columns()) cells.emplace_back(column.name);
  return joined(cells);
}

std::string again_head(const PartTable& table) {
  std::vector<std::string> cells = table.columns();
  cells.emplace_back(PartTable::problem_column);
  return joined(cells);
}

std::string again_row(const PartTable& table, const TableRow& row, const std::string& problem) {
  std::vector<std::string> cells = table.texts(row);
  cells.push_back(problem);
  return joined(cells);
}

}  // namespace turnwright
