// SPDX-License-Identifier: MIT
#include "sheet_pictures.hpp"

#include <system_error>

#include "turnwright/output/workbook.hpp"

namespace turnwright::cli {
namespace {

// With its fonts, which take most of the time: they are found for the first drawing, even an empty
// one.
PdfPrinter load() {
  PdfPrinter printer;
  if (printer.fault().empty()) printer.picture({}, 1);
  return printer;
}

}  // namespace

void SheetPictures::prepare() try {
  coming_ = std::async(std::launch::async, load);
} catch (const std::system_error&) {
  // No thread is to be had: when the first is drawn.
}

std::string SheetPictures::of(const PartQuote& part, const Words& words) {
  if (!printer_) printer_ = coming_.valid() ? coming_.get() : PdfPrinter();
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
