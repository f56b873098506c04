// SPDX-License-Identifier: MIT
// Tolerances of position refer to seats of the same part.
#include <algorithm>

#include "part_sections.hpp"

namespace turnwright {
namespace {

std::vector<std::string> seats_of(const std::vector<const Element*>& elements) {
  std::vector<std::string> seats;
  for (const Element* e : elements)
    if (!e->seat.empty()) seats.push_back(e->seat);
  return seats;
}

void refuse_unknown(const Tie& tie, const std::vector<std::string>& seats, ProblemList& problems) {
  if (std::find(seats.begin(), seats.end(), tie.datum) != seats.end()) return;
  problems.add(tie.at, static_cast<int>(characters(tie.datum)),
               Message{"part.no-seat", {{"datum", tie.datum}}},
               seats.empty() ? Message("part.wants-seat") : one_of(seats),
               nearest(tie.datum, seats));
}

}  // namespace

void check_seats(const Part& part, ProblemList& problems) {
  std::vector<const Element*> elements;
  for (const auto* list : {&part.outside, &part.bore_right, &part.bore_left})
    for (const Element& e : *list) elements.push_back(&e);
  const std::vector<std::string> seats = seats_of(elements);
  for (const Element* e : elements)
    for (const Tie& tie : e->ties) refuse_unknown(tie, seats, problems);
}

}  // namespace turnwright
