// SPDX-License-Identifier: MIT
// How a piece is held: support, jaws, ties, speed of the chuck, contours by hand.
#include <algorithm>
#include <cmath>

#include "bend.hpp"
#include "route_planner.hpp"
#include "said.hpp"
#include "turnwright/figure/stock.hpp"

namespace turnwright {
namespace {

constexpr double chuck_only_ratio = 3;  // common practice; trade guide on deflection
constexpr double chuck_maybe_ratio = 5;
constexpr double steady_ratio = 10;  // above 10 to 12 (from memory)
constexpr double check_margin =
    1.34;                           // a tie within a third of what jaws hold: every piece checked
constexpr double thin_wall = 0.08;  // wall over diameter that hard jaws squeeze oval (from memory)
constexpr Length least_mandrel(6e-3);  // a thinner mandrel bends (from memory)
constexpr double mostly_plain =
    0.6;  // of the free length in one diameter: a follow rest can run on it
constexpr Length largest_form_radius(10e-3);  // of a form tool that does not chatter (from memory)
constexpr Length most_set_over(12e-3);        // of a tailstock, 10-15 mm (from memory)
constexpr double unbalanced = 0.5;  // of the chuck's speed, castings and four jaws (from memory)

}  // namespace

Mass RoutePlanner::blank_mass() const {
  if (!job_.rough.empty()) return body_volume(job_.rough, job_.cored) * job_.material.density;
  if (job_.stock.form != StockForm::round)
    return job_.stock.section * job_.stock.length * job_.material.density;
  return figure::BarWeight::work_out<>(
             {job_.stock.diameter, job_.stock.length, job_.material.density})
      .mass;
}

bool RoutePlanner::contours_by_hand() {
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
      route_.cautions.push_back(e.text +
                                ": turned with the compound slide, fed by hand; its angle "
                                "is set and tried first");
      continue;
    }
    const double set_over =
        std::abs((s.left_radius - s.right_radius).si) * (job_.part.overall / length).si;
    const bool slender = !s.inside() && route_.machine.tailstock && set_over <= most_set_over.si &&
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

Length RoutePlanner::grip_length(Length diameter) const {
  return shallow_ ? least_grip(diameter) : full_grip(diameter);
}

Length RoutePlanner::jaw_clearance() const {
  return shallow_ ? min(1.0 * unit::mm, route_.machine.chuck.jaw_clearance)
                  : route_.machine.chuck.jaw_clearance;
}

bool RoutePlanner::tied_to(std::size_t surface, const std::string& datum) const {
  return job_.element_of(job_.surfaces[surface]).seat == datum;
}

std::string RoutePlanner::bends_alone(const SetupTask& task) const {
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
    const CutContext c{shop_,       job_.material, route_.machine,
                       tool,        kind,          2.0 * task.target.largest(task.jaw, Length(0.0)),
                       Length(0.0), Length(0.0)};
    return passive_force(job_.material, tool, depth, conditions_at(c, depth).used.feed);
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

// How much of what stands out is one plain diameter.
double RoutePlanner::plain_share(const SetupTask& task) const {
  Length longest(0.0);
  for (const Segment& s : task.target.pieces())
    if (s.bulge == Bulge::none && s.from.r.si == s.to.r.si)
      longest = max(longest, s.to.z - max(s.from.z, task.jaw));
  return (longest / -task.jaw).si;
}

bool RoutePlanner::decide_support(SetupTask& task, Layout& layout) {
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
    setup.follow = centre && route_.machine.follow_rest && plain_share(task) >= mostly_plain;
    setup.steady = centre && route_.machine.steady && !setup.follow;
    const std::string rest = setup.follow ? "follow rest" : "steady rest";
    const bool any = setup.follow || setup.steady;
    layout.cautions.push_back(
        "setup " + std::to_string(setup.number) + ": a free length of " +
        readable(setup.free_ratio, 2) + " diameters needs a steady or follow rest; " +
        (any ? "a " + rest + " is in the times"
             : "its time is not in the price: " + route_.machine.name + " has none"));
    if (any) setup.holding += ", " + rest;
  }
  setup.why += (setup.why.empty() ? "" : "; ") + why;
  return true;
}

Machine RoutePlanner::with_chuck_speed(const Setup& setup) const {
  Machine m = route_.machine;
  if (setup.support == Support::between_centres || setup.from_bar) return m;
  const double out = (setup.grip_diameter / (m.chuck.diameter / 2.0)).si;
  if (out > 1) m.chuck.rated_speed = m.chuck.rated_speed / std::sqrt(out);
  if (setup.four_jaw) m.chuck.rated_speed = m.chuck.rated_speed * unbalanced;
  return m;
}

void RoutePlanner::four_jaws(Setup& setup, bool fine) const {
  const Stock& s = job_.stock;
  if (!route_.machine.four_jaw || (job_.rough.empty() && s.form != StockForm::square)) return;
  setup.four_jaw = true;
  setup.clocked_fine = fine;
  const std::string tail = setup.holding.substr(std::min<std::size_t>(5, setup.holding.size()));
  setup.face_plate = setup.grip_diameter > route_.machine.chuck.diameter;
  // "chuck and centre" keeps its centre.
  setup.holding = (setup.face_plate ? "face plate, clamped" : "four-jaw chuck") + tail;
  setup.why += fine ? "; clocked to 0.02" : "; trued to the rim";
}

std::size_t RoutePlanner::through_bore() const {
  for (std::size_t n = job_.outside().size(); n < job_.surfaces.size(); ++n) {
    const Surface& s = job_.surfaces[n];
    const bool straight = job_.element_of(s).kind == ElementKind::cylinder;
    const bool through = s.left.si < job_.left().si + touch && s.right.si > -touch;
    if (straight && through && s.grade <= 8 && s.toleranced && s.diameter() >= least_mandrel)
      return n;
  }
  return job_.surfaces.size();
}

bool RoutePlanner::wants_mandrel(bool from_left, Length cut_over, bool nothing_held) const {
  const std::size_t bore = through_bore();
  if (bore == job_.surfaces.size() || (job_.surfaces[bore].lie == Lie::bore_left) == from_left)
    return false;
  if (nothing_held) return true;
  const Length jaws = check_margin * shop_.accuracy("soft jaws");
  auto here = [&](const Surface& s) {
    const Length middle = (s.left + s.right) / 2.0;
    return !s.inside() && (from_left ? middle < cut_over : middle > cut_over);
  };
  for (std::size_t n = 0; n < job_.surfaces.size(); ++n)
    for (const Tie& tie : job_.element_of(job_.surfaces[n]).ties) {
      if (tie.value > jaws) continue;
      for (std::size_t m = 0; m < job_.surfaces.size(); ++m)
        if (tied_to(m, tie.datum) &&
            ((n == bore && here(job_.surfaces[m])) || (m == bore && here(job_.surfaces[n]))))
          return true;
    }
  return false;
}

bool RoutePlanner::tie_needs_centres() const {
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

void RoutePlanner::thin_walls(const Surface& held, Layout& layout, Setup& setup) const {
  if (layout.hollow.empty()) return;
  const Length hole = layout.hollow.largest(held.left, held.right);
  const Length wall = held.diameter() / 2.0 - hole;
  if (hole.si <= touch || (wall / held.diameter()).si >= thin_wall) return;
  setup.jaws = Jaws::soft;
  layout.cautions.push_back("setup " + std::to_string(setup.number) + " holds a wall of " +
                            said(job_, wall) + " on " + said(job_, held.diameter()) +
                            ": full-round soft jaws at low pressure, a collet or a mandrel");
}

std::string RoutePlanner::accuracy_row(const char* holding) const {
  for (const HoldingKind& kind : shop_.holdings)
    if (kind.name == holding)
      return std::string(holding) + ", true to about " + said(job_, kind.accuracy) + " (" +
             name_of(kind.source.basis) + ")";
  return holding;
}

void RoutePlanner::jaws_for(const Surface& held, bool from_left, Length cut_over, Setup& setup,
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
                                  "about " +
                                  said(job_, jaws) +
                                  ", every piece is checked. "
                                  "Otherwise leave 0.3 mm and grind both between centres");
      }
  setup.jaws = soft ? Jaws::soft : Jaws::hard;
}

}  // namespace turnwright
