// SPDX-License-Identifier: MIT
// Unturned faces that share an edge are one group.
#include <TopExp.hxx>
#include <TopTools_IndexedDataMapOfShapeListOfShape.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListIteratorOfListOfShape.hxx>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "face_group.hpp"
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

// A wall that shares no unturned edge: one plane along the axis.
bool is_lone_wall(const std::vector<const Face*>& group) {
  return group.size() == 1 && FaceGroup(group).along.size() == 1;
}
bool face_each_other(const Face& a, const Face& b) {
  const PlaneFace p = FaceGroup({&a}).along.front(), q = FaceGroup({&b}).along.front();
  return p.normal.Dot(q.normal) < -0.99999 && p.distance + q.distance < 0 &&
         std::abs(a.z.low - b.z.low) < 0.01 && std::abs(a.z.high - b.z.high) < 0.01;
}

// The walls of a slot through the whole part are joined by its floor alone, which may be turned.
void join_walls(std::vector<std::vector<const Face*>>& groups) {
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (!is_lone_wall(groups[i])) continue;
    for (std::size_t j = i + 1; j < groups.size(); ++j)
      if (is_lone_wall(groups[j]) && face_each_other(*groups[i][0], *groups[j][0])) {
        groups[i].push_back(groups[j][0]);
        groups[j].clear();
        break;
      }
  }
  std::erase_if(groups, [](const auto& group) { return group.empty(); });
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
  std::vector<std::vector<const Face*>> lists;
  for (auto& [root, list] : by_group) lists.push_back(std::move(list));
  join_walls(lists);
  std::vector<Feature> features;
  for (const auto& list : lists) count_in(features, feature_of(list));
  return features;
}

}  // namespace turnwright::step
