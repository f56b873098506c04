// SPDX-License-Identifier: MIT
#pragma once
// The colours of documents for paper as 0xRRGGBB, the same on a page and in a PDF. Pale grounds, so
// that black text stands out on them also where a printer has grey only; common practice.
#include "turnwright/output/paper.hpp"

namespace turnwright::paper {

constexpr unsigned rgb_of(Colour colour) {
  switch (colour) {
    case Colour::green:
      return 0xcdeccd;
    case Colour::blue:
      return 0xcfe0f7;
    case Colour::yellow:
      return 0xfbf0b2;
    case Colour::red:
      return 0xf8cfcb;
    case Colour::black:
      return 0xd6d6d6;
    case Colour::shade:
      return 0xececec;
    case Colour::body:
      return 0xdde3e9;
    case Colour::cut:
      return 0xf2c3a4;
    case Colour::ink:
      return 0x1b1b1b;
    default:
      return 0xffffff;
  }
}

constexpr unsigned rgb_of(Ink ink) {
  return ink == Ink::grey ? 0x555555 : ink == Ink::red ? 0x8f1d14 : rgb_of(Colour::ink);
}

inline constexpr unsigned line_rgb = 0xa0a0a0;  // of a thin rule

}  // namespace turnwright::paper
