// SPDX-License-Identifier: MIT
#include "sheet_pictures.hpp"

#include "turnwright/output/workbook.hpp"

namespace turnwright::cli {

std::string SheetPictures::of(const PartQuote& part, const Words& words) {
  if (!printer_) printer_.emplace();
  if (!printer_->fault().empty()) {
    say(printer_->fault());
    return {};
  }
  std::string png = printer_->picture(sheet_drawing(part, words), sheet_drawing_pixels);
  if (png.empty()) say("pdf.no-font");
  return png;
}

void SheetPictures::say(const Message& why) {
  if (!said_) session_.note({"xlsx.no-drawing", {{"why", why}}});
  said_ = true;
}

}  // namespace turnwright::cli
