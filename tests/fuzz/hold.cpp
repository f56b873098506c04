// SPDX-License-Identifier: MIT
#include "fuzz.hpp"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

namespace turnwright::fuzz {

void hold(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

const std::string& file(const std::string& path) {
  static std::map<std::string, std::string> read;
  const auto known = read.find(path);
  if (known != read.end()) return known->second;
  std::ifstream in(TURNWRIGHT_ROOT "/" + path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  hold(in.good() && !text.str().empty(), path.c_str());
  return read.emplace(path, text.str()).first->second;
}

}  // namespace turnwright::fuzz
