// SPDX-License-Identifier: MIT
// Which machine, which holdings, in which order; then the audit.
#include <algorithm>
#include <cmath>

#include "audit.hpp"
#include "bend.hpp"
#include "choose_machine.hpp"
#include "grind.hpp"
#include "profile.hpp"
#include "said.hpp"
#include "setup_planner.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/stock.hpp"

namespace turnwright {
namespace {

constexpr Length overlap(1.5e-3);       // past the edge of the cut-over diameter, 1-2 mm
constexpr double chuck_only_ratio = 3;  // common practice; trade guide on deflection
constexpr double chuck_maybe_ratio = 5;
constexpr double steady_ratio = 10;  // above 10 to 12 (from memory)
constexpr double check_margin = 1.34;  // a tie within a third of what jaws hold is checked on every piece
constexpr double thin_wall = 0.08;     // wall over diameter that hard jaws squeeze oval (from memory)
constexpr Length largest_form_radius(10e-3);  // of a form tool that does not chatter (from memory)
constexpr Length most_set_over(12e-3);  // of a tailstock, 10-15 mm (from memory)
constexpr double unbalanced = 0.5;     // share of the chuck's speed for castings and four jaws (memory)

class RoutePlanner {
 public:
  RoutePlanner(const Job& job, const Shop& shop, const PlanRequest& request)
      : job_(job), shop_(shop), request_(request) {
    route_.job = job;
    route_.way = request.way;
    route_.cautions = job.cautions;
  }

  Route plan() {
    if (!choose_machine()) return std::move(route_);
    if (route_.machine.manual() && !contours_by_hand()) return std::move(route_);
    if (const OtherWork* between = work_between()) {
      if (job_.stock.from_bar || single_possible()) {
        no("'" + between->what + "' after roughing takes the piece out of the lathe before it is "
               "finished, and this plan has one holding",
           "sawn blanks in two holdings, or the work after turning");
        return std::move(route_);
      }
      route_.cautions.push_back(
          "both ends are roughed, then '" + between->what +
          "', then finished: after hardening the speeds here are too fast; hard surfaces are ground "
          "or turned with a harder edge, and centres are cleaned first");
    }
    if (job_.stock.from_bar) {
      try_layout(&RoutePlanner::parted_from_bar);
    } else if (single_possible()) {
      try_layout(&RoutePlanner::one_holding);
    } else if (request_.way == WayKind::between_centres && (job_.bored() || !job_.rough.empty() ||
                                                            !route_.machine.tailstock ||
                                                            job_.part.centres.keep == CentreUse::no)) {
      no("nothing to turn between: " +
             std::string(job_.bored() || !job_.rough.empty() ? "the part has no centres at both ends"
                         : route_.machine.tailstock ? "the drawing allows no centres"
                                                    : route_.machine.name + " has no tailstock"),
         "a mandrel, or the seats ground");
    } else if (request_.way == WayKind::between_centres || tie_needs_centres()) {
      try_layout(&RoutePlanner::between_centres);
    } else {
      two_holdings();
    }
    if (route_.feasible) audit_route(route_, job_);
    // One number names one step of the whole route.
    int number = 0;
    for (Setup& setup : route_.setups)
      for (Step& step : setup.steps) step.number = number += 10;
    return std::move(route_);
  }

 private:
  struct Layout {
    std::vector<Setup> setups;
    std::vector<Feature> features;
    std::vector<std::string> cautions;
    std::vector<bool> two_cuts;
    std::vector<std::string> notes;
    std::string why_not, would_help;
    std::string tie;  // what a tie between holdings rests on
    Outline hollow;             // the void so far, global
    std::vector<std::size_t> made;  // surfaces with their knurl or thread
    std::string two_cuts_help;  // what would let two cuts do it, where the tool is the reason
    double score = 0;           // smaller is better
    bool ok() const { return why_not.empty(); }
  };

  void no(std::string why, std::string help) {
    route_.feasible = false;
    route_.why_not = std::move(why);
    route_.would_help = std::move(help);
  }

  Mass blank_mass() const {
    if (!job_.rough.empty())
      return body_volume(job_.rough, job_.cored) * job_.material.density;
    if (job_.stock.form != StockForm::round)
      return job_.stock.section * job_.stock.length * job_.material.density;
    return figure::BarWeight::work_out<>(
               {job_.stock.diameter, job_.stock.length, job_.material.density})
        .mass;
  }

  bool choose_machine() {
    MachineChoice choice = turnwright::choose_machine(job_, shop_, request_.machine, blank_mass());
    route_.cautions.insert(route_.cautions.end(), choice.cautions.begin(), choice.cautions.end());
    if (choice.machine == nullptr) {
      no(std::move(choice.why_not), std::move(choice.would_help));
      return false;
    }
    route_.machine = *choice.machine;
    return true;
  }

  // A manual lathe turns a cone with its compound slide, or a slender one with the tailstock set over,
  // and a radius only with a form tool.
  bool contours_by_hand() {
    for (const Surface& s : job_.surfaces) {
      const Element& e = job_.element_of(s);
      const Length length = s.right - s.left;
      if (e.allow) continue;
      if (e.kind == ElementKind::arc && e.radius > largest_form_radius) {
        no(e.text + ": an arc of " + said(job_, e.radius) + " is not turned on " +
               route_.machine.name + " by hand",
           "a CNC lathe, a form tool up to " + said(job_, largest_form_radius) +
               ", or 'allow' with a time");
        return false;
      }
      if (e.kind != ElementKind::cone) continue;
      if (length <= route_.machine.compound_travel) {
        route_.cautions.push_back(e.text + ": turned with the compound slide, fed by hand; its angle "
                                           "is set and tried first");
        continue;
      }
      const double set_over =
          std::abs((s.left_radius - s.right_radius).si) * (job_.part.overall / length).si;
      const bool slender = !s.inside() && route_.machine.tailstock &&
                           set_over <= most_set_over.si &&
                           job_.part.centres.keep != CentreUse::no;
      if (!slender) {
        no(e.text + ": a cone of " + said(job_, length) + " is longer than the compound slide of " +
               route_.machine.name + " travels, " + said(job_, route_.machine.compound_travel),
           "a CNC lathe, or a cone slender enough for the tailstock");
        return false;
      }
      route_.cautions.push_back(e.text + ": turned between centres with the tailstock set over by " +
                                said(job_, Length(set_over)) + ", then set back and tried");
    }
    return true;
  }

  // ---- outlines as one end sees them
  View view(bool from_left) const { return {job_.left(), from_left}; }
  // The blank in global coordinates.
  Outline blank() const {
    if (!job_.rough.empty()) return job_.rough;
    const Stock& s = job_.stock;
    const Length bar_back = s.from_bar ? Length(0.0) : s.facing_left;
    return Outline::cylinder(job_.left() - bar_back, s.facing_right, s.diameter / 2.0);
  }
  // The void that the blank comes with.
  Outline blank_hollow() const {
    if (!job_.cored.empty()) return job_.cored;
    if (job_.stock.bore.si <= 0) return {};
    return Outline::cylinder(job_.left() - job_.stock.length, job_.stock.facing_right,
                             job_.stock.bore / 2.0);
  }
  bool bored_from(bool left) const { return !job_.bores[left ? 1 : 0].empty(); }
  Interval widest() const {
    // The longest flat of the largest radius.
    const Length top = job_.turned.largest();
    Interval best{job_.left(), job_.left()};
    for (const Segment& s : job_.turned.pieces())
      if (s.bulge == Bulge::none && std::abs(s.from.r.si - top.si) < touch &&
          std::abs(s.to.r.si - top.si) < touch && s.to.z - s.from.z > best.width())
        best = {s.from.z, s.to.z};
    if (best.width().si > 0) return best;
    for (const Segment& s : job_.turned.pieces())
      if (std::abs(max(s.from.r, s.to.r).si - top.si) < touch) best = {s.from.z, s.to.z};
    return best;
  }
  // Nothing smaller than the largest radius left of the cut-over: that is for the other holding.
  static Outline raised_left(const Outline& shape, Length z, Length r) {
    if (z <= shape.left()) return shape;
    const Outline wall(std::vector<Segment>{{{shape.left(), r}, {z, r}, Bulge::none, {}, {}}});
    return combine(shape, wall, Take::upper);
  }

  // Lengths held (from memory): half the diameter in rough work; less is warned of below 0.3 D; a
  // disc or flange is held on less still, with care.
  static Length full_grip(Length diameter) { return max(0.5 * diameter, 10.0 * unit::mm); }
  static Length fair_grip(Length diameter) { return max(0.3 * diameter, 10.0 * unit::mm); }
  static Length least_grip(Length diameter) { return max(0.06 * diameter, 5.0 * unit::mm); }
  Length grip_length(Length diameter) const {
    return shallow_ ? least_grip(diameter) : full_grip(diameter);
  }
  Length jaw_clearance() const {
    return shallow_ ? min(1.0 * unit::mm, route_.machine.chuck.jaw_clearance)
                    : route_.machine.chuck.jaw_clearance;
  }
  bool tied_to(std::size_t surface, const std::string& datum) const {
    return job_.element_of(job_.surfaces[surface]).seat == datum;
  }

  // Why the work is not stiff enough without a centre, or "": the finishing cut against a share of each
  // tolerance, the roughing cut against what is left to finish.
  std::string bends_alone(const SetupTask& task) const {
    const HeldWork held{task.target,
                        task.jaw,
                        Length(0.0),
                        Support::chuck,
                        job_.material.elastic_modulus,
                        shop_.policy.chuck_compliance,
                        nullptr,
                        std::nullopt};
    const View v = view(task.setup.from_left);
    auto passive = [&](const Tool& tool, StepKind kind, Length depth) {
      const CutContext c{shop_, job_.material, route_.machine, tool, kind,
                         2.0 * task.target.largest(task.jaw, Length(0.0)), Length(0.0), Length(0.0)};
      const Length feed = conditions_at(c, depth).used.feed;
      const Pressure kc = figure::SpecificForce::work_out<>(
                              {job_.material.kc11, job_.material.mc, feed, tool.lead_angle})
                              .specific_force;
      const Force fc = figure::CuttingForce::work_out<>({depth, feed, kc}).force;
      return figure::PassiveForce::work_out<>({fc, depth, tool.nose_radius}).force;
    };
    const Tool* finisher = tool_of(shop_, route_.machine, ToolKind::finish);
    const Tool* rougher = tool_of(shop_, route_.machine, ToolKind::rough);
    if (finisher == nullptr || rougher == nullptr) return "no tools to judge it by";
    const Length allowance = finish_allowance(route_.machine);
    const Force fine = passive(*finisher, StepKind::finish, allowance);
    for (const Surface& s : job_.outside()) {
      const Interval z = v.between(s.left, s.right);
      if (z.to < task.zone_left || s.as_drawn || s.grade > 11) continue;
      const double range = compliance_range(held, max(z.from, task.zone_left), z.to);
      const Length moves(2 * fine.si * range);
      if (moves > shop_.policy.deflection_share * s.tolerance)
        return s.name + " would bend by " + readable(in(moves, unit::um), 2) + " um";
    }
    const Length depth = min(rougher->largest_depth,
                             max((job_.stock.upper - job_.stock.diameter) / 2.0 + allowance,
                                 job_.stock.diameter / 2.0 - task.target.left_of(Length(0.0))));
    const Length gives(passive(*rougher, StepKind::rough, depth).si *
                       compliance_at(held, Length(0.0)));
    if (gives > allowance / 2.0)
      return "a rough cut would push it by " + readable(in(gives, unit::mm), 2) + " mm";
    return "";
  }

  // ---- support of a holding, local coordinates
  bool decide_support(SetupTask& task, Layout& layout) {
    Setup& setup = task.setup;
    const Length d = effective_diameter(task.target, task.jaw, Length(0.0));
    setup.stick_out = -task.jaw;
    setup.free_ratio = d.si > 0 ? (setup.stick_out / d).si : 0;
    const CentreRequest& asked = job_.part.centres;
    const bool wanted_here =
        (setup.from_left ? asked.left : asked.right) && asked.keep != CentreUse::no;
    bool centre = setup.free_ratio > (shallow_ ? 1.0 : chuck_maybe_ratio);
    std::string why = "free length " + readable(setup.free_ratio, 2) + " diameters: ";
    if (setup.free_ratio > chuck_only_ratio && !centre) {
      const std::string bends = wanted_here ? "the drawing has one" : bends_alone(task);
      centre = !bends.empty() && asked.keep != CentreUse::no;
      why += bends.empty() ? "3 to 5, and stiff enough in the chuck alone"
                           : "3 to 5 needs the centre: " + bends;
    } else {
      why += centre ? "above 5 needs a centre" : "up to 3 the chuck alone holds it";
    }
    if (centre && (!route_.machine.tailstock || asked.keep == CentreUse::no)) {
      if (setup.free_ratio > chuck_maybe_ratio) {
        layout.why_not = "a free length of " + readable(setup.free_ratio, 2) +
                         " diameters needs a centre, and " +
                         (route_.machine.tailstock ? "the drawing allows none"
                                                   : route_.machine.name + " has no tailstock");
        layout.would_help =
            route_.machine.tailstock ? "centres: {keep: may}" : "a lathe with a tailstock";
        return false;
      }
      centre = false;
    }
    setup.support = centre ? Support::chuck_and_centre : Support::chuck;
    setup.holding = centre ? "chuck and centre" : "chuck";
    const bool mouth = bored_from(setup.from_left);
    task.centre_hole = (centre || wanted_here) && !mouth;
    if (centre && mouth) {
      setup.holding += " in the bore";
      layout.cautions.push_back("setup " + std::to_string(setup.number) +
                                ": the centre runs in the mouth of the bore, which is made first; a "
                                "clean 60 degree edge or a plug is needed");
    }
    if (setup.free_ratio > steady_ratio) {
      setup.steady = route_.machine.steady && centre;
      layout.cautions.push_back(
          "setup " + std::to_string(setup.number) + ": a free length of " +
          readable(setup.free_ratio, 2) + " diameters needs a steady or follow rest; " +
          (setup.steady ? "a steady rest is in the times"
                        : "its time is not in the price: " + route_.machine.name + " has none"));
      if (setup.steady) setup.holding += ", steady rest";
    }
    setup.why += (setup.why.empty() ? "" : "; ") + why;
    return true;
  }

  // ---- two finish cuts, decided for a holding (all of its surfaces must pass)
  void decide_two_cuts(SetupTask& task, Layout& layout) {
    if (request_.way != WayKind::two_finish_cuts) return;
    const std::string setup = "setup " + std::to_string(task.setup.number);
    auto refuse = [&](const std::string& why) {
      layout.two_cuts.push_back(false);
      layout.notes.push_back(setup + ": " + why);
    };
    const Tool* finisher = tool_of(shop_, route_.machine, ToolKind::finish);
    if (finisher == nullptr) return refuse("the shop has no finishing tool");
    if (job_.stock.skin)
      return refuse("no finishing insert enters the skin of " + job_.stock.condition +
                    " bar; peeled or drawn bar would help");
    const Length over = (job_.stock.upper - job_.stock.diameter) / 2.0;
    const Outline target = reachable(task.target, finisher->copying_angle);
    Length worst_nominal(0.0), last = finish_allowance(route_.machine);
    std::string worst_name;
    Length deepest_last = 1.0 * unit::mm;
    for (std::size_t n = 0; n < job_.outside().size(); ++n) {
      const Surface& s = job_.surfaces[n];
      const View v = view(task.setup.from_left);
      const Length middle = v.z((s.left + s.right) / 2.0);
      if (middle < task.zone_left || s.as_drawn) continue;
      const Length stock =
          task.work.left_of(middle) - min(target.left_of(middle), target.right_of(middle));
      if (stock.si <= touch) continue;
      // The finish depth of fits is at most 0.5 mm, of others 1.0.
      const Length most_last = s.grade <= 8 ? 0.5 * unit::mm : 1.0 * unit::mm;
      deepest_last = min(deepest_last, most_last);
      if (stock + over > worst_nominal) {
        worst_nominal = stock + over;
        worst_name = s.name;
      }
    }
    if (worst_nominal.si <= touch) {
      layout.two_cuts.push_back(false);
      return;
    }
    last = max(last, worst_nominal - finisher->largest_depth);
    if (last > deepest_last + Length(touch)) {
      const std::string help = "a tool good for " + said(job_, worst_nominal - deepest_last);
      if (layout.two_cuts_help.empty()) layout.two_cuts_help = help;
      return refuse(worst_name + " has " + said(job_, worst_nominal) +
                    " a side; the finishing tool's depth limit of " +
                    said(job_, finisher->largest_depth) + " needs three cuts, or " + help);
    }
    task.finisher_takes_both = true;
    task.last_cut = last;
    layout.two_cuts.push_back(true);
    layout.notes.push_back(setup + ": done so, the most on a side is " + said(job_, worst_nominal) +
                           " (" + worst_name + ")");
  }

  // The chuck's rated speed holds for jaws well inside it; further out they pull away with the
  // root of the radius, and a casting is out of balance (both from memory).
  Machine with_chuck_speed(const Setup& setup) const {
    Machine m = route_.machine;
    if (setup.support == Support::between_centres || setup.from_bar) return m;
    const double out = (setup.grip_diameter / (m.chuck.diameter / 2.0)).si;
    if (out > 1) m.chuck.rated_speed = m.chuck.rated_speed / std::sqrt(out);
    if (setup.four_jaw) m.chuck.rated_speed = m.chuck.rated_speed * unbalanced;
    return m;
  }
  // What this holding opens inside: its own bore, in the last one whatever is left.
  void inside_of(SetupTask& task, const View& v, const Layout& layout) const {
    task.hollow = v.local(layout.hollow);
    const Bore& own = job_.bores[task.setup.from_left ? 1 : 0];
    if (!task.turn || !job_.bored()) return;
    if (task.last) {
      task.hollow_final = v.local(job_.hollow());
      task.hollow_target = v.local(job_.hollow_turned());
    } else if (!own.empty()) {
      task.hollow_final = v.local(own.finished);
      task.hollow_target = v.local(own.turned);
    }
    if (!own.empty()) task.bore = &own;
  }
  bool run(SetupTask task, Layout& layout) {
    const View v = view(task.setup.from_left);
    const Machine machine = with_chuck_speed(task.setup);
    inside_of(task, v, layout);
    task.made = layout.made;
    SetupPlanner planner(job_, shop_, machine, v, std::move(task), layout.cautions);
    Setup setup = planner.plan();
    if (!planner.why_not.empty()) {
      layout.why_not = "setup " + std::to_string(setup.number) + ": " + planner.why_not;
      layout.would_help = planner.would_help;
      return false;
    }
    layout.features.insert(layout.features.end(), planner.features.begin(), planner.features.end());
    layout.hollow = setup.hollow_after;
    for (const Step& step : setup.steps)
      if (step.kind == StepKind::knurl || step.kind == StepKind::thread)
        layout.made.insert(layout.made.end(), step.gauged.begin(), step.gauged.end());
    layout.setups.push_back(std::move(setup));
    return true;
  }

  // ---- layouts
  Layout parted_from_bar() {
    Layout layout;
    layout.hollow = blank_hollow();
    SetupTask task;
    task.last = true;
    if (bored_from(true)) return one_end_only(std::move(layout));
    task.setup.number = 10;
    task.setup.from_bar = true;
    task.setup.why = "bar through the spindle, parted off: one holding";
    const Length kerf = parting_width();
    const Length L = job_.part.overall;
    // Bar stands out as far as the part, the parting tool and the clearance of the jaws.
    const Length jaw = -L - kerf - route_.machine.chuck.jaw_clearance;
    task.work =
        Outline::cylinder(job_.left() - kerf, job_.stock.facing_right, job_.stock.diameter / 2.0);
    task.target = job_.turned;
    task.final = job_.finished;
    task.zone_left = job_.left();
    task.facing = job_.stock.facing_right;
    task.part_off = true;
    task.part_off_at = job_.left();
    task.jaw = jaw;
    task.given = job_.given;
    task.setup.grip_from = jaw - grip_length(job_.stock.diameter);
    task.setup.grip_to = jaw;
    task.setup.grip_diameter = job_.stock.diameter;
    if (!route_.machine.parts_catcher)
      layout.cautions.push_back(route_.machine.name +
                                " has no parts catcher: a hook or tray takes the piece, never a hand");
    if (job_.part.outside.back().ra && job_.part.left_face.ra)
      layout.cautions.push_back("the parted face stays as parted");
    task.setup.mass = blank_mass();
    if (!decide_support(task, layout)) return layout;
    if (task.setup.support == Support::chuck_and_centre) {
      layout.why_not =
          "parting off between chuck and centre is not safe; the part is too long to part from bar";
      layout.would_help = "sawn blanks in two holdings";
      return layout;
    }
    task.setup.holding = "bar in collet or chuck";
    decide_two_cuts(task, layout);
    run(std::move(task), layout);
    return layout;
  }
  static Layout one_end_only(Layout layout) {
    layout.why_not = "the bore from the left cannot be reached in one holding";
    layout.would_help = "sawn blanks in two holdings, or the bore from the right";
    return layout;
  }
  Length parting_width() const {
    const Tool* tool = parting_tool(shop_, job_.stock.diameter / 2.0);
    return tool != nullptr ? tool->width : 3.0 * unit::mm;
  }

  bool single_possible() const {
    if (job_.stock.facing_left.si > 0) return false;
    // A drawn end that the jaws hold and that nobody cuts.
    Length free_end = job_.left();
    const auto outside = job_.outside();
    for (auto s = outside.rbegin(); s != outside.rend() && s->as_drawn; ++s) free_end = s->right;
    return free_end - job_.left() >=
           grip_length(job_.stock.diameter) + route_.machine.chuck.jaw_clearance;
  }
  Layout one_holding() {
    Layout layout;
    layout.hollow = blank_hollow();
    if (bored_from(true)) return one_end_only(std::move(layout));
    SetupTask task;
    task.last = true;
    task.setup.number = 10;
    task.setup.why = "the drawn end is held: one holding does it";
    const Length grip = grip_length(job_.stock.diameter);
    task.setup.grip_from = job_.left();
    task.setup.grip_to = job_.left() + grip;
    task.setup.grip_diameter = job_.stock.diameter;
    task.jaw = task.setup.grip_to;
    task.work = blank();
    task.target = job_.turned;
    task.final = job_.finished;
    task.zone_left = task.jaw + route_.machine.chuck.jaw_clearance;
    task.facing = job_.stock.facing_right;
    task.given = job_.given;
    task.setup.mass = blank_mass();
    if (!decide_support(task, layout)) return layout;
    decide_two_cuts(task, layout);
    run(std::move(task), layout);
    return layout;
  }

  // A casting or a square is held in four jaws and clocked.
  void four_jaws(Setup& setup, bool fine) const {
    const Stock& s = job_.stock;
    if (!route_.machine.four_jaw || (job_.rough.empty() && s.form != StockForm::square)) return;
    setup.four_jaw = true;
    setup.clocked_fine = fine;
    const std::string tail = setup.holding.substr(std::min<std::size_t>(5, setup.holding.size()));
    setup.holding = "four-jaw chuck" + tail;  // "chuck and centre" keeps its centre
    setup.why += fine ? "; clocked to 0.02" : "; trued to the rim";
  }
  Layout two_from(bool left_first) {
    Layout layout;
    layout.hollow = blank_hollow();
    const View v = view(left_first);
    const Length blank_r = job_.stock.diameter / 2.0;
    const Outline turned = v.local(job_.turned), finished = v.local(job_.finished);
    const Interval wide_global = widest();
    const Interval wide = v.between(wide_global.from, wide_global.to);
    const Length clearance = jaw_clearance();
    SetupTask first;
    first.setup.number = 10;
    first.setup.from_left = left_first;
    first.work = v.local(blank());
    first.facing = left_first ? job_.stock.facing_left : job_.stock.facing_right;
    Length grip = grip_length(job_.stock.diameter);
    // On little, both holdings share what there is.
    if (shallow_)
      grip = max(grip, min(full_grip(job_.stock.diameter),
                           (wide.to - first.work.left()) / 2.0 - clearance));
    const Length back = first.work.left();
    first.setup.grip_diameter = 2.0 * first.work.right_of(back);
    if (!job_.rough.empty()) {
      // Not longer than the raw diameter that is held.
      const Length there = first.work.pieces().front().to.z - back - clearance;
      grip = min(full_grip(first.setup.grip_diameter), there);
      if (grip < least_grip(first.setup.grip_diameter)) {
        layout.why_not = "the raw end is too short to hold: " + said(job_, there);
        layout.would_help = "a chucking boss on the casting, or the other end first";
        return layout;
      }
    }
    first.jaw = back + grip;
    const Length free_from = first.jaw + clearance;
    if (free_from > wide.to - Length(touch)) {
      layout.why_not = "the jaws on the raw bar cover what only this holding can reach";
      layout.would_help = "a longer blank, or the other end first";
      return layout;
    }
    const Length cut_over = max(wide.from, free_from);
    const bool wide_drawn = drawn_at((wide_global.from + wide_global.to) / 2.0);
    first.zone_left = wide_drawn ? cut_over : max(free_from, cut_over - overlap);
    const Length top = turned.largest();
    first.target = raised_left(turned, cut_over, max(top, wide_drawn ? blank_r : top));
    first.final = raised_left(finished, cut_over, max(top, wide_drawn ? blank_r : top));
    set_grip(first.setup, v, back, first.jaw);
    first.setup.why = left_first ? "left end first" : "right end first";
    first.setup.why += job_.rough.empty() ? ", on the raw bar" : ", on the raw casting";
    first.setup.why += "; cut over at the largest diameter";
    first.finishes = !work_between();
    first.setup.mass = blank_mass();
    for (const GivenTime& g : job_.given)
      if (g.left ? left_first : v.z(g.z) >= cut_over - Length(touch)) first.given.push_back(g);
    if (!decide_support(first, layout)) return layout;
    four_jaws(first.setup, false);
    decide_two_cuts(first, layout);
    if (!run(std::move(first), layout)) return layout;
    const Length over = v.z(cut_over);
    if (!work_between()) {
      held_again({!left_first, over, 20, true, true, true}, layout);
      return layout;
    }
    // Both ends are roughed, the work goes out, and comes back to be finished.
    held_again({!left_first, over, 20, true, false, false}, layout);
    if (layout.ok()) held_again({left_first, over, 30, false, true, false}, layout);
    if (layout.ok()) held_again({!left_first, over, 40, false, true, true}, layout);
    return layout;
  }
  // Other work that has its place between roughing and finishing.
  const OtherWork* work_between() const {
    for (const OtherWork& w : job_.part.other_work)
      if (w.after == "roughing") return &w;
    return nullptr;
  }

  // A tie finer than soft jaws hold, between surfaces on both sides of the cut-over.
  bool tie_needs_centres() const {
    if (job_.bored() || !job_.rough.empty()) return false;
    if (!route_.machine.tailstock || job_.part.centres.keep == CentreUse::no) return false;
    const Interval wide = widest();
    const Length middle = (wide.from + wide.to) / 2.0;
    auto right = [&](const Surface& s) { return (s.left + s.right) / 2.0 > middle; };
    const Length soft = shop_.accuracy("soft jaws");
    for (const Surface& s : job_.outside())
      for (const Tie& tie : job_.element_of(s).ties)
        for (std::size_t n = 0; n < job_.outside().size(); ++n)
          if (tie.value.si < soft.si - touch && tied_to(n, tie.datum) &&
              right(s) != right(job_.surfaces[n]))
            return true;
    return false;
  }
  // Faces and centre holes in the chuck, then all turning between the same two centres.
  Layout between_centres() {
    Layout layout;
    const Interval wide_global = widest();
    Outline work = blank();
    int number = 0;
    for (const bool turn : {false, true})
      for (const bool from_left : {false, true}) {
        const View v = view(from_left);
        SetupTask task;
        task.setup.number = number += 10;
        task.setup.from_left = from_left;
        task.turn = turn;
        task.work = v.local(work);
        task.setup.mass = work.volume() * job_.material.density;
        const Interval wide = v.between(wide_global.from, wide_global.to);
        const Length cut_over = from_left ? wide.to : wide.from;
        task.target = from_left
                          ? v.local(job_.turned)
                          : raised_left(v.local(job_.turned), cut_over, job_.turned.largest());
        task.final = from_left
                         ? v.local(job_.finished)
                         : raised_left(v.local(job_.finished), cut_over, job_.turned.largest());
        if (!turn) {
          chucked_short(task, v);
        } else {
          driven(task, v, cut_over, layout);
          if (!layout.ok()) return layout;
        }
        for (const GivenTime& g : job_.given) {
          const bool right = !g.left && g.z >= v.z(cut_over) - Length(touch);
          const bool mine = right != from_left;
          if (turn && mine) task.given.push_back(g);
        }
        if (turn) decide_two_cuts(task, layout);
        if (!run(std::move(task), layout)) return layout;
        work = layout.setups.back().after;
      }
    layout.tie = accuracy_row("between centres");
    layout.cautions.push_back(
        "tied seats are turned between centres, true to about " +
        said(job_, shop_.accuracy("between centres")) + "; the driver's and centres' rating "
        "plates decide the depth");
    return layout;
  }
  void chucked_short(SetupTask& task, const View& v) const {
    const Length d = job_.stock.diameter;
    task.facing = task.setup.from_left ? job_.stock.facing_left : job_.stock.facing_right;
    task.centre_hole = true;
    task.jaw = -min(1.5 * d, 0.5 * job_.part.overall);
    task.zone_left = task.jaw + route_.machine.chuck.jaw_clearance;
    set_grip(task.setup, v, max(task.jaw - grip_length(d), task.work.left()), task.jaw);
    task.setup.grip_diameter = d;
    task.setup.holding = "chuck";
    task.setup.stick_out = -task.jaw;
    task.setup.free_ratio = (task.setup.stick_out / d).si;
    task.setup.why = "the end face and its centre hole only";
  }
  void driven(SetupTask& task, const View& v, Length cut_over, Layout& layout) const {
    // A face driver leaves the length free; a dog covers its end.
    const Length taken = route_.machine.manual() ? 20.0 * unit::mm : 3.0 * unit::mm;
    const Length end = -job_.part.overall;
    task.jaw = end;
    const Length free_from = end + taken;
    if (cut_over < free_from - Length(touch)) {
      layout.why_not = "the driver covers what only this holding can reach";
      layout.would_help = "a face driver, or the seats ground";
      return;
    }
    task.zone_left = task.setup.from_left ? cut_over : max(free_from, cut_over - overlap);
    set_grip(task.setup, v, end, end);
    task.setup.support = Support::between_centres;
    task.setup.holding = "between centres";
    task.setup.stick_out = job_.part.overall;
    const Length d = effective_diameter(task.target, end, Length(0.0));
    task.setup.free_ratio = (job_.part.overall / d).si;
    task.setup.why = "a tie finer than soft jaws hold: both seats from the same centres";
  }

  bool drawn_at(Length z) const {
    for (const Surface& s : job_.outside())
      if (z > s.left && z < s.right) return s.as_drawn;
    return false;
  }
  static void set_grip(Setup& setup, const View& v, Length local_from, Length local_to) {
    const Interval grip = v.between(local_from, local_to);
    setup.grip_from = grip.from;
    setup.grip_to = grip.to;
  }

  // A holding on turned surfaces.
  struct HeldAgain {
    bool from_left;
    Length cut_over;  // global z
    int number;
    bool roughs, finishes, last;
  };
  // On the nearest flat to the cut that is long enough.
  void held_again(const HeldAgain& how, Layout& layout) {
    const bool from_left = how.from_left;
    const Length cut_over = how.cut_over;
    const View v = view(from_left);
    SetupTask task;
    task.last = how.last;
    task.roughs = how.roughs;
    task.finishes = how.finishes;
    task.setup.number = how.number;
    task.setup.from_left = from_left;
    task.work = v.local(layout.setups.back().after);
    task.target = v.local(job_.turned);
    task.final = v.local(job_.finished);
    task.zone_left = v.z(cut_over);
    if (how.roughs) task.facing = from_left ? job_.stock.facing_left : job_.stock.facing_right;
    if (!how.last && how.finishes) {
      const Length top = job_.turned.largest();
      task.target = raised_left(task.target, task.zone_left, top);
      task.final = raised_left(task.final, task.zone_left, top);
      task.zone_left = task.zone_left - overlap;
    }
    const Length clearance = jaw_clearance();
    const Surface* held = nullptr;
    Length jaw(-1e9);
    for (const Surface& s : job_.outside()) {
      if (!s.gripable) continue;
      const Interval seat = v.between(s.left, s.right);
      const Length end = min(seat.to - 1.0 * unit::mm, task.zone_left - clearance);
      const Length needed = shallow_ ? least_grip(s.diameter()) : fair_grip(s.diameter());
      const bool fine = s.grade <= 7 && s.toleranced;
      if (end - seat.from < needed - Length(touch)) continue;
      // A fine seat only when nothing else is there.
      const Length rank = end - (fine ? Length(1e3) : Length(0.0));
      if (rank > jaw) {
        jaw = rank;
        held = &s;
      }
    }
    if (held == nullptr) {
      layout.why_not = "no turned diameter is long enough for the second holding";
      layout.would_help = "a longer blank to hold, or the work between centres";
      return;
    }
    const Interval seat = v.between(held->left, held->right);
    const Length end = min(seat.to - 1.0 * unit::mm, task.zone_left - clearance);
    const Length from = max(seat.from, end - full_grip(held->diameter()));
    task.jaw = end;
    set_grip(task.setup, v, from, end);
    task.setup.grip_diameter = held->diameter();
    jaws_for(*held, from_left, cut_over, task.setup, layout);
    thin_walls(*held, layout, task.setup);
    if (!how.finishes) {
      // Roughing asks for a firm grip, not for a true one.
      task.setup.jaws = Jaws::hard;
      task.setup.check_all = false;
      task.setup.why.clear();
    }
    task.setup.why =
        (task.setup.jaws == Jaws::soft ? "soft jaws bored in place on " : "hard jaws on ") +
        held->name + (task.setup.why.empty() ? "" : "; " + task.setup.why);
    task.setup.mass =
        body_volume(layout.setups.back().after, layout.hollow) * job_.material.density;
    for (const GivenTime& g : job_.given) {
      const bool first = g.left ? !from_left : v.z(g.z) < task.zone_left + Length(touch);
      if (!first) task.given.push_back(g);
    }
    if (!decide_support(task, layout)) return;
    if (!how.roughs) task.centre_hole = false;  // it is there
    four_jaws(task.setup, true);
    decide_two_cuts(task, layout);
    run(std::move(task), layout);
    if (held->grade <= 7 && held->toleranced) layout.score += 10;
    // A short grip is worse the further the work stands out of it.
    for (const Setup& setup : layout.setups) {
      const Number held_share = (setup.grip_to - setup.grip_from) / fair_grip(setup.grip_diameter);
      layout.score += std::max(0.0, 1 - held_share.si) * (1 + setup.free_ratio);
    }
  }

  // A thin wall under the jaws: pie jaws, or it is squeezed oval.
  void thin_walls(const Surface& held, Layout& layout, Setup& setup) const {
    if (layout.hollow.empty()) return;
    const Length hole = layout.hollow.largest(held.left, held.right);
    const Length wall = held.diameter() / 2.0 - hole;
    if (hole.si <= touch || (wall / held.diameter()).si >= thin_wall) return;
    setup.jaws = Jaws::soft;
    layout.cautions.push_back("setup " + std::to_string(setup.number) + " holds a wall of " +
                              said(job_, wall) + " on " + said(job_, held.diameter()) +
                              ": full-round soft jaws at low pressure, a collet or a mandrel");
  }
  std::string accuracy_row(const char* holding) const {
    for (const HoldingKind& kind : shop_.holdings)
      if (kind.name == holding)
        return std::string(holding) + ", true to about " + said(job_, kind.accuracy) + " (" +
               name_of(kind.source.basis) + ")";
    return holding;
  }
  // Ties between surfaces of both holdings decide jaws and checking, by how true they hold.
  void jaws_for(const Surface& held, bool from_left, Length cut_over, Setup& setup,
                Layout& layout) {
    bool soft = (held.grade <= 7 && held.toleranced) || (held.ra.si > 0 && held.ra.si <= 1.6e-6);
    auto in_this = [&](const Surface& s) {
      if (s.inside()) return (s.lie == Lie::bore_left) == from_left;
      const Length middle = (s.left + s.right) / 2.0;
      return from_left ? middle < cut_over : middle > cut_over;
    };
    for (const Surface& s : job_.surfaces)
      for (const Tie& tie : job_.element_of(s).ties)
        for (std::size_t n = 0; n < job_.surfaces.size(); ++n) {
          if (!tied_to(n, tie.datum) || in_this(s) == in_this(job_.surfaces[n])) continue;
          const std::string pair = s.name + " to " + job_.surfaces[n].name + " (" + tie.kind + " " +
                                   said(job_, tie.value) + ")";
          if (tie.value.si <= shop_.accuracy("hard jaws").si + touch) soft = true;
          const Length jaws = shop_.accuracy("soft jaws");
          if (tie.value.si > check_margin * jaws.si + touch) continue;
          setup.check_all = true;
          layout.tie = accuracy_row("soft jaws") + ", every piece checked";
          setup.why = pair + " is turned in two holdings: 100 % check";
          layout.cautions.push_back(pair +
                                    " is turned in two holdings; soft jaws bored in place hold "
                                    "about " + said(job_, jaws) + ", every piece is checked. "
                                    "Otherwise leave 0.3 mm and grind both between centres");
        }
    setup.jaws = soft ? Jaws::soft : Jaws::hard;
  }

  static void caution_short_grip(const Job& job, Layout& layout) {
    for (const Setup& setup : layout.setups)
      if (setup.support != Support::between_centres && !setup.from_bar &&
          (setup.grip_to - setup.grip_from).si < fair_grip(setup.grip_diameter).si - touch)
        layout.cautions.push_back("setup " + std::to_string(setup.number) + " is held on only " +
                                  said(job, setup.grip_to - setup.grip_from) +
                                  " of a diameter of " + said(job, setup.grip_diameter) +
                                  ": a stop behind it, even jaws, and the chuck's plate decide");
  }
  void take(Layout layout) {
    caution_short_grip(job_, layout);
    if (!layout.ok()) {
      no(layout.why_not, layout.would_help);
      return;
    }
    const bool none =
        request_.way == WayKind::two_finish_cuts &&
        std::none_of(layout.two_cuts.begin(), layout.two_cuts.end(), [](bool b) { return b; });
    route_.two_cuts = layout.two_cuts;
    route_.tie_rests_on = layout.tie;
    route_.two_cut_notes = layout.notes;
    if (none) {
      std::string why;
      for (const std::string& note : layout.notes) why += (why.empty() ? "" : "; ") + note;
      no("no holding can be done with two cuts of the finishing tool: " + why,
         !layout.two_cuts_help.empty() ? layout.two_cuts_help
         : job_.stock.skin             ? "peeled or drawn bar"
                                       : "less stock on the diameter");
    }
    route_.setups = std::move(layout.setups);
    route_.job.features.insert(route_.job.features.end(), layout.features.begin(),
                               layout.features.end());
    for (const std::string& caution : layout.cautions)
      if (std::find(route_.cautions.begin(), route_.cautions.end(), caution) ==
          route_.cautions.end())
        route_.cautions.push_back(caution);
  }
  void try_layout(Layout (RoutePlanner::*plan_it)()) { take((this->*plan_it)()); }
  void two_holdings() {
    Layout right = two_from(false);
    if (right.ok() && right.score < 1e-9) {
      take(std::move(right));
      return;
    }
    Layout left = two_from(true);
    if (!right.ok() && !left.ok()) {
      // Discs and flanged shafts: held on little, stopped against the jaws.
      const Layout as_usual = right;
      shallow_ = true;
      right = two_from(false);
      left = two_from(true);
      if (!right.ok() && !left.ok()) right = as_usual;
    }
    if (left.ok() && (!right.ok() || left.score < right.score))
      take(std::move(left));
    else
      take(std::move(right));
  }

  const Job& job_;
  const Shop& shop_;
  const PlanRequest& request_;
  Route route_;
  bool shallow_ = false;  // held on less than usual
};

}  // namespace

const char* name_of(StepKind kind) {
  switch (kind) {
    case StepKind::face:
      return "face";
    case StepKind::centre:
      return "centre";
    case StepKind::drill:
      return "drill";
    case StepKind::rough:
      return "rough";
    case StepKind::bore:
      return "bore";
    case StepKind::finish:
      return "finish";
    case StepKind::ream:
      return "ream";
    case StepKind::groove:
      return "groove";
    case StepKind::knurl:
      return "knurl";
    case StepKind::chamfer:
      return "chamfer";
    case StepKind::tap:
      return "tap";
    case StepKind::thread:
      return "thread";
    case StepKind::part_off:
      return "part off";
    case StepKind::given:
      break;
  }
  return "as given";
}

const char* name_of(WayKind way) {
  switch (way) {
    case WayKind::rough_then_finish:
      return "rough then finish";
    case WayKind::two_finish_cuts:
      return "two finish cuts";
    case WayKind::between_centres:
      return "between centres";
    case WayKind::leave_and_grind:
      break;
  }
  return "leave and grind";
}

Route plan_route(const Job& job, const Shop& shop, const PlanRequest& request) {
  if (request.way == WayKind::leave_and_grind) {
    std::string why;
    if (const auto ground = left_for_grinding(job, shop, why))
      return RoutePlanner(*ground, shop, request).plan();
    Route none;
    none.way = request.way;
    none.job = job;
    none.feasible = false;
    none.why_not = why;
    none.would_help = "a tie between two seats, and the price of the grinder";
    return none;
  }
  return RoutePlanner(job, shop, request).plan();
}

}  // namespace turnwright
