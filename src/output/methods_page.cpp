// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "charts.hpp"
#include "page_parts.hpp"
#include "page_style.hpp"
#include "shown.hpp"
#include "turnwright/output/methods.hpp"
#include "turnwright/output/text.hpp"

namespace turnwright {
namespace {

constexpr const char* methods_style = "svg text.on { fill: var(--ground); font-weight: 600; }\n";

class MethodsPage {
 public:
  explicit MethodsPage(const MethodsReport& r) : r_(r), c_(r.comparison) {}

  std::string page() {
    begin_page(m_, "en", r_.title + ", ways", std::string(page_style) + methods_style);
    m_.open("main").put("h1", r_.title + ": ways of making it");
    methods();
    lead();
    why();
    winner_changes();
    tenth();
    map();
    m_.close().close().close().raw("\n");
    return m_.take();
  }

 private:
  void methods() {
    Cells heads{"method", "machine, min", "operator, min", "make-ready, min"};
    for (const MethodResult& w : c_.methods)
      if (w.feasible()) {
        for (const Price& p : w.quote.prices)
          heads.push_back("each at " + std::to_string(p.quantity));
        break;
      }
    heads.emplace_back("on");
    const std::size_t on = heads.size() - 1;
    begin_table(m_, heads, on, on + 1);
    for (const MethodResult& w : c_.methods) {
      if (!w.feasible()) continue;
      Cells cells{w.name, fixed(in(w.quote.times.machine_each, unit::min), 2),
                  fixed(in(w.quote.times.person_each, unit::min), 2),
                  fixed(in(w.quote.times.setup, unit::min), 0)};
      for (const Price& p : w.quote.prices) cells.push_back(p.each.text());
      cells.push_back(w.route.machine.name);
      table_row(m_, cells, on, on + 1);
    }
    end_table(m_);
    m_.open("ul");
    for (const MethodResult& w : c_.methods)
      if (!w.feasible())
        m_.put("li", w.name + ": not possible: " + w.route.why_not +
                         (w.route.would_help.empty() ? "" : "; would help: " + w.route.would_help));
    m_.close();
  }
  void lead() {
    m_.put("h2", "Who leads").open("ul");
    for (const LeadingRange& l : c_.lead) m_.put("li", lead_text(c_, l));
    m_.close();
  }
  void why() {
    m_.put("h2", "Why, in money of a lot of " + std::to_string(r_.quantity));
    m_.put("p", "Each way less " + c_.methods.front().name + ", in " + r_.currency + ".");
    begin_table(m_, {"method", "total", "setup", "tool change", "cutting", "other time", "edges",
                     "material"});
    for (const Difference& d : c_.reasons)
      table_row(m_, {c_.methods[d.method].name, fixed(d.total.si, 2), fixed(d.setup.si, 2),
                     fixed(d.tool_change.si, 2), fixed(d.cutting.si, 2), fixed(d.other_time.si, 2),
                     fixed(d.edges.si, 2), fixed(d.material.si, 2)});
    end_table(m_);
  }
  void winner_changes() {
    m_.put("h2", "What would flip the lead");
    if (r_.winner_changes.empty()) m_.put("p", "No input between a fifth and five times itself.");
    if (r_.winner_changes.empty()) return;
    begin_table(m_, {"input", "change", "then leads"}, 2, 3);
    for (const WinnerChange& f : r_.winner_changes)
      table_row(m_, {f.input, fixed(100 * (f.factor - 1), 1) + " %", f.leader}, 2, 3);
    end_table(m_);
  }
  void tenth() {
    m_.put("h2", "What a tenth of each input does to the price each");
    double most = 0;
    for (const Sensitivity& s : r_.sensitivities) most = std::max(most, s.widest);
    begin_table(m_, {"input", "a tenth less", "a tenth more", "at most"});
    for (const Sensitivity& s : r_.sensitivities)
      table_row(m_, {s.input, s.lower.text(), s.higher.text(), fixed(100 * s.widest, 2) + " %"});
    end_table(m_);
    if (r_.sensitivities.empty()) return;
    std::vector<Bar> bars;
    for (const Sensitivity& s : r_.sensitivities)
      bars.push_back({s.input, {{100 * s.widest, 0, s.input, false}}});
    m_.open("figure");
    draw_bars(m_, bars, "change of the price by a tenth of each input", "%");
    m_.close();
  }
  // A field a stock and quantity, by colour and letter.
  void map() {
    if (!r_.map) return;
    const MethodMap& map = *r_.map;
    m_.put("h2", "Who leads, by stock a side and quantity");
    const double left = 60,
                 cell = std::max(
                     8.0, std::min(20.0, 800.0 / static_cast<double>(map.quantities.size())));
    const double high = 14, top = 8;
    const double width = left + cell * static_cast<double>(map.quantities.size()) + 10;
    const double height = top + high * static_cast<double>(map.stock.size()) + 40;
    std::vector<int> order;  // colours in the order of first appearance
    m_.open("figure");
    begin_picture(m_, width, height, "which way leads by stock a side and quantity");
    for (std::size_t k = 0; k < map.stock.size(); ++k) {
      const double y = top + high * static_cast<double>(map.stock.size() - 1 - k);
      picture_text(m_, left - 6, y + 11, fixed(in(map.stock[k], unit::mm), 2), "end");
      for (std::size_t i = 0; i < map.quantities.size(); ++i) {
        const int method = map.method[k][i];
        if (method < 0) continue;
        auto at = std::find(order.begin(), order.end(), method);
        if (at == order.end()) at = order.insert(order.end(), method);
        const auto colour = static_cast<int>(at - order.begin());
        const double x = left + cell * static_cast<double>(i);
        m_.open("rect", {{"class", "k" + std::to_string(colour % 8)},
                         {"x", px(x)},
                         {"y", px(y)},
                         {"width", px(cell)},
                         {"height", px(high)}});
        m_.put("title", map.names[static_cast<std::size_t>(method)] + ", " +
                            std::to_string(map.quantities[i]) + " pieces, " +
                            fixed(in(map.stock[k], unit::mm), 2) + " mm a side");
        m_.close();
        if (cell >= 10)
          m_.put("text", std::string(1, static_cast<char>('A' + colour)),
                 {{"x", px(x + cell / 2)},
                  {"y", px(y + 11)},
                  {"text-anchor", "middle"},
                  {"class", "on"}});
      }
    }
    for (std::size_t i = 0; i < map.quantities.size(); i += 6)
      picture_text(m_, left + cell * (static_cast<double>(i) + 0.5), height - 22,
                   std::to_string(map.quantities[i]), "middle");
    picture_text(m_, left, height - 4, "pieces; up: stock a side, mm", "start");
    m_.close().open("figcaption");
    for (std::size_t i = 0; i < order.size(); ++i)
      colour_key(m_, "k" + std::to_string(i % 8),
                 std::string(1, static_cast<char>('A' + i)) + ": " +
                     map.names[static_cast<std::size_t>(order[i])]);
    m_.close().close();
  }

  const MethodsReport& r_;
  const Comparison& c_;
  Markup m_;
};

}  // namespace

std::string methods_page(const MethodsReport& report) { return MethodsPage(report).page(); }

}  // namespace turnwright
