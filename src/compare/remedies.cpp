// SPDX-License-Identifier: MIT
#include "remedies.hpp"

#include <algorithm>
#include <array>

#include "turnwright/route/route.hpp"

namespace turnwright {
namespace {

// What a remedy changes before the part is planned once more.
struct Attempt {
  Part part;
  PlanRequest request;
  std::optional<Shop> shop;  // with what its lathes lack
};

// Does what a remedy says; false where it does not apply.
using Change = bool (*)(Attempt&);

bool fed_from_bar(Attempt& a) {
  if (a.part.stock.from_bar || a.part.stock.is_shaped()) return false;
  return a.part.stock.from_bar = a.part.stock.feed_said = true;
}
bool sawn(Attempt& a) {
  if (!a.part.stock.from_bar) return false;
  a.part.stock.from_bar = false;
  return true;
}
// A free length is as long as the plan likes already.
bool longer_blank(Attempt& a) {
  if (!a.part.stock.length || a.part.stock.is_shaped()) return false;
  a.part.stock.length.reset();
  return true;
}
bool bright_bar(Attempt& a) {
  if (a.part.stock.form != StockForm::round) return false;
  a.part.stock.condition = "peeled";
  return true;
}
bool between_centres(Attempt& a) {
  a.request.method = MethodKind::between_centres;
  return true;
}
bool centres_kept(Attempt& a) {
  if (a.part.centres.keep != CentreUse::no) return false;
  a.part.centres.keep = CentreUse::may;
  return true;
}
bool with_tailstock(Attempt& a) {
  for (Machine& m : a.shop->machines) m.tailstock = true;
  return true;
}
bool with_steady(Attempt& a) {
  for (Machine& m : a.shop->machines) m.steady = true;
  return true;
}
bool with_larger_lathe(Attempt& a) {
  constexpr double larger = 3;
  for (Machine& m : a.shop->machines) {
    m.largest_diameter = larger * m.largest_diameter;
    m.swing_over_cross_slide = larger * m.swing_over_cross_slide;
    m.largest_length = larger * m.largest_length;
    m.heaviest_work = larger * m.heaviest_work;
    m.chuck.diameter = larger * m.chuck.diameter;
  }
  return true;
}
Side other(Side side) {
  if (side == Side::unsaid) return side;
  return side == Side::right ? Side::left : Side::right;
}
void turn_round(Element& e, Length overall) {
  const Length from = overall - e.to;
  e.to = overall - e.from;
  e.from = from;
  if (e.kind == ElementKind::cone || e.kind == ElementKind::arc) std::swap(e.size, e.left_size);
  e.from_step = e.kind == ElementKind::arc;
  for (EdgeBreak& edge : e.breaks) edge.side = other(edge.side);
  for (Corner& corner : e.corners) corner.side = other(corner.side);
}
// From the bar its other end is turned first. Places of grooves would have to be reckoned anew.
bool written_from_other_end(Attempt& a) {
  Part& p = a.part;
  const auto placed = [](const Element& e) {
    return !e.grooves.empty() || e.undercut || e.through;
  };
  for (auto* list : {&p.outside, &p.bore_right, &p.bore_left})
    if (std::any_of(list->begin(), list->end(), placed)) return false;
  for (Element& e : p.outside) turn_round(e, p.overall);
  std::reverse(p.outside.begin(), p.outside.end());
  std::swap(p.bore_right, p.bore_left);
  std::swap(p.right_face, p.left_face);
  std::swap(p.centres.right, p.centres.left);
  return true;
}
// Both ends were tried before the part was refused.
bool other_end(Attempt&) { return false; }

struct Trial {
  const char* remedy;
  Change change;
  bool unasked;      // also where the refusal does not name it
  bool other_lathe;  // of lathes that the shop does not have
};
constexpr std::array trials{
    Trial{"plan.try-sawn-blanks", sawn, true, false},
    Trial{"plan.try-bar-fed", fed_from_bar, true, false},
    Trial{"plan.try-longer-blank", longer_blank, true, false},
    Trial{"plan.try-bright-bar", bright_bar, false, false},
    Trial{"plan.try-between-centres", between_centres, false, false},
    Trial{"plan.try-keep-centres", centres_kept, true, false},
    Trial{"plan.try-other-end", other_end, false, false},
    Trial{"plan.try-written-from-other-end", written_from_other_end, false, false},
    Trial{"plan.try-tailstock", with_tailstock, false, true},
    Trial{"plan.try-steady", with_steady, false, true},
    Trial{"plan.try-larger-lathe", with_larger_lathe, false, true}};

bool helps(const Trial& trial, const Job& job, const Shop& shop, const FixedMethod& fixed) {
  Attempt attempt{job.part, {fixed.machine}, std::nullopt};
  if (trial.other_lathe) attempt.shop = shop;
  if (!trial.change(attempt)) return false;
  const Shop& in = attempt.shop ? *attempt.shop : shop;
  const auto changed = prepare(attempt.part, in);
  return changed && plan_route(*changed, in, attempt.request);
}

bool names(const Messages& remedies, const char* id) {
  return std::any_of(remedies.begin(), remedies.end(),
                     [&](const Message& remedy) { return remedy.id == id; });
}

}  // namespace

Infeasible with_tried_remedies(Infeasible refused, const Job& job, const Shop& shop,
                               const FixedMethod& fixed) {
  for (const Trial& trial : trials) {
    const bool named = names(refused.remedies, trial.remedy);
    if (!named && !trial.unasked) continue;
    const bool good = helps(trial, job, shop, fixed);
    if (named && !good)
      std::erase_if(refused.remedies, [&](const Message& r) { return r.id == trial.remedy; });
    if (!named && good) refused.remedies.emplace_back(trial.remedy);
  }
  return refused;
}

}  // namespace turnwright
