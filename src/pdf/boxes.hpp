// SPDX-License-Identifier: MIT
#pragma once
// Blocks laid out at a width: boxes of things that have their place in them.
#include <cairo.h>

#include <variant>

#include "type.hpp"

namespace turnwright::pdf {

struct PlacedText {
  Lines lines;
  paper::Ink ink = paper::Ink::black;
};
struct PlacedGround {
  double width = 0, height = 0;
  paper::Colour colour = paper::Colour::none;
};
struct PlacedRule {
  double to_x = 0, to_y = 0;  // from its place
  double thickness = 0.5;
};
struct PlacedDrawing {
  const paper::Drawing* drawing = nullptr;
  double scale = 1;
};
/// What readers of the document's structure are told: a paragraph, a row, a cell begins or ends.
struct TagBegin {
  const char* name;
};
struct TagEnd {
  const char* name;
};

struct Item {
  double x = 0, y = 0;
  std::variant<PlacedText, PlacedGround, PlacedRule, PlacedDrawing, TagBegin, TagEnd> is;
};

struct Box {
  double height = 0;
  std::vector<Item> items = {};

  template <class T>
  void put(double x, double y, T thing) {
    items.push_back({x, y, std::move(thing)});
  }
  void put(double x, double y, const Box& box);
  void begin(const char* tag) { put(0, 0, TagBegin{tag}); }
  void end(const char* tag) { put(0, 0, TagEnd{tag}); }
};

/// What is not parted by the end of a page, but for a paragraph.
struct Piece {
  Box box;
  const paper::Text* text = nullptr;  // that it may be parted into lines of
  double before = 0;                  // room above, not at the top of a page
  bool with_next = false;             // a heading
  bool new_page = false;              // nothing but that
  const paper::Table* table = nullptr;
  Box head = {};  // of the table, again on every page
};

/// Type, its size, and by how much all is drawn smaller.
struct Setting {
  const Typesetter& type;
  double points = 10, scale = 1;

  Look look(const paper::Type& of, double usual) const {
    return {(of.points > 0 ? of.points : usual) * scale, of.bold, false};
  }
};

Box text_box(const paper::Text& text, double width, double points, const Setting& setting);
/// A paragraph over pages: what fits into the room that is `left`, which may be nothing, then into
/// `whole` pages.
std::vector<Box> text_parts(const paper::Text& text, double width, double left, double whole,
                            const Setting& setting);
std::vector<Piece> pieces_of(const paper::Block& block, double width, const Setting& setting);
/// All of them, one under the other.
Box stack(const paper::Blocks& blocks, double width, const Setting& setting);

/// In tables.cpp.
std::vector<Piece> table_pieces(const paper::Table& table, double width, const Setting& setting);
/// In drawing.cpp.
/// Shapes and labels, at the scale that `cairo` has.
void draw_drawing(cairo_t* cairo, const paper::Drawing& drawing, const Typesetter& type);
Box drawing_box(const paper::Drawing& drawing, double width, const Setting& setting);
void draw(cairo_t* cairo, const Box& page, const Typesetter& type);
void set_colour(cairo_t* cairo, paper::Colour colour);
void set_ink(cairo_t* cairo, paper::Ink ink);

}  // namespace turnwright::pdf
