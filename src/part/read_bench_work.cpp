// SPDX-License-Identifier: MIT
#include <array>

#include "pieces.hpp"
#include "turnwright/part/bench_work.hpp"

namespace turnwright {
namespace {

constexpr double smallest_size = 1e-6, largest_size = 10;  // m, that anybody turns

struct WorkWord {
  std::string_view word;
  BenchWorkKind kind;
  const char* example;
};
constexpr std::array work_words{WorkWord{"turn", BenchWorkKind::turn, "turn 50 to 42 x120"},
                                WorkWord{"face", BenchWorkKind::face, "face 120 to 0"},
                                WorkWord{"drill", BenchWorkKind::drill, "drill 18 x40"},
                                WorkWord{"ream", BenchWorkKind::ream, "ream 12 x30"},
                                WorkWord{"bore", BenchWorkKind::bore, "bore 30 to 32 x50"},
                                WorkWord{"groove", BenchWorkKind::groove, "groove 3 wide 40 to 34"},
                                WorkWord{"part", BenchWorkKind::part_off, "part off 40"},
                                WorkWord{"thread", BenchWorkKind::thread, "thread M24x2 x30"},
                                WorkWord{"tap", BenchWorkKind::tap, "tap M10 x20"},
                                WorkWord{"knurl", BenchWorkKind::knurl, "knurl RGE 1.0 30 x20"}};

bool is_run(const std::string& word) {
  return word.size() > 1 && word[0] == 'x' && (is_digit(word[1]) || word[1] == '.');
}
bool ends_a_length(const std::string& word) {
  return word == "to" || word == "wide" || is_run(word);
}

// "in", "5in": a number of the text has inches.
bool in_inches(const std::vector<Piece>& words) {
  for (const Piece& word : words) {
    std::string_view text = word.text;
    if (is_run(word.text)) text.remove_prefix(1);
    if (const auto number = leading_number(text)) text.remove_prefix(number->used);
    const auto unit = text.empty() ? std::nullopt : read_unit(text);
    if (unit && unit->dim == Dim{1} && unit->si == Unit(unit::inch).si) return true;
  }
  return false;
}

/// The words of one cut, taken from the left; the first thing wrong stops it.
class WorkText {
 public:
  WorkText(const std::string& text, bool inch, TextFault& fault)
      : words_(split_words(text)), fault_(fault) {
    work_.text = text;
    work_.inch = inch || in_inches(words_);
  }

  std::optional<BenchWork> read() {
    const WorkWord* verb = take_verb();
    if (verb == nullptr) return std::nullopt;
    work_.kind = verb->kind;
    example_ = verb->example;
    read_sizes();
    if (good() && at_ < words_.size()) refuse({"bench.too-much", {{"text", words_[at_].text}}});
    if (good()) check_order();
    if (!good()) return std::nullopt;
    return std::move(work_);
  }

 private:
  bool good() const { return fault_.what.empty(); }
  void refuse(Message what, std::string suggestion = "") {
    if (good())
      fault_ = {std::move(what), {"bench.such-as", {{"example", example_}}}, std::move(suggestion)};
  }

  // A number alone is turning.
  const WorkWord* take_verb() {
    if (words_.empty() || leading_number(words_[0].text)) return &work_words.front();
    for (const WorkWord& w : work_words)
      if (words_[0].text == w.word) {
        ++at_;
        return &w;
      }
    std::vector<std::string> known;
    known.reserve(work_words.size());
    for (const WorkWord& w : work_words) known.emplace_back(w.word);
    const std::string near = nearest(words_[0].text, known);
    example_ = work_words.front().example;
    for (const WorkWord& w : work_words)
      if (w.word == near) example_ = w.example;
    refuse({"bench.unknown-work", {{"word", words_[0].text}}}, near);
    return nullptr;
  }

  void read_sizes() {
    switch (work_.kind) {
      case BenchWorkKind::turn:
      case BenchWorkKind::bore:
        from_to();
        work_.length = run();
        break;
      case BenchWorkKind::face:
        from_to();
        if (at_ < words_.size()) work_.length = run();
        break;
      case BenchWorkKind::drill:
      case BenchWorkKind::ream:
        own_diameter();
        work_.length = run();
        break;
      case BenchWorkKind::groove:
        work_.width = length();
        word("wide");
        from_to();
        break;
      case BenchWorkKind::part_off:
        word("off");
        own_diameter();
        break;
      case BenchWorkKind::thread:
      case BenchWorkKind::tap:
        thread();
        work_.length = run();
        break;
      case BenchWorkKind::knurl:
        knurl();
        own_diameter();
        work_.length = run();
        break;
    }
  }

  void word(const std::string& wanted) {
    if (!good()) return;
    if (at_ < words_.size() && words_[at_].text == wanted)
      ++at_;
    else
      refuse({"bench.word-missing", {{"word", wanted}}});
  }
  // The words up to the next that belongs to something else, as one text.
  std::string phrase() {
    std::string text;
    for (; at_ < words_.size() && !ends_a_length(words_[at_].text); ++at_)
      text += (text.empty() ? "" : " ") + words_[at_].text;
    return text;
  }
  Length length_in(const std::string& text, bool zero_is_right = false) {
    if (!good()) return Length(0.0);
    if (text.empty()) {
      refuse("bench.size-missing");
      return Length(0.0);
    }
    const Unit bare = work_.inch ? Unit(unit::inch) : Unit(unit::mm);
    const auto read = read_quantity(text, bare, fault_);
    if (!read) return Length(0.0);
    const bool none = read->si == 0 && zero_is_right;
    if (!none && (read->si < smallest_size || read->si > largest_size))
      refuse({"bench.no-such-size", {{"text", text}}});
    return Length(read->si);
  }
  // A number with the unit behind it; where two numbers follow each other, the first.
  Length length() {
    if (!good() || at_ >= words_.size()) return length_in("");
    std::string text = words_[at_++].text;
    if (at_ < words_.size() && !ends_a_length(words_[at_].text) &&
        !leading_number(words_[at_].text))
      text += " " + words_[at_++].text;
    return length_in(text);
  }
  void own_diameter() { work_.from = work_.to = length_in(phrase()); }
  void from_to() {
    work_.from = length_in(phrase());
    word("to");
    work_.to = length_in(phrase(), work_.kind == BenchWorkKind::face);
  }
  Length run() {
    if (!good()) return Length(0.0);
    if (at_ >= words_.size() || !is_run(words_[at_].text)) {
      refuse("bench.length-missing");
      return Length(0.0);
    }
    std::string text = words_[at_++].text.substr(1);
    for (; at_ < words_.size(); ++at_) text += " " + words_[at_].text;
    return length_in(text);
  }
  void thread() {
    const std::string designation = phrase();
    if (designation.empty()) return refuse("bench.thread-missing");
    const auto read = read_thread(designation, fault_);
    if (!read) return;
    work_.thread = *read;
    work_.from = work_.to = read->major;
  }
  void knurl() {
    if (at_ >= words_.size()) return refuse("bench.size-missing");
    work_.knurl = words_[at_++].text;
    work_.pitch = length();
  }
  void check_order() {
    const Length a = work_.from, b = work_.to;
    const bool inwards = work_.kind == BenchWorkKind::turn || work_.kind == BenchWorkKind::face ||
                         work_.kind == BenchWorkKind::groove;
    if (inwards && b >= a) refuse({"bench.target-larger", {{"from", a}, {"to", b}}});
    if (work_.kind == BenchWorkKind::bore && b <= a)
      refuse({"bench.target-smaller", {{"from", a}, {"to", b}}});
  }

  std::vector<Piece> words_;
  TextFault& fault_;
  BenchWork work_;
  std::string example_;
  std::size_t at_ = 0;
};

/// What somebody can set at a lathe, in SI.
struct SettingRange {
  double least, most;
  bool holds(double si) const { return si >= least && si <= most; }
};
constexpr SettingRange spindles{0.1 / 60, 100000.0 / 60}, surface_speeds{0.01 / 60, 10000.0 / 60},
    feeds{1e-6, 0.1}, depths{1e-6, largest_size / 2};

enum class Setting { taken, unreadable, beyond };

// One value of "300 rev/min, 0.1 mm/rev, 1 mm": its unit says what it is. A length a revolution is
// written with its own unit.
Setting take_setting(std::string_view text, BenchSettings& set) {
  const auto number = leading_number(text);
  if (!number || number->value <= 0) return Setting::unreadable;
  text.remove_prefix(number->used);
  while (text.starts_with(' ')) text.remove_prefix(1);
  const auto unit = read_unit(text);
  if (!unit) return Setting::unreadable;
  const double si = coherent(number->value, unit->unit());
  const bool per_turn = text.find("rev") != std::string_view::npos;
  auto put = [&](auto& where, const SettingRange& range) {
    if (!range.holds(si)) return Setting::beyond;
    where = std::decay_t<decltype(where)>(si);
    return Setting::taken;
  };
  if (unit->dim == Dim{0, 0, -1}) return put(set.spindle, spindles);
  if (unit->dim == Dim{1, 0, -1}) return put(set.surface_speed, surface_speeds);
  if (unit->dim != Dim{1}) return Setting::unreadable;
  return per_turn ? put(set.feed, feeds) : put(set.depth, depths);
}

}  // namespace

const char* name_of(BenchWorkKind kind) {
  static constexpr std::array names{"turn",   "face",     "drill",  "ream", "bore",
                                    "groove", "part-off", "thread", "tap",  "knurl"};
  return names[static_cast<std::size_t>(kind)];
}

std::optional<BenchWork> read_bench_work(const std::string& text, bool inch, TextFault& fault) {
  return WorkText(text, inch, fault).read();
}

std::optional<BenchSettings> read_bench_settings(const std::string& text, bool inch,
                                                 TextFault& fault) {
  BenchSettings set;
  const char* example =
      inch ? "300 rev/min, 0.004 in/rev, 0.04 in" : "300 rev/min, 0.1 mm/rev, 1 mm";
  for (const Piece& piece : split_at(text, ',')) {
    std::string_view part = piece.text;
    while (part.starts_with(' ')) part.remove_prefix(1);
    const Setting found = take_setting(part, set);
    if (found == Setting::taken) continue;
    const char* wrong =
        found == Setting::beyond ? "bench.setting-beyond-sense" : "bench.not-a-setting";
    fault = {{wrong, {{"text", part}}}, {"bench.such-as", {{"example", example}}}, ""};
    return std::nullopt;
  }
  return set;
}

}  // namespace turnwright
