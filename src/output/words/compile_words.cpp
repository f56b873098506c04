// SPDX-License-Identifier: MIT
// Runs while building: templates/words/<language>/*.yaml become two sorted tables of C++. Ends with
// 1 where the languages differ in ids or places, or an id stands twice.
//   compile-words OUT.cpp FOLDER NAME...
#include <yaml-cpp/yaml.h>

#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace {

struct Entry {
  std::string one, other, file;
};
using Catalogue = std::map<std::string, Entry>;
int faults = 0;

void fault(const std::string& text) {
  std::cerr << text << "\n";
  ++faults;
}

void read(const std::string& file, Catalogue& into) {
  const YAML::Node root = YAML::LoadFile(file);
  std::set<std::string> here;
  for (const auto& item : root) {
    const auto id = item.first.as<std::string>();
    if (!into.emplace(id, Entry{}).second) fault(file + ": '" + id + "' stands twice");
    Entry& entry = into[id];
    entry.file = file;
    if (item.second.IsMap()) {
      entry.one = item.second["one"].as<std::string>();
      entry.other = item.second["other"].as<std::string>();
    } else {
      entry.other = item.second.as<std::string>();
    }
  }
}

// The names in braces; doubled braces are text.
std::set<std::string> places_of(const std::string& sentence) {
  std::set<std::string> places;
  for (std::size_t i = 0; i < sentence.size(); ++i) {
    if (sentence[i] != '{') continue;
    if (i + 1 < sentence.size() && sentence[i + 1] == '{') {
      ++i;
      continue;
    }
    const std::size_t end = sentence.find_first_of(":}", i);
    places.insert(sentence.substr(i + 1, end - i - 1));
    i = sentence.find('}', i);
  }
  return places;
}

void compare(const Catalogue& a, const Catalogue& b) {
  for (const auto& [id, entry] : a) {
    const auto other = b.find(id);
    if (other == b.end()) {
      fault(entry.file + ": '" + id + "' stands in one language only");
      continue;
    }
    if (places_of(entry.other) != places_of(other->second.other))
      fault(entry.file + ": '" + id + "' has other places in the other language");
    if (!entry.one.empty())
      for (const std::string& place : places_of(entry.one))
        if (!places_of(entry.other).contains(place))
          fault(entry.file + ": '" + id + "' has a place for one only: " + place);
  }
}

std::string literal(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c == '\n' ? std::string("\\n") : std::string(1, c);
  }
  return out + "\"";
}

void write(std::ostream& out, const std::string& language, const Catalogue& catalogue) {
  out << "std::span<const Sentence> sentences_" << language << "() {\n"
      << "  static constexpr Sentence all[] = {\n";
  for (const auto& [id, entry] : catalogue)
    out << "      {" << literal(id) << ", " << literal(entry.one) << ", " << literal(entry.other)
        << "},\n";
  out << "  };\n  return all;\n}\n";
}

}  // namespace

int main(int count, char** words) {
  if (count < 4) return 1;
  const std::string folder = words[2];
  Catalogue en, de;
  try {
    for (int i = 3; i < count; ++i) {
      read(folder + "/en/" + words[i] + ".yaml", en);
      read(folder + "/de/" + words[i] + ".yaml", de);
    }
  } catch (const std::exception& e) {
    fault(std::string("words: ") + e.what());
  }
  compare(en, de);
  compare(de, en);
  if (faults > 0) return 1;
  std::ofstream out(words[1]);
  out << "#include \"words/sentence.hpp\"\n\nnamespace turnwright {\n\n";
  write(out, "en", en);
  write(out, "de", de);
  out << "\n}  // namespace turnwright\n";
  return out.good() ? 0 : 1;
}
