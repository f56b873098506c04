// SPDX-License-Identifier: MIT
#include "turnwright/output/explain.hpp"

#include <algorithm>
#include <cmath>

#include "shown.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "turnwright/route/cutting_table.hpp"

namespace turnwright {
namespace {

class Explainer {
 public:
  Explainer(const Quote& quote, const Shop& shop, const ExplainRequest& request)
      : q_(quote), shop_(shop), r_(request), shown_{request.inch} {}

  std::optional<std::string> text(std::string& expected) {
    switch (r_.kind) {
      case ExplainKind::overview:
        overview();
        return out_;
      case ExplainKind::minutes:
        minutes_of_a_piece();
        return out_;
      case ExplainKind::price:
        price();
        return out_;
      case ExplainKind::step:
      case ExplainKind::pass:
        break;
    }
    std::string steps;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (std::size_t k = 0; k < q_.route.operations[i].steps.size(); ++k) {
        const Step& s = q_.route.operations[i].steps[k];
        steps += (steps.empty() ? "" : ", ") + std::to_string(s.number);
        if (s.number != r_.step) continue;
        const StepTime& t = q_.times.operations[i].steps[k];
        if (r_.kind == ExplainKind::step) {
          step(q_.route.operations[i], s, t);
          return out_;
        }
        const auto n = static_cast<std::size_t>(r_.pass);
        if (r_.pass >= 1 && n <= s.passes.size()) {
          pass(s, s.passes[n - 1], t.passes[n - 1]);
          return out_;
        }
        expected = "a pass from 1 to " + std::to_string(s.passes.size()) + " of step " +
                   std::to_string(s.number);
        return std::nullopt;
      }
    expected = "a step of the route: " + steps;
    return std::nullopt;
  }

 private:
  std::string from(const Source& source) const { return shop_.in_words(source); }
  void line(const std::string& text) { out_ += text + "\n"; }
  void head(const std::string& text) { out_ += "\n" + text + "\n"; }
  std::string speed(Speed v) const { return with_unit(v.si, shown_.speed(), 4); }
  std::string feed(Length f) const { return with_unit(f.si, shown_.feed(), 4); }

  // A figure with its symbols, its numbers and its source.
  void worked(const char* name, const std::vector<double>& given) {
    const figure::Entry* entry = figure::find(name);
    if (entry == nullptr) return;
    std::vector<figure::Numbers> numbers;
    numbers.reserve(given.size());
    for (const double x : given) numbers.push_back({x});
    const auto results = entry->work_out(numbers);
    const auto lines = entry->explain(numbers);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (lines[i].symbols.empty()) continue;
      line("    " + lines[i].symbols);
      line("    " + lines[i].numbers);
      line("    = " + with_unit(results[i].front(), entry->results[i].unit, 5));
    }
    line("    " + std::string(name) + "; source: " + std::string(entry->source));
  }

  void overview() {
    line(q_.route.job.part.number + " on " + q_.route.machine.name + ": what can be explained");
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i) {
      const Operation& operation = q_.route.operations[i];
      head("setup " + std::to_string(operation.number) + ", " + clamping_text(operation, shown_));
      line("  why: " + operation.why);
      for (std::size_t k = 0; k < operation.steps.size(); ++k) {
        const Step& s = operation.steps[k];
        line("  step " + padded(std::to_string(s.number), 5) + padded(name_of(s.kind), 9) +
             padded(s.tool, 26) + minutes(q_.times.operations[i].steps[k].machine) +
             " min, passes 1 to " + std::to_string(s.passes.size()));
      }
    }
    head("prices");
    for (const Price& p : q_.prices)
      line("  price " + std::to_string(p.quantity) + ": " + p.each.text() + " " + q_.currency +
           " each");
    head("ask for: step 40, pass 40.3, price 50, or minutes (where each minute of a piece goes)");
  }

  // ---- a step
  void step(const Operation& operation, const Step& s, const StepTime& t) {
    line("STEP " + std::to_string(s.number) + "  " + name_of(s.kind) + " in setup " +
         std::to_string(operation.number) + ": " + s.why);
    if (s.given) {
      line("  the estimator's own time, " + minutes(*s.given) + " min, as the part file says");
      return;
    }
    const Tool* tool = shop_.tool(s.tool);
    if (tool == nullptr) return;
    line("  tool: " + tool->name + (tool->insert.empty() ? "" : ", " + tool->insert) + ", " +
         tool->grade + "; " + from(tool->source));
    start(s, *tool);
    limits(s);
    times(s, t);
    edge(s, t, *tool);
  }
  void start(const Step& s, const Tool& tool) {
    head("where speed and feed start");
    const bool on_axis = tool.kind == ToolKind::drill || tool.kind == ToolKind::ream ||
                         tool.kind == ToolKind::tap || tool.kind == ToolKind::die ||
                         tool.kind == ToolKind::countersink;
    const bool threads = tool.kind == ToolKind::thread || tool.kind == ToolKind::inside_thread;
    const Length depth = on_axis ? hole_table_depth : threads ? thread_table_depth : s.wanted.depth;
    const Material& m = q_.route.job.material;
    const TableSpeed row = table_speed(shop_, m, tool.grade, depth);
    if (row.row == nullptr) {
      line("  the cutting table has no row for " + m.group + " and " + tool.grade);
      return;
    }
    line("  cutting table: " + row.group->name + ", " + readable(row.row->hardness.low) + "-" +
         readable(row.row->hardness.high) + " HB, " + tool.grade + ", at a depth of " +
         shown_.mm(depth, 3) + ": " + speed(row.speed) + ", " + feed(row.feed));
    line("    " + from(row.group->source));
    const StepFactor& op = shop_.operation(step_factor_name(s.kind, tool, q_.route.machine));
    line("  operation " + op.name + ": speed x " + readable(op.speed, 3) +
         (op.feed_share_of_width > 0
              ? ", feed " + readable(op.feed_share_of_width, 3) + " of the width"
              : "") +
         "; " + from(op.source));
    const Machine& machine = q_.route.machine;
    line("  coolant " + std::string(machine.flood ? "flood" : "dry") + " x " +
         readable(shop_.factor(machine.flood ? "coolant flood" : "coolant dry"), 3) + ", machine " +
         (machine.worn ? "worn" : "good") + " x " +
         readable(shop_.factor(machine.worn ? "machine condition worn" : "machine condition good"),
                  3));
    if (q_.route.job.stock.skin && !s.passes.empty() &&
        s.passes.front().surface_speed < s.used.surface_speed * 0.999)
      line("  the first cut goes through the skin: x " +
           readable(shop_.factor("skin " + q_.route.job.stock.condition), 3));
    line("  wanted: " + speed(s.wanted.surface_speed) + ", " + feed(s.wanted.feed) + ", depth " +
         shown_.mm(s.wanted.depth, 3));
    line("  used:   " + speed(s.used.surface_speed) + ", " + feed(s.used.feed) + ", depth " +
         shown_.mm(s.used.depth, 3));
  }
  void limits(const Step& s) {
    head("limits, the ones that decided first");
    for (const bool binding : {true, false})
      for (const LimitCheck& l : s.limits)
        if (l.binding == binding)
          line(std::string("  ") + (binding ? "! " : "  ") + padded(l.name, 26) +
               shown_.value(l.actual, l.unit) + " of " + shown_.value(l.allowed, l.unit) +
               (binding ? "; changed: " + l.changed : ""));
  }
  void times(const Step& s, const StepTime& t) {
    head("its " + minutes(t.machine) + " minutes of the machine");
    const std::pair<const char*, Time> parts[] = {
        {"cutting", t.cutting},         {"moving and handling of passes", t.moving},
        {"tool change", t.tool_change}, {"lever and feed changes", t.speed_change},
        {"trial cuts", t.trial_cuts},   {"share of an edge change", t.edge_change}};
    for (const auto& [name, time] : parts)
      if (time.si > 0) line("  " + padded(name, 32) + padded(minutes(time, 3), 8, true));
    head("its passes");
    for (std::size_t i = 0; i < s.passes.size(); ++i) {
      const Pass& p = s.passes[i];
      const PassTime& pt = t.passes[i];
      line("  " + padded(std::to_string(s.number) + "." + std::to_string(i + 1), 8) +
           (p.motion == Motion::along    ? "along "
            : p.motion == Motion::across ? "across"
                                         : "on an arc") +
           "  dia " + padded(shown_.number(p.large_diameter, 4), 8) + "path " +
           padded(shown_.number(p.path(), 4), 8) + "f " + padded(shown_.number(p.feed, 3), 7) +
           "ap " + padded(shown_.number(p.depth, 3), 7) +
           padded(readable(in(pt.start, unit::rev_per_min), 4), 6) + "rev/min  " +
           minutes(pt.cutting, 3) + " min");
    }
  }
  void edge(const Step& s, const StepTime& t, const Tool& tool) {
    if (t.edge_share <= 0) return;
    head("its edge");
    worked("tool-life", {s.used.surface_speed.si, s.taylor_exponent, s.taylor_constant.si});
    if (const Grade* grade = shop_.grade(tool.grade)) line("    " + from(grade->source));
    const double pieces = std::floor(1 / t.edge_share);
    line("  " + readable(t.edge_share, 3) + " of an edge a piece" +
         (pieces >= 1 ? ": changed after " + readable(pieces) + " pieces"
                      : ": changed within a piece") +
         "; an edge " + fixed(t.edge_price.si, 2) + " " + q_.currency + ", its change " +
         minutes(t.edge_change_whole) + " min");
  }

  // ---- a pass
  void pass(const Step& s, const Pass& p, const PassTime& t) {
    line("PASS " + std::to_string(s.number) + "." + std::to_string(r_.pass) + "  " + s.tool);
    line("  " + shown_.mm(p.cut, 5) + " of cut, " + shown_.mm(p.approach, 3) + " approach, " +
         shown_.mm(p.overrun, 3) + " overrun; depth " + shown_.mm(p.depth, 3));
    const double v = p.surface_speed.si, d = p.large_diameter.si;
    if (p.constant_speed) {
      head("the spindle runs at one speed, " + with_unit(p.spindle.si, unit::rev_per_min, 4));
      worked("surface-speed", {p.spindle.si, d});
    } else {
      head("constant surface speed, at most " + with_unit(p.fastest.si, unit::rev_per_min, 4));
      worked("spindle-speed", {v, d});
    }
    head("cutting, " + minutes(t.cutting, 4) + " min");
    if (p.motion == Motion::across && !p.constant_speed)
      worked("sloped-path-time", {d, p.small_diameter.si, p.path().si, p.feed.si, v, p.fastest.si});
    else if (p.motion == Motion::arc && !p.constant_speed)
      worked("curved-path-time", {p.swept.si, p.path().si, p.feed.si, v, p.fastest.si});
    else
      worked("turning-time", {p.path().si, p.feed.si, t.start.si, 1, 0, 0});
    head("moving and handling, " + minutes(t.moving, 4) + " min");
    line("  rapid moves of " + shown_.mm(p.travel, 4) + " and the handling element of a pass");
  }

  // ---- the minutes of a piece
  struct Minute {
    std::string name;
    Time time{};
    bool beside = false;
    std::string basis;
  };
  void minutes_of_a_piece() {
    std::vector<Minute> list;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i) {
      const Operation& operation = q_.route.operations[i];
      const OperationTime& t = q_.times.operations[i];
      for (std::size_t k = 0; k < operation.steps.size(); ++k)
        list.push_back({"step " + std::to_string(operation.steps[k].number) + " " +
                            name_of(operation.steps[k].kind) + ", " + operation.steps[k].tool,
                        t.steps[k].machine, false, "worked out"});
      for (const ElementTime& e : t.elements)
        list.push_back({e.name + ", setup " + std::to_string(operation.number),
                        e.internal ? e.person : e.machine, e.internal, name_of(e.basis)});
    }
    std::stable_sort(list.begin(), list.end(),
                     [](const Minute& a, const Minute& b) { return a.time > b.time; });
    line("THE MINUTES OF A PIECE on " + q_.route.machine.name + ": machine " +
         minutes(q_.times.machine_each) + ", operator " + minutes(q_.times.person_each));
    line("  " + padded("what", 46) + padded("min", 8, true) + "  share  rests on");
    for (const Minute& m : list)
      line("  " + padded(m.name, 46) + padded(minutes(m.time), 8, true) +
           padded(m.beside ? "beside" : fixed(100 * (m.time / q_.times.machine_each).si, 0) + " %",
                  8, true) +
           "  " + m.basis);
    line(
        "  what is done beside the cutting adds no machine time unless it is longer than the "
        "cutting");
    head("MAKE-READY of the batch, " + minutes(q_.times.setup, 0) + " min");
    for (std::size_t i = 0; i < q_.times.operations.size(); ++i)
      for (const ElementTime& e : q_.times.operations[i].setup_elements)
        line("  " +
             padded(e.name + ", setup " + std::to_string(q_.route.operations[i].number), 54) +
             padded(minutes(e.machine, 1), 6, true) + "  " + name_of(e.basis));
  }

  // ---- a price
  void price() {
    const Price p = price_at(q_, shop_, r_.quantity);
    const auto l = lot_lines(q_, r_.quantity);
    const auto lot = lot_of(q_, r_.quantity);
    const std::string cur = " " + q_.currency;
    line("PRICE at " + std::to_string(r_.quantity) + " good pieces: " + p.each.text() + cur +
         " each, alone on its list");
    const bool or_default = lot.service_pieces.si > 0;
    const bool scrap = !or_default && r_.quantity >= lot.scrap_from.si;
    line("  pieces run: " + std::to_string(r_.quantity) +
         (scrap ? " / (1 - " + readable(lot.scrap_share.si, 3) + "), up to a whole one" : "") +
         " = " + readable(l.pieces.si) +
         (or_default ? "; enough good ones " + fixed(100 * q_.service_level, 0) + " times in 100"
          : scrap    ? ""
                     : "; scrap is planned from " + readable(lot.scrap_from.si) + " on") +
         "; with " + readable(lot.setting_pieces.si) + " setting pieces " + readable(l.made.si) +
         " blanks");
    line("  an hour: " + q_.rate_words);
    auto hour = [&](Rate r) { return fixed(in(r, unit::money_per_h), 2) + cur + "/h"; };
    const std::string rates =
        hour(lot.machine_rate) +
        (lot.person_rate.si > 0 ? ", person " + hour(lot.person_rate) : std::string());
    const std::string charged =
        lot.overhead.si > 0 ? " x " + readable(1 + lot.overhead.si, 4) : std::string();
    auto put = [&](const char* name, const std::string& how, Amount amount) {
      line("  " + padded(name, 12) + padded(rounded(amount).text(), 12, true) + "  " + how);
    };
    // What is lost at a stage, or learned, shows in the minutes of the lot.
    auto run = [&](Time each, Time all) {
      const bool plain = std::abs((l.pieces * each - all).si) < 1e-6;
      return plain ? readable(l.pieces.si) + " x " + minutes(each, 3) + " min"
                   : minutes(all, 1) + " min in all (" + minutes(each, 3) +
                         " a piece; releases, "
                         "stages and learning counted)";
    };
    line("");
    put("setup",
        (lot.releases.si > 1 ? readable(lot.releases.si) + " x " : std::string()) +
            minutes(lot.setup_machine - l.setup_saved, 1) + " min at " + rates + charged,
        l.setup);
    put("running",
        run(l.machine_each, l.machine_run) + " of the machine at " + hour(lot.machine_rate) +
            charged,
        l.machine);
    if (lot.person_rate.si > 0)
      put("labour",
          run(l.person_each, l.person_run) + " of the operator at " + hour(lot.person_rate) +
              charged,
          l.labour);
    put("edges",
        "shares of edges, but no fewer than the whole ones of " +
            readable(std::min(static_cast<double>(r_.quantity), lot.whole_edges_up_to.si)) +
            " pieces",
        l.edges);
    const MaterialCost& m = q_.material;
    put("material",
        readable(l.made.si) + " x " + fixed(m.each.si, 4) + " (" + shown_.kg(m.blank) + ", price " +
            m.status + ": bar " + fixed(m.bar.si, 4) + ", cut " + fixed(m.cut_charge.si, 2) +
            ", overhead " + fixed(m.overhead.si, 4) + ", chip credit -" + fixed(m.credit.si, 4) +
            ")" +
            (m.pieces_per_bar > 0
                 ? "; whole bars of " + std::to_string(m.pieces_per_bar) + " at " +
                       fixed(m.whole_bar.si, 2) + " instead of bar and its overhead"
                 : ""),
        l.material);
    put("other work", "own times, as listed in the part file", l.other);
    if (l.outside.si > 0) put("outside", "bought, as listed, with its overhead", l.outside);
    if (l.one_offs.si > 0) put("one-offs", "those in the price, as listed", l.one_offs);
    line("  " + padded("cost", 12) + padded(p.cost.text(), 12, true) +
         "  the sum of the lines, each rounded to cents");
    head("from cost to price each, " + fixed(p.cost.amount().si / r_.quantity, 6) + cur +
         " of cost a piece");
    const bool markup = shop_.policy.markup;
    worked(markup ? "price-from-markup" : "price-from-margin",
           {p.cost.amount().si / r_.quantity, shop_.policy.margin});
    if (p.price_unit > 1) line("  for " + std::to_string(p.price_unit) + " pieces as many times");
    line("  rounded to a step of " + shop_.policy.step_of(p.each.amount()).text() + ": " +
         p.each.text());
    if (p.minimum_surcharge.hundredths() > 0)
      line("  the order is below " + shop_.policy.minimum_order.text() + ": surcharge " +
           p.minimum_surcharge.text());
    for (const Price& listed : q_.prices)
      if (listed.quantity == r_.quantity && listed.each != p.each)
        line("  on the list " + listed.each.text() + ": a price list never rises with quantity");
    for (const auto& [name, source] : shop_.policy.sources)
      if (name == "margin" || name == "scrap share" || name == "price step")
        line("  " + name + ": " + from(source));
    line("  machine: " + from(q_.route.machine.source));
    line("  material: " + from(q_.route.job.material.source));
  }

  const Quote& q_;
  const Shop& shop_;
  const ExplainRequest& r_;
  Shown shown_;
  std::string out_;
};

}  // namespace

std::optional<std::string> explain_text(const Quote& quote, const Shop& shop,
                                        const ExplainRequest& request, std::string& expected) {
  return Explainer(quote, shop, request).text(expected);
}

}  // namespace turnwright
