// SPDX-License-Identifier: MIT
// Beside read_document.cpp the only file that knows yaml-cpp.
#include "turnwright/document/write_yaml.hpp"

#include <yaml-cpp/emitter.h>
#include <yaml-cpp/emittermanip.h>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

void emit(YAML::Emitter& out, const YamlValue& value) {
  const bool empty_list = value.kind == YamlValue::Kind::list && value.items.empty();
  if (value.in_one_line || empty_list) out << YAML::Flow;
  switch (value.kind) {
    case YamlValue::Kind::text:
      // The library takes a return for a blank, and leaves it out.
      if (showable(value.text) != value.text) out << YAML::DoubleQuoted;
      out << value.text;
      return;
    case YamlValue::Kind::list:
      out << YAML::BeginSeq;
      for (const YamlValue& item : value.items) emit(out, item);
      out << YAML::EndSeq;
      return;
    case YamlValue::Kind::map:
      out << YAML::BeginMap;
      for (const auto& [key, field] : value.fields) {
        out << YAML::Key << key << YAML::Value;
        emit(out, field);
      }
      out << YAML::EndMap;
      return;
  }
}

}  // namespace

YamlValue YamlValue::of(std::string text) {
  YamlValue value;
  value.text = std::move(text);
  return value;
}
YamlValue YamlValue::list(std::vector<YamlValue> items) {
  YamlValue value;
  value.kind = Kind::list;
  value.items = std::move(items);
  return value;
}
YamlValue YamlValue::map(std::vector<YamlField> fields) {
  YamlValue value;
  value.kind = Kind::map;
  value.fields = std::move(fields);
  return value;
}

std::string yaml_text(const YamlValue& value) {
  YAML::Emitter out;
  emit(out, value);
  return std::string(out.c_str(), out.size()) + "\n";
}

}  // namespace turnwright
