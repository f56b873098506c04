// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "examples.hpp"
#include "read_element.hpp"

namespace turnwright {
namespace {

constexpr double same_point = 1e-9;
constexpr int finest_knurled = 11;  // IT; a knurl has no diameter that a fit could hold
constexpr Length largest_diameter(10.0), largest_length(100.0);

// One outside or one bore, with its elements from the right-hand face or from the mouth.
struct Contour {
  std::vector<Element>& elements;
  bool bore = false, from_left = false;
  Length total{};  // of the part
  ProblemList& problems;
};

void place_along_axis(const Contour& c) {
  Length end(0.0);
  for (Element& e : c.elements) {
    if (e.through && !c.bore) {
      c.problems.add(e.at, 1, Message{"part.through-outside", {{"word", "through"}}},
                     "part.wants-length");
      e.from = e.to = end;
      continue;
    }
    const bool ordinate = e.from.si < 0;
    const Length to = e.through ? c.total : ordinate ? e.to : end + e.to;
    e.from = end;
    e.to = to;
    if (to.si - end.si < 2 * same_point)  // an outline leaves out what is shorter than one
      c.problems.add(e.at, 1,
                     ordinate ? Message{"part.ends-before", {{"end", to}, {"before", end}}}
                              : Message{"part.no-length"},
                     "part.wants-length-above-zero");
    end = to;
  }
}

// The diameters on both sides of an element's end.
struct Step {
  Length own{}, other{};
};
Step step_at(const std::vector<Element>& elements, std::size_t i, bool right) {
  return {right ? elements[i].size.nominal : elements[i].left_size.nominal,
          right ? elements[i - 1].left_size.nominal : elements[i + 1].size.nominal};
}

// Whether the neighbour at that end is smaller (or none: an end face). The bottom of a blind bore
// is no free edge.
bool has_free_edge(const Contour& c, std::size_t i, Side side) {
  const bool right = side == Side::right;
  if (!right && i + 1 == c.elements.size())
    return !c.bore || c.elements[i].to.si > c.total.si - same_point;
  if (right && i == 0) return true;
  const auto [own, other] = step_at(c.elements, i, right);
  return c.bore ? other.si > own.si + same_point : other.si < own.si - same_point;
}
bool has_corner(const Contour& c, std::size_t i, Side side) {
  const bool right = side == Side::right;
  if (!right && i + 1 == c.elements.size()) return c.bore && c.elements[i].flat;
  if (right && i == 0) return false;
  const auto [own, other] = step_at(c.elements, i, right);
  return c.bore ? other.si < own.si - same_point : other.si > own.si + same_point;
}

Side other_side(Side side) {
  return side == Side::right ? Side::left : side == Side::left ? Side::right : Side::unsaid;
}

// What is said of a feature that wants a certain place at an end of its element.
struct PlaceMessages {
  const char *nowhere, *not_right, *not_left, *wants_place, *wants_side;
};
constexpr PlaceMessages free_edge_messages{"part.no-free-edge", "part.no-free-edge-right",
                                           "part.no-free-edge-left", "part.wants-free-edge",
                                           "part.wants-side-with-free-edge"};
constexpr PlaceMessages corner_messages{"part.no-corner", "part.no-corner-right",
                                        "part.no-corner-left", "part.wants-corner",
                                        "part.wants-side-with-corner"};

template <class Item, class Fits>
void settle_side(const Contour& c, Item& item, Fits fits, const PlaceMessages& say,
                 const char* feature) {
  const bool right = fits(Side::right), left = fits(Side::left);
  const std::vector<Place> places{{"feature", Message{feature}}};
  if (item.side != Side::unsaid) {
    const bool drawn_right = (item.side == Side::right) != c.from_left;
    if (!fits(item.side))
      c.problems.add(item.at, 1, Message{drawn_right ? say.not_right : say.not_left, places},
                     say.wants_side);
  } else if (right && left) {
    c.problems.add(
        item.at, 1, Message{"part.side-unclear", places},
        Message{"part.wants-side", {{"right", "right"}, {"left", "left"}, {"both", "both"}}});
  } else if (!right && !left) {
    c.problems.add(item.at, 1, Message{say.nowhere, places}, say.wants_place);
  } else {
    item.side = right ? Side::right : Side::left;
  }
}

void settle_sides(const Contour& c, std::size_t i) {
  for (EdgeBreak& edge : c.elements[i].breaks)
    settle_side(
        c, edge, [&](Side s) { return has_free_edge(c, i, s); }, free_edge_messages,
        edge.round ? "part.round" : "part.chamfer");
  for (Corner& corner : c.elements[i].corners)
    settle_side(
        c, corner, [&](Side s) { return has_corner(c, i, s); }, corner_messages,
        corner.kind == CornerKind::fillet ? "part.fillet" : "part.relief");
}

void check_arc(const Element& e, ProblemList& problems) {
  const double dz = e.length().si;
  const double dr = std::abs(e.left_size.nominal.si - e.size.nominal.si) / 2;
  if (2 * e.radius.si < std::hypot(dz, dr) - same_point)
    problems.add(e.at, 1, "part.arc-too-small",
                 Message{"part.wants-radius-of", {{"least", Length(std::hypot(dz, dr) / 2)}}});
}

void check_sizes(const Element& e, ProblemList& problems) {
  if (e.size.nominal.si <= 0 || e.left_size.nominal.si <= 0) {
    if (problems.clean())
      problems.add(e.at, 1, "part.no-diameter", "part.wants-diameter-above-zero");
    return;
  }
  const bool wide = std::max(e.size.nominal, e.left_size.nominal) > largest_diameter;
  if (wide || e.length() > largest_length)
    problems.add(e.at, 1,
                 Message{"part.too-large", {{"most", wide ? largest_diameter : largest_length}}},
                 "part.wants-turned-part");
  if (e.kind == ElementKind::arc) check_arc(e, problems);
}

void check_groove_depth(const Groove& g, Length surface, bool bore, ProblemList& problems) {
  if (g.bottom && bore && g.bottom->si <= surface.si)
    problems.add(g.at, 1, Message{"part.groove-bottom-inside", {{"bore", surface}}},
                 "part.wants-larger-than-bore");
  if (g.bottom && !bore && (g.bottom->si >= surface.si || g.bottom->si <= 0))
    problems.add(g.at, 1, Message{"part.groove-bottom-outside", {{"surface", surface}}},
                 "part.wants-smaller-than-surface");
  if (g.depth && !bore && 2 * g.depth->si >= surface.si)
    problems.add(g.at, 1, "part.groove-too-deep", "part.wants-less-than-radius");
}

void check_groove_place(const Groove& g, const Element& e, ProblemList& problems) {
  if (g.from &&
      (g.from->si < e.from.si - same_point || (*g.from + g.width).si > e.to.si + same_point))
    problems.add(
        g.at, 1,
        Message{"part.groove-outside-element",
                {{"at", *g.from}, {"end", *g.from + g.width}, {"from", e.from}, {"to", e.to}}},
        "part.wants-place-inside");
  if (g.at_shoulder && g.width.si > e.length().si + same_point)
    problems.add(g.at, 1, "part.groove-too-wide", "part.wants-narrower-groove");
}

void check_grooves(const Element& e, bool bore, ProblemList& problems) {
  for (const Groove& g : e.grooves) {
    check_groove_depth(g, e.size.nominal, bore, problems);
    check_groove_place(g, e, problems);
  }
}

// A cone in a bore narrows inwards; a Morse taper has its gauge diameter at the mouth.
void invert_cone(Element& e) {
  if (e.kind != ElementKind::cone) return;
  if (e.morse) std::swap(e.size, e.left_size);
  if (e.taper) e.left_size.nominal = e.size.nominal - *e.taper * e.to;
}

void check_undercut(const Element& e, ProblemList& problems) {
  if (!e.undercut) return;
  if (e.kind != ElementKind::thread)
    problems.add(e.undercut->at, 1, "part.undercut-without-thread",
                 Message{"part.wants-groove", {{"example", "groove 3 wide to 22 at shoulder"}}});
  else if (e.undercut->width.si >= e.length().si)
    problems.add(
        e.undercut->at, 1,
        Message{"part.undercut-too-wide", {{"width", e.undercut->width}, {"length", e.length()}}},
        "part.wants-longer-thread");
}

void check_knurl(const Element& e, bool bore, ProblemList& problems) {
  if (!e.knurl) return;
  const bool fit = !e.size.letters.empty() && e.size.grade < finest_knurled;
  if (fit)
    problems.add(
        e.knurl->at, 1,
        Message{"part.knurl-on-fit", {{"fit", e.size.letters + std::to_string(e.size.grade)}}},
        Message{"part.wants-plain-diameter", {{"grade", finest_knurled}}});
  else if (bore || e.kind != ElementKind::cylinder || e.as_drawn)
    problems.add(e.knurl->at, 1, "part.knurl-out-of-reach", "part.wants-turned-cylinder");
}

// Seen from the face of entry: what the drawing calls left is the mouth of a bore from the left.
void mirror_sides(std::vector<Element>& elements) {
  for (Element& e : elements) {
    for (EdgeBreak& b : e.breaks) b.side = other_side(b.side);
    for (Corner& c : e.corners) c.side = other_side(c.side);
  }
}

// An arc starts at the diameter before it, or in the centre of the face.
void start_arcs(std::vector<Element>& elements) {
  for (std::size_t i = 0; i < elements.size(); ++i) {
    Element& e = elements[i];
    if (e.kind != ElementKind::arc || e.from_step) continue;
    e.size = i == 0 ? e.left_size : elements[i - 1].left_size;
    if (i == 0) e.size.nominal = Length(1e-6);
  }
}

}  // namespace

void place_elements(std::vector<Element>& elements, Region region, Length total,
                    ProblemList& problems) {
  const Contour c{elements, region != Region::outside, region == Region::bore_left, total,
                  problems};
  if (c.from_left) mirror_sides(elements);
  start_arcs(elements);
  if (c.bore)
    for (Element& e : elements) invert_cone(e);
  place_along_axis(c);
  for (std::size_t i = 0; i < elements.size(); ++i) {
    check_sizes(elements[i], problems);
    settle_sides(c, i);
    check_grooves(elements[i], c.bore, problems);
    check_undercut(elements[i], problems);
    check_knurl(elements[i], c.bore, problems);
  }
}

}  // namespace turnwright
