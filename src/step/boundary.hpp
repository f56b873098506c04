// SPDX-License-Identifier: MIT
#pragma once
// What the program and the plug-in agree on: two plain functions and a JSON document. The plug-in
// links the solid-modelling library, the program does not; the program calls it in a child process.

namespace turnwright::step {

/// Counts up with every change of the functions or of the document.
inline constexpr int boundary_version = 2;

/// A model to read.
struct ModelRequest {
  const char* path;
  int solid;   // of several, from 1; 0: the only one
  int flip;    // the heavier end to the right
  int output;  // descriptor that the document is written to
};

/// 1: the document was written; 2: memory ran out; 0: anything else. No exception leaves it.
using ReadFunction = int(const ModelRequest*);
inline constexpr const char* version_name = "turnwright_step_version";
inline constexpr const char* read_name = "turnwright_step_read";

}  // namespace turnwright::step
