// SPDX-License-Identifier: MIT
// The words of one cut as a part of one element, and the shop as it is asked for.
#include <algorithm>
#include <cctype>

#include "turnwright/compare/bench_cut.hpp"

namespace turnwright {
namespace {

// Nothing here asks for a finishing cut; a roughness does.
constexpr Length coarse = 1.0 * unit::mm;
constexpr double sleeve = 2;                 // outside of a hole's work over the hole
constexpr double knurl_skin = 2e-3;          // on diameter, for the cut before a knurl
constexpr Length to_spare = 1.0 * unit::um;  // so that rounding leaves the jaws enough
constexpr double groove_in = 2;              // widths from the end

std::string lower(std::string_view text) {
  std::string small;
  for (const unsigned char c : text) small += static_cast<char>(std::tolower(c));
  return small;
}

Element element(const BenchWork& work, Length diameter, Length from, Length length) {
  Element e;
  e.text = work.text;
  e.size.nominal = diameter;
  e.from = from;
  e.to = from + length;
  return e;
}
Element as_drawn(const BenchWork& work, Length diameter, Length from, Length length) {
  Element e = element(work, diameter, from, length);
  e.as_drawn = true;
  return e;
}

Length widest_clearance(const Shop& shop) {
  Length widest(0.0);
  for (const Machine& m : shop.machines) widest = max(widest, m.chuck.jaw_clearance);
  return widest;
}

// What is held and what keeps the tool clear of the jaws.
Length held_length(const BenchRequest& r, const Shop& shop, Length diameter, Length worked) {
  const Length free = max(r.stick_out - worked, widest_clearance(shop));
  return free + full_grip(shop.practice, diameter) + to_spare;
}

void hold(Part& part, const BenchRequest& r, const Shop& shop, Length diameter, Length worked) {
  const Length length = held_length(r, shop, diameter, worked);
  part.outside.push_back(as_drawn(r.work, diameter, worked, length));
  part.overall = worked + length;
  part.stock.form = StockForm::round;
  part.stock.size = diameter;
}

// One drawn body over the whole length, for what is worked inside or at its end.
void hold_whole(Part& part, const BenchRequest& r, const Shop& shop, Length diameter,
                Length worked) {
  hold(part, r, shop, diameter, worked);
  part.outside.back().from = Length(0.0);
}

void open_through(Part& part, const BenchWork& work, Length hole, Length from) {
  part.stock.form = StockForm::tube;
  part.stock.wall = (part.stock.size - hole) / 2.0;
  Element through = element(work, hole, from, part.overall - from);
  through.through = true;
  part.bore_right.push_back(through);
}

void turned(Part& part, const BenchRequest& r, const Shop& shop) {
  part.outside = {element(r.work, r.work.to, Length(0.0), r.work.length)};
  hold(part, r, shop, r.work.from, r.work.length);
}
void faced(Part& part, const BenchRequest& r, const Shop& shop) {
  hold_whole(part, r, shop, r.work.from, Length(0.0));
  part.right_face.machined = true;
  if (r.work.length.si > 0) part.stock.facing = r.work.length;
  if (r.ra.si > 0) part.right_face.ra = r.ra;
  if (r.work.to.si > 0) open_through(part, r.work, r.work.to, Length(0.0));
}
void hole(Part& part, const BenchRequest& r, const Shop& shop) {
  const BenchWork& work = r.work;
  hold_whole(part, r, shop, sleeve * work.to, work.length + work.to);
  Element e = element(work, work.to, Length(0.0), work.length);
  if (work.kind == BenchWorkKind::ream) {
    e.size.letters = "H";
    e.size.grade = 7;
  }
  if (work.kind == BenchWorkKind::tap) {
    e.kind = ElementKind::thread;
    e.thread = work.thread;
  }
  part.bore_right = {e};
}
void bored(Part& part, const BenchRequest& r, const Shop& shop) {
  hold_whole(part, r, shop, sleeve * r.work.to, r.work.length);
  part.bore_right = {element(r.work, r.work.to, Length(0.0), r.work.length)};
  open_through(part, r.work, r.work.from, r.work.length);
}
void grooved(Part& part, const BenchRequest& r, const Shop& shop) {
  const BenchWork& work = r.work;
  const Length at = groove_in * work.width;
  hold_whole(part, r, shop, work.from, at + work.width);
  Groove groove;
  groove.width = work.width;
  groove.bottom = work.to;
  groove.from = at;
  part.outside.back().grooves = {groove};
}
void parted(Part& part, const BenchRequest& r, const Shop& shop) {
  const Length length = full_grip(shop.practice, r.work.from);
  part.outside = {as_drawn(r.work, r.work.from, Length(0.0), length)};
  part.overall = length;
  part.stock.form = StockForm::round;
  part.stock.size = r.work.from;
  part.stock.from_bar = true;
}
void threaded(Part& part, const BenchRequest& r, const Shop& shop) {
  Element e = element(r.work, r.work.to, Length(0.0), r.work.length);
  e.kind = ElementKind::thread;
  e.thread = r.work.thread;
  part.outside = {e};
  hold(part, r, shop, r.work.from, r.work.length);
}
void knurled(Part& part, const BenchRequest& r, const Shop& shop) {
  Element e = element(r.work, r.work.to, Length(0.0), r.work.length);
  e.knurl = Knurl{r.work.knurl, r.work.pitch, {}};
  part.outside = {e};
  hold(part, r, shop, r.work.from + Length(knurl_skin), r.work.length);
}

void add_work(Part& part, const BenchRequest& r, const Shop& shop) {
  switch (r.work.kind) {
    case BenchWorkKind::turn:
      return turned(part, r, shop);
    case BenchWorkKind::face:
      return faced(part, r, shop);
    case BenchWorkKind::drill:
    case BenchWorkKind::ream:
    case BenchWorkKind::tap:
      return hole(part, r, shop);
    case BenchWorkKind::bore:
      return bored(part, r, shop);
    case BenchWorkKind::groove:
      return grooved(part, r, shop);
    case BenchWorkKind::part_off:
      return parted(part, r, shop);
    case BenchWorkKind::thread:
      return threaded(part, r, shop);
    case BenchWorkKind::knurl:
      return knurled(part, r, shop);
  }
}

// ---- the shop

// The grades that a word means: its own, or all that have it in their name ("carbide").
std::vector<std::string> grades_named(const Shop& shop, const std::string& word) {
  std::vector<std::string> named;
  if (word.empty()) return named;
  for (const Grade& g : shop.grades)
    if (lower(g.name).find(lower(word)) != std::string::npos) named.push_back(g.name);
  return named;
}

bool is_in(const std::vector<std::string>& list, const std::string& name) {
  return std::find(list.begin(), list.end(), name) != list.end();
}

// Of each kind of tool only the wanted ones stay, where there are any.
template <class Wanted>
void keep_tools(Shop& shop, Wanted wanted) {
  std::vector<ToolKind> kinds;
  for (const Tool& t : shop.tools)
    if (wanted(t)) kinds.push_back(t.kind);
  std::erase_if(shop.tools, [&](const Tool& t) {
    return !wanted(t) && std::find(kinds.begin(), kinds.end(), t.kind) != kinds.end();
  });
}

// A finishing tool asked for turns alone, unless a roughness leaves it the last cut.
void take_tool(Shop& shop, const BenchRequest& r) {
  if (r.tool.empty()) return;
  if (const Tool* named = shop.tool(r.tool)) {
    const bool alone = named->kind == ToolKind::finish && r.ra.si <= 0;
    const std::string name = named->name;
    if (alone)
      for (Tool& t : shop.tools)
        if (t.name == name) t.kind = ToolKind::rough;
    keep_tools(shop, [&](const Tool& t) { return t.name == name; });
    return;
  }
  const auto grades = grades_named(shop, r.tool);
  keep_tools(shop, [&](const Tool& t) { return is_in(grades, t.grade); });
}

// No machine keeps a tool mounted that is not there.
void forget_tools(Shop& shop) {
  for (Machine& m : shop.machines)
    std::erase_if(m.mounted_tools,
                  [&](const std::string& name) { return shop.tool(name) == nullptr; });
}

TextFault unknown(const char* id, const std::string& name, std::vector<std::string> names) {
  std::string near = nearest(name, names);
  if (names.size() > 12) names.resize(12);
  return {{id, {{"name", name}}}, one_of(names), std::move(near)};
}

// Every speed of the table by this factor.
void slow_down(Shop& shop, double factor) {
  for (StepFactor& f : shop.step_factors) {
    f.speed *= factor;
    for (auto& [grade, speed] : f.by_grade) speed *= factor;
  }
  // Rows for one kind of step take no factor of it.
  for (CuttingGroup& group : shop.cutting_groups)
    for (CuttingRow& row : group.rows)
      if (!row.steps.empty())
        for (Speed& speed : row.speed) speed = factor * speed;
}

}  // namespace

std::optional<TextFault> unknown_in(const BenchRequest& r, const Shop& shop) {
  if (shop.material(r.material) == nullptr)
    return unknown("bench.unknown-material", r.material, shop.material_names(r.material));
  if (!r.tool.empty() && shop.tool(r.tool) == nullptr && grades_named(shop, r.tool).empty()) {
    std::vector<std::string> names;
    for (const Grade& g : shop.grades) names.push_back(g.name);
    for (const Tool& t : shop.tools) names.push_back(t.name);
    return unknown("bench.unknown-tool", r.tool, std::move(names));
  }
  if (!r.condition.empty() && shop.condition(r.condition) == nullptr) {
    std::vector<std::string> names;
    for (const StockCondition& c : shop.conditions) names.push_back(c.name);
    return unknown("bench.unknown-condition", r.condition, std::move(names));
  }
  return std::nullopt;
}

Part bench_part(const BenchRequest& request, const Shop& shop) {
  Part part;
  part.number = request.work.text;
  part.inch = request.work.inch;
  part.material = request.material;
  part.drawing.general.plus_minus = coarse;
  part.stock.condition = request.condition;
  part.stock.customers = true;  // nobody asks for its price
  part.right_face.machined = part.left_face.machined = false;
  add_work(part, request, shop);
  auto& own = part.bore_right.empty() ? part.outside : part.bore_right;
  if (request.ra.si > 0) own.front().ra = request.ra;
  return part;
}

Shop bench_shop(const BenchRequest& request, const Shop& shop) {
  Shop own = shop;
  take_tool(own, request);
  forget_tools(own);
  for (Machine& m : own.machines) m.flood = request.flood.value_or(m.flood);
  if (request.interrupted) slow_down(own, own.factor(FactorId::interrupted_corners));
  // Held where it stands out as far as asked, not beside the cut.
  if (request.stick_out.si > 0)
    for (Machine& m : own.machines) m.spindle_bore = m.chuck.jaw_length = Length(0.0);
  // A piece that is parted off at the bench is held in the chuck; it need not pass the spindle.
  if (request.work.kind == BenchWorkKind::part_off)
    for (Machine& m : own.machines) m.spindle_bore = max(m.spindle_bore, request.work.from);
  return own;
}

}  // namespace turnwright
