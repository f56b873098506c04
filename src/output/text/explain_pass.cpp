// SPDX-License-Identifier: MIT
// A pass: each stretch with its spindle speed and cutting time, and what moving adds.
#include "formatting.hpp"
#include "text/explain.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

const char* motion_id(Motion motion) {
  switch (motion) {
    case Motion::across:
      return "explain.across";
    case Motion::arc:
      return "explain.on-an-arc";
    default:
      return "explain.along";
  }
}

void spindle(TextWriter& out, const CutSegment& s) {
  if (s.constant_speed) {
    out.line({"explain.one-speed", {{"spindle", s.spindle}}});
    explain_figure(out, "surface-speed", {s.large_diameter.si, s.spindle.si});
  } else {
    out.line({"explain.surface-speed", {{"fastest", s.fastest}}});
    explain_figure(out, "spindle-speed", {s.surface_speed.si, s.large_diameter.si});
  }
}

void cutting(TextWriter& out, const CutSegment& s, const SegmentTime& t) {
  out.line({"explain.cutting-takes", {{"minutes", minutes_text(t.cutting, out.words(), 4)}}});
  if (s.motion == Motion::across && !s.constant_speed)
    explain_figure(out, "sloped-path-time",
                   {s.large_diameter.si, s.small_diameter.si, s.path().si, s.feed.si,
                    s.surface_speed.si, s.fastest.si});
  else if (s.motion == Motion::arc && !s.constant_speed)
    explain_figure(out, "curved-path-time",
                   {s.swept.si, s.path().si, s.feed.si, s.surface_speed.si, s.fastest.si});
  else
    explain_figure(out, "turning-time", {s.path().si, s.feed.si, t.start.si, 1, 0, 0});
}

void stretch(TextWriter& out, const PassView& pass, std::size_t i) {
  const CutSegment& s = pass.segments[i];
  if (pass.segments.size() > 1)
    out.section({"explain.stretch",
                 {{"number", i + 1},
                  {"of", pass.segments.size()},
                  {"motion", Message(motion_id(s.motion))}}});
  out.line({"explain.lengths",
            {{"cut", s.cut},
             {"approach", measure(s.approach, unit::mm, 3)},
             {"overrun", measure(s.overrun, unit::mm, 3)},
             {"depth", measure(s.depth, unit::mm, 3)}}});
  spindle(out, s);
  cutting(out, s, pass.times[i]);
}

}  // namespace

void explain_pass(TextWriter& out, const Explained& what, std::size_t i, std::size_t k,
                  std::size_t n) {
  const Operation& operation = what.quote.route.operations[i];
  const Step& step = operation.steps[k];
  const PassView pass = pass_views(step, what.quote.times.operations[i].steps[k])[n];
  out.section(
      {"explain.pass",
       {{"pass", step_label(operation, step) + "." + std::to_string(n + 1)}, {"tool", step.tool}}});
  Length travel(0.0);
  for (std::size_t s = 0; s < pass.segments.size(); ++s) {
    stretch(out, pass, s);
    travel += pass.segments[s].travel;
  }
  out.section({"explain.moving-takes", {{"minutes", minutes_text(pass.moving, out.words(), 4)}}});
  out.line({"explain.rapids", {{"travel", measure(travel, unit::mm)}}});
}

}  // namespace turnwright
