// SPDX-License-Identifier: MIT
#include <regex>

#include "../one_method.hpp"
#include "../support.hpp"
#include "turnwright/compare/tuned.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/output/explain.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/output/offer.hpp"
#include "turnwright/output/page.hpp"
#include "turnwright/output/text.hpp"
#include "turnwright/output/tuned.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

bool contains(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}
// What the first group of a pattern matches, or "".
std::string found(const std::string& text, const char* pattern) {
  std::smatch match;
  return std::regex_search(text, match, std::regex(pattern)) ? match[1].str() : "";
}

Quote quote_on(const std::string& machine) {
  return with_band(make_quote(route_of(shaft(), machine), shipped_shop()), shipped_shop());
}
CustomerQuote one_item() {
  CustomerQuote quote;
  quote.customer = "Works";
  quote.number = "26-1";
  quote.currency = "EUR";
  quote.date = quote.valid_until = *read_date("2026-12-11");
  quote.items.resize(1);
  quote.items[0].number = "T-1";
  quote.items[0].prices.push_back(
      {240, 4, 100, Money::from_hundredths(40480), Money::from_hundredths(97152), Money()});
  return quote;
}

}  // namespace

TEST_CASE("The page and the tuning give one contribution per hour for the same lot") {
  const Part part = part_of(shaft());
  const Tuned tuned = tune_on(part, shipped_shop(), "", TuneRule::cost);
  REQUIRE(tuned.feasible());
  const std::string text = tuned_text(tuned, shipped_shop(), Words());
  const std::string before = found(text, "handbook's price: ([0-9.,]+)");
  REQUIRE_FALSE(before.empty());
  const Quote& quote = *tuned.handbook.quote;
  CHECK(contains(quote_page(one_method(quote), shipped_shop(), {}, Words()),
                 "<td>" + before + "</td>"));
}

TEST_CASE("Quote and comparison give one number of machine hours for a lot in releases") {
  Part part = part_of(shaft());
  part.quantities = {240};
  part.releases = 4;
  const auto job = prepare(part, shipped_shop());
  REQUIRE(job);
  MethodsReport report;
  report.title = "T-1";
  report.currency = "EUR";
  report.quantity = 240;
  const auto part_quote = quote_part(*job, shipped_shop(), {});
  REQUIRE(part_quote);
  report.comparison = part_quote->methods;
  const std::string hours = found(quote_text(*part_quote, Words()), ": ([0-9.]+) for 240");
  REQUIRE_FALSE(hours.empty());
  CHECK(contains(methods_text(report, Words()), "  " + hours + "  "));
}

TEST_CASE("No explained pass at one spindle speed has a diameter larger than the stock") {
  const Quote quote = quote_on("geared lathe, medium");
  int seen = 0;
  for (const Operation& operation : quote.route.operations)
    for (const Step& step : operation.steps)
      for (int pass = 1; pass <= static_cast<int>(passes_of(step).size()); ++pass) {
        const auto text =
            explain_text(quote, shipped_shop(),
                         {ExplainKind::pass, operation.number, step.number, pass, 0}, Words());
        REQUIRE(text);
        const std::string diameter = found(*text, "π · ([0-9.]+) mm");
        if (diameter.empty()) continue;
        ++seen;
        // A facing pass approaches from outside the work, 2 mm on every side.
        CHECK(std::stod(diameter) <= in(quote.route.job.stock.upper, unit::mm) + 4.0);
      }
  CHECK(seen > 0);
}

TEST_CASE("What a route does not have is answered with what it has") {
  const Quote quote = quote_on("");
  const auto none = explain_text(quote, shipped_shop(), {ExplainKind::step, 10, 99, 0, 0}, Words());
  REQUIRE_FALSE(none);
  CHECK(contains(english(none.infeasible().why), "10.1"));
  const auto pass =
      explain_text(quote, shipped_shop(), {ExplainKind::pass, 10, 1, 999, 0}, Words());
  CHECK_FALSE(pass);
}

TEST_CASE("The inside page says that it is not to be sent") {
  const Quote quote = quote_on("");
  CHECK(contains(quote_page(one_method(quote), shipped_shop(), {}, Words()),
                 "INTERNAL: do not send"));
}

TEST_CASE("Headings of numbers stand over them, and no text touches a number") {
  const std::string text = quote_text(one_method(quote_on("")), Words());
  const std::string head = found(text, "\n( +Qty.*)\n");
  const std::string row = found(text, "\n +Qty.*\n(.*)\n");
  REQUIRE_FALSE(head.empty());
  CHECK(head.find("Margin") + 6 == row.find(" %") + 2);
  CHECK(head.find("Qty") + 3 == row.find("10") + 2);
}

std::string offer_page(const CustomerQuote& quote, const Words& words) {
  return paper_page(offer_paper(quote, {}, words));
}

TEST_CASE("A quotation names its unit price, and one-off charges only where there are any") {
  CustomerQuote quote = one_item();
  const std::string plain = offer_page(quote, Words());
  CHECK(contains(plain, ">Quotation</h1>"));
  CHECK(contains(plain, ">404.80<small>per 100<"));
  CHECK(contains(plain, ">240<small>in 4 releases of 60<"));
  CHECK_FALSE(contains(plain, "One-off charges"));
  CHECK_FALSE(contains(plain, "Minimum order charge"));
  quote.items[0].once.push_back({"gauge", Money::from_hundredths(9000)});
  quote.minimum_order = Money::from_hundredths(9000);
  const std::string more = offer_page(quote, Words());
  CHECK(contains(more, "One-off charges apply to the first order only."));
  CHECK(contains(more, "Minimum order charge EUR 90.00"));
  CHECK(contains(offer_page(quote, Words(Language::de)), ">404,80<small>je 100<"));
}

TEST_CASE("Text blocks take names in braces, and an unknown one is a problem with its place") {
  const CustomerQuote quote = one_item();
  const auto text = filled("terms.txt", "until {valid until}", quote, Words());
  REQUIRE(text);
  CHECK(*text == "until 11 Dec 2026");
  const auto wrong = filled("terms.txt", "a\nb {nunber}", quote, Words());
  REQUIRE_FALSE(wrong);
  CHECK(wrong.problems().front().at.line == 2);
  CHECK(wrong.problems().front().at.column == 3);
  CHECK(wrong.problems().front().suggestion == "number");
}

TEST_CASE("A length is read to what a machinist reads, and a nominal size as it is called") {
  const auto in_mm = [](double mm) { return Words().measure(measure(mm * unit::mm, unit::mm, 6)); };
  const auto in_inch = [](double mm) {
    return Words(Language::en, true).measure(measure(mm * unit::mm, unit::mm, 6));
  };
  CHECK(in_mm(5.4429) == "5.44 mm");
  CHECK(in_mm(65.4812) == "65.48 mm");
  CHECK(in_mm(20.955) == "20.955 mm");  // the minor diameter of a pipe thread, as tables have it
  CHECK(in_mm(0.0125) == "0.0125 mm");
  CHECK(in_inch(103.6) == "4.079 in");
  CHECK(in_inch(-1) == "-0.0394 in");
  CHECK(in_inch(4.7625) == "0.1875 in");  // 3/16
  CHECK(in_inch(0.396875) == "0.015625 in");
  CHECK(in_inch(25.4) == "1 in");
}

TEST_CASE("A shop writes over any sentence of the catalogue, and over no other") {
  const auto own = read_word_overlay("words.en.yaml", "offer.title: Offer\n");
  INFO(problems_text(own.problems()));
  REQUIRE(own);
  Words words;
  words.overlay(*own);
  CHECK(contains(offer_page(one_item(), words), ">Offer</h1>"));
  const auto wrong = read_word_overlay("words.en.yaml", "offer.titel: Offer\n");
  REQUIRE_FALSE(wrong);
  CHECK(wrong.problems().front().suggestion == "offer.title");
  CHECK_FALSE(read_word_overlay("words.en.yaml", "offer.page: Page {leaf}\n"));
  CHECK_FALSE(read_word_overlay("words.en.yaml", "- a list\n"));
}
