// SPDX-License-Identifier: MIT
#pragma once
// What is milled, drilled or broached: groups of unturned faces that share edges, each taken for
// one feature with its sizes.
#include <TopoDS_Shape.hxx>
#include <string>
#include <utility>
#include <vector>

#include "face.hpp"
#include "turnwright/draft/model_words.hpp"

namespace turnwright::step {

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
