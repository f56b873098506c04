// SPDX-License-Identifier: MIT
#include "turnwright/output/workbook.hpp"

#include <algorithm>
#include <cmath>

#include "sheet.hpp"
#include "shown.hpp"
#include "sources.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright {
namespace {

enum SheetIndex {
  quote_sheet,
  steps_sheet,
  passes_sheet,
  methods_sheet,
  prices_sheet,
  working_sheet
};
constexpr const char* again = "plan again to change";

// The live cells of one step.
struct StepCells {
  SpeedOf<Expression> v;
  LengthOf<Expression> f;
  TimeOf<Expression> cutting, machine;
  Pure<Expression> share;
  AmountOf<Expression> edge_price;
  bool has_edge = false;
};

struct PriceStepCells {
  AmountOf<Expression> step, below;
};

class WorkbookWriter {
 public:
  WorkbookWriter(const Quote& quote, const Comparison& methods, const Shop& shop,
                 const std::vector<InputDigest>& inputs, bool inch, const std::string& path)
      : q_(quote),
        methods_(methods),
        shop_(shop),
        inputs_(inputs),
        shown_{inch},
        book_(path, {"Quote", "Steps", "Passes", "Ways", "Prices", "Working"}),
        f_(book_.formats()) {}

  void write() {
    step_inputs();
    passes();
    steps();
    clampings();
    prices();
    methods();
    working();
    quote();
    page_setup();
    book_.close();
  }

 private:
  std::string money_head(const std::string& text) const { return text + ", " + q_.currency; }
  std::string unit_head(const std::string& text, const Unit& unit) const {
    return text + ", " + std::string(unit.name);
  }
  void heads(int sheet, int row, const std::vector<std::string>& heads) {
    std::size_t longest = 0;
    for (std::size_t i = 0; i < heads.size(); ++i) {
      if (!heads[i].empty()) book_.text(sheet, row, static_cast<int>(i), heads[i], f_.head);
      longest = std::max(longest, heads[i].size());
    }
    // Wrapped heads need room: the library does not fit rows by itself.
    worksheet_set_row(book_.sheet(sheet), static_cast<lxw_row_t>(row),
                      longest > 30   ? 38
                      : longest > 12 ? 26
                                     : 14,
                      nullptr);
  }

  // ---- Steps: columns An operation, B step, C kind, D tool, E speed, F feed, G depth, H passes, I
  // cutting, J fixed, K constant C, L exponent n, M life, N edge share, O change of an edge, P its
  // share, Q machine, R edge price
  void step_inputs() {
    book_.text(steps_sheet, 0, 0, "Steps and their times", f_.title);
    book_.text(steps_sheet, 1, 0,
               "Coloured cells are inputs: change them and every figure follows. Depths, diameters "
               "and pass counts: " +
                   std::string(again) + ".",
               f_.note);
    heads(steps_sheet, 3,
          {"operation",
           "step",
           "kind",
           "tool",
           unit_head("surface speed", shown_.speed()),
           unit_head("feed", shown_.feed()),
           unit_head("depth", shown_.length()) + " (" + again + ")",
           std::string("passes (") + again + ")",
           "cutting, min",
           "moving, tool and speed changes, trial cuts, min",
           unit_head("Taylor C", shown_.speed()),
           "Taylor n",
           "edge life, min",
           "edge share",
           "edge change, min",
           "its share, min",
           "machine, min",
           money_head("price of an edge"),
           "power at the edge, kW",
           "power there is, kW",
           unit_head("width of cut", shown_.length()),
           "lead angle, deg"});
    const Material& m = q_.route.job.material;
    book_.text(steps_sheet, 2, 0, "specific force kc1.1, N/mm2, and its exponent mc", f_.label);
    kc11_ = book_.input(steps_sheet, 2, 4, m.kc11, unit::N_per_mm2, f_.input, "specific_force");
    mc_ = book_.input(steps_sheet, 2, 5, Number(m.mc), unit::ratio, f_.input, "force_rise");
    int row = 4;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (std::size_t k = 0; k < q_.route.operations[i].steps.size(); ++k, ++row) {
        const Step& step = q_.route.operations[i].steps[k];
        StepCells cells;
        book_.value(steps_sheet, row, 0, q_.route.operations[i].number, f_.whole);
        book_.value(steps_sheet, row, 1, step.number, f_.whole);
        book_.text(steps_sheet, row, 2, name_of(step.kind));
        book_.text(steps_sheet, row, 3, step.tool);
        if (!step.given) {
          cells.v =
              book_.input(steps_sheet, row, 4, step.used.surface_speed, shown_.speed(), f_.input);
          cells.f = book_.input(steps_sheet, row, 5, step.used.feed, shown_.feed(), f_.input);
          book_.value(steps_sheet, row, 6, in(step.used.depth, shown_.length()), f_.number3);
          book_.value(steps_sheet, row, 7, static_cast<double>(step.passes.size()), f_.whole);
        }
        cells_.push_back(cells);
      }
    steps_end_ = row;
  }

  // ---- Passes: An operation, B step, C motion, D large diameter, E small, F path, G swept, H
  // speed factor, I feed factor, J speed, K feed, L spindle or clamp, M rev/min at the start, N
  // cutting
  void passes() {
    book_.text(passes_sheet, 0, 0, "Passes", f_.title);
    book_.text(
        passes_sheet, 1, 0,
        std::string("Speed and feed follow the step, each by its factor. Diameters and lengths: ") +
            again + ".",
        f_.note);
    heads(passes_sheet, 3,
          {"operation", "step", "motion", unit_head("larger diameter", shown_.length()),
           unit_head("smaller diameter", shown_.length()),
           unit_head("path with approach", shown_.length()), "swept surface, mm2", "speed factor",
           "feed factor", unit_head("surface speed", shown_.speed()),
           unit_head("feed", shown_.feed()), "lever or clamp, rev/min", "cutting, min"});
    int row = 4;
    std::size_t index = 0;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (std::size_t k = 0; k < q_.route.operations[i].steps.size(); ++k, ++index) {
        const Step& step = q_.route.operations[i].steps[k];
        const StepTime& t = q_.times.operations[i].steps[k];
        const int first = row;
        for (const Pass& pass : step.passes)
          pass_row(row++, q_.route.operations[i].number, step, pass, cells_[index]);
        if (first == row) continue;
        cells_[index].cutting =
            book_.sum(passes_sheet, 12, first, row - 1, t.cutting, unit::min, steps_sheet);
      }
  }
  void pass_row(int row, int operation, const Step& step, const Pass& pass,
                const StepCells& cells) {
    const int s = passes_sheet;
    book_.value(s, row, 0, operation, f_.whole);
    book_.value(s, row, 1, step.number, f_.whole);
    book_.text(s, row, 2,
               pass.motion == Motion::along    ? "along"
               : pass.motion == Motion::across ? "across"
                                               : "on an arc");
    auto plain = [&](int column, auto q, const Unit& unit, lxw_format* format) {
      return book_.input(s, row, column, q, unit, format);
    };
    model::PassCells<Expression> p;
    p.large_diameter = plain(3, pass.large_diameter, shown_.length(), f_.number3);
    p.small_diameter = plain(4, pass.small_diameter, shown_.length(), f_.number3);
    p.path = plain(5, pass.path(), shown_.length(), f_.number3);
    p.swept = pass.motion == Motion::arc ? plain(6, pass.swept, unit::mm2, f_.number)
                                         : AreaOf<Expression>(Expression(0.0));
    const auto speed_factor =
        plain(7, pass.surface_speed / step.used.surface_speed, unit::ratio, f_.number3);
    const auto feed_factor = plain(8, pass.feed / step.used.feed, unit::ratio, f_.number3);
    const auto v = book_.formula(s, row, 9, cells.v * speed_factor, shown_.speed(), f_.number);
    const auto f = book_.formula(s, row, 10, cells.f * feed_factor, shown_.feed(), f_.number3);
    const auto n = plain(11, pass.constant_speed ? pass.spindle : pass.fastest, unit::rev_per_min,
                         pass.constant_speed ? f_.input : f_.whole);
    book_.formula(s, row, 12,
                  model::pass_time<Expression>(pass.motion, pass.constant_speed, p, v, f, n),
                  unit::min, f_.number3);
  }

  void steps() {
    int row = 4;
    std::size_t index = 0;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i)
      for (std::size_t k = 0; k < q_.route.operations[i].steps.size(); ++k, ++index, ++row)
        step_row(row, q_.route.operations[i].steps[k], q_.times.operations[i].steps[k],
                 cells_[index]);
  }
  void step_row(int row, const Step& step, const StepTime& t, StepCells& c) {
    const int s = steps_sheet;
    const auto fixed = book_.input(s, row, 9, t.fixed(), unit::min, f_.number3);
    TimeOf<Expression> machine = fixed;
    if (!step.passes.empty()) {
      c.cutting = book_.formula(s, row, 8, c.cutting, unit::min, f_.number3);
      machine = c.cutting + fixed;
    }
    if (t.edge_share > 0) {
      const auto C = book_.input(s, row, 10, step.taylor_constant, shown_.speed(), f_.number);
      const auto n = book_.input(s, row, 11, Number(step.taylor_exponent), unit::ratio, f_.number3);
      const auto life =
          book_.formula(s, row, 12, figure::ToolLife::work_out<Expression>({c.v, n, C}).life,
                        unit::min, f_.number);
      c.share = book_.formula(s, row, 13,
                              figure::EdgeShare::work_out<Expression>({c.cutting, life}).share,
                              unit::ratio, f_.number3);
      const auto change = book_.input(s, row, 14, t.edge_change_whole, unit::min, f_.number);
      const auto share = book_.formula(s, row, 15, c.share * change, unit::min, f_.number3);
      machine = machine + share;
      c.edge_price = book_.input(s, row, 17, t.edge_price, unit::money, f_.input2);
      c.has_edge = true;
    }
    c.machine = book_.formula(s, row, 16, machine, unit::min, f_.number3);
    power(row, step, c);
  }
  // Power follows speed and feed; red when it is more than there is.
  void power(int row, const Step& step, const StepCells& c) {
    const Tool* tool = shop_.tool(step.tool);
    const auto limit = std::find_if(step.limits.begin(), step.limits.end(),
                                    [](const LimitCheck& l) { return l.name == "power"; });
    if (tool == nullptr || limit == step.limits.end()) return;
    // The power of a drill follows another formula; it is checked in the plan.
    if (tool->kind == ToolKind::drill || tool->kind == ToolKind::knurl) return;
    const bool plunges = step.kind == StepKind::groove || step.kind == StepKind::part_off;
    const auto width = book_.input(steps_sheet, row, 20, plunges ? tool->width : step.used.depth,
                                   shown_.length(), f_.number3);
    const auto angle = book_.input(steps_sheet, row, 21, tool->lead_angle, unit::deg, f_.number);
    const auto kc =
        figure::SpecificForce::work_out<Expression>({kc11_, mc_, c.f, angle}).specific_force;
    const auto used = figure::CuttingPower::work_out<Expression>(
                          {width, c.f, c.v, kc, Pure<Expression>(Expression(1.0))})
                          .power;
    book_.formula(steps_sheet, row, 18, used, unit::kW, f_.number);
    book_.value(steps_sheet, row, 19, in(Power(limit->allowed), unit::kW), f_.number);
    lxw_conditional_format over{};
    std::string allowed = "=" + cell_name(row, 19) + "*1.001";
    over.type = LXW_CONDITIONAL_TYPE_CELL;
    over.criteria = LXW_CONDITIONAL_CRITERIA_GREATER_THAN;
    over.value_string = allowed.data();
    over.format = f_.warning;
    worksheet_conditional_format_cell(book_.sheet(steps_sheet), static_cast<lxw_row_t>(row), 18,
                                      &over);
  }

  // ---- operations under the steps: An operation, B operation … I cutting, J run, K external
  // fixed, L chips, M allowance, N internal, O machine, P operator, Q setup fixed, R proving
  // pieces, S setup
  void clampings() {
    const int s = steps_sheet;
    int row = steps_end_ + 2;
    heads(s, row - 1,
          {"operation", "clamping", "", "", "", "", "", "", "cutting, min", "running, min",
           "external, min", "chips, share of cutting", "handling in steps, min",
           "beside the cutting, min", "machine each, min", "operator each, min",
           "make-ready fixed, min", "pieces to prove it", "make-ready, min"});
    operator_share_ = book_.input(prices_sheet, 5, 1, Number(q_.times.operator_share), unit::ratio,
                                  f_.input, "operator_share");
    allowance_ = book_.input(prices_sheet, 6, 1, Number(q_.times.allowance), unit::ratio, f_.input,
                             "allowance_share");
    int step_row_at = 4;
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i, ++row) {
      const Operation& operation = q_.route.operations[i];
      const OperationTime& t = q_.times.operations[i];
      book_.value(s, row, 0, operation.number, f_.whole);
      book_.text(s, row, 1, operation.clamping);
      const int last = step_row_at + static_cast<int>(operation.steps.size()) - 1;
      Time cutting(0.0);
      for (const StepTime& step : t.steps) cutting += step.cutting;
      const auto cut =
          book_.formula(s, row, 8, book_.sum(s, 8, step_row_at, last, cutting, unit::min, s),
                        unit::min, f_.number3);
      const auto run =
          book_.formula(s, row, 9, book_.sum(s, 16, step_row_at, last, t.run, unit::min, s),
                        unit::min, f_.number3);
      const auto fixed = book_.input(s, row, 10, t.external_fixed, unit::min, f_.input);
      const auto chips = book_.input(s, row, 11, Number(t.chip_share), unit::ratio, f_.input);
      TimeOf<Expression> handling(Expression(0.0));
      if (q_.route.machine.manual())
        handling = book_.formula(s, row, 12, run - cut, unit::min, f_.number3);
      const auto internal = book_.input(s, row, 13, t.internal, unit::min, f_.input);
      const auto external = fixed + chips * cut + allowance_ * (fixed + handling);
      const auto both = model::clocked_time<Expression>(run, external, internal, operator_share_);
      const auto machine = book_.formula(s, row, 14, both.machine, unit::min, f_.number3);
      const auto person = book_.formula(s, row, 15, both.person, unit::min, f_.number3);
      const auto ready = book_.input(s, row, 16, t.setup_fixed, unit::min, f_.input);
      const auto proving =
          book_.input(s, row, 17, Number(t.first_off_cycles), unit::ratio, f_.input);
      const auto setup = book_.formula(s, row, 18, ready + proving * machine, unit::min, f_.number);
      clampings_.push_back({machine, person});
      machine_each_ = i == 0 ? machine : machine_each_ + machine;
      person_each_ = i == 0 ? person : person_each_ + person;
      setup_ = i == 0 ? setup : setup_ + setup;
      step_row_at = last + 1;
    }
  }

  // ---- Prices
  void prices() {
    const int s = prices_sheet;
    book_.text(s, 0, 0, "Prices by quantity", f_.title);
    book_.text(
        s, 1, 0,
        "Coloured cells are inputs. Bands are worked out by planning again and do not follow.",
        f_.note);
    const auto& lot = q_.lot;
    auto label = [&](int row, const std::string& text) { book_.text(s, row, 0, text, f_.label); };
    label(3, money_head(q_.split_rate ? "machine, an hour" : "all-in, an hour"));
    label(4, money_head("person, an hour"));
    label(5, "operator share while running");
    label(6, "allowance on attended work");
    label(7, "overhead on time");
    label(8, "scrap share");
    label(9, "setting pieces");
    label(10, "margin share of price");
    if (shop_.policy.markup) label(10, "markup on cost");
    label(11, money_head("price step"));
    const std::vector<PriceStep>& steps = shop_.policy.price_steps;
    label(12, money_head("minimum order"));
    label(13, money_head("material a blank"));
    label(14, "overhead on outside work");
    label(15, "releases that the quantity is called off in");
    label(20, "other own time a piece, min");
    label(21, "other own time a lot, min");
    if (lot.turned_round_up_to.si > 0) {
      label(22, "turned round at once up to, pieces");
      label(23, "handling changed by it a piece, min");
      label(24, "make-ready saved by it, min");
    }
    label(16, "whole edges up to, pieces");
    label(25, "scrap planned from, pieces");
    label(26, "pieces that a price is for");
    label(27, money_head("one-offs in this order"));
    label(28, money_head("one-offs spread, a piece"));
    label(33, "own time of one-offs in this order, min");
    label(34, "own time of one-offs spread, a piece, min");
    if (lot.pieces_per_bar.si > 0) {
      label(29, "pieces from a bar");
      label(30, money_head("a whole bar"));
    }
    if (lot.rough_machine.si > 0) {
      label(31, "of it machine, before the work after roughing, min");
      label(32, "of it operator, before the work after roughing, min");
    }
    label(17, "machine each, min");
    label(18, "operator each, min");
    label(19, "make-ready, min");
    model::LotInputs<Expression> in;
    in.machine_rate =
        book_.input(s, 3, 1, lot.machine_rate, unit::money_per_h, f_.input2, "machine_rate");
    in.person_rate =
        book_.input(s, 4, 1, lot.person_rate, unit::money_per_h, f_.input2, "person_rate");
    in.overhead = book_.input(s, 7, 1, lot.overhead, unit::ratio, f_.input, "overhead_share");
    in.scrap_share = book_.input(s, 8, 1, lot.scrap_share, unit::ratio, f_.input, "scrap_share");
    in.scrap_from = book_.input(s, 25, 1, lot.scrap_from, unit::ratio, f_.input, "scrap_from");
    in.setting_pieces =
        book_.input(s, 9, 1, lot.setting_pieces, unit::ratio, f_.input, "setting_pieces");
    const auto margin =
        book_.input(s, 10, 1, Number(shop_.policy.margin), unit::ratio, f_.input, "margin_share");
    // A price of each size has its step; a single step is a cell like any other.
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const int column = 1 + 2 * static_cast<int>(i);
      PriceStepCells cells;
      cells.step = book_.input(s, 11, column, steps[i].step.amount(), unit::money, f_.input2,
                               i == 0 ? "price_step" : "");
      if (i + 1 < steps.size())
        cells.below =
            book_.input(s, 11, column + 1, steps[i].below.amount(), unit::money, f_.input2);
      steps_.push_back(cells);
    }
    if (steps.size() > 1)
      book_.text(s, 11, 2 * static_cast<int>(steps.size()), "a step, the price that it holds below",
                 f_.note);
    const auto minimum = book_.input(s, 12, 1, shop_.policy.minimum_order.amount(), unit::money,
                                     f_.input2, "minimum_order");
    in.material_each =
        book_.input(s, 13, 1, lot.material_each, unit::money, f_.input2, "material_each");
    in.outside_overhead =
        book_.input(s, 14, 1, lot.outside_overhead, unit::ratio, f_.input, "outside_overhead");
    in.releases = lot.releases;
    if (lot.releases.si > 1)
      in.releases = book_.input(s, 15, 1, lot.releases, unit::ratio, f_.input, "releases");
    else
      book_.value(s, 15, 1, 1, f_.whole);
    price_unit_ = book_.input(s, 26, 1, Number(q_.prices.front().price_unit), unit::ratio, f_.input,
                              "price_unit");
    in.one_off_lot =
        book_.input(s, 27, 1, lot.one_off_lot, unit::money, f_.input2, "one_offs_order");
    in.one_off_each =
        book_.input(s, 28, 1, lot.one_off_each, unit::money, f_.input2, "one_offs_piece");
    in.one_off_time_lot =
        book_.input(s, 33, 1, lot.one_off_time_lot, unit::min, f_.input, "one_off_time_order");
    in.one_off_time_each =
        book_.input(s, 34, 1, lot.one_off_time_each, unit::min, f_.input, "one_off_time_piece");
    if (lot.pieces_per_bar.si > 0) {
      in.pieces_per_bar =
          book_.input(s, 29, 1, lot.pieces_per_bar, unit::ratio, f_.input, "pieces_per_bar");
      in.bar_each = book_.input(s, 30, 1, lot.bar_each, unit::money, f_.input2, "bar_each");
    }
    outside_stages(in);
    in.other_time_each =
        book_.input(s, 20, 1, lot.other_time_each, unit::min, f_.input, "other_time_each");
    in.other_time_lot =
        book_.input(s, 21, 1, lot.other_time_lot, unit::min, f_.input, "other_time_lot");
    in.whole_edges_up_to =
        book_.input(s, 16, 1, lot.whole_edges_up_to, unit::ratio, f_.input, "whole_edges");
    if (lot.turned_round_up_to.si > 0) {
      in.turned_round_up_to =
          book_.input(s, 22, 1, lot.turned_round_up_to, unit::ratio, f_.input, "turned_round");
      in.round_each = book_.input(s, 23, 1, lot.round_each, unit::min, f_.input, "round_each");
      in.round_ready = book_.input(s, 24, 1, lot.round_ready, unit::min, f_.input, "round_ready");
    }
    in.machine_each = book_.formula(s, 17, 1, machine_each_, unit::min, f_.number3);
    in.person_each = book_.formula(s, 18, 1, person_each_, unit::min, f_.number3);
    if (lot.rough_machine.si > 0) {
      const auto half = static_cast<std::ptrdiff_t>(clampings_.size() / 2);
      for (auto h = clampings_.begin(); h != clampings_.begin() + half; ++h) {
        in.rough_machine = h == clampings_.begin() ? h->machine : in.rough_machine + h->machine;
        in.rough_person = h == clampings_.begin() ? h->person : in.rough_person + h->person;
      }
      in.rough_machine = book_.formula(s, 31, 1, in.rough_machine, unit::min, f_.number3);
      in.rough_person = book_.formula(s, 32, 1, in.rough_person, unit::min, f_.number3);
    }
    in.setup_machine = in.setup_person = book_.formula(s, 19, 1, setup_, unit::min, f_.number);
    for (const StepCells& c : cells_)
      if (c.has_edge) in.edges.push_back({c.share, c.edge_price});
    heads(s, price_head_,
          {"good",
           lot_of(q_, 1).service_pieces.si > 0 ? std::string("pieces run (") + again + ")"
                                               : "pieces run",
           "blanks", money_head("setup"), money_head(q_.split_rate ? "machine" : "running"),
           money_head("labour"), money_head("edges"), money_head("material"),
           money_head("other work"), money_head("outside work"), money_head("one-offs"),
           money_head("cost"), money_head("each, alone"), money_head("each"), money_head("total"),
           money_head("minimum surcharge"), money_head("margin"), "margin, share"});
    book_.text(s, band_row_of(0) - 2, 0, std::string("Bands: ") + again, f_.label);
    heads(s, band_row_of(0) - 1,
          {"good", "low each", "high each", "cost each P10", "P50", "P90", "loses money",
           "learned, share of the planned time"});
    each_.resize(q_.prices.size());
    total_.resize(q_.prices.size());
    cost_.resize(q_.prices.size());
    quantity_.resize(q_.prices.size());
    // From the largest quantity up the list: a price list never rises.
    for (std::size_t i = q_.prices.size(); i-- > 0;) price_row(i, in, margin, minimum);
    price_chart();
  }
  // Work done elsewhere, a row each, from the top right down.
  void outside_stages(model::LotInputs<Expression>& in) {
    const int s = prices_sheet, column = 6;
    if (q_.lot.outside.empty()) return;
    const std::vector<std::string> words{"outside work",           "",
                                         money_head("a piece"),    money_head("at least"),
                                         money_head("by the lot"), "scrap"};
    for (std::size_t i = 0; i < words.size(); ++i)
      if (!words[i].empty()) book_.text(s, 13, column + static_cast<int>(i), words[i], f_.head);
    int row = 14;
    std::vector<const OtherWork*> bought;
    for (const OtherWork& w : q_.route.job.part.other_work)
      if (w.price) bought.push_back(&w);
    for (std::size_t i = 0; i < q_.lot.outside.size(); ++i, ++row) {
      const auto& stage = q_.lot.outside[i];
      book_.text(s, row, column, bought[i]->what);
      model::OutsideStage<Expression> cells;
      cells.each = book_.input(s, row, column + 2, stage.each, unit::money, f_.input2);
      cells.minimum = book_.input(s, row, column + 3, stage.minimum, unit::money, f_.input2);
      cells.fixed = book_.input(s, row, column + 4, stage.fixed, unit::money, f_.input2);
      cells.scrap = book_.input(s, row, column + 5, stage.scrap, unit::ratio, f_.input);
      cells.after_roughing = stage.after_roughing;
      in.outside.push_back(cells);
    }
  }
  AmountOf<Expression> step_of(AmountOf<Expression> price) const {
    AmountOf<Expression> step = steps_.back().step;
    for (std::size_t i = steps_.size() - 1; i-- > 0;)
      step = select(price < steps_[i].below, steps_[i].step, step);
    return step;
  }
  int price_row_of(std::size_t i) const { return price_head_ + 1 + static_cast<int>(i); }
  int band_row_of(std::size_t i) const {
    return price_row_of(q_.prices.size()) + 3 + static_cast<int>(i);
  }
  void price_row(std::size_t i, model::LotInputs<Expression> in, Pure<Expression> margin,
                 AmountOf<Expression> minimum) {
    const int s = prices_sheet, row = price_row_of(i);
    in.quantity = book_.input(s, row, 0, Number(static_cast<double>(q_.prices[i].quantity)),
                              unit::ratio, f_.input);
    quantity_[i] = in.quantity;
    const auto lot = lot_of(q_, q_.prices[i].quantity);
    if (lot.service_pieces.si > 0)
      in.service_pieces = book_.input(s, row, 1, lot.service_pieces, unit::ratio, f_.input);
    if (lot.learned.si != 1)
      in.learned = book_.input(s, band_row_of(i), 7, lot.learned, unit::ratio, f_.input);
    auto lines = model::lot_lines(in);
    if (lot.service_pieces.si <= 0) book_.formula(s, row, 1, lines.pieces, unit::ratio, f_.whole);
    book_.formula(s, row, 2, lines.made, unit::ratio, f_.whole);
    auto money = [&](int column, AmountOf<Expression> amount, lxw_format* format) {
      return book_.formula(s, row, column, AmountOf<Expression>(money_of(amount.si)), unit::money,
                           format);
    };
    AmountOf<Expression> cost = money(3, lines.setup, f_.money);
    cost = cost + money(4, lines.machine, f_.money);
    cost = cost + money(5, lines.labour, f_.money);
    cost = cost + money(6, lines.edges, f_.money);
    cost = cost + money(7, lines.material, f_.money);
    cost = cost + money(8, lines.other, f_.money);
    cost = cost + money(9, lines.outside, f_.money);
    cost = cost + money(10, lines.one_offs, f_.money);
    cost_[i] = cost = money(11, cost, f_.bold_money);
    const auto raw =
        model::price_each<Expression>(cost, in.quantity, margin, shop_.policy.markup) * price_unit_;
    const auto own =
        book_.formula(s, row, 12, AmountOf<Expression>(money_to_step(raw.si, step_of(raw).si)),
                      unit::money, f_.money);
    const auto listed = i + 1 < q_.prices.size()
                            ? AmountOf<Expression>(max_of(own.si, each_[i + 1].si))
                            : own * 1.0;
    each_[i] = book_.formula(s, row, 13, listed, unit::money, f_.bold_money);
    total_[i] = money(14, each_[i] * in.quantity / price_unit_, f_.bold_money);
    const auto surcharge =
        money(15, max(AmountOf<Expression>(Expression(0.0)), minimum - total_[i]), f_.money);
    const auto gain = money(16, total_[i] + surcharge - cost, f_.money);
    book_.formula(s, row, 17, gain / (total_[i] + surcharge), unit::ratio, f_.percent);
    const Price& p = q_.prices[i];
    const int band = band_row_of(i);
    book_.formula(s, band, 0, in.quantity * 1.0, unit::ratio, f_.whole);
    book_.value(s, band, 1, p.low_each.amount().si, f_.money);
    book_.value(s, band, 2, p.high_each.amount().si, f_.money);
    if (p.causes.empty()) return;
    book_.value(s, band, 3, p.p10_each.amount().si, f_.money);
    book_.value(s, band, 4, p.p50_each.amount().si, f_.money);
    book_.value(s, band, 5, p.p90_each.amount().si, f_.money);
    book_.value(s, band, 6, p.loss_chance, f_.percent);
  }
  void price_chart() {
    lxw_chart* chart = workbook_add_chart(book_.raw(), LXW_CHART_COLUMN);
    const auto first = static_cast<lxw_row_t>(price_row_of(0)),
               last = static_cast<lxw_row_t>(price_row_of(q_.prices.size() - 1));
    lxw_chart_series* series = chart_add_series(chart, nullptr, nullptr);
    chart_series_set_categories(series, "Prices", first, 0, last, 0);
    chart_series_set_values(series, "Prices", first, 13, last, 13);
    chart_series_set_name(series, "price each");
    chart_title_set_name(chart, "Price each by quantity");
    chart_axis_set_name(chart->x_axis, "good pieces");
    chart_axis_set_name(chart->y_axis, q_.currency.c_str());
    chart_legend_set_position(chart, LXW_CHART_LEGEND_NONE);
    worksheet_insert_chart(book_.sheet(prices_sheet),
                           static_cast<lxw_row_t>(band_row_of(q_.prices.size()) + 1), 0, chart);
  }

  // ---- Ways
  void methods() {
    const int s = methods_sheet;
    book_.text(s, 0, 0, "Ways of making it", f_.title);
    book_.text(s, 1, 0,
               std::string("Planned and costed by the same flow; these cells do not follow: ") +
                   again + ".",
               f_.note);
    std::vector<std::string> head{"method", "machine each, min", "operator each, min",
                                  "make-ready, min"};
    for (const Price& p : q_.prices)
      head.push_back(money_head("each at " + std::to_string(p.quantity)));
    heads(s, 3, head);
    int row = 4;
    std::vector<int> feasible;
    for (const MethodResult& w : methods_.methods) {
      book_.text(s, row, 0, w.name, f_.label);
      if (w.feasible()) {
        feasible.push_back(row);
        book_.value(s, row, 1, in(w.quote.times.machine_each, unit::min), f_.number);
        book_.value(s, row, 2, in(w.quote.times.person_each, unit::min), f_.number);
        book_.value(s, row, 3, in(w.quote.times.setup, unit::min), f_.number);
        for (std::size_t i = 0; i < w.quote.prices.size(); ++i)
          book_.value(s, row, 4 + static_cast<int>(i), w.quote.prices[i].each.amount().si,
                      f_.money);
      } else {
        book_.text(s, row, 1, "not possible: " + w.route.why_not);
        book_.text(s, ++row, 1, "would help: " + w.route.would_help);
      }
      for (const std::string& note : w.route.two_cut_notes)
        if (w.feasible()) book_.text(s, ++row, 1, note, f_.note);
      ++row;
    }
    ++row;
    book_.text(s, row++, 0, "Who leads, by scanning lot costs at whole quantities", f_.label);
    for (const LeadingRange& l : methods_.lead) book_.text(s, row++, 0, lead_text(methods_, l));
    if (!methods_.differences.empty()) {
      ++row;
      book_.text(s, row++, 0,
                 "Two finish cuts less rough then finish, cost of the lot, " + q_.currency,
                 f_.label);
      heads(
          s, row++,
          {"good", "total", "setup", "tool change", "cutting", "other time", "edges", "material"});
      for (const Difference& d : methods_.differences) {
        book_.value(s, row, 0, d.quantity, f_.whole);
        const Amount amounts[] = {d.total,      d.setup, d.tool_change, d.cutting,
                                  d.other_time, d.edges, d.material};
        for (int i = 0; i < 7; ++i) book_.value(s, row, 1 + i, amounts[i].si, f_.money);
        ++row;
      }
    }
    method_chart(feasible, row + 1);
  }
  void method_chart(const std::vector<int>& rows, int at) {
    if (rows.empty()) return;
    lxw_chart* chart = workbook_add_chart(book_.raw(), LXW_CHART_COLUMN);
    const auto last = static_cast<lxw_col_t>(3 + q_.prices.size());
    for (const int row : rows) {
      lxw_chart_series* series = chart_add_series(chart, nullptr, nullptr);
      chart_series_set_categories(series, "Ways", 3, 4, 3, last);
      chart_series_set_values(series, "Ways", static_cast<lxw_row_t>(row), 4,
                              static_cast<lxw_row_t>(row), last);
      chart_series_set_name_range(series, "Ways", static_cast<lxw_row_t>(row), 0);
    }
    chart_title_set_name(chart, "Price each by way");
    chart_axis_set_name(chart->y_axis, q_.currency.c_str());
    worksheet_insert_chart(book_.sheet(methods_sheet), static_cast<lxw_row_t>(at), 0, chart);
  }

  // ---- Working
  void working() {
    const int s = working_sheet;
    book_.text(s, 0, 0, "Working and sources", f_.title);
    int row = 2;
    heads(s, row++, {"figure", "formula", "where in this workbook", "source"});
    for (const FigureUse& use : figures_used()) {
      book_.text(s, row, 0, use.name);
      book_.text(s, row, 1, use.formula, f_.wrap);
      book_.text(s, row, 2, use.where, f_.wrap);
      book_.text(s, row++, 3, use.source, f_.wrap);
    }
    ++row;
    heads(s, row++, {"rate", "value", "basis", "source"});
    for (const RateUse& use : rates_used(q_, shop_)) {
      book_.text(s, row, 0, use.name, f_.wrap);
      book_.text(s, row, 1, use.value, f_.wrap);
      book_.text(s, row, 2, use.basis);
      book_.text(s, row++, 3, use.source, f_.wrap);
    }
    ++row;
    heads(s, row++, {"input", "SHA-256"});
    for (const InputDigest& d : inputs_) {
      book_.text(s, row, 0, d.path);
      book_.text(s, row++, 1, d.sha256);
    }
    book_.text(s, row, 0, "version");
    book_.text(s, row, 1, version);
  }

  // ---- Quote
  void quote() {
    const int s = quote_sheet;
    const Job& job = q_.route.job;
    book_.text(s, 0, 0,
               job.part.number + (job.part.name.empty() ? "" : "  " + job.part.name) +
                   (job.part.revision.empty() ? "" : "  rev " + job.part.revision),
               f_.title);
    book_.text(s, 1, 0,
               std::string(job.part.repeat ? "repeat" : "new") +
                   " order; inside copy: rates and margin are on the other sheets",
               f_.note);
    int row = 3;
    for (const std::string& u : q_.unconfirmed)
      book_.text(s, row++, 0, "NOT CONFIRMED: " + u, f_.warning);
    heads(s, row++,
          {"good pieces", money_head("price each"), money_head("total"), money_head("cost"),
           std::string("low each (") + again + ")", std::string("high each (") + again + ")"});
    for (std::size_t i = 0; i < q_.prices.size(); ++i, ++row) {
      book_.formula(s, row, 0, quantity_[i], unit::ratio, f_.whole);
      book_.formula(s, row, 1, each_[i], unit::money, f_.bold_money);
      book_.formula(s, row, 2, total_[i], unit::money, f_.money);
      book_.formula(s, row, 3, cost_[i], unit::money, f_.money);
      book_.value(s, row, 4, q_.prices[i].low_each.amount().si, f_.money);
      book_.value(s, row, 5, q_.prices[i].high_each.amount().si, f_.money);
    }
    book_.text(
        s, row++, 0,
        "low and high: every row at the low, every row at the high end of its band; no probability",
        f_.note);
    book_.text(s, row++, 0, "an hour of " + q_.route.machine.name + ": " + q_.rate_words, f_.note);
    if (!q_.delivery.empty()) book_.text(s, row++, 0, "delivery: " + q_.delivery);
    ++row;
    heads(s, row++, {"times, min", "machine", "operator", "setup"});
    book_.text(s, row, 0, "each; make-ready of the batch");
    book_.formula(s, row, 1, machine_each_, unit::min, f_.number);
    book_.formula(s, row, 2, person_each_, unit::min, f_.number);
    book_.formula(s, row++, 3, setup_, unit::min, f_.number);
    for (std::size_t i = 0; i < q_.route.operations.size(); ++i) {
      const Operation& operation = q_.route.operations[i];
      book_.text(
          s, row++, 0,
          "setup " + std::to_string(operation.number) + ": " + clamping_text(operation, shown_));
    }
    ++row;
    heads(s, row++, {"step", "kind", "tool", "machine, min"});
    std::size_t index = 0;
    for (const Operation& operation : q_.route.operations)
      for (const Step& step : operation.steps) {
        book_.text(s, row, 0,
                   std::to_string(operation.number) + " / " + std::to_string(step.number));
        book_.text(s, row, 1, name_of(step.kind));
        book_.text(s, row, 2, step.tool);
        book_.formula(s, row++, 3, cells_[index++].machine, unit::min, f_.number);
      }
    ++row;
    const Stock& stock = job.stock;
    book_.text(s, row++, 0,
               "stock: " + job.material.name + ", " + stock_text(job, shown_) + ", " +
                   (stock.from_bar ? "from bar, " : "") + shown_.mm(stock.length) + " long, " +
                   shown_.kg(q_.material.blank) + " in, " + shown_.kg(q_.material.finished) +
                   " out; price " + q_.material.status);
    for (const OtherWork& w : job.part.other_work)
      book_.text(s, row++, 0, "other work, " + other_work_text(w, q_.currency));
    for (const OneOffLine& o : q_.one_offs)
      book_.text(
          s, row++, 0,
          "once, as a line of its own: " + o.what + ", " + o.price.text() + " " + q_.currency);
    for (const MethodResult& w : methods_.methods)
      if (!w.feasible()) book_.text(s, row++, 0, w.name + ": not possible, see Ways");
    if (methods_.break_even > 0)
      book_.text(s, row++, 0,
                 "the lead between the ways changes at " + std::to_string(methods_.break_even) +
                     " pieces, see Ways");
    else if (!methods_.lead.empty())
      book_.text(s, row++, 0,
                 std::string("best way at every quantity: ") +
                     methods_.methods[methods_.lead.front().method].name);
    if (!methods_.questions.empty()) {
      ++row;
      heads(
          s, row++,
          {"to ask the customer", " ", "if it is otherwise",
           "each at " + std::to_string(methods_.questions.front().quantity) + " (" + again + ")"});
      for (const Question& question : methods_.questions) {
        book_.text(s, row, 0, question.ask);
        book_.text(s, row, 2, question.otherwise);
        book_.value(s, row++, 3, question.each.amount().si, f_.money);
      }
    }
    if (!q_.cautions.empty()) {
      ++row;
      book_.text(s, row++, 0, "cautions", f_.label);
      for (const std::string& c : q_.cautions) {
        worksheet_merge_range(book_.sheet(s), static_cast<lxw_row_t>(row), 0,
                              static_cast<lxw_row_t>(row), 5, "", f_.wrap);
        worksheet_set_row(book_.sheet(s), static_cast<lxw_row_t>(row), c.size() > 90 ? 26 : 13,
                          nullptr);
        book_.text(s, row++, 0, c, f_.wrap);
      }
    }
  }

  void page_setup() {
    book_.widths(quote_sheet, {26, 13, 24, 13, 15, 15});
    book_.widths(steps_sheet,
                 {6, 16, 9, 23, 10, 9, 12, 12, 9, 14, 9, 8, 9, 9, 9, 9, 10, 10, 10, 9, 9, 8});
    book_.widths(passes_sheet, {6, 6, 10, 10, 10, 11, 11, 8, 8, 10, 9, 11, 10});
    book_.widths(methods_sheet, {22, 12, 12, 12, 12, 12, 12, 12});
    book_.widths(prices_sheet,
                 {28, 11, 9, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 12, 11, 11, 9});
    book_.widths(working_sheet, {26, 44, 30, 70});
    for (int i = 0; i < 6; ++i) {
      lxw_worksheet* s = book_.sheet(i);
      worksheet_set_paper(s, shown_.inch ? 1 : 9);
      worksheet_fit_to_pages(s, 1, i == quote_sheet ? 1 : 0);
      if (i != quote_sheet) worksheet_set_landscape(s);
      if (i == steps_sheet || i == passes_sheet) {
        worksheet_freeze_panes(s, 4, 0);
        worksheet_repeat_rows(s, 3, 3);
      }
      worksheet_set_footer(s, "&L&A&RPage &P of &N");
    }
    worksheet_activate(book_.sheet(quote_sheet));
  }

  const Quote& q_;
  const Comparison& methods_;
  const Shop& shop_;
  const std::vector<InputDigest>& inputs_;
  Shown shown_;
  Spreadsheet book_;
  const Formats& f_;
  std::vector<StepCells> cells_;
  int steps_end_ = 4;
  static constexpr int price_head_ = 36;
  std::vector<model::ClockedTime<Expression>> clampings_;
  std::vector<PriceStepCells> steps_;
  Pure<Expression> price_unit_;
  Pure<Expression> operator_share_, allowance_, mc_;
  PressureOf<Expression> kc11_;
  TimeOf<Expression> machine_each_, person_each_, setup_;
  std::vector<AmountOf<Expression>> each_, total_, cost_;
  std::vector<Pure<Expression>> quantity_;
};

}  // namespace

void write_workbook(const Quote& quote, const Comparison& methods, const Shop& shop,
                    const std::vector<InputDigest>& inputs, bool inch, const std::string& path) {
  WorkbookWriter(quote, methods, shop, inputs, inch, path).write();
}

}  // namespace turnwright
