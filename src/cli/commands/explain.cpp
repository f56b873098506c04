// SPDX-License-Identifier: MIT
#include "turnwright/output/explain.hpp"

#include <ostream>

#include "command.hpp"
#include "infeasible.hpp"
#include "inputs.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

constexpr int largest_number = 1000000;  // of an operation, a step or a pass

// The whole numbers of "10.2.1"; none where it is not spelt so.
std::vector<int> numbers_of(const std::string& text) {
  std::vector<int> numbers;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find('.', from), text.size());
    const auto n = read_whole(text.substr(from, to - from), 1, largest_number);
    if (!n) return {};
    numbers.push_back(*n);
    from = to + 1;
  }
  return numbers;
}

struct Subject {
  std::string_view word;
  ExplainKind kind;
  std::size_t numbers;
};
constexpr Subject subjects[] = {{"step", ExplainKind::step, 2},
                                {"pass", ExplainKind::pass, 3},
                                {"price", ExplainKind::price, 1},
                                {"minutes", ExplainKind::minutes, 0}};

// "step 10.2", "pass 10.2.1", "price 50", "minutes".
std::optional<ExplainRequest> subject_of(const std::vector<std::string>& words) {
  ExplainRequest ask;
  if (words.size() == 1) return ask;
  for (const Subject& subject : subjects) {
    if (words[1] != subject.word) continue;
    if (words.size() != (subject.numbers == 0 ? 2u : 3u)) return std::nullopt;
    const auto n = subject.numbers == 0 ? std::vector<int>{} : numbers_of(words[2]);
    if (n.size() != subject.numbers) return std::nullopt;
    ask.kind = subject.kind;
    if (ask.kind == ExplainKind::price) {
      ask.quantity = n[0];
    } else {
      if (n.size() > 1) ask.operation = n[0], ask.step = n[1];
      if (n.size() > 2) ask.pass = n[2];
    }
    return ask;
  }
  return std::nullopt;
}

std::string asked(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 1; i < words.size(); ++i) text += (i > 1 ? " " : "") + words[i];
  return text;
}

}  // namespace

Exit explain(Session& session) {
  const Options& o = session.options;
  if (o.operands.empty()) return session.wrong("cli.which-part");
  const auto ask = subject_of(o.operands);
  if (!ask) return session.wrong({"cli.unknown-subject", {{"subject", asked(o.operands)}}});
  if (!ready(session)) return Exit::input_wrong;
  const auto inputs = part_inputs(session, {o.operands[0]});
  const auto job = job_of(session, inputs.front());
  if (!job) return Exit::input_wrong;
  // A price is explained by the method that it is quoted by.
  const int quantity = ask->kind == ExplainKind::price ? ask->quantity : o.quantity;
  const auto part = price_part(*job, session.shop, session.fixed, quantity);
  if (!part) {
    say_infeasible(session, *job, part.infeasible());
    return Exit::answer_is_no;
  }
  const auto nose = [&] {
    return larger_nose(part->methods.quoted(), session.shop, part->methods.quantity);
  };
  const auto text =
      explain_text(part->quote, session.shop, *ask, session.words_for(job->part.inch), nose);
  if (!text) return session.wrong(text.infeasible().why);
  session.streams.out << *text;
  return Exit::done;
}

}  // namespace turnwright::cli
