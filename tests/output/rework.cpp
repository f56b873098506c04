// SPDX-License-Identifier: MIT
// rework PART SHOP-FILE MACHINE UNITS LANGUAGE CHANGE OUT.xlsx
// The engine working a frozen route out again with one changed input, as a fresh workbook. CHANGE
// is none, speed:STEP:FACTOR, feed:STEP:FACTOR, rate:FACTOR, margin:VALUE or quantity:INDEX:PIECES.
#include <fstream>
#include <iostream>
#include <sstream>

#include "turnwright/compare/compare.hpp"
#include "turnwright/output/workbook.hpp"

using namespace turnwright;

namespace {

std::string bytes_of(const char* path) {
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

void change(Route& route, Shop& shop, const std::string& what) {
  std::istringstream words(what);
  std::string kind, first, second;
  std::getline(words, kind, ':');
  std::getline(words, first, ':');
  std::getline(words, second, ':');
  if (kind == "rate") route.machine.rate.all_in = *route.machine.rate.all_in * std::stod(first);
  if (kind == "margin") shop.policy.margin = std::stod(first);
  if (kind == "quantity") route.job.part.quantities[std::stoul(first)] = std::stoi(second);
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
  auto route = plan_route(*job, *shop, {words[3], MethodKind::rough_then_finish});
  if (!route || !language) return 1;
  change(*route, *shop, words[6]);
  const Quote quote = make_quote(*route, *shop);
  write_workbook(quote, compare_methods(*job, *shop, words[3]), *shop, {},
                 Words(*language, std::string(words[4]) == "inch"), words[7]);
  return 0;
}
