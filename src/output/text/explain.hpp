// SPDX-License-Identifier: MIT
#pragma once
// The parts of an explanation, one function a kind.
#include <initializer_list>

#include "text/text_writer.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/output/explain.hpp"

namespace turnwright {

/// What is explained: a quote, the shop whose rates it rests on, and what a larger nose would
/// bring.
struct Explained {
  const Quote& quote;
  const Shop& shop;
  NoseFinder nose;  // asked where a finishing step is explained
};

/// A figure with its symbols, its numbers and its source; inputs in their order, in SI.
void explain_figure(TextWriter& out, const char* name, std::initializer_list<double> inputs);

void explain_step(TextWriter& out, const Explained& what, std::size_t operation, std::size_t step);
/// `pass` from 0.
void explain_pass(TextWriter& out, const Explained& what, std::size_t operation, std::size_t step,
                  std::size_t pass);
void explain_minutes(TextWriter& out, const Explained& what);
/// At any quantity, also one that is not on the list.
void explain_price(TextWriter& out, const Explained& what, int quantity);

}  // namespace turnwright
