// SPDX-License-Identifier: MIT
#include "turnwright/output/tuned.hpp"

#include <cmath>

#include "json_head.hpp"
#include "shown.hpp"

namespace turnwright {
namespace {

std::string conditions(const Conditions& c, bool inch) {
  if (c.surface_speed.si <= 0) return "-";
  return inch ? fixed(in(c.surface_speed, unit::ft_per_min), 0) + " ft/min, f " +
                    fixed(in(c.feed, unit::inch_per_rev), 4)
              : fixed(in(c.surface_speed, unit::m_per_min), 0) + " m/min, f " +
                    fixed(in(c.feed, unit::mm_per_rev), 3);
}
std::string signed_share(double share) {
  return (share > 0 ? "+" : "") + fixed(100 * share, 1) + " %";
}
std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : ", ") + w;
  return out;
}

// "power (10 % more: -4.2 %)".
std::string held(const TunedStep& s) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < s.limited_by.size(); ++i)
    words.push_back(s.limited_by[i] + " (1 % more: -" + fixed(s.worth[i], 2) + " %)");
  return joined(words);
}

}  // namespace

std::string tuned_text(const Tuned& t, const Shop& shop, bool inch) {
  const Job& job = t.handbook.route.job;
  std::string out = job.part.number + " " + job.part.name + ": " + t.best.name + " on " +
                    t.best.route.machine.name + ", every limit kept\n\n  " + padded("step", 14) +
                    padded("handbook", 26) + padded(t.best.name, 26) + padded("cutting, min", 16) +
                    padded("edge, min", 11) + "held by\n";
  for (const TunedStep& s : t.steps) {
    out += "  " + padded(std::to_string(s.number) + " " + name_of(s.kind), 14) +
           padded(conditions(s.handbook, inch) +
                      (s.passes_before > 1 ? " x" + std::to_string(s.passes_before) : ""),
                  26);
    if (s.gap < 0) {
      out += "as it is\n";
      continue;
    }
    out += padded(conditions(s.best, inch) + (s.passes > 1 ? " x" + std::to_string(s.passes) : ""),
                  26) +
           padded(fixed(in(s.cutting_before, unit::min), 2) + " -> " +
                      fixed(in(s.cutting, unit::min), 2),
                  16) +
           padded(s.life.si > 0 ? fixed(in(s.life, unit::min), 0) : "-", 11) +
           (s.limited_by.empty() ? "nothing: the edge's life" : held(s)) +
           (s.gap <= 1e-6 ? "" : " (not proved)") + "\n";
  }
  const auto& a = t.handbook.quote;
  const auto& b = t.best.quote;
  out += "\n  machine " + fixed(in(a.times.machine_each, unit::min), 2) + " -> " +
         fixed(in(b.times.machine_each, unit::min), 2) + " min each\n";
  for (const Price& before : a.prices)
    for (const Price& after : b.prices)
      if (after.quantity == before.quantity)
        out += "  " + padded(std::to_string(before.quantity), 6, true) +
               " pieces: cost of the lot " + before.cost.text() + " -> " + after.cost.text() +
               " (" + signed_share((after.cost.amount() / before.cost.amount()).si - 1) +
               "), each " + before.each.text() + " -> " + after.each.text() + " " +
               shop.policy.currency + "\n";
  out += "  contribution an hour of the machine, at the handbook's price: " +
         fixed(in(t.hour_before, unit::money_per_h), 2) + " -> " +
         fixed(in(t.hour, unit::money_per_h), 2) + " " + shop.policy.currency + "/h\n";
  out += "  roughing depth: of " + std::to_string(t.divisions) + " divisions planned, " +
         (t.roughing_depth == 1
              ? std::string("the tool's largest depth is best")
              : fixed(100 * t.roughing_depth, 0) + " % of the tool's largest is best") +
         "\n";
  out += "  proof: no speed and feed within the limits of a step cost less than " +
         readable(std::max(t.proved_to, 0.0), 2) + " of itself below these\n";
  out += "  held by: a limit that gives way by 1 % lets the cut cost so much less\n";
  for (const std::string& caution : t.cautions) out += "  CAUTION " + caution + "\n";
  return out;
}

std::string tuned_json(const Tuned& t, const Shop& shop) {
  Json j = json_head("tune");
  j["currency"] = shop.policy.currency;
  j["part"] = t.handbook.route.job.part.number;
  j["rule"] = t.best.name;
  j["machine"] = t.best.route.machine.name;
  auto given = [](const Conditions& c) {
    return Json{{"surface_speed_m_per_s", c.surface_speed.si},
                {"feed_m", c.feed.si},
                {"depth_m", c.depth.si}};
  };
  j["steps"] = Json::array();
  for (const TunedStep& s : t.steps)
    j["steps"].push_back({{"number", s.number},
                          {"kind", name_of(s.kind)},
                          {"tool", s.tool},
                          {"handbook", given(s.handbook)},
                          {"best", given(s.best)},
                          {"passes_before", s.passes_before},
                          {"passes", s.passes},
                          {"cutting_before_s", s.cutting_before.si},
                          {"cutting_s", s.cutting.si},
                          {"edge_life_s", s.life.si},
                          {"limited_by", s.limited_by},
                          {"worth", s.worth},
                          {"tuned", s.gap >= 0},
                          {"gap", s.gap >= 0 ? Json(s.gap) : Json(nullptr)}});
  auto lots = [](const Quote& q) {
    Json list = Json::array();
    for (const Price& p : q.prices)
      list.push_back({{"quantity", p.quantity}, {"cost", p.cost.text()}, {"each", p.each.text()}});
    return list;
  };
  j["handbook"] = {{"cycle_per_part_s", t.handbook.quote.times.machine_each.si},
                   {"lots", lots(t.handbook.quote)}};
  j["best"] = {{"cycle_per_part_s", t.best.quote.times.machine_each.si},
               {"lots", lots(t.best.quote)}};
  j["handbook"]["contribution_per_h"] = in(t.hour_before, unit::money_per_h);
  j["best"]["contribution_per_h"] = in(t.hour, unit::money_per_h);
  j["roughing_depth_share"] = t.roughing_depth;
  j["proved"] = t.proved_to <= 1e-6;
  j["cautions"] = t.cautions;
  return json_text(j);
}

std::string effects_text(const ShopEffects& e, const Shop& shop) {
  std::string out =
      "ROWS OF THE CUTTING TABLE that matter most: lots of all parts at their main "
      "quantity, " +
      rounded(e.total).text() + " " + shop.policy.currency +
      " in all, with the row's speeds a tenth faster\n";
  for (const RowEffect& row : e.rows)
    out += "  " + padded(row.row, 44) + padded(fixed(row.change.si, 2), 12, true) + "  in " +
           std::to_string(row.parts) + (row.parts == 1 ? " part\n" : " parts\n");
  if (!e.largest.empty()) out += "\nTHE LARGEST CHANGES by the first of them, price each\n";
  for (const PartEffect& p : e.largest)
    out += "  " + padded(p.part, 20) + padded(p.before.text(), 12, true) +
           padded(p.after.text(), 12, true) +
           padded(signed_share((p.after.amount() / p.before.amount()).si - 1), 9, true) + "\n";
  return out;
}

}  // namespace turnwright
