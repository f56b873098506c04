// SPDX-License-Identifier: MIT
#pragma once
// What every page begins with and every picture and table of a page is made of, in the reader's
// words.
#include <cmath>
#include <string>

#include "html/markup.hpp"
#include "table.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

/// A length of a picture, to a hundredth of a pixel.
inline std::string px(double v) { return readable(std::round(v * 100) / 100, 7); }

/// "en", for the lang of a page.
std::string language_code(Language language);

/// Up to and with <body>. Nothing is fetched, and a text that looked like markup could do nothing.
void begin_page(Markup& m, const std::string& language, const std::string& title,
                const std::string& style);
void begin_picture(Markup& m, double width, double height, const std::string& label,
                   const std::string& kind = "");
void picture_text(Markup& m, double x, double y, const std::string& words, const char* anchor);
/// A rectangle with what it says when it is pointed at; nothing without an extent.
void picture_rect(Markup& m, double x, double y, double width, double height,
                  const std::string& kind, const std::string& title = "");

class PageWriter {
 public:
  explicit PageWriter(const Words& words) : words_(words) {}

  const Words& words() const { return words_; }
  Markup& markup() { return m_; }

  void begin(const std::string& title, const std::string& style) {
    begin_page(m_, language_code(words_.language()), title, style);
  }
  /// Closes body and html.
  std::string end();

  /// A heading of `level` 1 to 3, with an id where it is jumped to.
  void heading(int level, const Message& message, const std::string& id = "");
  void paragraph(const Message& message, const char* kind = "");
  void note(const Message& message) { paragraph(message, "soft"); }
  void warning(const Message& message) { paragraph(message, "warn"); }
  void item(const Message& message) { m_.put("li", words_(message)); }
  void list(const Messages& messages);
  /// What scrolls when it is too wide; `label` for readers of the screen's text.
  void begin_wide(const Message& label);
  void table(const Table& table, const Message& label);
  /// What is there to look up, closed until it is asked for and not on paper.
  void begin_fold(const Message& summary);
  void end_fold() { m_.close().raw("\n"); }
  /// Which colour is what: `colour` is a variable of the style, as "k0".
  void key(const std::string& colour, const std::string& name);
  void key(int colour, const std::string& name) { key("k" + std::to_string(colour), name); }

 private:
  const Words& words_;
  Markup m_;
};

}  // namespace turnwright
