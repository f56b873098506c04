// SPDX-License-Identifier: MIT
#pragma once
// The sections of the inside page.
#include <string>
#include <vector>

#include "html/page_writer.hpp"
#include "turnwright/output/page.hpp"
#include "view/quote_view.hpp"

namespace turnwright {

/// What the page is of.
struct QuotePage {
  const PartQuote& part;
  const Quote& quote;
  const QuoteView& view;
  const Comparison& methods;
  const Shop& shop;
  const std::vector<InputDigest>& inputs;
};

/// Which of several methods what follows is of.
void head_of_method(PageWriter& page, const UsedMethod& used, std::size_t methods);
void draw_prices(PageWriter& page, const QuotePage& of);
/// What may turn the price into a loss, in money.
void draw_risks(PageWriter& page, const QuotePage& of);
void draw_steps(PageWriter& page, const QuotePage& of);
/// Rules of style by which the figure of the chosen step is seen and the others are not; on paper
/// the whole operation is.
std::string step_rules(const PartQuote& part);
void draw_times(PageWriter& page, const QuotePage& of);
void draw_money(PageWriter& page, const QuotePage& of);
void draw_methods(PageWriter& page, const QuotePage& of);

}  // namespace turnwright
