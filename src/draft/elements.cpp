// SPDX-License-Identifier: MIT
// The runs of a contour as elements: cylinders with their edges, corners and grooves, cones, arcs.
#include <algorithm>
#include <cmath>

#include "drafting.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

bool is_cylinder(const ModelRun& r) {
  return r.form == RunForm::line && same(r.diameter_from, r.diameter_to);
}
Length extent(const ModelRun& r) { return r.to - r.from; }
double slope_angle(const ModelRun& r) {
  return std::atan2(std::abs((r.diameter_to - r.diameter_from).si) / 2, extent(r).si);
}

// The half degree that is meant where the rounded width gives a little more or less.
double whole_angle(double angle, double width, double drop) {
  constexpr double step = pi / 360, rounding = 1.2e-6;
  const double whole = std::round(angle / step) * step;
  const double rise = std::tan(whole);
  return std::abs(width * rise - drop) < rounding * std::max(1.0, rise) ? whole : angle;
}

// What is broken off an edge is small beside its diameter; more is a cone or a dome of the part.
// Conventions of ours.
constexpr Length small_break = 4.0 * unit::mm;
constexpr double break_share = 0.15;                                      // of the radius
constexpr double flattest = 14.9 * pi / 180, steepest = 75.1 * pi / 180;  // from the axis
// A dip between equal diameters that is wider is a shaft's waist, no groove.
constexpr double groove_share = 0.375;  // of the diameter
constexpr Length groove_extra = 8.0 * unit::mm;
constexpr double thread_share = 0.4;  // of its diameter, the shortest thread
constexpr double opened_share = 0.8;  // of a bore, the drill before it
// The largest of DIN 509:1998, table 1, from memory: 0.5 deep, 7 wide.
constexpr Length deepest_relief = 0.55 * unit::mm, widest_relief = 7.0 * unit::mm;
constexpr double drill_point = 118.0 / 2 * pi / 180;

class ElementWriter {
 public:
  ElementWriter(const ContourRuns& contour, const Recognition& model, DraftDetail detail)
      : contour_(contour),
        runs_(contour.runs),
        model_(model),
        numbers_(model.inch),
        features_(detail == DraftDetail::features),
        used_(runs_.size(), false) {}

  ContourDraft all() {
    // Edges and corners go to the cylinder beside them.
    for (std::size_t i = 0; i < runs_.size(); ++i)
      if (!used_[i] && takes_edges(runs_[i])) take_around(i);
    for (std::size_t i = 0; i < runs_.size(); ++i)
      if (!used_[i]) element(i);
    end_of_bore();
    return std::move(draft_);
  }

 private:
  // A cylinder with what it takes of the runs beside it.
  struct Around {
    std::size_t last = 0;  // of its own runs, over grooves
    Length from{}, to{};
    std::string attributes;
    bool chamfered = false;
  };
  enum class Side { near, far };  // to the face that places count from

  const char* word(Side side) const {
    const bool right = (side == Side::near) != (contour_.region == Region::bore_left);
    return right ? "right" : "left";
  }
  // The flats of a bar have their edges broken as a cylinder has.
  bool takes_edges(const ModelRun& r) const { return is_cylinder(r) || polygon_at(r) != nullptr; }
  const ModelFeature* polygon_at(const ModelRun& r) const {
    if (r.form != RunForm::envelope || !features_) return nullptr;
    const ModelFeature* polygon = polygon_of_stock(model_);
    const bool here = polygon != nullptr && r.to.si > polygon->from.si + same_size &&
                      r.from.si < polygon->to.si - same_size;
    return here ? polygon : nullptr;
  }
  // Radii with a bore turned over: material is below in both.
  double height(Length diameter) const {
    return (contour_.inside() ? -diameter.si : diameter.si) / 2;
  }

  // What lies beyond a run: the height there; at an end face nothing, in a blind bore's end all.
  double beyond(std::size_t i, Side side) const {
    const bool near = side == Side::near;
    if (near ? i == 0 : i + 1 == runs_.size()) {
      const bool bottom = !near && contour_.inside() && !contour_.through;
      return bottom ? 0.0 : -1e9;
    }
    const ModelRun& r = runs_[near ? i - 1 : i + 1];
    return height(near ? r.diameter_to : r.diameter_from);
  }

  // Whether run `e` breaks the edge of cylinder `i` or fills its corner; its words, "" where
  // neither.
  std::string edge(std::size_t i, std::size_t e, Side side) const {
    const ModelRun& r = runs_[e];
    const bool near = side == Side::near;
    const double own = height(runs_[i].diameter_from);
    const double inner = height(near ? r.diameter_to : r.diameter_from);
    const double outer = height(near ? r.diameter_from : r.diameter_to);
    if (std::abs(inner - own) > same_size || is_relief(e)) return "";
    const double rise = outer - own, wall = beyond(e, side);
    if (rise < 0 && wall < outer + same_size) return broken(r, i, -rise, side);
    if (rise < 0 && wall < own - same_size && r.form == RunForm::line)
      return below_step(broken(r, i, -rise, side));
    if (rise > 0 && wall > outer - same_size && wall < 1e8) return filled(r, rise, side);
    return "";
  }
  std::string broken(const ModelRun& r, std::size_t i, double drop, Side side) const {
    const Length w = extent(r),
                 limit = max(small_break, break_share * runs_[i].diameter_from / 2.0);
    if (r.form == RunForm::line) {
      const double angle = whole_angle(slope_angle(r), w.si, drop);
      if (w > limit || drop > limit.si || angle < flattest || angle > steepest) return "";
      return ", chamfer " + numbers_.place(w) + "x" + Numbers::degrees(angle) + " " + word(side);
    }
    const bool convex = r.bulges_out != contour_.inside();
    if (!is_quarter(r, drop) || !convex) return "";
    return std::string(", round R") + numbers_.size(r.radius) + " " + word(side);
  }
  static std::string below_step(std::string chamfer) {
    return chamfer.empty() ? chamfer : chamfer + " below step";
  }
  std::string filled(const ModelRun& r, double rise, Side side) const {
    const bool convex = r.bulges_out != contour_.inside();
    if (!is_quarter(r, rise) || convex) return "";
    return std::string(", fillet R") + numbers_.size(r.radius) + " " + word(side);
  }
  static bool is_quarter(const ModelRun& r, double rise) {
    return r.form == RunForm::arc && std::abs(extent(r).si - r.radius.si) < 1e-6 &&
           std::abs(rise - r.radius.si) < 1e-6;
  }

  void take_around(std::size_t i) {
    Around a{i, runs_[i].from, runs_[i].to, "", false};
    if (features_) {
      take_edge(i, i, Side::near, a);
      while (is_cylinder(runs_[i]) && take_groove(i, a)) {
      }
      take_edge(i, a.last, Side::far, a);
    }
    around_.resize(runs_.size());
    around_[i] = std::move(a);
  }
  void take_edge(std::size_t i, std::size_t at, Side side, Around& a) {
    const bool near = side == Side::near;
    if (near ? at == 0 : at + 1 >= runs_.size()) return;
    const std::size_t e = near ? at - 1 : at + 1;
    if (used_[e] || takes_edges(runs_[e])) return;
    const std::string words = edge(i, e, side);
    if (words.empty()) return;
    used_[e] = true;
    (near ? a.from : a.to) = near ? runs_[e].from : runs_[e].to;
    a.attributes += words;
    a.chamfered = a.chamfered || runs_[e].form == RunForm::line;
  }

  // The run with the diameter of `i` again, behind a dip of one to three runs; 0: none.
  std::size_t behind_dip(std::size_t i, std::size_t last) const {
    const double own = height(runs_[i].diameter_from);
    const double widest = (groove_share * runs_[i].diameter_from + groove_extra).si;
    for (std::size_t k = last + 1; k < std::min(last + 5, runs_.size()); ++k) {
      const ModelRun& r = runs_[k];
      if (used_[k] || r.form == RunForm::envelope) return 0;
      if (is_cylinder(r) && same(r.diameter_from, runs_[i].diameter_from))
        return k > last + 1 ? k : 0;
      if (!contour_.inside() && r.to.si - runs_[last].to.si > widest) return 0;
      if (std::max(height(r.diameter_from), height(r.diameter_to)) > own + same_size) return 0;
    }
    return 0;
  }
  bool take_groove(std::size_t i, Around& a) {
    const std::size_t k = behind_dip(i, a.last);
    if (k == 0) return false;
    const std::string words = groove(i, a.last + 1, k);
    if (words.empty()) return false;
    for (std::size_t n = a.last + 1; n <= k; ++n) used_[n] = true;
    a.attributes += words;
    a.last = k;
    a.to = runs_[k].to;
    return true;
  }
  // The runs from `first` up to before `end` as one groove; "" where they are none.
  std::string groove(std::size_t i, std::size_t first, std::size_t end) const {
    const ModelRun& r = runs_[first];
    const std::string at = " at " + numbers_.place(r.from);
    const std::string wide = numbers_.place(runs_[end].from - r.from) + " wide";
    if (end == first + 1 && is_cylinder(r))
      return ", groove " + wide + " to " + numbers_.size(r.diameter_from) + at;
    if (end == first + 1 && is_round_groove(r)) {
      const Length above(std::abs(height(runs_[i].diameter_from) - height_of_centre(r)));
      const bool half = above.si < same_size;
      return ", round groove R" + numbers_.size(r.radius) +
             (half ? "" : " " + numbers_.size(r.radius - above) + " deep") + at;
    }
    return vee(i, first, end, wide, at);
  }
  double height_of_centre(const ModelRun& r) const { return height(2.0 * r.centre_r); }
  // Hollow, symmetrical, and no deeper than its radius.
  bool is_round_groove(const ModelRun& r) const {
    return r.form == RunForm::arc && r.bulges_out == contour_.inside() &&
           same(r.diameter_from, r.diameter_to) &&
           height_of_centre(r) > height(r.diameter_from) - same_size;
  }
  std::string vee(std::size_t i, std::size_t first, std::size_t end, const std::string& wide,
                  const std::string& at) const {
    const ModelRun &in = runs_[first], &out = runs_[end - 1];
    const bool floor = end == first + 3 && is_cylinder(runs_[first + 1]);
    const bool slopes = in.form == RunForm::line && out.form == RunForm::line && !is_cylinder(in) &&
                        !is_cylinder(out);
    if (!slopes || (end != first + 2 && !floor) ||
        std::abs(slope_angle(in) - slope_angle(out)) > 1e-5 ||
        !same(in.diameter_from, runs_[i].diameter_from) ||
        !same(out.diameter_to, runs_[i].diameter_from) || !same(in.diameter_to, out.diameter_from))
      return "";
    const Length depth(std::abs(height(in.diameter_to) - height(in.diameter_from)));
    const double slope = whole_angle(slope_angle(in), extent(in).si, depth.si);
    return ", V-groove " + Numbers::degrees(pi - 2 * slope) + " deg " + (floor ? wide + " " : "") +
           numbers_.size(depth) + " deep" + at;
  }

  void element(std::size_t i) {
    const ModelRun& r = runs_[i];
    if (polygon_at(r) != nullptr)
      polygon(i);
    else if (r.form == RunForm::envelope)
      envelope(r);
    else if (is_cylinder(r))
      cylinder(i);
    else if (r.form == RunForm::arc)
      arc(r);
    else
      cone(r, i);
  }
  void put(std::string text, Length end_diameter) {
    draft_.elements.push_back(std::move(text));
    last_diameter_ = end_diameter;
  }
  void cylinder(std::size_t i) {
    const Around& a = around_[i];
    const Length d = runs_[i].diameter_from;
    ++draft_.diameters;
    const bool through = contour_.through && same(a.to, runs_.back().to);
    const std::string length = through ? " through" : " x" + numbers_.place(a.to - a.from);
    put(numbers_.size(d) + length + a.attributes, d);
    ask_for_thread(d, a);
  }
  void ask_for_thread(Length d, const Around& a) {
    // A thread has a chamfer, and some length to it.
    const bool threadable = a.chamfered && (a.to - a.from).si > thread_share * d.si;
    const std::string thread = contour_.inside() ? tapped_in(d) : threadable ? threaded_on(d) : "";
    if (thread.empty()) return;
    const bool pointed = contour_.inside() && !contour_.through && !contour_.flat;
    const char* id = !contour_.inside() ? "draft.threaded"
                     : pointed          ? "draft.tapped-blind"
                                        : "draft.tapped";
    draft_.to_confirm.push_back(
        {id, {{"diameter", d}, {"length", a.to - a.from}, {"thread", thread}}});
  }
  void cone(const ModelRun& r, std::size_t i) {
    if (contour_.inside() && i + 1 == runs_.size() && is_point(r)) {
      point(r);
      return;
    }
    put("cone " + numbers_.size(r.diameter_from) + " to " + numbers_.size(r.diameter_to) + " x" +
            numbers_.place(extent(r)),
        r.diameter_to);
    if (r.form == RunForm::free_form)
      draft_.to_confirm.push_back({"draft.free-form", {{"from", r.from}, {"to", r.to}}});
    if (is_relief(i))
      draft_.to_confirm.push_back({"draft.relief", {{"from", r.from}, {"to", r.to}}});
  }
  // The floor of a relief of DIN 509 runs out at 15 degrees (DIN 509:1998, forms E and F).
  bool is_relief(std::size_t i) const {
    const ModelRun& r = runs_[i];
    if (contour_.inside() || r.form != RunForm::line || std::abs(slope_angle(r) - pi / 12) > 0.01)
      return false;
    const bool falls = r.diameter_to < r.diameter_from;
    const std::size_t floor = falls ? i + 1 : i - 1;
    const Length deep = abs(r.diameter_to - r.diameter_from) / 2.0;
    return floor < runs_.size() && is_cylinder(runs_[floor]) && deep < deepest_relief &&
           extent(runs_[floor]) < widest_relief &&
           same(runs_[floor].diameter_from, falls ? r.diameter_to : r.diameter_from);
  }
  // Of the drill: as wide as the bore, or a little less where the bore was opened after it.
  bool is_point(const ModelRun& r) const {
    if (r.diameter_to.si > same_size || r.diameter_from > last_diameter_ + Length(same_size))
      return false;
    const bool drilled = std::abs(slope_angle(r) - drill_point) < 0.01;
    return same(r.diameter_from, last_diameter_) ||
           (drilled && r.diameter_from > opened_share * last_diameter_);
  }
  // A drilled bore has its point without being told.
  void point(const ModelRun& r) {
    if (std::abs(slope_angle(r) - drill_point) < 0.01) return;
    draft_.to_confirm.push_back(
        {"draft.point", {{"angle", measure(Number(2 * slope_angle(r)), unit::deg, 3)}}});
  }
  void arc(const ModelRun& r) {
    const bool goes_on = same(r.diameter_from, last_diameter_);
    std::string text = "arc R" + numbers_.size(r.radius);
    if (!goes_on) text += " from " + numbers_.size(r.diameter_from);
    text += " to " + numbers_.size(r.diameter_to) + " x" + numbers_.place(extent(r));
    put(text + (r.bulges_out ? "" : " hollow"), r.diameter_to);
  }
  void polygon(std::size_t i) {
    const ModelFeature& flats = *polygon_at(runs_[i]);
    const Around& a = around_[i];
    const char* form = flats.kind == FeatureKind::hexagon ? "hexagon " : "square ";
    put(form + numbers_.size(flats.across) + " x" + numbers_.place(a.to - a.from) + a.attributes,
        flats.across);
  }
  void envelope(const ModelRun& r) {
    put(numbers_.size(r.diameter_from) + " x" + numbers_.place(extent(r)), r.diameter_from);
    draft_.to_confirm.push_back(
        {"draft.envelope", {{"from", r.from}, {"to", r.to}, {"diameter", r.diameter_from}}});
  }

  void end_of_bore() {
    if (!contour_.inside() || draft_.elements.empty()) return;
    if (contour_.flat) draft_.elements.back() += ", flat";
  }

  const ContourRuns& contour_;
  const std::vector<ModelRun>& runs_;
  const Recognition& model_;
  Numbers numbers_;
  bool features_;
  std::vector<bool> used_;
  std::vector<Around> around_;
  Length last_diameter_{};
  ContourDraft draft_;
};

}  // namespace

ContourDraft elements_of(const ContourRuns& contour, const Recognition& model, DraftDetail detail) {
  return ElementWriter(contour, model, detail).all();
}

std::vector<ModelRun> drawn_runs(const std::vector<ModelRun>& runs) {
  std::vector<ModelRun> drawn;
  for (const ModelRun& r : runs)
    if (extent(r).si > same_size) drawn.push_back(r);
  return drawn;
}

}  // namespace turnwright
