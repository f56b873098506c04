// SPDX-License-Identifier: MIT
// Sentences of the shop's own, checked against the catalogue.
#include <algorithm>
#include <set>

#include "turnwright/document/reader.hpp"
#include "turnwright/output/offer.hpp"
#include "turnwright/quantity/text.hpp"
#include "words/sentence.hpp"

namespace turnwright {
namespace {

const Sentence* sentence_of(std::string_view id) {
  const auto all = sentences_en();
  const auto at =
      std::lower_bound(all.begin(), all.end(), id,
                       [](const Sentence& s, std::string_view wanted) { return s.id < wanted; });
  return at == all.end() || at->id != id ? nullptr : &*at;
}

std::string near_id(const std::string& id) {
  std::vector<std::string> ids;
  for (const Sentence& s : sentences_en()) ids.emplace_back(s.id);
  return nearest(id, ids);
}

/// What a sentence has in braces; doubled braces are text.
struct Places {
  std::set<std::string> names;
  std::string faulty;  // a brace that stands alone, or a place with more than a name and a width
};

// "0>2": what fills, to which side, and a width of up to two digits; a larger one fills memory.
bool is_width(std::string_view format) {
  const std::size_t filler = character_length(format);
  if (format.find_first_of("<>^", filler) == filler && filler > 0)
    format.remove_prefix(filler + 1);
  else if (format.find_first_of("<>^") == 0)
    format.remove_prefix(1);
  return format.size() <= 2 && format.find_first_not_of("0123456789") == std::string_view::npos;
}

Places places_of(std::string_view sentence) {
  Places places;
  for (std::size_t i = 0; i < sentence.size() && places.faulty.empty(); ++i) {
    const char c = sentence[i];
    if (c != '{' && c != '}') continue;
    if (sentence.substr(i + 1, 1) == std::string_view(&c, 1)) {
      ++i;
      continue;
    }
    const std::size_t end = c == '{' ? sentence.find_first_of("{}", i + 1) : std::string_view::npos;
    if (end == std::string_view::npos || sentence[end] == '{') {
      places.faulty = c;
      continue;
    }
    const std::string_view place = sentence.substr(i + 1, end - i - 1);
    const std::size_t name = std::min(place.find(':'), place.size());
    places.names.emplace(place.substr(0, name));
    if (name < place.size() && !is_width(place.substr(name + 1)))
      places.faulty = "{" + std::string(place) + "}";
    i = end;
  }
  return places;
}

// Places that the catalogue's sentence does not have have no value.
void check_places(const Node& node, const std::string& own, const Sentence& known,
                  ProblemList& problems) {
  const Places places = places_of(own);
  if (!places.faulty.empty())
    problems.add(node, {"offer.faulty-place", {{"place", places.faulty}}},
                 {"expected.place", {{"example", "{name:0>2}"}}});
  const std::set<std::string> there = places_of(known.other).names;
  for (const std::string& place : places.names)
    if (!there.contains(place))
      problems.add(node, {"offer.unknown-name", {{"name", "{" + place + "}"}}},
                   one_of({there.begin(), there.end()}));
}

// The words that are not for reading but decide.
void check_choice(const Member& member, const std::string& own, ProblemList& problems) {
  if (member.key == "offer.paper" && own != "A4" && own != "Letter")
    problems.add(member.value, found(member.value), one_of({"A4", "Letter"}));
}

}  // namespace

Checked<std::map<std::string, std::string>> read_word_overlay(std::string file,
                                                              std::string_view text) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList problems(*document);
  std::map<std::string, std::string> own;
  const Node& root = document->root;
  if (root.kind == Node::Kind::text || root.kind == Node::Kind::list)
    problems.add(root, found(root), {"expected.map", {{"what", Message("offer.own-words")}}});
  for (const Member& member : root.members) {
    const Sentence* known = sentence_of(member.key);
    if (known == nullptr)
      problems.add(member.at, static_cast<int>(characters(member.key)),
                   {"offer.unknown-id", {{"id", member.key}}}, {}, near_id(member.key));
    const auto sentence = read_text(member.value, problems, "expected.text");
    if (known == nullptr || !sentence) continue;
    check_places(member.value, *sentence, *known, problems);
    check_choice(member, *sentence, problems);
    own[member.key] = *sentence;
  }
  if (!problems.clean()) return problems.problems();
  return own;
}

}  // namespace turnwright
