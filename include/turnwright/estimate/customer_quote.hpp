// SPDX-License-Identifier: MIT
#pragma once
// What the customer sees, and nothing else: there is no field here for a rate, a minute, a margin,
// a scrap share, a machine or a path, so none can leak.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/part/request.hpp"
#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/message.hpp"
#include "turnwright/quantity/money.hpp"

namespace turnwright {

struct CustomerPrice {
  int quantity = 1, releases = 1;
  int price_unit = 1;  // pieces that `each` is for
  Money each, total;
  Money minimum_surcharge;
  int lead_days = 0;  // 0: not said
  // Where the customer brings the material: pieces of it, or its length where that is fed as bar.
  int blanks = 0;
  Length bar{};
};

/// Paid once, as a line of its own.
struct CustomerCharge {
  std::string what;
  Money price;
};

struct CustomerItem {
  std::string number, name, revision, material;
  bool customers_material = false;
  Message stock, blank;  // that the customer brings: its size, and the length of a piece
  bool offered = true;
  std::string option;       // what is other about it than the line before; empty: it is no option
  std::string not_offered;  // why not, where the customer may read it
  std::vector<CustomerPrice> prices;
  std::vector<CustomerCharge> once;
  std::vector<std::string> work;  // done beside turning, where the customer may see it
  std::optional<Mass> mass;
  std::string week;  // of delivery, where the customer may see it
};

/// What an order of these quantities, one of each item, comes to.
struct CustomerOrder {
  std::vector<int> quantities;
  Money surcharge, rebate, net, tax, total;
};

struct CustomerQuote {
  std::string customer, contact;
  std::vector<std::string> address;
  std::string reference, number;
  int revision = 0;
  Date date{}, valid_until{};
  std::string currency;
  Message exchange;            // what it is worth, where it is not the shop's own
  std::string terms, packing;  // of delivery
  std::string payment;
  Messages changes;  // since a revision before
  std::optional<PriceClause> clause;
  std::optional<Tolerance> tolerance;
  bool material_certificate = false;
  Money minimum_order;
  std::vector<CustomerItem> items;
  std::vector<CustomerCharge> charges;  // freight, packing: of the order
  double rebate = 0, tax = 0;           // shares
  std::vector<CustomerOrder> orders;    // one, where each item has one quantity
};

struct Quote;
struct Policy;
/// A part of the request; null where it is not offered.
struct OfferedPart {
  const Part* part = nullptr;
  const Quote* quote = nullptr;
};
/// The parts stand in the order of the request's.
CustomerQuote customer_quote(const Request& request, const std::vector<OfferedPart>& parts,
                             const Policy& policy);

}  // namespace turnwright
