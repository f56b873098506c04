// SPDX-License-Identifier: MIT
#include "boxes.hpp"

#include <algorithm>

namespace turnwright::pdf {
namespace {

constexpr double gutter = 7 * mm, bullet_room = 3.5 * mm;

const char* tag_of(paper::Role role) {
  switch (role) {
    case paper::Role::title:
      return "H1";
    case paper::Role::heading:
      return "H2";
    case paper::Role::subheading:
      return "H3";
    default:
      return "P";
  }
}

bool is_heading(paper::Role role) {
  return role == paper::Role::heading || role == paper::Role::subheading;
}

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

struct PieceMaker {
  double width;
  const Setting& setting;

  std::vector<Piece> operator()(const paper::Text& text) const {
    Piece piece =
        piece_of(text_box(text, width, setting.points, setting), text.before * mm * setting.scale);
    piece.with_next = is_heading(text.role);
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
  const double inset = item ? bullet_room * setting.scale : 0;
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
