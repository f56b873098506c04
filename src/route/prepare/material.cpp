// SPDX-License-Identifier: MIT
// The material of the part, and what the drawing asks for that is not turned.
#include <algorithm>
#include <array>
#include <cctype>

#include "prepare/part_words.hpp"
#include "prepare/preparation.hpp"
#include "turnwright/route/other_condition.hpp"

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

// What other work does to a size, by the words that drawings and customers have for it.
constexpr std::array hardening{"harden",      "nitrid",  "carburi",    "quench",
                               "h\xc3\xa4rt", "nitrier", "einsatzgeh", "verg\xc3\xbct"};
constexpr std::array coating{"plated",     "plating",   "coat",     "anodi",   "galvani",
                             "chrom",      "nickel",    "phosphat", "verzink", "vernick",
                             "beschichte", "beschicht", "eloxier",  "pulver"};

bool names_any(const std::string& work, const auto& words) {
  std::string text = work;
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return std::any_of(words.begin(), words.end(),
                     [&](const char* word) { return text.find(word) != std::string::npos; });
}

// Turned to size more closely than a seat that is still to be ground.
bool is_finished_fit(const Preparation& p, const Surface& s) {
  return s.toleranced && p.job.element_of(s).leave.si <= 0 &&
         s.tolerance < 2.0 * p.shop.practice.ground_seat_turned_to;
}

Messages finished_fits(const Preparation& p, bool threads_too) {
  Messages names;
  for (const Surface& s : p.job.surfaces) {
    const bool thread = p.job.element_of(s).kind == ElementKind::thread;
    if (thread ? threads_too : is_finished_fit(p, s)) add_once(names, s.name);
  }
  return names;
}

}  // namespace

void doubt_finished_fits(Preparation& p) {
  for (const OtherWork& work : p.job.part.other_work) {
    if (work.after == WorkAfter::roughing) continue;
    const bool coats = names_any(work.what, coating);
    if (!coats && !names_any(work.what, hardening)) continue;
    Messages fits = finished_fits(p, coats);
    if (fits.empty()) continue;
    std::vector<Place> places{{"work", work.what}, {"surfaces", std::move(fits)}};
    if (!coats) places.emplace_back("leave", p.shop.practice.left_for_grinding);
    p.caution({coats ? "prepare.coated-after" : "prepare.hardened-after", std::move(places)});
  }
}

const Material* other_condition(const Part& part, const Shop& shop) {
  const Material* read = shop.material(part.material);
  if (read == nullptr || part.like) return nullptr;
  const std::size_t plus = read->name.find('+');
  if (plus == std::string::npos) return nullptr;
  const std::string grade = read->name.substr(0, plus + 1);
  for (const Material& m : shop.materials)
    if (&m != read && m.name.starts_with(grade) &&
        shop.material(part.material + " " + m.name.substr(plus)) == &m)
      return &m;
  return nullptr;
}

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
  if (const Material* other = other_condition(part, p.shop))
    p.caution({"prepare.condition-unsaid",
               {{"asked", part.material}, {"read", found->name}, {"other", other->name}}});
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
