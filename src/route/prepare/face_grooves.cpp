// SPDX-License-Identifier: MIT
// Grooves in the end faces.
#include "prepare/preparation.hpp"

namespace turnwright {
namespace {

// The face between its hole and its edge, diameters.
struct Face {
  Length hole{}, edge{};
};

Length at_end(const Job& job, const Outline& outline, bool left) {
  return 2.0 * (left ? outline.right_of(job.left()) : outline.left_of(Length(0.0)));
}

void groove(Preparation& p, const FaceGroove& g, bool left) {
  Job& job = p.job;
  const Length outer = g.inner + 2.0 * g.width;
  const Face face{at_end(job, job.hollow(), left), at_end(job, job.finished, left)};
  if (outer.si > face.edge.si - same_point || g.inner.si < face.hole.si - same_point ||
      g.depth > job.part.overall) {
    p.refuse(g.at,
             {"prepare.face-groove-off-face",
              {{"inner", g.inner}, {"outer", outer}, {"hole", face.hole}, {"edge", face.edge}}},
             "prepare.expect-groove-inside-face");
    return;
  }
  const FaceCut cut{left, g, pi / 4 * (square(outer) - square(g.inner)) * g.depth};
  job.features.push_back({{"feature.face-groove", {{"inner", g.inner}}},
                          cut.volume,
                          left ? job.left() : Length(0.0),
                          false});
  job.face_cuts.push_back(cut);
}

}  // namespace

void find_face_grooves(Preparation& p) {
  for (const FaceGroove& g : p.job.part.right_face.grooves) groove(p, g, false);
  for (const FaceGroove& g : p.job.part.left_face.grooves) groove(p, g, true);
}

}  // namespace turnwright
