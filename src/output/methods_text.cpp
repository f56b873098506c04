// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "json_head.hpp"
#include "shown.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright {
namespace {

std::string signed_text(Amount a) { return (a.si > 0 ? "+" : "") + fixed(a.si, 2); }
std::string change_text(double factor) {
  const double percent = 100 * (factor - 1);
  return (percent > 0 ? "+" : "") + fixed(percent, std::abs(percent) < 10 ? 1 : 0) + " %";
}
double days_out(const MethodResult& w) {
  double days = 0;
  for (const OtherWork& work : w.route.job.part.other_work) days += work.days;
  return days;
}
char letter(int method) { return method < 0 ? '.' : static_cast<char>('A' + method % 26); }

}  // namespace

std::string methods_text(const MethodsReport& r) {
  const Comparison& c = r.comparison;
  const std::string at = std::to_string(r.quantity);
  std::string out = r.title + "\n\nWAYS, prices each in " + r.currency + "\n";
  std::size_t wide = 10;
  for (const MethodResult& w : c.methods) wide = std::max(wide, w.name.size() + 2);
  std::string head = "  " + padded("", wide) + "  machine operator make-ready";
  for (const MethodResult& w : c.methods)
    if (w.feasible()) {
      for (const Price& p : w.quote.prices)
        head += padded("at " + std::to_string(p.quantity), 12, true);
      break;
    }
  out += head + padded("h at " + at, 11, true) + "   on\n";
  for (const MethodResult& w : c.methods) {
    if (!w.feasible()) continue;
    out += "  " + padded(w.name, wide) +
           padded(fixed(in(w.quote.times.machine_each, unit::min), 2), 9, true) +
           padded(fixed(in(w.quote.times.person_each, unit::min), 2), 9, true) +
           padded(fixed(in(w.quote.times.setup, unit::min), 0), 11, true);
    for (const Price& p : w.quote.prices) out += padded(p.each.text(), 12, true);
    out += padded(fixed(in(machine_time(w, r.quantity), unit::h), 1), 11, true);
    out += "   " + w.route.machine.name + ", " + std::to_string(w.route.operations.size()) +
           (w.route.operations.size() == 1 ? " holding" : " holdings") +
           (days_out(w) > 0 ? ", " + readable(days_out(w), 3) + " days out\n" : "\n");
  }
  for (const MethodResult& w : c.methods)
    if (!w.feasible())
      out += "  " + padded(w.name, wide) + "not possible: " + w.route.why_not +
             (w.route.would_help.empty() ? "" : "; would help: " + w.route.would_help) + "\n";
  if (r.combining.possible > 0)
    out += "  of " + std::to_string(r.combining.possible) + " pairs of ways " +
           std::to_string(r.combining.planned) + " were planned, " +
           std::to_string(r.combining.left_out) +
           " left out because their stock and outside work alone cost more; shown where cheapest\n";
  out += "\nWHO LEADS, by scanning the cost of whole quantities\n";
  for (const LeadingRange& l : c.lead) out += "  " + lead_text(c, l) + "\n";
  out += "\nWHY, cost of a lot of " + at + " less " + c.methods.front().name + "\n  " +
         padded("", wide) +
         "     total make-ready tool change    cutting other time     edges  material\n";
  for (const Difference& d : c.reasons) {
    out += "  " + padded(c.methods[d.method].name, wide);
    for (const Amount a :
         {d.total, d.setup, d.tool_change, d.cutting, d.other_time, d.edges, d.material})
      out += padded(signed_text(a), 11, true);
    out += "\n";
  }
  std::string cautions;
  for (std::size_t i = 1; i < c.methods.size(); ++i) {
    const auto& known = c.methods.front().route.cautions;
    for (const std::string& caution : c.methods[i].route.cautions)
      if (c.methods[i].feasible() && std::find(known.begin(), known.end(), caution) == known.end())
        cautions += "  " + padded(c.methods[i].name, wide) + caution + "\n";
  }
  if (!cautions.empty())
    out += "\nCAUTIONS that " + c.methods.front().name + " does not have\n" + cautions;
  out += "\nWHAT FLIPS IT at " + at + ", the smallest change first, each planned anew\n";
  for (const WinnerChange& f : r.winner_changes)
    out += "  " + padded(f.input, 40) + padded(change_text(f.factor), 9, true) + ": " + f.leader +
           "\n";
  if (r.winner_changes.empty()) out += "  no input between a fifth and five times itself\n";
  out += "\nWHAT A TENTH OF EACH INPUT DOES to the price each at " + at + "\n  " + padded("", 40) +
         "   10 % less  10 % more\n";
  for (const Sensitivity& s : r.sensitivities)
    out += "  " + padded(s.input, 40) + padded(s.lower.text(), 12, true) +
           padded(s.higher.text(), 11, true) + "\n";
  if (r.map) {
    out += "\nMAP, stock a side in mm against quantity\n";
    for (std::size_t i = 0; i < r.map->names.size(); ++i) {
      bool there = false;
      for (const auto& row : r.map->method)
        for (const int w : row) there = there || w == static_cast<int>(i);
      if (there)
        out += std::string("  ") + letter(static_cast<int>(i)) + " " + r.map->names[i] + "\n";
    }
    for (std::size_t k = r.map->stock.size(); k-- > 0;) {
      out += padded(fixed(in(r.map->stock[k], unit::mm), 2), 7, true) + " ";
      for (const int w : r.map->method[k]) out += letter(w);
      out += "\n";
    }
    out += "        " + std::to_string(r.map->quantities.front()) + " to " +
           std::to_string(r.map->quantities.back()) +
           " pieces, each column about a tenth more; .: none is possible\n";
  }
  return out;
}

std::string methods_json(const MethodsReport& r) {
  Json j = json_head("compare");
  j["currency"] = r.currency;
  add_methods(j, r.comparison);
  j["quantity"] = r.quantity;
  j["pairs"] = {{"possible", r.combining.possible},
                {"planned", r.combining.planned},
                {"left_out", r.combining.left_out}};
  j["reasons"] = Json::array();
  for (const Difference& d : r.comparison.reasons) {
    Json reason{{"method", r.comparison.methods[d.method].name}};
    add_causes(reason, d);
    j["reasons"].push_back(std::move(reason));
  }
  j["winner_changes"] = Json::array();
  for (const WinnerChange& f : r.winner_changes)
    j["winner_changes"].push_back({{"input", f.input}, {"factor", f.factor}, {"leader", f.leader}});
  j["sensitivity"] = Json::array();
  for (const Sensitivity& s : r.sensitivities)
    j["sensitivity"].push_back(
        {{"input", s.input}, {"lower", s.lower.text()}, {"higher", s.higher.text()}});
  j["map"] = Json(nullptr);
  if (r.map) {
    Json map{{"names", r.map->names}, {"quantities", r.map->quantities}, {"rows", Json::array()}};
    for (std::size_t k = 0; k < r.map->stock.size(); ++k)
      map["rows"].push_back(
          {{"stock_mm", in(r.map->stock[k], unit::mm)}, {"methods", r.map->method[k]}});
    j["map"] = std::move(map);
  }
  return json_text(j);
}

}  // namespace turnwright
