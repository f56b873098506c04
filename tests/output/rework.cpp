// SPDX-License-Identifier: MIT
// rework PART SHOP-FILE MACHINE UNITS LANGUAGE CHANGE OUT.xlsx
// The engine working frozen routes out again with one changed input, as a fresh workbook. MACHINE
// any: by the methods that the part is quoted by; else rough then finish on it. CHANGE is none,
// speed:STEP:FACTOR, feed:STEP:FACTOR or rate:FACTOR of the main quantity's method, margin:VALUE or
// quantity:INDEX:PIECES.
#include <fstream>
#include <iostream>
#include <sstream>

#include "../one_method.hpp"
#include "turnwright/output/workbook.hpp"

using namespace turnwright;

namespace {

std::string bytes_of(const char* path) {
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

void change(Route& route, const std::string& what) {
  std::istringstream words(what);
  std::string kind, first, second;
  std::getline(words, kind, ':');
  std::getline(words, first, ':');
  std::getline(words, second, ':');
  if (kind == "rate") route.machine.rate.all_in = *route.machine.rate.all_in * std::stod(first);
  if (kind != "speed" && kind != "feed") return;
  std::size_t index = 0;
  for (Operation& operation : route.operations)
    for (Step& step : operation.steps) {
      if (index++ != std::stoul(first)) continue;
      const double factor = std::stod(second);
      if (kind == "speed")
        step.used.surface_speed = step.used.surface_speed * factor;
      else
        step.used.feed = step.used.feed * factor;
      for (CutSegment& segment : step.segments) {
        if (kind == "speed")
          segment.surface_speed = segment.surface_speed * factor;
        else
          segment.feed = segment.feed * factor;
      }
    }
}

// Margin and quantities are of all methods.
void change_list(PartQuote& part, Shop& shop, const std::string& what) {
  if (what.starts_with("margin:")) shop.policy.margin = std::stod(what.substr(7));
  if (!what.starts_with("quantity:")) return;
  const std::size_t colon = what.find(':', 9);
  const std::size_t index = std::stoul(what.substr(9, colon - 9));
  part.methods.chosen[index].quantity = std::stoi(what.substr(colon + 1));
}

// Every method costed again, and the list from them.
void work_again(PartQuote& part, const Shop& shop, const std::string& what) {
  Comparison& c = part.methods;
  for (const std::size_t i : used_methods(c)) {
    Route route = c.methods[i].quote->route;
    if (i == c.main) change(route, what);
    const std::string method = c.methods[i].quote->method;
    c.methods[i].quote = make_quote(route, shop);
    c.methods[i].quote->method = method;
  }
  part.quote = *c.quoted().quote;
  part.quote.prices.clear();
  for (const ChosenMethod& chosen : c.chosen) {
    part.quote.prices.push_back(price_at(*c.methods[chosen.method].quote, shop, chosen.quantity));
    part.quote.prices.back().method_index = chosen.method;
    part.quote.prices.back().once = c.quoted().quote->prices.front().once;
  }
  never_rising(part.quote.prices, part.quote.route.job.part);
}

Planned<PartQuote> quoted(const Job& job, const Shop& shop, const std::string& machine) {
  if (machine == "any") return price_part(job, shop, {});
  const auto route = plan_route(job, shop, {machine, MethodKind::rough_then_finish});
  if (!route) return route.infeasible();
  return test::one_method(make_quote(*route, shop));
}

// One pixel: rows stand where they do in the program's book, which has its part drawn.
std::string any_picture() {
  static constexpr unsigned char png[] = {
      0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48,
      0x44, 0x52, 0x00, 0x00, 0x00, 0x01, 0x00, 0x00, 0x00, 0x01, 0x08, 0x00, 0x00, 0x00,
      0x00, 0x3a, 0x7e, 0x9b, 0x55, 0x00, 0x00, 0x00, 0x0a, 0x49, 0x44, 0x41, 0x54, 0x78,
      0xda, 0x63, 0x60, 0x00, 0x00, 0x00, 0x02, 0x00, 0x01, 0xe5, 0x27, 0xde, 0xfc, 0x00,
      0x00, 0x00, 0x00, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82};
  return {reinterpret_cast<const char*>(png), sizeof png};
}

}  // namespace

int main(int count, char** words) {
  if (count != 8) return 2;
  auto files = shipped_rates();
  const std::size_t own = files.size();
  files.push_back({words[2], bytes_of(words[2])});
  auto shop = read_shop(files, own);
  const auto part = read_part(words[1], bytes_of(words[1]));
  if (!shop || !part) return 2;
  const auto job = prepare(*part, *shop);
  if (!job) return 2;
  const auto language = language_named(words[5]);
  auto part_quote = quoted(*job, *shop, words[3]);
  if (!part_quote || !language) return 1;
  change_list(*part_quote, *shop, words[6]);
  work_again(*part_quote, *shop, words[6]);
  write_workbook(*part_quote, *shop, {}, Words(*language, std::string(words[4]) == "inch"),
                 words[7], any_picture());
  return 0;
}
