// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <map>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

TEST_CASE("harder is never faster: every group, every grade, every depth", "[shop][rates]") {
  int pairs = 0;
  for (const CuttingGroup& group : shipped_shop().cutting_groups)
    for (const CuttingRow& soft : group.rows)
      for (const CuttingRow& hard : group.rows) {
        if (soft.grade != hard.grade || soft.hardness.low >= hard.hardness.low) continue;
        ++pairs;
        INFO(group.name << " " << soft.grade << " " << soft.hardness.low << " against "
                        << hard.hardness.low);
        REQUIRE(soft.depth.size() == hard.depth.size());
        for (std::size_t i = 0; i < soft.depth.size(); ++i) {
          CHECK(soft.depth[i] == hard.depth[i]);
          CHECK(hard.speed[i] <= soft.speed[i]);
          CHECK(hard.feed[i] <= soft.feed[i]);
        }
      }
  CHECK(pairs > 40);
}

TEST_CASE("deeper is never faster", "[shop][rates]") {
  for (const CuttingGroup& group : shipped_shop().cutting_groups)
    for (const CuttingRow& row : group.rows)
      for (std::size_t i = 1; i < row.depth.size(); ++i) {
        INFO(group.name << " " << row.hardness.low);
        CHECK(row.depth[i - 1] < row.depth[i]);
        CHECK(row.speed[i] <= row.speed[i - 1]);
      }
}

TEST_CASE("harder never cuts easier within a group, at any chip", "[shop][rates]") {
  std::map<std::string, std::vector<const Material*>> groups;
  for (const Material& m : shipped_shop().materials) groups[m.group].push_back(&m);
  int pairs = 0;
  for (auto& [name, list] : groups)
    for (const Material* a : list)
      for (const Material* b : list) {
        if (a->hardness.mean() >= b->hardness.mean()) continue;
        ++pairs;
        INFO(a->name << " against " << b->name);
        for (const double h : {0.05, 0.1, 0.3, 0.6, 1.0})
          CHECK(b->kc11.si * std::pow(h, -b->mc) >= a->kc11.si * std::pow(h, -a->mc) * (1 - 1e-12));
      }
  CHECK(pairs > 10);
}

TEST_CASE("every record says where it comes from", "[shop][rates]") {
  for (const Material& m : shipped_shop().materials) CHECK_FALSE(m.source.text.empty());
  for (const Tool& t : shipped_shop().tools) CHECK_FALSE(t.source.text.empty());
  for (const Machine& m : shipped_shop().machines) CHECK_FALSE(m.source.text.empty());
  for (const HandlingElement& e : shipped_shop().handling) CHECK_FALSE(e.source.text.empty());
  CHECK(shipped_shop().materials.size() == 39);
  CHECK(std::any_of(shipped_shop().machines.begin(), shipped_shop().machines.end(),
                    [](const Machine& m) { return m.manual(); }));
}

TEST_CASE("materials are found by trade names", "[shop]") {
  for (const char* name : {"42CrMo4 +QT", "1.7225 +QT", "AISI 4140 +QT", "42crmo4+qt"})
    CHECK(shipped_shop().material(name)->name == "42CrMo4+QT");
  CHECK(shipped_shop().material("AISI 1045")->name == "C45");
  CHECK(shipped_shop().material("CuZn39Pb3") != nullptr);
  CHECK(shipped_shop().material("unobtainium") == nullptr);
}

TEST_CASE("fits come out as the standard prints them", "[shop][evidence]") {
  // ISO 286-2 limit deviations, um; 30 k6 = +15/+2 is also printed in practice texts. From memory.
  struct Row {
    const char* letters;
    int grade;
    double size, upper, lower;
  };
  const Row rows[] = {{"k", 6, 30, 15, 2},     {"h", 6, 35, 0, -16},  {"h", 7, 160, 0, -40},
                      {"f", 7, 25, -20, -41},  {"g", 6, 20, -7, -20}, {"js", 6, 40, 8, -8},
                      {"m", 6, 50, 25, 9},     {"n", 6, 60, 39, 20},  {"p", 6, 30, 35, 22},
                      {"H", 7, 70, 30, 0},     {"H", 8, 20, 33, 0},   {"h", 9, 55, 0, -74},
                      {"d", 9, 40, -80, -142}, {"k", 8, 30, 33, 0},   {"r", 6, 70, 62, 43}};
  for (const Row& row : rows) {
    INFO(row.size << row.letters << row.grade);
    const auto d = shipped_shop().standards.fit(row.letters, row.grade, row.size * unit::mm);
    REQUIRE(d);
    CHECK(in(d->upper, unit::um) == Approx(row.upper).margin(1e-6));
    CHECK(in(d->lower, unit::um) == Approx(row.lower).margin(1e-6));
  }
  CHECK_FALSE(shipped_shop().standards.fit("zz", 6, 30.0 * unit::mm));
}

TEST_CASE("a shop's record replaces the shipped one, and its machines stand alone", "[shop]") {
  auto files = shipped_rates();
  const std::size_t own = files.size();
  files.push_back({"mine.yaml",
                   "machines:\n- {name: mine, kind: CNC, slowest: 40, fastest: 4000, power: 10 kW, "
                   "largest torque: 200 Nm, largest diameter: 300, "
                   "largest length: 500, chuck: {diameter: 200, rated speed: 4000}, rate: 61.5 "
                   "EUR/h all-in, source: test, basis: own records}\n"
                   "policy:\n- {name: margin, value: 0.2, source: test, basis: own records}\n"});
  const auto shop = read_shop(files, own);
  INFO(problems_text(shop.problems()));
  REQUIRE(shop);
  CHECK(shop->machines.size() == 1);
  CHECK(in(*shop->machines[0].rate.all_in, unit::money_per_h) == Approx(61.5));
  CHECK(shop->policy.margin == 0.2);
  CHECK(shop->policy.scrap_share == shipped_shop().policy.scrap_share);
}

TEST_CASE("a shop file reports all of its problems with place and nearest name", "[shop]") {
  auto files = shipped_rates();
  const std::size_t own = files.size();
  files.push_back({"mine.yaml",
                   "machnes: []\ntools:\n- {name: t, kind: ruff, grade: carbide, feed: {from: 0.1, "
                   "to: 0.2}, source: x, basis: gues}\n"});
  const auto shop = read_shop(files, own);
  REQUIRE_FALSE(shop);
  const std::string text = problems_text(shop.problems());
  CHECK_THAT(text, Catch::Contains("mine.yaml:1:1: unknown section 'machnes'") &&
                       Catch::Contains("did you mean 'machines'"));
  CHECK_THAT(text, Catch::Contains("mine.yaml:3:19: found 'ruff'") &&
                       Catch::Contains("unknown grade 'carbide'") &&
                       Catch::Contains("found 'gues'"));
}
