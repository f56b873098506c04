// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "examples.hpp"
#include "pieces.hpp"
#include "read_element.hpp"

namespace turnwright {
namespace {

constexpr std::string_view plus_minus = "\xC2\xB1";
constexpr int finest_fit = 5, coarsest_fit = 14;  // IT

Size from_limits(Length low, Length high) {
  Size size;
  size.nominal = (low + high) / 2.0;
  size.toleranced = true;
  size.upper = high - size.nominal;
  size.lower = low - size.nominal;
  return size;
}

bool take_unit(const std::string& word, Unit& unit) {
  const auto typed = read_unit(word);
  if (!typed || !(typed->dim == Dim{1})) return false;
  unit.si = typed->si;
  return true;
}

bool begins_deviation(std::string_view text) {
  return text[0] == '+' || text[0] == '-' || text.starts_with(plus_minus);
}

bool is_fit_grade(double grade) {
  return grade == std::floor(grade) && grade >= finest_fit && grade <= coarsest_fit;
}

// One letter, or two of those that ISO 286-1 has.
bool are_fit_letters(std::string letters) {
  static constexpr std::array<std::string_view, 7> pairs{"cd", "ef", "fg", "js", "za", "zb", "zc"};
  static constexpr std::string_view unused = "iloqw";
  for (char& c : letters) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (letters.size() == 1) return unused.find(letters) == std::string_view::npos;
  return std::find(pairs.begin(), pairs.end(), letters) != pairs.end();
}

// "k6" of "k66" and "kk6", "h5" of "h4": what may have been meant.
std::string likely_fit(const std::string& text, std::size_t letters) {
  const bool doubled = letters == 2 && text[0] == text[1];
  if (!doubled && !are_fit_letters(text.substr(0, letters))) return "";
  const std::string shorter = text.substr(doubled ? 1 : 0, doubled ? 2 : letters + 1);
  if (doubled) letters = 1;
  const auto grade = read_number(std::string_view(shorter).substr(letters));
  if (shorter != text && grade && is_fit_grade(*grade)) return shorter;
  if (doubled) return "";
  const auto whole = read_number(std::string_view(text).substr(letters));
  if (!whole || *whole < 0 || *whole != std::floor(*whole)) return "";
  return text.substr(0, letters) + std::to_string(*whole < finest_fit ? finest_fit : coarsest_fit);
}

// Reads a size text word by word: number, unit, then a fit or deviations.
class SizeText {
 public:
  SizeText(const Node& node, const BareUnits& bare, ProblemList& problems)
      : node_(node), problems_(problems), words_(split_words(node.text)), unit_(bare.length) {}

  Size read() {
    if (words_.empty()) return {};
    if (const auto range = range_of(words_[0].text)) return *range;
    const auto number = leading_number(words_[0].text);
    if (!number || number->value <= 0) {
      fault(words_[0], "part.not-a-size", such_as("30", "30 k6", "1-1/4 in"));
      return {};
    }
    if (has_decimal_comma(number->used)) return {};
    // The deviations may stand right behind the number: "30+0.1".
    Piece rest{words_[0].text.substr(number->used), words_[0].offset + number->used};
    std::size_t next = 1;
    if (!rest.text.empty() && !begins_deviation(rest.text)) {
      if (!take_unit(rest.text, unit_)) {
        fault(words_[0], "part.not-a-size",
              Message{"part.wants-blank-before-fit", {{"example", "30 k6"}}});
        return {};
      }
      rest.text.clear();
    } else if (next < words_.size() && take_unit(words_[next].text, unit_)) {
      ++next;
    }
    size_.nominal = Length(coherent(number->value, unit_));
    read_tolerance(rest, next);
    return size_;
  }

 private:
  void fault(const Piece& at, const char* what, Message expected, std::string suggestion = "") {
    add_at(problems_, node_, at, Message{what, {{"text", at.text}}}, std::move(expected),
           std::move(suggestion));
  }
  bool has_decimal_comma(std::size_t at) {
    const Piece& word = words_[0];
    if (word.text.size() <= at + 1 || word.text[at] != ',') return false;
    std::string point = word.text;
    point[at] = '.';
    fault(word, "number.decimal-comma", "expected.decimal-point", point);
    return true;
  }
  // "29.98..30.00"
  std::optional<Size> range_of(const std::string& word) {
    const std::size_t dots = word.find("..");
    if (dots == std::string::npos) return std::nullopt;
    const auto low = read_number(word.substr(0, dots)), high = read_number(word.substr(dots + 2));
    if (!low || !high || *low <= 0 || *high < *low) {
      fault(words_[0], "part.not-a-range",
            Message{"part.wants-smaller-first", {{"example", "29.98..30.00"}}});
      return Size();
    }
    const std::size_t used = words_.size() > 1 && take_unit(words_[1].text, unit_) ? 2 : 1;
    if (words_.size() > used)
      fault(words_[used], "part.not-a-tolerance", such_as("29.98..30.00", "29.98..30.00 mm"));
    return from_limits(Length(coherent(*low, unit_)), Length(coherent(*high, unit_)));
  }
  void read_tolerance(const Piece& rest, std::size_t next) {
    if (!rest.text.empty()) {
      tolerance(rest);
    } else if (next < words_.size()) {
      Piece piece = words_[next];
      for (std::size_t i = next + 1; i < words_.size(); ++i) piece.text += words_[i].text;
      tolerance(piece);
    }
  }
  void tolerance(const Piece& piece) {
    const auto first_other = std::find_if(piece.text.begin(), piece.text.end(),
                                          [](unsigned char c) { return std::isalpha(c) == 0; });
    if (const auto letters = first_other - piece.text.begin(); letters > 0)
      fit(piece, static_cast<std::size_t>(letters));
    else if (!symmetrical(piece) && !deviations(piece))
      fault(piece, "part.not-a-tolerance",
            Message{"part.wants-tolerance",
                    {{"fit", "k6"},
                     {"first",
                      "\xC2\xB1"
                      "0.1"},
                     {"second", "+0.015/+0.002"},
                     {"third", "-0.1"}}});
  }
  // "±0.1", "+-0.1"
  bool symmetrical(const Piece& piece) {
    const std::string& text = piece.text;
    const std::size_t sign = text.starts_with(plus_minus) || text.starts_with("+-") ? 2 : 0;
    const auto v = sign > 0 ? read_number(text.substr(sign)) : std::nullopt;
    if (!v || *v < 0) return false;
    set(piece, *v, -*v);
    return true;
  }
  // "+0.015/+0.002", "-0.1"
  bool deviations(const Piece& piece) {
    const std::size_t slash = piece.text.find('/', 1);
    const auto first = read_number(piece.text.substr(0, slash));
    if (!first) return false;
    if (slash == std::string::npos) {
      if (piece.text[0] != '+' && piece.text[0] != '-') return false;
      set(piece, std::max(*first, 0.0), std::min(*first, 0.0));
      return true;
    }
    const auto second = read_number(piece.text.substr(slash + 1));
    if (!second) return false;
    if (*first < *second) fault(piece, "part.deviations-swapped", "part.wants-upper-first");
    set(piece, *first, *second);
    return true;
  }
  void fit(const Piece& piece, std::size_t letters) {
    const auto grade = read_number(piece.text.substr(letters));
    if (letters > 2 || !grade || !is_fit_grade(*grade)) {
      fault(piece, "part.not-a-fit",
            Message{
                "part.wants-fit",
                {{"least", finest_fit}, {"most", coarsest_fit}, {"first", "k6"}, {"second", "H7"}}},
            likely_fit(piece.text, letters));
      return;
    }
    size_.letters = piece.text.substr(0, letters);
    size_.grade = static_cast<int>(*grade);
  }
  void set(const Piece& piece, double upper, double lower) {
    size_.toleranced = true;
    size_.upper = Length(coherent(upper, unit_));
    size_.lower = Length(coherent(lower, unit_));
    if (size_.nominal.si + size_.lower.si <= 0)
      fault(piece, "part.nothing-left", "part.wants-smaller-deviations");
  }

  const Node& node_;
  ProblemList& problems_;
  std::vector<Piece> words_;
  Unit unit_;  // of the number and of its deviations
  Size size_;
};

// {diameter: {from: 29.98, to: 30.00}}
Size size_range(const Node& node, const BareUnits& bare, ProblemList& problems) {
  MapReader map(node, problems, "part.a-size");
  const Length low = map.needed("from", bare.length), high = map.needed("to", bare.length);
  map.finish();
  if (low.si <= 0 || high < low)
    problems.add(node, "part.range-swapped", "part.wants-from-smaller");
  return from_limits(low, high);
}

}  // namespace

Size read_size(const Node& node, const BareUnits& bare, ProblemList& problems) {
  if (node.kind == Node::Kind::map) return size_range(node, bare, problems);
  if (!read_text(node, problems,
                 Message{"part.wants-size", {{"first", "30"}, {"second", "30 k6"}}}))
    return {};
  return SizeText(node, bare, problems).read();
}

Size read_cone_end(const Node& node, const BareUnits& bare, ProblemList& problems) {
  if (node.text != "0") return read_size(node, bare, problems);
  Size point;
  point.nominal = Length(1e-6);  // as an arc that begins in the centre of a face
  return point;
}

std::optional<Length> read_length(const Node& node, const BareUnits& bare, ProblemList& problems) {
  const auto si = read_si(node, bare.length, problems);
  if (!si) return std::nullopt;
  return Length(*si);
}

}  // namespace turnwright
