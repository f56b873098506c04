// SPDX-License-Identifier: MIT
#include "read_rate_files.hpp"

#include <algorithm>
#include <array>
#include <unordered_map>
#include <unordered_set>

#include "turnwright/document/packed.hpp"
#include "turnwright/shop/shipped_trees.hpp"

namespace turnwright {
namespace {

std::string record_name(const Node& node) {
  const Node* name = name_node(node);
  return name == nullptr ? "" : name->text;
}

// Of a file that ships as it is here, the tree was made while building.
Checked<Document> document_of(const NamedText& file) {
  const auto& shipped = shipped_rates();
  for (std::size_t i = 0; i < shipped.size(); ++i)
    if (shipped[i].name == file.name && shipped[i].text == file.text)
      return Document{file.name, file.text, unpacked(shipped_trees()[i])};
  return read_document(file.name, file.text);
}

// Values that stand each for itself, so that an own record may change one and keep the others. (A
// machine with speeds of its own must not keep a shipped ladder beside them.)
bool is_completed(std::string_view section) {
  static constexpr std::array<std::string_view, 3> sections{"stock conditions", "handling",
                                                            "setup"};
  return std::find(sections.begin(), sections.end(), section) != sections.end();
}

bool has_key(const Node& map, std::string_view key) {
  return std::any_of(map.members.begin(), map.members.end(),
                     [&](const Member& member) { return member.key == key; });
}

// What it rests on an own record says itself.
bool is_of_source(std::string_view key) {
  return key == "source" || key == "basis" || key == "band";
}

}  // namespace

const Node* name_node(const Node& record) {
  for (const Member& member : record.members)
    if (member.key == "name") return &member.value;
  return nullptr;
}

const std::vector<std::string>& section_names() {
  static const std::vector<std::string> names{
      "materials",       "cutting groups", "kinds of step",
      "factors",         "grades",         "tools",
      "machines",        "handling",       "chips",
      "gauging",         "setup",          "stock conditions",
      "stock handling",  "chip credit",    "policy",
      "bands",           "fits",           "general tolerances",
      "reliefs",         "centre holes",   "circlips",
      "thread run-outs", "thread passes",  "knurls",
      "clampings",       "outside work",   "exchange",
      "deep holes",      "reaming stock",  "book people",
      "book machines",   "book values",    "book overheads",
      "corrections",     "methods",        "practice",
      "cutting rows",    "other machines", "customers"};
  return names;
}

RateFiles::RateFiles(const std::vector<NamedText>& files, std::size_t own_from) {
  for (std::size_t i = 0; i < files.size(); ++i) {
    auto document = document_of(files[i]);
    if (!document) {
      unread_.insert(unread_.end(), document.problems().begin(), document.problems().end());
      continue;
    }
    File& file = files_.emplace_back();
    file.document = std::move(*document);
    file.notes = std::make_unique<ProblemList>(file.document);
    gather(file, i >= own_from);
  }
}

void RateFiles::use(const Currencies& currencies) {
  for (File& file : files_) file.notes->use(currencies);
}

std::map<std::string, std::string> RateFiles::source_titles() const {
  std::map<std::string, std::string> titles;
  for (const File& file : files_)
    for (const Member& member : file.document.root.members)
      if (member.key == "sources")
        for (const Member& title : member.value.members) titles[title.key] = title.value.text;
  return titles;
}

Problems RateFiles::problems() const {
  Problems all = unread_;
  for (const File& file : files_)
    all.insert(all.end(), file.notes->problems().begin(), file.notes->problems().end());
  return all;
}

void RateFiles::lay_over(std::string_view section, RecordNode record, RecordNode& old) {
  if (is_completed(section)) {
    Node& whole = completed_.emplace_back(*record.node);
    for (const Member& member : old.node->members)
      if (!has_key(whole, member.key) && !is_of_source(member.key)) whole.members.push_back(member);
    record.node = &whole;
  }
  record.under = std::make_shared<const RecordNode>(std::move(old));
  old = std::move(record);
}

void RateFiles::gather_section(const Member& member, File& file, bool own) {
  if (member.value.kind != Node::Kind::list) {
    file.notes->add(member.value, found(member.value), "expected.list-of-records");
    return;
  }
  Section& section = sections_[member.key];
  std::unordered_set<std::string> here;
  std::unordered_map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < section.size(); ++i) places.emplace(section[i].first, i);
  for (const Node& item : member.value.items) {
    const std::string name = record_name(item);
    if (name.empty()) {
      file.notes->add(item, "shop.no-name", "expected.map-with-name");
      continue;
    }
    if (!here.insert(name).second) {
      // Not laid over the other: there may be as many as the file has room for.
      file.notes->add(item, {"shop.twice", {{"name", name}}}, "expected.each-name-once");
      continue;
    }
    RecordNode record{&item, file.notes.get(), own};
    const auto [place, is_new] = places.emplace(name, section.size());
    if (is_new) {
      section.emplace_back(name, std::move(record));
    } else {
      lay_over(member.key, std::move(record), section[place->second].second);
    }
  }
}

void RateFiles::gather(File& file, bool own) {
  const Node& root = file.document.root;
  if (root.kind == Node::Kind::nothing) return;
  if (root.kind != Node::Kind::map) {
    file.notes->add(root, found(root), "expected.sections");
    return;
  }
  for (const Member& member : root.members) {
    if (member.key == "description") read_text(member.value, *file.notes, "expected.text");
    if (member.key == "sources") {
      if (member.value.kind != Node::Kind::map)
        file.notes->add(member.value, found(member.value), "expected.short-names");
      for (const Member& title : member.value.members)
        read_text(title.value, *file.notes, "expected.source-title");
    }
    if (member.key == "description" || member.key == "sources") continue;
    if (member.key == "units") {
      if (member.value.text != "metric")
        file.notes->add(member.value, found(member.value), "expected.metric");
      continue;
    }
    const auto& names = section_names();
    if (std::find(names.begin(), names.end(), member.key) == names.end()) {
      file.notes->add(member.at, static_cast<int>(member.key.size()),
                      {"shop.unknown-section", {{"key", member.key}}}, "expected.section",
                      nearest(member.key, names));
      continue;
    }
    gather_section(member, file, own);
  }
}

}  // namespace turnwright
