// SPDX-License-Identifier: MIT
// Changes of texts as people write them: lines, what stands between commas, colons and brackets,
// and numbers. Within one such piece libFuzzer's own changes, with the dictionary, do the rest;
// bytes at large are left to it in one of eight changes.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <random>
#include <string>
#include <string_view>
#include <vector>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace {

using Random = std::minstd_rand;

struct Span {
  std::size_t from = 0, to = 0;
  std::size_t size() const { return to - from; }
};

std::size_t below(std::size_t n, Random& random) {
  return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
}
const Span& any(const std::vector<Span>& spans, Random& random) {
  return spans[below(spans.size(), random)];
}

template <class IsIn>
std::vector<Span> spans_of(std::string_view text, IsIn is_in) {
  std::vector<Span> spans;
  for (std::size_t i = 0; i < text.size();) {
    while (i < text.size() && !is_in(text[i])) ++i;
    const std::size_t from = i;
    while (i < text.size() && is_in(text[i])) ++i;
    if (i > from) spans.push_back({from, i});
  }
  return spans;
}
std::vector<Span> lines_of(std::string_view text) {
  std::vector<Span> lines = spans_of(text, [](char c) { return c != '\n'; });
  for (Span& line : lines) line.to = std::min(line.to + 1, text.size());
  return lines;
}
std::vector<Span> pieces_of(std::string_view text) {
  return spans_of(text, [](char c) { return std::strchr(",:;|{}[]\"'\n\t", c) == nullptr; });
}
std::vector<Span> numbers_of(std::string_view text) {
  return spans_of(text, [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

std::string of(const std::string& text, Span span) { return text.substr(span.from, span.size()); }
void put(std::string& text, Span span, const std::string& other) {
  text.replace(span.from, span.size(), other);
}

void change_number(std::string& text, Random& random) {
  const auto numbers = numbers_of(text);
  if (numbers.empty()) return;
  const Span span = any(numbers, random);
  const std::string was = of(text, span);
  const std::string others[] = {"0", "-" + was,    was + "0", "0." + was, was + ".5", "1e9",
                                "1", "2147483647", was + was, "0.000001", was + "-",  "9999"};
  put(text, span, others[below(std::size(others), random)]);
}

void change_piece(std::string& text, Random& random) {
  const auto pieces = pieces_of(text);
  if (pieces.empty()) return;
  const Span span = any(pieces, random);
  std::string piece = of(text, span);
  const std::size_t was = piece.size();
  piece.resize(was + 32);
  piece.resize(LLVMFuzzerMutate(reinterpret_cast<std::uint8_t*>(piece.data()), was, piece.size()));
  put(text, span, piece);
}

void copy_piece(std::string& text, Random& random) {
  const auto pieces = pieces_of(text);
  if (!pieces.empty()) put(text, any(pieces, random), of(text, any(pieces, random)));
}

// A key and its value, or an item: a piece with the comma or colon after it, once more or not at
// all.
void change_items(std::string& text, Random& random) {
  const auto pieces = pieces_of(text);
  if (pieces.size() < 2) return;
  const std::size_t first = below(pieces.size() - 1, random);
  const Span item{pieces[first].from,
                  pieces[std::min(first + 1 + below(2, random), pieces.size() - 1)].from};
  if (below(2, random) == 0)
    text.erase(item.from, item.size());
  else
    text.insert(any(pieces, random).from, of(text, item));
}

void change_lines(std::string& text, Random& random) {
  const auto lines = lines_of(text);
  if (lines.empty()) return;
  const Span line = any(lines, random);
  const std::string copied = of(text, line);
  if (below(3, random) == 0)
    text.erase(line.from, line.size());
  else if (below(2, random) == 0)
    text.insert(any(lines, random).from, copied);
  else
    put(text, any(lines, random), copied);
}

void change(std::string& text, Random& random) {
  switch (below(6, random)) {
    case 0:
      return change_lines(text, random);
    case 1:
      return change_items(text, random);
    case 2:
      return copy_piece(text, random);
    case 3:
      return change_piece(text, random);
    default:
      return change_number(text, random);
  }
}

std::size_t put_back(const std::string& text, std::uint8_t* data, std::size_t most) {
  const std::size_t size = std::min(text.size(), most);
  std::copy_n(text.data(), size, reinterpret_cast<char*>(data));
  return size;
}

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed) {
  Random random(seed);
  if (size == 0 || below(8, random) == 0) return LLVMFuzzerMutate(data, size, most);
  std::string text(reinterpret_cast<const char*>(data), size);
  for (std::size_t n = 1 + below(3, random); n > 0; --n) change(text, random);
  return put_back(text, data, most);
}

// A line, or a piece, of another text in place of one of this.
extern "C" std::size_t LLVMFuzzerCustomCrossOver(const std::uint8_t* a, std::size_t a_size,
                                                 const std::uint8_t* b, std::size_t b_size,
                                                 std::uint8_t* out, std::size_t most,
                                                 unsigned seed) {
  Random random(seed);
  std::string text(reinterpret_cast<const char*>(a), a_size);
  const std::string other(reinterpret_cast<const char*>(b), b_size);
  const bool whole_lines = below(2, random) == 0;
  const auto here = whole_lines ? lines_of(text) : pieces_of(text);
  const auto there = whole_lines ? lines_of(other) : pieces_of(other);
  if (!here.empty() && !there.empty()) put(text, any(here, random), of(other, any(there, random)));
  return put_back(text, out, most);
}
