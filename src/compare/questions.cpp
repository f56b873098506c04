// SPDX-License-Identifier: MIT
#include "turnwright/compare/questions.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace turnwright {
namespace {

constexpr double worth_asking = 0.005;  // of the price, a convention of ours
constexpr double harder = 1.15;  // typical spread of a delivered hardness above the listed middle
constexpr Length finer_ra = 1.6 * unit::um;  // often meant where none is written; typical

class QuestionFinder {
 public:
  QuestionFinder(const Quote& quote, const Shop& shop)
      : quote_(quote),
        shop_(shop),
        part_(quote.route.job.part),
        quantity_(quote.prices[quote.prices.size() / 2].quantity),
        price_(price_at(quote, shop, quantity_).each) {}

  std::vector<Question> all() {
    order();
    drawing();
    supply();
    std::stable_sort(found_.begin(), found_.end(), [](const Question& a, const Question& b) {
      return std::abs(a.change) > std::abs(b.change);
    });
    return std::move(found_);
  }

 private:
  void add(const std::string& ask, const std::string& otherwise, Money each) {
    if (price_.hundredths() == 0) return;
    const double change = (each.amount() / price_.amount()).si - 1;
    if (std::abs(change) < worth_asking) return;
    found_.push_back({ask, otherwise, quantity_, each, change});
  }
  void if_planned(const std::string& ask, const std::string& otherwise,
                  const std::function<void(Part&)>& change) {
    Part part = part_;
    change(part);
    const auto job = prepare(part, shop_);
    if (!job) return;
    const Route route = plan_route(*job, shop_, {quote_.route.machine.name, quote_.route.method});
    if (route.feasible)
      add(ask, otherwise, price_at(make_quote(route, shop_), shop_, quantity_).each);
  }
  void order() {
    if (!part_.repeat)
      if_planned("Was it made here before, unchanged?", "a repeat order",
                 [](Part& p) { p.repeat = true; });
    if (quantity_ > 1)
      add("Is it called off at once?", "in two lots",
          price_at(quote_, shop_, (quantity_ + 1) / 2).each);
  }
  void drawing() {
    if (!part_.drawing.ra)
      if_planned("Which finish holds where none is written?", "Ra 1.6", [&](Part& p) {
        p.drawing.ra = finer_ra;
        of_all(p, [](Element& e) {
          if (!e.ra && !e.as_drawn) e.ra = finer_ra;
        });
      });
    const GeneralTolerances& general = part_.drawing.general;
    if (general.iso_class.empty() && !general.plus_minus)
      if_planned("Which general tolerance holds?", "ISO 2768-f",
                 [](Part& p) { p.drawing.general.iso_class = "f"; });
    if_planned("Is every toleranced size gauged on every piece?", "yes, every piece", [&](Part& p) {
      of_all(p, [](Element& e) {
        if (e.size.toleranced || !e.size.letters.empty()) e.gauge_share = 1;
      });
    });
    if (part_.centres.keep == CentreUse::unsaid)
      if_planned("May centre holes stay in the ends?", "no",
                 [](Part& p) { p.centres.keep = CentreUse::no; });
  }
  void supply() {
    if (!part_.stock.customers)
      if_planned("Is the material supplied?", "yes, by the customer",
                 [](Part& p) { p.stock.customers = true; });
    const HardnessRange& listed = quote_.route.job.material.hardness;
    const double hb = std::round(listed.mean() * harder);
    if (!part_.like && hb > 0)
      if_planned("Is it delivered no harder than listed?",
                 std::to_string(static_cast<int>(hb)) + " HB", [&](Part& p) {
                   MaterialLike like;
                   like.like = p.material;
                   like.hardness = hb;
                   p.like = like;
                 });
  }
  static void of_all(Part& part, const std::function<void(Element&)>& change) {
    for (auto* list : {&part.outside, &part.bore_right, &part.bore_left})
      for (Element& e : *list) change(e);
  }

  const Quote& quote_;
  const Shop& shop_;
  const Part& part_;
  int quantity_;
  Money price_;
  std::vector<Question> found_;
};

}  // namespace

std::vector<Question> open_questions(const Quote& quote, const Shop& shop) {
  if (quote.prices.empty()) return {};
  return QuestionFinder(quote, shop).all();
}

}  // namespace turnwright
