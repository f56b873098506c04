// SPDX-License-Identifier: MIT
#include "turnwright/cli/run.hpp"

#include <exception>
#include <new>
#include <optional>
#include <ostream>

#include "command.hpp"
#include "files.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright::cli {
namespace {

Exit dispatch(const Options& options, const Streams& streams, const Words& words) {
  if (options.version) {
    streams.out << words.name(std::string("turnwright ") + version) << "\n";
    return Exit::done;
  }
  if (options.help) {
    streams.out << help_for(options.command, words);
    return Exit::done;
  }
  Session session{options, streams, words, {}, {}, {}};
  session.words.units(options.inch);
  if (!options.language.empty() && !language_named(options.language))
    return session.wrong({"cli.unknown-language", {{"language", options.language}}});
  return command_named(options.command)->run(session);
}

int run_checked(const std::vector<std::string>& words, const Streams& streams, const Words& said) {
  const OptionsRead read = read_options(words);
  if (!read.fault.empty()) {
    streams.err << "turnwright: " << said(read.fault) << "\n";
    return static_cast<int>(Exit::input_wrong);
  }
  const Exit exit = dispatch(read.options, streams, said);
  streams.out.flush();
  if (!streams.out) throw DiskFailed("cli.no-output");
  return static_cast<int>(exit);
}

}  // namespace

int run(const std::vector<std::string>& words, const Streams& streams) {
  const Words said(language_in(words));
  // Whatever happens, one line and an exit status that is documented.
  std::string fault;
  try {
    return run_checked(words, streams, said);
  } catch (const DiskFailed& e) {
    fault = said(e.why);
  } catch (const CannotWrite& e) {
    fault = said(e.why);
  } catch (const std::bad_alloc&) {
    fault = said("cli.no-memory");
  } catch (const std::exception& e) {
    fault = said({"cli.unexpected", {{"what", e.what()}}});
  }
  streams.err << "turnwright: " << fault << "\n";
  return static_cast<int>(Exit::disk_failed);
}

}  // namespace turnwright::cli
