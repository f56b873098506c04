// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <ostream>

#include "command.hpp"
#include "read_figure_value.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "turnwright/output/explain.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

using turnwright::figure::Entry;
using turnwright::figure::Field;
using turnwright::figure::Numbers;

constexpr std::size_t none = static_cast<std::size_t>(-1);

// The unit a result is shown in: the field's, or its inch counterpart.
std::string shown_unit(const Field& field, bool inch) {
  std::string name(field.unit.name);
  if (!inch) return name;
  static const std::pair<const char*, const char*> pairs[] = {
      {"mm", "in"},         {"um", "uin"},          {"mm/rev", "in/rev"}, {"m/min", "ft/min"},
      {"mm/min", "in/min"}, {"cm3/min", "in3/min"}, {"kW", "hp"},         {"N", "lbf"},
      {"N/mm2", "psi"},     {"GPa", "ksi"},         {"kg", "lb"},         {"kg/m3", "lb/in3"}};
  for (const auto& [metric, imperial] : pairs)
    if (name == metric) return imperial;
  return name;
}

class FigureRun {
 public:
  FigureRun(const Entry& entry, const Session& session)
      : entry_(entry),
        session_(session),
        options_(session.options),
        streams_(session.streams),
        given_(entry.inputs.size()),
        typed_(entry.inputs.size()),
        results_(entry.results.size()) {}

  Exit run() {
    for (std::size_t i = 1; i < options_.operands.size(); ++i) take(options_.operands[i]);
    if (faults_) return Exit::input_wrong;
    std::size_t missing = none;
    if (!fill_defaults(missing)) return Exit::input_wrong;
    if (missing != none && !solve(missing)) return faults_ ? Exit::input_wrong : Exit::answer_is_no;
    if (missing == none && any_result() && !consistent()) return Exit::answer_is_no;
    if (below_zero()) return Exit::input_wrong;
    answer(missing);
    return Exit::done;
  }

 private:
  bool fault(const Message& message) {
    session_.say(message);
    faults_ = true;
    return false;
  }
  bool any_result() const {
    return std::any_of(results_.begin(), results_.end(),
                       [](const FigureValue& v) { return !v.si.empty(); });
  }
  void take(const std::string& word) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos) {
      fault({"figure-run.no-pair", {{"text", word}}});
      return;
    }
    const std::string name = word.substr(0, equals), text = word.substr(equals + 1);
    const std::size_t input = index_of(entry_.inputs, name),
                      result = index_of(entry_.results, name);
    // A name that is both is the input first and the result after it.
    const bool again = input != none && result != none && !given_[input].empty();
    if (input != none && !again) {
      if (!given_[input].empty())
        fault({"figure-run.twice", {{"name", name}}});
      else if (read(entry_.inputs[input], text, Range::checked, typed_[input]))
        given_[input] = typed_[input].si;
    } else if (result != none) {
      if (!results_[result].si.empty())
        fault({"figure-run.twice", {{"name", name}}});
      else
        read(entry_.results[result], text, Range::any, results_[result]);
    } else {
      std::vector<std::string> names;
      for (const Field& f : entry_.inputs) names.emplace_back(f.name);
      for (const Field& f : entry_.results) names.emplace_back(f.name);
      fault(with_near({"figure-run.unknown-name", {{"name", name}, {"figure", entry_.name}}},
                      nearest(name, names)));
    }
  }
  static std::size_t index_of(std::span<const Field> fields, const std::string& name) {
    for (std::size_t i = 0; i < fields.size(); ++i)
      if (fields[i].name == name) return i;
    return none;
  }
  bool read(const Field& field, const std::string& text, Range range, FigureValue& into) {
    auto value = read_figure_value(field, text, range);
    if (const auto* wrong = std::get_if<Message>(&value)) return fault(*wrong);
    into = std::get<FigureValue>(std::move(value));
    return true;
  }
  bool fill_defaults(std::size_t& missing) {
    std::string lacking;
    std::size_t count = 0, last = none;
    for (std::size_t i = 0; i < given_.size(); ++i) {
      const Field& field = entry_.inputs[i];
      if (!given_[i].empty()) continue;
      if (!std::isnan(field.otherwise)) {
        given_[i] = {coherent(field.otherwise, field.unit)};
        continue;
      }
      last = i;
      ++count;
      lacking += (lacking.empty() ? "" : ", ") + std::string(field.name);
    }
    if (count == 0) return true;
    if (count == 1 && any_result() && !entry_.inputs[last].list &&
        entry_.inputs[last].choices[0].empty()) {
      missing = last;
      return true;
    }
    return fault({count == 1 ? "figure-run.lacks-one" : "figure-run.lacks",
                  {{"figure", entry_.name}, {"inputs", lacking}}});
  }
  bool solve(std::size_t missing) {
    Message why;
    for (std::size_t r = 0; r < results_.size(); ++r) {
      if (results_[r].si.empty()) continue;
      if (entry_.results[r].list) {
        fault("figure-run.list-backwards");
        return false;
      }
      const auto found =
          turnwright::figure::work_backwards(entry_, given_, missing, r, results_[r].si.front());
      if (found.found) {
        given_[missing] = {found.si};
        return consistent();
      }
      why = found.why_not;
      if (found.moved) break;
    }
    session_.say(why);
    return false;
  }
  // Further results given must agree to the digits given, taken as four.
  bool consistent() {
    const auto found = entry_.work_out(given_);
    for (std::size_t r = 0; r < results_.size(); ++r) {
      if (results_[r].si.empty() || entry_.results[r].list) continue;
      const double given = results_[r].si.front(), real = found[r].front();
      if (std::abs(given - real) > 5e-4 * std::max(std::abs(given), std::abs(real))) {
        const Unit& unit = entry_.results[r].unit;
        session_.say({"figure-run.comes-out",
                      {{"name", entry_.results[r].name},
                       {"real", Measure{real, unit, 5}},
                       {"given", Measure{given, unit, 5}}}});
        return false;
      }
    }
    return true;
  }
  // Times and volumes cut are none below 0: inputs contradict each other, as an inner diameter
  // above the outer.
  bool below_zero() {
    const auto found = entry_.work_out(given_);
    for (std::size_t r = 0; r < found.size(); ++r) {
      const Field& field = entry_.results[r];
      const bool never = field.unit.dim == unit::min.dim || field.unit.dim == unit::cm3_per_min.dim;
      if (field.list || !never || found[r].front() >= 0 || std::isnan(found[r].front())) continue;
      return !fault({"figure-run.below-zero",
                     {{"name", field.name}, {"real", Measure{found[r].front(), field.unit, 5}}}});
    }
    return false;
  }
  FigureValue shown_value(const Field& field, const Numbers& si) const {
    FigureValue v;
    v.name = field.name;
    v.si = si;
    v.list = field.list;
    v.unit = shown_unit(field, options_.inch);
    const auto typed = v.unit.empty() ? std::nullopt : read_unit(v.unit);
    const Unit unit = typed ? typed->unit() : field.unit;
    for (const double x : si) v.shown.push_back(std::isinf(x) ? x : turnwright::shown(x, unit));
    return v;
  }
  void answer(std::size_t missing) {
    FigureAnswer a;
    a.entry = &entry_;
    for (std::size_t i = 0; i < given_.size(); ++i) {
      if (i == missing) continue;
      if (!typed_[i].si.empty())
        a.inputs.push_back(typed_[i]);
      else if (!entry_.inputs[i].choices[0].empty()) {
        FigureValue v;
        v.name = entry_.inputs[i].name;
        v.word = entry_.inputs[i].choices[static_cast<std::size_t>(given_[i].front())];
        a.inputs.push_back(v);
      } else
        a.inputs.push_back(shown_value(entry_.inputs[i], given_[i]));
    }
    const auto found = entry_.work_out(given_);
    for (std::size_t r = 0; r < found.size(); ++r)
      a.results.push_back(shown_value(entry_.results[r], found[r]));
    if (missing != none) {
      a.solved_for = entry_.inputs[missing].name;
      a.results.push_back(shown_value(entry_.inputs[missing], given_[missing]));
    }
    if (options_.json)
      streams_.out << figure_json(a);
    else
      explain(a, missing);
  }
  void explain(const FigureAnswer& a, std::size_t missing) {
    std::ostream& out = streams_.out;
    const Words& words = session_.words;
    out << words("figure." + std::string(entry_.name)) << "\n  " << words.name(entry_.formula)
        << "\n";
    const auto lines = entry_.explain(given_, turnwright::quantity_text(words));
    for (const auto& line : lines)
      if (!line.symbols.empty())
        out << "  " << words.name(line.symbols) << "\n  " << words.name(line.numbers) << "\n";
    if (options_.why) slopes(lines);
    for (const FigureValue& v : a.results) {
      const bool solved = missing != none && v.name == entry_.inputs[missing].name;
      std::string value;
      for (const double x : v.shown) value += (value.empty() ? "" : " ") + words.readable(x, 6);
      if (!v.unit.empty()) value += " " + v.unit;
      out << words({solved ? "figure-run.found" : "figure-run.result",
                    {{"name", v.name}, {"value", value}}})
          << "\n";
    }
    out << words({"figure-run.source", {{"source", entry_.source}}}) << "\n";
  }

  // What one per cent of each input does, exact.
  void slopes(const std::vector<turnwright::figure::Explanation>& lines) {
    for (std::size_t r = 0; r < lines.size(); ++r)
      for (std::size_t i = 0; i < lines[r].slopes.size(); ++i)
        if (const double s = lines[r].slopes[i]; !std::isnan(s) && s != 0)
          streams_.out << "  "
                       << session_.words({s > 0 ? "figure-run.slope-up" : "figure-run.slope-down",
                                          {{"input", entry_.inputs[i].name},
                                           {"change", Figure{std::abs(s), 4}},
                                           {"result", entry_.results[r].name}}})
                       << "\n";
  }

  const Entry& entry_;
  const Session& session_;
  const Options& options_;
  const Streams& streams_;
  std::vector<Numbers> given_;
  std::vector<FigureValue> typed_, results_;
  bool faults_ = false;
};

void list_figures(const Session& session) {
  for (const Entry& entry : turnwright::figure::all()) {
    std::string inputs;
    for (const Field& f : entry.inputs)
      inputs +=
          (inputs.empty() ? "" : ", ") + std::string(f.name) + (std::isnan(f.otherwise) ? "" : "?");
    const Words& words = session.words;
    session.streams.out << words.name(entry.name) << ": "
                        << words("figure." + std::string(entry.name)) << "\n    "
                        << words.name(inputs) << "\n    " << words.name(entry.formula) << "\n";
  }
}

}  // namespace

Exit figure(Session& session) {
  const Options& o = session.options;
  if (o.list) {
    list_figures(session);
    return Exit::done;
  }
  if (o.operands.empty()) return session.wrong("figure-run.which");
  const Entry* entry = turnwright::figure::find(o.operands[0]);
  if (entry == nullptr)
    return session.wrong(with_near({"figure-run.unknown", {{"name", o.operands[0]}}},
                                   nearest(o.operands[0], turnwright::figure::names())));
  return FigureRun(*entry, session).run();
}

}  // namespace turnwright::cli
