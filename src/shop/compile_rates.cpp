// SPDX-License-Identifier: MIT
// Runs while building: the files of rates/, as texts and as trees that the reader of a shop folder
// has read, become a table of C++. Ends with 1 where a file cannot be read.
//   compile-rates OUT.cpp FOLDER NAME...
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "turnwright/document/packed.hpp"

namespace {

using namespace turnwright;

// Every byte as three octal digits where it is not plain.
std::string literal(const std::string& bytes) {
  constexpr std::size_t bytes_a_line = 80;
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i % bytes_a_line == 0) text += i == 0 ? "    \"" : "\"\n    \"";
    const auto c = static_cast<unsigned char>(bytes[i]);
    if (c >= ' ' && c < 0x7f && c != '"' && c != '\\' && c != '?')
      text += static_cast<char>(c);
    else
      text += {'\\', static_cast<char>('0' + (c >> 6)), static_cast<char>('0' + (c >> 3 & 7)),
               static_cast<char>('0' + (c & 7))};
  }
  return text + "\"";
}

}  // namespace

int main(int count, char** words) {
  if (count < 4) return 1;
  std::string trees, files, list;
  for (int i = 3; i < count; ++i) {
    const std::string name = words[i];
    std::ifstream in(std::string(words[2]) + "/" + name, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const auto document = read_document(name, text);
    if (!in || !document) {
      std::cerr << name << " cannot be read\n";
      return 1;
    }
    const std::string tree = "tree_" + std::to_string(i - 3);
    trees += "constexpr char " + tree + "[] =\n" + literal(packed(document->root)) + ";\n";
    files += "      {\"" + name + "\", R\"~embedded~(" + text + ")~embedded~\"},\n";
    list += "      {" + tree + ", sizeof " + tree + " - 1},\n";
  }
  std::ofstream out(words[1], std::ios::binary);
  out << "// Written by compile-rates.\n#include \"turnwright/shop/shipped_trees.hpp\"\n"
      << "#include \"turnwright/shop/shop.hpp\"\n\nnamespace turnwright {\nnamespace {\n\n"
      << trees << "\n}  // namespace\n\n"
      << "const std::vector<NamedText>& shipped_rates() {\n"
      << "  static const std::vector<NamedText> files{\n"
      << files << "  };\n  return files;\n}\n\n"
      << "const std::vector<std::string_view>& shipped_trees() {\n"
      << "  static const std::vector<std::string_view> trees{\n"
      << list << "  };\n  return trees;\n}\n\n}  // namespace turnwright\n";
  out.close();
  return out ? 0 : 1;
}
