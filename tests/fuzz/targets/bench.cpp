// SPDX-License-Identifier: MIT
// One cut planned: material, work, what is set, tool, machine, each on its line.
#include <sstream>

#include "fuzz.hpp"
#include "turnwright/output/bench.hpp"
#include "turnwright/output/text.hpp"

using namespace turnwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::istringstream in(fuzz::text_of(data, size));
  std::string work, at, stick_out;
  BenchRequest request;
  std::getline(in, request.material);
  std::getline(in, work);
  std::getline(in, at);
  std::getline(in, request.tool);
  std::getline(in, request.machine);
  std::getline(in, stick_out);
  TextFault fault;
  const auto read = read_bench_work(work, false, fault);
  if (!read) return 0;
  request.work = *read;
  if (!at.empty() && !(request.at = read_bench_settings(at, request.work.inch, fault))) return 0;
  if (const auto length = read_quantity(stick_out, unit::mm, fault); length && length->si > 0)
    request.stick_out = Length(length->si);
  if (!request.machine.empty() && fuzz::shop().machine(request.machine) == nullptr) return 0;
  if (const auto unknown = unknown_in(request, fuzz::shop())) {
    fuzz::speakable(unknown->what);
    return 0;
  }
  const auto cut = bench_cut(request, fuzz::shop());
  if (!cut) {
    (void)infeasible_text(work, cut.infeasible(), fuzz::english());
    fuzz::speakable(cut.infeasible().why);
    return 0;
  }
  fuzz::whole_json(cut_json(*cut));
  (void)cut_text(*cut, fuzz::english());
  (void)cut_working_text(*cut, fuzz::german());
  return 0;
}
