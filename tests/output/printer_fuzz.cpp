// SPDX-License-Identifier: MIT
// printer_fuzz SEED FORMULAS OUT.xlsx
// Random expressions over cells in many units, printed as live formulas. Another program
// recalculates the file; the cached values here are the engine's.
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "../../src/output/xlsx/spreadsheet.hpp"

using namespace turnwright;

namespace {

std::uint64_t state = 1;
std::uint64_t next() {
  state += 0x9E3779B97F4A7C15ULL;
  std::uint64_t z = state;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}
int whole(int low, int high) {
  return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
}
double real(double low, double high) {
  return low + (high - low) * (static_cast<double>(next() >> 11) * 0x1.0p-53);
}

const std::vector<Unit> lengths{unit::mm,   unit::m,   unit::um,
                                unit::inch, unit::uin, unit::mm_per_rev};
const std::vector<Unit> times{unit::s, unit::min, unit::h};
const std::vector<Unit> speeds{unit::m_per_s, unit::m_per_min, unit::ft_per_min, unit::mm_per_min,
                               unit::in_per_min};

int terms = 0;

// A positive length made of lengths, times and speeds.
struct Maker {
  std::vector<Expression> length, time, speed, angle;

  Expression pick(const std::vector<Expression>& from) const {
    return from[static_cast<std::size_t>(whole(0, static_cast<int>(from.size()) - 1))];
  }

  LengthOf<Expression> make(int depth) const {
    ++terms;
    if (depth == 0)
      return LengthOf<Expression>(whole(0, 3) ? pick(length) : (pick(speed) * pick(time)));
    const auto a = make(depth - 1), b = make(depth - 1);
    switch (whole(0, 13)) {
      case 0:
        return a + b;
      case 1:
        return max(a, b) - min(a, b) * 0.5;
      case 2:
        return min(a, b);
      case 3:
        return max(a, b);
      case 4:
        return a * pure(depth - 1);
      case 5:
        return a / pure(depth - 1);
      case 6:
        return sqrt(a * b);
      case 7:
        return sqrt(square(a) + square(b));
      case 8:
        return a * square(b) / square(a + b);
      case 9:
        return select(a <= b, a + b, a + b + 0.0 * a);
      case 10:
        return (pi * a) / (2.0 + pure(depth - 1));
      case 11:
        return a * b / (a + 3.0 * b);
      case 12:
        return a - (-(b * 0.25));
      default:
        return a * whole_up(pure(0) * 3.7 + 0.3137) / 5.0;
    }
  }
  // A pure number near 1.
  Pure<Expression> pure(int depth) const {
    ++terms;
    const auto a = make(depth < 1 ? 0 : depth - 1), b = make(0);
    const Pure<Expression> ratio = a / (a + b) + 0.5;
    switch (whole(0, 6)) {
      case 0:
        return pow(ratio, Pure<Expression>(Expression(real(0.1, 2.5))));
      case 1:
        return pow(ratio, ratio);
      case 2:
        return 1.5 + sin(Pure<Expression>(pick(angle)));
      case 3:
        return 1.2 + cos(Pure<Expression>(pick(angle))) / 3.0;
      case 4:
        return 1.0 + log(1.0 + ratio);
      case 5:
        return 1.0 + tan(ratio / 3.0) + atan(ratio);
      default:
        return ratio;
    }
  }
};

}  // namespace

int main(int count, char** words) {
  if (count != 4) return 2;
  state = std::stoull(words[1]);
  const int formulas = std::stoi(words[2]);
  Spreadsheet book(words[3], {"Data", "Far away"});
  Maker maker;
  int row = 0;
  auto cells = [&](const std::vector<Unit>& units, std::vector<Expression>& into, double low,
                   double high) {
    for (const Unit& u : units)
      for (int i = 0; i < 3; ++i, ++row) {
        const double si = real(low, high);
        const int sheet = whole(0, 1);
        // Twelve digits in the cell, and the same number in the engine.
        const double cell = std::stod(std::to_string(shown(si, u)));
        book.value(sheet, row, 0, cell, Look::number3);
        into.push_back(book.record().leaf(cell_name(row, 0), coherent(cell, u), u, sheet));
      }
  };
  cells(lengths, maker.length, 0.01, 2.0);
  cells(times, maker.time, 3600, 9000);
  cells(speeds, maker.speed, 1e-5, 3e-5);
  cells({unit::deg}, maker.angle, 0.2, 1.2);
  for (int i = 0; i < formulas; ++i) {
    const auto value = maker.make(whole(1, 3));
    const Unit& u = lengths[static_cast<std::size_t>(whole(0, 3))];
    const std::string text = a1(book.record(), value.si, u, 0);
    if (text.size() > 7900) continue;
    book.formula(0, i % 20000, 2 + i / 20000, value, u, Look::number3);
    // Later formulas may refer to this cell.
    if (whole(0, 30) == 0 && value.si.value > 1e-3 && value.si.value < 10 &&
        maker.length.size() < 60)
      maker.length.push_back(value.si);
  }
  book.close();
  std::printf("%d terms\n", terms);
  return 0;
}
