// SPDX-License-Identifier: MIT
#include <cmath>

#include "read_element.hpp"

namespace turnwright {
namespace {

constexpr double touch = 1e-9;

std::string millimetres(Length l) { return readable(in(l, unit::mm), 6) + " mm"; }

void place_runs(std::vector<Element>& elements, bool bore, Length total, Notes& notes) {
  Length end(0.0);
  for (Element& e : elements) {
    const bool ordinate = e.from.si < 0;
    const Length to = e.through ? total : ordinate ? e.to : end + e.to;
    e.from = end;
    e.to = to;
    if (to.si - end.si < touch)
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

// Whether the neighbour at that end is smaller (or none: an end face).
bool free_edge(const std::vector<Element>& elements, std::size_t i, Side side, bool bore) {
  const bool right = side == Side::right;
  if (right ? i == 0 : i + 1 == elements.size()) return true;
  const Length own = right ? elements[i].size.nominal : elements[i].left_size.nominal;
  const Length other = right ? elements[i - 1].left_size.nominal : elements[i + 1].size.nominal;
  return bore ? other.si > own.si + touch : other.si < own.si - touch;
}
bool inner_corner(const std::vector<Element>& elements, std::size_t i, Side side, bool bore) {
  const bool right = side == Side::right;
  if (right ? i == 0 : i + 1 == elements.size()) return false;
  const Length own = right ? elements[i].size.nominal : elements[i].left_size.nominal;
  const Length other = right ? elements[i - 1].left_size.nominal : elements[i + 1].size.nominal;
  return bore ? other.si < own.si - touch : other.si > own.si + touch;
}

template <class Item, class Fits>
void settle(Item& item, Fits fits, const char* what, const char* place, Notes& notes) {
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
                  (item.side == Side::right ? "right" : "left") + " for this " + what,
              std::string("the side with the ") + place);
  }
}

void check_sizes(std::vector<Element>& elements, std::size_t i, Notes& notes) {
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
    if (2 * e.radius.si < std::hypot(dz, dr) - touch)
      notes.add(e.at, 1, "an arc whose radius cannot span its ends",
                "a radius of at least " + millimetres(Length(std::hypot(dz, dr) / 2)));
  }
}

void check_grooves(const Element& e, Notes& notes) {
  for (const Groove& g : e.grooves) {
    const Length surface = e.size.nominal;
    if (g.bottom && (g.bottom->si >= surface.si || g.bottom->si <= 0))
      notes.add(g.at, 1, "a groove bottom that is not below its surface " + millimetres(surface),
                "a diameter smaller than the surface");
    if (g.depth && 2 * g.depth->si >= surface.si)
      notes.add(g.at, 1, "a groove deeper than the radius", "a depth below half the diameter");
    if (g.from && (g.from->si < e.from.si - touch || (*g.from + g.width).si > e.to.si + touch))
      notes.add(g.at, 1,
                "a groove at " + millimetres(*g.from) + " that is not inside its element (" +
                    millimetres(e.from) + " to " + millimetres(e.to) + ")",
                "a place inside the element, from the face of reference");
    if (g.at_shoulder && g.width.si > e.length().si + touch)
      notes.add(g.at, 1, "a groove wider than its element", "a narrower groove");
  }
}

}  // namespace

void place_elements(std::vector<Element>& elements, bool bore, Length total, Notes& notes) {
  // An arc starts at the diameter before it.
  for (std::size_t i = 0; i < elements.size(); ++i)
    if (elements[i].kind == ElementKind::arc) {
      if (i == 0)
        elements[i].size = elements[i].left_size, elements[i].size.nominal = Length(1e-6);
      else
        elements[i].size = elements[i - 1].left_size;
    }
  place_runs(elements, bore, total, notes);
  for (std::size_t i = 0; i < elements.size(); ++i) {
    Element& e = elements[i];
    check_sizes(elements, i, notes);
    for (EdgeBreak& edge : e.breaks)
      settle(
          edge, [&](Side s) { return free_edge(elements, i, s, bore); },
          edge.round ? "round" : "chamfer", "free edge", notes);
    for (Corner& corner : e.corners)
      settle(
          corner, [&](Side s) { return inner_corner(elements, i, s, bore); },
          corner.kind == CornerKind::fillet ? "fillet" : "relief", "corner", notes);
    check_grooves(e, notes);
  }
}

}  // namespace turnwright
