// SPDX-License-Identifier: MIT
#include "write_language.hpp"

#include <algorithm>
#include <cctype>

namespace turnwright::pdf {
namespace {

// The number that stands after a word; "" where there is none.
std::string number_after(const std::string& text, const char* word, std::size_t from) {
  std::size_t at = text.find(word, from);
  if (at == std::string::npos) return "";
  at = text.find_first_of("0123456789", at);
  std::size_t end = at;
  while (end < text.size() && std::isdigit(static_cast<unsigned char>(text[end])) != 0) ++end;
  return at == std::string::npos ? "" : text.substr(at, end - at);
}

std::string ten_digits(std::size_t number) {
  const std::string digits = std::to_string(number);
  return std::string(10 - std::min<std::size_t>(digits.size(), 10), '0') + digits;
}

}  // namespace

std::string with_language(std::string pdf, const std::string& language) {
  const std::size_t trailer = pdf.rfind("trailer");
  if (trailer == std::string::npos) return pdf;
  const std::string root = number_after(pdf, "/Root", trailer);
  const std::string begin = "\n" + root + " 0 obj\n";
  const std::size_t object = pdf.rfind(begin);
  const std::size_t open = pdf.find("<<", object), end = pdf.find("endobj", object);
  if (root.empty() || object == std::string::npos || open > end) return pdf;
  const std::string was = pdf.substr(open + 2, end - open - 2);
  const std::string size = number_after(pdf, "/Size", trailer);
  const std::string info = number_after(pdf, "/Info", trailer);
  const std::string before = number_after(pdf, "startxref", trailer);
  const std::size_t place = pdf.size();
  pdf += root + " 0 obj\n<< /Lang (" + language +
         ")\n   /ViewerPreferences << /DisplayDocTitle true >>" + was + "endobj\n";
  const std::size_t table = pdf.size();
  pdf += "xref\n" + root + " 1\n" + ten_digits(place) + " 00000 n \n";
  pdf += "trailer\n<< /Size " + size + "\n   /Root " + root + " 0 R\n   /Info " + info +
         " 0 R\n   /Prev " + before + "\n>>\nstartxref\n" + std::to_string(table) + "\n%%EOF\n";
  return pdf;
}

}  // namespace turnwright::pdf
