// SPDX-License-Identifier: MIT
#pragma once
// What the program and the plug-in that draws agree on: its functions and the document, all of
// one build. The plug-in links the drawing libraries, the program does not.
#include <string>

#include "turnwright/output/paper.hpp"

namespace turnwright::pdf {

/// Counts up with every change of the functions or of the document.
inline constexpr int boundary_version = 4;

/// 1: drawn into the text; 2: no font is installed; 3: something that cannot be parted is higher
/// than a page; 0: anything else. No exception leaves it.
using DrawFunction = int(const paper::Paper*, std::string*);
inline constexpr const char* version_name = "turnwright_pdf_version";
inline constexpr const char* draw_name = "turnwright_pdf_draw";

/// A drawing as PNG, so many pixels a unit of it; the results are those of DrawFunction.
using PictureFunction = int(const paper::Drawing*, double pixels, std::string*);
inline constexpr const char* picture_name = "turnwright_pdf_picture";

}  // namespace turnwright::pdf
