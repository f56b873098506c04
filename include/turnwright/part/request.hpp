// SPDX-License-Identifier: MIT
#pragma once
// What came by mail: who asks for which parts at which quantities, and what he may see. The part
// files stay drawings. Number, revision and date are given, never the clock's.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/part/part.hpp"
#include "turnwright/quantity/date.hpp"

namespace turnwright {

/// Freight, packing and the like: a line of the order, its price as the customer pays it.
struct Charge {
  std::string what;
  Money price;
  Amount exact{};  // before it was rounded in the shop's currency
};
/// What prices rest on: "alloy surcharge", "2.10 EUR/kg", and the day of that.
struct PriceClause {
  std::string of, base;
  Date date{};
};
/// How many more or fewer pieces may be delivered, shares of the quantity.
struct Tolerance {
  double over = 0, under = 0;
  bool overrun_invoiced = true;
};

struct RequestItem {
  std::string part;  // path of the part file, from the request's folder
  Position at;
  std::vector<int> quantities;  // rising; empty: the part file's
  int releases = 1;
  int released = 0;    // the quantity that these are of
  int price_unit = 0;  // 0: the shop's
  bool customers_material = false;
  std::string condition;  // of the stock, in place of the part file's
  std::optional<bool> repeat;
  std::string week;  // of delivery, "2027-W03"
  Selling selling = {};
  std::vector<int> lead_days;  // to delivery, one per quantity, or one for all of them
  std::string not_offered;     // why, as the customer reads it; empty: it is offered
};

/// What the customer may see beside prices.
struct Showing {
  bool material_certificate = false, delivery_week = false, work = false, mass = false;
};

struct Request {
  Request();  // written once, in request.cpp, not in every file that copies one
  Request(const Request&);
  Request(Request&&) noexcept;
  Request& operator=(const Request&);
  Request& operator=(Request&&) noexcept;
  ~Request();

  std::string file;
  std::string customer, contact;
  std::vector<std::string> address;
  std::string reference;  // theirs
  std::string number;     // ours
  int revision = 0;
  Date date{};  // from 1970 to 2200, as `wanted`
  int valid_days = 30;
  std::string terms, packing;  // of delivery
  std::string payment;
  std::string currency;  // that the customer pays in; empty: the shop's own
  std::optional<PriceClause> clause;
  std::optional<Tolerance> tolerance;
  std::vector<Charge> charges;
  std::optional<double> rebate, tax;  // in place of the policy's
  std::string rebate_of;              // the customer whose record that is of; empty: the request
  std::optional<Date> wanted;
  std::vector<RequestItem> parts;
  Showing show;
};

/// True when the text is a request and not a part file.
bool is_request(std::string_view text);
/// Reads a request file. All problems of it, or the request.
Checked<Request> read_request(std::string file, std::string_view text,
                              const Currencies& currencies = {});
/// The part as this item orders it; a problem when its quantities do not go into the releases.
Checked<Part> ordered(Part part, const RequestItem& item, const Request& request);

}  // namespace turnwright
