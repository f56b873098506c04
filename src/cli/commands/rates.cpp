// SPDX-License-Identifier: MIT
#include "turnwright/output/rates.hpp"

#include <ostream>

#include "command.hpp"

namespace turnwright::cli {

Exit rates(Session& session) {
  const Options& o = session.options;
  if (!o.operands.empty()) return session.wrong({"cli.no-file", {{"path", o.operands[0]}}});
  if (!read_shop_files(session)) return Exit::input_wrong;
  session.streams.out << (o.json ? rates_json(session.shop)
                                 : rates_text(session.shop, session.words));
  return Exit::done;
}

}  // namespace turnwright::cli
