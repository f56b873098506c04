// SPDX-License-Identifier: MIT
#pragma once
// The command line, read. The only header beside options.cpp that speaks of options.
#include <optional>
#include <string>
#include <vector>

namespace turnwright::cli {

struct Options {
  std::string command;
  std::vector<std::string> operands;
  std::string shop;
  std::string machine;
  std::string output;
  std::string language;
  std::string workbooks;
  std::string keep;
  std::string week;
  std::string methods;
  std::string rule;
  int jobs = 0;  // 0: as many as the machine has
  bool inch = false, metric = false;
  bool json = false, why = false, list = false, help = false;
};

/// The options, or a message that says what is wrong and what was near.
std::optional<Options> read_options(const std::vector<std::string>& words, std::string& fault);
std::string help_for(const std::string& command);
const std::vector<std::string>& commands();

}  // namespace turnwright::cli
