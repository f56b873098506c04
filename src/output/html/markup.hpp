// SPDX-License-Identifier: MIT
#pragma once
// HTML and SVG written element by element: every text and attribute is escaped here and nowhere
// else, so no input becomes markup.
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace turnwright {

class Markup {
 public:
  using Attributes = std::vector<std::pair<std::string_view, std::string>>;

  Markup& open(std::string_view name, const Attributes& attributes = {}) {
    start(name, attributes);
    out_ += '>';
    names_.emplace_back(name);
    return *this;
  }
  Markup& close() {
    out_ += "</" + names_.back() + ">";
    names_.pop_back();
    return *this;
  }
  /// An element that has no end tag in HTML (meta, br, hr).
  Markup& single(std::string_view name, const Attributes& attributes = {}) {
    start(name, attributes);
    out_ += '>';
    return *this;
  }
  /// An element of SVG without content.
  Markup& shape(std::string_view name, const Attributes& attributes) {
    start(name, attributes);
    out_ += "/>";
    return *this;
  }
  Markup& text(std::string_view text) {
    escape(text);
    return *this;
  }
  /// open, text, close.
  Markup& put(std::string_view name, std::string_view content, const Attributes& attributes = {}) {
    return open(name, attributes).text(content).close();
  }
  /// Our own bytes as they are: a style sheet, a script, a line's end.
  Markup& raw(std::string_view bytes) {
    out_ += bytes;
    return *this;
  }
  std::string take() { return std::move(out_); }

 private:
  void start(std::string_view name, const Attributes& attributes) {
    out_ += '<';
    out_ += name;
    for (const auto& [key, value] : attributes) {
      out_ += ' ';
      out_ += key;
      out_ += "=\"";
      escape(value);
      out_ += '"';
    }
  }
  void escape(std::string_view text) {
    for (const char c : text) switch (c) {
        case '&':
          out_ += "&amp;";
          break;
        case '<':
          out_ += "&lt;";
          break;
        case '>':
          out_ += "&gt;";
          break;
        case '"':
          out_ += "&quot;";
          break;
        default:
          // Control characters are in no text of HTML.
          if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t') out_ += c;
      }
  }

  std::string out_;
  std::vector<std::string> names_;
};

}  // namespace turnwright
