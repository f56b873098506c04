// SPDX-License-Identifier: MIT
#pragma once
// Documents drawn as PDF by the plug-in.
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

 private:
  pdf::DrawFunction* draw_ = nullptr;
  Message fault_;
};

}  // namespace turnwright::cli
