// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <ostream>

#include "command.hpp"
#include "outputs.hpp"
#include "turnwright/output/bench.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright::cli {
namespace {

struct ClampingWord {
  std::string_view word;
  Support support;
};
constexpr std::array clamping_words{ClampingWord{"chuck", Support::chuck},
                                    ClampingWord{"chuck and centre", Support::chuck_and_centre},
                                    ClampingWord{"between centres", Support::between_centres}};

struct CoolantWord {
  std::string_view word;
  bool flood;
};
constexpr std::array coolant_words{CoolantWord{"flood", true}, CoolantWord{"dry", false}};

// The record of a word, or what else there is.
template <class Words>
const typename Words::value_type* word_in(const Words& words, const std::string& text,
                                          const char* option, TextFault& fault) {
  const auto found =
      std::find_if(words.begin(), words.end(), [&](const auto& w) { return w.word == text; });
  if (found != words.end()) return &*found;
  std::vector<std::string> known;
  for (const auto& w : words) known.emplace_back(w.word);
  fault = {{"bench.no-such-word", {{"option", option}, {"text", text}}},
           one_of(known),
           nearest(text, known)};
  return nullptr;
}

bool read_clamping(const Options& o, BenchRequest& request, TextFault& fault) {
  if (o.clamping.empty()) return true;
  const auto* found = word_in(clamping_words, o.clamping, "clamping", fault);
  if (found != nullptr) request.support = found->support;
  return found != nullptr;
}

bool read_coolant(const Options& o, BenchRequest& request, TextFault& fault) {
  if (o.coolant.empty()) return true;
  const auto* found = word_in(coolant_words, o.coolant, "coolant", fault);
  if (found != nullptr) request.flood = found->flood;
  return found != nullptr;
}

// A length above 0, where one was given.
bool read_length(const std::string& text, const Unit& bare, Length& length, TextFault& fault) {
  if (text.empty()) return true;
  const auto read = read_quantity(text, bare, fault);
  if (!read) return false;
  length = Length(read->si);
  if (read->si > 0) return true;
  fault = {{"bench.no-such-size", {{"text", text}}}, number_in(bare), ""};
  return false;
}

bool read_at(const Options& o, BenchRequest& request, TextFault& fault) {
  if (o.at.empty()) return true;
  request.at = read_bench_settings(o.at, request.work.inch, fault);
  return request.at.has_value();
}

std::optional<BenchRequest> request_of(const Options& o, TextFault& fault) {
  BenchRequest request;
  const auto work = read_bench_work(o.operands[1], o.inch, fault);
  if (!work) return std::nullopt;
  request.work = *work;
  request.material = o.operands[0];
  request.tool = o.tool;
  request.machine = o.machine;
  request.condition = o.condition;
  request.interrupted = o.interrupted;
  request.in_money = !o.shop.empty();
  const Unit roughness = o.inch ? Unit(unit::uin) : Unit(unit::um);
  const Unit length = work->inch ? Unit(unit::inch) : Unit(unit::mm);
  const bool read = read_length(o.ra, roughness, request.ra, fault) &&
                    read_length(o.stick_out, length, request.stick_out, fault) &&
                    read_clamping(o, request, fault) && read_coolant(o, request, fault) &&
                    read_at(o, request, fault);
  return read ? std::optional(request) : std::nullopt;
}

Exit refuse(const Session& session, const TextFault& fault) {
  Problem problem;
  problem.what = fault.what;
  problem.expected = fault.expected;
  problem.suggestion = fault.suggestion;
  return session.wrong(verbatim(problem_words(problem, session.words)));
}

// "geared lathe" means the first that is called so and something more.
std::string machine_meant(const Shop& shop, const std::string& name) {
  if (name.empty() || shop.machine(name) != nullptr) return name;
  for (const Machine& m : shop.machines)
    if (m.name.starts_with(name + ",") || m.name.starts_with(name + " ")) return m.name;
  return name;
}

Exit answer(const Session& session, const BenchRequest& request) {
  const Options& o = session.options;
  const Words words = session.words_for(request.work.inch);
  const auto cut = bench_cut(request, session.shop);
  if (!cut) {
    session.streams.err << infeasible_text(request.work.text, cut.infeasible(), words);
    return Exit::answer_is_no;
  }
  Outputs outputs(session, false);
  if (o.json || format_of(o.output) == FileFormat::json)
    outputs.put_json(o.output, cut_json(*cut));
  else
    outputs.put(o.output, o.working ? cut_working_text(*cut, words) : cut_text(*cut, words));
  return Exit::done;
}

}  // namespace

Exit cut(Session& session) {
  const Options& o = session.options;
  if (o.operands.size() != 2) return session.wrong("bench.usage");
  if (const Message fault = output_fault(session, {".txt", ".json"}, false); !fault.empty())
    return session.wrong(fault);
  TextFault fault;
  auto request = request_of(o, fault);
  if (!request) return refuse(session, fault);
  if (!read_shop_files(session)) return Exit::input_wrong;
  request->machine = machine_meant(session.shop, o.machine);
  if (!knows_machine(session, request->machine)) return Exit::input_wrong;
  if (const auto unknown = unknown_in(*request, session.shop)) return refuse(session, *unknown);
  return answer(session, *request);
}

}  // namespace turnwright::cli
