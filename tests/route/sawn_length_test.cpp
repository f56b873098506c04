// SPDX-License-Identifier: MIT
// Discs, rings and plain pins: the whole outside in one clamping, from a blank that is longer.
#include <algorithm>
#include <cmath>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string part(const std::string& stock, const std::string& outside,
                 const std::string& bore = "") {
  return "part: {number: S-1}\nmaterial: C45\nstock: " + stock +
         "\nquantities: [1, 100]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [\"" + outside +
         "\"]\n" + (bore.empty() ? "" : "bore from right: [\"" + bore + "\"]\n");
}

// A finishing cut runs on a surface, by where its path is.
bool runs_on(const CutSegment& cut, const Surface& surface) {
  constexpr double near = 0.1e-3;
  const double left = std::max(std::min(cut.from.z.si, cut.to.z.si), surface.left.si);
  const double right = std::min(std::max(cut.from.z.si, cut.to.z.si), surface.right.si);
  return right - left > near && std::abs(cut.to.r.si - surface.diameter().si / 2) < near;
}

// In how many operations a surface is finished.
long finished_in(const Route& route, std::size_t surface) {
  const Surface& s = route.job.surfaces[surface];
  return std::count_if(route.operations.begin(), route.operations.end(), [&](const Operation& o) {
    return std::any_of(o.steps.begin(), o.steps.end(), [&](const Step& step) {
      return step.kind == StepKind::finish &&
             std::any_of(step.segments.begin(), step.segments.end(),
                         [&](const CutSegment& cut) { return runs_on(cut, s); });
    });
  });
}

bool parts_off(const Route& route) {
  for (const Operation& o : route.operations)
    for (const Step& s : o.steps)
      if (s.kind == StepKind::part_off) return true;
  return false;
}

// Of so many blanks, none for setting or scrap.
Amount material_of(const Quote& quote, int blanks) {
  auto in = quote.lot;
  in.setting_pieces = 0.0;
  in.scrap_share = 0.0;
  in.quantity = static_cast<double>(blanks);
  return model::lot_lines<double>(in).material;
}

}  // namespace

TEST_CASE("rings are parted one after the other from a sawn length of tube", "[route]") {
  const Route route = route_of(
      part("{tube: 102x8}", "100 h8 x15, Ra 1.6, chamfer 0.5x45 both", "92 H7 through, Ra 1.6"));
  REQUIRE(route.operations.size() == 1);
  CHECK(parts_off(route));
  CHECK(finished_in(route, 0) == 1);
  const Stock& stock = route.job.stock;
  CHECK(stock.pieces > 1);
  CHECK(route.operations.front().pieces == stock.pieces);
  // The pieces with their kerfs, and what stays in the jaws.
  const Length piece = stock.length + kerf_of(route, shipped_shop());
  const Length held = stock.sawn - static_cast<double>(stock.pieces) * piece;
  CHECK(held.si >= route.operations.front().grip_to.si - route.operations.front().grip_from.si);
  // The last piece of a length stands no further out than the practice has it.
  CHECK(route.operations.front().stick_out <= shipped_shop().practice.length_out * stock.diameter);
}

TEST_CASE("a lot smaller than a sawn length pays its end all the same", "[route][estimate]") {
  const Route route = route_of(
      part("{tube: 102x8}", "100 h8 x15, Ra 1.6, chamfer 0.5x45 both", "92 H7 through, Ra 1.6"));
  const Quote quote = make_quote(route, shipped_shop());
  const int pieces = route.job.stock.pieces;
  REQUIRE(pieces > 1);
  // As many blanks as make whole lengths cost what each says; one blank costs a whole end.
  CHECK(material_of(quote, 2 * pieces).si == Approx(2 * pieces * quote.material.each.si));
  CHECK(material_of(quote, 1) > quote.material.each);
  CHECK((material_of(quote, pieces + 1) - material_of(quote, pieces)).si ==
        Approx(material_of(quote, 1).si));
  CHECK(material_of(quote, 100) > material_of(quote, 1));
}

TEST_CASE("a disc too thick to part has its chucking piece faced away on the turned rim",
          "[route]") {
  const Route route = route_of(
      part("{round: 130, condition: drawn}", "120 h9 x6, chamfer 0.5x45 both", "30 H8 through"));
  REQUIRE(route.operations.size() == 2);
  CHECK_FALSE(parts_off(route));
  CHECK(finished_in(route, 0) >= 1);
  const Operation &first = route.operations.front(), &last = route.operations.back();
  // The jaws of the first leave the whole part free, those of the second hold its rim.
  CHECK(first.grip_to.si <= route.job.left().si);
  CHECK(last.jaws == Jaws::soft);
  CHECK(last.grip_from >= route.job.left());
  CHECK(route.job.stock.facing_left > route.job.stock.facing_right);
}

TEST_CASE("a seat over the whole length is not split between two operations", "[route]") {
  const Route route = route_of(part("{round: 28, condition: hot rolled}", "25 h7 x60, Ra 1.6"));
  CHECK(finished_in(route, 0) == 1);
  // A length that the customer fixed leaves nothing to hold.
  const Route fixed =
      route_of(part("{round: 28, condition: hot rolled, length: 63}", "25 h7 x60, Ra 1.6"));
  CHECK(fixed.job.stock.length.si == Approx(0.063));
}

TEST_CASE("packing does not stop the machine", "[estimate]") {
  const Route route =
      route_of(part("{round: 14, condition: drawn, fed from: bar}", "12 x10, chamfer 1x45 both"));
  Shop quick = shipped_shop();
  for (HandlingElement& e : quick.handling)
    if (e.name == name_of(HandlingId::pack)) e.cnc = 10.0 * e.cnc;
  const RouteTimes usual = times_of(route, shipped_shop()), slow = times_of(route, quick);
  CHECK(slow.machine_each == usual.machine_each);
  CHECK(slow.person_each > usual.person_each);
}

TEST_CASE("a dear piece is set up on and kept", "[estimate]") {
  const auto setting = [](const std::string& text) {
    return make_quote(route_of(text), shipped_shop()).lot.setting_pieces.si;
  };
  CHECK(setting(part("{round: 28, condition: hot rolled}", "25 x60\", \"20 x30")) > 0);
  CHECK(setting(part("{round: 190, condition: hot rolled}", "185 x60\", \"120 x90")) == 0);
}
