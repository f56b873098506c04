// SPDX-License-Identifier: MIT
#include "json/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "turnwright/output/words.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

// A value under its place's name, with the unit where it has one.
struct AddValue {
  Json& values;
  const std::string& name;

  void operator()(const std::string& text) const { values[name] = text; }
  void operator()(std::int64_t n) const { values[name] = n; }
  void operator()(const Figure& f) const { values[name] = json_number(f.value); }
  void operator()(const Share& s) const { values[name] = json_number(s.value); }
  void operator()(const Measure& m) const {
    const std::string suffix = unit_suffix(m.unit);
    values[suffix.empty() ? name : name + "_" + suffix] = json_number(m.si);
  }
  void operator()(Money money) const { values[name] = money.text(); }
  void operator()(Date date) const { values[name] = text_of(date); }
  void operator()(const Messages& list) const { values[name] = json_messages(list); }
};

// What no terminal should be given, as JSON may spell it: the same data.
std::string escaped(const std::string& json) {
  if (showable(json, true) == json) return json;
  std::string out;
  for (std::string_view rest = json; !rest.empty();) {
    const std::string_view character =
        rest.substr(0, std::max<std::size_t>(character_length(rest), 1));
    rest.remove_prefix(character.size());
    if (character == "\n" || is_showable(character)) {
      out += character;
      continue;
    }
    unsigned code = static_cast<unsigned char>(character[0]) &
                    (0x7Fu >> (character.size() > 1 ? character.size() : 0));
    for (const char c : character.substr(1))
      code = code << 6 | (static_cast<unsigned char>(c) & 0x3Fu);
    out += fmt::format("\\u{:04x}", code);
  }
  return out;
}

}  // namespace

Json json_head(const char* schema) {
  Json j;
  j["schema"] = std::string("turnwright/") + schema + "/2";
  j["version"] = version;
  return j;
}

std::string json_text(const Json& j) {
  return escaped(j.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

Json json_number(double value) {
  if (!std::isfinite(value)) return nullptr;
  if (value == std::floor(value) && std::abs(value) < 9e15) return static_cast<std::int64_t>(value);
  return value;
}

std::string unit_suffix(const Unit& unit) {
  if (unit.dim == Dim{1}) return "m";
  if (unit.dim == Dim{2}) return "m2";
  if (unit.dim == Dim{3}) return "m3";
  if (unit.dim == Dim{0, 1}) return "kg";
  if (unit.dim == Dim{0, 0, 1}) return "s";
  if (unit.dim == Dim{0, 0, -1}) return "per_s";
  if (unit.dim == Dim{1, 0, -1}) return "m_per_s";
  if (unit.dim == Dim{1, 1, -2}) return "N";
  if (unit.dim == Dim{2, 1, -2}) return "Nm";
  if (unit.dim == Dim{2, 1, -3}) return "W";
  if (unit.dim == Dim{-1, 1, -2}) return "Pa";
  if (unit.dim == Dim{0, 0, -1, 1}) return "per_s_money";
  return "";
}

Json json_message(const Message& message) {
  if (message.empty()) return nullptr;
  Json values = Json::object();
  for (const Place& place : message.places) std::visit(AddValue{values, place.name}, place.value);
  return {{"id", message.id}, {"values", std::move(values)}, {"text", Words()(message)}};
}

Json json_messages(const Messages& messages) {
  Json list = Json::array();
  for (const Message& message : messages) list.push_back(json_message(message));
  return list;
}

}  // namespace turnwright
