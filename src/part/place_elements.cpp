// SPDX-License-Identifier: MIT
#include <cmath>

#include "read_element.hpp"

namespace turnwright {
namespace {

constexpr double same_point = 1e-9;
constexpr int finest_knurled = 11;  // IT; a knurl has no diameter that a fit could hold

std::string millimetres(Length l) { return readable(in(l, unit::mm), 6) + " mm"; }

void place_runs(std::vector<Element>& elements, bool bore, Length total, ProblemList& notes) {
  Length end(0.0);
  for (Element& e : elements) {
    const bool ordinate = e.from.si < 0;
    const Length to = e.through ? total : ordinate ? e.to : end + e.to;
    e.from = end;
    e.to = to;
    if (to.si - end.si < same_point)
      notes.add(e.at, 1,
                ordinate ? "this element ends at " + millimetres(to) +
                               ", where the one before it ends (" + millimetres(end) + ")"
                         : "an element without length",
                "a length above 0");
    if (e.through && !bore && !elements.empty() && &e != &elements.back())
      notes.add(e.at, 1, "'through' stands before other elements", "a length");
    end = to;
  }
}

// Whether the neighbour at that end is smaller (or none: an end face). The bottom of a blind bore
// is no free edge.
bool free_edge(const std::vector<Element>& elements, std::size_t i, Side side, bool bore,
               Length total) {
  const bool right = side == Side::right;
  if (!right && i + 1 == elements.size()) return !bore || elements[i].to.si > total.si - same_point;
  if (right && i == 0) return true;
  const Length own = right ? elements[i].size.nominal : elements[i].left_size.nominal;
  const Length other = right ? elements[i - 1].left_size.nominal : elements[i + 1].size.nominal;
  return bore ? other.si > own.si + same_point : other.si < own.si - same_point;
}
bool inner_corner(const std::vector<Element>& elements, std::size_t i, Side side, bool bore) {
  const bool right = side == Side::right;
  if (!right && i + 1 == elements.size()) return bore && elements[i].flat;
  if (right && i == 0) return false;
  const Length own = right ? elements[i].size.nominal : elements[i].left_size.nominal;
  const Length other = right ? elements[i - 1].left_size.nominal : elements[i + 1].size.nominal;
  return bore ? other.si < own.si - same_point : other.si > own.si + same_point;
}

Side other_side(Side side) {
  return side == Side::right ? Side::left : side == Side::left ? Side::right : Side::unsaid;
}

template <class Item, class Fits>
void settle(Item& item, Fits fits, const char* what, const char* place, bool mirrored,
            ProblemList& notes) {
  const bool right = fits(Side::right), left = fits(Side::left);
  if (item.side == Side::unsaid) {
    if (right && left)
      notes.add(item.at, 1,
                std::string("right, left or both? this ") + what + " fits on either side",
                std::string(what) + " … right, left or both");
    else if (!right && !left)
      notes.add(item.at, 1, std::string("no ") + place + " for this " + what,
                std::string("an element with a ") + place);
    else
      item.side = right ? Side::right : Side::left;
  } else if (!fits(item.side)) {
    notes.add(item.at, 1,
              std::string("no ") + place + " on the " +
                  ((item.side == Side::right) != mirrored ? "right" : "left") + " for this " + what,
              std::string("the side with the ") + place);
  }
}

void check_sizes(std::vector<Element>& elements, std::size_t i, ProblemList& notes) {
  Element& e = elements[i];
  if (e.size.nominal.si <= 0 || e.left_size.nominal.si <= 0) {
    if (notes.clean()) notes.add(e.at, 1, "an element without diameter", "a diameter above 0");
    return;
  }
  if (e.size.nominal.si > 10 || e.length().si > 100)
    notes.add(e.at, 1, "a size of more than 10 m", "a turned part");
  if (e.kind == ElementKind::arc) {
    const double dz = e.length().si;
    const double dr = std::abs(e.left_size.nominal.si - e.size.nominal.si) / 2;
    if (2 * e.radius.si < std::hypot(dz, dr) - same_point)
      notes.add(e.at, 1, "an arc whose radius cannot span its ends",
                "a radius of at least " + millimetres(Length(std::hypot(dz, dr) / 2)));
  }
}

void check_grooves(const Element& e, bool bore, ProblemList& notes) {
  for (const Groove& g : e.grooves) {
    const Length surface = e.size.nominal;
    if (g.bottom && bore && g.bottom->si <= surface.si)
      notes.add(g.at, 1, "a groove bottom that is not outside of its bore " + millimetres(surface),
                "a diameter larger than the bore");
    if (g.bottom && !bore && (g.bottom->si >= surface.si || g.bottom->si <= 0))
      notes.add(g.at, 1, "a groove bottom that is not below its surface " + millimetres(surface),
                "a diameter smaller than the surface");
    if (g.depth && !bore && 2 * g.depth->si >= surface.si)
      notes.add(g.at, 1, "a groove deeper than the radius", "a depth below half the diameter");
    if (g.from &&
        (g.from->si < e.from.si - same_point || (*g.from + g.width).si > e.to.si + same_point))
      notes.add(g.at, 1,
                "a groove at " + millimetres(*g.from) + " that is not inside its element (" +
                    millimetres(e.from) + " to " + millimetres(e.to) + ")",
                "a place inside the element, from the face of reference");
    if (g.at_shoulder && g.width.si > e.length().si + same_point)
      notes.add(g.at, 1, "a groove wider than its element", "a narrower groove");
  }
}

// A cone in a bore narrows inwards; a Morse taper has its gauge diameter at the mouth.
void turn_cone(Element& e) {
  if (e.kind != ElementKind::cone) return;
  if (e.morse) std::swap(e.size, e.left_size);
  if (e.taper) e.left_size.nominal = e.size.nominal - *e.taper * e.to;
}

void check_thread(const Element& e, ProblemList& notes) {
  if (e.undercut && e.kind != ElementKind::thread)
    notes.add(e.undercut->at, 1, "an undercut on an element that is no thread",
              "a groove, as 'groove 3 wide to 22 at shoulder'");
  else if (e.undercut && e.undercut->width.si >= e.length().si)
    notes.add(e.undercut->at, 1,
              "an undercut of " + millimetres(e.undercut->width) + " in a thread of " +
                  millimetres(e.length()),
              "a thread longer than its undercut");
}

void check_knurl(const Element& e, bool bore, ProblemList& notes) {
  if (!e.knurl) return;
  const bool fit = !e.size.letters.empty() && e.size.grade < finest_knurled;
  if (fit)
    notes.add(e.knurl->at, 1, "a knurl on the fit " + e.size.letters + std::to_string(e.size.grade),
              "a plain diameter, or IT11 and coarser");
  else if (bore || e.kind != ElementKind::cylinder || e.as_drawn)
    notes.add(e.knurl->at, 1, "a knurl that no wheel reaches", "a turned cylinder of the outside");
}

}  // namespace

void place_elements(std::vector<Element>& elements, Region region, Length total,
                    ProblemList& notes) {
  const bool bore = region != Region::outside, mirrored = region == Region::bore_left;
  // Seen from the face of entry: what the drawing calls left is the mouth of a bore from the left.
  if (mirrored)
    for (Element& e : elements) {
      for (EdgeBreak& b : e.breaks) b.side = other_side(b.side);
      for (Corner& c : e.corners) c.side = other_side(c.side);
    }
  // An arc starts at the diameter before it.
  for (std::size_t i = 0; i < elements.size(); ++i)
    if (elements[i].kind == ElementKind::arc) {
      if (i == 0)
        elements[i].size = elements[i].left_size, elements[i].size.nominal = Length(1e-6);
      else
        elements[i].size = elements[i - 1].left_size;
    }
  if (bore)
    for (Element& e : elements) turn_cone(e);
  place_runs(elements, bore, total, notes);
  for (std::size_t i = 0; i < elements.size(); ++i) {
    Element& e = elements[i];
    check_sizes(elements, i, notes);
    for (EdgeBreak& edge : e.breaks)
      settle(
          edge, [&](Side s) { return free_edge(elements, i, s, bore, total); },
          edge.round ? "round" : "chamfer", "free edge", mirrored, notes);
    for (Corner& corner : e.corners)
      settle(
          corner, [&](Side s) { return inner_corner(elements, i, s, bore); },
          corner.kind == CornerKind::fillet ? "fillet" : "relief", "corner", mirrored, notes);
    check_grooves(e, bore, notes);
    check_thread(e, notes);
    check_knurl(e, bore, notes);
  }
}

}  // namespace turnwright
