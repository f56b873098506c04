// SPDX-License-Identifier: MIT
#include "pages.hpp"

#include <optional>

namespace turnwright::pdf {
namespace {

constexpr double shrink_step = 0.04;
constexpr double rounding = 0.01;  // of heights that were added up

class PageBreaker {
 public:
  PageBreaker(const Sheet& sheet, std::vector<Piece> pieces, const Setting& setting)
      : sheet_(sheet), pieces_(std::move(pieces)), setting_(setting) {}

  /// Nothing where a piece is higher than a page.
  std::optional<std::vector<Box>> pages() {
    begin_page();
    for (std::size_t i = 0; i < pieces_.size(); ++i) place(i);
    end_table();
    if (too_high_) return std::nullopt;
    return std::move(pages_);
  }

 private:
  bool at_top() const { return y_ <= sheet_.margin; }
  void begin_page() {
    end_table();
    pages_.emplace_back();
    y_ = sheet_.margin;
  }
  void end_table() {
    if (table_ != nullptr) pages_.back().end("Table");
    table_ = nullptr;
  }
  // With what must follow on the same page.
  double room_for(std::size_t i) const {
    const Piece& piece = pieces_[i];
    double room = (at_top() ? 0 : piece.before) + piece.box.height;
    if (piece.table != table_) room += piece.head.height;
    for (; pieces_[i].with_next && i + 1 < pieces_.size(); ++i)
      room += pieces_[i + 1].before + pieces_[i + 1].box.height +
              (pieces_[i + 1].table != pieces_[i].table ? pieces_[i + 1].head.height : 0);
    return room;
  }
  double left() const { return sheet_.bottom() - y_ + rounding; }
  void put(const Box& box) {
    if (box.height > left()) too_high_ = true;
    pages_.back().put(sheet_.margin, y_, box);
    y_ += box.height;
  }
  void put_text(const Piece& piece) {
    if (piece.box.height <= left()) return put(piece.box);
    const double whole = sheet_.bottom() - sheet_.margin + rounding;
    const std::vector<Box> parts =
        text_parts(*piece.text, sheet_.inner_width(), left(), whole, setting_);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (i > 0) begin_page();
      if (!parts[i].items.empty()) put(parts[i]);
    }
  }
  void place(std::size_t i) {
    const Piece& piece = pieces_[i];
    if (piece.new_page) {
      if (!at_top()) begin_page();
      return;
    }
    if (!at_top() && piece.text == nullptr && room_for(i) > left()) begin_page();
    if (!at_top()) y_ += piece.before;
    if (piece.table != table_) {
      end_table();
      if (piece.table != nullptr) {
        pages_.back().begin("Table");
        put(piece.head);
      }
      table_ = piece.table;
    }
    if (piece.text != nullptr)
      put_text(piece);
    else
      put(piece.box);
  }

  Sheet sheet_;
  std::vector<Piece> pieces_;
  std::vector<Box> pages_;
  Setting setting_;
  const paper::Table* table_ = nullptr;
  double y_ = 0;
  bool too_high_ = false;
};

std::optional<std::vector<Box>> pages_at(const paper::Paper& paper, const Setting& setting) {
  const Sheet sheet = sheet_of(paper);
  std::vector<Piece> pieces;
  for (const paper::Block& block : paper.blocks)
    for (Piece& piece : pieces_of(block, sheet.inner_width(), setting))
      pieces.push_back(std::move(piece));
  return PageBreaker(sheet, std::move(pieces), setting).pages();
}

}  // namespace

Sheet sheet_of(const paper::Paper& paper) {
  Sheet sheet{210 * mm, 297 * mm, paper.margin * mm, 0};
  if (paper.letter) sheet.width = 8.5 * 72, sheet.height = 11 * 72;
  if (paper.landscape) std::swap(sheet.width, sheet.height);
  if (!paper.foot.empty() || !paper.count.empty()) sheet.foot = 4 * mm;
  return sheet;
}

std::vector<Box> pages_of(const paper::Paper& paper, const Typesetter& type) {
  std::optional<std::vector<Box>> largest = pages_at(paper, {type, paper.points, 1});
  if (largest && (paper.pages == 0 || largest->size() <= paper.pages)) return *largest;
  for (double scale = 1 - shrink_step; scale >= paper.smallest; scale -= shrink_step) {
    std::optional<std::vector<Box>> pages = pages_at(paper, {type, paper.points, scale});
    if (pages && pages->size() <= paper.pages) return *pages;
    if (!largest) largest = std::move(pages);
  }
  if (!largest) throw HigherThanAPage();
  return *largest;
}

}  // namespace turnwright::pdf
