// SPDX-License-Identifier: MIT
#include "turnwright/output/page.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "charts.hpp"
#include "drawing.hpp"
#include "page_parts.hpp"
#include "page_style.hpp"
#include "sources.hpp"

namespace turnwright {
namespace {

std::string percent(double share) { return fixed(share * 100, 0) + " %"; }

// Colours by what a minute or a coin is, the same in every chart.
enum Colour { cutting, moving, tool_change, handling, beside, attending };
int colour_of_line(const std::string& name) {
  static const Cells names{"running", "setup",      "material",     "labour",
                           "edges",   "other work", "outside work", "one-offs"};
  const auto at = std::find(names.begin(), names.end(), name == "machine" ? "running" : name);
  return static_cast<int>(std::min<std::ptrdiff_t>(at - names.begin(), 7));
}

class QuotePage {
 public:
  QuotePage(const Quote& q, const Comparison& methods, const Shop& shop,
            const std::vector<InputDigest>& inputs, const TextOptions& options)
      : q_(q), methods_(methods), shop_(shop), inputs_(inputs), shown_{options.inch} {}

  std::string page() {
    const Job& job = q_.route.job;
    begin_page(m_, "en", job.part.number + " " + job.part.name, page_style + step_rules());
    m_.open("header").put("h1", part_title(job));
    m_.put("p",
           job.material.name + ", " + stock_text(job, shown_) + "; on " + q_.route.machine.name +
               ", an hour " + q_.rate_words + ". Inside copy: not for the customer.",
           {{"class", "soft"}});
    if (!q_.delivery.empty()) m_.put("p", "Delivery: " + q_.delivery);
    for (const std::string& u : q_.unconfirmed)
      m_.put("p", "Not confirmed: " + u, {{"class", "warn"}});
    m_.open("nav", {{"aria-label", "on this page"}});
    for (const auto& [id, name] : sections_) m_.put("a", name, {{"href", std::string("#") + id}});
    m_.close().close().raw("\n").open("main");
    prices();
    part();
    steps();
    times();
    money();
    methods();
    questions();
    cautions();
    sources();
    m_.close().close().close().raw("\n");
    return m_.take();
  }

 private:
  // The figure of the chosen step stands, the others do not; on paper all of them stand.
  std::string step_rules() const {
    std::size_t most = 0;
    for (const Operation& s : q_.route.operations) most = std::max(most, s.steps.size());
    std::string rules = "@media screen { .step figure { display: none; }\n";
    for (std::size_t k = 1; k <= most; ++k)
      rules += (k > 1 ? ",\n" : "") + std::string(".step:has(input.n") + std::to_string(k) +
               ":checked) figure.n" + std::to_string(k);
    return rules + " { display: block; } }\n";
  }
  void section(const char* id) {
    for (const auto& [known, name] : sections_)
      if (std::string_view(known) == id) m_.put("h2", name, {{"id", id}});
  }
  void head(const Cells& cells, std::size_t text_from = 99, std::size_t text_to = 99) {
    begin_table(m_, cells, text_from, text_to);
  }
  void row(const Cells& cells, std::size_t text_from = 99, std::size_t text_to = 99) {
    table_row(m_, cells, text_from, text_to);
  }
  void end() { end_table(m_); }
  void note(const std::string& text) { m_.put("p", text, {{"class", "soft"}}); }
  void key(int colour, const std::string& name) {
    colour_key(m_, "k" + std::to_string(colour), name);
  }

  // ---- what an owner looks at first
  void prices() {
    section("prices");
    const std::string per = q_.prices.front().price_unit > 1
                                ? "per " + std::to_string(q_.prices.front().price_unit)
                                : std::string("each");
    head({"good", "blanks", "price " + per, "total", "cost", "margin", "cost each P10", "P50",
          "P90", "loses money", "margin at P90", "machine h", "contribution an hour"});
    for (const Price& p : q_.prices) {
      // What the lot leaves for an hour of the machine, once what was bought is paid.
      double bought = 0;
      for (const CostLine& l : p.lines)
        if (l.name == "material" || l.name == "edges" || l.name == "outside work" ||
            l.name == "one-offs")
          bought += l.amount.amount().si;
      const double income = (p.total + p.minimum_surcharge).amount().si;
      const double hours = in(p.machine, unit::h);
      const double worst = p.p90_each.amount().si * p.quantity;
      row({std::to_string(p.quantity), std::to_string(p.made), p.each.text(), p.total.text(),
           p.cost.text(), percent(p.margin_share), p.p10_each.text(), p.p50_each.text(),
           p.p90_each.text(), percent(p.loss_chance), income > 0 ? percent(1 - worst / income) : "",
           fixed(hours, 1), hours > 0 ? fixed((income - bought) / hours, 2) : ""});
    }
    end();
    for (const Price& p : q_.prices) {
      const std::string at = "At " + std::to_string(p.quantity) + ": ";
      if (p.minimum_surcharge.hundredths() > 0)
        note(at + "minimum order, surcharge " + p.minimum_surcharge.text() + ".");
      if (p.at_once_each.hundredths() > 0)
        note(at + "in " + std::to_string(q_.route.job.part.releases) + " releases; at once " +
             p.at_once_each.text() + ".");
    }
    for (const LargerForLess& l : larger_for_less(q_.prices))
      note("From " + std::to_string(l.from) + " pieces on offer " + std::to_string(l.quantity) +
           ": less in total.");
    for (const OneOffLine& o : q_.one_offs)
      note("Once, as a line of its own: " + o.what + " " + o.price.text() + ".");
    note("Amounts in " + q_.currency +
         ". P10, P50, P90: cost a piece not exceeded in 10, 50, 90 of 100 fixed draws. "
         "Contribution: price less material, edges and what is bought, for an hour of " +
         q_.route.machine.name + ".");
    loss();
    curve();
  }
  // The answer that would turn the price into a loss, if there is one.
  void loss() {
    if (methods_.questions.empty()) return;
    const Price& main = q_.prices[q_.prices.size() / 2];
    for (const Question& question : methods_.questions) {
      if (question.change <= 0) continue;
      const double cost = main.cost.amount().si * (1 + question.change);
      if (question.quantity == main.quantity &&
          cost > (main.total + main.minimum_surcharge).amount().si) {
        m_.put("p",
               "One answer turns the price at " + std::to_string(main.quantity) +
                   " into a loss: " + question.ask + " " + question.otherwise + ".",
               {{"class", "warn"}});
        return;
      }
    }
    note("No single open question turns the price at " + std::to_string(main.quantity) +
         " into a loss.");
  }
  void curve() {
    Curve cost{"cost a piece", {}, {}, 1, false}, listed{"price a piece", {}, {}, 0, true};
    const int last = std::max(q_.prices.back().quantity * 2, 10);
    std::set<int> quantities;
    for (int i = 0; i <= 60; ++i)
      quantities.insert(static_cast<int>(std::lround(std::pow(last, i / 60.0))));
    // From a tenth of the smallest on the list: dearer lots would flatten all the rest.
    const int first = std::max(1, q_.prices.front().quantity / 3);
    for (const int q : quantities) {
      if (q < first) continue;
      cost.x.push_back(q);
      cost.y.push_back(lot_cost(q_, q).si / q);
    }
    for (const Price& p : q_.prices) {
      listed.x.push_back(p.quantity);
      listed.y.push_back(p.each.amount().si / p.price_unit);
    }
    m_.open("figure");
    draw_curves(m_, {cost, listed}, "cost and price a piece against quantity", q_.currency);
    m_.open("figcaption");
    key(1, "cost a piece");
    key(0, "price a piece on the list");
    m_.close().close();
  }

  void part() {
    section("part");
    m_.open("figure");
    draw_part(m_, q_.route.job, shown_);
    m_.close();
    const MaterialCost& mat = q_.material;
    note("Stock " + shown_.mm(q_.route.job.stock.length) + " long, " + shown_.kg(mat.blank) +
         " in, " + shown_.kg(mat.finished) + " out. Volumes of all steps add up to " +
         readable(q_.route.audit.imbalance, 1) + ".");
  }

  void steps() {
    section("steps");
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i) {
      const Operation& operation = q_.route.operations[i];
      const std::string group = "operation" + std::to_string(operation.number);
      m_.open("fieldset", {{"class", "step"}, {"id", group}});
      m_.put("legend", "Setup " + std::to_string(operation.number) + ": " +
                           clamping_text(operation, shown_) +
                           (operation.from_left ? ", turned round" : ""));
      m_.put("p", operation.why, {{"class", "soft"}});
      m_.open("div");
      for (std::size_t k = 0; k < operation.steps.size(); ++k) {
        const std::string id = group + "step" + std::to_string(operation.steps[k].number);
        Markup::Attributes radio{
            {"type", "radio"}, {"name", group}, {"id", id}, {"class", "n" + std::to_string(k + 1)}};
        if (k == 0) radio.emplace_back("checked", "");
        m_.single("input", radio);
        m_.put("label",
               std::to_string(operation.steps[k].number) + " " + name_of(operation.steps[k].kind),
               {{"for", id}});
      }
      m_.close();
      for (std::size_t k = 0; k < operation.steps.size(); ++k)
        step(operation, q_.times.operations[i], k);
      m_.close().raw("\n");
    }
    note("The arrow keys go from step to step. Shaded: what the step removes.");
  }
  void step(const Operation& operation, const OperationTime& time, std::size_t k) {
    const Step& s = operation.steps[k];
    const StepTime& t = time.steps[k];
    m_.open("figure", {{"class", "n" + std::to_string(k + 1)}});
    draw_step(m_, operation, k);
    m_.open("figcaption");
    std::string line = std::to_string(s.number) + " " + name_of(s.kind) +
                       (s.tool.empty() ? "" : ", " + s.tool) + ": " + minutes(t.machine) +
                       " min of the machine";
    if (!s.given)
      line += "; " + readable(in(s.used.surface_speed, shown_.speed()), 3) + " " +
              std::string(shown_.speed().name) + ", feed " + shown_.number(s.used.feed, 2) +
              ", depth " + shown_.number(s.used.depth, 3) + ", " + std::to_string(cuts_of(s)) +
              (cuts_of(s) == 1 ? " pass" : " passes");
    m_.put("p", line + ". Removes " + readable(in(s.removed, unit::cm3), 3) + " cm3.");
    m_.put("p", s.why, {{"class", "soft"}});
    for (const LimitCheck& l : s.limits)
      if (l.binding)
        m_.put("p",
               "Limit: " + l.name + ", " + shown_.value(l.actual, l.unit) + " of " +
                   shown_.value(l.allowed, l.unit) + (l.changed.empty() ? "" : ", so " + l.changed),
               {{"class", "soft"}});
    m_.close().close().raw("\n");
  }

  // ---- both clocks of one piece
  void times() {
    section("times");
    std::vector<Bar> bars;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i) {
      const OperationTime& t = q_.times.operations[i];
      const std::string name = "setup " + std::to_string(q_.route.operations[i].number);
      bars.push_back(machine_bar(q_.route.operations[i], t, name + ", machine"));
      bars.push_back(person_bar(t, name + ", operator"));
    }
    m_.open("figure");
    draw_bars(m_, bars, "the minutes of a piece on both clocks", "min");
    m_.open("figcaption");
    key(handling, "handling, machine stopped");
    key(cutting, "cutting");
    key(moving, "moving, gauging, given times");
    key(tool_change, "tool, edge and speed changes");
    key(beside, "beside the cutting");
    key(attending, "attending");
    m_.close().close();
    head({"step", "kind", "tool", "cutting", "moving", "changes", "trial cuts", "machine"}, 1, 3);
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (std::size_t k = 0; k < q_.route.operations[i].steps.size(); ++k) {
        const Step& s = q_.route.operations[i].steps[k];
        const StepTime& t = q_.times.operations[i].steps[k];
        row({std::to_string(q_.route.operations[i].number) + " / " + std::to_string(s.number),
             name_of(s.kind), s.tool, minutes(t.cutting), minutes(t.moving),
             minutes(t.tool_change + t.speed_change + t.edge_change),
             minutes(t.trial_cuts + t.given), minutes(t.machine)},
            1, 3);
      }
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (const ElementTime& e : q_.times.operations[i].elements)
        row({std::to_string(q_.route.operations[i].number), e.name,
             e.internal ? "beside the cutting" : "", "", "", "", "",
             minutes(e.internal ? e.person : e.machine)},
            1, 3);
    row({"each", "", "", "", "", "", "", minutes(q_.times.machine_each)});
    end();
    note("Minutes. Operator each " + minutes(q_.times.person_each) + "; make-ready of the batch " +
         minutes(q_.times.setup, 0) +
         ". What is beside the cutting adds nothing until it is "
         "longer than it.");
  }
  static Bar machine_bar(const Operation& operation, const OperationTime& t,
                         const std::string& name) {
    Bar bar{name, {}};
    auto add = [&](Time time, Colour colour, const std::string& what) {
      if (time.si > 0) bar.stretches.push_back({in(time, unit::min), colour, what, false});
    };
    for (const ElementTime& e : t.elements)
      if (!e.internal) add(e.machine, handling, e.name);
    for (std::size_t k = 0; k < t.steps.size(); ++k) {
      const StepTime& s = t.steps[k];
      const std::string step = "step " + std::to_string(operation.steps[k].number) + " " +
                               name_of(operation.steps[k].kind) + ", ";
      add(s.tool_change + s.speed_change + s.edge_change, tool_change, step + "changes");
      add(s.cutting, cutting, step + "cutting");
      add(s.moving + s.trial_cuts + s.given, moving, step + "moving, gauging, given");
    }
    return bar;
  }
  Bar person_bar(const OperationTime& t, const std::string& name) const {
    Bar bar{name, {}};
    Time known(0.0);
    for (const ElementTime& e : t.elements) {
      if (e.internal) continue;
      known += e.machine;
      bar.stretches.push_back({in(e.machine, unit::min), handling, e.name, false});
    }
    for (const ElementTime& e : t.elements) {
      if (!e.internal) continue;
      known += e.person;
      bar.stretches.push_back(
          {in(e.person, unit::min), beside, e.name + ", beside the cutting", false});
    }
    if (t.person > known)
      bar.stretches.push_back(
          {in(t.person - known, unit::min), attending, "attending the running machine", true});
    return bar;
  }

  void money() {
    section("money");
    std::vector<Bar> bars;
    for (const Price& p : q_.prices) {
      Bar bar{std::to_string(p.quantity) + " good", {}};
      for (const CostLine& l : p.lines)
        bar.stretches.push_back(
            {l.amount.amount().si / p.quantity, colour_of_line(l.name), l.name, false});
      bars.push_back(std::move(bar));
    }
    m_.open("figure");
    draw_bars(m_, bars, "cost a piece by what it is for", q_.currency);
    m_.open("figcaption");
    for (const CostLine& l : q_.prices.front().lines) key(colour_of_line(l.name), l.name);
    m_.close().close();
    Cells names{"cost of the lot"};
    for (const CostLine& l : q_.prices.front().lines) names.push_back(l.name);
    names.emplace_back("cost");
    head(names);
    for (const Price& p : q_.prices) {
      Cells cells{std::to_string(p.quantity)};
      for (const CostLine& l : p.lines) cells.push_back(l.amount.text());
      cells.push_back(p.cost.text());
      row(cells);
    }
    end();
    const Price& main = q_.prices[q_.prices.size() / 2];
    if (main.causes.empty()) return;
    m_.put("h3", "What widens the band most at " + std::to_string(main.quantity));
    head({"row of the rates", "low, a piece", "high, a piece", "rests on"}, 3);
    for (const BandCause& c : main.causes)
      row({c.name, rounded(c.low_each).text(), "+" + rounded(c.high_each).text(), name_of(c.basis)},
          3);
    end();
  }

  void methods() {
    section("methods");
    Cells names{"method", "machine each, min", "operator each, min", "make-ready, min"};
    for (const Price& p : q_.prices) names.push_back("each at " + std::to_string(p.quantity));
    head(names);
    for (const MethodResult& w : methods_.methods) {
      if (!w.feasible()) continue;
      Cells cells{w.name, minutes(w.quote.times.machine_each), minutes(w.quote.times.person_each),
                  minutes(w.quote.times.setup, 0)};
      for (const Price& p : w.quote.prices) cells.push_back(p.each.text());
      row(cells);
    }
    end();
    for (const MethodResult& w : methods_.methods)
      if (!w.feasible())
        note(w.name + ": not possible: " + w.route.why_not +
             (w.route.would_help.empty() ? "" : "; would help: " + w.route.would_help));
    method_curves();
    m_.open("ul");
    for (const LeadingRange& l : methods_.lead) m_.put("li", lead_text(methods_, l));
    m_.close();
    if (methods_.break_even > 0)
      note("The lead changes at " + std::to_string(methods_.break_even) +
           " pieces, found by scanning the cost of whole quantities.");
  }
  void method_curves() {
    std::vector<Curve> curves;
    const int last = std::max(q_.prices.back().quantity * 2, 10);
    for (const MethodResult& w : methods_.methods) {
      if (!w.feasible()) continue;
      Curve c{w.name, {}, {}, static_cast<int>(curves.size()), false};
      for (int i = 0; i <= 40; ++i) {
        const int q = static_cast<int>(std::lround(std::pow(last, i / 40.0)));
        if (q < std::max(1, q_.prices.front().quantity / 3) || (!c.x.empty() && q <= c.x.back()))
          continue;
        c.x.push_back(q);
        c.y.push_back(lot_cost(w.quote, q).si / q);
      }
      curves.push_back(std::move(c));
    }
    if (curves.size() < 2) return;
    m_.open("figure");
    draw_curves(m_, curves, "cost a piece of each way against quantity", q_.currency);
    m_.open("figcaption");
    for (const Curve& c : curves) key(c.colour, c.name);
    m_.close().close();
  }

  void questions() {
    section("questions");
    if (methods_.questions.empty()) return note("Nothing that would move the price.");
    head({"ask the customer", "if it is otherwise",
          "each at " + std::to_string(methods_.questions.front().quantity), "change"});
    for (const Question& q : methods_.questions)
      row({q.ask, q.otherwise, q.each.text(),
           (q.change < 0 ? "-" : "+") + percent(std::abs(q.change))});
    end();
  }

  void cautions() {
    section("cautions");
    m_.open("ul");
    for (const std::string& c : q_.cautions) m_.put("li", c);
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (const std::string& c :
           clamping_cautions(q_.route.job, q_.route.operations[i], q_.times.operations[i], shown_))
        m_.put("li", "setup " + std::to_string(q_.route.operations[i].number) + ": " + c);
    for (const std::string& c : usual_cautions()) m_.put("li", c);
    m_.close();
  }

  void sources() {
    section("sources");
    head({"rate", "value", "basis", "source"}, 1);
    for (const RateUse& r : rates_used(q_, shop_))
      row({r.name, r.value, r.basis, shop_.in_words({r.source, Basis::typical, {}})}, 1);
    end();
    head({"figure", "formula", "source"}, 1);
    for (const FigureUse& f : figures_used()) row({f.name, f.formula, f.source}, 1);
    end();
    head({"input", "SHA-256"}, 1);
    for (const InputDigest& d : inputs_) row({d.path, d.sha256}, 1);
    row({"version", version}, 1);
    end();
  }

  static constexpr std::pair<const char*, const char*> sections_[] = {
      {"prices", "Prices"},
      {"part", "Part"},
      {"steps", "Steps"},
      {"times", "Both clocks"},
      {"money", "Where the money goes"},
      {"methods", "Ways"},
      {"questions", "To ask"},
      {"cautions", "Cautions"},
      {"sources", "Sources"}};

  const Quote& q_;
  const Comparison& methods_;
  const Shop& shop_;
  const std::vector<InputDigest>& inputs_;
  Shown shown_;
  Markup m_;
};

}  // namespace

std::string quote_page(const Quote& quote, const Comparison& methods, const Shop& shop,
                       const std::vector<InputDigest>& inputs, const TextOptions& options) {
  return QuotePage(quote, methods, shop, inputs, options).page();
}

}  // namespace turnwright
