// SPDX-License-Identifier: MIT
#include "turnwright/figure/slope.hpp"

#include <cmath>

namespace turnwright {

double slope(const ExpressionGraph& record, const Expression& number, const Expression& leaf) {
  if (number.record != &record || leaf.record != &record) return std::nan("");
  // Terms stand after those that they are made of.
  std::vector<double> d(static_cast<std::size_t>(number.term) + 1, 0.0);
  std::vector<bool> holds(d.size(), false);  // the leaf is in it
  auto value = [&](int i) { return record.term(i).value; };
  auto at = [&](int i) { return d[static_cast<std::size_t>(i)]; };
  for (int i = 0; i <= number.term; ++i) {
    const Term& t = record.term(i);
    double& here = d[static_cast<std::size_t>(i)];
    bool in_it = i == leaf.term;
    for (const int part : {t.a, t.b, t.c})
      if (part >= 0) in_it = in_it || holds[static_cast<std::size_t>(part)];
    holds[static_cast<std::size_t>(i)] = in_it;
    switch (t.kind) {
      case TermKind::number:
      case TermKind::unit_factor:
      case TermKind::at_most:
      case TermKind::less:
      case TermKind::whole_up:
      case TermKind::whole_down:
      case TermKind::money:
      case TermKind::to_step:
        break;
      case TermKind::leaf:
        here = i == leaf.term ? 1 : 0;
        break;
      case TermKind::sum:
        here = at(t.a) + at(t.b);
        break;
      case TermKind::difference:
        here = at(t.a) - at(t.b);
        break;
      case TermKind::product:
        here = at(t.a) * value(t.b) + value(t.a) * at(t.b);
        break;
      case TermKind::quotient:
        here = (at(t.a) - t.value * at(t.b)) / value(t.b);
        break;
      case TermKind::negative:
        here = -at(t.a);
        break;
      case TermKind::power:
        here = at(t.a) == 0 ? 0 : value(t.b) * std::pow(value(t.a), value(t.b) - 1) * at(t.a);
        if (at(t.b) != 0) here += t.value * std::log(value(t.a)) * at(t.b);
        break;
      case TermKind::root:
        here = at(t.a) == 0 ? 0 : at(t.a) / (2 * t.value);
        break;
      case TermKind::sine:
        here = std::cos(value(t.a)) * at(t.a);
        break;
      case TermKind::cosine:
        here = -std::sin(value(t.a)) * at(t.a);
        break;
      case TermKind::tangent:
        here = (1 + t.value * t.value) * at(t.a);
        break;
      case TermKind::arc_tangent:
        here = at(t.a) / (1 + value(t.a) * value(t.a));
        break;
      case TermKind::logarithm:
        here = at(t.a) / value(t.a);
        break;
      case TermKind::least:
        here = value(t.a) <= value(t.b) ? at(t.a) : at(t.b);
        break;
      case TermKind::greatest:
        here = value(t.a) >= value(t.b) ? at(t.a) : at(t.b);
        break;
      case TermKind::choice: {
        const Term& condition = record.term(t.c);
        const bool taken = condition.kind == TermKind::less
                               ? value(condition.a) < value(condition.b)
                               : value(condition.a) <= value(condition.b);
        here = taken ? at(t.a) : at(t.b);
        break;
      }
    }
  }
  return holds[static_cast<std::size_t>(number.term)] ? d[static_cast<std::size_t>(number.term)]
                                                      : std::nan("");
}

}  // namespace turnwright
