// SPDX-License-Identifier: MIT
#include "turnwright/route/clamping_label.hpp"

namespace turnwright {
namespace {

Message jaws_label(const Operation& o) {
  const std::vector<Place> places{{"clamping", clamping_of(o)},
                                  {"on", measure(o.grip_diameter, unit::mm)},
                                  {"stick_out", measure(o.stick_out, unit::mm)},
                                  {"ratio", Figure{o.free_ratio, 2}}};
  if (o.collet || o.face_plate) return {"text.clamped-on", places};
  return {o.jaws == Jaws::soft     ? "text.clamped-in-soft-jaws"
          : o.jaws == Jaws::padded ? "text.clamped-in-padded-jaws"
                                   : "text.clamped-in-hard-jaws",
          places};
}

}  // namespace

Message clamping_label(const Operation& operation) {
  if (operation.support != Support::between_centres) return jaws_label(operation);
  return {"text.clamped",
          {{"clamping", clamping_of(operation)},
           {"stick_out", measure(operation.stick_out, unit::mm)},
           {"ratio", Figure{operation.free_ratio, 2}}}};
}

}  // namespace turnwright
