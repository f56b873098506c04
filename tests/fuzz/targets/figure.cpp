// SPDX-License-Identifier: MIT
// A figure with its values, as words of the command line: worked out, backwards, explained.
#include <sstream>

#include "command.hpp"
#include "fuzz.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  cli::Options options;
  options.command = "figure";
  std::istringstream in(fuzz::text_of(data, size));
  for (std::string word; std::getline(in, word, ' ');)
    if (word == "--json")
      options.json = true;
    else if (word == "--why")
      options.why = true;
    else if (word == "--inch")
      options.inch = true;
    else if (!word.empty())
      options.operands.push_back(word);
  std::ostringstream out, err;
  const cli::Streams streams{in, out, err};
  cli::Session session{options, streams, fuzz::english(), {}, {}, {}};
  const cli::Exit exit = cli::figure(session);
  fuzz::hold(err.str().find("{{") == std::string::npos ||
                 fuzz::text_of(data, size).find("{{") != std::string::npos,
             "a message without words");
  if (exit == cli::Exit::done && options.json) fuzz::whole_json(out.str());
  return 0;
}
