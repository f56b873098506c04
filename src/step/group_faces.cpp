// SPDX-License-Identifier: MIT
// Unturned faces that share an edge are one group.
#include <TopExp.hxx>
#include <TopTools_IndexedDataMapOfShapeListOfShape.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListIteratorOfListOfShape.hxx>

#include <algorithm>
#include <map>
#include <numeric>

#include "feature.hpp"

namespace turnwright::step {
namespace {

class Groups {
 public:
  explicit Groups(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), 0); }
  std::size_t of(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) { parent_[of(b)] = of(a); }

 private:
  std::vector<std::size_t> parent_;
};

using Neighbours = TopTools_IndexedDataMapOfShapeListOfShape;

std::vector<std::size_t> unturned_at(const TopTools_ListOfShape& around,
                                     const TopTools_IndexedMapOfShape& numbers,
                                     const std::vector<Face>& faces) {
  std::vector<std::size_t> found;
  for (TopTools_ListIteratorOfListOfShape it(around); it.More(); it.Next()) {
    const int number = numbers.FindIndex(it.Value());
    if (number < 1) continue;
    const auto i = static_cast<std::size_t>(number) - 1;
    if (i < faces.size() && !faces[i].turned) found.push_back(i);
  }
  return found;
}

void count_in(std::vector<Feature>& features, Feature feature) {
  const auto same = std::find(features.begin(), features.end(), feature);
  if (same == features.end())
    features.push_back(std::move(feature));
  else
    ++same->count;
}

}  // namespace

std::vector<Feature> features_of(const TopoDS_Shape& solid, const std::vector<Face>& faces) {
  TopTools_IndexedMapOfShape numbers;
  TopExp::MapShapes(solid, TopAbs_FACE, numbers);
  Neighbours around;
  TopExp::MapShapesAndAncestors(solid, TopAbs_EDGE, TopAbs_FACE, around);
  Groups groups(faces.size());
  for (int e = 1; e <= around.Extent(); ++e) {
    const auto found = unturned_at(around(e), numbers, faces);
    for (std::size_t i = 1; i < found.size(); ++i) groups.join(found[0], found[i]);
  }
  std::map<std::size_t, std::vector<const Face*>> by_group;
  for (std::size_t i = 0; i < faces.size(); ++i)
    if (!faces[i].turned) by_group[groups.of(i)].push_back(&faces[i]);
  std::vector<Feature> features;
  for (const auto& [root, list] : by_group) count_in(features, feature_of(list));
  return features;
}

}  // namespace turnwright::step
