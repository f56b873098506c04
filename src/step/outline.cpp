// SPDX-License-Identifier: MIT
#include "outline.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright::step {
namespace {

std::vector<double> cuts_of(const std::vector<Face>& faces, double same) {
  std::vector<double> all;
  for (const Face& face : faces) {
    if (face.z.low > face.z.high) continue;
    all.push_back(face.z.low);
    all.push_back(face.z.high);
    for (const Piece& p : face.pieces) all.insert(all.end(), {p.from.z, p.to.z});
  }
  std::sort(all.begin(), all.end());
  std::vector<double> cuts;
  for (const double z : all)
    if (cuts.empty() || z - cuts.back() > same) cuts.push_back(z);
  if (cuts.size() > 1) cuts.back() = all.back();  // the end itself, not a point just before it
  return cuts;
}

struct Slab {
  double from = 0, to = 0;
  double middle() const { return (from + to) / 2; }
};

class Slabs {
 public:
  Slabs(const std::vector<Face>& faces, const Scale& scale, const EnvelopeOf& envelope)
      : scale_(scale), envelope_(envelope) {
    for (const Face& face : faces)
      for (const Piece& p : face.pieces) pieces_.push_back(&p);
    std::stable_sort(pieces_.begin(), pieces_.end(),
                     [](const Piece* a, const Piece* b) { return a->from.z < b->from.z; });
  }

  void take(const Slab& slab) {
    const auto through = pieces_in(slab);
    const Piece* outer = nullptr;
    for (const Piece* p : through)
      if (p->outwards) outer = p;
    outside(slab, outer);
    if (through.empty() || through.front()->outwards) return rings(slab, through, outer, false);
    const Piece* inner = through.front();
    if (outer == nullptr || inner->at(slab.middle()) <= outer->at(slab.middle()))
      outline_.bore.push_back({slab.from, slab.to, *inner});
    rings(slab, through, outer, true);
  }
  TurnedOutline finish() { return std::move(outline_); }

 private:
  // By rising radius; halves of one surface once.
  std::vector<const Piece*> pieces_in(const Slab& slab) const {
    std::vector<const Piece*> through;
    for (const Piece* p : pieces_) {
      if (p->from.z >= slab.middle()) break;
      if (p->to.z > slab.middle()) through.push_back(p);
    }
    const double z = slab.middle();
    std::stable_sort(through.begin(), through.end(),
                     [&](const Piece* a, const Piece* b) { return a->at(z) < b->at(z); });
    std::vector<const Piece*> once;
    for (const Piece* p : through)
      if (once.empty() || once.back()->outwards != p->outwards ||
          p->at(z) - once.back()->at(z) > scale_.same())
        once.push_back(p);
    return once;
  }

  void outside(const Slab& slab, const Piece* outer) {
    const double same = scale_.same();
    const bool wide = slab.to - slab.from > 4 * same;
    const double reach = wide ? envelope_(slab.from + same, slab.to - same) : 0;
    const double turned =
        outer == nullptr ? -1 : std::max(outer->at(slab.from), outer->at(slab.to));
    Run run;
    run.from = slab.from;
    run.to = slab.to;
    if (outer != nullptr && reach <= turned + 5 * same) {
      run.piece = *outer;
    } else {
      const double r = std::max(reach, outer == nullptr ? 0 : outer->at(slab.middle()));
      run.envelope = true;
      run.piece.from = {slab.from, r};
      run.piece.to = {slab.to, r};
      outline_.enveloped += slab.to - slab.from;
    }
    outline_.outside.push_back(std::move(run));
  }

  void rings(const Slab& slab, const std::vector<const Piece*>& through, const Piece* outer,
             bool bored) {
    const Piece* floor = nullptr;  // the last one that looks outwards
    for (std::size_t i = bored ? 1 : 0; i < through.size(); ++i) {
      const Piece* p = through[i];
      if (p->outwards) {
        floor = p;
      } else if (floor != nullptr && floor != outer) {
        ring(slab, *floor, *p);
        floor = nullptr;
      }
    }
  }
  void ring(const Slab& slab, const Piece& floor, const Piece& roof) {
    const double z = slab.middle();
    if (roof.at(z) <= floor.at(z) + scale_.same()) return;
    Recess recess{slab.from, slab.to, floor.at(z), roof.at(z), 0};
    recess.volume = roof.volume(slab.from, slab.to) - floor.volume(slab.from, slab.to);
    outline_.recesses.push_back(recess);
  }

  const Scale& scale_;
  const EnvelopeOf& envelope_;
  std::vector<const Piece*> pieces_;
  TurnedOutline outline_;
};

bool go_on(const Run& a, const Run& b, double same) {
  if (std::abs(a.to - b.from) > same || a.envelope != b.envelope) return false;
  if (a.envelope) return std::abs(a.piece.from.r - b.piece.from.r) < 5 * same;
  const bool one_face = a.piece.face == b.piece.face && a.piece.form == b.piece.form &&
                        a.piece.upper == b.piece.upper;
  return one_face || a.piece.continues(b.piece, 2 * same);
}

void merge(std::vector<Run>& runs, double same) {
  std::vector<Run> merged;
  for (Run& run : runs) {
    if (!merged.empty() && go_on(merged.back(), run, same))
      merged.back().to = run.to;
    else
      merged.push_back(std::move(run));
  }
  runs = std::move(merged);
}

void merge(std::vector<Recess>& rings, double same) {
  std::vector<Recess> merged;
  for (const Recess& r : rings) {
    if (!merged.empty() && std::abs(merged.back().to - r.from) < same &&
        std::abs(merged.back().inner - r.inner) < same &&
        std::abs(merged.back().outer - r.outer) < same) {
      merged.back().to = r.to;
      merged.back().volume += r.volume;
    } else {
      merged.push_back(r);
    }
  }
  rings = std::move(merged);
}

// A straight run's ends on its surface; a run is drawn to the places it reaches, not the face's.
void mirror(std::vector<Run>& runs, double end) {
  for (Run& run : runs) {
    const double from = end - run.to;
    run.to = end - run.from;
    run.from = from;
    run.piece = run.piece.mirrored(end);
  }
  std::reverse(runs.begin(), runs.end());
}

void move(std::vector<Run>& runs, double dz) {
  for (Run& run : runs) {
    run.from += dz;
    run.to += dz;
    run.piece = run.piece.moved(dz);
  }
}

void round_places(TurnedOutline& outline, double grid) {
  const auto rounded = [&](double z) { return std::round(z / grid) * grid; };
  const auto round_all = [&](auto& list) {
    for (auto& item : list) {
      item.from = rounded(item.from);
      item.to = rounded(item.to);
    }
  };
  round_all(outline.outside);
  round_all(outline.bore);
  round_all(outline.recesses);
}

bool right_end_is_heavier(const TurnedOutline& outline, double start, double end) {
  double volume = 0, moment = 0;
  for (const Run& run : outline.outside) {
    volume += run.volume();
    moment += run.volume() * (run.from + run.to) / 2;
  }
  return volume > 0 && moment / volume < (start + end) / 2 - 1e-6 * (end - start);
}

}  // namespace

double TurnedOutline::volume() const {
  double sum = 0;
  for (const Run& run : outside) sum += run.volume();
  for (const Run& run : bore) sum -= run.volume();
  for (const Recess& r : recesses) sum -= r.volume;
  return sum;
}

double TurnedOutline::moment() const {
  double sum = 0;
  for (const Run& run : outside) sum += run.piece.moment(run.from, run.to);
  for (const Run& run : bore) sum -= run.piece.moment(run.from, run.to);
  for (const Recess& r : recesses) sum -= r.volume * (r.from + r.to) / 2;
  return sum;
}

double TurnedOutline::moment_about_axis() const {
  double sum = 0;
  for (const Run& run : outside) sum += run.piece.moment_about_axis(run.from, run.to);
  for (const Run& run : bore) sum -= run.piece.moment_about_axis(run.from, run.to);
  for (const Recess& r : recesses) sum -= r.volume * (r.inner * r.inner + r.outer * r.outer) / 2;
  return sum;
}

TurnedOutline outline_of(const std::vector<Face>& faces, const Scale& scale,
                         const EnvelopeOf& envelope) {
  Slabs slabs(faces, scale, envelope);
  const std::vector<double> cuts = cuts_of(faces, scale.same());
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) slabs.take({cuts[i], cuts[i + 1]});
  TurnedOutline outline = slabs.finish();
  merge(outline.outside, scale.same());
  merge(outline.bore, scale.same());
  merge(outline.recesses, scale.same());
  return outline;
}

TurnedOutline from_right_end(TurnedOutline outline, bool& mirrored, bool flip, double grid) {
  if (outline.outside.empty()) return outline;
  const double start = outline.outside.front().from, end = outline.outside.back().to;
  mirrored = right_end_is_heavier(outline, start, end) != flip;
  for (auto* runs : {&outline.outside, &outline.bore})
    if (mirrored)
      mirror(*runs, end);
    else
      move(*runs, -start);
  for (Recess& r : outline.recesses) {
    const double from = mirrored ? end - r.to : r.from - start;
    r.to = mirrored ? end - r.from : r.to - start;
    r.from = from;
  }
  for (auto* runs : {&outline.outside, &outline.bore})
    for (Run& run : *runs) {
      run.from_r = run.piece.at(run.from);
      run.to_r = run.piece.at(run.to);
    }
  round_places(outline, grid);
  return outline;
}

}  // namespace turnwright::step
