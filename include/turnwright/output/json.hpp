// SPDX-License-Identifier: MIT
#pragma once
// JSON documents: every dimensioned number in SI with its unit in the key, money as text.
#include <span>
#include <string>
#include <vector>

#include "turnwright/compare/compare.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "turnwright/part/request.hpp"

namespace turnwright {

inline constexpr const char* version = "0.1.0";

/// An input file as typed, with the SHA-256 of its bytes.
struct InputDigest {
  std::string path, sha256;
};

/// A value of a figure as it was typed or is shown.
struct FigureValue {
  std::string name;
  figure::Numbers si;
  std::vector<double> shown;
  std::string unit;
  bool list = false;
  std::string word;  // of a choice
};
struct FigureAnswer {
  const figure::Entry* entry = nullptr;
  std::vector<FigureValue> inputs, results;
  std::string solved_for;
};
std::string figure_json(const FigureAnswer& answer);

/// The method that a route is of, and the quantity that is quoted by it; empty: unsaid.
struct MadeBy {
  std::string method;
  int quantity = 0;
};
std::string route_json(const Route& route, const RouteTimes& times, const Shop& shop,
                       const MadeBy& made_by = {});
/// A part that cannot be made, with why and what would help.
std::string infeasible_json(const Job& job, const Infeasible& infeasible);
std::string quote_json(const PartQuote& part, const Shop& shop,
                       const std::vector<InputDigest>& inputs, const Request* request = nullptr);

}  // namespace turnwright
