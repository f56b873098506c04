// SPDX-License-Identifier: MIT
#include "view/sheet_view.hpp"

#include <algorithm>
#include <cmath>

#include "formatting.hpp"
#include "turnwright/route/fitted_taper.hpp"
#include "view/labels.hpp"
#include "view/quote_view.hpp"
#include "view/tool_list.hpp"

namespace turnwright {
namespace {

constexpr double range_from = 1.02;  // of the slowest speed, from here on a range is shown

std::string spindle_text(const SpindleRange& range, const Words& words) {
  const std::string low = spindle_number(range.slowest, words, 3);
  if (range.fastest < range.slowest * range_from) return low;
  return low + "–" + spindle_number(range.fastest, words, 3);
}

std::string signed_length(Length l, const Words& words) {
  return (l.si > 0 ? "+" : "") + length_number(l, words, 3);
}

std::string deviations_text(const Deviations& d, const Words& words) {
  if (d.upper.si == -d.lower.si) return "±" + length_number(d.upper, words, 3);
  return signed_length(d.upper, words) + "/" + signed_length(d.lower, words);
}

// What is left for grinding has limits of its own; a thread is gauged by its class.
std::string limits_of(const Surface& surface, const Element& element, const Shop& shop,
                      const Words& words) {
  if (element.kind == ElementKind::thread) return "";
  if (is_fitted_taper(element)) return words("sheet.taper-gauge");
  const std::string about = "±" + length_number(surface.tolerance / 2.0, words, 3);
  if (element.leave.si > 0) return length_number(surface.diameter(), words) + " " + about;
  const Size& size = element.size;
  if (!size.letters.empty()) {
    const auto fit = shop.standards.fit(size.letters, size.grade, size.nominal);
    return fit ? deviations_text(*fit, words) : "";
  }
  if (size.toleranced) return deviations_text({size.upper, size.lower}, words);
  return surface.tolerance.si > 0 ? about : "";
}

Message gauged_message(const Surface& surface, bool by_gauge, const Shop& shop) {
  const double share =
      surface.gauge_share >= 0 ? surface.gauge_share : shop.gauging_share(surface.grade);
  if (share <= 0) return {};
  if (share >= 1) return "sheet.every-piece";
  return {surface.toleranced || by_gauge ? "sheet.one-in" : "sheet.spot-one-in",
          {{"pieces", static_cast<int>(std::round(1 / share))}}};
}

// Roughing, finishing and facing speak for themselves.
bool has_a_word(const Step& step) {
  return !step.given && step.kind != StepKind::rough && step.kind != StepKind::finish &&
         step.kind != StepKind::face;
}

class SheetMaker {
 public:
  SheetMaker(const Route& route, const Shop& shop, const Words& words)
      : route_(route), shop_(shop), words_(words), list_(route) {}

  const ToolList& list() const { return list_; }
  SheetOperation operation(const Operation& operation, const OperationTime& time) const;

 private:
  std::vector<SheetTool> tools(const Operation& operation) const;
  SheetStep step(const Operation& operation, const Step& step, const StepTime& time) const;
  std::vector<SheetSize> sizes(const Step& step) const;
  bool length_by_length(const Operation& operation) const;
  Messages clamping(const Operation& operation) const;
  Messages cautions(const Operation& operation, const OperationTime& time) const;

  const Route& route_;
  const Shop& shop_;
  const Words& words_;
  ToolList list_;
};

std::vector<SheetSize> SheetMaker::sizes(const Step& step) const {
  std::vector<SheetSize> list;
  for (const std::size_t n : step.gauged) {
    const Surface& surface = route_.job.surfaces[n];
    const Element& element = route_.job.element_of(surface);
    SheetSize size{
        surface.name, limits_of(surface, element, shop_, words_),
        gauged_message(surface, element.kind == ElementKind::thread || is_fitted_taper(element),
                       shop_)};
    const auto alike = std::find_if(list.begin(), list.end(), [&](const SheetSize& other) {
      return other.size == size.size && other.limits == size.limits && other.gauged == size.gauged;
    });
    if (alike != list.end())
      ++alike->count;
    else
      list.push_back(std::move(size));
  }
  return list;
}

std::string name_of(const LoadedTool& loaded, const Words& words) {
  if (loaded.size.si <= 0) return loaded.tool;
  return words(
      {"sheet.sized-tool", {{"tool", loaded.tool}, {"size", measure(loaded.size, unit::mm)}}});
}

// In the order of their stations.
std::vector<SheetTool> SheetMaker::tools(const Operation& operation) const {
  std::vector<LoadedTool> loaded = tools_of(operation);
  std::sort(loaded.begin(), loaded.end(), [&](const LoadedTool& a, const LoadedTool& b) {
    return list_.place_of(a) < list_.place_of(b);
  });
  std::vector<SheetTool> tools;
  for (const LoadedTool& of : loaded) {
    const Tool* tool = shop_.tool(of.tool);
    tools.push_back({list_.station(of), name_of(of, words_), tool == nullptr ? "" : tool->insert,
                     list_.is_mounted(of)});
  }
  return tools;
}

SheetStep SheetMaker::step(const Operation& operation, const Step& s, const StepTime& time) const {
  SheetStep view;
  view.label = step_label(operation, s);
  view.work = words_(word_of(s.kind));
  view.station = s.given ? "" : list_.station(loaded_tool(s));
  view.minutes = minutes_text(time.machine, words_);
  if (has_a_word(s)) view.why = s.why;
  view.sizes = sizes(s);
  if (s.segments.empty()) return view;
  view.surface_speed = speed_text(speed_range(time.segments), words_);
  view.spindle = spindle_text(spindle_range(time.segments), words_);
  view.feed = feed_number(s.used.feed, words_);
  view.depth = length_number(s.used.depth, words_, 3);
  view.passes = words_.whole(static_cast<std::int64_t>(passes_of(s).size()));
  return view;
}

// Longer than stands by itself, and no centre: a length is drawn out when the one before is done.
bool SheetMaker::length_by_length(const Operation& o) const {
  return o.from_bar && o.support == Support::chuck && o.free_ratio > shop_.practice.centre_ratio;
}

Message grip_of(const Operation& o) {
  if (o.mandrel) return {"sheet.in-the-bore", {{"bore", measure(o.grip_diameter, unit::mm)}}};
  return {o.jaws == Jaws::soft     ? "sheet.grip-soft-jaws"
          : o.jaws == Jaws::padded ? "sheet.grip-padded-jaws"
                                   : "sheet.grip",
          {{"from", measure(-o.grip_to, unit::mm)}, {"to", measure(-o.grip_from, unit::mm)}}};
}

Message cut_from(const Operation& o) {
  if (o.check_all) return o.from_left ? "sheet.cut-left-check-all" : "sheet.cut-right-check-all";
  return o.from_left ? "sheet.cut-left" : "sheet.cut-right";
}

Messages SheetMaker::clamping(const Operation& o) const {
  Messages list;
  if (o.mandrel || o.support != Support::between_centres) list.push_back(grip_of(o));
  if (length_by_length(o))
    list.push_back({"sheet.length-by-length", {{"out", measure(o.stick_out, unit::mm)}}});
  if (o.pieces > 1) list.push_back({"sheet.pieces-of-a-length", {{"n", o.pieces}}});
  list.push_back(cut_from(o));
  return list;
}

// Of bar that is drawn out in lengths never the whole stands out.
Messages SheetMaker::cautions(const Operation& o, const OperationTime& time) const {
  if (!length_by_length(o)) return operation_cautions(route_.job, o, time);
  Operation as_drawn_out = o;
  as_drawn_out.free_ratio = 0;
  return operation_cautions(route_.job, as_drawn_out, time);
}

SheetOperation SheetMaker::operation(const Operation& o, const OperationTime& time) const {
  SheetOperation view;
  view.operation = &o;
  view.clamping = clamping(o);
  view.tools = tools(o);
  for (std::size_t k = 0; k < o.steps.size(); ++k)
    view.steps.push_back(step(o, o.steps[k], time.steps[k]));
  view.cautions = cautions(o, time);
  view.cycle = time.machine;
  view.setup = time.setup;
  return view;
}

}  // namespace

SheetView sheet_view(const Route& route, const RouteTimes& times, const Shop& shop,
                     const Words& words) {
  const SheetMaker maker(route, shop, words);
  SheetView view;
  for (std::size_t i = 0; i < route.operations.size(); ++i)
    view.operations.push_back(maker.operation(route.operations[i], times.operations[i]));
  const int stations = route.machine.stations;
  if (stations > 0 && static_cast<int>(maker.list().size()) > stations)
    view.too_many_tools = {"sheet.too-many-tools",
                           {{"tools", maker.list().size()}, {"stations", stations}}};
  // Two surfaces of the same text have the same to be minded.
  for (const Message& caution : route.cautions) add_once(view.cautions, caution);
  return view;
}

std::string size_line(const SheetSize& size, const Words& words) {
  std::string text = words(size.size);
  if (size.count > 1) text = words({"sheet.so-many", {{"n", size.count}, {"size", size.size}}});
  if (!size.limits.empty()) text += "  " + size.limits;
  if (!size.gauged.empty()) text += ", " + words(size.gauged);
  return text;
}

}  // namespace turnwright
