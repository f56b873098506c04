// SPDX-License-Identifier: MIT
#pragma once
// A STEP file read: its solids, the unit that it is written in, its name.
#include <TopoDS_Shape.hxx>
#include <string>
#include <vector>

namespace turnwright::step {

struct Model {
  bool read = false;
  bool inch = false;    // the unit that it is written in; lengths are millimetres all the same
  std::string product;  // the first one's name
  std::vector<TopoDS_Shape> solids;
  int faces = 0;  // also those of no solid
};

Model read_model(const char* path);

}  // namespace turnwright::step
