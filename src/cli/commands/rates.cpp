// SPDX-License-Identifier: MIT
#include "turnwright/output/rates.hpp"

#include <ostream>

#include "command.hpp"
#include "turnwright/shop/records.hpp"

namespace turnwright::cli {
namespace {

// Records as they stand in the files, to copy from.
Exit print_records(const Session& session, const std::string& section, const std::string& name) {
  std::vector<NamedText> files = shipped_rates();
  for (NamedText& own : own_files(session.options.shop)) files.push_back(std::move(own));
  const auto text = records_text(files, section, name);
  if (!text) {
    session.print(text.problems());
    return Exit::input_wrong;
  }
  session.streams.out << *text;
  return Exit::done;
}

}  // namespace

Exit rates(Session& session) {
  const Options& o = session.options;
  const auto& words = o.operands;
  if (words.size() > 2 || (o.json && !words.empty())) return session.wrong("cli.rates-usage");
  // The shop is not read: who looks a record up may be mending his own.
  if (!words.empty())
    return print_records(session, words[0], words.size() == 2 ? words[1] : std::string());
  if (!read_shop_files(session)) return Exit::input_wrong;
  session.streams.out << (o.json ? rates_json(session.shop)
                                 : rates_text(session.shop, session.words));
  return Exit::done;
}

}  // namespace turnwright::cli
