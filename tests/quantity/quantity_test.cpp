// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "turnwright/output/words.hpp"
#include "turnwright/quantity/money.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/quantity/thousands.hpp"
#include "turnwright/quantity/whole.hpp"

using namespace turnwright;

namespace {
double si_of(const char* text, const Unit& bare) {
  TextFault fault;
  const auto q = read_quantity(text, bare, fault);
  INFO(text << ": " << Words()(fault.what));
  REQUIRE(q);
  return q->si;
}
std::string fault_of(const char* text, const Unit& bare) {
  TextFault fault;
  REQUIRE_FALSE(read_quantity(text, bare, fault));
  return Words()(fault.what) + "|" + fault.suggestion;
}
}  // namespace

TEST_CASE("quantities are read with the trade's units", "[quantity]") {
  CHECK(si_of("1-1/4 in", unit::mm) == Approx(0.03175).epsilon(1e-15));
  CHECK(si_of("3/8 in", unit::mm) == Approx(0.009525).epsilon(1e-15));
  CHECK(si_of("300 ft/min", unit::m_per_min) == Approx(1.524).epsilon(1e-15));
  CHECK(si_of("300ft/min", unit::m_per_min) == Approx(1.524).epsilon(1e-15));
  CHECK(si_of("0.2 mm/rev", unit::mm_per_rev) == Approx(0.0002).epsilon(1e-15));
  CHECK(si_of("45 EUR/h", unit::money_per_h) == Approx(0.0125).epsilon(1e-15));
  CHECK(si_of("30/h", unit::money_per_h) == Approx(30.0 / 3600).epsilon(1e-15));
  CHECK(si_of("11 kW", unit::kW) == 11000);
  CHECK(si_of("1 hp", unit::kW) == Approx(745.69987158227022).epsilon(1e-15));
  CHECK(si_of("0.62hp*min/in3", unit::J_per_mm3) ==
        Approx(0.62 * 745.69987158227022 * 60 / 1.6387064e-5).epsilon(1e-14));
  CHECK(si_of("30e6psi", unit::GPa) == Approx(30e6 * 6894.757293168361).epsilon(1e-14));
  CHECK(si_of("118 deg", unit::deg) == Approx(118 * pi / 180).epsilon(1e-15));
  CHECK(si_of("55", unit::mm) == 0.055);
}

TEST_CASE("what is no quantity is refused in words", "[quantity]") {
  CHECK_THAT(fault_of("42,5", unit::mm),
             Catch::Contains("decimal comma") && Catch::Contains("42.5"));
  CHECK_THAT(fault_of("010", unit::mm), Catch::Contains("not a number"));
  CHECK_THAT(fault_of("0x1F", unit::mm), Catch::Contains("not a unit"));
  CHECK_THAT(fault_of("nan", unit::mm), Catch::Contains("not a number"));
  CHECK_THAT(fault_of("1e999", unit::mm), Catch::Contains("not a number"));
  CHECK_THAT(fault_of("5 kg", unit::mm), Catch::Contains("measures something else"));
  CHECK_THAT(fault_of("85 deg", unit::ratio), Catch::Contains("measures something else"));
  CHECK_THAT(fault_of("3 furlong", unit::mm), Catch::Contains("not a unit"));
}

TEST_CASE("numbers go out and come back the same", "[quantity]") {
  double x = 0.1;
  for (int i = 0; i < 2000; ++i) {
    x = x * 1.0137 + 1e-7;
    CHECK(read_number(shortest(x)) == x);
  }
  CHECK(fixed(-0.001, 2) == "0.00");
  CHECK(readable(636.6197723, 5) == "636.62");
}

TEST_CASE("an amount becomes money half away from zero, whatever noise it carries",
          "[quantity][money]") {
  CHECK(rounded(Amount(2.675)).text() == "2.68");
  CHECK(rounded(Amount(1.005)).text() == "1.01");
  CHECK(rounded(Amount(-2.675)).text() == "-2.68");
  CHECK(rounded(Amount(1.2349995)).text() == "1.24");
  for (int k = -40; k <= 40; ++k) {
    const double noisy = 64.125 * (1 + k * 2.220446049250313e-16);
    CHECK(rounded(Amount(noisy)).text() == "64.13");
  }
  CHECK(rounded_to_step(Amount(13.474), Money::from_hundredths(5)).text() == "13.45");
  CHECK(rounded_to_step(Amount(13.475), Money::from_hundredths(5)).text() == "13.50");
}

TEST_CASE("near names are found, far ones are not", "[quantity]") {
  CHECK(nearest("diametre", {"diameter", "length"}) == "diameter");
  CHECK(nearest("xyz", {"diameter", "length"}).empty());
}

TEST_CASE("a mark before three digits may part thousands, and is no whole number", "[quantity]") {
  for (const char* text : {"1.000", "12.500", "999.999.999"}) {
    INFO(text);
    CHECK(parts_thousands(text, '.'));
    CHECK_FALSE(parts_thousands(text, ','));
    CHECK_FALSE(read_whole(text, 1, 1'000'000'000));
  }
  for (const char* text : {"0.125", "1.0", "1.00", "1.0000", "1234.000", "1.000.00", "1.000x",
                           "x1.000", ".000", "1000", "1.", "", "1,000"}) {
    INFO(text);
    CHECK_FALSE(parts_thousands(text, '.'));
  }
  CHECK(parts_thousands("1,000", ','));
  CHECK(read_whole("50.0", 1, 100) == 50);
}

TEST_CASE("beyond whole numbers stands the largest, not an undefined one", "[quantity]") {
  CHECK(nearest_whole(2.5) == 3);
  CHECK(nearest_whole(-2.5) == -3);
  CHECK(nearest_whole(1e300) == std::numeric_limits<int>::max());
  CHECK(nearest_whole(-1e300) == -std::numeric_limits<int>::max());
  CHECK(nearest_whole(std::nan("")) == 0);
  CHECK(whole_above(2.01) == 3);
  CHECK(rounded(Amount(1e300)) > Money::from_hundredths(900'000'000'000'000));
  CHECK(rounded(Amount(-1e300)) < Money());
  CHECK(rounded(Amount(std::nan(""))) == Money());
}

TEST_CASE("what may be shown, character by character", "[quantity]") {
  // Unicode 15.0: C0, DEL and C1; U+2028 to U+202E, U+2066 to U+2069; UTF-8 by RFC 3629.
  CHECK(showable("Ø 30 ±0,1 – naïve, 部品, עברית") == "Ø 30 ±0,1 – naïve, 部品, עברית");
  CHECK(showable("a\x1b[31m\x7f\xC2\x9b") == "a?[31m??");
  CHECK(showable("\xE2\x80\xAEgnp\xE2\x81\xA6\xE2\x80\xA8") == "?gnp??");
  CHECK(showable("\xE2\x80\xA7\xE2\x80\xAF\xE2\x81\xA5\xE2\x81\xAA\xC2\xA0").find('?') ==
        std::string::npos);
  CHECK(showable("a\xff\xC3(\xED\xA0\x80") == std::string("a?") + "?(" + "???");
  CHECK(showable("\xEF\xBF\xBE\xEF\xB7\x90\xF0\x9F\xBF\xBF") == "???");  // no characters
  CHECK(showable("\xEF\xBF\xBD\xEF\xB7\xB0\xF0\x9F\xBE\xBF").find('?') == std::string::npos);
  CHECK(showable("a\nb\tc\rd") == "a?b?c?d");
  CHECK(showable("a\nb\tc\rd", true) == "a\nb\tc?d");
}
