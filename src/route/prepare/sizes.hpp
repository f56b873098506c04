// SPDX-License-Identifier: MIT
#pragma once
// Sizes and fits: what a toleranced size of the drawing is turned to.
#include "prepare/preparation.hpp"

namespace turnwright {

/// A surface with what the element says by itself.
Surface plain_surface(const Shop& shop, const Element& element, std::size_t in_list, Region region);
/// The mean radius of a size; notes tolerance and grade on the surface. An unlisted fit is a
/// problem.
Length mean_radius(Preparation& preparation, const Element& element, const Size& size,
                   Surface& surface);
/// What is left on for later work, and cautions. `away` is the direction that leaves material on:
/// 1 outside, -1 in a bore.
void leave_on(Preparation& preparation, const Element& element, Surface& surface, double away);

}  // namespace turnwright
