// SPDX-License-Identifier: MIT
#include "turnwright/part/thread.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "turnwright/figure/threads.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

// Coarse pitches, ISO 261:1998, mm.
struct Row {
  double major, pitch;
};
constexpr std::array coarse{
    Row{1.6, 0.35}, Row{2, 0.4},  Row{2.5, 0.45}, Row{3, 0.5},  Row{3.5, 0.6}, Row{4, 0.7},
    Row{5, 0.8},    Row{6, 1},    Row{7, 1},      Row{8, 1.25}, Row{10, 1.5},  Row{12, 1.75},
    Row{14, 2},     Row{16, 2},   Row{18, 2.5},   Row{20, 2.5}, Row{22, 2.5},  Row{24, 3},
    Row{27, 3},     Row{30, 3.5}, Row{33, 3.5},   Row{36, 4},   Row{39, 4},    Row{42, 4.5},
    Row{45, 4.5},   Row{48, 5},   Row{52, 5},     Row{56, 5.5}, Row{60, 5.5},  Row{64, 6}};

// Threads an inch by size in inches. UNC a table of thread pitches (found in two), UNF to 3/4 a tap
// maker's guide after ANSI B1.1, the rest from memory.
constexpr std::array unc{Row{0.25, 20}, Row{0.3125, 18}, Row{0.375, 16}, Row{0.4375, 14},
                         Row{0.5, 13},  Row{0.5625, 12}, Row{0.625, 11}, Row{0.75, 10},
                         Row{0.875, 9}, Row{1, 8},       Row{1.125, 7},  Row{1.25, 7},
                         Row{1.375, 6}, Row{1.5, 6},     Row{1.75, 5},   Row{2, 4.5}};
constexpr std::array unf{Row{0.25, 28},  Row{0.3125, 24}, Row{0.375, 24}, Row{0.4375, 20},
                         Row{0.5, 20},   Row{0.5625, 18}, Row{0.625, 18}, Row{0.75, 16},
                         Row{0.875, 14}, Row{1, 12},      Row{1.125, 12}, Row{1.25, 12},
                         Row{1.5, 12}};
// Pipe threads by nominal size in inches: major diameter in mm and threads an inch. G and R: ISO
// 228-1 and ISO 7-1; NPT: ASME B1.20.1. From memory.
struct Pipe {
  double size, major, tpi;
};
constexpr std::array parallel{
    Pipe{0.125, 9.728, 28}, Pipe{0.25, 13.157, 19}, Pipe{0.375, 16.662, 19},
    Pipe{0.5, 20.955, 14},  Pipe{0.75, 26.441, 14}, Pipe{1, 33.249, 11},
    Pipe{1.25, 41.91, 11},  Pipe{1.5, 47.803, 11},  Pipe{2, 59.614, 11}};
constexpr std::array npt{Pipe{0.125, 10.287, 27},  Pipe{0.25, 13.716, 18}, Pipe{0.375, 17.145, 18},
                         Pipe{0.5, 21.336, 14},    Pipe{0.75, 26.67, 14},  Pipe{1, 33.401, 11.5},
                         Pipe{1.25, 42.164, 11.5}, Pipe{1.5, 48.26, 11.5}, Pipe{2, 60.325, 11.5}};

class ThreadText {
 public:
  ThreadText(std::string_view text, ThreadFault& fault) : rest_(text), fault_(fault) {
    t_.designation = std::string(text);
  }

  std::optional<Thread> read() {
    take_hand();
    const bool ok =
        rest_.starts_with("M")     ? metric(1, ThreadForm::metric)
        : rest_.starts_with("Tr")  ? metric(2, ThreadForm::trapezoidal)
        : rest_.starts_with("NPT") ? pipe(3, npt, ThreadForm::pipe_taper)
        : rest_.starts_with("Rc") || rest_.starts_with("Rp")
            ? pipe(2, parallel, rest_[1] == 'c' ? ThreadForm::pipe_taper : ThreadForm::pipe)
        : rest_.starts_with("G") ? pipe(1, parallel, ThreadForm::pipe)
        : rest_.starts_with("R") ? pipe(1, parallel, ThreadForm::pipe_taper)
                                 : unified();
    if (!ok || !pitch_fits()) return std::nullopt;
    return t_;
  }

 private:
  bool no(std::string what, std::string expected, std::string suggestion = "") {
    fault_ = {std::move(what), std::move(expected), std::move(suggestion)};
    return false;
  }
  bool no_thread() {
    return no("'" + t_.designation + "' is no thread",
              "M24, M24x2-6g, 1/2-20 UNF-2A, G1/2, Tr40x7");
  }
  std::string nearest_major(double major) const {
    const Row* best = &coarse.front();
    for (const Row& row : coarse)
      if (std::abs(row.major - major) < std::abs(best->major - major)) best = &row;
    return "M" + shortest(best->major);
  }
  void take_hand() {
    for (const std::string_view word : {" LH", "-LH"})
      if (rest_.ends_with(word)) {
        t_.left_hand = true;
        rest_.remove_suffix(word.size());
      }
  }
  void skip_blanks() {
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
  }
  std::optional<double> number() {
    const auto found = leading_number(rest_, false);
    if (!found) return std::nullopt;
    rest_.remove_prefix(found->used);
    return found->value;
  }
  bool take_class() {
    skip_blanks();
    if (rest_.starts_with("-")) rest_.remove_prefix(1);
    skip_blanks();
    t_.tolerance_class = std::string(rest_);
    // "6g", "4g6g", "2A", "A": a few letters and digits.
    const bool plain = t_.tolerance_class.size() <= 6 &&
                       std::all_of(rest_.begin(), rest_.end(),
                                   [](unsigned char c) { return std::isalnum(c) != 0; });
    return plain || no_thread();
  }
  bool metric(std::size_t letters, ThreadForm form) {
    t_.form = form;
    rest_.remove_prefix(letters);
    const auto major = number();
    if (!major || *major <= 0) return no_thread();
    t_.major = *major * unit::mm;
    if (rest_.starts_with("x")) {
      rest_.remove_prefix(1);
      const auto lead = number();
      if (!lead) return no_thread();
      if (*lead <= 0)
        return no("a pitch of " + shortest(*lead), "a pitch above 0, or none for the coarse one",
                  std::string(form == ThreadForm::metric ? "M" : "Tr") + shortest(*major));
      if (*lead > 48) return no("a pitch of " + shortest(*lead) + "?", "a pitch of at most 8");
      return pitch_of_lead(*lead);
    }
    if (form == ThreadForm::metric)
      for (const Row& row : coarse)
        if (row.major == *major) t_.pitch = row.pitch * unit::mm;
    if (t_.pitch.si <= 0)
      return no("'" + t_.designation + "' has no coarse pitch",
                form == ThreadForm::metric ? "a pitch, as M" + shortest(*major) + "x1.5"
                                           : "a pitch, as Tr40x7",
                form == ThreadForm::metric ? nearest_major(*major) : "");
    return take_class();
  }
  // "x6(P2)": a lead of 6, a pitch of 2.
  bool pitch_of_lead(double lead) {
    double pitch = lead;
    if (rest_.starts_with("(P")) {
      rest_.remove_prefix(2);
      const auto p = number();
      if (!p || *p <= 0 || !rest_.starts_with(")")) return no_thread();
      rest_.remove_prefix(1);
      pitch = *p;
      const double starts = lead / pitch;
      if (std::abs(starts - std::round(starts)) > 1e-6 || starts < 1)
        return no("a lead of " + shortest(lead) + " with a pitch of " + shortest(pitch),
                  "a lead that is a whole number of pitches");
      t_.starts = static_cast<int>(std::lround(starts));
    }
    if (pitch > 12 || (pitch > 8 && t_.form == ThreadForm::metric))
      return no("a pitch of " + shortest(pitch) + "?", "a pitch of at most 8");
    t_.pitch = pitch * unit::mm;
    return take_class();
  }
  template <class Table>
  bool pipe(std::size_t letters, const Table& table, ThreadForm form) {
    t_.form = form;
    rest_.remove_prefix(letters);
    skip_blanks();
    const auto size = leading_number(rest_, true);
    if (!size) return no_thread();
    rest_.remove_prefix(size->used);
    for (const Pipe& row : table)
      if (std::abs(row.size - size->value) < 1e-9) {
        t_.major = row.major * unit::mm;
        t_.pitch = 1.0 / row.tpi * unit::inch;
      }
    if (t_.major.si <= 0)
      return no("'" + t_.designation + "' is a size that is not listed", "1/8 to 2 inches");
    return take_class();
  }
  bool unified() {
    t_.form = ThreadForm::unified;
    const bool numbered = rest_.starts_with("No.") || rest_.starts_with("#");
    if (numbered) rest_.remove_prefix(rest_[0] == '#' ? 1 : 3);
    skip_blanks();
    const auto size = leading_number(rest_, true);
    if (!size) return no_thread();
    // ASME B1.1: number sizes are 0.060 in + 0.013 in a number.
    const double inches = numbered ? 0.060 + 0.013 * size->value : size->value;
    t_.major = inches * unit::inch;
    rest_.remove_prefix(size->used);
    double tpi = 0;
    if (rest_.starts_with("-")) {
      rest_.remove_prefix(1);
      tpi = number().value_or(0);
    }
    skip_blanks();
    const bool fine = rest_.starts_with("UNF"), coarse_series = rest_.starts_with("UNC");
    bool named = false;
    for (const std::string_view series : {"UNEF", "UNC", "UNF", "UNS", "UN"})
      if (!named && rest_.starts_with(series)) {
        rest_.remove_prefix(series.size());
        named = true;
      }
    if (!named) return no_thread();
    if (tpi <= 0 && (fine || coarse_series))
      for (const auto* table = fine ? unf.data() : unc.data();
           table != (fine ? unf.data() + unf.size() : unc.data() + unc.size()); ++table)
        if (std::abs(table->major - inches) < 1e-9) tpi = table->pitch;
    if (tpi <= 0)
      return no("'" + t_.designation + "' has no threads an inch",
                "as 1/2-20 UNF or No. 10-32 UNF");
    t_.pitch = 1.0 / tpi * unit::inch;
    return take_class();
  }
  bool pitch_fits() {
    if (2 * t_.depth(false).si < 0.9 * t_.major.si) return true;
    return no("a pitch of " + shortest(in(t_.pitch, unit::mm)) + " leaves nothing of " +
                  shortest(in(t_.major, unit::mm)),
              "a pitch that suits the diameter",
              t_.form == ThreadForm::metric ? nearest_major(in(t_.major, unit::mm)) : "");
  }

  std::string_view rest_;
  ThreadFault& fault_;
  Thread t_;
};

}  // namespace

double Thread::flank_angle() const {
  switch (form) {
    case ThreadForm::trapezoidal:
      return pi / 12;
    case ThreadForm::pipe:
      return 27.5 / 180 * pi;
    case ThreadForm::pipe_taper:
    case ThreadForm::metric:
    case ThreadForm::unified:
      break;
  }
  return pi / 6;
}

Length Thread::depth(bool inside) const {
  switch (form) {
    case ThreadForm::metric:
    case ThreadForm::unified:
      return figure::ThreadDepth::work_out<>(
                 {pitch, inside ? figure::ThreadKind::internal : figure::ThreadKind::external})
          .depth;
    case ThreadForm::pipe:
      return 0.640327 * pitch;  // ISO 228-1, basic profile of 55 degrees
    case ThreadForm::pipe_taper:
      return (designation.starts_with("NPT") ? 0.8 : 0.640327) * pitch;  // ASME B1.20.1, ISO 7-1
    case ThreadForm::trapezoidal:
      break;
  }
  // ISO 2904, crest clearance from memory: 0.25 to pitch 5, 0.5 to 12.
  const Length clearance = (pitch.si <= 1.5e-3 ? 0.15 : pitch.si <= 5e-3 ? 0.25 : 0.5) * unit::mm;
  return pitch / 2.0 + clearance;
}

Length Thread::core() const {
  switch (form) {
    case ThreadForm::pipe:
      return major - 2.0 * 0.640327 * pitch;
    case ThreadForm::pipe_taper:
      return major - 1.6 * pitch;  // close to the tap drills of the tables, from memory
    default:
      return major - pitch;  // tap drill, common practice; Tr: the minor diameter itself
  }
}

std::optional<Thread> read_thread(std::string_view text, ThreadFault& fault) {
  return ThreadText(text, fault).read();
}

}  // namespace turnwright
