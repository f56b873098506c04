// SPDX-License-Identifier: MIT
#pragma once
// YAML that the program writes: whatever the texts hold, it reads back as they are.
#include <string>
#include <vector>

namespace turnwright {

struct YamlField;

/// A text, a list or a map.
struct YamlValue {
  enum class Kind { text, list, map };
  Kind kind = Kind::text;
  std::string text;
  std::vector<YamlValue> items;
  std::vector<YamlField> fields;
  bool in_one_line = false;  // a list or map in its short form

  static YamlValue of(std::string text);
  static YamlValue list(std::vector<YamlValue> items);
  static YamlValue map(std::vector<YamlField> fields);
};

struct YamlField {
  std::string key;
  YamlValue value;
};

/// The document, with a line end after it.
std::string yaml_text(const YamlValue& value);

}  // namespace turnwright
