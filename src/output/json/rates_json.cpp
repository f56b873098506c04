// SPDX-License-Identifier: MIT
#include <array>

#include "json/json.hpp"
#include "turnwright/output/rates.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

constexpr std::array shares{1.0, 0.8, 1.2};  // of the planned hours

std::string money(Amount amount) { return rounded(amount).text(); }

}  // namespace

std::string rates_json(const Shop& shop) {
  Json j = json_head("rates");
  j["currency"] = shop.policy.currency;
  j["given"] = Json::array();
  for (const Machine& m : shop.machines)
    j["given"].push_back({{"machine", m.name}, {"contains", json_message(rate_in_words(m))}});
  j["overheads"] = {{"on_material", json_number(shop.policy.overhead_on_material)},
                    {"on_outside", json_number(shop.policy.overhead_on_outside)}};
  if (!shop.books.empty()) {
    const BookRates r = work_out_books(shop.books, shop.machines);
    auto rate = [](Rate x) { return fixed(in(x, unit::money_per_h), 4); };
    Json b{{"attended_s", r.attended.si},
           {"labour", money(r.labour)},
           {"labour_per_hour", rate(r.labour_rate)},
           {"machine_cost", money(r.machine_cost)},
           {"overhead", money(r.overhead)},
           {"overhead_share", r.overhead_share},
           {"total", money(r.total)},
           {"machines_per_person", r.machines_per_person},
           {"all_in_per_hour", rate(r.all_in)}};
    b["material_bought"] = money(shop.books.material_bought);
    b["outside_bought"] = money(shop.books.outside_bought);
    b["overheads_on_purchases"] = money(overheads_on_purchases(shop));
    b["machines"] = Json::array();
    for (const MachineClassCost& m : r.machines)
      b["machines"].push_back({{"name", m.name},
                               {"number", m.number},
                               {"per_year", money(m.per_year)},
                               {"per_hour", rate(m.per_hour)},
                               {"people", m.people},
                               {"needed_per_hour", rate(needed_rate(r, m))},
                               {"hours_s", m.hours.si}});
    b["recovery"] = Json::array();
    for (const double share : shares) {
      const Recovery own = recovery(r, share);
      Json row{{"hours_share", share},
               {"returned", money(own.returned)},
               {"under_recovered", money(own.under_recovered)}};
      if (const auto given = recovery_of_quoted(r, shop, share))
        row["quoted"] = {{"returned", money(given->returned)},
                         {"under_recovered", money(given->under_recovered)}};
      b["recovery"].push_back(std::move(row));
    }
    j["books"] = std::move(b);
  }
  return json_text(j);
}

}  // namespace turnwright
