// SPDX-License-Identifier: MIT
// The draft as a part file: what a reader is told stands in comments above it.
#include <algorithm>

#include "turnwright/document/write_yaml.hpp"
#include "turnwright/output/draft.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright {
namespace {

constexpr int sketch_width = 68;

std::string comment(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return c < ' ' || c == 0x7f; }, ' ');
  return "# " + text + "\n";
}

// A picture line by line.
std::string comments(const std::string& block) {
  std::string text;
  for (std::size_t from = 0; from < block.size();) {
    const std::size_t to = std::min(block.find('\n', from), block.size());
    std::string line = comment(block.substr(from, to - from));
    line.erase(line.find_last_not_of(" \n") + 1);
    text += line + "\n";
    from = to + 1;
  }
  return text;
}

YamlValue one_line(std::vector<YamlField> fields) {
  YamlValue map = YamlValue::map(std::move(fields));
  map.in_one_line = true;
  return map;
}

YamlValue texts(const std::vector<std::string>& list) {
  std::vector<YamlValue> items;
  for (const std::string& text : list) items.push_back(YamlValue::of(text));
  return YamlValue::list(std::move(items));
}

YamlValue sentences(const Messages& list, const Words& words) {
  std::vector<YamlValue> items;
  for (const Message& m : list) items.push_back(YamlValue::of(words.heading(m)));
  return YamlValue::list(std::move(items));
}

// Minutes are empty on purpose: a quote asks for them.
YamlValue other_work(const Messages& list, const Words& words) {
  std::vector<YamlValue> items;
  for (const Message& m : list)
    items.push_back(one_line({{"what", YamlValue::of(words(m))}, {"minutes", YamlValue::of("")}}));
  return YamlValue::list(std::move(items));
}

YamlValue face(const std::vector<DraftFaceGroove>& grooves) {
  std::vector<YamlValue> items;
  for (const DraftFaceGroove& g : grooves)
    items.push_back(one_line({{"width", YamlValue::of(g.width)},
                              {"depth", YamlValue::of(g.depth)},
                              {"from", YamlValue::of(g.from)}}));
  return one_line({{"groove", YamlValue::list(std::move(items))}});
}

YamlValue faces(const Draft& draft) {
  std::vector<YamlField> fields;
  if (!draft.right_grooves.empty()) fields.push_back({"right", face(draft.right_grooves)});
  if (!draft.left_grooves.empty()) fields.push_back({"left", face(draft.left_grooves)});
  return YamlValue::map(std::move(fields));
}

YamlValue head(const DraftedModel& drafted) {
  std::vector<YamlField> fields{{"number", YamlValue::of(drafted.draft.number)}};
  if (!drafted.draft.name.empty()) fields.push_back({"name", YamlValue::of(drafted.draft.name)});
  return one_line(std::move(fields));
}

YamlValue document(const DraftedModel& drafted, const Words& words) {
  const Draft& d = drafted.draft;
  std::vector<YamlField> fields{{"part", head(drafted)}};
  if (d.inch) fields.push_back({"units", YamlValue::of("inch")});
  fields.push_back({"material", YamlValue::of("")});
  for (const auto& [form, across] :
       {std::pair{"hexagon", d.hexagon}, std::pair{"square", d.square}})
    if (!across.empty()) fields.push_back({"stock", one_line({{form, YamlValue::of(across)}})});
  fields.push_back({"to confirm", sentences(d.to_confirm, words)});
  fields.push_back({"overall", YamlValue::of(d.overall)});
  fields.push_back({"outside", texts(d.outside)});
  if (!d.bore_right.empty()) fields.push_back({"bore from right", texts(d.bore_right)});
  if (!d.bore_left.empty()) fields.push_back({"bore from left", texts(d.bore_left)});
  if (!d.right_grooves.empty() || !d.left_grooves.empty()) fields.push_back({"faces", faces(d)});
  if (!d.other_work.empty()) fields.push_back({"other work", other_work(d.other_work, words)});
  return YamlValue::map(std::move(fields));
}

}  // namespace

std::string draft_file(const DraftedModel& drafted, const Words& words) {
  const Recognition& m = drafted.model;
  std::string text = comment(words.heading({"draft.title", {{"file", drafted.file}}}));
  if (m.solids.size() > 1)
    text += comment(words.heading({"draft.solid-of", {{"n", m.solid}, {"all", m.solids.size()}}}));
  text += comment(words.heading(recognition_line(m)));
  if (drafted.job) text += comments(sketch(*drafted.job, sketch_width));
  return text + yaml_text(document(drafted, words));
}

}  // namespace turnwright
