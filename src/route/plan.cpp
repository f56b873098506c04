// SPDX-License-Identifier: MIT
// Which machine, which layout, in which order of preference; then the audit.
#include <algorithm>

#include "audit.hpp"
#include "choose_machine.hpp"
#include "grind.hpp"
#include "length_text.hpp"
#include "route_planner.hpp"

namespace turnwright {

Route RoutePlanner::plan() {
  if (!choose_machine()) return std::move(route_);
  if (route_.machine.manual() && !contours_by_hand()) return std::move(route_);
  if (const OtherWork* between = work_between()) {
    if (job_.stock.from_bar || single_possible()) {
      no("'" + between->what +
             "' after roughing takes the piece out of the lathe before it is "
             "finished, and this plan has one holding",
         "sawn blanks in two holdings, or the work after turning");
      return std::move(route_);
    }
    route_.cautions.push_back(
        "both ends are roughed, then '" + between->what +
        "', then finished: after hardening the speeds here are too fast; hard surfaces are ground "
        "or turned with a harder edge, and centres are cleaned first");
  }
  if (request_.ends_first && (job_.stock.from_bar || single_possible())) {
    no("one holding does it: there is no other end to rough first", "sawn blanks in two holdings");
    return std::move(route_);
  }
  if (request_.two_at_least && job_.stock.from_bar) {
    no("bar through the spindle is one holding", "sawn blanks");
    return std::move(route_);
  }
  if (job_.stock.from_bar) {
    try_layout(&RoutePlanner::parted_from_bar);
  } else if (single_possible() && !request_.two_at_least) {
    try_layout(&RoutePlanner::one_operation);
  } else if (request_.method == MethodKind::between_centres &&
             (job_.bored() || !job_.rough.empty() || !route_.machine.tailstock ||
              job_.part.centres.keep == CentreUse::no)) {
    no("nothing to turn between: " +
           std::string(job_.bored() || !job_.rough.empty() ? "the part has no centres at both ends"
                       : route_.machine.tailstock          ? "the drawing allows no centres"
                                                  : route_.machine.name + " has no tailstock"),
       "a mandrel, or the seats ground");
  } else if (request_.method == MethodKind::between_centres || tie_needs_centres()) {
    try_layout(&RoutePlanner::between_centres);
  } else {
    two_operations();
  }
  if (route_.feasible) audit_route(route_, job_);
  // One number names one step of the whole route.
  int number = 0;
  for (Operation& operation : route_.operations)
    for (Step& step : operation.steps) step.number = number += 10;
  return std::move(route_);
}

void RoutePlanner::no(std::string why, std::string help) {
  route_.feasible = false;
  route_.why_not = std::move(why);
  route_.would_help = std::move(help);
}

bool RoutePlanner::choose_machine() {
  MachineChoice choice = turnwright::choose_machine(job_, shop_, request_.machine, blank_mass());
  route_.cautions.insert(route_.cautions.end(), choice.cautions.begin(), choice.cautions.end());
  if (choice.machine == nullptr) {
    no(std::move(choice.why_not), std::move(choice.would_help));
    return false;
  }
  route_.machine = *choice.machine;
  return true;
}

void RoutePlanner::caution_short_grip(const Job& job, Layout& layout) {
  for (const Operation& operation : layout.operations)
    if (operation.support != Support::between_centres && !operation.from_bar &&
        (operation.grip_to - operation.grip_from).si <
            fair_grip(operation.grip_diameter).si - same_point)
      layout.cautions.push_back("setup " + std::to_string(operation.number) + " is held on only " +
                                length_text(job, operation.grip_to - operation.grip_from) +
                                " of a diameter of " + length_text(job, operation.grip_diameter) +
                                ": a stop behind it, even jaws, and the chuck's plate decide");
}

void RoutePlanner::take(Layout layout) {
  caution_short_grip(job_, layout);
  if (!layout.ok()) {
    no(layout.why_not, layout.would_help);
    return;
  }
  const bool none =
      request_.method == MethodKind::two_finish_cuts &&
      std::none_of(layout.two_cuts.begin(), layout.two_cuts.end(), [](bool b) { return b; });
  route_.two_cuts = layout.two_cuts;
  route_.tie_rests_on = layout.tie;
  route_.two_cut_notes = layout.notes;
  if (none) {
    std::string why;
    for (const std::string& note : layout.notes) why += (why.empty() ? "" : "; ") + note;
    if (why.empty()) why = "nothing of the outside is finished";
    no("no holding can be done with two cuts of the finishing tool: " + why,
       !layout.two_cuts_help.empty() ? layout.two_cuts_help
       : !job_.rough.empty()         ? "rough then finish"
       : job_.stock.skin             ? "peeled or drawn bar"
                                     : "less stock on the diameter");
  }
  route_.operations = std::move(layout.operations);
  route_.job.features.insert(route_.job.features.end(), layout.features.begin(),
                             layout.features.end());
  for (const std::string& caution : layout.cautions)
    if (std::find(route_.cautions.begin(), route_.cautions.end(), caution) == route_.cautions.end())
      route_.cautions.push_back(caution);
}

void RoutePlanner::two_operations() {
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

const char* name_of(MethodKind method) {
  switch (method) {
    case MethodKind::rough_then_finish:
      return "rough then finish";
    case MethodKind::two_finish_cuts:
      return "two finish cuts";
    case MethodKind::between_centres:
      return "between centres";
    case MethodKind::leave_and_grind:
      break;
  }
  return "leave and grind";
}

Route plan_route(const Job& job, const Shop& shop, const PlanRequest& request) {
  if (request.method == MethodKind::leave_and_grind) {
    std::string why;
    if (const auto ground = left_for_grinding(job, shop, why))
      return RoutePlanner(*ground, shop, request).plan();
    Route none;
    none.method = request.method;
    none.job = job;
    none.feasible = false;
    none.why_not = why;
    none.would_help = "a tie between two seats, and the price of the grinder";
    return none;
  }
  return RoutePlanner(job, shop, request).plan();
}

}  // namespace turnwright
