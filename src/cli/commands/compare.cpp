// SPDX-License-Identifier: MIT
#include "turnwright/compare/compare.hpp"

#include <algorithm>

#include "command.hpp"
#include "files.hpp"
#include "part_outputs.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

constexpr int map_size = 40;  // rows and columns of the map of methods

MethodsReport report_of(const Session& session, const Job& job,
                        const std::vector<std::string>& asked) {
  const Shop& shop = session.shop;
  MethodsReport r;
  r.title = job.part.number + (job.part.name.empty() ? "" : " " + job.part.name);
  r.currency = shop.policy.currency;
  r.comparison = compare_all(job, shop, session.fixed, asked, asked.empty(), r.combining,
                             session.options.quantity);
  r.quantity = r.comparison.quantity;
  if (r.comparison.chosen.empty()) return r;
  r.winner_changes = winner_changes(job.part, shop, r.comparison, r.quantity);
  r.sensitivities = sensitivities(job.part, shop, r.comparison.quoted(), r.quantity);
  r.map = method_map(job.part, shop, r.comparison, map_size, map_size);
  return r;
}

Exit compare_part(const Session& session, Outputs& outputs, const PartInput& input,
                  const std::vector<std::string>& asked) {
  const Options& o = session.options;
  const auto job = job_of(session, input);
  if (!job) return Exit::input_wrong;
  const MethodsReport report = report_of(session, *job, asked);
  const Words words = session.words_for(job->part.inch);
  const std::string path = outputs.path(job->part.number, o.json ? ".json" : ".txt");
  const FileFormat format = format_of(path);
  if (format == FileFormat::workbook)
    outputs.put_workbook(path, [&](const std::string& temporary) {
      write_methods_workbook(report, words, temporary);
    });
  else if (o.json || format == FileFormat::json)
    outputs.put_json(path, methods_json(report));
  else
    outputs.put(path, format == FileFormat::page ? methods_page(report, words)
                                                 : methods_text(report, words));
  const auto& methods = report.comparison.methods;
  const bool any = std::any_of(methods.begin(), methods.end(),
                               [](const MethodResult& m) { return m.feasible(); });
  return any ? Exit::done : Exit::answer_is_no;
}

// "two finish cuts, manual lathe", each a record of the rates.
Message read_methods(const Session& session, std::vector<std::string>& asked) {
  const std::string& text = session.options.methods;
  std::vector<std::string> names;
  for (const Method& method : session.shop.methods) names.push_back(method.name);
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find(',', from), text.size());
    std::string name = text.substr(from, to - from);
    name.erase(0, name.find_first_not_of(' '));
    name.erase(name.find_last_not_of(' ') + 1);
    if (method_named(session.shop, name) == nullptr)
      return with_near({"cli.unknown-method", {{"method", name}}}, nearest(name, names));
    asked.push_back(std::move(name));
    from = to + 1;
  }
  return {};
}

}  // namespace

Exit compare(Session& session) {
  if (const Message fault = part_words_fault(session, {".xlsx", ".html", ".json", ".txt"});
      !fault.empty())
    return session.wrong(fault);
  if (!ready(session)) return Exit::input_wrong;
  std::vector<std::string> asked;
  if (const Message fault = read_methods(session, asked); !fault.empty())
    return session.wrong(fault);
  return put_each_part(session, part_inputs(session, session.options.operands),
                       [&](Outputs& outputs, const PartInput& input) {
                         return compare_part(session, outputs, input, asked);
                       });
}

}  // namespace turnwright::cli
