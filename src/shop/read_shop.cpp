// SPDX-License-Identifier: MIT
// The files of rates/ and of a shop folder: sections of named records, overlaid record by record.
#include <algorithm>
#include <deque>
#include <functional>
#include <memory>
#include <unordered_map>
#include <unordered_set>

#include "sections.hpp"
#include "turnwright/document/packed.hpp"
#include "turnwright/shop/shipped_trees.hpp"

namespace turnwright {
namespace {

struct File {
  Document document;
  std::unique_ptr<ProblemList> notes;
};

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

std::string record_name(const Node& node) {
  for (const Member& member : node.members)
    if (member.key == "name") return member.value.text;
  return "";
}

void gather_section(const Member& member, File& file, bool own, Sections& sections) {
  if (member.value.kind != Node::Kind::list) {
    file.notes->add(member.value, found(member.value), "expected.list-of-records");
    return;
  }
  Section& section = sections[member.key];
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
      RecordNode& old = section[place->second].second;
      record.under = std::make_shared<const RecordNode>(std::move(old));
      old = std::move(record);
    }
  }
}

void gather(File& file, bool own, Sections& sections) {
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
    gather_section(member, file, own, sections);
  }
}

void read_machines(const Sections& sections, Shop& shop) {
  std::vector<Machine> shipped;
  each_record(sections, "machines", [&](MapReader& map, bool own) {
    (own ? shop.machines : shipped).push_back(read_machine(map));
    shop.own_machines = shop.own_machines || own;
  });
  // A shop with machines of its own does not quote on those it does not have.
  if (!shop.own_machines) shop.machines = std::move(shipped);
}

// Before all others: what amounts may be written in.
Currencies read_currencies(const Sections& s) {
  Currencies currencies;
  each_record(s, "exchange",
              [&](MapReader& map, bool) { currencies.rates.push_back(read_exchange(map)); });
  const auto policy = s.find("policy");
  if (policy == s.end()) return currencies;
  for (const auto& [name, record] : policy->second)
    if (name == "currency")
      for (const Member& member : record.node->members)
        // A code that there is not is refused where the policy is read, not at every amount.
        if (member.key == "value" && is_currency(member.value.text))
          currencies.own = member.value.text;
  return currencies;
}

Shop build(const Sections& s) {
  Shop shop;
  auto add = [&s](std::string_view name, auto& into, auto read) {
    each_record(s, name, [&](MapReader& map, bool) { into.push_back(read(map)); });
  };
  read_materials(s, shop);
  read_cutting(s, shop);
  add("kinds of step", shop.step_factors, read_step_factor);
  each_record(s, "factors", [&](MapReader& map, bool) { read_factors(map, shop); });
  read_grades(s, shop);
  add("tools", shop.tools, read_tool);
  read_machines(s, shop);
  each_record(s, "handling", [&](MapReader& map, bool) {
    if (record_name(map.node()) == "load")
      shop.load = read_load(map);
    else
      shop.handling.push_back(read_element(map, unit::s));
  });
  add("chips", shop.chips, [](MapReader& map) {
    return ChipShare{map.text_or("name", ""), map.needed("manual", unit::ratio).si,
                     map.needed("CNC", unit::ratio).si, source_of(map)};
  });
  add("gauging", shop.gauging, [](MapReader& map) {
    map.text("name");
    return GaugingShare{map.whole("from grade", 0, 18).value_or(0),
                        map.needed("share", unit::ratio).si, source_of(map)};
  });
  add("setup", shop.setup, [](MapReader& map) { return read_element(map, unit::min); });
  add("stock conditions", shop.conditions, read_condition);
  each_record(s, "stock handling", [&](MapReader& map, bool) { shop.bars = read_bars(map); });
  add("chip credit", shop.chip_credits, [](MapReader& map) {
    map.need("share");
    return ChipCredit{map.text_or("name", ""), share_up_to(map, "share", 1), source_of(map)};
  });
  add("fits", shop.standards.fits, read_fit);
  add("general tolerances", shop.standards.general, read_general);
  add("reliefs", shop.standards.reliefs, read_relief);
  add("centre holes", shop.standards.centre_holes, read_centre_hole);
  each_record(s, "circlips", [&](MapReader& map, bool) { read_circlips(map, shop.standards); });
  add("thread run-outs", shop.standards.runouts, read_runout);
  std::sort(shop.standards.runouts.begin(), shop.standards.runouts.end(),
            [](const auto& a, const auto& b) { return a.pitch < b.pitch; });
  each_record(s, "thread passes", [&](MapReader& map, bool) {
    shop.standards.thread_passes = read_thread_passes(map);
  });
  add("knurls", shop.standards.knurls, [](MapReader& map) {
    return KnurlSize{map.text_or("name", ""), map.needed("share", unit::ratio).si, source_of(map)};
  });
  add("clampings", shop.clampings, [](MapReader& map) {
    return ClampingKind{map.text_or("name", ""), map.needed("accuracy", unit::mm), source_of(map)};
  });
  add("outside work", shop.outside_work, read_outside_work);
  add("other machines", shop.other_machines, read_other_machine);
  add("customers", shop.customers, read_customer);
  add("corrections", shop.corrections, read_correction);
  read_methods(s, shop);
  add("book people", shop.books.people, read_booked_people);
  add("book machines", shop.books.machines, read_booked_machine);
  add("book overheads", shop.books.overheads, read_booked_overhead);
  each_record(s, "book values", [&](MapReader& map, bool) { read_book_value(map, shop.books); });
  each_record(s, "deep holes",
              [&](MapReader& map, bool) { shop.deep_holes = read_deep_holes(map); });
  each_record(s, "reaming stock", [&](MapReader& map, bool) { shop.reaming = read_reaming(map); });
  each_record(s, "practice", [&](MapReader& map, bool) { read_practice(map, shop.practice); });
  each_record(s, "policy", [&](MapReader& map, bool) { read_policy(map, shop.policy); });
  each_record(s, "bands", [&](MapReader& map, bool) { read_band(map, shop.policy); });
  return shop;
}

// Names that one record uses of another.
void check_references(const Sections& s, const Shop& shop) {
  std::vector<std::string> groups, grades, tools;
  for (const auto& g : shop.cutting_groups) groups.push_back(g.name);
  for (const auto& g : shop.grades) grades.push_back(g.name);
  for (const auto& t : shop.tools) tools.push_back(t.name);
  auto check = [&s](std::string_view section, std::string_view key,
                    const std::vector<std::string>& names, const Message& what) {
    const auto found = s.find(std::string(section));
    if (found == s.end()) return;
    for (const auto& [name, record] : found->second)
      for (const Member& member : record.node->members) {
        if (member.key != key) continue;
        for (const Node* item : as_list(member.value))
          if (std::find(names.begin(), names.end(), item->text) == names.end())
            record.notes->add(
                *item, {"shop.unknown-name", {{"what", what}, {"name", described(*item)}}},
                {"expected.of-the-rates", {{"what", what}}}, nearest(item->text, names));
      }
  };
  const auto kinds = s.find("kinds of step");
  if (kinds != s.end())
    for (const auto& [name, record] : kinds->second)
      for (const Member& member : record.node->members)
        for (const Member& share : member.value.members)
          if (std::find(grades.begin(), grades.end(), share.key) == grades.end())
            record.notes->add(
                share.value,
                {"shop.unknown-name", {{"what", Message("shop.grade")}, {"name", share.key}}},
                {"expected.of-the-rates", {{"what", Message("shop.grade")}}},
                nearest(share.key, grades));
  check("materials", "group", groups, "shop.cutting-group");
  check("cutting rows", "group", groups, "shop.cutting-group");
  check("cutting rows", "grade", grades, "shop.grade");
  check("tools", "grade", grades, "shop.grade");
  check("methods", "tools", grades, "shop.grade");
  check("machines", "mounted tools", tools, "shop.tool");
  std::vector<std::string> machines;
  for (const auto& m : shop.machines) machines.push_back(m.name);
  check("corrections", "machine", machines, "shop.machine");
}

// The shop says once how a price comes from its cost.
void check_margin(const Sections& s) {
  const auto policy = s.find("policy");
  if (policy == s.end()) return;
  auto own = [&](std::string_view name) -> const RecordNode* {
    for (const auto& [record, node] : policy->second)
      if (record == name && node.own) return &node;
    return nullptr;
  };
  const RecordNode *margin = own("margin"), *markup = own("markup");
  if (margin != nullptr && markup != nullptr)
    markup->notes->add(*markup->node, "shop.margin-and-markup", "expected.margin-or-markup");
}

void add_missing_row(std::string_view section, std::string_view name, Problems& problems) {
  Problem problem;
  problem.file = std::string(section);
  problem.what = {"shop.missing-row", {{"section", section}, {"name", name}}};
  problems.push_back(std::move(problem));
}

// The engine looks these rows up by name: a shop without one would be priced at less.
template <class Id, class Records>
void check_rows(const Records& records, int rows, std::string_view section, Problems& problems) {
  for (int i = 0; i < rows; ++i) {
    const std::string_view name = name_of(static_cast<Id>(i));
    const bool there = std::any_of(records.begin(), records.end(),
                                   [&](const auto& record) { return record.name == name; });
    if (!there) add_missing_row(section, name, problems);
  }
}
void check_needed_rows(const Shop& shop, Problems& problems) {
  check_rows<HandlingId>(shop.handling, handling_rows, "handling", problems);
  check_rows<SetupId>(shop.setup, setup_rows, "setup", problems);
  check_rows<StepFactorId>(shop.step_factors, step_factor_rows, "kinds of step", problems);
  check_rows<AccuracyId>(shop.clampings, accuracy_rows, "clampings", problems);
  check_rows<ChipId>(shop.chips, chip_rows, "chips", problems);
  std::vector<NamedText> factors;
  for (const auto& [name, factor] : shop.factors) factors.push_back({name, ""});
  check_rows<FactorId>(factors, factor_rows, "factors", problems);
  for (const std::string& name : practice_names())
    if (!shop.practice.sources.contains(name)) add_missing_row("practice", name, problems);
}

// Of a file that ships as it is here, the tree was made while building.
Checked<Document> document_of(const NamedText& file) {
  const auto& shipped = shipped_rates();
  for (std::size_t i = 0; i < shipped.size(); ++i)
    if (shipped[i].name == file.name && shipped[i].text == file.text)
      return Document{file.name, file.text, unpacked(shipped_trees()[i])};
  return read_document(file.name, file.text);
}

}  // namespace

Checked<Shop> read_shop(const std::vector<NamedText>& files, std::size_t own_from) {
  std::deque<File> read;
  Problems problems;
  Sections sections;
  for (std::size_t i = 0; i < files.size(); ++i) {
    auto document = document_of(files[i]);
    if (!document) {
      problems.insert(problems.end(), document.problems().begin(), document.problems().end());
      continue;
    }
    File& file = read.emplace_back();
    file.document = std::move(*document);
    file.notes = std::make_unique<ProblemList>(file.document);
    gather(file, i >= own_from, sections);
  }
  const Currencies currencies = read_currencies(sections);
  for (File& file : read) file.notes->use(currencies);
  Shop shop = build(sections);
  shop.currencies = currencies;
  for (const File& file : read)
    for (const Member& member : file.document.root.members)
      if (member.key == "sources")
        for (const Member& title : member.value.members)
          shop.source_titles[title.key] = title.value.text;
  check_references(sections, shop);
  check_margin(sections);
  for (const File& file : read)
    problems.insert(problems.end(), file.notes->problems().begin(), file.notes->problems().end());
  if (problems.empty()) check_needed_rows(shop, problems);
  if (!problems.empty()) return problems;
  return shop;
}

}  // namespace turnwright
