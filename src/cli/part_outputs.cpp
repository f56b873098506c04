// SPDX-License-Identifier: MIT
#include "part_outputs.hpp"

#include "files.hpp"

namespace turnwright::cli {

Message part_words_fault(const Session& session, std::initializer_list<std::string_view> kinds) {
  if (session.options.operands.empty()) return "cli.which-part";
  return output_fault(session, kinds, true);
}

Exit put_each_part(Session& session, const std::vector<PartInput>& inputs,
                   const std::function<Exit(Outputs&, const PartInput&)>& each) {
  const std::string& to = session.options.output;
  const bool several = inputs.size() > 1;
  if (several && !to.empty() && !is_folder(to)) return session.wrong("cli.output-folder");
  Outputs outputs(session, several);
  return for_each_input(inputs, [&](const PartInput& input) { return each(outputs, input); });
}

}  // namespace turnwright::cli
