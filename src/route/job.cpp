// SPDX-License-Identifier: MIT
#include "turnwright/route/job.hpp"

#include <algorithm>
#include <cmath>

#include "blank.hpp"
#include "features.hpp"
#include "length_text.hpp"
#include "profile.hpp"
#include "turnwright/figure/threads.hpp"

namespace turnwright {
namespace {

constexpr Length least_wall(0.3e-3);  // thinner is no wall: a slip of the pen

class Preparer {
 public:
  Preparer(const Part& part, const Shop& shop) : shop_(shop) { job_.part = part; }

  Checked<Job> prepare() {
    material();
    refuse_unplanned();
    for (std::size_t i = 0; i < job_.part.outside.size(); ++i) surface(i);
    for (const Region region : {Region::bore_right, Region::bore_left}) bore_surfaces(region);
    if (!problems_.empty()) return problems_;
    const std::vector<UndercutDip> undercuts = find_threads(job_, shop_, complaints_);
    if (!problems_.empty()) return problems_;
    std::string fault;
    const Element* at = draw_outside(job_, shop_.standards, fault);
    if (at != nullptr) add(at->at, fault, "a size that fits");
    for (const Region region : {Region::bore_right, Region::bore_left}) draw(region);
    if (!problems_.empty()) return problems_;
    cut_undercuts(job_, undercuts);
    check_walls();
    find_face_grooves(job_, complaints_);
    if (problems_.empty()) choose_stock(job_, shop_, complaints_);
    if (!problems_.empty()) return problems_;
    return std::move(job_);
  }

 private:
  void add(Position at, std::string what, std::string expected = "", std::string suggestion = "") {
    complaints_.add(at, std::move(what), std::move(expected), std::move(suggestion));
  }
  void caution(std::string text) { job_.cautions.push_back(std::move(text)); }

  void material() {
    const Material* found = shop_.material(job_.part.material);
    if (found == nullptr) {
      std::string near;
      for (const std::string& name : shop_.material_names(job_.part.material))
        near += (near.empty() ? "" : ", ") + name;
      add(job_.part.material_at, "unknown material '" + job_.part.material + "'",
          "a material of the shop (near: " + near +
              "), or {like: …, hardness: 300 HB, density: …, price: …}");
      return;
    }
    Material& m = job_.material = *found;
    if (job_.part.like) {
      const MaterialLike& like = *job_.part.like;
      if (like.hardness) m.hardness = {*like.hardness, *like.hardness};
      if (like.density) m.density = *like.density;
      if (like.price) {
        m.price = like.price;
        m.price_confirmed = true;
      }
      m.name = "like " + m.name;
    }
    if (!m.price_confirmed && !job_.part.stock.customers)
      job_.unconfirmed.push_back(m.price ? "material price not confirmed: " + m.name
                                         : "no material price: " + m.name);
  }

  // A feature with a time of the estimator's own: its blank is turned, the time taken as it stands.
  void given(const Element& e, Region region) {
    const bool solid = region != Region::outside && e.kind != ElementKind::thread;
    caution(
        e.text + (solid ? ": the hole stays in the mass of the part" : ": its blank is turned") +
        ", and the time given, " + with_unit(e.allow->si, unit::min) + ", is taken as it stands");
    const Length middle = (e.from + e.to) / 2.0;
    job_.given.push_back({(region == Region::outside ? "" : "bore ") + e.text, *e.allow,
                          region == Region::bore_left ? job_.left() + middle : -middle,
                          region == Region::bore_left});
  }
  void refuse_unplanned() {
    for (const Region region : {Region::outside, Region::bore_right, Region::bore_left})
      for (const Element& e : list_of(region)) {
        if (e.allow) given(e, region);
        if (e.ground && !e.allow && e.leave.si <= 0)
          add(e.at, "a ground surface is not finished on the lathe",
              "what is left on for it, as 'leave 0.3', and the grinding under other work");
        if (region != Region::outside && e.kind == ElementKind::polygon)
          add(e.at, "flats in a bore are not turned", "other work, as 'hexagon broached, 2 min'");
        if (region != Region::outside && e.as_drawn)
          add(e.at, "a bore that stays as drawn", "tube stock, or the bore turned");
      }
  }
  const std::vector<Element>& list_of(Region region) const {
    return region == Region::outside      ? job_.part.outside
           : region == Region::bore_right ? job_.part.bore_right
                                          : job_.part.bore_left;
  }
  // A bore with a time of its own stays solid: the estimator's minutes make it.
  bool bored_by_hand(Region region) const {
    const auto& list = list_of(region);
    return std::any_of(list.begin(), list.end(),
                       [](const Element& e) { return e.allow && e.kind != ElementKind::thread; });
  }

  // The mean radius and the tolerance of a size.
  Length settled(const Element& e, const Size& size, Surface& s) {
    Length upper = size.upper, lower = size.lower;
    s.toleranced = size.toleranced || !size.letters.empty();
    if (!size.letters.empty()) {
      const auto fit = shop_.standards.fit(size.letters, size.grade, size.nominal);
      if (!fit) {
        std::vector<std::string> letters;
        for (const FitRow& row : shop_.standards.fits) letters.push_back(row.letters);
        add(e.at,
            "the fit '" + size.letters + std::to_string(size.grade) + "' is not listed at " +
                length_text(job_, size.nominal),
            "a fit of rates/standards.yaml, or deviations as +0.015/+0.002",
            nearest(size.letters, letters));
        return size.nominal / 2.0;
      }
      upper = fit->upper;
      lower = fit->lower;
    } else if (!size.toleranced) {
      const GeneralTolerances& g = job_.part.drawing.general;
      const Length half =
          g.plus_minus
              ? *g.plus_minus
              : shop_.standards
                    .general_tolerance(g.iso_class.empty() ? "m" : g.iso_class, size.nominal)
                    .value_or(0.3 * unit::mm);
      upper = half;
      lower = -half;
    }
    s.tolerance = upper - lower;
    s.grade = size.letters.empty() ? grade_of(size.nominal, s.tolerance) : size.grade;
    // Symmetric deviations keep the nominal size to the last digit.
    return upper.si == -lower.si ? size.nominal / 2.0
                                 : (size.nominal + (upper + lower) / 2.0) / 2.0;
  }

  static Surface plain_surface(const Element& e, std::size_t i) {
    Surface s;
    s.element = i;
    s.name = e.text;
    s.ra = e.ra.value_or(Length(0.0));
    if (e.gauge_share) s.gauge_share = *e.gauge_share;
    return s;
  }
  void surface(std::size_t i) {
    const Element& e = job_.part.outside[i];
    Surface s = plain_surface(e, i);
    s.left = -e.to;
    s.right = -e.from;
    s.as_drawn = e.as_drawn || e.kind == ElementKind::polygon;
    s.gripable = e.kind == ElementKind::cylinder && !e.knurl;
    s.right_radius = settled(e, e.size, s);
    s.left_radius = e.kind == ElementKind::cone || e.kind == ElementKind::arc
                        ? settled(e, e.left_size, s)
                        : s.right_radius;
    if (e.kind == ElementKind::arc && i > 0) s.right_radius = job_.surfaces[i - 1].left_radius;
    if (e.kind == ElementKind::arc && i == 0) s.right_radius = Length(0.0);
    if (e.kind == ElementKind::thread) {
      // A blank a little under size: the crest is not cut again (common practice, 0.1-0.2).
      s.left_radius = s.right_radius = s.right_radius - 0.075 * unit::mm;
      s.gripable = false;
    }
    if (e.kind == ElementKind::polygon) {
      s.left_radius = s.right_radius = corners_of(e.hexagon) * e.size.nominal / 2.0;
      s.gripable = true;  // three jaws on a hexagon, four on a square
    }
    if (e.knurl) start_of_knurl(e, s);
    notes_on(e, s, 1.0);
    job_.surfaces.push_back(s);
  }
  // The rolls raise the metal: the blank is smaller, and rough turning is good enough for it.
  void start_of_knurl(const Element& e, Surface& s) {
    const KnurlSize* size = shop_.standards.knurl(e.knurl->kind);
    if (size == nullptr) {
      add(e.knurl->at, "the knurl " + e.knurl->kind + " has no start diameter in the rates",
          "a record of 'knurls'");
      return;
    }
    s.left_radius = s.right_radius =
        figure::KnurlStartDiameter::work_out<>(
            {2.0 * s.right_radius, e.knurl->pitch, Number(size->share)})
            .start_diameter /
        2.0;
    s.ra = Length(0.0);
  }
  // `away` is the direction that leaves material on: outwards outside, inwards in a bore.
  void notes_on(const Element& e, Surface& s, double away) {
    if (e.leave.si > 0) {
      s.left_radius = s.left_radius + away * e.leave / 2.0;
      s.right_radius = s.right_radius + away * e.leave / 2.0;
      caution(e.text + ": " + length_text(job_, e.leave) +
              " on diameter is left on for later work");
    }
    if (e.ra_from_rz) caution(e.text + ": Ra taken as Rz / 5 (Rz/4 to Rz/7, from memory)");
    if (std::any_of(e.grooves.begin(), e.grooves.end(),
                    [](const Groove& g) { return g.kind == GrooveKind::o_ring; }))
      caution(e.text +
              ": the O-ring groove is 1.33 wide and 0.8 deep of the section (static, from memory); "
              "the maker's table decides");
  }

  // ---- bores
  void bore_surfaces(Region region) {
    const auto& list = list_of(region);
    if (list.empty() || bored_by_hand(region)) return;
    const std::size_t first = job_.surfaces.size();
    const bool left = region == Region::bore_left;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const Element& e = list[i];
      Surface s = plain_surface(e, i);
      s.region = region;
      s.name = "bore " + e.text;
      s.gripable = false;
      s.left = left ? job_.left() + e.from : -e.to;
      s.right = left ? job_.left() + e.to : -e.from;
      Length mouth = settled(e, e.size, s), inner = mouth;
      if (e.kind == ElementKind::cone || e.kind == ElementKind::arc)
        inner = settled(e, e.left_size, s);
      if (e.kind == ElementKind::arc)
        mouth = i == 0
                    ? Length(0.0)
                    : (left ? job_.surfaces.back().right_radius : job_.surfaces.back().left_radius);
      if (e.kind == ElementKind::thread) {
        mouth = inner = core_radius(e.thread);
        s.left = left ? s.left : s.left - blind_run_out(e, i + 1 == list.size());
        s.right = left ? s.right + blind_run_out(e, i + 1 == list.size()) : s.right;
      }
      s.left_radius = left ? mouth : inner;
      s.right_radius = left ? inner : mouth;
      notes_on(e, s, -1.0);
      job_.surfaces.push_back(s);
    }
    Bore& bore = job_.bores[left ? 1U : 0U];
    bore.through = list.back().to.si > job_.part.overall.si - same_point;
    if (list.back().to.si > job_.part.overall.si + same_point)
      add(list.back().at,
          "the bore ends " + length_text(job_, list.back().to - job_.part.overall) +
              " beyond the part",
          "at most " + length_text(job_, job_.part.overall) + ", or through");
    if (!problems_.empty()) return;
    open_hole(std::span<Surface>(job_.surfaces).subspan(first), list, shop_, bore);
    bore.narrow += first;
  }
  // The core hole of a blind thread is drilled deeper.
  Length blind_run_out(const Element& e, bool last) const {
    const bool through = e.to.si > job_.part.overall.si - same_point;
    const ThreadRunout* row = shop_.standards.runout(e.thread.pitch);
    return last && !through && !e.undercut && row != nullptr ? row->blind : Length(0.0);
  }
  // A tap drill of the set, where one is near enough.
  Length core_radius(const Thread& thread) const {
    const Length core = thread.core();
    for (const Tool& t : shop_.tools)
      if (t.kind == ToolKind::drill)
        for (const Length d : t.sizes)
          if (d.si > core.si - 0.1e-3 && d.si < core.si + 0.1 * thread.pitch.si) return d / 2.0;
    return core / 2.0;
  }
  void draw(Region region) {
    if (bored_by_hand(region)) return;
    std::string fault;
    const Element* at = draw_bore(job_, region, shop_.standards, fault);
    if (at != nullptr) add(at->at, fault, "a size that fits");
  }
  // Every place of a bore needs a wall around it, and the two bores must not run into each other.
  void check_walls() {
    for (std::size_t side = 0; side < 2; ++side) {
      const Outline& hollow = job_.bores[side].finished;
      if (hollow.empty()) continue;
      const Region region = side == 0 ? Region::bore_right : Region::bore_left;
      const auto thin = where_above(hollow.moved(Length(0.0), least_wall), job_.finished);
      const bool inside = std::any_of(thin.begin(), thin.end(), [&](const Interval& i) {
        return i.to > job_.left() && i.from.si < 0 && i.width().si > 10 * same_point;
      });
      if (hollow.left() < job_.left() - Length(same_point) && side == 0 && !job_.bores[0].through)
        add(list_of(region).back().at, "the point of the drill comes out of the part",
            "a shallower bore, 'flat', or 'through'");
      else if (inside)
        add(widest_element(region).at,
            "the bore leaves no wall: at " + length_text(job_, -thin.front().to) +
                " from the right-hand face the outside is " +
                length_text(job_, 2.0 * job_.finished.left_of(thin.front().to)),
            "a bore smaller than the outside, with a wall of at least " +
                length_text(job_, least_wall));
    }
    const Outline &r = job_.bores[0].finished, &l = job_.bores[1].finished;
    if (r.empty() || l.empty()) return;
    if (r.left() < l.right() - Length(same_point) && !job_.bores[0].through &&
        !job_.bores[1].through)
      add(job_.part.bore_left.back().at, "the bores from both faces run into each other",
          "depths that add up to at most " + length_text(job_, job_.part.overall));
  }
  const Element& widest_element(Region region) const {
    const auto& list = list_of(region);
    return *std::max_element(list.begin(), list.end(), [](const Element& a, const Element& b) {
      return max(a.size.nominal, a.left_size.nominal) < max(b.size.nominal, b.left_size.nominal);
    });
  }

  const Shop& shop_;
  Job job_;
  Problems problems_;
  const Complaints complaints_{job_.part.file, problems_};
};

}  // namespace

bool Surface::needs_finish() const {
  // A roughing cut gives IT11 and Ra 6.3 at best (process capability, from memory).
  return !as_drawn && (grade <= 10 || (ra.si > 0 && ra.si < 6.3e-6 - 1e-12));
}

namespace {
Outline both(const Outline& a, const Outline& b) {
  if (b.empty()) return a;
  return a.empty() ? b : combine(a, b, Envelope::upper);
}
}  // namespace
Outline Job::hollow() const { return both(bores[0].finished, bores[1].finished); }
Outline Job::hollow_turned() const { return both(bores[0].turned, bores[1].turned); }
Volume Job::volume() const { return body_volume(finished, hollow()); }

Checked<Job> prepare(const Part& part, const Shop& shop) { return Preparer(part, shop).prepare(); }

}  // namespace turnwright
