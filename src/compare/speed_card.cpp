// SPDX-License-Identifier: MIT
#include "turnwright/compare/speed_card.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "turnwright/route/blade.hpp"

namespace turnwright {
namespace {

constexpr std::size_t most_materials = 4;  // that a page takes
constexpr std::array metric_series{10.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0};
constexpr std::array inch_series{0.375, 0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0};
constexpr std::array metric_drills{4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0};
constexpr std::array inch_drills{0.125, 0.1875, 0.25, 0.3125, 0.375, 0.4375, 0.5, 0.625, 0.75};
constexpr Length card_lead = 1.5 * unit::mm;  // the pitch that threading is shown for
constexpr double drilled_deep = 2;            // diameters
constexpr double half = 0.5;                  // of the tool's largest depth, when roughing

template <class Series>
std::vector<Length> series_of(const Series& series, const UnitOf<Dim{1}>& in_unit) {
  std::vector<Length> lengths;
  for (const double d : series) lengths.push_back(d * in_unit);
  return lengths;
}

// What is on the shop's stock list: bought at a price that it confirmed. A shop without one: the
// first of each group of the cutting table.
std::vector<const Material*> stock_list(const Shop& shop) {
  std::vector<const Material*> listed;
  for (const Material& m : shop.materials)
    if (m.price_confirmed) listed.push_back(&m);
  std::set<std::string> groups;
  if (listed.empty())
    for (const Material& m : shop.materials)
      if (groups.insert(m.group).second) listed.push_back(&m);
  return listed;
}

std::vector<const Material*> materials_of(const CardRequest& request, const Shop& shop) {
  if (request.materials.empty()) {
    const auto listed = stock_list(shop);
    const std::size_t shown = std::min(listed.size(), most_materials);
    return {listed.begin(), listed.begin() + static_cast<std::ptrdiff_t>(shown)};
  }
  std::vector<const Material*> named;
  for (const std::string& name : request.materials)
    if (const Material* m = shop.material(name)) named.push_back(m);
  return named;
}

struct CardKind {
  CardWork work;
  ToolKind tool;
  StepKind step;
};
constexpr std::array card_kinds{CardKind{CardWork::roughing, ToolKind::rough, StepKind::rough},
                                CardKind{CardWork::finishing, ToolKind::finish, StepKind::finish},
                                CardKind{CardWork::facing, ToolKind::rough, StepKind::face},
                                CardKind{CardWork::parting, ToolKind::part_off, StepKind::part_off},
                                CardKind{CardWork::threading, ToolKind::thread, StepKind::thread},
                                CardKind{CardWork::drilling, ToolKind::drill, StepKind::drill}};

// The first tool of each tool material, what is mounted before the rest; of blades each, where the
// card has a speed for each diameter.
std::vector<const Tool*> tools_of(const Shop& shop, const Machine& machine, ToolKind kind,
                                  bool inch) {
  std::vector<const Tool*> tools;
  const auto add = [&](const Tool& t) {
    const bool goes =
        t.for_lathe == ToolFor::both || (t.for_lathe == ToolFor::manual) == machine.manual();
    const bool known = std::any_of(tools.begin(), tools.end(),
                                   [&](const Tool* other) { return other->grade == t.grade; });
    const bool twice = std::find(tools.begin(), tools.end(), &t) != tools.end();
    const bool each = kind == ToolKind::part_off && !machine.ladder.empty();
    const bool wanted = each ? !twice : !known;
    if (t.kind == kind && goes && wanted && (t.inch_set == inch || kind != ToolKind::drill))
      tools.push_back(&t);
  };
  if (const Tool* usual = usual_tool(shop, machine, kind)) add(*usual);
  for (const Tool& t : shop.tools) add(t);
  return tools;
}

Length depth_of(const CardKind& kind, const Tool& tool, const Shop& shop, const Machine& machine) {
  switch (kind.work) {
    case CardWork::roughing:
      return half * tool.largest_depth;
    case CardWork::finishing:
      return min(shop.practice.finish_allowance(machine, shop.practice.slight_work),
                 tool.largest_depth);
    case CardWork::facing:
      return min(shop.practice.face_depth, tool.largest_depth);
    default:
      return tool.width;
  }
}

int range_of(const Machine& machine, Frequency n) {
  const auto& ranges = machine.lever_ranges;
  for (std::size_t i = 0; i < ranges.size(); ++i)
    if (n <= ranges[i].up_to * (1 + whole_slack)) return static_cast<int>(i);
  return -1;
}

CardCell cell_of(const Machine& machine, const BenchConditions& k, Length diameter, double band) {
  CardCell cell;
  cell.diameter = diameter;
  cell.spindle = k.spindle;
  cell.exact = k.exact;
  cell.deviation = (k.spindle / k.exact).si - 1;
  const bool ends = k.exact > machine.fastest || k.exact < machine.slowest;
  cell.off_band = !machine.ladder.empty() && !ends && std::abs(cell.deviation) > band + whole_slack;
  cell.range = range_of(machine, k.spindle);
  return cell;
}

/// One material, kind of work and tool over the diameters.
class RowMaker {
 public:
  RowMaker(const Shop& shop, const Machine& machine, const Material& material)
      : shop_(shop), machine_(machine), material_(material) {}

  std::optional<CardRow> row(const CardKind& kind, const Tool& tool,
                             const std::vector<Length>& diameters) const {
    CardRow row;
    row.material = &material_;
    row.work = kind.work;
    row.tool = &tool;
    row.depth = depth_of(kind, tool, shop_, machine_);
    for (const Length d : diameters) add_cell(row, kind, d);
    if (row.surface_speed.si <= 0) return std::nullopt;
    return row;
  }

 private:
  void add_cell(CardRow& row, const CardKind& kind, Length diameter) const {
    const bool drills = kind.work == CardWork::drilling;
    const Tool& tool = *row.tool;
    const bool parts = kind.work == CardWork::parting;
    const bool has_it =
        (!drills || (tool.has_size(diameter) && tool.deepest >= drilled_deep)) &&
        (!parts || machine_.ladder.empty() || parting_blade(shop_, machine_, diameter) == &tool);
    CardCell none;
    none.diameter = diameter;
    none.possible = false;
    if (!has_it || diameter > machine_.largest_diameter) return row.cells.push_back(none);
    const BenchConditions k =
        bench_conditions({shop_, material_, machine_, tool, kind.step, diameter,
                          drills ? drilled_deep * diameter : row.depth, Length(0.0), card_lead});
    if (k.used.surface_speed.si <= 0) return row.cells.push_back(none);
    row.cells.push_back(cell_of(machine_, k, diameter, shop_.practice.speed_band));
    note(row, k);
  }
  // What holds for all diameters: the fastest surface speed, the range of feeds.
  void note(CardRow& row, const BenchConditions& k) const {
    row.surface_speed = max(row.surface_speed, k.used.surface_speed);
    row.feed_from = row.feed_from.si > 0 ? min(row.feed_from, k.used.feed) : k.used.feed;
    row.feed_to = max(row.feed_to, k.used.feed);
    if (k.table.row == nullptr) return;
    row.source = shop_.source_text(k.table.row->source);
    row.basis = k.table.row->source.basis;
  }

  const Shop& shop_;
  const Machine& machine_;
  const Material& material_;
};

void add_rows(SpeedCard& card, const Shop& shop, const Material& material) {
  const RowMaker maker(shop, card.machine, material);
  for (const CardKind& kind : card_kinds) {
    const bool drills = kind.work == CardWork::drilling;
    for (const Tool* tool : tools_of(shop, card.machine, kind.tool, card.request.inch))
      if (auto row = maker.row(kind, *tool, drills ? card.drills : card.diameters))
        card.rows.push_back(std::move(*row));
  }
}

}  // namespace

const char* name_of(CardWork work) {
  static constexpr std::array names{"roughing", "finishing", "facing",
                                    "parting",  "drilling",  "threading"};
  return names[static_cast<std::size_t>(work)];
}

SpeedCard speed_card(const CardRequest& request, const Shop& shop) {
  SpeedCard card;
  card.request = request;
  card.pitch = card_lead;
  card.machine = *shop.machine(request.machine);
  card.diameters = !request.diameters.empty() ? request.diameters
                   : request.inch             ? series_of(inch_series, unit::inch)
                                              : series_of(metric_series, unit::mm);
  card.drills =
      request.inch ? series_of(inch_drills, unit::inch) : series_of(metric_drills, unit::mm);
  card.band = shop.practice.speed_band;
  for (const Material* m : materials_of(request, shop)) add_rows(card, shop, *m);
  if (request.materials.empty())
    card.left_out = stock_list(shop).size() - materials_of(request, shop).size();
  return card;
}

std::vector<LadderHole> ladder_holes(const Shop& shop) {
  std::vector<LadderHole> holes;
  for (const Machine& machine : shop.machines) {
    if (machine.ladder.empty()) continue;
    LadderHole hole{&machine, 0, 0, 0, {}, {}};
    for (const CardRow& row : speed_card({machine.name, {}, {}, false, {}, {}}, shop).rows)
      if (row.work == CardWork::roughing) hole.count(row);
    if (hole.off > 0) holes.push_back(std::move(hole));
  }
  return holes;
}

void LadderHole::count(const CardRow& row) {
  for (const CardCell& cell : row.cells) {
    if (!cell.possible) continue;
    ++cuts;
    if (!cell.off_band) continue;
    ++off;
    if (std::abs(cell.deviation) <= std::abs(widest)) continue;
    widest = cell.deviation;
    at = cell.diameter;
    material = row.material->name;
  }
}

}  // namespace turnwright
