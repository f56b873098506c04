// SPDX-License-Identifier: MIT
#include "turnwright/cli/run.hpp"

#include <exception>
#include <new>
#include <optional>
#include <ostream>
#include <system_error>

#include "clean_stream.hpp"
#include "command.hpp"
#include "files.hpp"
#include "manual.hpp"
#include "paths.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

// What killed runs have left in the folders that were written to.
void sweep_outputs(const Options& o) {
  if (!o.output.empty()) sweep(is_folder(o.output) ? o.output : folder_of(o.output));
  if (!o.workbooks.empty()) sweep(o.workbooks);
}

Exit help(const Options& o, const Streams& streams, const Words& words) {
  if (o.command.empty() || command_named(o.command) != nullptr) {
    streams.out << help_for(o.command, words);
    return Exit::done;
  }
  if (const auto text = topic_text(o.command, words)) {
    streams.out << *text;
    return Exit::done;
  }
  std::vector<std::string> names = topics();
  for (const Command& c : commands()) names.emplace_back(c.name);
  streams.err << "turnwright: "
              << words(with_near({"cli.unknown-topic", {{"topic", o.command}}},
                                 nearest(o.command, names)))
              << "\n";
  return Exit::input_wrong;
}

Exit dispatch(const Options& options, const Streams& streams, const Words& words) {
  if (options.version) {
    streams.out << words.name(std::string("turnwright ") + version) << "\n"
                << words({"cli.built-with", {{"libraries", TURNWRIGHT_LIBRARIES}}}) << "\n";
    return Exit::done;
  }
  if (options.help) return help(options, streams, words);
  Session session{options, streams, words, {}, {}, {}};
  session.words.units(options.inch);
  if (!options.language.empty() && !language_named(options.language))
    return session.wrong({"cli.unknown-language", {{"language", options.language}}});
  const Exit exit = command_named(options.command)->run(session);
  session.say_rest();
  if (exit != Exit::input_wrong) sweep_outputs(options);
  return exit;
}

int run_checked(const std::vector<std::string>& words, const Streams& streams, const Words& said) {
  const OptionsRead read = read_options(words);
  if (!read.fault.empty()) {
    streams.err << "turnwright: " << said(read.fault) << "\n";
    return static_cast<int>(Exit::input_wrong);
  }
  Options options = read.options;
  if (options.shop.empty() && options.takes_shop && !options.help) options.shop = usual_shop();
  if (options.shop != read.options.shop)
    streams.err << said({"cli.usual-shop", {{"folder", options.shop}}}) << "\n";
  const Exit exit = dispatch(options, streams, said);
  streams.out.flush();
  if (!streams.out) throw DiskFailed("cli.no-output");
  return static_cast<int>(exit);
}

}  // namespace

int run(const std::vector<std::string>& words, const Streams& streams) {
  const Words said(language_in(words));
  const CleanStream out(streams.out), err(streams.err);
  // Whatever happens, one line and an exit status that is documented.
  Message fault;
  try {
    return run_checked(words, streams, said);
  } catch (const DiskFailed& e) {
    fault = e.why;
  } catch (const CannotWrite& e) {
    fault = e.why;
  } catch (const std::bad_alloc&) {
    fault = "cli.no-memory";
  } catch (const std::system_error& e) {
    fault = {"cli.system-failed", {{"why", e.code().message()}}};
  } catch (const std::exception& e) {
    fault = {"cli.unexpected", {{"what", e.what()}}};
  }
  streams.err << "turnwright: " << said(fault) << "\n";
  return static_cast<int>(Exit::disk_failed);
}

}  // namespace turnwright::cli
