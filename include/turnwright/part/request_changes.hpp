// SPDX-License-Identifier: MIT
#pragma once
// What a customer must see of a request that came before.
#include <functional>
#include <map>
#include <optional>
#include <string>

#include "turnwright/part/request.hpp"

namespace turnwright {

/// A line of a request as the customer knows it: number and revision of its drawing.
struct LineName {
  std::string number, revision;
};
using LineNamer = std::function<LineName(const Request& request, const RequestItem& item)>;
/// Unit prices by quantity, as the customer pays them.
using LinePrices = std::map<int, Money>;
/// What a line is offered at; nothing where it is not: it cannot be made, or the request says so.
using LineOffer =
    std::function<std::optional<LinePrices>(const Request& request, const RequestItem& item)>;
/// What a customer must see of it since a request that came before: lines by their part numbers,
/// revisions of drawings, quantities, releases, weeks, material, prices, delivery, payment and what
/// the order is paid with.
Messages changes_since(const Request& now, const Request& before, const LineNamer& name,
                       const LineOffer& offer);

}  // namespace turnwright
