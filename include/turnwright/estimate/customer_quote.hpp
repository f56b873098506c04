// SPDX-License-Identifier: MIT
#pragma once
// What the customer sees, and nothing else: there is no field here for a rate, a minute, a margin,
// a scrap share, a machine or a path, so none can leak.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/money.hpp"

namespace turnwright {

struct CustomerPrice {
  int quantity = 1, releases = 1;
  int price_unit = 1;  // pieces that `each` is for
  Money each, total;
  Money minimum_surcharge;
};

/// Paid once, as a line of its own.
struct CustomerCharge {
  std::string what;
  Money price;
};

struct CustomerItem {
  std::string number, name, revision, material;
  bool customers_material = false;
  std::vector<CustomerPrice> prices;
  std::vector<CustomerCharge> once;
  std::vector<std::string> work;  // done beside turning, where the customer may see it
  std::optional<Mass> mass;
  std::string week;  // of delivery, where the customer may see it
};

/// What an order of these quantities, one of each item, comes to.
struct CustomerOrder {
  std::vector<int> quantities;
  Money surcharge, total;
};

struct CustomerQuote {
  std::string customer, contact;
  std::vector<std::string> address;
  std::string reference, number;
  int revision = 0;
  Date date{}, valid_until{};
  std::string currency;
  std::string terms, packing;  // of delivery
  bool material_certificate = false;
  Money minimum_order;
  std::vector<CustomerItem> items;
  std::vector<CustomerOrder> orders;  // one, where each item has one quantity
};

struct Quote;
struct Request;
struct Policy;
/// The quotes stand in the order of the request's parts.
CustomerQuote customer_quote(const Request& request, const std::vector<Quote>& quotes,
                             const Policy& policy);

}  // namespace turnwright
