// SPDX-License-Identifier: MIT
// Tables of standards.
#include <algorithm>

#include "record.hpp"

namespace turnwright {
namespace {

constexpr int coarsest_grade = 18;  // IT, ISO 286-1

}  // namespace

FitRow read_fit(MapReader& map) {
  FitRow row;
  const std::string name = map.text_or("name", "");
  row.hole = name.starts_with("hole");
  const std::size_t blank = name.find(' ');
  row.letters = map.text_or("letters", blank == std::string::npos ? name : name.substr(blank + 1));
  const auto side = map.one_of("side", {"upper", "lower", "centred"});
  row.side = side == "lower"     ? FitRow::Side::lower
             : side == "centred" ? FitRow::Side::centred
                                 : FitRow::Side::upper;
  if (const auto grades = map.text("grades")) {
    const auto dash = grades->find('-');
    const auto low = read_whole(grades->substr(0, dash), 1, coarsest_grade);
    const auto high =
        dash == std::string::npos ? low : read_whole(grades->substr(dash + 1), 1, coarsest_grade);
    if (low && high && *low <= *high) {
      row.finest = *low;
      row.coarsest = *high;
    } else {
      map.notes().add(*map.find("grades"), found(*map.find("grades")), "expected.grades");
    }
  }
  row.over = map.quantity_or("over", unit::mm, Length(0.0));
  row.up_to = quantities(map, "up to", unit::mm);
  row.deviation = quantities(map, "deviation", unit::um);
  same_length(map, row.up_to, row.deviation, "up to, deviation");
  row.source = source_of(map);
  return row;
}

GeneralTolerance read_general(MapReader& map) {
  GeneralTolerance row;
  row.name = map.text_or("name", "");
  row.up_to = quantities(map, "up to", unit::mm);
  row.plus_minus = quantities(map, "plus minus", unit::mm);
  same_length(map, row.up_to, row.plus_minus, "up to, plus minus");
  if (row.plus_minus.empty()) map.notes().add(map.node().at, 1, "shop.no-tolerances");
  row.source = source_of(map);
  return row;
}

ReliefSize read_relief(MapReader& map) {
  ReliefSize r;
  map.text("name");
  r.up_to = map.needed("up to", unit::mm);
  r.radius = map.needed("radius", unit::mm);
  r.depth = map.needed("depth", unit::mm);
  r.width = map.needed("width", unit::mm);
  r.face_depth = map.needed("face depth", unit::mm);
  r.face_height = map.needed("face height", unit::mm);
  r.source = source_of(map);
  return r;
}

CentreHole read_centre_hole(MapReader& map) {
  CentreHole c;
  map.text("name");
  c.shaft_up_to = map.needed("shaft up to", unit::mm);
  c.pilot = map.needed("pilot", unit::mm);
  c.countersink = map.needed("countersink", unit::mm);
  c.protected_countersink = map.needed("protected", unit::mm);
  c.source = source_of(map);
  return c;
}

void read_circlips(MapReader& map, Standards& standards) {
  const bool inside = map.text_or("name", "") == "inside";
  const auto diameter = quantities(map, inside ? "bore" : "shaft", unit::mm),
             width = quantities(map, "width", unit::mm),
             bottom = quantities(map, "bottom", unit::mm);
  same_length(map, diameter, width, "diameter, width");
  same_length(map, diameter, bottom, "diameter, bottom");
  auto& rows = inside ? standards.inside_circlips : standards.circlips;
  rows.clear();
  for (std::size_t i = 0; i < std::min({diameter.size(), width.size(), bottom.size()}); ++i)
    rows.push_back({diameter[i], width[i], bottom[i]});
  standards.circlip_source = source_of(map);
}

ThreadRunout read_runout(MapReader& map) {
  ThreadRunout r;
  map.text("name");
  r.pitch = map.needed("pitch", unit::mm);
  r.width = map.needed("width", unit::mm);
  r.short_width = map.needed("short width", unit::mm);
  r.inside_width = map.needed("inside width", unit::mm);
  r.below = map.needed("below", unit::mm);
  r.above = map.needed("above", unit::mm);
  r.blind = map.needed("blind", unit::mm);
  r.source = source_of(map);
  return r;
}

ThreadPasses read_thread_passes(MapReader& map) {
  ThreadPasses t;
  map.text("name");
  t.pitch = quantities(map, "pitch", unit::mm);
  t.passes = ratios(map, "passes");
  same_length(map, t.pitch, t.passes, "pitch, passes");
  t.largest_infeed = map.needed("largest infeed", unit::mm);
  t.last_infeed = map.needed("last infeed", unit::mm);
  t.first_weight = map.needed("first weight", unit::ratio).si;
  t.inside_factor = map.needed("inside factor", unit::ratio).si;
  t.hss_factor = map.needed("hss factor", unit::ratio).si;
  t.spring_manual = map.whole("spring passes manual", 0, 10).value_or(0);
  t.spring_cnc = map.whole("spring passes CNC", 0, 10).value_or(0);
  t.source = source_of(map);
  if (t.pitch.empty() || t.last_infeed.si <= 0 || t.largest_infeed < t.last_infeed ||
      t.first_weight <= 0 || t.inside_factor <= 0 || t.hss_factor <= 0)
    map.notes().add(map.node().at, 1, "shop.thread-passes", "expected.thread-passes");
  return t;
}

}  // namespace turnwright
