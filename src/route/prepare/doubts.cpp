// SPDX-License-Identifier: MIT
#include "turnwright/route/doubts.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "prepare/part_words.hpp"
#include "prepare/preparation.hpp"
#include "turnwright/figure/tolerance.hpp"

namespace turnwright {
namespace {

// ISO 286-1 has no coarser grade; every fifth is ten times as wide.
constexpr int coarsest_grade = 18, listed_grade = coarsest_grade - 5;
constexpr Length coarsest_ra = 50.0 * unit::um;        // N12, the last grade of ISO 1302
constexpr double same_size = 1e-9, same_pitch = 1e-7;  // m

bool any_upper(std::string_view text) {
  return std::any_of(text.begin(), text.end(),
                     [](unsigned char c) { return std::isupper(c) != 0; });
}
bool any_lower(std::string_view text) {
  return std::any_of(text.begin(), text.end(),
                     [](unsigned char c) { return std::islower(c) != 0; });
}
std::string other_case(std::string text, bool upper) {
  for (char& c : text)
    c = static_cast<char>(upper ? std::toupper(static_cast<unsigned char>(c))
                                : std::tolower(static_cast<unsigned char>(c)));
  return text;
}

class Doubts {
 public:
  Doubts(const Job& job, const Shop& shop) : job_(job), shop_(shop) {}

  Problems all() {
    for (const Surface& s : job_.surfaces) {
      const Element& e = job_.element_of(s);
      fit(e, s.region);
      tolerance(e);
      if (e.kind == ElementKind::thread) thread(e, s.region);
      roughness(e);
    }
    for (const OtherWork& work : job_.part.other_work) keyway(work);
    return std::move(found_);
  }

 private:
  void add(Position at, Message what) {
    Problem problem;
    problem.file = job_.part.file;
    problem.at = at;
    problem.what = {"prepare.to-confirm", {{"what", std::move(what)}}};
    found_.push_back(std::move(problem));
  }
  void wrong_case(const Element& e, Region region, const std::string& fit) {
    const bool inside = region != Region::outside;
    add(e.at, {inside ? "prepare.doubt-shaft-fit" : "prepare.doubt-hole-fit",
               {{"element", e.text}, {"fit", fit}, {"near", other_case(fit, inside)}}});
  }
  // Capital letters are holes, small ones shafts (ISO 286-1); js and JS are alike.
  void fit(const Element& e, Region region) {
    for (const Size& size : {e.size, e.left_size}) {
      const bool wrong =
          region == Region::outside ? any_upper(size.letters) : any_lower(size.letters);
      if (wrong && !lies_evenly(size))
        return wrong_case(e, region, size.letters + std::to_string(size.grade));
    }
  }
  // 6g is of bolts, 6H of nuts (ISO 965-1).
  void thread(const Element& e, Region region) {
    const std::string& class_of = e.thread.tolerance_class;
    const bool inside = region != Region::outside;
    const bool metric =
        e.thread.form == ThreadForm::metric || e.thread.form == ThreadForm::trapezoidal;
    if (metric && (inside ? any_lower(class_of) : any_upper(class_of)))
      wrong_case(e, region, class_of);
    if (e.thread.form == ThreadForm::metric && !listed_pitch(e.thread.pitch))
      add(e.at, {"prepare.doubt-pitch",
                 {{"element", e.text}, {"pitch", measure(e.thread.pitch, unit::mm)}}});
  }
  bool listed_pitch(Length pitch) const {
    const auto& rows = shop_.standards.runouts;
    return std::any_of(rows.begin(), rows.end(), [&](const ThreadRunout& row) {
      return std::abs(row.pitch.si - pitch.si) < same_pitch;
    });
  }
  void tolerance(const Element& e) {
    const Size& size = e.size;
    if (!size.toleranced || size.nominal.si <= 0) return;
    const Length width = size.upper - size.lower;
    const Length widest =
        10.0 * figure::ToleranceGrade::work_out<>({size.nominal, double{listed_grade}}).tolerance;
    if (width > widest)
      add(e.at, {"prepare.doubt-tolerance",
                 {{"element", e.text}, {"width", width}, {"grade", coarsest_grade}}});
  }
  // Of a value that many elements have, from the drawing, once.
  void roughness(const Element& e) {
    if (!e.ra || *e.ra <= coarsest_ra || looks_like_other_unit(job_.part, *e.ra)) return;
    if (std::find(said_ra_.begin(), said_ra_.end(), *e.ra) != said_ra_.end()) return;
    said_ra_.push_back(*e.ra);
    add(e.at, {"prepare.doubt-roughness",
               {{"element", e.text},
                {"ra", measure(*e.ra, unit::um)},
                {"coarsest", measure(coarsest_ra, unit::um)}}});
  }
  // It goes into a diameter that there is, and is no longer than it.
  void keyway(const OtherWork& work) {
    const auto keyway = keyway_of(work.what, job_.part.inch);
    if (!keyway) return;
    const Length diameter = keyway->diameter;
    Length land(0.0);
    for (const auto* list : {&job_.part.outside, &job_.part.bore_right, &job_.part.bore_left})
      for (const Element& e : *list)
        if (std::abs(e.size.nominal.si - diameter.si) < same_size) land = land + e.length();
    if (land.si <= 0)
      add(work.at, {"prepare.doubt-keyway-on", {{"work", work.what}, {"diameter", diameter}}});
    else if (keyway->length.si > land.si + same_size)
      add(work.at, {"prepare.doubt-keyway-length",
                    {{"work", work.what}, {"diameter", diameter}, {"length", land}}});
  }

  const Job& job_;
  const Shop& shop_;
  std::vector<Length> said_ra_;
  Problems found_;
};

}  // namespace

Problems doubts_of(const Job& job, const Shop& shop) { return Doubts(job, shop).all(); }

}  // namespace turnwright
