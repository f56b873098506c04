// SPDX-License-Identifier: MIT
#include <algorithm>

#include "turnwright/document/write_yaml.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/actuals.hpp"

namespace turnwright {
namespace {

constexpr double least_factor = 0.5, largest_factor = 3;

YamlValue record_of(const Factor& f, std::ptrdiff_t orders, const std::optional<Date>& last,
                    const std::function<std::string(const Message&)>& say) {
  const std::string of = f.setup ? "setup" : "running";
  // A day as files write it: the sentence stands in one.
  const Message source =
      last ? Message{"actuals.source-to", {{"n", orders}, {"day", text_of(*last)}}}
           : Message{"actuals.source", {{"n", orders}}};
  YamlValue record = YamlValue::map(
      {{"name", YamlValue::of(f.machine + ", " + of)},
       {"machine", YamlValue::of(f.machine)},
       {"of", YamlValue::of(of)},
       {"factor", YamlValue::of(fixed(std::clamp(f.proposed, least_factor, largest_factor), 3))}});
  if (const double spread = further_spread(f); spread > 1) {
    record.fields.push_back({"spread", YamlValue::of(fixed(std::min(spread, largest_factor), 3))});
    if (f.setup) record.fields.push_back({"correlation", YamlValue::of(fixed(f.with_running, 2))});
  }
  record.fields.push_back({"source", YamlValue::of(say(source))});
  record.fields.push_back({"basis", YamlValue::of(std::string(file_word(Basis::own_records)))});
  record.in_one_line = true;
  return record;
}

}  // namespace

std::string corrections_file(const std::vector<Factor>& factors, const std::optional<Date>& last,
                             const std::function<std::string(const Message&)>& say) {
  std::vector<YamlValue> records;
  for (const Factor& f : factors) {
    const auto n = std::count_if(f.orders.begin(), f.orders.end(),
                                 [](const BookedRatio& c) { return !c.outlier; });
    if (n > 0) records.push_back(record_of(f, n, last, say));
  }
  return yaml_text(YamlValue::map({{"description", YamlValue::of(say("actuals.description"))},
                                   {"units", YamlValue::of("metric")},
                                   {"corrections", YamlValue::list(std::move(records))}}));
}

}  // namespace turnwright
