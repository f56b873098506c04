// SPDX-License-Identifier: MIT
#include "clamping/jaws.hpp"

#include "reasons.hpp"

namespace turnwright {
namespace {

constexpr Length clocked_to(0.02e-3);

bool turned_here(const Surface& s, const Turned& turned) {
  if (s.inside()) return (s.region == Region::bore_left) == turned.from_left;
  const Length middle = (s.left + s.right) / 2.0;
  return turned.from_left ? middle < turned.cut_over : middle > turned.cut_over;
}

// A tie that soft jaws hardly hold: every piece is checked. What they do not hold at all is said
// when the whole route is known.
void check_all(const PlanContext& context, const TiedPair& pair, Operation& operation,
               Layout& layout) {
  const Message tie = named(pair);
  operation.check_all = true;
  layout.tie_rests_on = {
      "clamping.every-piece-checked",
      {{"clamping", accuracy_of(context.shop, AccuracyId::soft_jaws, "clamping.soft-jaws")}}};
  operation.why = {"clamping.tie-in-two-operations", {{"tie", tie}}};
  const Length accuracy = context.shop.accuracy(AccuracyId::soft_jaws);
  if (pair.tie.value.si < accuracy.si - same_point) return;
  layout.cautions.push_back(
      {"clamping.tie-checked",
       {{"tie", tie}, {"accuracy", accuracy}, {"leave", context.shop.practice.left_for_grinding}}});
}

}  // namespace

bool fine_seat(const PlanContext& context, const Surface& s) {
  return s.grade <= context.shop.practice.soft_jaws_grade && s.toleranced;
}

void choose_jaws(const PlanContext& context, const Surface& held, const Turned& turned,
                 Operation& operation, Layout& layout) {
  const Length hard_jaws = context.shop.accuracy(AccuracyId::hard_jaws),
               soft_jaws = context.shop.accuracy(AccuracyId::soft_jaws);
  const Practice& practice = context.shop.practice;
  bool soft =
      fine_seat(context, held) || (held.ra.si > 0 && held.ra.si < practice.soft_jaws_roughness.si);
  for (const TiedPair& pair : tied_pairs(context.job)) {
    if (turned_here(pair.surface, turned) == turned_here(pair.datum, turned)) continue;
    if (pair.tie.value.si <= hard_jaws.si + same_point) soft = true;
    if (pair.tie.value.si <= practice.check_margin * soft_jaws.si + same_point)
      check_all(context, pair, operation, layout);
  }
  // Hard jaws mark what is finished: only what stays as drawn is held in them.
  const Jaws without_marks = context.machine.manual() ? Jaws::padded : Jaws::soft;
  operation.jaws = soft ? Jaws::soft : held.as_drawn ? Jaws::hard : without_marks;
}

void spare_thin_wall(const PlanContext& context, const Surface& held, Operation& operation,
                     Layout& layout) {
  if (layout.hollow.empty()) return;
  const Length hole = layout.hollow.largest(held.left, held.right);
  const Length wall = held.diameter() / 2.0 - hole;
  const double least = context.shop.practice.thin_wall;
  if (hole.si <= same_point || (wall / held.diameter()).si >= least) return;
  operation.jaws = Jaws::soft;
  layout.cautions.push_back(
      {"clamping.thin-wall",
       {{"operation", operation.number}, {"wall", wall}, {"diameter", held.diameter()}}});
}

namespace {

// The least wall of a finished surface, and around it.
struct Wall {
  const Surface* surface = nullptr;
  Length wall{}, diameter{};
  double share() const { return surface != nullptr ? (wall / diameter).si : 1.0; }
};

Wall wall_at(const Job& job, const Outline& hollow, const Surface& s) {
  const Length middle = (s.left + s.right) / 2.0;
  const Length outside = s.inside() ? job.finished.left_of(middle) : s.diameter() / 2.0;
  const bool hollow_there = middle > hollow.left() && middle < hollow.right();
  const Length bore = hollow_there ? hollow.left_of(middle) : Length(0.0);
  const Length hole = s.inside() ? s.diameter() / 2.0 : bore;
  if (hole.si <= same_point) return {};
  return {&s, outside - hole, 2.0 * outside};
}

// Of what has a tolerance that a bent wall is out of.
Wall thinnest(const PlanContext& context) {
  const Job& job = context.job;
  const Outline hollow = job.hollow();
  Wall least;
  if (hollow.empty()) return least;
  for (const Surface& s : job.surfaces) {
    if (!s.toleranced || s.grade > context.shop.practice.bending_matters_to) continue;
    const Wall wall = wall_at(job, hollow, s);
    if (wall.share() < least.share()) least = wall;
  }
  return least;
}

// Hard jaws on a tube as it is bought.
void caution_held_tube(const PlanContext& context, const Operation& o, Messages& cautions) {
  const bool jaws = o.support != Support::between_centres && !o.collet && o.jaws != Jaws::soft;
  if (!jaws || o.hollow_before.empty()) return;
  const Length hole = o.hollow_before.largest(o.grip_from, o.grip_to);
  const Length wall = o.grip_diameter / 2.0 - hole;
  if (hole.si <= same_point || (wall / o.grip_diameter).si >= context.shop.practice.thin_wall)
    return;
  cautions.push_back({"clamping.thin-wall",
                      {{"operation", o.number}, {"wall", wall}, {"diameter", o.grip_diameter}}});
}

}  // namespace

void caution_thin_walls(const PlanContext& context, Layout& layout) {
  for (const Operation& operation : layout.operations)
    caution_held_tube(context, operation, layout.cautions);
  const Wall wall = thinnest(context);
  if (wall.share() >= context.shop.practice.thin_wall) return;
  layout.cautions.push_back(
      {"clamping.springs-open",
       {{"surface", wall.surface->name}, {"wall", wall.wall}, {"diameter", wall.diameter}}});
}

void hold_in_four_jaws(const PlanContext& context, Operation& operation, bool fine) {
  const bool larger = operation.grip_diameter > context.machine.chuck.diameter;
  const bool odd = context.cast() || context.job.stock.form == StockForm::square;
  if (!larger && (!context.machine.four_jaw || !odd)) return;
  operation.four_jaw = true;
  operation.clocked_fine = fine;
  operation.face_plate = larger;
  operation.holder = operation.face_plate ? Holder::face_plate : Holder::four_jaw_chuck;
  operation.why =
      both(std::move(operation.why), fine ? Message{"clamping.clocked-to", {{"to", clocked_to}}}
                                          : Message{"clamping.trued-to-rim"});
}

}  // namespace turnwright
