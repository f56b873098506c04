// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "examples.hpp"
#include "turnwright/part/thread.hpp"
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

// Threads per inch by size in inches. UNC a table of thread pitches (found in two), UNF to 3/4 a
// tap maker's guide after ANSI B1.1, the rest from memory.
struct Unified {
  double size, tpi;
};
constexpr std::array unc{
    Unified{0.25, 20}, Unified{0.3125, 18}, Unified{0.375, 16}, Unified{0.4375, 14},
    Unified{0.5, 13},  Unified{0.5625, 12}, Unified{0.625, 11}, Unified{0.75, 10},
    Unified{0.875, 9}, Unified{1, 8},       Unified{1.125, 7},  Unified{1.25, 7},
    Unified{1.375, 6}, Unified{1.5, 6},     Unified{1.75, 5},   Unified{2, 4.5}};
constexpr std::array unf{Unified{0.25, 28},   Unified{0.3125, 24}, Unified{0.375, 24},
                         Unified{0.4375, 20}, Unified{0.5, 20},    Unified{0.5625, 18},
                         Unified{0.625, 18},  Unified{0.75, 16},   Unified{0.875, 14},
                         Unified{1, 12},      Unified{1.125, 12},  Unified{1.25, 12},
                         Unified{1.5, 12}};
// Pipe threads by nominal size in inches: major diameter in mm and threads per inch. G and R: ISO
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

constexpr double largest_lead = 48;  // mm
constexpr double same_size = 1e-9;   // in

std::string nearest_metric(double major) {
  const Row* best = &coarse.front();
  for (const Row& row : coarse)
    if (std::abs(row.major - major) < std::abs(best->major - major)) best = &row;
  return "M" + shortest(best->major);
}

template <class Table>
double threads_per_inch(const Table& table, double inches) {
  double tpi = 0;
  for (const Unified& row : table)
    if (std::abs(row.size - inches) < same_size) tpi = row.tpi;
  return tpi;
}

class ThreadText {
 public:
  ThreadText(std::string_view text, TextFault& fault) : rest_(text), fault_(fault) {
    t_.designation = std::string(text);
  }

  std::optional<Thread> read() {
    take_hand();
    if (!read_form() || !pitch_fits()) return std::nullopt;
    return t_;
  }

 private:
  bool read_form() {
    if (take("M")) return metric(ThreadForm::metric);
    if (take("Tr")) return metric(ThreadForm::trapezoidal);
    if (take("NPT")) return pipe(npt, ThreadForm::npt);
    if (take("Rc")) return pipe(parallel, ThreadForm::pipe_taper);
    if (take("Rp")) return pipe(parallel, ThreadForm::pipe);
    if (take("G")) return pipe(parallel, ThreadForm::pipe);
    if (take("R")) return pipe(parallel, ThreadForm::pipe_taper);
    return unified();
  }
  bool reject(Message what, Message expected, std::string suggestion = "") {
    fault_ = {std::move(what), std::move(expected), std::move(suggestion)};
    return false;
  }
  bool reject_text(const char* what, Message expected, std::string suggestion = "") {
    return reject(Message{what, {{"thread", t_.designation}}}, std::move(expected),
                  std::move(suggestion));
  }
  bool reject_thread() {
    return reject_text(
        "part.not-a-thread",
        Message{"part.wants-thread", {{"example", "M24, M24x2-6g, 1/2-20 UNF-2A, G1/2, Tr40x7"}}});
  }
  bool reject_pitch(double pitch) {
    const int most = t_.form == ThreadForm::metric ? 8 : 12;
    return reject(Message{"part.pitch-of", {{"pitch", Figure{pitch, 9}}}},
                  Message{"part.wants-pitch-at-most", {{"most", most}}});
  }

  bool take(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
  }
  void take_hand() {
    for (const std::string_view word : {" LH", "-LH", " RH", "-RH"})
      if (rest_.ends_with(word)) {
        t_.left_hand = word[1] == 'L';
        rest_.remove_suffix(word.size());
        return;
      }
  }
  void skip_blanks() {
    while (take(" ")) {
    }
  }
  std::optional<double> number(bool fractions = false) {
    const auto found = leading_number(rest_, fractions);
    if (!found) return std::nullopt;
    rest_.remove_prefix(found->used);
    return found->value;
  }
  bool take_class() {
    skip_blanks();
    take("-");
    skip_blanks();
    t_.tolerance_class = std::string(rest_);
    // "6g", "4g6g", "2A", "A": a grade first, then a few letters and digits.
    const bool plain = t_.tolerance_class.size() <= 6 &&
                       std::all_of(rest_.begin(), rest_.end(),
                                   [](unsigned char c) { return std::isalnum(c) != 0; });
    const bool graded = rest_.empty() || rest_ == "A" || rest_ == "B" ||
                        std::isdigit(static_cast<unsigned char>(rest_.front())) != 0;
    return (plain && graded) || reject_thread();
  }

  // Metric and trapezoidal: "24", "24x2-6g", "30x6(P2)".
  bool metric(ThreadForm form) {
    t_.form = form;
    const auto major = number();
    if (!major || *major <= 0) return reject_thread();
    t_.major = *major * unit::mm;
    return take("x") ? pitch_behind_x(*major) : coarse_pitch(*major);
  }
  bool pitch_behind_x(double major) {
    const auto lead = number();
    if (!lead) return reject_thread();
    if (*lead <= 0)
      return reject(Message{"part.pitch-not-above-zero", {{"pitch", Figure{*lead, 9}}}},
                    "part.wants-pitch-or-none",
                    (t_.form == ThreadForm::metric ? "M" : "Tr") + shortest(major));
    if (*lead > largest_lead) return reject_pitch(*lead);
    return pitch_of_lead(*lead);
  }
  bool coarse_pitch(double major) {
    const bool metric = t_.form == ThreadForm::metric;
    for (const Row& row : coarse)
      if (metric && row.major == major) t_.pitch = row.pitch * unit::mm;
    if (t_.pitch.si > 0) return take_class();
    const std::string example = metric ? "M" + shortest(major) + "x1.5" : "Tr40x7";
    return reject_text("part.no-coarse-pitch", Message{"part.wants-pitch", {{"example", example}}},
                       metric ? nearest_metric(major) : "");
  }
  // "x6(P2)": a lead of 6, a pitch of 2.
  bool pitch_of_lead(double lead) {
    double pitch = lead;
    if (take("(P")) {
      const auto p = number();
      if (!p || *p <= 0 || !take(")")) return reject_thread();
      pitch = *p;
      const double starts = lead / pitch;
      if (std::abs(starts - std::round(starts)) > 1e-6 || starts < 1)
        return reject(Message{"part.lead-not-whole",
                              {{"lead", Figure{lead, 9}}, {"pitch", Figure{pitch, 9}}}},
                      "part.wants-whole-lead");
      t_.starts = static_cast<int>(std::lround(starts));
    }
    if (pitch > 12 || (pitch > 8 && t_.form == ThreadForm::metric)) return reject_pitch(pitch);
    t_.pitch = pitch * unit::mm;
    return take_class();
  }

  template <class Table>
  bool pipe(const Table& table, ThreadForm form) {
    t_.form = form;
    skip_blanks();
    const auto size = number(true);
    if (!size) return reject_thread();
    for (const Pipe& row : table)
      if (std::abs(row.size - *size) < same_size) {
        t_.major = row.major * unit::mm;
        t_.pitch = 1.0 / row.tpi * unit::inch;
      }
    if (t_.major.si <= 0)
      return reject_text("part.size-not-listed",
                         Message{"part.wants-pipe-size", {{"first", "1/8"}, {"last", "2"}}});
    return take_class();
  }

  // "1/2-20 UNF-2A", "No. 10-32 UNF", "#10-24 UNC"
  bool unified() {
    t_.form = ThreadForm::unified;
    const bool numbered = take("No.") || take("#");
    skip_blanks();
    const auto size = number(true);
    if (!size) return reject_thread();
    // ASME B1.1: number sizes are 0.060 in + 0.013 in a number.
    const double inches = numbered ? 0.060 + 0.013 * *size : *size;
    t_.major = inches * unit::inch;
    double tpi = 0;
    if (take("-")) {
      tpi = number().value_or(0);
      if (tpi <= 0) return reject_thread();
    }
    skip_blanks();
    const bool fine = rest_.starts_with("UNF"), coarse_series = rest_.starts_with("UNC");
    if (!take_series()) return reject_thread();
    if (tpi <= 0 && fine) tpi = threads_per_inch(unf, inches);
    if (tpi <= 0 && coarse_series) tpi = threads_per_inch(unc, inches);
    if (tpi <= 0)
      return reject_text("part.no-threads-per-inch", such_as("1/2-20 UNF", "No. 10-32 UNF"));
    t_.pitch = 1.0 / tpi * unit::inch;
    return take_class();
  }
  bool take_series() {
    const bool series = take("UNEF") || take("UNC") || take("UNF") || take("UNS") || take("UN");
    return series &&
           (rest_.empty() || std::isalpha(static_cast<unsigned char>(rest_.front())) == 0);
  }
  bool pitch_fits() {
    if (2 * t_.depth(false).si < 0.9 * t_.major.si) return true;
    return reject(Message{"part.pitch-too-large", {{"pitch", t_.pitch}, {"major", t_.major}}},
                  "part.wants-pitch-that-suits",
                  t_.form == ThreadForm::metric ? nearest_metric(in(t_.major, unit::mm)) : "");
  }

  std::string_view rest_;
  TextFault& fault_;
  Thread t_;
};

}  // namespace

std::optional<Thread> read_thread(std::string_view text, TextFault& fault) {
  return ThreadText(text, fault).read();
}

}  // namespace turnwright
