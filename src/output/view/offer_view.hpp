// SPDX-License-Identifier: MIT
#pragma once
// What page and workbook both say of a quotation, in the customer's words.
#include <string>
#include <vector>

#include "turnwright/output/offer.hpp"
#include "view/facts.hpp"

namespace turnwright {

/// "Quotation 2026-118".
std::string offer_title(const CustomerQuote& quote, const Words& words);
/// Number, revision, date, valid until, the customer's reference.
Facts head_facts(const CustomerQuote& quote, const Words& words);
/// Delivery, packing, payment, certificate.
Facts delivery_facts(const CustomerQuote& quote, const Words& words);
/// "WF-310 winch spindle, drawing revision B".
std::string item_title(const CustomerItem& item, const Words& words);
/// Material with its mass, what to supply of it, work, week of delivery: a short line each.
Facts item_facts(const CustomerItem& item, const Words& words);
/// What stands under a quantity: "in 4 releases of 60", "in 3 weeks".
std::string quantity_note(const CustomerPrice& price, const Words& words);
/// "Not offered: the bore is deeper than we reach".
std::string not_offered_text(const CustomerItem& item, const Words& words);
/// What stands under a price that is not for one: "per 100".
std::string price_note(const CustomerPrice& price, const Words& words);
Message surcharge_label(const CustomerQuote& quote);
/// Rebate, surcharge to the minimum order, charges, tax and total where there is one quantity of
/// each item; else the surcharge of each set of quantities that needs one, unless it stands with
/// its price, and its total where that is more than its prices.
struct OrderRow {
  std::string name;
  Money amount;
  bool total = false;  // what an order comes to
};
std::vector<OrderRow> order_rows(const CustomerQuote& quote, const Words& words);
/// What changed since the revision before, the minimum order charge, that one-off charges apply
/// once, shares of several totals, the price clause, and how many pieces more or fewer may come;
/// what there is of them.
Messages charge_terms(const CustomerQuote& quote, const Words& words);
/// Customer, contact, address.
std::vector<std::string> address_lines(const CustomerQuote& quote, const Words& words);

/// Lines of a text block; the last are not empty.
std::vector<std::string> lines_of(const std::string& text, const Words& words);

}  // namespace turnwright
