// SPDX-License-Identifier: MIT
// Castings and forgings: the finished shape with stock on every side.
#include "prepare/stock.hpp"
#include "turnwright/shop/condition_word.hpp"

namespace turnwright {
namespace {

Outline grown(const Job& job, Length on) {
  std::vector<Segment> pieces;
  const auto outside = job.outside();
  for (auto it = outside.rbegin(); it != outside.rend(); ++it)
    pieces.push_back({{it->left, it->left_radius + on},
                      {it->right, it->right_radius + on},
                      Bulge::none,
                      {},
                      {}});
  const Outline wider(pieces);
  return combine(
      combine(wider.moved(on, Length(0.0)), wider.moved(-on, Length(0.0)), Envelope::upper), wider,
      Envelope::upper);
}

Length smallest(const Outline& o) {
  Length least(1e9);
  for (const Segment& s : o.pieces()) least = min(least, min(s.from.r, s.to.r));
  return least;
}

void core(Job& job, const Bore& bore, Length on, Length least) {
  if (bore.empty() || !bore.through) return;
  const Length narrow = smallest(bore.turned);
  if (narrow - on < least / 2.0) return;
  const Outline hole = Outline::cylinder(job.left() - on, on, narrow - on);
  job.raw_bore = job.raw_bore.empty() ? hole : combine(job.raw_bore, hole, Envelope::upper);
}

}  // namespace

void shape_casting(const StockChoice& choice) {
  Job& job = choice.job();
  Stock& s = choice.stock();
  const Length on = choice.asked.size;
  job.raw_outside = grown(job, on);
  const Length least = choice.preparation.shop.practice.least_cored;
  for (const Bore& bore : job.bores) core(job, bore, on, least);
  s.facing_right = s.facing_left = on;
  s.length = job.part.overall + 2.0 * on;
  s.diameter = s.upper = 2.0 * job.raw_outside.largest();
  if (s.from_bar) choice.refuse("prepare.casting-from-bar", "prepare.expect-fed-from-blank");
  if (!job.part.right_face.machined || !job.part.left_face.machined)
    choice.preparation.caution("prepare.raw-face-of-casting");
  choice.preparation.caution({"prepare.casting-allowance",
                              {{"condition", condition_word(s.condition)}, {"allowance", on}}});
}

}  // namespace turnwright
