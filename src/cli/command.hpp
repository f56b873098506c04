// SPDX-License-Identifier: MIT
#pragma once
// The commands: each a record with what it takes, its options and its handler. Help, parser and
// dispatch are made from them; the sentences stand in the words catalogue under "command." and the
// name, those of options under "option.".
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "session.hpp"

namespace turnwright::cli {

struct Command {
  std::string_view name;
  std::string_view operands;
  std::string_view example;
  std::vector<std::string_view> options;  // beside --language and --help
  Exit (*run)(Session& session);
};
std::span<const Command> commands();
const Command* command_named(std::string_view name);

struct Option {
  std::string_view name;
  std::string_view value;   // "" : a switch
  bool everywhere = false;  // every command takes it
};
std::span<const Option> all_options();
bool takes(const Command& command, const Option& option);

/// The help of a command; of all of them where the name is none.
std::string help_for(const std::string& name, const Words& words);

// ---- commands/: one file each
Exit quote(Session& session);
Exit offer(Session& session);
Exit route(Session& session);
Exit compare(Session& session);
Exit tune(Session& session);
Exit explain(Session& session);
Exit rates(Session& session);
Exit words(Session& session);
Exit load(Session& session);
Exit promise(Session& session);
Exit actuals(Session& session);
Exit figure(Session& session);
Exit check(Session& session);
Exit cut(Session& session);
Exit card(Session& session);
Exit draft(Session& session);
Exit new_file(Session& session);
/// Of `quote`: a table of parts.
Exit quote_list(Session& session);

}  // namespace turnwright::cli
