// SPDX-License-Identifier: MIT
#pragma once
// A document for paper, as blocks in the reader's words: written as a page of HTML, or drawn as PDF
// by the plug-in that does so. Both say the same since both are made of this. Millimetres and
// points.
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "turnwright/output/drawing.hpp"

namespace turnwright::paper {

enum class Ink { black, grey, red };

struct Type {
  double points = 0;  // 0: of running text
  bool bold = false;
  Ink ink = Ink::black;
};

enum class Role { title, heading, text, item };

/// A paragraph; "\n" breaks its line.
struct Text {
  std::string text;
  Role role = Role::text;
  Type type = {};
  double before = 0;  // mm of room
};

struct Cell {
  std::string text;
  std::string below = {};  // smaller, under it
  Type type = {};
  Colour ground = Colour::none;
  std::size_t span = 1;  // columns
  bool italic = false;
  bool right = false;  // also where its column is not
};

struct Row {
  std::vector<Cell> cells;
  bool heads = false;  // names what follows, over all columns
};

/// Rows that stay on one page, right of what describes them all in the first column.
struct Group {
  std::vector<Text> described = {};
  std::vector<Row> rows = {};
};

enum class Align { left, right };
struct Column {
  std::string heading;
  Align align = Align::left;
  bool stretches = false;  // takes the room that is over
};

/// Lines under groups, under every row, around every cell.
enum class Rules { none, groups, rows, grid };

struct Table {
  std::string label;  // for readers of the screen's text
  std::vector<Column> columns = {};
  std::vector<Group> groups = {};
  Rules rules = Rules::rows;
  double points = 0;  // of its text; 0: of running text
  double before = 2;  // mm

  void add(Row row) { groups.push_back({{}, {std::move(row)}}); }
  bool has_head() const {
    for (const Column& column : columns)
      if (!column.heading.empty()) return true;
    return false;
  }
};

struct Block;
/// Two columns side by side.
struct Beside {
  std::vector<Block> left, right;
  double left_share = 0.5;
};
struct NewPage {};

struct Block {
  std::variant<Text, Table, Drawing, Beside, NewPage> is;
  template <class T>
  requires(!std::is_same_v<T, Block>) Block(T block) : is(std::move(block)) {}
};
using Blocks = std::vector<Block>;

/// Stand for the numbers in `count`.
inline constexpr char page_mark = '\n', pages_mark = '\t';

struct Paper {
  std::string title, language;
  std::string date = {};  // ISO; "": the document has none
  bool letter = false, landscape = false;
  double margin = 14;       // mm
  double points = 10;       // of running text
  std::string foot = {};    // left of the count of pages
  std::string count = {};   // "Page \n of \t"
  std::string across = {};  // over every page
  std::size_t pages = 0;    // that it should fit into; 0: any
  double smallest = 1;      // share of its type that it may shrink to for that
  Blocks blocks = {};
};

}  // namespace turnwright::paper

namespace turnwright {

/// No network, no script.
std::string paper_page(const paper::Paper& paper);

}  // namespace turnwright
