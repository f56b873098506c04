// SPDX-License-Identifier: MIT
#pragma once
// What a command works with: its options, the streams, the reader's words, and the shop once it is
// read.
#include <string>
#include <vector>

#include "options.hpp"
#include "turnwright/cli/run.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/words.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

struct Session {
  const Options& options;
  const Streams& streams;
  Words words;
  Shop shop;
  FixedMethod fixed;                 // by --machine and --method
  std::vector<InputDigest> digests;  // of the shop's own files

  /// "turnwright quote: …" to standard error.
  void say(const Message& message) const;
  /// A line to standard error.
  void note(const Message& message) const;
  /// The first `most_problems` of the whole run; `say_rest` says how many others there were.
  void print(const Problems& problems) const;
  /// Room for one more problem in words of its own; else it is counted.
  bool says_more() const;
  void say_rest() const;
  /// Says it; the exit status of wrong input.
  Exit wrong(const Message& message) const;
  /// The reader's words for a part: in its own units where none were asked for.
  Words words_for(bool inch) const;
  int threads() const;

  // Of all that was to be said so far.
  mutable std::size_t problems_said = 0, problems_unsaid = 0;
};

/// The YAML files of a shop folder; none where no folder is named.
std::vector<NamedText> own_files(const std::string& folder);
/// The shipped rates with these files over them.
Checked<Shop> read_shop_with(const std::vector<NamedText>& own);
/// The shipped rates with the shop folder over them. Its problems are said.
bool read_shop_files(Session& session);
/// The shop has this machine, or the name is empty; else it is said.
bool knows_machine(const Session& session, const std::string& machine);
/// Shop files, and the machine and method that were asked for: what every command of parts needs
/// first.
bool ready(Session& session);

}  // namespace turnwright::cli
