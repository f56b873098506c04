// SPDX-License-Identifier: MIT
// Lists as tables: what a row, a heading and a cell of stock mean, and what is said of wrong ones.
// All rows are invented.
#include <sstream>

#include "../wrong_texts.hpp"
#include "turnwright/part/part_table.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::vector<TableRow> rows_of(const std::string& text) {
  std::istringstream in(text);
  TableReader reader("l.csv", in);
  std::vector<TableRow> rows;
  while (auto row = reader.next()) rows.push_back(std::move(*row));
  return rows;
}

Checked<Document> document(const std::string& name, const std::string& text) {
  return read_document(name, text);
}

// The table of a list's first row, with the families that the rows of these tests name.
Checked<PartTable> table_of(const std::vector<TableRow>& rows, const HeadingWords& words = {}) {
  auto table = PartTable::read_head("l.csv", rows.front(), words);
  if (!table) return table;
  const std::string flange =
      "part: {name: flange}\nmaterial: C45\noutside: [<d1> x<l1>, <d2> x10]\n";
  PartTable known = *table;
  known.add_family("flange.yaml", document("flange.yaml", flange));
  known.add_family("broken.yaml", document("broken.yaml", "part: {"));
  known.add_family("items.yaml", document("items.yaml", "[<d1>]"));
  known.find_convention({rows.begin() + 1, rows.end()});
  return known;
}

// Of the head, or of the first row that has any.
Problems problems_of(const std::string& text) {
  const std::vector<TableRow> rows = rows_of(text);
  const auto table = table_of(rows);
  if (!table) return table.problems();
  for (std::size_t i = 1; i < rows.size(); ++i)
    if (const auto part = table->read(rows[i]); !part) return part.problems();
  return {};
}

Part part_in(const std::string& head, const std::string& row, const HeadingWords& words = {}) {
  const std::vector<TableRow> rows = rows_of(head + "\n" + row + "\n");
  const auto table = table_of(rows, words);
  INFO(head << "\n" << row << "\n" << problems_text(table.problems()));
  REQUIRE(table);
  const auto part = table->read(rows[1]);
  INFO(problems_text(part.problems()));
  REQUIRE(part);
  return *part;
}

PartStock stock_in(const std::string& cell) {
  return part_in("number;material;outside;stock", "A;C45;30 x40;\"" + cell + "\"").stock;
}

double mm(Length l) { return in(l, unit::mm); }

}  // namespace

TEST_CASE("of a wrong list everything is said where it is wrong", "[part][list][wrong]") {
  check_wrong("part/wrong/lists.txt", 20, problems_of);
}

TEST_CASE("of a wrong layout of lists everything is said where it is wrong",
          "[part][list][wrong]") {
  check_wrong("part/wrong/layouts.txt", 5,
              [](const std::string& text) { return read_list_layout("c.yaml", text).problems(); });
}

TEST_CASE("stock is read in the words that people write it in", "[part][list]") {
  for (const char* cell :
       {"round 36, drawn, bar", "Rund 36 gezogen, Stange", "dia 36 drawn barstock",
        "Ø36 drawn fed from bar", "36 mm bar stock, drawn, drawn"}) {
    INFO(cell);
    const PartStock stock = stock_in(cell);
    CHECK(stock.form == StockForm::round);
    CHECK(mm(stock.size) == Approx(36));
    CHECK(stock.condition == "drawn");
    CHECK(stock.from_bar);
  }
  const std::pair<const char*, StockForm> forms[] = {{"6kt 24", StockForm::hexagon},
                                                     {"Sechskant 24 mm", StockForm::hexagon},
                                                     {"square 24", StockForm::square},
                                                     {"Guss 24", StockForm::casting},
                                                     {"forging 24", StockForm::forging}};
  for (const auto& [cell, form] : forms) {
    INFO(cell);
    CHECK(stock_in(cell).form == form);
    CHECK(mm(stock_in(cell).size) == Approx(24));
  }
  CHECK(mm(stock_in("tube 70x12").wall) == Approx(12));
  CHECK(mm(stock_in("round 1.5 in").size) == Approx(38.1));
  CHECK(mm(stock_in("round 1.5 inch, sawn").size) == Approx(38.1));
  CHECK(stock_in("round 36, our special").condition == "our special");
  CHECK(stock_in("36 blank, beigestellt").customers);
  CHECK(stock_in("Auto").form == StockForm::automatic);
}

TEST_CASE("a heading may say the unit of its sizes", "[part][list]") {
  for (const char* head : {"number;material;outside (inch)", "number;material;outside [in]",
                           "Number:;MATERIAL;Outside (Zoll)", "number;material;outside(inches)"}) {
    INFO(head);
    CHECK(mm(part_in(head, "A;C45;2 x1").overall) == Approx(25.4));
  }
  for (const char* head : {"number;material;outside (mm)", "number (in);material;outside",
                           "number;material;outside (as drawn)"})
    CHECK(mm(part_in(head, "A;C45;2 x1").overall) == Approx(1));
  const HeadingWords words{
      {"sach nr", "number"}, {"wst", "material"}, {"kontur", "outside"}, {"farbe", "colour"}};
  CHECK(part_in("Sach-Nr.;Wst;Kontur;Farbe", "A;C45;2 x1;red", words).number == "A");
}

TEST_CASE("quantities of a cell are numbers, whatever stands beside them", "[part][list]") {
  const auto quantities = [](const std::string& cell) {
    return part_in("number;material;outside;quantities", "A;C45;30 x40;\"" + cell + "\"")
        .quantities;
  };
  CHECK(quantities("10 / 50, 250") == std::vector<int>{10, 50, 250});
  CHECK(quantities("10 pcs; 50 Stk") == std::vector<int>{10, 50});
  CHECK(quantities("10 | 50") == std::vector<int>{10, 50});
}

TEST_CASE("a list's decimal commas are read where it has no points", "[part][list]") {
  const Part commas = part_in("number;material;outside", "1,5;C45;30,5 x40,25");
  CHECK(mm(commas.overall) == Approx(40.25));
  CHECK(commas.number == "1,5");
  const auto rows = rows_of("number;material;outside\nA;C45;30,5 x40\nB;C45;30.5 x40\n");
  const auto table = table_of(rows);
  REQUIRE(table);
  CHECK_FALSE(table->read(rows[1]));
  REQUIRE(table->notes().size() == 2);
  CHECK_THAT(english(table->notes()[1]), Catch::Contains("both 3,2 (1 times) and 3.2 (1 times)"));
}

TEST_CASE("a point before three digits parts thousands where a list writes decimal commas",
          "[part][list]") {
  const auto quantities = [](const std::string& cell) {
    return part_in("number;material;outside;Ra;quantities", "A;C45;30 x40;3,2;" + cell).quantities;
  };
  CHECK(quantities("1.000") == std::vector<int>{1000});
  CHECK(quantities("5.000 / 10.000") == std::vector<int>{5000, 10000});
  CHECK(quantities("50 / 2.500 Stk") == std::vector<int>{50, 2500});
  CHECK(quantities("1.000.000") == std::vector<int>{1'000'000});
}

TEST_CASE("numbers and days of a sheet are no texts with a mark", "[part][list]") {
  auto rows = rows_of("number;material;outside;Ra;quantities;revision\nA;C45;30 x40,5;3.2;50;B\n");
  rows[1].cells[3].holds = CellHolds::number;
  const auto table = table_of(rows);
  REQUIRE(table);
  CHECK_THAT(english(table->notes()[0]), Catch::Contains("decimal commas"));
  const auto part = table->read(rows[1]);
  REQUIRE(part);
  CHECK(mm(part->overall) == Approx(40.5));
  REQUIRE(part->drawing.ra);
  CHECK(in(*part->drawing.ra, unit::um) == Approx(3.2));
  CHECK(table->texts(rows[1])[3] == "3,2");
  rows[1].cells[5].holds = CellHolds::day;  // a revision may be one
  CHECK(table->read(rows[1]));
  for (const std::size_t i : {0, 1, 2, 3, 4}) {
    TableRow row = rows[1];
    row.cells[i].holds = CellHolds::day;
    row.cells[i].text = "2026-10-05";
    CHECK_THAT(problems_text(table->read(row).problems()), Catch::Contains("a date: 2026-10-05"));
  }
}

TEST_CASE("a list says how many pieces each row is for", "[part][list]") {
  const auto rows = rows_of("number;material;outside;quantities\nA;C45;30 x40\nB;C45;30 x40;\n");
  const auto table = table_of(rows);
  REQUIRE(table);
  CHECK(table->notes().empty());
  for (const std::size_t i : {1, 2})
    CHECK_THAT(problems_text(table->read(rows[i]).problems()),
               Catch::Contains("no quantity in this row"));
  const auto without = table_of(rows_of("number;material;outside\nA;C45;30 x40\n"));
  REQUIRE(without);
  REQUIRE(without->notes().size() == 1);
  CHECK_THAT(english(without->notes()[0]), Catch::Contains("priced for 1 piece"));
}

TEST_CASE("a row of a family gives its sizes, and may overlay the rest", "[part][list]") {
  const Part p = part_in("number;family;d1;d2;l1;material", "F-1;flange.yaml;50;30;12.5;42CrMo4");
  CHECK(p.name == "flange");
  CHECK(p.material == "42CrMo4");
  CHECK(mm(p.outside[0].size.nominal) == Approx(50));
  CHECK(mm(p.overall) == Approx(22.5));
  CHECK(part_in("number;family;material;outside", "F-2;;C45;30 x40").number == "F-2");
  CHECK(mm(part_in("number;family;d1;d2;l1;Ra", "F-1;flange.yaml;50;30;12,5;3,2").overall) ==
        Approx(22.5));
}

TEST_CASE("what is wrong in a family's text stands at the row's family", "[part][list]") {
  const auto rows = rows_of("number;family;d1;d2;l1;quantities\nF-1;flange.yaml;50;30;10;5\n");
  const auto table = table_of(rows);
  REQUIRE(table);
  // Found after reading, with the shop: at the place of a text of the family.
  Problem found;
  found.file = "l.csv";
  found.at = {(1 << 20) + 2, 2};
  found.what = "part.no-quantity-in-row";
  const Problems moved = table->in_row({found}, rows[1]);
  REQUIRE(moved.size() == 1);
  CHECK_THAT(problems_text(moved), Catch::Contains("l.csv:2:"));
  CHECK_THAT(problems_text(moved), Catch::Contains("flange.yaml"));
}

TEST_CASE("of a family that is not there nothing else is missed", "[part][list]") {
  const Problems said = problems_of("number;family;d1;quantities\nF-1;gone.yaml;50;\n");
  REQUIRE(said.size() == 1);
  CHECK_THAT(problems_text(said), Catch::Contains("gone.yaml"));
}

TEST_CASE("a row is a line of an order, and the minimum is that of the order", "[part][list]") {
  CHECK_FALSE(part_in("number;material;outside", "A;C45;30 x40").selling.whole_order);
}

TEST_CASE("bought work of a list is charged as in a part file", "[part][list]") {
  const Part p = part_in("number;material;outside;other work",
                         "A;C45;30 x40;\"slot, 4 min | {what: hardened, price: 3.20, per: kg, "
                         "minimum: 95, certificate: 15}\"");
  REQUIRE(p.other_work.size() == 2);
  CHECK(p.other_work[1].what == "hardened");
  CHECK(p.other_work[1].per == ChargedBy::kg);
  CHECK(p.other_work[1].minimum.si == Approx(95));
  const Part comma = part_in("number;material;outside;other work",
                             "A;C45;30,5 x40;\"{what: hardened, price: 3,20, per: kg}\"");
  CHECK(comma.other_work[0].price->si == Approx(3.2));
  CHECK_THAT(problems_text(problems_of("number;material;outside;other work\n"
                                       "A;C45;30 x40;\"{what: hardened, costs: 3.20}\"\n")),
             Catch::Contains("costs"));
}

TEST_CASE("a cell of roughness may write the mark as well", "[part][list]") {
  CHECK(in(*part_in("number;material;outside;Ra", "A;C45;30 x40;Ra 3,2").drawing.ra, unit::um) ==
        Approx(3.2));
}

TEST_CASE("a table gives its columns and cells back, without those that it does not read",
          "[part][list]") {
  const auto rows =
      rows_of("number;material;outside;colour;problem;notes\nA;C45;30 x40;red;none\n");
  const auto table = table_of(rows);
  REQUIRE(table);
  CHECK(table->columns() == std::vector<std::string>{"number", "material", "outside", "notes"});
  CHECK(table->texts(rows[1]) == std::vector<std::string>{"A", "C45", "30 x40", ""});
  CHECK(table->cell(rows[1], "outside") == "30 x40");
  CHECK(table->cell(rows[1], "stock").empty());
  CHECK(table->identity(rows[1]) == "number\nA\nmaterial\nC45\noutside\n30 x40\n");
  CHECK_THAT(english(table->notes()[1]), Catch::Contains("colour"));
}

TEST_CASE("a head names a part or a family and one column more", "[part][list]") {
  const auto is_head = [](const char* line) { return PartTable::is_head(rows_of(line)[0], {}); };
  CHECK(is_head("number;outside\n"));
  CHECK(is_head("family;material;d1\n"));
  CHECK_FALSE(is_head("number;anything\n"));
  CHECK_FALSE(is_head("material;outside\n"));
  CHECK_FALSE(is_head("Offer of the year;;\n"));
}

TEST_CASE("a layout gives columns to a customer's own headings", "[part][list]") {
  const auto layout = read_list_layout(
      "c.yaml", "sheet: parts\nunits: inch\ncolumns: {Zeichnungs-Nr.: number, Kontur: outside}\n");
  REQUIRE(layout);
  CHECK(layout->sheet == "parts");
  CHECK(layout->inch);
  CHECK(layout->headings == HeadingWords{{"zeichnungs nr", "number"}, {"kontur", "outside"}});
  CHECK_FALSE(read_list_layout("c.yaml", "sheet: parts\n")->inch);
}
