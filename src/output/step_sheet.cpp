// SPDX-License-Identifier: MIT
// The sheet for the turner: a page of text an operation.
#include <algorithm>
#include <cmath>

#include "shown.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright {
namespace {

constexpr double near_rating = 0.8;  // of the fastest speed, worth a word
constexpr double two_hands = 10;     // kg, from memory; above 25 a crane
constexpr double long_overhang = 3;  // diameters out of the chuck alone

class StepSheet {
 public:
  StepSheet(const Route& route, const RouteTimes& times, const Shop& shop,
            const TextOptions& options)
      : route_(route), times_(times), shop_(shop), shown_{options.inch} {
    for (const std::string& name : route.machine.mounted_tools) stations_.push_back(name);
    mounted_ = stations_.size();
    for (const Operation& operation : route.operations)
      for (const Step& step : operation.steps)
        if (!step.given &&
            std::find(stations_.begin(), stations_.end(), step.tool) == stations_.end())
          stations_.push_back(step.tool);
  }

  std::string text() {
    const Job& job = route_.job;
    out_ = "STEP SHEET  " + part_title(job) + "\n" + route_.machine.name + ", " +
           job.material.name + ", " + stock_text(job, shown_) + ", " + shown_.mm(job.stock.length) +
           " long\nlengths from the right-hand face\n\n";
    for (std::size_t i = 0; i < route_.operations.size(); ++i) clamping(i);
    list("CAUTIONS OF THIS PART", route_.cautions);
    list("CAUTIONS", usual_cautions());
    return std::move(out_);
  }

 private:
  void list(const char* head, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    out_ += std::string(head) + "\n";
    for (const std::string& text : texts) out_ += "  " + text + "\n";
    out_ += "\n";
  }

  void clamping(std::size_t i) {
    const Operation& s = route_.operations[i];
    out_ += "SETUP " + std::to_string(s.number) + "  " + clamping_text(s, shown_) + "\n";
    if (s.mandrel)
      out_ += "  held from inside, bore " + shown_.mm(s.grip_diameter, 4) + "\n";
    else if (s.support != Support::between_centres)
      out_ += "  hold from " + shown_.number(-s.grip_to, 4) + " to " + shown_.mm(-s.grip_from, 4) +
              (s.jaws == Jaws::soft ? ", jaws bored in place" : "") +
              "; stop against the jaws or in the spindle\n";
    out_ += std::string("  cut from the ") + (s.from_left ? "left" : "right") +
            (s.check_all ? ", check every piece\n" : "\n");
    out_ += clamping_sketch(route_.job, s, 64);
    tools(s);
    out_ += "  step what     tool  rev/min      feed    depth  cuts    min\n";
    for (std::size_t k = 0; k < s.steps.size(); ++k)
      step(s.steps[k], times_.operations[i].steps[k]);
    gauges(s);
    for (const std::string& text : clamping_cautions(route_.job, s, times_.operations[i], shown_))
      out_ += "  ! " + text + "\n";
    out_ += "\n";
  }

  std::string position(const std::string& tool) const {
    const auto at = std::find(stations_.begin(), stations_.end(), tool);
    return "T" + std::to_string(at - stations_.begin() + 1);
  }
  void tools(const Operation& s) {
    std::vector<std::string> used;
    for (const Step& step : s.steps)
      if (!step.given && std::find(used.begin(), used.end(), step.tool) == used.end())
        used.push_back(step.tool);
    out_ += "  tools:";
    for (const std::string& name : used) {
      const auto at = static_cast<std::size_t>(std::find(stations_.begin(), stations_.end(), name) -
                                               stations_.begin());
      const Tool* tool = shop_.tool(name);
      out_ += (name == used.front() ? " " : "; ") + position(name) + " " + name;
      if (tool != nullptr && !tool->insert.empty()) out_ += " " + tool->insert;
      out_ += at < mounted_ ? " (stands)" : " (to be set)";
    }
    out_ += "\n";
    if (route_.machine.stations > 0 && static_cast<int>(stations_.size()) > route_.machine.stations)
      out_ += "  ! " + std::to_string(stations_.size()) + " tools for " +
              std::to_string(route_.machine.stations) + " stations: some must give way\n";
  }

  void step(const Step& step, const StepTime& t) {
    double low = 1e9, high = 0;
    for (const PassTime& p : t.passes) {
      low = std::min({low, in(p.start, unit::rev_per_min), in(p.end, unit::rev_per_min)});
      high = std::max({high, in(p.start, unit::rev_per_min), in(p.end, unit::rev_per_min)});
    }
    const bool cuts = !step.passes.empty();
    std::string rpm = cuts ? readable(low, 3) : "-";
    if (cuts && high > low * 1.02) rpm += "-" + readable(high, 3);
    out_ += "  " + padded(std::to_string(step.number), 5) + padded(name_of(step.kind), 9) +
            padded(step.given ? "-" : position(step.tool), 6) + padded(rpm, 11) + "  " +
            padded(cuts ? shown_.number(step.used.feed, 3) : "-", 8) +
            padded(cuts ? shown_.number(step.used.depth, 3) : "-", 7) +
            padded(std::to_string(cuts_of(step)), 6) + padded(minutes(t.machine), 5, true) + "\n";
    if (!step.given && step.kind != StepKind::rough && step.kind != StepKind::finish &&
        step.kind != StepKind::face)
      out_ += "       " + step.why + "\n";
  }

  // What is measured, and how often.
  void gauges(const Operation& s) {
    std::string often, seldom;
    for (const Step& step : s.steps)
      for (const std::size_t n : step.gauged) {
        const Surface& surface = route_.job.surfaces[n];
        const double share =
            surface.gauge_share >= 0 ? surface.gauge_share : shop_.gauging_share(surface.grade);
        if (share <= 0) continue;
        const std::string text =
            surface.name +
            (share >= 1 ? " every piece" : " 1 in " + readable(std::round(1 / share)));
        std::string& into = surface.toleranced ? often : seldom;
        into += (into.empty() ? "" : "; ") + text;
      }
    if (!often.empty()) out_ += "  gauge: " + often + "\n";
    if (!seldom.empty()) out_ += "  look at: " + seldom + "\n";
  }

  const Route& route_;
  const RouteTimes& times_;
  const Shop& shop_;
  Shown shown_;
  std::vector<std::string> stations_;
  std::size_t mounted_ = 0;
  std::string out_;
};

}  // namespace

std::vector<std::string> clamping_cautions(const Job& job, const Operation& s,
                                           const OperationTime& t, const Shown& shown) {
  std::vector<std::string> list;
  bool parts = false, fast = false;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    parts = parts || s.steps[k].kind == StepKind::part_off;
    for (std::size_t i = 0; i < s.steps[k].passes.size(); ++i) {
      const Pass& pass = s.steps[k].passes[i];
      fast = fast || max(t.steps[k].passes[i].start, t.steps[k].passes[i].end) >=
                         near_rating * pass.fastest;
    }
  }
  if (s.from_bar)
    list.push_back("long bar behind the spindle only inside its feeder or tube: it whips");
  if (s.support == Support::chuck && s.free_ratio > long_overhang)
    list.push_back("the work stands out " + readable(s.free_ratio, 2) +
                   " diameters without a centre: grip it well, start slowly");
  if (fast)
    list.push_back(
        "runs near the fastest speed of chuck and machine: their plates decide, "
        "less for long jaws or unbalanced work");
  if (s.face_plate)
    list.push_back(
        "face plate: every clamp checked by hand, a balance weight, slow; nothing may stand "
        "out beyond its rim");
  else if (s.four_jaw)
    list.push_back(
        "four jaws: all tight and inside the rim, turned by hand once before starting, "
        "balanced or slower");
  if (s.mass.si > 25)
    list.push_back("heavy work, " + shown.kg(s.mass) + ": crane and sling, nobody underneath");
  else if (s.mass.si > two_hands)
    list.push_back("heavy work, " + shown.kg(s.mass) + ": two people or a lifting aid");
  if (parts) list.push_back("parting: no hand under the piece, coolant on, guard closed");
  if (!job.material.short_chips) list.push_back("long chips: stop the spindle, then hook them out");
  if (job.material.chips_burn)
    list.push_back("these chips burn: keep them swept, no water, class D extinguisher at hand");
  return list;
}

int cuts_of(const Step& step) {
  return static_cast<int>(std::count_if(step.passes.begin(), step.passes.end(),
                                        [](const Pass& p) { return p.starts_path; }));
}

const std::vector<std::string>& usual_cautions() {
  static const std::vector<std::string> list{
      "The rating plates of machine and chuck, local rules, trained people come before this sheet.",
      "The chuck's rated speed is the limit; unbalanced work and long jaws need less.",
      "Nothing may stand out of the spindle unsupported: long bar whips and kills.",
      "Check grip length and overhang before starting; a slender end needs a centre or a steady.",
      "Guards closed, key out of the chuck, eye protection on, no gloves or loose sleeves.",
      "Chips are hot and sharp: hook or brush, never a hand, spindle stopped.",
      "Titanium, magnesium and fine dry chips burn: keep them swept, no water on a chip fire."};
  return list;
}

std::string step_sheet_text(const Route& route, const RouteTimes& times, const Shop& shop,
                            const TextOptions& options) {
  return StepSheet(route, times, shop, options).text();
}

}  // namespace turnwright
