// SPDX-License-Identifier: MIT
#include "turnwright/output/text.hpp"

#include <algorithm>
#include <cmath>

#include "shown.hpp"

namespace turnwright {
namespace {

std::string percent(double share, int places = 0) { return fixed(share * 100, places) + " %"; }

std::string signed_money(Amount a) {
  const std::string text = fixed(a.si, 2);
  return a.si > 0 ? "+" + text : text;
}

const char* length_word(const Stock& s) {
  return s.from_bar ? "from bar, " : s.section.si > 0 ? "sawn " : "";
}

class QuoteText {
 public:
  QuoteText(const Quote& quote, const Comparison& methods, const TextOptions& options)
      : q_(quote), methods_(methods), options_(options), shown_{options.inch} {}

  std::string text() {
    out_ += part_title(q_.route.job) + "\n\n" + sketch(q_.route.job, 68) + "\n";
    if (!q_.unconfirmed.empty()) {
      out_ += "NOT CONFIRMED\n";
      for (const std::string& u : q_.unconfirmed) out_ += "  " + u + "\n";
      out_ += "\n";
    }
    prices();
    band();
    questions();
    times();
    clampings();
    stock();
    other_work();
    cautions();
    split();
    sanity();
    method();
    return std::move(out_);
  }

 private:
  void prices() {
    out_ += "PRICES in " + q_.currency + "\n";
    out_ += "  good   blanks      each       total   low each  high each  margin\n";
    for (const Price& p : q_.prices) {
      out_ += "  " + padded(std::to_string(p.quantity), 5) +
              padded(std::to_string(p.made), 7, true) + padded(p.each.text(), 12, true) +
              padded(p.total.text(), 12, true) + padded(p.low_each.text(), 11, true) +
              padded(p.high_each.text(), 11, true) + padded(percent(p.margin_share), 8, true) +
              "\n";
      if (p.minimum_surcharge.hundredths() > 0)
        out_ += "        minimum order: surcharge " + p.minimum_surcharge.text() + "\n";
      if (p.at_once_each.hundredths() > 0)
        out_ += "        in " + std::to_string(q_.route.job.part.releases) + " releases of " +
                std::to_string(p.quantity / q_.route.job.part.releases) + "; called off at once " +
                p.at_once_each.text() + "\n";
    }
    if (!q_.prices.empty() && q_.prices.front().price_unit > 1)
      out_ += "  prices, low and high are for " + std::to_string(q_.prices.front().price_unit) +
              " pieces\n";
    for (const OneOffLine& o : q_.one_offs)
      out_ += "  once, as a line of its own: " + o.what + " " + o.price.text() + " (cost " +
              o.cost.text() + ")\n";
    out_ +=
        "  low and high: every row at the low, every row at the high end of its band; no "
        "probability\n";
    for (const LargerForLess& l : larger_for_less(q_.prices))
      out_ += "  from " + std::to_string(l.from) + " pieces on offer " +
              std::to_string(l.quantity) + ": less in total at the price of " +
              std::to_string(l.quantity) + "\n";
    out_ += "  an hour of " + q_.route.machine.name + ": " + q_.rate_words + "\n";
    if (!q_.delivery.empty()) out_ += "  delivery: " + q_.delivery + "\n";
    out_ += "\n";
  }
  void band() {
    if (q_.prices.empty() || q_.prices.front().causes.empty()) return;
    out_ += "BAND of cost a piece, in " + q_.currency + "\n";
    out_ += "  good        P10        P50        P90  loses money\n";
    for (const Price& p : q_.prices)
      out_ += "  " + padded(std::to_string(p.quantity), 5) + padded(p.p10_each.text(), 11, true) +
              padded(p.p50_each.text(), 11, true) + padded(p.p90_each.text(), 11, true) +
              padded(percent(p.loss_chance), 13, true) + "\n";
    const Price& main = q_.prices[q_.prices.size() / 2];
    out_ += "  what widens it most at " + std::to_string(main.quantity) + ":\n";
    for (const BandCause& c : main.causes)
      out_ += "    " + padded(c.name, 28) + padded(signed_money(c.low_each), 8, true) +
              padded(signed_money(c.high_each), 9, true) + "  (" + name_of(c.basis) + ")\n";
    out_ +=
        "  4,096 fixed draws, each row a triangle from low to high, independent of the others\n\n";
  }
  void questions() {
    if (methods_.questions.empty()) return;
    const Question& first = methods_.questions.front();
    out_ += "TO ASK the customer, by what another answer does to the price each at " +
            std::to_string(first.quantity) + "\n";
    for (const Question& q : methods_.questions) {
      const std::string change = percent(std::abs(q.change));
      out_ += "  " + padded(q.ask, 49) + padded(q.otherwise, 22) + padded(q.each.text(), 10, true) +
              padded((q.change < 0 ? "-" : "+") + change, 8, true) + "\n";
    }
    out_ += "\n";
  }
  void times() {
    out_ += "TIMES in minutes\n  each: machine " + minutes(q_.times.machine_each) + ", operator " +
            minutes(q_.times.person_each) + "; make-ready of the batch " +
            minutes(q_.times.setup, 0) + "\n";
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i) {
      const Operation& operation = q_.route.operations[i];
      const OperationTime& t = q_.times.operations[i];
      out_ += "  setup " + std::to_string(operation.number) + ": machine " + minutes(t.machine) +
              ", operator " + minutes(t.person) + ", make-ready " + minutes(t.setup, 0) + "\n";
      for (std::size_t k = 0; k < operation.steps.size(); ++k) step(operation.steps[k], t.steps[k]);
      for (const ElementTime& e : t.elements)
        out_ += "       " + padded(e.name, 36) +
                padded(minutes(e.internal ? e.person : e.machine), 7, true) +
                (e.internal ? "  beside the cutting" : "") + "\n";
      if (!options_.why) continue;
      for (const ElementTime& e : t.setup_elements)
        out_ += "       make-ready: " + padded(e.name, 34) +
                padded(minutes(e.machine, 1), 6, true) + "\n";
    }
    if (q_.lot.turned_round_up_to.si > 0)
      out_ += "  lots of up to " + readable(q_.lot.turned_round_up_to.si) +
              " are turned round at once, piece by piece: " + minutes(q_.lot.round_ready) +
              " less make-ready\n";
    out_ += "\n";
  }
  void step(const Step& step, const StepTime& t) {
    out_ += "    " + padded(std::to_string(step.number), 4) + padded(name_of(step.kind), 9) +
            padded(step.tool, 24) + padded(minutes(t.machine), 7, true);
    if (step.given) {
      out_ += "  as given\n";
      return;
    }
    out_ += "  " + readable(in(step.used.surface_speed, shown_.speed()), 3) + " " +
            std::string(shown_.speed().name) + ", f " + shown_.number(step.used.feed, 2) + ", ap " +
            shown_.number(step.used.depth, 3) + ", " + std::to_string(cuts_of(step)) +
            (cuts_of(step) == 1 ? " pass" : " passes") + "\n";
    if (!options_.why) return;
    out_ += "         " + step.why + "\n";
    for (const LimitCheck& l : step.limits)
      out_ += "         " + std::string(l.binding ? "! " : "  ") + padded(l.name, 26) +
              shown_.value(l.actual, l.unit) + " of " + shown_.value(l.allowed, l.unit) +
              (l.binding ? "  -> " + l.changed : "") + "\n";
  }
  void clampings() {
    out_ += "HOLDINGS\n";
    for (const Operation& s : q_.route.operations) {
      out_ += "  setup " + std::to_string(s.number) + ": " + clamping_text(s, shown_) +
              ", from the " + (s.from_left ? "left" : "right") + "\n";
      if (options_.why) out_ += "     " + s.why + "\n";
    }
    out_ += "\n";
  }
  void stock() {
    const Stock& s = q_.route.job.stock;
    const MaterialCost& m = q_.material;
    out_ += "STOCK\n  " + q_.route.job.material.name + ", " + stock_text(q_.route.job, shown_) +
            ", " + length_word(s) + shown_.mm(s.length) + ": " + shown_.kg(m.blank) + " in, " +
            shown_.kg(m.finished) + " out (" + percent((m.finished / m.blank).si) + ")\n";
    if (q_.route.job.material.price)
      out_ +=
          "  " + fixed(in(*q_.route.job.material.price, unit::money_per_kg), 2) + " " +
          q_.currency + "/kg " + m.status +
          (q_.route.job.material.price_date.empty() ? ""
                                                    : ", of " + q_.route.job.material.price_date) +
          "; " + fixed(m.each.si, 2) + " a blank with cut, overhead and chip credit\n";
    out_ += "\n";
  }
  void other_work() {
    const auto& list = q_.route.job.part.other_work;
    if (list.empty()) return;
    out_ += "OTHER WORK\n";
    for (const OtherWork& w : list) out_ += "  " + other_work_text(w, q_.currency) + "\n";
    out_ += "\n";
  }
  void cautions() {
    if (q_.cautions.empty()) return;
    out_ += "CAUTIONS\n";
    for (const std::string& c : q_.cautions) out_ += "  " + c + "\n";
    out_ += "\n";
  }
  void split() {
    out_ += "WHERE THE MONEY GOES, in % of cost\n  good ";
    for (const CostLine& l : q_.prices.front().lines) out_ += padded(l.name, 13, true);
    out_ += "\n";
    for (const Price& p : q_.prices) {
      out_ += "  " + padded(std::to_string(p.quantity), 5);
      for (const CostLine& l : p.lines)
        out_ += padded(
            fixed(p.cost.hundredths() == 0 ? 0 : 100 * l.amount.amount().si / p.cost.amount().si,
                  0),
            13, true);
      out_ += "\n";
    }
    out_ += "\n";
  }
  void sanity() {
    Time cutting(0.0);
    for (const OperationTime& s : q_.times.operations)
      for (const StepTime& t : s.steps) cutting += t.cutting;
    const Volume removed = q_.route.audit.removed;
    const Price& p = q_.prices.back();
    out_ += "SANITY\n  cutting " + percent((cutting / q_.times.machine_each).si) +
            " of the machine time; " +
            readable(in(removed, unit::cm3) / in(q_.times.machine_each, unit::min), 3) +
            " cm3/min over all; " +
            fixed(p.each.amount().si / p.price_unit / in(q_.material.finished, unit::kg), 2) + " " +
            q_.currency + "/kg at " + std::to_string(p.quantity) + "; volumes add up to " +
            readable(q_.route.audit.imbalance, 1) + "\n\n";
  }
  void method() {
    out_ += compare_text(methods_, options_);
    const Price& p = q_.prices.back();
    out_ += "\nHOURS on " + q_.route.machine.name + ": " + fixed(in(p.machine, unit::h), 1) +
            " for " + std::to_string(p.quantity) + "\n";
  }

  const Quote& q_;
  const Comparison& methods_;
  const TextOptions& options_;
  Shown shown_;
  std::string out_;
};

}  // namespace

std::string part_title(const Job& job) {
  std::string text = job.part.number;
  if (!job.part.name.empty()) text += "  " + job.part.name;
  if (!job.part.revision.empty()) text += "  rev " + job.part.revision;
  return text + "  (" + (job.part.repeat ? "repeat" : "new") + " order)";
}

std::string other_work_text(const OtherWork& w, const std::string& currency) {
  std::string text = "after " + w.after + ": " + w.what + ", ";
  text += w.price ? fixed(w.price->si, 2) + " " + currency : minutes(*w.time) + " min";
  text += w.per == ChargedBy::piece ? std::string(" each") : std::string(" a ") + name_of(w.per);
  if (w.price && w.time) text += ", " + minutes(*w.time) + " min";
  for (const auto& [word, amount] : {std::pair{"at least ", w.minimum},
                                     {"certificate ", w.certificate},
                                     {"transport ", w.transport}})
    if (amount.si > 0) text += std::string(", ") + word + fixed(amount.si, 2);
  if (w.scrap > 0) text += ", scrap " + percent(w.scrap);
  if (w.setup.si > 0) text += ", make-ready " + minutes(w.setup, 0) + " min";
  if (w.days > 0) text += ", " + readable(w.days) + " days";
  return text;
}

std::string stock_text(const Job& job, const Shown& shown) {
  const Stock& s = job.stock;
  switch (s.form) {
    case StockForm::hexagon:
    case StockForm::square:
      return (s.form == StockForm::hexagon ? "hexagon " : "square ") + shown.mm(s.flats) + " " +
             s.condition;
    case StockForm::tube:
      return "tube " + shown.mm(s.diameter) + ", bore " + shown.mm(s.bore) + ", " + s.condition;
    case StockForm::casting:
    case StockForm::forging:
      return (s.form == StockForm::casting ? "casting, " : "forging, ") +
             shown.mm(job.part.stock.size) + " a side";
    default:
      break;
  }
  return "round " + shown.mm(s.diameter) + " " + s.condition;
}

std::string clamping_text(const Operation& s, const Shown& shown) {
  std::string text = s.clamping;
  if (s.support != Support::between_centres)
    text += std::string(s.collet || s.face_plate ? ""
                        : s.jaws == Jaws::soft   ? ", soft jaws"
                                                 : ", hard jaws") +
            " on " + shown.mm(s.grip_diameter, 4);
  return text + ", free " + shown.mm(s.stick_out, 4) + " (" + readable(s.free_ratio, 2) +
         " diameters)";
}

std::string quote_text(const Quote& quote, const Comparison& methods, const TextOptions& options) {
  return QuoteText(quote, methods, options).text();
}

std::string infeasible_text(const Route& route) {
  return route.job.part.number + ": not possible: " + route.why_not +
         (route.would_help.empty() ? "" : "\n  would help: " + route.would_help) + "\n";
}

std::string lead_text(const Comparison& c, const LeadingRange& lead) {
  return std::to_string(lead.from) + " to " + std::to_string(lead.to) +
         (lead.to == c.scanned_to ? " and more" : "") + ": " +
         (lead.either.empty()       ? ""
          : lead.either.size() == 2 ? "either (within the band), by a little "
                                    : "any of " + std::to_string(lead.either.size()) +
                                          " (within the band), by a little ") +
         c.methods[lead.method].name;
}

std::string compare_text(const Comparison& c, const TextOptions&) {
  std::string out = "WAYS\n";
  for (const MethodResult& w : c.methods) {
    out += "  " + padded(w.name, 20);
    if (!w.feasible()) {
      out += "not possible: " + w.route.why_not + "\n";
      if (!w.route.would_help.empty())
        out += "                      would help: " + w.route.would_help + "\n";
      continue;
    }
    out += "machine " + minutes(w.quote.times.machine_each) + " min each, make-ready " +
           minutes(w.quote.times.setup, 0) + " min; each";
    for (const Price& p : w.quote.prices)
      out += "  " + std::to_string(p.quantity) + ": " + p.each.text();
    out += "\n";
    if (!w.route.tie_rests_on.empty())
      out += "                      the tie rests on " + w.route.tie_rests_on + "\n";
    if (w.method == MethodKind::two_finish_cuts)
      for (const std::string& note : w.route.two_cut_notes)
        out += "                      " + note + "\n";
  }
  for (const LeadingRange& l : c.lead) {
    out += "  " + lead_text(c, l) + "\n";
  }
  if (c.break_even > 0)
    out += "  the lead changes at " + std::to_string(c.break_even) +
           " pieces, found by scanning lot costs\n";
  if (!c.differences.empty()) out += "  two finish cuts less rough then finish, cost of the lot:\n";
  for (const Difference& d : c.differences)
    out += "    " + padded(std::to_string(d.quantity), 6) + "total " + signed_money(d.total) +
           " = make-ready " + signed_money(d.setup) + ", tool change " +
           signed_money(d.tool_change) + ", cutting " + signed_money(d.cutting) + ", other time " +
           signed_money(d.other_time) + ", edges " + signed_money(d.edges) + ", material " +
           signed_money(d.material) + "\n";
  return out;
}

}  // namespace turnwright
