// SPDX-License-Identifier: MIT
// The shop's own text blocks around a quotation, with the names in braces filled in.
#include <algorithm>

#include "turnwright/output/offer.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

struct NamedValue {
  std::string name, value;
};
using NamedValues = std::vector<NamedValue>;

NamedValues values_of(const CustomerQuote& q, const Words& words) {
  return {{"customer", q.customer},
          {"contact", q.contact},
          {"their reference", q.reference},
          {"number", q.number},
          {"revision", words.whole(q.revision)},
          {"date", words.day(q.date)},
          {"valid until", words.day(q.valid_until)},
          {"currency", q.currency},
          {"minimum order", words.money(q.minimum_order)}};
}

Problem unknown_name(const std::string& file, Position at, const std::string& name,
                     const NamedValues& values) {
  std::vector<std::string> names, braced;
  for (const NamedValue& v : values) {
    names.push_back(v.name);
    braced.push_back("{" + v.name + "}");
  }
  Problem problem;
  problem.file = file;
  problem.at = at;
  problem.what = {"offer.unknown-name", {{"name", "{" + name + "}"}}};
  problem.expected = one_of(braced);
  problem.suggestion = nearest(name, names);
  return problem;
}

// Steps through a text and knows where it is.
class TextCursor {
 public:
  explicit TextCursor(const std::string& text) : text_(text), last_close_(text.rfind('}')) {}
  bool at_end() const { return i_ >= text_.size(); }
  Position at() const { return at_; }
  char take() {
    const char c = text_[i_++];
    at_ = c == '\n' ? Position{at_.line + 1, 1} : Position{at_.line, at_.column + 1};
    return c;
  }
  /// The name in braces that begins here, or nothing.
  std::optional<std::string> name() const {
    if (text_[i_] != '{' || last_close_ == std::string::npos || last_close_ < i_)
      return std::nullopt;
    const std::size_t close = text_.find('}', i_);
    return text_.substr(i_ + 1, close - i_ - 1);
  }
  void skip_name(const std::string& name) {
    i_ += name.size() + 2;
    at_.column += static_cast<int>(name.size()) + 2;
  }

 private:
  const std::string& text_;
  std::size_t last_close_;  // none is looked for after it
  std::size_t i_ = 0;
  Position at_{1, 1};
};

}  // namespace

Checked<std::string> filled(const std::string& file, const std::string& text,
                            const CustomerQuote& quote, const Words& words) {
  const NamedValues values = values_of(quote, words);
  std::string out;
  TextCursor cursor(text);
  while (!cursor.at_end()) {
    const auto name = cursor.name();
    if (!name) {
      out += cursor.take();
      continue;
    }
    const auto value = std::find_if(values.begin(), values.end(),
                                    [&](const NamedValue& v) { return v.name == *name; });
    if (value == values.end()) return Problems{unknown_name(file, cursor.at(), *name, values)};
    out += value->value;
    cursor.skip_name(*name);
  }
  return out;
}

}  // namespace turnwright
