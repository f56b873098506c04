// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "command.hpp"

namespace turnwright::cli {
namespace {

const std::vector<Command>& table() {
  static const std::vector<Command> list{
      {"quote",
       "PART… | REQUEST | LIST.csv | LIST.xlsx",
       "turnwright quote spindle.yaml --shop myshop --output spindle.xlsx",
       {"shop", "machine", "method", "units", "full", "why", "json", "output", "jobs", "workbooks",
        "columns", "week", "posted", "booked"},
       quote},
      {"offer",
       "REQUEST",
       "turnwright offer request.yaml --shop myshop --output offer.html",
       {"shop", "machine", "method", "units", "week", "posted", "booked", "since", "provisional",
        "output"},
       offer},
      {"route",
       "PART…",
       "turnwright route spindle.yaml --shop myshop",
       {"shop", "machine", "method", "quantity", "units", "json", "output"},
       route},
      {"compare",
       "PART…",
       "turnwright compare drift.yaml --shop myshop --machine \"geared lathe, medium\"",
       {"shop", "machine", "method", "methods", "quantity", "units", "json", "output"},
       compare},
      {"tune",
       "PART…",
       "turnwright tune spindle.yaml --shop myshop",
       {"shop", "machine", "method", "quantity", "units", "rule", "json", "output"},
       tune},
      {"explain",
       "PART [step 10.2 | pass 10.2.1 | price 50 | minutes]",
       "turnwright explain spindle.yaml step 10.2 --shop myshop",
       {"shop", "machine", "method", "quantity", "units"},
       explain},
      {"rates", "[SECTION [RECORD]]", "turnwright rates --shop myshop", {"shop", "json"}, rates},
      {"load",
       "WEEK [WEEK]",
       "turnwright load week.yaml --shop myshop --output week.html",
       {"shop", "json", "full", "why", "output", "jobs", "posted", "booked", "now", "weeks",
        "events", "effort", "without", "down"},
       load},
      {"promise",
       "WEEK PART PIECES",
       "turnwright promise week.yaml spindle.yaml 50 --shop myshop",
       {"shop", "json", "jobs", "posted", "booked", "now"},
       promise},
      {"actuals",
       "WEEK BOOKED.csv",
       "turnwright actuals week.yaml booked.csv --shop myshop --output corrections.yaml",
       {"shop", "json", "output"},
       actuals},
      {"figure",
       "NAME [INPUT=VALUE…]",
       "turnwright figure spindle-speed surface-speed=100ft/min diameter=2in",
       {"units", "why", "json", "list"},
       figure},
      {"cut",
       "MATERIAL WORK",
       "turnwright cut C45 \"50 to 46 x120\" --machine \"geared lathe, medium\"",
       {"shop", "machine", "units", "tool", "at", "working", "Ra", "stick-out", "clamping",
        "coolant", "condition", "interrupted", "json", "output"},
       cut},
      {"card",
       "",
       "turnwright card --machine \"geared lathe, medium\" --output card.html",
       {"shop", "machine", "units", "materials", "diameters", "date", "json", "output"},
       card},
      {"draft",
       "MODEL.step…",
       "turnwright draft bolt.step --output bolt.yaml",
       {"shop", "solid", "flip", "seconds", "jobs", "json", "output"},
       draft},
      {"check", "FILE… | SHOPDIR", "turnwright check spindle.yaml --shop myshop", {"shop"}, check},
      {"new",
       "shop DIR | part FILE | request FILE | week FILE",
       "turnwright new shop myshop",
       {},
       new_file},
      {"words", "", "turnwright words", {}, words},
  };
  return list;
}

constexpr std::array options_of_all{Option{"shop", "DIR"},
                                    Option{"machine", "NAME"},
                                    Option{"units", "metric|inch"},
                                    Option{"full", ""},
                                    Option{"why", ""},
                                    Option{"json", ""},
                                    Option{"list", ""},
                                    Option{"output", "FILE"},
                                    Option{"language", "en|de", true},
                                    Option{"week", "WEEK"},
                                    Option{"method", "NAME"},
                                    Option{"methods", "A, B"},
                                    Option{"quantity", "N"},
                                    Option{"rule", "RULE"},
                                    Option{"posted", "PLAN.csv"},
                                    Option{"booked", "BOOKED.csv"},
                                    Option{"now", "MOMENT"},
                                    Option{"weeks", "N"},
                                    Option{"events", "orders|operations"},
                                    Option{"without", "ORDER"},
                                    Option{"down", "MACHINE FROM..TO"},
                                    Option{"tool", "NAME"},
                                    Option{"at", "SETTINGS"},
                                    Option{"working", ""},
                                    Option{"Ra", "VALUE"},
                                    Option{"stick-out", "LENGTH"},
                                    Option{"clamping", "HOW"},
                                    Option{"coolant", "flood|dry"},
                                    Option{"condition", "NAME"},
                                    Option{"interrupted", ""},
                                    Option{"materials", "A, B"},
                                    Option{"diameters", "D, D"},
                                    Option{"date", "DAY"},
                                    Option{"provisional", ""},
                                    Option{"workbooks", "DIR"},
                                    Option{"solid", "N"},
                                    Option{"flip", ""},
                                    Option{"seconds", "N"},
                                    Option{"columns", "FILE"},
                                    Option{"since", "REQUEST"},
                                    Option{"jobs", "N"},
                                    Option{"effort", "N"},
                                    Option{"help", "", true},
                                    Option{"version", "", true}};

std::string padded(std::string text, std::size_t width) {
  text.resize(std::max(text.size() + 1, width), ' ');
  return text;
}

std::string help_for_all(const Words& words) {
  std::string text = words({"help.example", {{"example", table().front().example}}}) + "\n\n" +
                     words("help.about") + "\n\n" + words("help.commands") + "\n";
  for (const Command& c : table())
    text += "  " + words.name(padded(std::string(c.name), 9)) +
            words("command." + std::string(c.name)) + "\n";
  return text + "\n" + words("help.more") + "\n" + words("topic.more") + "\n" +
         words("help.exit-status") + "\n";
}

}  // namespace

std::span<const Command> commands() { return table(); }

const Command* command_named(std::string_view name) {
  const auto found = std::find_if(table().begin(), table().end(),
                                  [&](const Command& c) { return c.name == name; });
  return found == table().end() ? nullptr : &*found;
}

std::span<const Option> all_options() { return options_of_all; }

bool takes(const Command& command, const Option& option) {
  const auto& own = command.options;
  return option.everywhere || std::find(own.begin(), own.end(), option.name) != own.end();
}

std::string help_for(const std::string& name, const Words& words) {
  const Command* command = command_named(name);
  if (command == nullptr) return help_for_all(words);
  const std::string own(command->name);
  std::string usage = "turnwright " + own;
  if (!command->operands.empty()) usage += " " + std::string(command->operands);
  std::string text = words({"help.example", {{"example", command->example}}}) + "\n\n" +
                     words.name(usage) + "\n" + words("command." + own) + "\n\n";
  for (const Option& o : all_options()) {
    if (!takes(*command, o)) continue;
    const std::string option(o.name);
    const std::string left = "--" + option + (o.value.empty() ? "" : " " + std::string(o.value));
    // Where a command's own sentence says more than the option's.
    const std::string special = "option." + option + "." + own;
    text += "  " + words.name(padded(left, 22)) +
            words(words.knows(special) ? special : "option." + option) + "\n";
  }
  return text;
}

}  // namespace turnwright::cli
