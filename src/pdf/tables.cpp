// SPDX-License-Identifier: MIT
// Tables: how wide their columns are, then their rows as boxes.
#include <algorithm>
#include <numeric>

#include "boxes.hpp"

namespace turnwright::pdf {
namespace {

constexpr double thin = 0.4, thick = 1.1;
constexpr double pad_x = 0.4, wide_pad_x = 1, pad_y = 0.15;  // of the type
constexpr double most_described = 0.52;  // of the width, before all else has its room
constexpr double smaller = 0.82;         // what stands below in a cell

struct Widths {
  std::vector<double> least, natural;
};

class TableSetter {
 public:
  TableSetter(const paper::Table& table, double width, const Setting& setting)
      : table_(table),
        setting_(setting),
        points_(table.points > 0 ? table.points : setting.points),
        width_(width),
        columns_(widths()) {}

  std::vector<Piece> pieces() const;

 private:
  double type() const { return points_ * setting_.scale; }
  // Without lines a table begins where text does.
  double pad() const { return (table_.rules == paper::Rules::none ? 0 : pad_x) * type(); }
  double pads() const {
    return pad() + (table_.rules == paper::Rules::none ? wide_pad_x : pad_x) * type();
  }
  bool right(std::size_t column) const {
    return table_.columns[column].align == paper::Align::right;
  }
  Look look(const paper::Cell& cell) const {
    Look look = setting_.look(cell.type, points_);
    look.italic = cell.italic;
    return look;
  }
  Look below_look() const { return {points_ * smaller * setting_.scale, false, false}; }
  Look head_look() const { return {points_ * setting_.scale, true, false}; }

  void widen(Widths& widths, const paper::Cell& cell, std::size_t column) const;
  void widen(Widths& widths, const paper::Group& group) const;
  std::vector<double> widths() const;
  std::vector<double> shared(const Widths& widths) const;
  double width_from(std::size_t column, std::size_t span) const;
  double x_of(std::size_t column) const { return width_from(0, column); }

  Box head() const;
  Box cell_box(const paper::Cell& cell, double width, bool to_right) const;
  Box row_box(const paper::Row& row, std::size_t first) const;
  Box group_box(const paper::Group& group) const;
  Box described_box(const std::vector<paper::Text>& texts, double width) const;
  void rule(Box& box, double thickness) const {
    box.put(0, box.height, PlacedRule{width_, 0, thickness});
  }

  const paper::Table& table_;
  const Setting& setting_;
  double points_, width_;
  std::vector<double> columns_;
};

// Numbers stay on one line; words may be broken.
void TableSetter::widen(Widths& widths, const paper::Cell& cell, std::size_t column) const {
  if (cell.span > 1 || (cell.text.empty() && cell.below.empty())) return;
  const double pads = this->pads();
  const double whole = width_of(setting_.type.set(cell.text, look(cell))) + pads;
  const double least =
      right(column) ? whole : setting_.type.least_width(cell.text, look(cell)) + pads;
  const double below = setting_.type.least_width(cell.below, below_look()) + pads;
  const double all_below = width_of(setting_.type.set(cell.below, below_look())) + pads;
  widths.natural[column] = std::max({widths.natural[column], whole, all_below});
  widths.least[column] = std::max({widths.least[column], least, below});
}

void TableSetter::widen(Widths& widths, const paper::Group& group) const {
  const std::size_t first = group.described.empty() ? 0 : 1;
  for (const paper::Text& text : group.described) {
    const Look look = setting_.look(text.type, points_);
    widths.least[0] =
        std::max(widths.least[0], setting_.type.least_width(text.text, look) + pads());
    widths.natural[0] = std::max(
        widths.natural[0],
        std::min(width_of(setting_.type.set(text.text, look)) + pads(), most_described * width_));
  }
  for (const paper::Row& row : group.rows) {
    std::size_t column = first;
    for (const paper::Cell& cell : row.cells) {
      if (column >= table_.columns.size()) break;
      widen(widths, cell, column);
      column += cell.span;
    }
  }
}

std::vector<double> TableSetter::shared(const Widths& widths) const {
  std::vector<double> columns = widths.natural;
  const double natural = std::accumulate(columns.begin(), columns.end(), 0.0);
  const double least = std::accumulate(widths.least.begin(), widths.least.end(), 0.0);
  if (natural > width_) {
    const double share = natural > least ? (width_ - least) / (natural - least) : 0;
    for (std::size_t i = 0; i < columns.size(); ++i)
      columns[i] = widths.least[i] + (widths.natural[i] - widths.least[i]) * std::max(share, 0.0);
    return columns;
  }
  std::size_t stretching = 0;
  for (const paper::Column& column : table_.columns) stretching += column.stretches ? 1 : 0;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (stretching == 0)
      columns[i] += (width_ - natural) / static_cast<double>(columns.size());
    else if (table_.columns[i].stretches)
      columns[i] += (width_ - natural) / static_cast<double>(stretching);
  return columns;
}

std::vector<double> TableSetter::widths() const {
  const std::size_t count = table_.columns.size();
  Widths widths{std::vector<double>(count, 0), std::vector<double>(count, 0)};
  for (const paper::Group& group : table_.groups) widen(widths, group);
  // Headings are broken before numbers lose their room.
  Widths whole = widths;
  for (std::size_t i = 0; i < count; ++i) {
    const std::string& heading = table_.columns[i].heading;
    const double least = setting_.type.least_width(heading, head_look()) + pads();
    const double all = width_of(setting_.type.set(heading, head_look())) + pads();
    for (Widths* w : {&widths, &whole}) {
      w->least[i] = std::max(w->least[i], least);
      w->natural[i] = std::max(w->natural[i], w == &whole ? all : least);
    }
  }
  const double natural = std::accumulate(whole.natural.begin(), whole.natural.end(), 0.0);
  return shared(natural <= width_ ? whole : widths);
}

double TableSetter::width_from(std::size_t column, std::size_t span) const {
  double width = 0;
  for (std::size_t i = column; i < std::min(column + span, columns_.size()); ++i)
    width += columns_[i];
  return width;
}

Box TableSetter::cell_box(const paper::Cell& cell, double width, bool to_right) const {
  const Side side = to_right ? Side::right : Side::left;
  const double inner = std::max(width - pads(), 1.0);
  Box box;
  if (!cell.text.empty() || cell.below.empty()) {
    const Lines lines = setting_.type.set(cell.text, look(cell), inner, side);
    box.put(pad(), 0, PlacedText{lines, cell.type.ink});
    box.height = height_of(lines);
  }
  if (cell.below.empty()) return box;
  const Lines below = setting_.type.set(cell.below, below_look(), inner, side);
  box.put(pad(), box.height, PlacedText{below, paper::Ink::grey});
  box.height += height_of(below);
  return box;
}

Box TableSetter::head() const {
  Box box;
  if (!table_.has_head()) return box;
  std::vector<Lines> all;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    all.push_back(setting_.type.set(table_.columns[i].heading, head_look(),
                                    std::max(columns_[i] - pads(), 1.0),
                                    right(i) ? Side::right : Side::left));
    box.height = std::max(box.height, height_of(all.back()));
  }
  box.begin("TR");
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    box.begin("TH");
    box.put(x_of(i) + pad(), box.height - height_of(all[i]), PlacedText{all[i]});
    box.end("TH");
  }
  box.end("TR");
  box.height += pad_y * type();
  if (table_.rules != paper::Rules::none) rule(box, thick);
  box.height += 0.4 * mm * setting_.scale;
  return box;
}

// Cells of a row begin at the same base line.
Box TableSetter::row_box(const paper::Row& row, std::size_t first) const {
  struct Set {
    Box box;
    double x, width, base;
  };
  std::vector<Set> cells;
  Box box;
  std::size_t column = first;
  double base = 0;
  for (const paper::Cell& cell : row.cells) {
    if (column >= columns_.size()) break;
    const std::size_t span = row.heads ? columns_.size() - column : cell.span;
    const double width = width_from(column, span);
    cells.push_back({cell_box(cell, width, cell.right || (right(column) && !row.heads)),
                     x_of(column), width, base_of(setting_.type.set(cell.text, look(cell)))});
    base = std::max(base, cells.back().base);
    column += span;
  }
  const double room = pad_y * type();
  for (const Set& cell : cells)
    box.height = std::max(box.height, base - cell.base + cell.box.height + 2 * room);
  box.begin("TR");
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Set& cell = cells[i];
    if (row.cells[i].ground != paper::Colour::none)
      box.put(cell.x, 0, PlacedGround{cell.width, box.height, row.cells[i].ground});
    box.begin(row.heads ? "TH" : "TD");
    box.put(cell.x, room + base - cell.base, cell.box);
    box.end(row.heads ? "TH" : "TD");
    if (table_.rules == paper::Rules::grid) {
      box.put(cell.x, 0, PlacedRule{cell.width, 0, thin});
      box.put(cell.x, box.height, PlacedRule{cell.width, 0, thin});
      box.put(cell.x, 0, PlacedRule{0, box.height, thin});
      box.put(cell.x + cell.width, 0, PlacedRule{0, box.height, thin});
    }
  }
  box.end("TR");
  if (table_.rules == paper::Rules::rows) rule(box, thin);
  return box;
}

Box TableSetter::described_box(const std::vector<paper::Text>& texts, double width) const {
  Box box;
  for (const paper::Text& text : texts) {
    const Box one = text_box(text, width - pads(), points_, setting_);
    box.height += text.before * mm * setting_.scale;
    box.put(pad(), box.height, one);
    box.height += one.height;
  }
  return box;
}

Box TableSetter::group_box(const paper::Group& group) const {
  const std::size_t first = group.described.empty() ? 0 : 1;
  const double air = table_.rules == paper::Rules::groups ? 1.3 * mm * setting_.scale : 0;
  Box box;
  double beside = 0;
  if (first > 0) {
    const double width = group.rows.empty() ? width_ : columns_[0];
    const Box described = described_box(group.described, width);
    box.put(0, air + pad_y * type(), described);
    beside = air + described.height + 2 * pad_y * type();
  }
  box.height = air;
  for (const paper::Row& row : group.rows) {
    const Box one = row_box(row, first);
    box.put(0, box.height, one);
    box.height += one.height;
  }
  box.height = std::max(box.height, beside) + air;
  if (table_.rules == paper::Rules::groups) rule(box, thin);
  return box;
}

bool only_heads(const paper::Group& group) {
  return group.described.empty() && std::all_of(group.rows.begin(), group.rows.end(),
                                                [](const paper::Row& row) { return row.heads; });
}

std::vector<Piece> TableSetter::pieces() const {
  std::vector<Piece> list;
  const Box head_once = head();
  for (const paper::Group& group : table_.groups) {
    Piece piece;
    piece.box = group_box(group);
    piece.before = list.empty() ? table_.before * mm * setting_.scale : 0;
    piece.with_next = only_heads(group);
    piece.table = &table_;
    piece.head = head_once;
    list.push_back(std::move(piece));
  }
  if (!list.empty()) list.back().with_next = false;
  return list;
}

}  // namespace

std::vector<Piece> table_pieces(const paper::Table& table, double width, const Setting& setting) {
  return TableSetter(table, width, setting).pieces();
}

}  // namespace turnwright::pdf
