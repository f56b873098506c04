// SPDX-License-Identifier: MIT
#pragma once
// The words of the document in which the plug-in says what it recognised: it writes them, the
// program reads them.
#include <array>
#include <cstddef>

namespace turnwright {

enum class ModelVerdict {
  turned,
  not_turned,
  no_axis,
  envelope_too_small,  // the model is larger than its outline: a surface was missed
  no_solid,
  several_solids,
  unreadable
};
inline constexpr std::array model_verdicts{
    "turned",   "not turned",     "no axis",   "envelope too small",
    "no solid", "several solids", "unreadable"};

/// envelope: no turned surface, but as far as unturned faces reach.
enum class RunForm { line, arc, free_form, envelope };
inline constexpr std::array run_forms{"line", "arc", "free form", "envelope"};

enum class FeatureKind {
  keyway,
  slot,
  flat,
  hexagon,
  square,
  hexagon_socket,
  square_socket,
  cross_hole,
  axial_hole,
  oblique_hole,
  eccentric,
  free_form,
  other
};
inline constexpr std::array feature_kinds{
    "keyway",         "slot",          "flat",       "hexagon",    "square",
    "hexagon socket", "square socket", "cross hole", "axial hole", "oblique hole",
    "eccentric",      "free form",     "other"};

inline const char* name_of(ModelVerdict verdict) {
  return model_verdicts[static_cast<std::size_t>(verdict)];
}
inline const char* name_of(RunForm form) { return run_forms[static_cast<std::size_t>(form)]; }
inline const char* name_of(FeatureKind kind) {
  return feature_kinds[static_cast<std::size_t>(kind)];
}

}  // namespace turnwright
