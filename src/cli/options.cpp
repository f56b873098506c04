// SPDX-License-Identifier: MIT
// The only file that knows Program_options.
#include "options.hpp"

#include <algorithm>
#include <boost/program_options.hpp>
#include <sstream>

#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

namespace po = boost::program_options;

struct Command {
  const char* name;
  const char* operands;
  const char* sentence;
  const char* example;
  std::vector<std::string> options;
};

const std::vector<Command>& table() {
  static const std::vector<Command> list{
      {"quote",
       "PART… | REQUEST | LIST.csv | LIST.xlsx",
       "What a part costs at its quantities, why, and how long it takes; a request, a whole list.",
       "turnwright quote spindle.yaml --shop myshop --output spindle.xlsx",
       {"shop", "machine", "units", "why", "json", "output", "jobs", "workbooks", "week", "keep"}},
      {"offer",
       "REQUEST",
       "The customer's copy of a request: prices and terms, nothing of the inside.",
       "turnwright offer request.yaml --shop myshop --output offer.html",
       {"shop", "machine", "language", "week", "keep", "output"}},
      {"route",
       "PART…",
       "The planned work: a step sheet for the turner, or all its numbers with --json.",
       "turnwright route spindle.yaml --shop myshop",
       {"shop", "machine", "units", "json", "output"}},
      {"compare",
       "PART…",
       "The ways of making a part, and which leads at which quantity.",
       "turnwright compare drift.yaml --shop myshop --machine \"geared lathe, medium\"",
       {"shop", "machine", "methods", "json", "output"}},
      {"tune",
       "PART…",
       "The best speeds and feeds within every limit, with a proof, beside the handbook's; of many "
       "parts the rows of the rates that matter most.",
       "turnwright tune spindle.yaml --shop myshop",
       {"shop", "machine", "units", "rule", "json", "output"}},
      {"explain",
       "PART [step 40 | pass 40.3 | price 50 | minutes]",
       "Any number of a quote: its formula, its numbers, the row it rests on and the source.",
       "turnwright explain spindle.yaml step 40 --shop myshop",
       {"shop", "machine", "units"}},
      {"rates",
       "",
       "What an hour contains and what a year's books ask of it; what the rates return.",
       "turnwright rates --shop myshop",
       {"shop", "json"}},
      {"load",
       "WEEK",
       "Hours asked for and there, a plan of the week, what is late, why, and what would save it.",
       "turnwright load week.yaml --shop myshop --output week.html",
       {"shop", "json", "output", "jobs", "keep"}},
      {"promise",
       "WEEK PART PIECES",
       "A date for a quote, nothing promised moved: kept in 50, 80, 95 of 100 draws.",
       "turnwright promise week.yaml spindle.yaml 50 --shop myshop",
       {"shop", "json", "jobs", "keep"}},
      {"actuals",
       "WEEK BOOKED.csv",
       "Booked times against the estimate: factors of each machine, as a proposal for the shop "
       "folder.",
       "turnwright actuals week.yaml booked.csv --shop myshop --output corrections.yaml",
       {"shop", "json", "output"}},
      {"figure",
       "NAME [INPUT=VALUE…]",
       "Works out a formula of the trade, backwards too: leave one input out, give a result.",
       "turnwright figure spindle-speed surface-speed=100ft/min diameter=2in",
       {"units", "why", "json", "list", "output"}},
      {"check",
       "FILE…",
       "Reads part files, requests and shop folders and reports every problem.",
       "turnwright check spindle.yaml --shop myshop",
       {"shop"}},
      {"new",
       "shop DIR | part FILE | request FILE | week FILE",
       "Writes a commented shop folder, part file, request or week to start from.",
       "turnwright new shop myshop",
       {}},
  };
  return list;
}

const Command* find(const std::string& name) {
  for (const Command& c : table())
    if (name == c.name) return &c;
  return nullptr;
}

// Name, value, sentence: one record feeds parser, help and messages.
struct Option {
  const char* name;
  const char* value;
  const char* sentence;
};
constexpr Option all_options[] = {
    {"shop", "DIR", "the shop's own rates; they replace the shipped ones record by record"},
    {"machine", "NAME", "the machine to plan for (default: the shop's first that takes the part)"},
    {"units", "metric|inch", "units of the output (default: those of the part file)"},
    {"why", "",
     "the reason behind each step, holding and condition; of a figure, its exact slopes"},
    {"json", "", "JSON on standard output, nothing else"},
    {"list", "", "lists all figures"},
    {"output", "FILE",
     "writes .xlsx, .html, .json or .txt, of a list .csv or .xlsx; with many parts a folder"},
    {"language", "XX", "of an offer: en, de, or one that the shop folder's templates bring"},
    {"week", "WEEK", "of a quote or offer: dates are promised from this week file"},
    {"methods", "\"A, B\"", "the ways to compare, by their names (default: all of the rates)"},
    {"rule", "GOAL",
     "what is made best: cost (default), time, or contribution (an hour of the machine)"},
    {"keep", "PLAN.csv",
     "of a week: the plan that hangs; what begins soon stays, every change costs"},
    {"workbooks", "DIR", "of a list: also a workbook of each part, into this folder"},
    {"jobs", "N",
     "of a list or week: how much is worked on at the same time (default: as many as there are "
     "cores)"},
    {"help", "", "this text"},
};

po::options_description described() {
  po::options_description d;
  for (const Option& o : all_options) {
    if (o.value[0] == '\0')
      d.add_options()(o.name, o.sentence);
    else
      d.add_options()(o.name, po::value<std::string>(), o.sentence);
  }
  d.add_options()("operands", po::value<std::vector<std::string>>());
  return d;
}

std::string unknown_option(const std::string& word) {
  std::vector<std::string> names;
  for (const Option& o : all_options) names.push_back(std::string("--") + o.name);
  const std::string near = nearest(word, names);
  return "unknown option '" + word + "'" + (near.empty() ? "" : "; did you mean '" + near + "'?");
}

void fill(const po::variables_map& map, Options& o, std::string& fault) {
  auto text = [&](const char* name) {
    return map.count(name) ? map[name].as<std::string>() : std::string();
  };
  o.shop = text("shop");
  o.machine = text("machine");
  o.language = text("language");
  o.workbooks = text("workbooks");
  o.keep = text("keep");
  o.methods = text("methods");
  o.rule = text("rule");
  o.week = text("week");
  o.output = text("output");
  o.json = map.count("json") > 0;
  o.why = map.count("why") > 0;
  o.list = map.count("list") > 0;
  o.help = map.count("help") > 0;
  if (map.count("operands")) o.operands = map["operands"].as<std::vector<std::string>>();
  if (const std::string jobs = text("jobs"); !jobs.empty()) {
    const auto n = read_number(jobs);
    if (n && *n >= 1 && *n <= 256 && *n == static_cast<int>(*n))
      o.jobs = static_cast<int>(*n);
    else
      fault = "--jobs: found '" + jobs + "'; expected a whole number from 1 to 256";
  }
  const std::string units = text("units");
  o.inch = units == "inch";
  o.metric = units == "metric";
  if (!units.empty() && !o.inch && !o.metric)
    fault = "--units: found '" + units + "'; expected metric or inch";
}

void refuse_foreign(const po::variables_map& map, const Command& command, std::string& fault) {
  for (const Option& o : all_options) {
    if (!map.count(o.name) || std::string(o.name) == "help") continue;
    if (std::find(command.options.begin(), command.options.end(), o.name) == command.options.end())
      fault = std::string("'") + command.name + "' has no option --" + o.name +
              "; see 'turnwright " + command.name + " --help'";
  }
}

}  // namespace

const std::vector<std::string>& commands() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const Command& c : table()) list.emplace_back(c.name);
    return list;
  }();
  return names;
}

std::optional<Options> read_options(const std::vector<std::string>& words, std::string& fault) {
  Options o;
  if (words.empty() || words[0] == "--help" || words[0] == "help") {
    o.help = true;
    return o;
  }
  o.command = words[0];
  const Command* command = find(o.command);
  if (command == nullptr) {
    const std::string near = nearest(o.command, commands());
    fault = "unknown command '" + o.command + "'" +
            (near.empty() ? "; see 'turnwright --help'" : "; did you mean '" + near + "'?");
    return std::nullopt;
  }
  const std::vector<std::string> rest(words.begin() + 1, words.end());
  for (const std::string& word : rest)
    if (word.size() > 1 && word[0] == '-' && word[1] != '-') {
      fault = unknown_option(word);
      return std::nullopt;
    }
  try {
    po::positional_options_description positions;
    positions.add("operands", -1);
    po::variables_map map;
    const auto style = po::command_line_style::allow_long |
                       po::command_line_style::long_allow_next |
                       po::command_line_style::long_allow_adjacent;
    po::store(
        po::command_line_parser(rest).options(described()).positional(positions).style(style).run(),
        map);
    fill(map, o, fault);
    refuse_foreign(map, *command, fault);
  } catch (const po::unknown_option& e) {
    fault = unknown_option(e.get_option_name().starts_with("--") ? e.get_option_name()
                                                                 : "--" + e.get_option_name());
  } catch (const po::error& e) {
    fault = e.what();
  }
  if (!fault.empty()) return std::nullopt;
  return o;
}

std::string help_for(const std::string& name) {
  const Command* command = find(name);
  std::string text;
  if (command == nullptr) {
    text =
        "Example: turnwright quote spindle.yaml --shop myshop --output spindle.xlsx\n\n"
        "Turnwright times, prices and compares turned parts before a chip is cut.\n\ncommands:\n";
    for (const Command& c : table())
      text += "  " + std::string(c.name) + std::string(10 - std::string(c.name).size(), ' ') +
              c.sentence + "\n";
    return text +
           "\n'turnwright COMMAND --help' shows its options with an example.\n"
           "exit status: 0 done, 1 done but the answer is no, 2 input wrong, 3 could not read or "
           "write\n";
  }
  text = std::string("Example: ") + command->example + "\n\nturnwright " + command->name + " " +
         command->operands + "\n" + command->sentence + "\n\n";
  for (const Option& o : all_options) {
    const bool has = std::string(o.name) == "help" ||
                     std::find(command->options.begin(), command->options.end(), o.name) !=
                         command->options.end();
    if (!has) continue;
    std::string left = std::string("--") + o.name + (o.value[0] ? " " + std::string(o.value) : "");
    left.resize(std::max<std::size_t>(left.size() + 1, 22), ' ');
    text += "  " + left + o.sentence + "\n";
  }
  return text;
}

}  // namespace turnwright::cli
