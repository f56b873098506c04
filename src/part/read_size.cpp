// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cctype>
#include <cmath>

#include "element_text.hpp"
#include "read_element.hpp"

namespace turnwright {
namespace {

Size from_limits(Length low, Length high) {
  Size size;
  size.nominal = (low + high) / 2.0;
  size.toleranced = true;
  size.upper = high - size.nominal;
  size.lower = low - size.nominal;
  return size;
}

// Reads a size text word by word: number, unit, then a fit or deviations.
class SizeText {
 public:
  SizeText(const Node& node, const BareUnits& bare, ProblemList& notes)
      : node_(node), bare_(bare), notes_(notes), words_(words_of(node.text, 0)) {}

  Size read() {
    if (words_.empty()) return {};
    if (const auto range = range_of(words_[0].text)) return *range;
    const auto number = leading_number(words_[0].text);
    if (!number || number->value <= 0) {
      fault(words_[0], "'" + words_[0].text + "' is no size",
            "a diameter as 30, 30 k6 or 1-1/4 in");
      return {};
    }
    std::string_view rest = std::string_view(words_[0].text).substr(number->used);
    if (rest.size() > 1 && rest[0] == ',') {
      std::string point = words_[0].text;
      point[number->used] = '.';
      fault(words_[0], "a decimal comma in '" + words_[0].text + "'", "a decimal point", point);
      return {};
    }
    Unit unit = bare_.length;
    std::size_t next = 1;
    if (!rest.empty() && !(rest[0] == '+' || rest[0] == '-' || rest.starts_with("\xC2\xB1"))) {
      if (!take_unit(std::string(rest), unit)) {
        fault(words_[0], "'" + words_[0].text + "' is no size", "a blank before the fit: 30 k6");
        return {};
      }
      rest = {};
    } else if (next < words_.size() && take_unit(words_[next].text, unit)) {
      ++next;
    }
    size_.nominal = Length(coherent(number->value, unit));
    if (!rest.empty()) {
      tolerance({std::string(rest), words_[0].offset + number->used}, unit);
    } else if (next < words_.size()) {
      Piece piece = words_[next];
      for (std::size_t i = next + 1; i < words_.size(); ++i) piece.text += words_[i].text;
      tolerance(piece, unit);
    }
    return size_;
  }

 private:
  void fault(const Piece& at, std::string what, std::string expected, std::string hint = "") {
    notes_.add_inside(node_, at.offset, characters(at.text), std::move(what), std::move(expected),
                      std::move(hint));
  }
  static bool take_unit(const std::string& word, Unit& unit) {
    const auto typed = read_unit(word);
    if (!typed || !(typed->dim == Dim{1})) return false;
    unit.si = typed->si;
    return true;
  }
  std::optional<Size> range_of(const std::string& word) {
    const std::size_t dots = word.find("..");
    if (dots == std::string::npos) return std::nullopt;
    const auto low = read_number(word.substr(0, dots)), high = read_number(word.substr(dots + 2));
    Size size;
    if (!low || !high || *low <= 0 || *high < *low) {
      fault(words_[0], "'" + word + "' is no range", "the smaller first, as 29.98..30.00");
      return size;
    }
    Unit unit = bare_.length;
    if (words_.size() > 1) take_unit(words_[1].text, unit);
    return from_limits(Length(coherent(*low, unit)), Length(coherent(*high, unit)));
  }
  void tolerance(const Piece& piece, const Unit& unit) {
    std::string text = piece.text;
    std::size_t letters = 0;
    while (letters < text.size() && std::isalpha(static_cast<unsigned char>(text[letters])) != 0)
      ++letters;
    if (letters > 0) {
      fit(piece, letters);
      return;
    }
    if (text.starts_with("\xC2\xB1")) text = "+-" + text.substr(2);
    if (text.starts_with("+-")) {
      if (const auto v = read_number(text.substr(2)); v && *v >= 0) {
        set(unit, *v, -*v);
        return;
      }
    }
    const std::size_t slash = text.find('/', 1);
    const auto first = read_number(text.substr(0, slash));
    const auto second =
        slash == std::string::npos ? std::optional<double>{} : read_number(text.substr(slash + 1));
    if (first && second) {
      if (*first < *second)
        fault(piece, "'" + piece.text + "' has its deviations upside down", "the upper one first");
      set(unit, *first, *second);
    } else if (first && slash == std::string::npos && (text[0] == '+' || text[0] == '-')) {
      set(unit, std::max(*first, 0.0), std::min(*first, 0.0));
    } else {
      fault(piece, "'" + piece.text + "' is no fit and no tolerance",
            "a fit as k6, or deviations as \xC2\xB1"
            "0.1, +0.015/+0.002, -0.1");
    }
  }
  void fit(const Piece& piece, std::size_t letters) {
    const std::string name = piece.text.substr(0, letters);
    const auto grade = read_number(piece.text.substr(letters));
    if (!grade || *grade != std::floor(*grade) || *grade < 5 || *grade > 14 || letters > 2) {
      fault(piece, "'" + piece.text + "' is no fit",
            "letters and a grade from 5 to 14, as k6 or H7",
            piece.text.size() > letters ? piece.text.substr(0, letters + 1) : "");
      return;
    }
    size_.letters = name;
    size_.grade = static_cast<int>(*grade);
  }
  void set(const Unit& unit, double upper, double lower) {
    size_.toleranced = true;
    size_.upper = Length(coherent(upper, unit));
    size_.lower = Length(coherent(lower, unit));
  }

  const Node& node_;
  const BareUnits& bare_;
  ProblemList& notes_;
  std::vector<Piece> words_;
  Size size_;
};

// {diameter: {from: 29.98, to: 30.00}}
Size size_range(const Node& node, const BareUnits& bare, ProblemList& notes) {
  MapReader map(node, notes, "a size");
  const Length low = map.needed("from", bare.length), high = map.needed("to", bare.length);
  map.finish();
  Size size = from_limits(low, high);
  if (low.si <= 0 || high < low)
    notes.add(node, "a range upside down", "from the smaller to the larger");
  return size;
}

}  // namespace

Size read_size(const Node& node, const BareUnits& bare, ProblemList& notes) {
  if (node.kind == Node::Kind::map) return size_range(node, bare, notes);
  if (!read_text(node, notes, "a size as 30 or 30 k6")) return {};
  return SizeText(node, bare, notes).read();
}

std::optional<Length> read_length(const Node& node, const BareUnits& bare, ProblemList& notes) {
  const auto si = read_si(node, bare.length, notes);
  if (!si) return std::nullopt;
  return Length(*si);
}

}  // namespace turnwright
