// SPDX-License-Identifier: MIT
#include "prepare/sizes.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <tuple>

#include "prepare/corners.hpp"
#include "prepare/part_words.hpp"
#include "turnwright/figure/threads.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/route/fitted_taper.hpp"

namespace turnwright {
namespace {

// Listed at the size, of holes or of shafts, those of the same letters first, by their grade and
// letter.
std::vector<std::string> likely_fits(const Standards& standards, const Size& size) {
  const bool hole = std::isupper(static_cast<unsigned char>(size.letters[0])) != 0;
  std::vector<std::string> names = standards.fits_at(size.nominal, hole);
  auto distance = [&size](const std::string& name) {
    const std::size_t letters = name.find_first_of("0123456789");
    const bool same = name.substr(0, letters) == size.letters;
    return std::tuple(!same, std::abs(std::stoi(name.substr(letters)) - size.grade),
                      std::abs(name[0] - size.letters[0]));
  };
  std::stable_sort(names.begin(), names.end(),
                   [&](const auto& a, const auto& b) { return distance(a) < distance(b); });
  return names;
}

std::optional<Deviations> listed_fit(Preparation& p, const Element& e, const Size& size) {
  const auto fit = p.shop.standards.fit(size.letters, size.grade, size.nominal);
  if (fit) return fit;
  const std::string name = size.letters + std::to_string(size.grade);
  p.refuse(e.at, {"prepare.fit-not-listed", {{"fit", name}, {"size", size.nominal}}},
           "prepare.expect-fit", nearest(name, likely_fits(p.shop.standards, size)));
  return std::nullopt;
}

Deviations general_deviations(const Preparation& p, Length nominal) {
  const GeneralTolerances& g = p.job.part.drawing.general;
  const Length half =
      g.plus_minus
          ? *g.plus_minus
          : p.shop.standards.general_tolerance(general_class(g), nominal).value_or(0.3 * unit::mm);
  return {half, -half};
}

std::optional<Deviations> deviations_of(Preparation& p, const Element& e, const Size& size) {
  if (!size.letters.empty()) return listed_fit(p, e, size);
  if (size.toleranced) return Deviations{size.upper, size.lower};
  return general_deviations(p, size.nominal);
}

// The rolls raise the metal: the blank is smaller, and rough turning is good enough for it.
void start_of_knurl(Preparation& p, const Element& e, Surface& s) {
  const KnurlSize* size = p.shop.standards.knurl(e.knurl->kind);
  if (size == nullptr) {
    p.refuse(e.knurl->at, {"prepare.knurl-without-start", {{"knurl", e.knurl->kind}}},
             "prepare.expect-knurl-record");
    return;
  }
  s.left_radius = s.right_radius = figure::KnurlStartDiameter::work_out<>(
                                       {2.0 * s.right_radius, e.knurl->pitch, Number(size->share)})
                                       .start_diameter /
                                   2.0;
  s.ra = Length(0.0);
}

bool tapers(const Element& e) { return e.kind == ElementKind::cone || e.kind == ElementKind::arc; }

void mean_radii(Preparation& p, const Element& e, Surface& s) {
  const auto& before = p.job.surfaces;
  s.right_radius = mean_radius(p, e, e.size, s);
  s.left_radius = tapers(e) ? mean_radius(p, e, e.left_size, s) : s.right_radius;
  // An arc goes on where the surface before it ends, or at the axis.
  if (e.kind == ElementKind::arc && !e.from_step)
    s.right_radius = before.empty() ? Length(0.0) : before.back().left_radius;
}

void measure(Preparation& p, std::size_t i) {
  const Element& e = p.job.part.outside[i];
  Surface s = plain_surface(p.shop, e, i, Region::outside);
  s.left = -e.to;
  s.right = -e.from;
  s.as_drawn = e.as_drawn || e.kind == ElementKind::polygon;
  s.gripable = e.kind == ElementKind::cylinder && !e.knurl;
  mean_radii(p, e, s);
  if (e.kind == ElementKind::thread) {
    s.left_radius = s.right_radius = s.right_radius - p.shop.practice.thread_blank_under_size;
    s.gripable = false;
  }
  if (e.kind == ElementKind::polygon) {
    s.left_radius = s.right_radius = corners_of(e.hexagon) * e.size.nominal / 2.0;
    s.gripable = true;  // three jaws on a hexagon, four on a square
  }
  if (e.knurl) start_of_knurl(p, e, s);
  leave_on(p, e, s, 1.0);
  p.job.surfaces.push_back(s);
}

}  // namespace

Surface plain_surface(const Shop& shop, const Element& e, std::size_t in_list, Region region) {
  Surface s;
  s.element = in_list;
  s.region = region;
  s.name = surface_name(e, region);
  s.ra = e.ra.value_or(Length(0.0));
  // A ring, a plug or a taper gauge.
  if (e.kind == ElementKind::thread || is_fitted_taper(e))
    s.gauge_share = shop.gauging_share(shop.practice.threads_gauged_as);
  if (e.gauge_share) s.gauge_share = *e.gauge_share;
  return s;
}

Length mean_radius(Preparation& p, const Element& e, const Size& size, Surface& s) {
  s.toleranced = size.toleranced || !size.letters.empty();
  const auto deviations = deviations_of(p, e, size);
  if (!deviations) return size.nominal / 2.0;
  const auto& [upper, lower] = *deviations;
  s.tolerance = upper - lower;
  s.grade = size.letters.empty() ? grade_of(size.nominal, s.tolerance) : size.grade;
  // Symmetric deviations keep the nominal size to the last digit.
  return upper.si == -lower.si ? size.nominal / 2.0 : (size.nominal + (upper + lower) / 2.0) / 2.0;
}

namespace {
// The size and finish of the drawing come later: what is left on is turned to those of a seat that
// will be ground.
void turned_for_grinding(const Practice& practice, Surface& s) {
  s.ra = s.ra.si > 0 ? max(s.ra, practice.ground_seat_roughness) : s.ra;
  const Length tolerance = 2.0 * practice.ground_seat_turned_to;
  if (s.tolerance >= tolerance) return;
  s.tolerance = tolerance;
  s.grade = std::max(s.grade, grade_of(s.diameter(), tolerance));
}
}  // namespace

void leave_on(Preparation& p, const Element& e, Surface& s, double away) {
  const Place element("element", e.text);
  if (e.leave.si > 0) {
    s.left_radius = s.left_radius + away * e.leave / 2.0;
    s.right_radius = s.right_radius + away * e.leave / 2.0;
    turned_for_grinding(p.shop.practice, s);
    p.caution(
        {"prepare.left-on", {element, {"leave", e.leave}, {"ra", measure(s.ra, unit::um, 2)}}});
  }
  if (e.ra_from_rz) p.caution({"prepare.ra-from-rz", {element}});
  if (std::any_of(e.grooves.begin(), e.grooves.end(),
                  [](const Groove& g) { return g.kind == GrooveKind::o_ring; }))
    p.caution({"prepare.o-ring-groove",
               {element,
                {"width", Figure{p.shop.practice.o_ring_width}},
                {"depth", Figure{p.shop.practice.o_ring_depth}}}});
}

void measure_outside(Preparation& p) {
  for (std::size_t i = 0; i < p.job.part.outside.size(); ++i) measure(p, i);
}

}  // namespace turnwright
