// SPDX-License-Identifier: MIT
#include "turnwright/route/job.hpp"
#include "turnwright/shop/condition_word.hpp"

namespace turnwright {

Message stock_label(const Job& job) {
  const Stock& s = job.stock;
  switch (s.form) {
    case StockForm::hexagon:
      return {"text.stock-hexagon",
              {{"size", s.flats}, {"condition", condition_word(s.condition)}}};
    case StockForm::square:
      return {"text.stock-square", {{"size", s.flats}, {"condition", condition_word(s.condition)}}};
    case StockForm::tube:
      return {"text.stock-tube",
              {{"size", s.diameter}, {"bore", s.bore}, {"condition", condition_word(s.condition)}}};
    case StockForm::casting:
      return {"text.stock-casting", {{"size", job.part.stock.size}}};
    case StockForm::forging:
      return {"text.stock-forging", {{"size", job.part.stock.size}}};
    default:
      return {"text.stock-round",
              {{"size", s.diameter}, {"condition", condition_word(s.condition)}}};
  }
}

Message blank_label(const Stock& stock) {
  if (stock.pieces > 0)
    return {"text.blank-from-length", {{"n", stock.pieces}, {"length", stock.sawn}}};
  const char* id = stock.from_bar         ? "text.blank-from-bar"
                   : stock.section.si > 0 ? "text.blank-sawn"
                                          : "text.blank";
  return {id, {{"length", stock.length}}};
}

}  // namespace turnwright
