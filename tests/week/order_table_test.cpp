// SPDX-License-Identifier: MIT
// Orders out of a table, read by the words of the week file.
#include <sstream>

#include "turnwright/week/order_table.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Week empty_week() {
  return week_in(
      "week: {from: 2026-12-07, to: 2026-12-31}\n"
      "shifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\n"
      "machines: [{machine: \"CNC lathe, medium\", called: A, shifts: [early]}]\n");
}
const OrderWords words{{{"auftrag", "order"}, {"teil", "part"}, {"menge", "quantity"}},
                       {{"offen", "won"}, {"erledigt", "done"}}};

struct Read {
  Week week = empty_week();
  OrderNumbers taken;
  Problems problems;
  Messages notes;
  std::vector<std::string> texts;
};
// `holds`: of a sheet whose numbers, or days, are such.
Read read(const std::string& text, CellHolds holds = CellHolds::text) {
  std::istringstream in(text);
  TableReader rows("orders.csv", in);
  const auto head = rows.next();
  REQUIRE(head);
  REQUIRE(OrderTable::is_head(*head, words));
  const auto table = OrderTable::read_head("orders.csv", *head, words);
  Read out;
  if (!table) {
    out.problems = table.problems();
    return out;
  }
  out.notes = table->notes();
  while (auto row = rows.next()) {
    row->in_sheet = holds != CellHolds::text;
    for (Cell& cell : row->cells)
      if (holds == CellHolds::number ? read_number(cell.text).has_value()
                                     : read_date(cell.text).has_value())
        cell.holds = holds;
    const Problems found = table->add(*row, out.week, out.taken);
    out.problems.insert(out.problems.end(), found.begin(), found.end());
    out.texts = table->texts(*row);
  }
  return out;
}

}  // namespace

TEST_CASE("a row is an order, in the words of the list", "[week]") {
  const Read list = read(
      "Auftrag;Teil;Menge;due;customer;state;Farbe;finished;not on\n"
      "7;WF-310;20;2026-12-10;Orrin Winches;offen;blue;10, 20;\n"
      "8;p30.yaml;5;24.12.2026;;quoted;;;\n"
      "9;p30.yaml;5;2026-12-11;;erledigt;;;\n");
  REQUIRE(list.problems.empty());
  REQUIRE(list.week.orders.size() == 2);
  const WeekOrder& first = list.week.orders[0];
  CHECK(first.number == "7");
  CHECK(first.part == "WF-310");
  CHECK(first.customer == "Orrin Winches");
  CHECK(first.finished == std::vector<int>{10, 20});
  CHECK(text_of(first.due) == "2026-12-10");
  CHECK(text_of(list.week.orders[1].due) == "2026-12-24");
  CHECK(list.week.orders[1].state == OrderState::quoted);
  REQUIRE(list.notes.size() == 1);
  CHECK(list.notes.front().id == "part.columns-not-read");
  REQUIRE(first.row);
  CHECK(first.row->file == "orders.csv");
  CHECK(first.row->at.line == 2);
}

TEST_CASE("a sheet's day is its number", "[week]") {
  const Read list = read("order,part,quantity,due\n7,p30.yaml,20,46366\n", CellHolds::number);
  REQUIRE(list.problems.empty());
  CHECK(text_of(list.week.orders.front().due) == "2026-12-10");
}

TEST_CASE("a day of a sheet is read where a day is expected, and nowhere else", "[week]") {
  CHECK(
      read("order,part,quantity,due\n7,p30.yaml,20,2026-12-10\n", CellHolds::day).problems.empty());
  const Read list = read("order,part,quantity,due,machine\n7,p30.yaml,20,2026-12-10,2026-05-01\n",
                         CellHolds::day);
  REQUIRE(list.problems.size() == 1);
  CHECK(list.problems[0].what.id == "table.day");
  CHECK(list.week.orders.empty());
}

TEST_CASE("a quantity with a point before three digits is not one piece", "[week]") {
  const Read list = read("order,part,quantity,due\n7,p30.yaml,1.000,2026-12-10\n");
  REQUIRE(list.problems.size() == 1);
  CHECK(list.problems[0].what.id == "number.thousands-or-decimals");
}

TEST_CASE("a row that is no order is refused at its place, and the others stay", "[week]") {
  const Read list = read(
      "order,part,quantity,due,machine\n"
      "7,p30.yaml,none,2026-12-10,\n"
      "8,p30.yaml,5,soon,\n"
      "9,p30.yaml,5,2026-12-10,Q\n"
      "10,p30.yaml,5,2026-12-10,A\n"
      "10,p30.yaml,6,2026-12-10,A\n"
      ",p30.yaml,6,2026-12-10,A\n");
  REQUIRE(list.week.orders.size() == 1);
  REQUIRE(list.problems.size() == 5);
  CHECK(list.problems[0].at.line == 2);
  CHECK(list.problems[0].at.column == 12);
  CHECK(list.problems[1].what.id == "week.no-day");
  CHECK(list.problems[2].what.id == "week.not-of-the-week");
  CHECK(list.problems[3].what.id == "week.order-twice");
  CHECK(list.texts == std::vector<std::string>{"", "p30.yaml", "6", "2026-12-10", "A"});
  CHECK(read("order,part,due\n7,p30.yaml,2026-12-10\n").problems.front().what.id ==
        "part.column-missing");
  CHECK(read("order,part,quantity,due,Teil\n").problems.front().what.id == "part.column-twice");
}
