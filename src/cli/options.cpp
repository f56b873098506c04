// SPDX-License-Identifier: MIT
// The only file that knows Program_options.
#include "options.hpp"

#include <algorithm>
#include <boost/program_options.hpp>

#include "command.hpp"
#include "turnwright/part/part.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

namespace po = boost::program_options;

po::options_description described() {
  po::options_description d;
  for (const Option& o : all_options()) {
    const std::string name(o.name);
    if (o.value.empty())
      d.add_options()(name.c_str(), "");
    else
      d.add_options()(name.c_str(), po::value<std::string>(), "");
  }
  d.add_options()("operands", po::value<std::vector<std::string>>());
  return d;
}

Message unknown_option(const std::string& word) {
  std::vector<std::string> names;
  for (const Option& o : all_options()) names.push_back("--" + std::string(o.name));
  return with_near({"cli.unknown-option", {{"option", word}}}, nearest(word, names));
}

Message read_jobs(const std::string& text, int& jobs) {
  if (text.empty()) return {};
  const auto n = read_whole(text, 1, 256);
  if (!n) return {"cli.jobs", {{"text", text}}};
  jobs = *n;
  return {};
}

Message read_effort(const std::string& text, double& effort) {
  if (text.empty()) return {};
  const auto n = read_number(text);
  if (!n || *n < 0.01 || *n > 1000) return {"cli.effort", {{"text", text}}};
  effort = *n;
  return {};
}

std::string text_of(const po::variables_map& map, const char* name) {
  return map.count(name) ? map[name].as<std::string>() : std::string();
}

// Counts from one on: of a model, of weeks.
Message read_counts(const po::variables_map& map, Options& o) {
  for (const auto& [name, value] : {std::pair{"solid", &o.solid}, std::pair{"seconds", &o.seconds},
                                    std::pair{"weeks", &o.weeks}}) {
    const std::string text = text_of(map, name);
    if (text.empty()) continue;
    const auto n = read_whole(text, 1, 3600);
    if (!n) return {"cli.count-from-one", {{"option", name}, {"text", text}}};
    *value = *n;
  }
  return {};
}

Message read_quantity(const std::string& text, int& quantity) {
  if (text.empty()) return {};
  const auto n = read_whole(text, 1, most_pieces);
  if (!n) return {"cli.no-pieces", {{"text", text}}};
  quantity = *n;
  return {};
}

Message read_units(const std::string& text, Options& o) {
  o.inch = text == "inch";
  o.metric = text == "metric";
  if (text.empty() || o.inch || o.metric) return {};
  return {"cli.units", {{"text", text}}};
}

Message read_events(const std::string& text, Options& o) {
  o.operations = text == "operations";
  if (text.empty() || o.operations || text == "orders") return {};
  return {"cli.events", {{"text", text}}};
}

void fill_cut(const po::variables_map& map, Options& o) {
  const auto text = [&](const char* name) { return text_of(map, name); };
  o.tool = text("tool");
  o.at = text("at");
  o.ra = text("Ra");
  o.stick_out = text("stick-out");
  o.clamping = text("clamping");
  o.coolant = text("coolant");
  o.condition = text("condition");
  o.materials = text("materials");
  o.diameters = text("diameters");
  o.date = text("date");
  o.working = map.count("working") > 0;
  o.interrupted = map.count("interrupted") > 0;
}

Message fill(const po::variables_map& map, Options& o) {
  const auto text = [&](const char* name) { return text_of(map, name); };
  o.shop = text("shop");
  o.machine = text("machine");
  o.language = text("language");
  o.workbooks = text("workbooks");
  o.columns = text("columns");
  o.posted = text("posted");
  o.since = text("since");
  o.booked = text("booked");
  o.now = text("now");
  o.without = text("without");
  o.down = text("down");
  o.method = text("method");
  o.methods = text("methods");
  o.rule = text("rule");
  fill_cut(map, o);
  o.week = text("week");
  o.output = text("output");
  if (o.output == "-") o.output.clear();  // standard output, as where none is named
  o.json = map.count("json") > 0;
  o.full = map.count("full") > 0;
  o.flip = map.count("flip") > 0;
  o.why = map.count("why") > 0;
  o.list = map.count("list") > 0;
  o.provisional = map.count("provisional") > 0;
  o.help = map.count("help") > 0;
  o.version = map.count("version") > 0;
  if (map.count("operands")) o.operands = map["operands"].as<std::vector<std::string>>();
  if (Message fault = read_jobs(text("jobs"), o.jobs); !fault.empty()) return fault;
  if (Message fault = read_effort(text("effort"), o.effort); !fault.empty()) return fault;
  if (Message fault = read_quantity(text("quantity"), o.quantity); !fault.empty()) return fault;
  if (Message fault = read_counts(map, o); !fault.empty()) return fault;
  if (Message fault = read_events(text("events"), o); !fault.empty()) return fault;
  return read_units(text("units"), o);
}

Message foreign_option(const po::variables_map& map, const Command& command) {
  for (const Option& o : all_options())
    if (map.count(std::string(o.name)) && !takes(command, o))
      return {"cli.foreign-option", {{"command", command.name}, {"option", o.name}}};
  return {};
}

Message parse(const std::vector<std::string>& words, const Command& command, Options& o) {
  try {
    po::positional_options_description positions;
    positions.add("operands", -1);
    po::variables_map map;
    const auto style = po::command_line_style::allow_long |
                       po::command_line_style::long_allow_next |
                       po::command_line_style::long_allow_adjacent;
    po::store(po::command_line_parser(words)
                  .options(described())
                  .positional(positions)
                  .style(style)
                  .run(),
              map);
    o.takes_shop =
        std::find(command.options.begin(), command.options.end(), "shop") != command.options.end();
    if (Message fault = fill(map, o); !fault.empty()) return fault;
    return foreign_option(map, command);
  } catch (const po::unknown_option& e) {
    const std::string name = e.get_option_name();
    return unknown_option(name.starts_with("--") ? name : "--" + name);
  } catch (const po::multiple_occurrences& e) {
    return {"cli.option-twice", {{"option", e.get_option_name()}}};
  } catch (const po::invalid_command_line_syntax& e) {
    return {"cli.option-value", {{"option", e.get_option_name()}}};
  } catch (const po::error& e) {
    return {"cli.options", {{"why", e.what()}}};
  }
}

}  // namespace

Message with_near(Message fault, const std::string& near) {
  if (near.empty()) return fault;
  return {"problem.near", {{"what", std::move(fault)}, {"near", near}}};
}

Language language_in(const std::vector<std::string>& words) {
  constexpr std::string_view option = "--language";
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == option && i + 1 < words.size())
      return language_named(words[i + 1]).value_or(Language::en);
    if (words[i].starts_with(option) && words[i].size() > option.size())
      return language_named(std::string_view(words[i]).substr(option.size() + 1))
          .value_or(Language::en);
  }
  return Language::en;
}

namespace {

// What help is asked for: the first word that is no option and no option's language.
std::string topic_of(const std::vector<std::string>& words) {
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (!words[i].starts_with("--")) return words[i];
    if (words[i] == "--language") ++i;
  }
  return "";
}

}  // namespace

OptionsRead read_options(const std::vector<std::string>& words) {
  OptionsRead read;
  Options& o = read.options;
  if (words.empty() || words[0] == "--help" || words[0] == "help") {
    o.help = true;
    o.command = topic_of(words);
    return read;
  }
  if (words[0] == "--version") {
    o.version = true;
    return read;
  }
  o.command = words[0];
  const Command* command = command_named(o.command);
  if (command == nullptr) {
    std::vector<std::string> names;
    for (const Command& c : commands()) names.emplace_back(c.name);
    const std::string near = nearest(o.command, names);
    read.fault = near.empty() ? Message{"cli.unknown-command-help", {{"command", o.command}}}
                              : with_near({"cli.unknown-command", {{"command", o.command}}}, near);
    return read;
  }
  const std::vector<std::string> rest(words.begin() + 1, words.end());
  for (const std::string& word : rest)
    if (word.size() > 1 && word[0] == '-' && word[1] != '-') {
      read.fault = unknown_option(word);
      return read;
    }
  read.fault = parse(rest, *command, o);
  return read;
}

}  // namespace turnwright::cli
