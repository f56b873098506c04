// SPDX-License-Identifier: MIT
#include "fuzz.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "turnwright/document/reader.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::fuzz {

const Words& english() {
  static const Words words;
  return words;
}
const Words& german() {
  static const Words words(Language::de);
  return words;
}

namespace {

void known(const Message& message) {
  if (message.empty()) return;
  if (message.id != verbatim_id && !english().knows(message.id)) hold(false, message.id.c_str());
  for (const Place& place : message.places)
    if (const auto* list = std::get_if<Messages>(&place.value))
      for (const Message& inner : *list) known(inner);
}

}  // namespace

void speakable(const Message& message) {
  known(message);
  (void)english()(message);
}
void speakable(const Messages& messages) {
  for (const Message& message : messages) speakable(message);
}
void speakable(const Problems& problems) {
  for (const Problem& problem : problems) {
    known(problem.what);
    known(problem.expected);
  }
  // What the first look like, the others do.
  for (std::size_t i = 0; i < std::min<std::size_t>(problems.size(), 5); ++i) {
    const Problem& problem = problems[i];
    const std::string text = showable(problem_text(problem, english()), true);
    hold(bad_byte(text) == std::string::npos, "UTF-8");
    (void)problem_text(problem, german());
  }
}

void whole_json(const std::string& json) { hold(nlohmann::json::accept(json), "JSON"); }

}  // namespace turnwright::fuzz
