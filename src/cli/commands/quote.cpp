// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "command.hpp"
#include "files.hpp"
#include "infeasible.hpp"
#include "part_outputs.hpp"
#include "price_output.hpp"
#include "sheet_pictures.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/page.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/output/workbook.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {
namespace {

// A request with many parts as one table.
Exit quote_table(const Session& session, const std::vector<PartInput>& inputs) {
  PriceOutput output(session, session.options.output);
  std::size_t refused = 0;
  for (const PartInput& input : inputs) {
    const auto job = job_of(session, input);
    const auto planned =
        job ? price_part(*job, session.shop, session.fixed) : Planned<PartQuote>(Infeasible{});
    if (job && !planned) say_infeasible(session, *job, planned.infeasible());
    if (!planned) {
      ++refused;
      continue;
    }
    PartQuote part = with_band(*planned, session.shop);
    if (input.request) mark_old_price(part.quote, input.request->date, session.shop.policy);
    output.add(price_rows(part.quote, ""));
  }
  session.note({"cli.priced", {{"priced", inputs.size() - refused}, {"refused", refused}}});
  if (refused == inputs.size()) return Exit::input_wrong;
  output.finished()->keep();
  session.note({"cli.written", {{"path", session.options.output}}});
  return refused > 0 ? Exit::answer_is_no : Exit::done;
}

// What an internal copy of a quote is made from.
struct Inside {
  std::string path;
  PartQuote part;
  std::vector<InputDigest> digests;
  SheetPictures& pictures;
};

// Whose rates the prices rest on; pages, workbooks and JSON list the files.
std::string rates_line(const std::string& folder, const Words& words) {
  const Message rates = folder.empty() ? Message("cli.shipped-rates")
                                       : Message{"cli.usual-shop", {{"folder", folder}}};
  return words.heading(rates) + "\n";
}

void write_inside(const Session& session, Outputs& outputs, const PartInput& input,
                  const Inside& inside) {
  const Options& o = session.options;
  const Part& part = inside.part.quote.route.job.part;
  const Words words = session.words_for(part.inch);
  const std::string& path = inside.path;
  const FileFormat format = format_of(path);
  if (format == FileFormat::workbook)
    outputs.put_workbook(path, [&](const std::string& temporary) {
      write_workbook(inside.part, session.shop, inside.digests, words, temporary,
                     inside.pictures.of(inside.part, words));
    });
  const std::string to = format == FileFormat::workbook ? "" : path;
  if (o.json || format == FileFormat::json)
    outputs.put_json(to,
                     quote_json(inside.part, session.shop, inside.digests, input.request.get()));
  else if (format == FileFormat::page)
    outputs.put(to, quote_page(inside.part, session.shop, inside.digests, words));
  else
    outputs.put(to, (o.full || o.why ? quote_text(inside.part, words, {o.why})
                                     : quote_summary(inside.part, words)) +
                        rates_line(o.shop, words));
}

Exit quote_part(Session& session, Outputs& outputs, const PartInput& input,
                SheetPictures& pictures) {
  const auto job = job_of(session, input);
  if (!job) return Exit::input_wrong;
  const auto planned = quote_part(*job, session.shop, session.fixed);
  if (!planned) return put_infeasible(session, outputs, *job, planned.infeasible());
  const Part& part = planned->quote.route.job.part;
  const std::string path = outputs.path(part.number, ".xlsx");
  if (format_of(path) == FileFormat::workbook)
    pictures.begin(*planned, session.words_for(part.inch));
  Inside inside{path, with_band(*planned, session.shop), {}, pictures};
  Quote& quote = inside.part.quote;
  if (input.request) mark_old_price(quote, input.request->date, session.shop.policy);
  if (!session.options.week.empty()) {
    const auto delivery = delivery_message(session, input, quote.route.job.part);
    if (!delivery) return Exit::input_wrong;
    quote.delivery = *delivery;
  }
  Comparison& methods = inside.part.methods;
  methods.questions =
      open_questions(methods.quoted(), session.shop, session.fixed, methods.quantity);
  inside.digests = {{input.path, sha256(input.text)}};
  inside.digests.insert(inside.digests.end(), session.digests.begin(), session.digests.end());
  write_inside(session, outputs, input, inside);
  return Exit::done;
}

Message fault_of(const Session& session) {
  const Options& o = session.options;
  for (const std::string& path : o.operands)
    if (is_list(path)) return {"cli.list-among-parts", {{"path", path}}};
  if (o.jobs > 0 || !o.workbooks.empty() || !o.columns.empty()) return "cli.list-options";
  return part_words_fault(session, {".xlsx", ".html", ".json", ".txt", ".csv"});
}

Exit quote_parts(Session& session) {
  const Options& o = session.options;
  if (const Message fault = fault_of(session); !fault.empty()) return session.wrong(fault);
  SheetPictures pictures(session);
  const bool one_book = format_of(o.output) == FileFormat::workbook && o.operands.size() == 1;
  if (one_book || is_folder(o.output)) pictures.prepare();
  if (!ready(session)) return Exit::input_wrong;
  const std::vector<PartInput> inputs = part_inputs(session, o.operands);
  if (is_list(o.output) && (inputs.size() > 1 || format_of(o.output) == FileFormat::table))
    return quote_table(session, inputs);
  return put_each_part(session, inputs, [&](Outputs& outputs, const PartInput& input) {
    return quote_part(session, outputs, input, pictures);
  });
}

// A list where the first line is one's, else a part.
Exit quote_standard_input(Session& session) {
  ReadAhead ahead(session.streams.in);
  std::istream in(&ahead);
  const Streams streams{in, session.streams.out, session.streams.err};
  Session on{session.options, streams, session.words, {}, {}, {}};
  const bool list = kind_of_file(ahead.first_line()) == FileKind::list;
  const Exit exit = list ? quote_list(on) : quote_parts(on);
  on.say_rest();
  return exit;
}

}  // namespace

Exit quote(Session& session) {
  const Options& o = session.options;
  if (o.operands == std::vector<std::string>{"-"}) return quote_standard_input(session);
  if (!o.operands.empty() && is_list(o.operands[0])) return quote_list(session);
  return quote_parts(session);
}

}  // namespace turnwright::cli
