// SPDX-License-Identifier: MIT
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/document/reader.hpp"
#include "turnwright/week/order_table.hpp"

namespace turnwright {

/// A machine of the week, a group of them, or the word for all of them.
bool is_machine_name(std::string_view name, const Week& week);
/// The machines that a name, or a list of names, stands for: of the week, each once, in its order.
std::vector<std::string> machines_of(const Node& list, const Week& week, ProblemList& problems);

/// Orders for a week, whose machines are read.
class OrderReader {
 public:
  OrderReader(const Week& week, const OrderNumbers& taken, ProblemList& problems)
      : week_(week), taken_(taken), problems_(problems) {}
  WeekOrder order(const Node& node);

 private:
  void places(MapReader& map, WeekOrder& o);
  void bound_to(const Node& node, WeekOrder& o);
  void not_on(const Node& node, WeekOrder& o);
  int operation(MapReader& map);
  Pin pin(const Node& node);
  void material(const Node& node, WeekOrder& o);
  void pieces(MapReader& map, WeekOrder& o);
  void dates(MapReader& map, WeekOrder& o);
  void check(const Node& node, const WeekOrder& o);
  bool goes_nowhere(const WeekOrder& o) const;
  bool none_left(const WeekOrder& o, int operation) const;

  const Week& week_;
  const OrderNumbers& taken_;
  ProblemList& problems_;
};

}  // namespace turnwright
