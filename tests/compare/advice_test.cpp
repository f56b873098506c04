// SPDX-License-Identifier: MIT
// What would help a part that cannot be made has been tried on it; what a larger nose brings.
#include "../support.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/compare/larger_nose.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string pin(const std::string& stock, const std::string& outside) {
  return "part: {number: A-1}\nmaterial: C45\nstock: " + stock +
         "\nquantities: [100]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [" + outside +
         "]\n";
}

Messages advice(const std::string& text) {
  const auto part = price_part(job_of(text), shipped_shop(), {});
  REQUIRE(!part);
  return part.infeasible().remedies;
}

bool names(const Messages& list, const std::string& id) {
  return std::any_of(list.begin(), list.end(), [&](const Message& m) { return m.id == id; });
}

}  // namespace

TEST_CASE("a pin too long to part from the bar is advised to be sawn, and then is planned") {
  const Messages helps =
      advice(pin("{round: 14, condition: drawn, fed from: bar}", "12 h8 x118, chamfer 1x45 both"));
  CHECK(names(helps, "plan.try-sawn-blanks"));
  CHECK(!names(helps, "plan.try-longer-blank"));
  CHECK(price_part(job_of(pin("{round: 14, condition: drawn, fed from: blank}",
                              "12 h8 x118, chamfer 1x45 both")),
                   shipped_shop(), {}));
}

TEST_CASE("a casting is never advised to come from the bar") {
  const auto part = price_part(
      job_of("part: {number: A-2}\nmaterial: EN-GJL-250\nstock: {casting: 3}\nquantities: [10]\n"
             "drawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [M60x2 x12, \"M60x2 x12\"]\n"),
      shipped_shop(), {});
  if (!part) CHECK(!names(part.infeasible().remedies, "plan.try-bar-fed"));
}

TEST_CASE("a larger nose is told by planning with it") {
  const Shop& shop = shipped_shop();
  const auto free_of_corners = price_part(
      job_of(pin("{round: 50, condition: drawn}", "44 x120, chamfer 1x45 both")), shop, {});
  REQUIRE(free_of_corners);
  const auto nose = larger_nose(free_of_corners->methods.quoted(), shop, 100);
  REQUIRE(nose);
  CHECK(nose->larger > nose->now);
  CHECK(nose->fits);
  CHECK(said(*nose, "EUR").id ==
        (nose->with < nose->before ? "nose.brings" : "nose.brings-nothing"));
  const auto cornered = price_part(
      job_of(pin("{round: 50, condition: drawn}", "\"30 x40, fillet R0.4 left\", 44 x60")), shop,
      {});
  REQUIRE(cornered);
  const auto round = larger_nose(cornered->methods.quoted(), shop, 100);
  REQUIRE(round);
  CHECK(!round->fits);
  CHECK(said(*round, "EUR").id == "nose.does-not-fit");
}

TEST_CASE("a handle whose hub is behind its knurl is advised to be written from its hub") {
  const std::string handle =
      "part: {number: A-9}\nmaterial: C45\nstock: {round: 42, condition: drawn, fed from: bar}\n"
      "quantities: [100]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\n";
  const auto behind = price_part(
      job_of(handle +
             "outside: [\"arc R60 from 30 to 36 x2\", \"40 x16, knurl RGE 1.0, chamfer 1x45 "
             "both\", \"22 x10\"]\nbore from left: [\"M10 x18, chamfer 1x45\"]\n"),
      shipped_shop(), {});
  REQUIRE_FALSE(behind);
  CHECK(names(behind.infeasible().remedies, "plan.try-written-from-other-end"));
  CHECK(price_part(
      job_of(handle +
             "outside: [\"22 x10\", \"40 x16, knurl RGE 1.0, chamfer 1x45 both\", \"arc R60 "
             "from 36 to 30 x2\"]\nbore from right: [\"M10 x18, chamfer 1x45\"]\n"),
      shipped_shop(), {}));
}
