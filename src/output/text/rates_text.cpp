// SPDX-License-Identifier: MIT
#include "formatting.hpp"
#include "text/text_writer.hpp"
#include "turnwright/output/rates.hpp"

namespace turnwright {
namespace {

constexpr double shares[] = {1.0, 0.8, 1.2};
constexpr Time one_shift = 3000 * unit::h;  // running hours a year that one shift does not give

std::string per_hour(Rate rate, const Words& words) {
  return words.fixed(in(rate, unit::money_per_h), 2);
}
std::string year_hours(Time t, const Words& words) { return words.readable(in(t, unit::h), 6); }

void given_rates(TextWriter& out, const Shop& shop) {
  out.section("rates.given");
  for (const Machine& m : shop.machines)
    out.line({"rates.machine", {{"machine", m.name}, {"rate", rate_in_words(m)}}});
  out.line({"rates.overheads",
            {{"material", Share{shop.policy.overhead_on_material}},
             {"outside", Share{shop.policy.overhead_on_outside}}}});
}

// Money a year of people, machines and overheads, and what is behind each.
Table account_table(const BookRates& r, const Shop& shop, const Words& words) {
  Table table;
  table.columns = {words_column(),
                   number_column({"rates.per-year", {{"currency", shop.policy.currency}}}),
                   words_column()};
  auto add = [&](const std::string& what, Amount amount, const Message& note = {}) {
    table.add({what, words.money(amount), words(note)});
  };
  add(words("rates.labour"), r.labour,
      {"rates.attended",
       {{"hours", year_hours(r.attended, words)}, {"rate", per_hour(r.labour_rate, words)}}});
  add(words("rates.machines"), r.machine_cost);
  add(words("rates.overhead"), r.overhead,
      {"rates.overhead-share", {{"share", percent_text(r.overhead_share, words, 2)}}});
  for (const BookedOverhead& o : shop.books.overheads) add("  " + words.name(o.name), o.amount);
  add(words("rates.all"), r.total);
  return table;
}

Table machine_table(const BookRates& r, const Words& words) {
  Table table;
  table.columns = {words_column("rates.class"),        number_column("rates.number"),
                   number_column("rates.per-machine"), number_column("rates.running-hours"),
                   number_column("rates.per-hour"),    number_column("rates.people"),
                   number_column("rates.needed"),      words_column()};
  for (const MachineClassCost& m : r.machines) {
    const Time each = m.hours / static_cast<double>(m.number);
    table.add({words.name(m.name), words.whole(m.number), words.money(m.per_year),
               year_hours(each, words), per_hour(m.per_hour, words), words.fixed(m.people, 2),
               per_hour(needed_rate(r, m), words),
               each > one_shift ? words("rates.more-than-a-shift") : ""});
  }
  return table;
}

Table recovery_table(const BookRates& r, const Shop& shop, const Words& words) {
  const bool quoted = recovery_of_quoted(r, shop, 1).has_value();
  Table table;
  table.columns = {number_column("rates.hours"), number_column("rates.own-return"),
                   number_column("rates.under-recovered")};
  if (quoted) {
    table.columns.push_back(number_column("rates.quoted-return"));
    table.columns.push_back(number_column("rates.under-recovered"));
  }
  for (const double share : shares) {
    const Recovery own = recovery(r, share);
    Cells cells{percent_text(share, words), words.money(own.returned),
                words.money(own.under_recovered)};
    if (const auto given = recovery_of_quoted(r, shop, share); quoted && given) {
      cells.push_back(words.money(given->returned));
      cells.push_back(words.money(given->under_recovered));
    }
    table.add(std::move(cells));
  }
  return table;
}

// Whether the quoted rates' return has the overheads on what is bought in it.
Message purchases_note(const Shop& shop) {
  const Accounts& books = shop.books;
  if (books.material_bought.si <= 0 && books.outside_bought.si <= 0) return "rates.no-purchases";
  return {"rates.purchases",
          {{"overheads", rounded(overheads_on_purchases(shop))},
           {"material", rounded(books.material_bought)},
           {"outside", rounded(books.outside_bought)}}};
}

}  // namespace

std::string rates_text(const Shop& shop, const Words& words) {
  TextWriter out(words);
  if (shop.books.empty()) {
    given_rates(out, shop);
    out.gap();
    out.remark("rates.no-accounts");
    return out.take();
  }
  const BookRates r = work_out_books(shop.books, shop.machines);
  out.section("rates.title");
  out.table(account_table(r, shop, words));
  out.section("rates.machines");
  out.table(machine_table(r, words));
  out.line({"rates.all-in-rate",
            {{"machines", Figure{r.machines_per_person, 3}},
             {"rate", per_hour(r.all_in, words)},
             {"currency", shop.policy.currency}}});
  given_rates(out, shop);
  out.section("rates.recovery");
  out.table(recovery_table(r, shop, words));
  out.line("rates.under-recovered-means");
  if (recovery_of_quoted(r, shop, 1)) out.line(purchases_note(shop));
  return out.take();
}

}  // namespace turnwright
