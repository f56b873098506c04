// SPDX-License-Identifier: MIT
#pragma once
// What the commands share that answer part by part.
#include <functional>
#include <initializer_list>
#include <string_view>
#include <vector>

#include "inputs.hpp"
#include "outputs.hpp"

namespace turnwright::cli {

/// What is wrong with the words of a command that writes these kinds of file, one a part; empty:
/// nothing.
Message part_words_fault(const Session& session, std::initializer_list<std::string_view> kinds);

/// Each part through `each`, which puts its answer; several go to standard output or to a folder.
Exit put_each_part(Session& session, const std::vector<PartInput>& inputs,
                   const std::function<Exit(Outputs&, const PartInput&)>& each);

}  // namespace turnwright::cli
