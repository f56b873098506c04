// SPDX-License-Identifier: MIT
// Requests and what changed in them; one cut as it is said at the bench. All of it invented.
#include "turnwright/part/request_changes.hpp"

#include <filesystem>

#include "../bench_words.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Request request_of(const std::string& item, const std::string& more = "",
                   const std::string& parts = "") {
  const auto request = read_request(
      "r.yaml", "request: {customer: A, our number: N, date: 2026-12-01}\nparts: [" +
                    (parts.empty() ? "{part: p.yaml" + item + "}" : parts) + "]\n" + more);
  INFO(problems_text(request.problems()));
  REQUIRE(request);
  return *request;
}

// What is said to have changed, a sentence a line.
std::string changed(const Request& now, const Request& before) {
  std::string text;
  // "b.yaml" is P-1 in revision B, "c.yaml" in C; the others bear the name of their file.
  const LineNamer name = [](const Request&, const RequestItem& item) -> LineName {
    const std::string file = std::filesystem::path(item.part).filename().string();
    if (file == "P-1b.yaml") return {"P-1", "B"};
    if (file == "P-1c.yaml") return {"P-1", "C"};
    return {file, ""};
  };
  const LineOffer offered = [](const Request&,
                               const RequestItem& item) -> std::optional<LinePrices> {
    if (!item.not_offered.empty() || item.condition == "impossible") return std::nullopt;
    LinePrices prices;
    for (const int quantity : item.quantities) prices[quantity] = Money::from_hundredths(100);
    if (item.part == "P-1c.yaml") prices[10] = Money::from_hundredths(120);
    for (const auto& [quantity, price] : item.selling.prices) prices[quantity] = rounded(price);
    return prices;
  };
  for (const Message& m : changes_since(now, before, name, offered)) text += english(m) + "\n";
  return text;
}
std::string changed_item(const std::string& now, const std::string& before) {
  return changed(request_of(now), request_of(before));
}
std::string changed_order(const std::string& now, const std::string& before) {
  return changed(request_of("", now), request_of("", before));
}

BenchSettings settings_of(const std::string& text, bool inch = false) {
  TextFault fault;
  const auto set = read_bench_settings(text, inch, fault);
  INFO(english(fault.what));
  REQUIRE(set);
  return *set;
}

}  // namespace

TEST_CASE("every change of a line is said, and nothing else", "[part][request]") {
  struct Row {
    const char *now, *before, *said;
  };
  const Row rows[] = {
      {"", "", ""},
      {", quantities: [10, 50]", ", quantities: [10]", "p.yaml: quantities 10, 50, before 10\n"},
      {", quantities: [10]", "", "p.yaml: other quantities\n"},
      {", quantities: [240], releases: 4 of 60", ", quantities: [240]",
       "p.yaml: 4 releases, before 1\n"},
      {", price unit: 100", "", "p.yaml: another price unit\n"},
      {", week: 2027-W03", ", week: 2027-W04", "p.yaml: other delivery date\n"},
      {", lead time: 3 weeks", ", lead time: 20 days", "p.yaml: other delivery date\n"},
      {", lead time: 1 week", ", lead time: 7 days", ""},
      {", customer supplies: material", "", "p.yaml: other material or supply\n"},
      {", condition: drawn", ", condition: peeled", "p.yaml: other material or supply\n"},
      {", not offered: too long", "", "p.yaml is not offered any more\n"},
      {"", ", not offered: too long", "p.yaml is offered now\n"},
      {", not offered: too long", ", not offered: too wide", ""},
      {", condition: impossible", ", not offered: too long", ""},
      {", not offered: too long", ", condition: impossible", ""},
      {", quantities: [5]", ", not offered: too long", "p.yaml is offered now\n"},
      {", condition: impossible", ", quantities: [5]", "p.yaml is not offered any more\n"},
      {"", ", condition: impossible", "p.yaml is offered now\n"},
      {", quantities: [5], condition: impossible", ", condition: impossible", ""},
      {", quantities: [5], price: [4.50]", ", quantities: [5], price: [4.60]",
       "p.yaml: unit price at 5 4.50, before 4.60\n"},
      {", quantities: [5], price: [4.50]", ", quantities: [5]", "p.yaml: other unit prices\n"},
      {", quantities: [5, 10], price: [4.50, 4]", ", quantities: [5], price: [4.50]",
       "p.yaml: quantities 5, 10, before 5\n"},
      {", discount: 8 %", ", discount: 5 %", "p.yaml: other unit prices\n"},
      {", discount: 0 %", "", ""},
      {", margin: 8 %", ", margin: 5 %", "p.yaml: other unit prices\n"},
      {", quantities: [5], price: [4.50], margin: 8 %",
       ", quantities: [5], price: [4.50], margin: 5 %", ""},
      {", order: repeat", ", order: new", "p.yaml: other unit prices\n"},
      {", option: drawn", "", "p.yaml (drawn) is new\np.yaml is left out\n"}};
  for (const Row& row : rows) {
    INFO(row.now << " | " << row.before);
    CHECK(changed_item(row.now, row.before) == row.said);
  }
}

TEST_CASE("lines are found again by their file, each once", "[part][request]") {
  const Request before = request_of("", "", "a.yaml, a.yaml, ./sub/../b.yaml, c.yaml"),
                now = request_of("", "", "b.yaml, a.yaml, a.yaml, a.yaml");
  CHECK(changed(now, before) == "a.yaml is new\nc.yaml is left out\n");
}

TEST_CASE("a part is found again by its number, in a new drawing revision too", "[part][request]") {
  const std::string quantities = ", quantities: [10, 20]";
  const auto at = [&](const char* part, const std::string& more = "") {
    return request_of("", "", std::string("{part: ") + part + quantities + more + "}");
  };
  const std::string revised = "P-1: drawing revision C, before B\n";
  CHECK(changed(at("P-1c.yaml"), at("P-1b.yaml")) == revised + "P-1: other unit prices\n");
  CHECK(changed(at("P-1c.yaml", ", price: [1.20, 1]"), at("P-1b.yaml", ", price: [1.10, 1]")) ==
        revised + "P-1: unit price at 10 1.20, before 1.10\n");
  CHECK(changed(at("P-1c.yaml", ", price: [1.20, 1]"), at("P-1b.yaml", ", price: [1.20, 1]")) ==
        revised);
  CHECK(changed(at("new/x.yaml"), at("old/x.yaml")) == "");
  // Both revisions offered side by side are not taken for each other.
  CHECK(changed(request_of("", "", "P-1c.yaml, P-1b.yaml"),
                request_of("", "", "P-1b.yaml, P-1c.yaml")) == "");
}

TEST_CASE("every change of the order is said, and nothing else", "[part][request]") {
  const std::string tax = "another tax\n", rebate = "another rebate\n",
                    currency = "another currency\n", charges = "other charges\n",
                    clause = "another price clause\n";
  const std::string delivery = "other terms of delivery or packing\n",
                    payment = "other terms of payment\n";
  struct Row {
    const char *now, *before;
    std::string said;
  };
  const Row rows[] = {{"order: {tax: 0.2}", "order: {tax: 0.19}", tax},
                      {"order: {rebate: 0.1}", "", rebate},
                      {"order: {currency: EUR}", "", currency},
                      {"order: {charges: [{what: freight, price: 5}]}", "", charges},
                      {"order: {charges: [{what: freight, price: 5}]}",
                       "order: {charges: [{what: freight, price: 6}]}", charges},
                      {"order: {charges: [{what: freight, price: 5}]}",
                       "order: {charges: [{what: packing, price: 5}]}", charges},
                      {"order: {charges: [{what: freight, price: 5}]}",
                       "order: {charges: [{what: freight, price: 5}]}", ""},
                      {"order: {price clause: {of: a, base: b, date: 2026-12-01}}", "", clause},
                      {"order: {price clause: {of: a, base: b, date: 2026-12-01}}",
                       "order: {price clause: {of: a, base: c, date: 2026-12-01}}", clause},
                      {"order: {price clause: {of: a, base: b, date: 2026-12-01}}",
                       "order: {price clause: {of: d, base: b, date: 2026-12-01}}", clause},
                      {"order: {price clause: {of: a, base: b, date: 2026-12-01}}",
                       "order: {price clause: {of: a, base: b, date: 2026-12-01}}", ""},
                      {"order: {payment: 30 days}", "", payment},
                      {"delivery: {terms: EXW}", "delivery: {terms: DAP}", delivery},
                      {"delivery: {packing: crates}", "", delivery},
                      {"delivery: {over delivery: 0.1}", "", delivery},
                      {"delivery: {under delivery: 0.1}", "", delivery},
                      {"delivery: {overrun: free}", "", delivery},
                      {"delivery: {overrun: invoiced}", "", ""}};
  for (const Row& row : rows) {
    INFO(row.now << " | " << row.before);
    CHECK(changed_order(row.now, row.before) == row.said);
    CHECK(changed_order(row.before, row.now) == row.said);
  }
}

TEST_CASE("a request is read with all that it says", "[part][request]") {
  const Request r = request_of(
      ", quantities: [10, 50], price: [4.50, 3.20], price unit: 1000, margin: -10 %, lead time: [1 "
      "day, 2 weeks], order: repeat, releases: once",
      "show: [work, mass, delivery week, material certificate]\n");
  const RequestItem& item = r.parts[0];
  CHECK(item.selling.prices.at(50).si == Approx(3.2));
  CHECK(*item.selling.margin == Approx(-0.1));
  CHECK(item.price_unit == 1000);
  CHECK(item.lead_days == std::vector<int>{1, 14});
  CHECK(item.repeat == true);
  CHECK(item.releases == 1);
  CHECK((r.show.work && r.show.mass && r.show.delivery_week && r.show.material_certificate));
  CHECK(read_request("r.yaml",
                     "request: {customer: A, our number: N, date: 2026-12-01, valid for: 1 day, "
                     "address: [Mill lane 3, Old town]}\nparts: [p.yaml]\n")
            ->address.size() == 2);
}

TEST_CASE("what is set at a lathe is known by its units", "[part][bench]") {
  const BenchSettings all = settings_of("300 rev/min, 0.1 mm/rev, 1 mm");
  CHECK(in(all.spindle, unit::rev_per_min) == Approx(300));
  CHECK(in(all.feed, unit::mm) == Approx(0.1));
  CHECK(in(all.depth, unit::mm) == Approx(1));
  CHECK(all.surface_speed.si == 0);
  const BenchSettings speed = settings_of("120m/min,0.04 in", true);
  CHECK(in(speed.surface_speed, unit::m_per_min) == Approx(120));
  CHECK(in(speed.depth, unit::mm) == Approx(1.016));
}

TEST_CASE("a cut at the bench is read word by word", "[part][bench]") {
  CHECK(work_of("50 to 42 x120").kind == BenchWorkKind::turn);
  CHECK(in(work_of("face 120 to 0").length, unit::mm) == 0);
  CHECK(in(work_of("face 120 to 0 x3").length, unit::mm) == Approx(3));
  const BenchWork inch = work_of("turn 2 in to 1.5 x.5");
  CHECK(inch.inch);
  CHECK(in(inch.to, unit::mm) == Approx(38.1));
  CHECK(in(inch.length, unit::mm) == Approx(12.7));
  CHECK(work_of("drill 0.5 x1in").inch);
  CHECK(in(work_of("groove 3 mm wide 40 to 34").width, unit::mm) == Approx(3));
  const BenchWork knurl = work_of("knurl RGE 1.0 30 x20 mm");
  CHECK(knurl.knurl == "RGE");
  CHECK(in(knurl.from, unit::mm) == Approx(30));
  CHECK(in(knurl.pitch, unit::mm) == Approx(1));
  CHECK(std::string(name_of(work_of("part off 40").kind)) == "part-off");
  CHECK(work_of("tap M10 x20").thread.pitch.si == Approx(0.0015));
}
