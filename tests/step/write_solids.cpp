// SPDX-License-Identifier: MIT
// write_solids made DIR: the made solids
// write_solids parts DIR PART.yaml…: each part as our own planner draws it, as a solid; prints the
// name and the volume of each, mm3.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

#include "solids.hpp"
#include "turnwright/part/part.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/shop/shop.hpp"

namespace {

using namespace turnwright;
namespace fs = std::filesystem;

double mm(Length l) { return l.si < 1e-6 ? (l.si > -1e-6 ? 0 : l.si * 1e3) : l.si * 1e3; }

// The outline's pieces, closed along the axis; from the right-hand end, so that z grows to the
// left.
solids::Profile profile_of(const Outline& outline) {
  solids::Profile p{{-outline.right().si * 1e3, 0}};
  const auto& pieces = outline.pieces();
  for (auto s = pieces.rbegin(); s != pieces.rend(); ++s) {
    p.push_back({-s->to.z.si * 1e3, mm(s->to.r)});
    solids::Corner end{-s->from.z.si * 1e3, mm(s->from.r)};
    if (s->bulge != Bulge::none) {
      const Length z = (s->from.z + s->to.z) / 2.0;
      end.arc = true;
      end.mz = -z.si * 1e3;
      end.mr = radius_at(*s, z).si * 1e3;
    }
    p.push_back(end);
  }
  p.push_back({-outline.left().si * 1e3, 0});
  return p;
}

// Stretches of an outline that have a radius: a void has gaps.
std::vector<Outline> bodies_of(const Outline& outline) {
  std::vector<Outline> bodies;
  std::vector<Segment> run;
  for (const Segment& s : outline.pieces()) {
    const bool empty = s.from.r.si < 1e-7 && s.to.r.si < 1e-7;
    if (!empty) run.push_back(s);
    if (empty && !run.empty()) {
      bodies.emplace_back(run);
      run.clear();
    }
  }
  if (!run.empty()) bodies.emplace_back(run);
  return bodies;
}

TopoDS_Shape solid_of(const Job& job) {
  TopoDS_Shape solid = solids::revolved(profile_of(job.finished));
  for (const Outline& hole : bodies_of(job.hollow()))
    solid = solids::cut(solid, solids::revolved(profile_of(hole)));
  return solid;
}

bool write_part(const Shop& shop, const fs::path& file, const std::string& folder) {
  std::ifstream in(file);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const auto part = read_part(file.string(), text, shop.currencies);
  if (!part) return false;
  const auto job = prepare(*part, shop);
  if (!job) return false;
  const TopoDS_Shape solid = solid_of(*job);
  solids::save(solid, folder + "/" + file.stem().string() + ".step");
  std::printf("%s %.12g %.9g\n", file.stem().c_str(), job->volume().si * 1e9,
              solids::volume(solid));
  return true;
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count > 2 ? words[1] : "";
  if (what == "made") {
    solids::save_made(words[2]);
    return 0;
  }
  const auto rates = shipped_rates();
  const auto shop = read_shop(rates, rates.size());
  if (what != "parts" || !shop) return 2;
  int refused = 0;
  for (int i = 3; i < count; ++i)
    if (!write_part(*shop, words[i], words[2])) {
      std::cerr << words[i] << " is refused\n";
      ++refused;
    }
  return refused > 0 ? 1 : 0;
}
