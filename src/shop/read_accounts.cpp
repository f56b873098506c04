// SPDX-License-Identifier: MIT
// A year's books: people, machines, what things cost, overheads.
#include <algorithm>

#include "record.hpp"

namespace turnwright {

BookedPeople read_booked_people(MapReader& map) {
  BookedPeople p;
  p.name = map.text_or("name", "");
  p.number = map.whole("number", 1, 100000).value_or(1);
  p.wage = map.needed("wage", unit::money_per_h);
  p.paid_hours = map.needed("paid hours", unit::h);
  p.at_machines = map.quantity_or("at machines", unit::ratio, Number(1.0)).si;
  p.source = source_of(map);
  if (p.wage.si < 0 || p.paid_hours.si < 0 || p.at_machines < 0 || p.at_machines > 1)
    map.notes().add(map.node().at, 1, "shop.people", "expected.people");
  return p;
}

BookedMachine read_booked_machine(MapReader& map) {
  BookedMachine m;
  m.name = map.text_or("name", "");
  m.number = map.whole("number", 1, 100000).value_or(1);
  m.price = map.needed("price", unit::money);
  m.residual = map.quantity_or("residual", unit::money, Amount(0.0));
  m.years = map.needed("years", unit::ratio).si;
  m.running_hours = map.needed("running hours", unit::h);
  m.floor = map.quantity_or("floor", UnitOf<Dim{2}>{"m2", 1, 1}, Area(0.0));
  m.power = map.quantity_or("power", unit::kW, Power(0.0));
  m.service = map.quantity_or("service", unit::money, Amount(0.0));
  if (const Node* lathes = map.find("lathes"))
    for (const Node* item : as_list(*lathes))
      if (const auto text = read_text(*item, map.notes(), "expected.machine-name"))
        m.lathes.push_back(*text);
  m.source = source_of(map);
  if (m.years <= 0 || m.running_hours.si <= 0 || m.price.si < 0 || m.residual.si < 0 ||
      m.floor.si < 0 || m.power.si < 0 || m.service.si < 0)
    map.notes().add(map.node().at, 1, "shop.booked-machine", "expected.booked-machine");
  return m;
}

BookedOverhead read_booked_overhead(MapReader& map) {
  BookedOverhead o;
  o.name = map.text_or("name", "");
  o.amount = map.needed("amount", unit::money);
  o.source = source_of(map);
  if (o.amount.si < 0)
    map.notes().add(map.node().at, 1, "shop.negative-overhead", "expected.0-or-more");
  return o;
}

void read_book_value(MapReader& map, Accounts& books) {
  const std::string name = map.text_or("name", "");
  const Node* value = map.need("value");
  source_of(map);
  if (value == nullptr) return;
  auto ratio = [&] { return map.quantity_or("value", unit::ratio, Number(0.0)).si; };
  auto money = [&] { return map.quantity_or("value", unit::money, Amount(0.0)); };
  static const std::vector<std::string> known{"on-cost", "interest",        "floor",
                                              "energy",  "material bought", "outside bought"};
  if (name == "on-cost")
    books.on_cost = ratio();
  else if (name == "interest")
    books.interest = ratio();
  else if (name == "floor")
    books.floor_cost = money();
  else if (name == "energy")
    books.energy = money();
  else if (name == "material bought")
    books.material_bought = money();
  else if (name == "outside bought")
    books.outside_bought = money();
  else
    map.notes().add(map.node().at, 1, {"shop.unknown-book-value", {{"name", name}}},
                    "expected.book-value", nearest(name, known));
  const Amount least =
      std::min({books.floor_cost, books.energy, books.material_bought, books.outside_bought});
  if (books.on_cost < 0 || books.interest < 0 || least.si < 0)
    map.notes().add(*value, found(*value), "expected.0-or-more");
}

}  // namespace turnwright
