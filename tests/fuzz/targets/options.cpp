// SPDX-License-Identifier: MIT
// The command line, a word a line. Nothing is run: it would write files.
#include <sstream>

#include "command.hpp"
#include "fuzz.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::istringstream in(fuzz::text_of(data, size));
  std::vector<std::string> words;
  for (std::string word; std::getline(in, word);) words.push_back(word);
  (void)cli::language_in(words);
  const auto read = cli::read_options(words);
  fuzz::speakable(read.fault);
  fuzz::hold(!read.fault.empty() || read.options.help || read.options.version ||
                 cli::command_named(read.options.command) != nullptr,
             "no command and no fault");
  return 0;
}
