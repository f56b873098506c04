// SPDX-License-Identifier: MIT
#pragma once
// Documents as PDF and drawings as pictures, by the plug-in that draws.
#include <string>

#include "pdf/boundary.hpp"
#include "turnwright/quantity/message.hpp"

namespace turnwright::cli {

class PdfPrinter {
 public:
  PdfPrinter();
  /// Why it is not there; empty: it is.
  const Message& fault() const { return fault_; }
  /// The bytes of the file. Throws DiskFailed where they cannot be drawn.
  std::string drawn(const paper::Paper& paper) const;
  /// The bytes of a PNG, so many pixels a unit of the drawing; empty where it cannot be drawn.
  std::string picture(const paper::Drawing& drawing, double pixels) const;

 private:
  pdf::DrawFunction* draw_ = nullptr;
  pdf::PictureFunction* picture_ = nullptr;
  Message fault_;
};

}  // namespace turnwright::cli
