// SPDX-License-Identifier: MIT
#pragma once
// The workbook: live formulas printed by the recording number, so that a changed quantity, rate,
// speed or feed is followed everywhere, in any spreadsheet program.
#include <stdexcept>
#include <string>
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/drawing.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

/// Thrown when the file cannot be written whole; caught once, in cli. what() is the English
/// sentence.
struct CannotWrite : std::runtime_error {
  explicit CannotWrite(Message message);
  Message why;
};

/// Writes the quote's workbook to `path` (a temporary file that the caller made), reads it back and
/// throws CannotWrite when a cell is missing in it. `drawing`: `sheet_drawing` as PNG; "": none.
void write_workbook(const PartQuote& part, const Shop& shop, const std::vector<InputDigest>& inputs,
                    const Words& words, const std::string& path, const std::string& drawing = "");
/// The part as it is drawn on the first sheet, to be made a picture of so many pixels a unit.
paper::Drawing sheet_drawing(const PartQuote& part, const Words& words);
inline constexpr double sheet_drawing_pixels = 1.75;
/// Reads a workbook's parts back; throws CannotWrite when one is broken.
void verify_workbook(const std::string& path);

}  // namespace turnwright
