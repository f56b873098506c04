// SPDX-License-Identifier: MIT
#pragma once
// Plain text written section by section in the reader's words.
#include <string>

#include "table.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// Text in a column, by characters.
std::string padded(std::string text, std::size_t width, Align align = Align::left);

class TextWriter {
 public:
  explicit TextWriter(const Words& words) : words_(words) {}

  const Words& words() const { return words_; }
  /// An empty line, unless the text begins here, and the heading.
  void section(const Message& heading);
  /// An empty line between two blocks.
  void gap();
  /// A sentence, indented by two characters a depth.
  void line(const Message& message, std::size_t depth = 1);
  void lines(const Messages& messages, std::size_t depth = 1);
  /// A sentence of its own at the margin.
  void remark(const Message& message) { written(words_.heading(message), 0); }
  /// Words already written.
  void written(const std::string& text, std::size_t depth = 1);
  /// A picture or a text of several lines, as it is.
  void block(const std::string& text) { out_ += text; }
  void table(const Table& table, std::size_t depth = 1);
  std::string take() { return std::move(out_); }

 private:
  const Words& words_;
  std::string out_;
};

}  // namespace turnwright
