// SPDX-License-Identifier: MIT
#pragma once
// What `help` says beside the commands: topics, and for packages the manual page and the
// completions of shells, all from the records of commands and options.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/output/words.hpp"

namespace turnwright::cli {

/// What a topic's help is called: "part", "list", "exit".
std::vector<std::string> topics();
/// The text of a topic, or of "man", "bash", "zsh" and "fish"; nothing when there is none.
std::optional<std::string> topic_text(const std::string& name, const Words& words);

}  // namespace turnwright::cli
