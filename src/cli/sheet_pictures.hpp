// SPDX-License-Identifier: MIT
#pragma once
#include <future>
#include <optional>
#include <string>

#include "pdf_printer.hpp"
#include "session.hpp"
#include "turnwright/compare/compare.hpp"

namespace turnwright::cli {

/// Draws parts for the first sheets of their workbooks.
class SheetPictures {
 public:
  explicit SheetPictures(const Session& session) : session_(session) {}
  /// Loads what draws while other work goes on; else that is done for the first.
  void prepare();
  /// Draws this one while other work goes on.
  void begin(const PartQuote& part, const Words& words);
  /// As PNG, the one that was begun, or this one; empty where none can be drawn, which is said
  /// once.
  std::string of(const PartQuote& part, const Words& words);

 private:
  void say(const Message& why);
  PdfPrinter& printer();

  const Session& session_;
  std::future<PdfPrinter> coming_;
  std::optional<PdfPrinter> printer_;
  std::future<std::string> begun_;
  bool said_ = false;
};

}  // namespace turnwright::cli
