// SPDX-License-Identifier: MIT
// The material of the part, and what the drawing asks for that is not turned.
#include "prepare/part_words.hpp"
#include "prepare/preparation.hpp"

namespace turnwright {
namespace {

void refuse_material(Preparation& p) {
  const std::string& name = p.job.part.material;
  p.refuse(p.job.part.material_at, {"prepare.unknown-material", {{"material", name}}},
           {"prepare.expect-material", {{"near", verbatims(p.shop.material_names(name))}}});
}

Material described(const Material& listed, const MaterialLike& like) {
  Material m = listed;
  if (like.hardness) m.hardness = {*like.hardness, *like.hardness};
  if (like.density) m.density = *like.density;
  if (like.price) {
    m.price = like.price;
    m.price_confirmed = true;
  }
  m.name = name_like(m.name);
  return m;
}

// A feature with a time of the estimator's own: its blank is turned, the time taken as it stands.
void note_stated_time(Preparation& p, const Element& e, Region region) {
  const bool solid = region != Region::outside && e.kind != ElementKind::thread;
  const Place element("element", e.text), time("time", *e.allow);
  p.caution(solid ? Message{"prepare.stated-time-stays-solid", {element, time}}
                  : Message{"prepare.stated-time-blank-turned", {element, time}});
  const Length middle = (e.from + e.to) / 2.0;
  const bool left = region == Region::bore_left;
  p.job.given.push_back(
      {surface_name(e, region), *e.allow, left ? p.job.left() + middle : -middle, left});
}

void refuse_element(Preparation& p, const Element& e, Region region) {
  const bool inside = region != Region::outside;
  if (e.ground && !e.allow && e.leave.si <= 0)
    p.refuse(e.at, "prepare.ground-surface", "prepare.expect-left-on");
  if (inside && e.kind == ElementKind::polygon)
    p.refuse(e.at, "prepare.flats-in-bore", "prepare.expect-broaching");
  if (inside && e.as_drawn) p.refuse(e.at, "prepare.bore-as-drawn", "prepare.expect-tube");
}

}  // namespace

void find_material(Preparation& p) {
  const Part& part = p.job.part;
  for (const std::string& what : part.to_confirm)
    p.job.unconfirmed.push_back({"prepare.to-confirm", {{"what", what}}});
  if (part.material.empty()) {  // a draft is looked at, not planned
    p.job.material = p.shop.materials.front();
    p.job.material.name.clear();
    p.job.material.density = Density(0.0);
    return;
  }
  const Material* found = p.shop.material(part.material);
  if (found == nullptr) {
    refuse_material(p);
    return;
  }
  p.job.material = part.like ? described(*found, *part.like) : *found;
  const Material& m = p.job.material;
  if (m.price_confirmed || part.stock.customers) return;
  const Place material("material", m.name);
  p.job.unconfirmed.push_back(m.price ? Message{"prepare.price-not-confirmed", {material}}
                                      : Message{"prepare.no-material-price", {material}});
}

void refuse_unplanned(Preparation& p) {
  for (const Region region : {Region::outside, Region::bore_right, Region::bore_left})
    for (const Element& e : p.elements(region)) {
      if (e.allow) note_stated_time(p, e, region);
      refuse_element(p, e, region);
    }
}

}  // namespace turnwright
