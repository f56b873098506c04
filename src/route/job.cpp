// SPDX-License-Identifier: MIT
#include "turnwright/route/job.hpp"

#include <algorithm>
#include <cmath>

#include "profile.hpp"
#include "said.hpp"

namespace turnwright {
namespace {

class Preparer {
 public:
  Preparer(const Part& part, const Shop& shop) : shop_(shop) { job_.part = part; }

  Checked<Job> prepare() {
    material();
    refuse_unplanned();
    for (std::size_t i = 0; i < job_.part.outside.size(); ++i) surface(i);
    if (!problems_.empty()) return problems_;
    std::string fault;
    const Element* at = draw_profiles(job_, shop_.standards, fault);
    if (at != nullptr) add(at->at, fault, "a size that fits");
    if (problems_.empty()) stock();
    if (!problems_.empty()) return problems_;
    return std::move(job_);
  }

 private:
  void add(Position at, std::string what, std::string expected = "", std::string suggestion = "") {
    problems_.push_back(
        {job_.part.file, at, 1, std::move(what), std::move(expected), std::move(suggestion), ""});
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

  void refuse(const Element& e, const std::string& what, const std::string& what_is_done) {
    if (e.allow) {
      caution(e.text + ": " + what + " is not planned; " + what_is_done + " and the time given, " +
              with_unit(e.allow->si, unit::min) + ", is taken as it stands");
      return;
    }
    add(e.at, what + " is read but not planned yet", "the time you give it: add ', allow 6 min'");
  }
  void refuse_unplanned() {
    for (const Element& e : job_.part.outside) {
      std::string what;
      if (e.kind == ElementKind::thread)
        what = "the thread " + e.thread.designation;
      else if (e.kind == ElementKind::polygon)
        what = "the flats";
      else if (!e.knurl.empty())
        what = "the knurl";
      else if (!e.undercut.empty())
        what = "the undercut " + e.undercut;
      else if (e.ground)
        what = "grinding";
      else if (std::any_of(e.grooves.begin(), e.grooves.end(),
                           [](const Groove& g) { return g.kind == GrooveKind::o_ring; }))
        what = "the O-ring groove (a groove with its width and bottom is planned)";
      if (!what.empty()) refuse(e, what, "its blank is turned");
      if (e.allow) job_.given.push_back({e.text, *e.allow, -(e.from + e.to) / 2.0, false});
    }
    for (const auto* bore : {&job_.part.bore_right, &job_.part.bore_left})
      for (const Element& e : *bore) {
        refuse(e, "the bore", "the hole stays in the mass of the part");
        if (e.allow)
          job_.given.push_back(
              {"bore " + e.text, *e.allow, Length(0.0), bore == &job_.part.bore_left});
      }
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
                said(job_, size.nominal),
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

  void surface(std::size_t i) {
    const Element& e = job_.part.outside[i];
    Surface s;
    s.element = i;
    s.name = e.text;
    s.left = -e.to;
    s.right = -e.from;
    s.ra = e.ra.value_or(Length(0.0));
    s.as_drawn = e.as_drawn;
    s.gripable = e.kind == ElementKind::cylinder && e.knurl.empty();
    if (e.gauge_share) s.gauge_share = *e.gauge_share;
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
      const double corners = e.hexagon ? 2 / std::sqrt(3.0) : std::sqrt(2.0);
      s.left_radius = s.right_radius = corners * e.size.nominal / 2.0;
      s.gripable = false;
    }
    if (e.leave.si > 0) {
      s.left_radius = s.left_radius + e.leave / 2.0;
      s.right_radius = s.right_radius + e.leave / 2.0;
      caution(e.text + ": " + said(job_, e.leave) + " on diameter is left on for later work");
    }
    if (e.ra_from_rz) caution(e.text + ": Ra taken as Rz / 5 (Rz/4 to Rz/7, from memory)");
    job_.surfaces.push_back(s);
  }

  // ---- stock
  const StockCondition* condition() {
    const PartStock& asked = job_.part.stock;
    std::string name = asked.condition;
    if (name.empty()) {
      const bool drawn = asked.from_bar || std::any_of(job_.surfaces.begin(), job_.surfaces.end(),
                                                       [](const Surface& s) { return s.as_drawn; });
      name = drawn ? "drawn" : "hot rolled";
    }
    // "drawn h11": the tolerance belongs to the condition.
    const std::size_t blank = name.rfind(" h");
    if (blank != std::string::npos) name = name.substr(0, blank);
    if (const StockCondition* c = shop_.condition(name)) return c;
    std::vector<std::string> names;
    std::string list;
    for (const StockCondition& c : shop_.conditions) {
      names.push_back(c.name);
      list += (list.empty() ? "" : ", ") + c.name;
    }
    add(asked.at, "unknown stock condition '" + name + "'", "one of " + list, nearest(name, names));
    return nullptr;
  }

  void stock() {
    const PartStock& asked = job_.part.stock;
    if (asked.form != StockForm::automatic && asked.form != StockForm::round) {
      add(asked.at, "this form of stock is read but not planned yet", "round stock: {round: 55}");
      return;
    }
    const StockCondition* c = condition();
    if (c == nullptr) return;
    Stock& s = job_.stock;
    s.condition = c->name;
    s.skin = c->skin;
    s.price_factor = c->price_factor;
    s.from_bar = asked.from_bar;
    s.customers = asked.customers;
    Length largest(0.0), drawn(0.0);
    for (const Surface& surface : job_.surfaces)
      (surface.as_drawn ? drawn : largest) =
          max(surface.as_drawn ? drawn : largest, surface.diameter());
    diameter(*c, asked, largest, drawn);
    lengths(*c, asked);
  }

  void diameter(const StockCondition& c, const PartStock& asked, Length largest, Length drawn) {
    Stock& s = job_.stock;
    const std::vector<Length>& sizes =
        job_.part.inch && !c.inch_sizes.empty() ? c.inch_sizes : c.sizes;
    const Length needed =
        largest.si > drawn.si + touch || drawn.si == 0 ? largest + c.clean_up_at(largest) : drawn;
    auto next = std::find_if(sizes.begin(), sizes.end(),
                             [&](Length d) { return d.si >= needed.si - touch; });
    const std::string next_size = next == sizes.end() ? "none on the list" : said(job_, *next);
    if (asked.form == StockForm::round) {
      s.diameter = asked.size;
      if (s.diameter.si < max(largest, drawn).si - touch) {
        add(asked.at,
            "stock " + said(job_, s.diameter) + " is smaller than the part, " +
                said(job_, max(largest, drawn)),
            "at least " + said(job_, needed) + "; the next size is " + next_size);
        return;
      }
      if (s.diameter.si < needed.si - touch && largest.si > drawn.si)
        caution("stock " + said(job_, s.diameter) + " leaves less than the " + c.name +
                " clean-up of " + said(job_, c.clean_up_at(largest)) +
                " on diameter; the next size is " + next_size);
      name_neighbours(c, sizes, s.diameter);
    } else {
      if (next == sizes.end()) {
        add(asked.at.line > 0 ? asked.at : Position{1, 1},
            "no " + c.name + " bar on the list is as large as " + said(job_, needed),
            "a size given as stock: {round: …}");
        return;
      }
      s.diameter = *next;
    }
    if (drawn.si > 0 && std::abs(drawn.si - s.diameter.si) > touch)
      add(asked.at, "'as drawn' at " + said(job_, drawn) + " on stock of " + said(job_, s.diameter),
          "stock of the drawn size, or the surface turned");
    if (drawn.si > 0 && s.skin)
      caution("a surface stays as the bar is bought, but " + c.name + " bar has a scale skin");
    s.upper = s.diameter + c.over(s.diameter);
  }
  void name_neighbours(const StockCondition& c, const std::vector<Length>& sizes, Length d) {
    const auto above =
        std::find_if(sizes.begin(), sizes.end(), [&](Length x) { return x.si > d.si - touch; });
    if (above != sizes.end() && std::abs(above->si - d.si) < touch) return;
    std::string near;
    if (above != sizes.begin() && !sizes.empty()) near = said(job_, *std::prev(above));
    if (above != sizes.end()) near += (near.empty() ? "" : " and ") + said(job_, *above);
    caution("stock " + said(job_, d) + " is not on the list of " + c.name +
            " bar; the next sizes are " + near);
  }

  void lengths(const StockCondition& c, const PartStock& asked) {
    Stock& s = job_.stock;
    const Length each = asked.facing.value_or(c.facing);
    s.facing_right = job_.part.right_face.machined ? each : Length(0.0);
    s.facing_left = job_.part.left_face.machined && !s.from_bar ? each : Length(0.0);
    s.length = job_.part.overall + s.facing_right + s.facing_left;
    if (!asked.length) return;
    const Length spare = *asked.length - job_.part.overall;
    const int ends = (s.facing_right.si > 0 ? 1 : 0) + (s.facing_left.si > 0 ? 1 : 0);
    if (spare.si < -touch || (ends == 0 && spare.si > touch)) {
      add(asked.at,
          "a blank of " + said(job_, *asked.length) + " for a part of " +
              said(job_, job_.part.overall),
          "the part's length and something to face");
      return;
    }
    s.length = *asked.length;
    if (ends == 0) return;
    const Length share = spare / static_cast<double>(ends);
    if (s.facing_right.si > 0) s.facing_right = share;
    if (s.facing_left.si > 0) s.facing_left = share;
  }

  const Shop& shop_;
  Job job_;
  Problems problems_;
};

}  // namespace

bool Surface::needs_finish() const {
  // A roughing cut gives IT11 and Ra 6.3 at best (process capability, from memory).
  return !as_drawn && (grade <= 10 || (ra.si > 0 && ra.si < 6.3e-6 - 1e-12));
}

Checked<Job> prepare(const Part& part, const Shop& shop) { return Preparer(part, shop).prepare(); }

}  // namespace turnwright
