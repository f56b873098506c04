// SPDX-License-Identifier: MIT
// Setting up: machine, tools, clamping, program, and the pieces that prove it.
#include <algorithm>
#include <set>

#include "time_context.hpp"

namespace turnwright {
namespace {

class SetupElements {
 public:
  SetupElements(const TimeContext& c, std::vector<ElementTime>& list) : c_(c), list_(list) {}

  void row(ElementId id, SetupId row) { add(id, row, c_.setup_element(row)); }
  Time of(SetupId row) const { return c_.setup_element(row); }
  void rows(ElementId id, SetupId row, int count) {
    add(id, row, count * c_.setup_element(row), count);
  }
  // A time of its own that rests on a row.
  void add(ElementId id, SetupId row, Time time, int count = 0) {
    if (time.si > 0)
      list_.push_back({id, count, 1, time, time, false, c_.shop.setup_element(row).source.basis});
  }

 private:
  const TimeContext& c_;
  std::vector<ElementTime>& list_;
};

using Mounted = std::set<LoadedTool>;

int tools_to_load(const Operation& operation, Mounted& mounted) {
  int tools = 0;
  for (const Step& step : operation.steps)
    if (!step.given && mounted.count({step.tool, Length(0.0)}) == 0 &&
        mounted.insert(loaded_tool(step)).second)
      ++tools;
  return tools;
}

void holder(const Operation& operation, SetupElements& out) {
  if (operation.face_plate) return out.row(ElementId::setup_face_plate, SetupId::face_plate);
  if (operation.four_jaw) return out.row(ElementId::setup_four_jaw_chuck, SetupId::four_jaw_chuck);
  if (operation.collet) return out.row(ElementId::setup_collet, SetupId::collet);
  if (operation.support != Support::between_centres) out.row(ElementId::setup_jaws, SetupId::jaws);
}

void clamping(const Operation& operation, SetupElements& out) {
  holder(operation, out);
  const int rests = (operation.follow ? 1 : 0) + (operation.steady ? 1 : 0);
  out.add(ElementId::setup_rest, SetupId::steady, rests * out.of(SetupId::steady));
  if (operation.mandrel) out.row(ElementId::setup_mandrel, SetupId::mandrel);
  if (operation.jaws == Jaws::soft && !operation.four_jaw)
    out.row(ElementId::setup_soft_jaws_bored, SetupId::soft_jaws_bored);
  if (operation.support == Support::chuck_and_centre)
    out.row(ElementId::setup_tailstock, SetupId::tailstock);
  if (operation.support == Support::between_centres)
    out.row(ElementId::setup_between_centres, SetupId::between_centres);
}

// Sizes that are finished in an operation, those that `counted` names.
template <class Counted>
int sizes_finished(const TimeContext& c, const Operation& operation, Counted counted) {
  int sizes = 0;
  for (const Step& step : operation.steps)
    for (const std::size_t n : step.gauged) sizes += counted(c.surface(n)) ? 1 : 0;
  return sizes;
}

void program(const TimeContext& c, const Operation& operation, SetupElements& out) {
  if (c.route.job.part.repeat) return;
  if (&operation == &c.route.operations.front())
    out.row(ElementId::setup_program, SetupId::program);
  out.rows(ElementId::setup_program_features, SetupId::program_feature,
           sizes_finished(c, operation, [](const Surface&) { return true; }));
}

void first_off(const TimeContext& c, const Operation& operation, OperationTime& t,
               SetupElements& out) {
  if (c.manual()) return;  // in the trial cuts
  // A first piece runs at half speed: a cycle more. Proving a new program takes another where it
  // finishes a size; an end that is only faced and centred, or roughed, is seen in the first piece.
  const int sizes = sizes_finished(c, operation, [](const Surface& s) { return s.toleranced; });
  const bool proved = !c.route.job.part.repeat &&
                      sizes_finished(c, operation, [](const Surface&) { return true; }) > 0;
  t.first_off_cycles = proved ? 2 : 1;
  out.add(ElementId::setup_first_off_piece, SetupId::first_off_check, t.machine);
  t.first_time_cycles = proved ? 1 : 0;
  if (proved) out.add(ElementId::setup_proving, SetupId::program, t.machine);
  out.rows(ElementId::setup_first_off_check, SetupId::first_off_check, sizes);
}

// Of a V to the right and to the left, once for all that are alike.
int flanks(const TimeContext& c, const Operation& operation) {
  const auto& steps = operation.steps;
  return std::any_of(steps.begin(), steps.end(), [&](const Step& s) { return has_flanks(c, s); })
             ? 2
             : 0;
}

// What own records say beside the estimate. The pieces that prove it are running time, which has
// its own factor already.
void own_records(const TimeContext& c, OperationTime& t) {
  const double factor = c.shop.correction(c.machine().name, true);
  if (factor == 1) return;
  const Time more = (factor - 1) * (t.setup - t.first_off_cycles * t.machine);
  t.setup_elements.push_back(
      {ElementId::setup_own_records, 0, factor, more, more, false, Basis::own_records});
  t.setup += more;
  t.first_time_fixed = factor * t.first_time_fixed;
}

void set_up(const TimeContext& c, const Operation& operation, Mounted& mounted, OperationTime& t) {
  SetupElements out(c, t.setup_elements);
  if (&operation == &c.route.operations.front()) {
    out.row(ElementId::setup_machine, SetupId::machine);
    out.row(ElementId::setup_drawing, SetupId::drawing);
  } else {
    out.row(ElementId::setup_next_operation, SetupId::next_operation);
  }
  out.rows(ElementId::setup_tools, SetupId::tool_not_mounted, tools_to_load(operation, mounted));
  clamping(operation, out);
  out.rows(ElementId::setup_compound_slide, SetupId::compound_slide,
           sizes_finished(c, operation, [&](const Surface& s) {
             return c.route.job.element_of(s).kind == ElementKind::cone;
           }) + flanks(c, operation));
  if (operation.from_bar) out.row(ElementId::setup_bar_feeder, SetupId::bar_feeder);
  program(c, operation, out);
  first_off(c, operation, t, out);
  for (const ElementTime& e : t.setup_elements) {
    t.setup += e.machine;
    if (e.id == ElementId::setup_program || e.id == ElementId::setup_program_features)
      t.first_time_fixed += e.machine;
  }
  own_records(c, t);
  t.setup_fixed = t.setup - t.first_off_cycles * t.machine;
}

}  // namespace

void set_up(const TimeContext& c, std::vector<OperationTime>& times) {
  Mounted mounted;
  for (const std::string& tool : c.machine().mounted_tools) mounted.insert({tool, Length(0.0)});
  for (std::size_t i = 0; i < times.size(); ++i)
    set_up(c, c.route.operations[i], mounted, times[i]);
}

}  // namespace turnwright
