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

PdfPrinter& SheetPictures::printer() {
  if (!printer_) printer_ = coming_.valid() ? coming_.get() : PdfPrinter();
  return *printer_;
}

void SheetPictures::begin(const PartQuote& part, const Words& words) try {
  begun_ = std::async(std::launch::async, [this, drawing = sheet_drawing(part, words)] {
    return printer().picture(drawing, sheet_drawing_pixels);
  });
} catch (const std::system_error&) {
  // When it is asked for.
}

std::string SheetPictures::of(const PartQuote& part, const Words& words) {
  std::string png = begun_.valid()
                        ? begun_.get()
                        : printer().picture(sheet_drawing(part, words), sheet_drawing_pixels);
  if (const Message& fault = printer().fault(); !fault.empty())
    say(fault);
  else if (png.empty())
    say("pdf.no-font");
  return png;
}

void SheetPictures::say(const Message& why) {
  if (!said_) session_.note({"xlsx.no-drawing", {{"why", why}}});
  said_ = true;
}

}  // namespace turnwright::cli
