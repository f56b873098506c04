# cmake -DOUT=file.cpp -DFUNCTION=name -DROOT=dir -DFILES="a.yaml;b.yaml" -P embed.cmake
# Writes a source file that holds the texts, so that the program needs no file at run time.
cmake_minimum_required(VERSION 3.25)
set(text "// Written by src/embed.cmake.\n#include \"turnwright/shop/shop.hpp\"\n\n")
string(APPEND text "namespace turnwright {\n\nconst std::vector<NamedText>& ${FUNCTION}() {\n")
string(APPEND text "  static const std::vector<NamedText> files{\n")
foreach(name IN LISTS FILES)
  file(READ "${ROOT}/${name}" content)
  string(APPEND text "      {\"${name}\", R\"~embedded~(${content})~embedded~\"},\n")
endforeach()
string(APPEND text "  };\n  return files;\n}\n\n}  // namespace turnwright\n")
file(WRITE "${OUT}" "${text}")
