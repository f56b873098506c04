// SPDX-License-Identifier: MIT
#include "turnwright/part/thread.hpp"

#include "turnwright/figure/threads.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {

double Thread::flank_angle() const {
  switch (form) {
    case ThreadForm::trapezoidal:
      return pi / 12;
    case ThreadForm::pipe:
      return 27.5 / 180 * pi;
    case ThreadForm::pipe_taper:
    case ThreadForm::npt:
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
    case ThreadForm::pipe_taper:
      return 0.640327 * pitch;  // ISO 228-1 and ISO 7-1, basic profile of 55 degrees
    case ThreadForm::npt:
      return 0.8 * pitch;  // ASME B1.20.1
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
    case ThreadForm::npt:
      return major - 1.6 * pitch;  // close to the tap drills of the tables, from memory
    case ThreadForm::metric:
    case ThreadForm::unified:
    case ThreadForm::trapezoidal:
      break;
  }
  return major - pitch;  // tap drill, common practice; Tr: the minor diameter itself
}

}  // namespace turnwright
