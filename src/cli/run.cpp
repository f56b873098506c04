// SPDX-License-Identifier: MIT
#include "turnwright/cli/run.hpp"

#include <algorithm>
#include <cmath>
#include <istream>
#include <iterator>
#include <memory>
#include <optional>
#include <ostream>

#include "figure_command.hpp"
#include "files.hpp"
#include "list_command.hpp"
#include "load_command.hpp"
#include "offer_command.hpp"
#include "options.hpp"
#include "price_output.hpp"
#include "print.hpp"
#include "request_files.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/explain.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/output/page.hpp"
#include "turnwright/output/rates.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/output/tuned.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
const std::vector<NamedText>& starter_files();  // built in from templates/new
const std::vector<NamedText>& schema_files();   // built in from rates/schema
}  // namespace turnwright

namespace turnwright::cli {
namespace {

// A part to work on, read; of a request with the request.
struct PartInput {
  std::string path, text;
  Checked<Part> part;
  std::shared_ptr<const Request> request;
};

constexpr int map_size = 40;  // rows and columns of the map of ways

class PartCommand {
 public:
  PartCommand(const Options& options, const Streams& streams) : o_(options), s_(streams) {}

  Exit run() {
    if (o_.command == "rates") return rates();
    if (o_.command == "offer") return offer();
    if (o_.command == "load") return load();
    if (o_.command == "promise") return promise();
    if (o_.command == "actuals") return actuals();
    if (o_.command == "quote" && !o_.operands.empty() && is_list(o_.operands[0])) return list();
    for (const std::string& path : o_.operands)
      if (is_list(path))
        return wrong("found the list '" + path + "'; expected a part file" +
                     (o_.command == "quote" ? ", or one list alone" : ""));
    if (o_.jobs > 0 || !o_.workbooks.empty())
      return wrong("--jobs and --workbooks are for a list (.csv or .xlsx)");
    if (o_.operands.empty()) return wrong("which part? give a part file, or - for standard input");
    if (!o_.output.empty() && o_.operands.size() == 1 && !is_folder(o_.output) &&
        !known_kind(o_.output))
      return wrong("--output: found '" + o_.output +
                   "'; expected a name ending in .xlsx, .html, .json, .txt or .csv");
    std::vector<std::string> paths = o_.operands;
    if (o_.command == "explain") {
      if (const std::string fault = read_subject(); !fault.empty()) return wrong(fault);
      paths.resize(1);
    }
    if (!read_shop_files()) return Exit::input_wrong;
    std::vector<PartInput> inputs;
    for (const std::string& path : paths) add_inputs(path, inputs);
    // A request with many parts comes out as one table where a file is named.
    if (o_.command == "quote" && is_list(o_.output) &&
        (inputs.size() > 1 || ends(o_.output, ".csv")))
      return price_table(inputs);
    if (o_.command != "explain" && inputs.size() > 1 && !o_.output.empty() && !is_folder(o_.output))
      return wrong("--output must be a folder that exists when there are many parts");
    if (const std::string fault = read_methods(); !fault.empty()) return wrong(fault);
    if (!o_.rule.empty() && o_.rule != "cost" && o_.rule != "time" && o_.rule != "contribution")
      return wrong("--rule: found '" + o_.rule + "'; expected cost, time or contribution");
    Exit worst = Exit::done;
    std::size_t refused = 0;
    for (const PartInput& input : inputs) {
      const Exit e = one(input);
      if (e == Exit::input_wrong) ++refused;
      worst = std::max(worst, e == Exit::input_wrong ? Exit::answer_is_no : e);
    }
    if (tuned_parts_.size() > 1 && !o_.json)
      s_.out << "\n" << effects_text(shop_effects(tuned_parts_, shop_, o_.machine), shop_);
    // Of a list: 2 only when all of it was wrong.
    return refused == inputs.size() ? Exit::input_wrong : worst;
  }

 private:
  Exit wrong(const std::string& text) {
    s_.err << "turnwright " << o_.command << ": " << text << "\n";
    return Exit::input_wrong;
  }
  static bool ends(const std::string& text, const char* tail) { return text.ends_with(tail); }
  bool known_kind(const std::string& path) const {
    return ends(path, ".xlsx") || ends(path, ".html") || ends(path, ".json") ||
           ends(path, ".txt") || (o_.command == "quote" && ends(path, ".csv"));
  }
  std::string text_of_input(const std::string& path) {
    if (path != "-") return read_file(path);
    return {std::istreambuf_iterator<char>(s_.in), std::istreambuf_iterator<char>()};
  }
  // A part file, or each part of a request.
  void add_inputs(const std::string& path, std::vector<PartInput>& inputs) {
    std::string text = text_of_input(path);
    const std::string name = path == "-" ? "standard input" : path;
    if (!is_request(text)) {
      Checked<Part> part = read_part(name, text);
      inputs.push_back({name, std::move(text), std::move(part), nullptr});
      return;
    }
    const auto request = read_request(name, text);
    if (!request) {
      inputs.push_back({name, std::move(text), request.problems(), nullptr});
      return;
    }
    const auto kept = std::make_shared<const Request>(*request);
    for (OrderedPart& part : ordered_parts(*kept))
      inputs.push_back({part.path, std::move(part.text), std::move(part.part), kept});
  }
  bool read_shop_files() {
    std::vector<NamedText> files = shipped_rates();
    const std::size_t own_from = files.size();
    if (!o_.shop.empty())
      for (NamedText& file : read_folder(o_.shop)) {
        digests_.push_back({file.name, sha256(file.text)});
        files.push_back(std::move(file));
      }
    if (!o_.shop.empty() && files.size() == own_from) {
      s_.err << o_.shop << ": no .yaml file in this folder\n";
      return false;
    }
    auto shop = read_shop(files, own_from);
    if (!shop) {
      print(shop.problems(), s_.err);
      return false;
    }
    shop_ = std::move(*shop);
    return true;
  }

  std::string unknown_machine() const {
    if (o_.machine.empty() || shop_.machine(o_.machine) != nullptr) return "";
    std::vector<std::string> names;
    std::string list;
    for (const Machine& m : shop_.machines) {
      names.push_back(m.name);
      list += (list.empty() ? "" : ", ") + m.name;
    }
    const std::string near = nearest(o_.machine, names);
    return "the shop has no machine '" + o_.machine + "'; expected one of " + list +
           (near.empty() ? "" : "; did you mean '" + near + "'?");
  }
  Exit one(const PartInput& input) {
    const std::string& name = input.path;
    const auto job = job_of(input.part, input.text, shop_, s_.err);
    if (!job) return Exit::input_wrong;
    if (const std::string fault = unknown_machine(); !fault.empty()) return wrong(fault);
    if (o_.command == "check") {
      s_.out << name << ": " << job->part.number << ", no problems\n";
      return Exit::done;
    }
    text_.inch = o_.inch || (job->part.inch && !o_.metric);
    text_.why = o_.why;
    if (o_.command == "explain") return explain(*job);
    if (o_.command == "compare") return compare(*job);
    if (o_.command == "tune") return tune_out(*job);
    return o_.command == "route" ? route_out(*job) : quote_out(input, *job);
  }

  Exit price_table(const std::vector<PartInput>& inputs) {
    if (const std::string fault = unknown_machine(); !fault.empty()) return wrong(fault);
    PriceOutput output(o_.output, s_.out);
    std::size_t refused = 0;
    for (const PartInput& input : inputs) {
      const auto job = job_of(input.part, input.text, shop_, s_.err);
      if (!job) {
        ++refused;
        continue;
      }
      const Route route = plan_route(*job, shop_, {o_.machine, MethodKind::rough_then_finish});
      if (!route.feasible) {
        s_.err << infeasible_text(route);
        ++refused;
        continue;
      }
      Quote quote = with_band(make_quote(route, shop_), shop_);
      if (input.request) mark_old_price(quote, input.request->date, shop_.policy);
      output.add(price_rows(quote, ""));
    }
    s_.err << inputs.size() - refused << " priced, " << refused << " refused\n";
    if (refused == inputs.size()) return Exit::input_wrong;
    output.keep();
    s_.err << "written: " << o_.output << "\n";
    return refused > 0 ? Exit::answer_is_no : Exit::done;
  }
  Exit infeasible(const Job& job, const Route& route) {
    if (o_.json)
      put(job, route_json(route, {}, shop_));
    else
      s_.err << infeasible_text(route);
    return Exit::answer_is_no;
  }

  Exit list() {
    if (o_.operands.size() > 1) return wrong("expected one list at a time");
    if (o_.json || o_.why || !o_.week.empty())
      return wrong("--json, --why and --week are for single parts");
    if (!o_.output.empty() && !is_list(o_.output))
      return wrong("--output: found '" + o_.output + "'; expected a name ending in .csv or .xlsx");
    if (!o_.workbooks.empty() && !is_folder(o_.workbooks))
      return wrong("--workbooks: found '" + o_.workbooks + "'; expected a folder that exists");
    if (!read_shop_files()) return Exit::input_wrong;
    if (const std::string fault = unknown_machine(); !fault.empty()) return wrong(fault);
    return list_command(o_, s_, shop_);
  }
  Exit offer() {
    if (o_.operands.size() != 1) return wrong("which request? expected one request file");
    if (!o_.output.empty() && !ends(o_.output, ".html") && !ends(o_.output, ".xlsx"))
      return wrong("--output: found '" + o_.output + "'; expected a name ending in .html or .xlsx");
    if (!read_shop_files()) return Exit::input_wrong;
    if (const std::string fault = unknown_machine(); !fault.empty()) return wrong(fault);
    return offer_command(o_, s_, shop_);
  }
  Exit actuals() {
    if (o_.operands.size() != 2) return wrong("expected a week file and a table of booked times");
    if (!o_.output.empty() && !ends(o_.output, ".yaml"))
      return wrong("--output: found '" + o_.output + "'; expected a name ending in .yaml");
    if (!read_shop_files()) return Exit::input_wrong;
    return actuals_command(o_, s_, shop_);
  }
  Exit promise() {
    if (o_.operands.size() != 3)
      return wrong("expected a week file, a part file and a number of pieces");
    if (!read_shop_files()) return Exit::input_wrong;
    return promise_command(o_, s_, shop_);
  }
  Exit load() {
    if (o_.operands.size() != 1) return wrong("which week? expected one week file");
    const auto kinds = {".xlsx", ".html", ".csv", ".ics", ".json", ".txt"};
    if (!o_.output.empty() && std::none_of(kinds.begin(), kinds.end(),
                                           [&](const char* kind) { return ends(o_.output, kind); }))
      return wrong("--output: found '" + o_.output +
                   "'; expected a name ending in .xlsx, .html, .csv, .ics, .json or .txt");
    if (!read_shop_files()) return Exit::input_wrong;
    return load_command(o_, s_, shop_);
  }
  Exit rates() {
    if (!o_.operands.empty()) return wrong("found '" + o_.operands[0] + "'; expected no file");
    if (!read_shop_files()) return Exit::input_wrong;
    s_.out << (o_.json ? rates_json(shop_) : rates_text(shop_));
    return Exit::done;
  }
  // "step 40", "pass 40.3", "price 50", "minutes".
  std::string read_subject() {
    const auto& words = o_.operands;
    if (words.size() == 1) return "";
    const std::string& what = words[1];
    const std::string usage = "expected step 40, pass 40.3, price 50 or minutes";
    if ((what == "minutes" || what == "minute") && words.size() == 2) {
      ask_.kind = ExplainKind::minutes;
      return "";
    }
    if (words.size() != 3 || (what != "step" && what != "pass" && what != "price"))
      return "found '" + what + (words.size() > 2 ? " " + words[2] : "") + "'; " + usage;
    const std::string& text = words[2];
    const std::size_t dot = text.find('.');
    const auto whole = [](const std::string& digits) {
      const auto n = read_number(digits);
      return n && *n >= 1 && *n <= 1e7 && *n == std::floor(*n) ? static_cast<int>(*n) : 0;
    };
    ask_.kind = what == "step"   ? ExplainKind::step
                : what == "pass" ? ExplainKind::pass
                                 : ExplainKind::price;
    ask_.step = ask_.quantity = whole(text.substr(0, dot));
    ask_.pass = what == "pass" && dot != std::string::npos ? whole(text.substr(dot + 1)) : 0;
    const bool pass = what == "pass";
    if (ask_.step == 0 || pass != (dot != std::string::npos) || (pass && ask_.pass == 0))
      return "found '" + what + " " + text + "'; " + usage;
    return "";
  }
  Exit explain(const Job& job) {
    const Route route = plan_route(job, shop_, {o_.machine, MethodKind::rough_then_finish});
    if (!route.feasible) return infeasible(job, route);
    ask_.inch = text_.inch;
    std::string expected;
    const auto text = explain_text(make_quote(route, shop_), shop_, ask_, expected);
    if (!text)
      return wrong("no " + o_.operands[1] + " " + o_.operands[2] + "; expected " + expected);
    s_.out << *text;
    return Exit::done;
  }

  Exit compare(const Job& job) {
    const MethodsReport report = methods_report(job);
    const std::string path = output_path(job, ".txt");
    if (ends(path, ".xlsx")) {
      write_whole(path, [&](const std::string& temporary) {
        write_methods_workbook(report, temporary);
        verify_workbook(temporary);
      });
      s_.err << "written: " << path << "\n";
    } else {
      put(job, ends(path, ".html")              ? methods_page(report)
               : o_.json || ends(path, ".json") ? methods_json(report)
                                                : methods_text(report));
    }
    const auto& methods = report.comparison.methods;
    const bool any = std::any_of(methods.begin(), methods.end(),
                                 [](const MethodResult& w) { return w.feasible(); });
    return any ? Exit::done : Exit::answer_is_no;
  }
  MethodsReport methods_report(const Job& job) {
    MethodsReport r;
    r.title = job.part.number + (job.part.name.empty() ? "" : " " + job.part.name);
    r.currency = shop_.policy.currency;
    r.quantity = main_quantity(job.part);
    r.comparison =
        compare_all(job, shop_, o_.machine, asked_methods_, asked_methods_.empty(), r.combining);
    r.winner_changes = winner_changes(job.part, shop_, o_.machine, r.comparison, r.quantity);
    r.sensitivities = sensitivities(job.part, shop_, o_.machine, r.quantity);
    r.map = method_map(job.part, shop_, o_.machine, r.comparison, map_size, map_size);
    return r;
  }
  Exit tune_out(const Job& job) {
    const Tuned t = tune(job.part, shop_, o_.machine,
                         o_.rule == "time"           ? TuneRule::time
                         : o_.rule == "contribution" ? TuneRule::contribution
                                                     : TuneRule::cost);
    for (const MethodResult* method : {&t.handbook, &t.best})
      if (!method->feasible()) return infeasible(job, method->route);
    put(job, o_.json || ends(o_.output, ".json") ? tuned_json(t, shop_)
                                                 : tuned_text(t, shop_, text_.inch));
    tuned_parts_.push_back(job.part);
    return Exit::done;
  }
  // "two finish cuts, manual lathe", each a record of the rates.
  std::string read_methods() {
    for (std::size_t from = 0; from < o_.methods.size();) {
      const std::size_t to = std::min(o_.methods.find(',', from), o_.methods.size());
      std::string name = o_.methods.substr(from, to - from);
      name.erase(0, name.find_first_not_of(' '));
      name.erase(name.find_last_not_of(' ') + 1);
      std::vector<std::string> names;
      for (const Method& method : shop_.methods) names.push_back(method.name);
      if (method_named(shop_, name) == nullptr) {
        const std::string near = nearest(name, names);
        return "the rates have no way '" + name + "'" +
               (near.empty() ? "" : "; did you mean '" + near + "'?");
      }
      asked_methods_.push_back(std::move(name));
      from = to + 1;
    }
    return "";
  }
  Exit route_out(const Job& job) {
    const Route route = plan_route(job, shop_, {o_.machine, MethodKind::rough_then_finish});
    if (!route.feasible) return infeasible(job, route);
    const RouteTimes times = times_of(route, shop_);
    put(job, o_.json || ends(o_.output, ".json") ? route_json(route, times, shop_)
                                                 : step_sheet_text(route, times, shop_, text_));
    return Exit::done;
  }
  Exit quote_out(const PartInput& input, const Job& job) {
    // The price is that of the first way; the others stand beside it.
    Comparison methods = compare_methods(job, shop_, o_.machine);
    const MethodResult& first = methods.methods.front();
    if (!first.feasible()) return infeasible(job, first.route);
    Quote quote = with_band(first.quote, shop_);
    if (input.request) mark_old_price(quote, input.request->date, shop_.policy);
    if (!o_.week.empty()) {
      const auto delivery = delivery_of(o_, s_, shop_, input.path, quote.route.job);
      if (!delivery) return Exit::input_wrong;
      quote.delivery = *delivery;
    }
    methods.questions = open_questions(quote, shop_);
    std::vector<InputDigest> digests{{input.path, sha256(input.text)}};
    digests.insert(digests.end(), digests_.begin(), digests_.end());
    const std::string path = output_path(job, ".xlsx");
    if (ends(path, ".xlsx")) {
      write_whole(path, [&](const std::string& temporary) {
        write_workbook(quote, methods, shop_, digests, text_.inch, temporary);
        verify_workbook(temporary);
      });
      s_.err << "written: " << path << "\n";
    }
    const bool json = o_.json || ends(path, ".json");
    const std::string text = ends(path, ".html") ? quote_page(quote, methods, shop_, digests, text_)
                             : json
                                 ? quote_json(quote, methods, shop_, digests, input.request.get())
                                 : quote_text(quote, methods, text_);
    if (!path.empty() && !ends(path, ".xlsx")) {
      write_text(path, text);
      s_.err << "written: " << path << "\n";
    } else {
      s_.out << text;
    }
    return Exit::done;
  }
  // The file to write, "" for standard output.
  std::string output_path(const Job& job, const char* tail) const {
    if (o_.output.empty() || !is_folder(o_.output)) return o_.output;
    return o_.output + "/" + file_name(job.part.number) + tail;
  }
  void put(const Job& job, const std::string& text) {
    const std::string path = output_path(job, o_.json ? ".json" : ".txt");
    if (path.empty()) {
      s_.out << text;
      return;
    }
    write_text(path, text);
    s_.err << "written: " << path << "\n";
  }

  const Options& o_;
  const Streams& s_;
  Shop shop_;
  std::vector<InputDigest> digests_;
  TextOptions text_;
  ExplainRequest ask_;
  std::vector<std::string> asked_methods_;
  std::vector<Part> tuned_parts_;
};

// A file to start from, and beside it the schema that its first line points editors to.
Exit new_command(const Options& o, const Streams& s) {
  const std::string kind = o.operands.empty() ? "" : o.operands[0];
  if (o.operands.size() != 2 ||
      (kind != "shop" && kind != "part" && kind != "request" && kind != "week")) {
    s.err << "turnwright new: expected 'new shop DIR', 'new part FILE', 'new request FILE' or "
             "'new week FILE'\n";
    return Exit::input_wrong;
  }
  const std::string& target = o.operands[1];
  const bool shop = kind == "shop";
  const std::string path = shop ? target + "/shop.yaml" : target;
  if (exists(path)) {
    s.err << "turnwright new: " << path << " is there already; nothing is overwritten\n";
    return Exit::input_wrong;
  }
  const std::size_t slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash);
  const std::string schema = folder + "/schema/" + kind + ".json";
  if (shop) make_folder(target);
  for (const NamedText& file : starter_files())
    if (file.name == kind + ".yaml") write_text(path, file.text);
  for (const NamedText& file : schema_files())
    if (file.name == kind + ".json" && !exists(schema)) {
      make_folder(folder + "/schema");
      write_text(schema, file.text);
    }
  s.out << "written: " << path << "\n"
        << (shop ? "Put your machine and your rate into it; then: turnwright quote PART --shop " +
                       target + "\n"
                 : "");
  return Exit::done;
}

Exit dispatch(const Options& options, const Streams& streams) {
  if (options.help) {
    streams.out << help_for(options.command);
    return Exit::done;
  }
  if (options.command == "figure") return figure_command(options, streams);
  if (options.command == "new") return new_command(options, streams);
  return PartCommand(options, streams).run();
}

}  // namespace

int run(const std::vector<std::string>& words, const Streams& streams) {
  std::string fault;
  const auto options = read_options(words, fault);
  if (!options) {
    streams.err << "turnwright: " << fault << "\n";
    return static_cast<int>(Exit::input_wrong);
  }
  try {
    const Exit exit = dispatch(*options, streams);
    streams.out.flush();
    if (!streams.out) throw DiskFailed("standard output cannot be written");
    return static_cast<int>(exit);
  } catch (const DiskFailed& e) {
    streams.err << "turnwright: " << e.what() << "\n";
  } catch (const CannotWrite& e) {
    streams.err << "turnwright: " << e.what() << "\n";
  }
  return static_cast<int>(Exit::disk_failed);
}

}  // namespace turnwright::cli
