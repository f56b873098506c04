// SPDX-License-Identifier: MIT
#include "turnwright/compare/bench_cut.hpp"

#include <algorithm>
#include <array>

#include "bench_at.hpp"

namespace turnwright {
namespace {

constexpr const char* carbide_word = "carbide";  // in the names of grades
constexpr const char* high_speed_steel_word = "hss";

bool is_kind_of(const BenchWork& work, StepKind kind) {
  switch (work.kind) {
    case BenchWorkKind::turn:
      return kind == StepKind::rough || kind == StepKind::finish;
    case BenchWorkKind::face:
      return kind == StepKind::face;
    case BenchWorkKind::drill:
      return kind == StepKind::drill;
    case BenchWorkKind::ream:
      return kind == StepKind::ream;
    case BenchWorkKind::bore:
      return kind == StepKind::bore;
    case BenchWorkKind::groove:
      return kind == StepKind::groove;
    case BenchWorkKind::part_off:
      return kind == StepKind::part_off;
    case BenchWorkKind::thread:
      return kind == StepKind::thread;
    case BenchWorkKind::tap:
      return kind == StepKind::tap || kind == StepKind::thread;
    case BenchWorkKind::knurl:
      return kind == StepKind::knurl;
  }
  return false;
}

// What is done to the surface that was asked for: a finishing tool that only cleans a shoulder,
// a pilot or a wider drill is none of it.
bool is_the_cut(const BenchRequest& r, const Step& step) {
  if (!is_kind_of(r.work, step.kind)) return false;
  if (r.work.kind == BenchWorkKind::drill)
    return step.segments.size() == 1 &&
           abs(step.segments.front().large_diameter - r.work.to).si < same_point;
  return r.work.kind != BenchWorkKind::turn || step.kind == StepKind::rough || r.ra.si > 0 ||
         r.method == MethodKind::two_finish_cuts;
}

// What has to be done before it is of a part: holes before they are reamed or tapped.
bool comes_before(const BenchWork& work, const Step& step) {
  const bool in_a_hole = work.kind == BenchWorkKind::drill || work.kind == BenchWorkKind::ream ||
                         work.kind == BenchWorkKind::tap;
  return in_a_hole && (step.kind == StepKind::drill || step.kind == StepKind::centre);
}

// A turned cut so thin that roughing leaves it to the last cut.
void take_last_cut(BenchCut& cut) {
  const auto& steps = cut.operation().steps;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (cut.steps.empty() && is_kind_of(cut.request.work, steps[i].kind)) cut.steps.push_back(i);
}

void find_steps(BenchCut& cut) {
  const auto& steps = cut.operation().steps;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (is_the_cut(cut.request, steps[i]))
      cut.steps.push_back(i);
    else if (comes_before(cut.request.work, steps[i]))
      cut.before.push_back(i);
  if (cut.steps.empty() && cut.request.work.kind == BenchWorkKind::turn) take_last_cut(cut);
}

Infeasible not_prepared(const Problems& problems) {
  return {problems.front().what, {problems.front().expected}};
}

// The sizes that the shop has instead.
Infeasible no_tool(const BenchCut& cut) {
  const BenchWork& work = cut.request.work;
  const ToolKind kind = work.kind == BenchWorkKind::ream ? ToolKind::ream : ToolKind::drill;
  Messages sizes;
  if (work.kind == BenchWorkKind::drill || work.kind == BenchWorkKind::ream)
    for (const Length size : sizes_near(cut.shop, cut.quote.route.machine, kind, work.to))
      sizes.push_back({"bench.try-size", {{"size", size}}});
  return {{"bench.no-tool-does-it", {{"work", work.text}}}, sizes};
}

// What does not pass the spindle is parted off in the jaws, not as a bar.
void hold_in_chuck(const BenchRequest& request, const Shop& shop, Route& route) {
  const Machine* machine = shop.machine(route.machine.name);
  if (machine == nullptr || request.work.kind != BenchWorkKind::part_off ||
      request.work.from <= machine->spindle_bore)
    return;
  for (Operation& o : route.operations) {
    o.from_bar = o.collet = false;
    o.holder = Holder::chuck;
  }
}

Planned<BenchCut> planned(const BenchRequest& request, const Shop& shop) {
  BenchCut cut;
  cut.request = request;
  cut.shop = bench_shop(request, shop);
  const auto job = prepare(bench_part(request, shop), cut.shop);
  if (!job) return not_prepared(job.problems());
  PlanRequest plan;
  plan.machine = request.machine;
  plan.method = request.method;
  plan.support = request.support;
  auto route = plan_route(*job, cut.shop, plan);
  if (!route) return route.infeasible();
  hold_in_chuck(request, shop, *route);
  if (route->operations.size() != 1) return Infeasible{"bench.not-in-one", {}};
  cut.quote = make_quote(*route, cut.shop);
  find_steps(cut);
  if (cut.steps.empty()) return no_tool(cut);
  return cut;
}

// The same on the same machine, by other means.
std::optional<BenchOtherTime> other_time(const BenchCut& cut, const Shop& shop, BenchOther other) {
  BenchRequest request = cut.request;
  request.machine = cut.quote.route.machine.name;
  request.tool.clear();
  if (other == BenchOther::two_finish_cuts)
    request.method = MethodKind::two_finish_cuts;
  else
    request.tool = other == BenchOther::carbide ? carbide_word : high_speed_steel_word;
  const auto same = planned(request, shop);
  if (!same) return std::nullopt;
  const Step& step = same->step(same->steps.front());
  if (other != BenchOther::two_finish_cuts && step.grade == cut.step(cut.steps.front()).grade)
    return std::nullopt;
  return BenchOtherTime{other, same->minutes()};
}

void add_others(BenchCut& cut, const Shop& shop) {
  for (const BenchOther other :
       {BenchOther::high_speed_steel, BenchOther::carbide, BenchOther::two_finish_cuts}) {
    if (other == BenchOther::two_finish_cuts && cut.steps.size() < 2) continue;
    if (const auto found = other_time(cut, shop, other)) cut.others.push_back(*found);
  }
}

}  // namespace

const char* name_of(BenchOther other) {
  static constexpr std::array names{"high-speed-steel", "carbide", "two-finish-cuts"};
  return names[static_cast<std::size_t>(other)];
}

Time BenchCut::minutes() const {
  Time sum(0.0);
  for (const std::size_t i : steps) sum += time(i).machine;
  return sum;
}

Planned<BenchCut> bench_cut(const BenchRequest& request, const Shop& shop) {
  auto cut = planned(request, shop);
  if (!cut) return cut;
  add_others(*cut, shop);
  if (request.at) cut->at = bench_at(*cut, *request.at);
  return cut;
}

BenchTask bench_task(const BenchCut& cut, const Step& step) {
  const Route& route = cut.quote.route;
  const Tool* tool = cut.shop.tool(step.tool);
  const bool across = !step.segments.empty() && step.segments.front().motion == Motion::across;
  const Length approach = across ? step.segments.front().approach : Length(0.0);
  return {cut.shop,
          route.job.material,
          route.machine,
          *tool,
          step.kind,
          step.segments.front().large_diameter - 2.0 * approach,
          step.kind == StepKind::drill || step.kind == StepKind::ream ? cut.request.work.length
                                                                      : step.used.depth,
          cut.request.ra,
          step.used.feed};
}

}  // namespace turnwright
