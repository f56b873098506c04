// SPDX-License-Identifier: MIT
// A pass: each stretch with its spindle speed and cutting time, and what moving adds.
#include <cmath>

#include "formatting.hpp"
#include "text/explain.hpp"
#include "view/quote_view.hpp"

namespace turnwright {
namespace {

constexpr double worth_saying = 1e-3;  // that something is other than wanted

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

void spindle(TextWriter& out, const CutSegment& s, const SegmentTime& t) {
  if (s.constant_speed) {
    out.line({"explain.one-speed", {{"spindle", s.spindle}}});
    explain_figure(out, "surface-speed", {s.large_diameter.si, s.spindle.si});
  } else {
    out.line({"explain.surface-speed", {{"fastest", s.fastest}}});
    explain_figure(out, "spindle-speed", {s.surface_speed.si, s.large_diameter.si});
    if (t.at_large.si < s.surface_speed.si * (1 - worth_saying))
      explain_figure(out, "surface-speed", {s.large_diameter.si, s.fastest.si});
  }
}

// What the stretch wears of its edge, where it is not cut at the wanted speed.
void wear(TextWriter& out, const CutSegment& s, const SegmentTime& t, double exponent) {
  if (std::abs((t.wear / t.cutting).si - 1) <= worth_saying) return;
  out.line({"explain.wears-as",
            {{"minutes", minutes_text(t.wear, out.words(), 4)}, {"speed", s.surface_speed}}});
  if (s.motion == Motion::across && s.constant_speed)
    explain_figure(out, "wear-time-one-spindle-speed",
                   {s.large_diameter.si, s.small_diameter.si, s.path().si, s.feed.si, s.spindle.si,
                    s.surface_speed.si, exponent});
  else if (s.motion == Motion::across)
    explain_figure(out, "wear-time-sloped-path",
                   {s.large_diameter.si, s.small_diameter.si, s.path().si, s.feed.si,
                    s.surface_speed.si, s.fastest.si, exponent});
  else
    explain_figure(out, "wear-time",
                   {t.cutting.si, model::real_speed(s).si, s.surface_speed.si, exponent});
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

void stretch(TextWriter& out, const PassView& pass, std::size_t i, double exponent) {
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
  spindle(out, s, pass.times[i]);
  cutting(out, s, pass.times[i]);
  if (exponent > 0) wear(out, s, pass.times[i], exponent);
}

}  // namespace

void explain_pass(TextWriter& out, const Explained& what, std::size_t i, std::size_t k,
                  std::size_t n) {
  const Operation& operation = what.quote.route.operations[i];
  const Step& step = operation.steps[k];
  const StepTime& time = what.quote.times.operations[i].steps[k];
  const PassView pass = pass_views(step, time)[n];
  out.section(
      {"explain.pass",
       {{"pass", step_label(operation, step) + "." + std::to_string(n + 1)}, {"tool", step.tool}}});
  Length travel(0.0);
  for (std::size_t s = 0; s < pass.segments.size(); ++s) {
    stretch(out, pass, s, time.edge_share > 0 ? step.taylor_exponent : 0);
    travel += pass.segments[s].travel;
  }
  out.section({"explain.moving-takes", {{"minutes", minutes_text(pass.moving, out.words(), 4)}}});
  out.line({"explain.rapids", {{"travel", measure(travel, unit::mm)}}});
}

}  // namespace turnwright
