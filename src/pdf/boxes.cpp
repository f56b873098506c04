// SPDX-License-Identifier: MIT
#include "boxes.hpp"

#include <algorithm>

namespace turnwright::pdf {
namespace {

constexpr std::size_t fewest_lines = 2;  // of a paragraph before and after the end of a page
constexpr double gutter = 7 * mm, bullet_room = 3.5 * mm;

const char* tag_of(paper::Role role) {
  switch (role) {
    case paper::Role::title:
      return "H1";
    case paper::Role::heading:
      return "H2";
    default:
      return "P";
  }
}

bool is_heading(paper::Role role) { return role == paper::Role::heading; }

Box beside_box(const paper::Beside& beside, double width, const Setting& setting) {
  const double left = (width - gutter) * beside.left_share;
  Box box;
  const Box first = stack(beside.left, left, setting);
  const Box second = stack(beside.right, width - gutter - left, setting);
  box.put(0, 0, first);
  box.put(left + gutter, 0, second);
  box.height = std::max(first.height, second.height);
  return box;
}

Piece piece_of(Box box, double before) {
  Piece piece;
  piece.box = std::move(box);
  piece.before = before;
  return piece;
}

std::vector<Piece> one(Piece piece) {
  std::vector<Piece> list;
  list.push_back(std::move(piece));
  return list;
}

double inset_of(const paper::Text& text, const Setting& setting) {
  return text.role == paper::Role::item ? bullet_room * setting.scale : 0;
}

// Behind the last of the lines from `first` that a room takes.
std::size_t end_of_room(const std::vector<Line>& lines, std::size_t first, double room) {
  std::size_t end = first;
  while (end < lines.size() && lines[end].bottom - lines[first].top <= room) ++end;
  if (end == lines.size()) return end;
  // No line goes alone to the next page.
  return std::max(first, std::min(end, lines.size() - std::min(lines.size(), fewest_lines)));
}

// Without the dot of an item, which stands before its first lines only.
Box later_part(paper::Text text, double width, const Setting& setting) {
  const double inset = inset_of(text, setting);
  text.role = paper::Role::text;
  const Box part = text_box(text, width - inset, setting.points, setting);
  Box box;
  box.put(inset, 0, part);
  box.height = part.height;
  return box;
}

struct PieceMaker {
  double width;
  const Setting& setting;

  std::vector<Piece> operator()(const paper::Text& text) const {
    Piece piece =
        piece_of(text_box(text, width, setting.points, setting), text.before * mm * setting.scale);
    piece.with_next = is_heading(text.role);
    if (!piece.with_next) piece.text = &text;
    return one(std::move(piece));
  }
  std::vector<Piece> operator()(const paper::Table& table) const {
    return table_pieces(table, width, setting);
  }
  std::vector<Piece> operator()(const paper::Drawing& drawing) const {
    return one(piece_of(drawing_box(drawing, width, setting), 2 * mm * setting.scale));
  }
  std::vector<Piece> operator()(const paper::Beside& beside) const {
    return one(piece_of(beside_box(beside, width, setting), 2 * mm * setting.scale));
  }
  std::vector<Piece> operator()(const paper::NewPage&) const {
    Piece piece;
    piece.new_page = true;
    return one(std::move(piece));
  }
};

}  // namespace

void Box::put(double x, double y, const Box& box) {
  for (Item item : box.items) {
    item.x += x;
    item.y += y;
    items.push_back(std::move(item));
  }
}

Box text_box(const paper::Text& text, double width, double points, const Setting& setting) {
  const bool item = text.role == paper::Role::item;
  const double inset = inset_of(text, setting);
  const Look look = setting.look(text.type, points);
  const Lines lines = setting.type.set(text.text, look, width - inset);
  Box box;
  box.begin(tag_of(text.role));
  if (item) box.put(0, 0, PlacedText{setting.type.set("•", look), text.type.ink});
  box.put(inset, 0, PlacedText{lines, text.type.ink});
  box.end(tag_of(text.role));
  box.height = height_of(lines);
  return box;
}

std::vector<Box> text_parts(const paper::Text& text, double width, double left, double whole,
                            const Setting& setting) {
  const Lines set = setting.type.set(text.text, setting.look(text.type, setting.points),
                                     width - inset_of(text, setting));
  const std::vector<Line> lines = each_of(set);
  const std::string words = text_in(set);
  std::vector<Box> parts;
  std::size_t first = end_of_room(lines, 0, left);
  if (first < fewest_lines && first < lines.size()) first = 0;
  paper::Text part = text;
  const auto put = [&](std::size_t from, std::size_t to) {
    part.text = words.substr(lines[from].from, lines[to - 1].to - lines[from].from);
    parts.push_back(from == 0 ? text_box(part, width, setting.points, setting)
                              : later_part(part, width, setting));
  };
  if (first == 0)
    parts.emplace_back();
  else
    put(0, first);
  while (first < lines.size()) {
    const std::size_t end = std::max(end_of_room(lines, first, whole), first + 1);
    put(first, end);
    first = end;
  }
  return parts;
}

std::vector<Piece> pieces_of(const paper::Block& block, double width, const Setting& setting) {
  return std::visit(PieceMaker{width, setting}, block.is);
}

Box stack(const paper::Blocks& blocks, double width, const Setting& setting) {
  Box box;
  const paper::Table* table = nullptr;
  for (const paper::Block& block : blocks)
    for (const Piece& piece : pieces_of(block, width, setting)) {
      if (piece.new_page) continue;
      box.height += box.items.empty() ? 0 : piece.before;
      if (piece.table != nullptr && piece.table != table) {
        box.put(0, box.height, piece.head);
        box.height += piece.head.height;
      }
      table = piece.table;
      box.put(0, box.height, piece.box);
      box.height += piece.box.height;
    }
  return box;
}

}  // namespace turnwright::pdf
