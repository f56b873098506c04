// SPDX-License-Identifier: MIT
#pragma once
// What is milled, drilled or broached: groups of unturned faces that share edges, each taken for
// one feature with its sizes.
#include <TopoDS_Shape.hxx>
#include <string>
#include <utility>
#include <vector>

#include "face.hpp"

namespace turnwright::step {

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
/// As in the document.
const char* name_of(FeatureKind kind);

struct Feature {
  FeatureKind kind = FeatureKind::other;
  std::vector<std::pair<std::string, double>> sizes;
  double from = 0, to = 0;  // z
  int count = 1;

  bool operator==(const Feature& other) const;
};

/// The groups of the solid, equal ones counted.
std::vector<Feature> features_of(const TopoDS_Shape& solid, const std::vector<Face>& faces);

/// What a group of faces is taken for.
Feature feature_of(const std::vector<const Face*>& group);

}  // namespace turnwright::step
