// SPDX-License-Identifier: MIT
// How a piece is held: support, jaws, ties, speed of the chuck, contours by hand.
#include <algorithm>
#include <cmath>

#include "bend.hpp"
#include "length_text.hpp"
#include "route_planner.hpp"
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
  if (!job_.rough.empty()) return body_volume(job_.rough, job_.raw_bore) * job_.material.density;
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
      no(e.text + ": an arc of " + length_text(job_, e.radius) + " is not turned on " +
             route_.machine.name + " by hand",
         "a CNC lathe, a form tool up to " + length_text(job_, largest_form_radius) +
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
      no(e.text + ": a cone of " + length_text(job_, length) +
             " is longer than the compound slide of " + route_.machine.name + " travels, " +
             length_text(job_, route_.machine.compound_travel),
         "a CNC lathe, or a cone slender enough for the tailstock");
      return false;
    }
    route_.cautions.push_back(e.text + ": turned between centres with the tailstock set over by " +
                              length_text(job_, Length(set_over)) + ", then set back and tried");
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

std::string RoutePlanner::reason_for_centre(const OperationTask& task) const {
  const HeldWork held{task.target,
                      task.jaw,
                      Length(0.0),
                      Support::chuck,
                      job_.material.elastic_modulus,
                      shop_.policy.chuck_compliance,
                      nullptr,
                      std::nullopt};
  const View v = view(task.operation.from_left);
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
double RoutePlanner::plain_share(const OperationTask& task) const {
  Length longest(0.0);
  for (const Segment& s : task.target.pieces())
    if (s.bulge == Bulge::none && s.from.r.si == s.to.r.si)
      longest = max(longest, s.to.z - max(s.from.z, task.jaw));
  return (longest / -task.jaw).si;
}

bool RoutePlanner::decide_support(OperationTask& task, Layout& layout) {
  Operation& operation = task.operation;
  const Length d = effective_diameter(task.target, task.jaw, Length(0.0));
  operation.stick_out = -task.jaw;
  operation.free_ratio = d.si > 0 ? (operation.stick_out / d).si : 0;
  const CentreRequest& asked = job_.part.centres;
  const bool wanted_here =
      (operation.from_left ? asked.left : asked.right) && asked.keep != CentreUse::no;
  bool centre = operation.free_ratio > (shallow_ ? 1.0 : chuck_maybe_ratio);
  std::string why = "free length " + readable(operation.free_ratio, 2) + " diameters: ";
  if (operation.free_ratio > chuck_only_ratio && !centre) {
    const std::string bends = wanted_here ? "the drawing has one" : reason_for_centre(task);
    centre = !bends.empty() && asked.keep != CentreUse::no;
    why += bends.empty() ? "3 to 5, and stiff enough in the chuck alone"
                         : "3 to 5 needs the centre: " + bends;
  } else {
    why += centre ? "above 5 needs a centre" : "up to 3 the chuck alone holds it";
  }
  if (centre && (!route_.machine.tailstock || asked.keep == CentreUse::no)) {
    if (operation.free_ratio > chuck_maybe_ratio) {
      layout.why_not = "a free length of " + readable(operation.free_ratio, 2) +
                       " diameters needs a centre, and " +
                       (route_.machine.tailstock ? "the drawing allows none"
                                                 : route_.machine.name + " has no tailstock");
      layout.would_help =
          route_.machine.tailstock ? "centres: {keep: may}" : "a lathe with a tailstock";
      return false;
    }
    centre = false;
  }
  operation.support = centre ? Support::chuck_and_centre : Support::chuck;
  operation.clamping = centre ? "chuck and centre" : "chuck";
  const bool mouth = bored_from(operation.from_left);
  task.centre_hole = (centre || wanted_here) && !mouth;
  if (centre && mouth) {
    operation.clamping += " in the bore";
    layout.cautions.push_back("setup " + std::to_string(operation.number) +
                              ": the centre runs in the mouth of the bore, which is made first; a "
                              "clean 60 degree edge or a plug is needed");
  }
  if (operation.free_ratio > steady_ratio) {
    operation.follow = centre && route_.machine.follow_rest && plain_share(task) >= mostly_plain;
    operation.steady = centre && route_.machine.steady && !operation.follow;
    const std::string rest = operation.follow ? "follow rest" : "steady rest";
    const bool any = operation.follow || operation.steady;
    layout.cautions.push_back(
        "setup " + std::to_string(operation.number) + ": a free length of " +
        readable(operation.free_ratio, 2) + " diameters needs a steady or follow rest; " +
        (any ? "a " + rest + " is in the times"
             : "its time is not in the price: " + route_.machine.name + " has none"));
    if (any) operation.clamping += ", " + rest;
  }
  operation.why += (operation.why.empty() ? "" : "; ") + why;
  return true;
}

Machine RoutePlanner::with_chuck_speed(const Operation& operation) const {
  Machine m = route_.machine;
  if (operation.support == Support::between_centres || operation.from_bar) return m;
  const double out = (operation.grip_diameter / (m.chuck.diameter / 2.0)).si;
  if (out > 1) m.chuck.rated_speed = m.chuck.rated_speed / std::sqrt(out);
  if (operation.four_jaw) m.chuck.rated_speed = m.chuck.rated_speed * unbalanced;
  return m;
}

void RoutePlanner::four_jaws(Operation& operation, bool fine) const {
  const Stock& s = job_.stock;
  if (!route_.machine.four_jaw || (job_.rough.empty() && s.form != StockForm::square)) return;
  operation.four_jaw = true;
  operation.clocked_fine = fine;
  const std::string tail =
      operation.clamping.substr(std::min<std::size_t>(5, operation.clamping.size()));
  operation.face_plate = operation.grip_diameter > route_.machine.chuck.diameter;
  // "chuck and centre" keeps its centre.
  operation.clamping = (operation.face_plate ? "face plate, clamped" : "four-jaw chuck") + tail;
  operation.why += fine ? "; clocked to 0.02" : "; trued to the rim";
}

std::size_t RoutePlanner::through_bore() const {
  for (std::size_t n = job_.outside().size(); n < job_.surfaces.size(); ++n) {
    const Surface& s = job_.surfaces[n];
    const bool straight = job_.element_of(s).kind == ElementKind::cylinder;
    const bool through = s.left.si < job_.left().si + same_point && s.right.si > -same_point;
    if (straight && through && s.grade <= 8 && s.toleranced && s.diameter() >= least_mandrel)
      return n;
  }
  return job_.surfaces.size();
}

bool RoutePlanner::wants_mandrel(bool from_left, Length cut_over, bool nothing_held) const {
  const std::size_t bore = through_bore();
  if (bore == job_.surfaces.size() ||
      (job_.surfaces[bore].region == Region::bore_left) == from_left)
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
        if (tie.value.si < soft.si - same_point && tied_to(n, tie.datum) &&
            right(s) != right(job_.surfaces[n]))
          return true;
  return false;
}

void RoutePlanner::thin_walls(const Surface& held, Layout& layout, Operation& operation) const {
  if (layout.hollow.empty()) return;
  const Length hole = layout.hollow.largest(held.left, held.right);
  const Length wall = held.diameter() / 2.0 - hole;
  if (hole.si <= same_point || (wall / held.diameter()).si >= thin_wall) return;
  operation.jaws = Jaws::soft;
  layout.cautions.push_back("setup " + std::to_string(operation.number) + " holds a wall of " +
                            length_text(job_, wall) + " on " + length_text(job_, held.diameter()) +
                            ": full-round soft jaws at low pressure, a collet or a mandrel");
}

std::string RoutePlanner::accuracy_row(const char* clamping) const {
  for (const ClampingKind& kind : shop_.clampings)
    if (kind.name == clamping)
      return std::string(clamping) + ", true to about " + length_text(job_, kind.accuracy) + " (" +
             name_of(kind.source.basis) + ")";
  return clamping;
}

void RoutePlanner::jaws_for(const Surface& held, bool from_left, Length cut_over,
                            Operation& operation, Layout& layout) {
  bool soft = (held.grade <= 7 && held.toleranced) || (held.ra.si > 0 && held.ra.si <= 1.6e-6);
  auto in_this = [&](const Surface& s) {
    if (s.inside()) return (s.region == Region::bore_left) == from_left;
    const Length middle = (s.left + s.right) / 2.0;
    return from_left ? middle < cut_over : middle > cut_over;
  };
  for (const Surface& s : job_.surfaces)
    for (const Tie& tie : job_.element_of(s).ties)
      for (std::size_t n = 0; n < job_.surfaces.size(); ++n) {
        if (!tied_to(n, tie.datum) || in_this(s) == in_this(job_.surfaces[n])) continue;
        const std::string pair = s.name + " to " + job_.surfaces[n].name + " (" + tie.kind + " " +
                                 length_text(job_, tie.value) + ")";
        if (tie.value.si <= shop_.accuracy("hard jaws").si + same_point) soft = true;
        const Length jaws = shop_.accuracy("soft jaws");
        if (tie.value.si > check_margin * jaws.si + same_point) continue;
        operation.check_all = true;
        layout.tie = accuracy_row("soft jaws") + ", every piece checked";
        operation.why = pair + " is turned in two holdings: 100 % check";
        layout.cautions.push_back(pair +
                                  " is turned in two holdings; soft jaws bored in place hold "
                                  "about " +
                                  length_text(job_, jaws) +
                                  ", every piece is checked. "
                                  "Otherwise leave 0.3 mm and grind both between centres");
      }
  operation.jaws = soft ? Jaws::soft : Jaws::hard;
}

}  // namespace turnwright
