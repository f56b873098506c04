// SPDX-License-Identifier: MIT
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/reader.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

inline constexpr std::size_t most_orders = 10'000;  // in the plan of a shop

/// A machine of the week, a group of them, or the word for all of them.
bool is_machine_name(std::string_view name, const Week& week);
/// The machines that a name, or a list of names, stands for: of the week, each once, in its order.
std::vector<std::string> machines_of(const Node& list, const Week& week, ProblemList& problems);

/// Orders of a week, whose machines are read; each is added to it.
class OrderReader {
 public:
  OrderReader(Week& week, ProblemList& problems) : week_(week), problems_(problems) {}
  void add(const Node& node);

 private:
  WeekOrder order(const Node& node);
  void places(MapReader& map, WeekOrder& o);
  void bound_to(const Node& node, WeekOrder& o);
  void not_on(const Node& node, WeekOrder& o);
  Pin pin(const Node& node);
  void material(const Node& node, WeekOrder& o);
  void pieces(MapReader& map, WeekOrder& o);
  void dates(MapReader& map, WeekOrder& o);
  void check(const Node& node, const WeekOrder& o);
  bool goes_nowhere(const WeekOrder& o) const;
  bool none_left(const WeekOrder& o, int operation) const;

  Week& week_;
  ProblemList& problems_;
};

}  // namespace turnwright
