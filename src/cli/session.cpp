// SPDX-License-Identifier: MIT
#include "session.hpp"

#include <algorithm>
#include <ostream>

#include "files.hpp"
#include "turnwright/output/offer.hpp"
#include "turnwright/quantity/in_parallel.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

Words words_of(const Options& o, const Policy& policy) {
  const auto language = language_named(o.language.empty() ? policy.language : o.language);
  Words words(language.value_or(Language::en), o.inch);
  words.currency(policy.currency);
  return words;
}

// The shop's own words of the language over the catalogue's.
bool take_own_words(Session& session) {
  if (session.options.shop.empty()) return true;
  const std::string path = session.options.shop + "/templates/words." +
                           std::string(name_of(session.words.language())) + ".yaml";
  if (!exists(path)) return true;
  auto own = read_word_overlay(path, read_file(path));
  if (own)
    session.words.overlay(std::move(*own));
  else
    session.print(own.problems());
  return static_cast<bool>(own);
}

}  // namespace

void Session::say(const Message& message) const {
  streams.err << "turnwright " << options.command << ": " << words(message) << "\n";
}
void Session::note(const Message& message) const { streams.err << words(message) << "\n"; }

void Session::print(const Problems& problems) const {
  for (const Problem& problem : problems)
    if (problems_said >= most_problems || problem.stands_for > 1) {
      problems_unsaid += problem.stands_for;
    } else {
      streams.err << problem_text(problem, words);
      ++problems_said;
    }
}

bool Session::says_more() const {
  if (problems_said < most_problems) return true;
  ++problems_unsaid;
  return false;
}

void Session::say_rest() const {
  if (problems_unsaid > 0) note({"document.more-problems", {{"n", problems_unsaid}}});
}

Exit Session::wrong(const Message& message) const {
  say(message);
  return Exit::input_wrong;
}

Words Session::words_for(bool inch) const {
  Words own = words;
  own.units(options.inch || (inch && !options.metric));
  return own;
}

int Session::threads() const { return options.jobs > 0 ? options.jobs : processors(); }

std::vector<NamedText> own_files(const std::string& folder) {
  return folder.empty() ? std::vector<NamedText>{} : read_folder(folder);
}

Checked<Shop> read_shop_with(const std::vector<NamedText>& own) {
  std::vector<NamedText> files = shipped_rates();
  const std::size_t own_from = files.size();
  files.insert(files.end(), own.begin(), own.end());
  return read_shop(files, own_from);
}

bool read_shop_files(Session& session) {
  const Options& o = session.options;
  const std::vector<NamedText> own = own_files(o.shop);
  for (const NamedText& file : own) session.digests.push_back({file.name, sha256(file.text)});
  if (!o.shop.empty() && own.empty()) {
    session.note({"cli.no-yaml-in-folder", {{"folder", o.shop}}});
    return false;
  }
  auto shop = read_shop_with(own);
  if (!shop) {
    session.print(shop.problems());
    return false;
  }
  session.shop = std::move(*shop);
  session.words = words_of(o, session.shop.policy);
  return take_own_words(session);
}

bool ready(Session& session) {
  const Options& o = session.options;
  if (!read_shop_files(session) || !knows_machine(session, o.machine)) return false;
  session.fixed.machine = o.machine;
  if (o.method.empty()) return true;
  session.fixed.records = methods_named(session.shop, o.method);
  if (!session.fixed.records.empty()) return true;
  std::vector<std::string> names;
  for (const Method& m : session.shop.methods) names.push_back(m.name);
  session.say(with_near({"cli.unknown-method", {{"method", o.method}}}, nearest(o.method, names)));
  return false;
}

bool knows_machine(const Session& session, const std::string& machine) {
  if (machine.empty() || session.shop.machine(machine) != nullptr) return true;
  std::vector<std::string> names;
  for (const Machine& m : session.shop.machines) names.push_back(m.name);
  session.say(with_near({"cli.unknown-machine", {{"machine", machine}, {"known", one_of(names)}}},
                        nearest(machine, names)));
  return false;
}

}  // namespace turnwright::cli
