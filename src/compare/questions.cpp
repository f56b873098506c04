// SPDX-License-Identifier: MIT
#include "turnwright/compare/questions.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "practised.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/route/other_condition.hpp"

namespace turnwright {
namespace {

constexpr double worth_asking = 0.005;  // of the price, a convention of ours
constexpr double harder = 1.15;  // typical spread of a delivered hardness above the listed middle
constexpr Length finer_ra = 1.6 * unit::um;  // often meant where none is written; typical
constexpr const char* finer_class = "f";     // of ISO 2768, the next finer than usual

void of_all(Part& part, const std::function<void(Element&)>& change) {
  for (auto* list : {&part.outside, &part.bore_right, &part.bore_left})
    for (Element& e : *list) change(e);
}

class QuestionFinder {
 public:
  QuestionFinder(const MethodResult& method, const Shop& shop, const FixedMethod& fixed,
                 int quantity)
      : method_(method),
        quote_(*method.quote),
        held_back_(held_back(quote_, shop)),
        shop_(shop),
        fixed_(fixed),
        part_(quote_.route.job.part),
        quantity_(quantity),
        price_(price_at(quote_, shop, quantity_).worked_out) {}

  std::vector<Question> all() {
    order();
    finish();
    tolerances();
    centres();
    supply();
    hardness();
    std::stable_sort(found_.begin(), found_.end(), [](const Question& a, const Question& b) {
      return std::abs(a.change) > std::abs(b.change);
    });
    return std::move(found_);
  }

 private:
  void add(Message ask, Message otherwise, Money each) {
    if (price_.hundredths() == 0) return;
    const double change = (each.amount() / price_.amount()).si - 1;
    if (std::abs(change) < worth_asking) return;
    found_.push_back({std::move(ask), std::move(otherwise), quantity_, each, change});
  }
  void if_planned(Message ask, Message otherwise, const std::function<void(Part&)>& change) {
    Part part = part_;
    change(part);
    if (const auto each = each_of(part)) add(std::move(ask), std::move(otherwise), *each);
  }
  // By the quoted method; where that no longer does as well, as the shop would then quote it.
  std::optional<Money> each_of(const Part& part) const {
    const MethodResult same = plan_method(part, shop_, method_.records, quote_.route.machine.name);
    if (same.feasible() && held_back(*same.quote, shop_) <= held_back_)
      return price_at(*same.quote, shop_, quantity_).worked_out;
    return quoted_each(part);
  }
  std::optional<Money> quoted_each(const Part& part) const {
    const Checked<Job> job = prepare(part, shop_);
    if (!job) return std::nullopt;
    const auto methods = practised_methods(*job, shop_, fixed_, quantity_);
    const MethodResult* best = cheapest_practised(methods, quantity_);
    if (best == nullptr) return std::nullopt;
    return price_at(*best->quote, shop_, quantity_).worked_out;
  }
  void order() {
    if (!part_.repeat)
      if_planned("question.made-before", "question.repeat-order", [](Part& p) { p.repeat = true; });
    // Who names releases has said it.
    if (quantity_ > 1 && part_.releases == 1)
      add("question.one-lot", "question.two-lots", in_two_lots());
  }
  // The program is written for the first lot and there for the second.
  Money in_two_lots() const { return each_in_lots(quote_, shop_, 2 * ((quantity_ + 1) / 2), 2); }
  void finish() {
    if (part_.drawing.ra) return;
    if_planned("question.finish", {"question.ra", {{"ra", measure(finer_ra, unit::um, 3)}}},
               [&](Part& p) {
                 p.drawing.ra = finer_ra;
                 of_all(p, [](Element& e) {
                   if (!e.ra && !e.as_drawn) e.ra = finer_ra;
                 });
               });
  }
  void tolerances() {
    const GeneralTolerances& general = part_.drawing.general;
    if (general.iso_class.empty() && !general.plus_minus)
      if_planned("question.general-tolerance",
                 {"question.iso-2768", {{"class", std::string(finer_class)}}},
                 [](Part& p) { p.drawing.general.iso_class = finer_class; });
    if_planned("question.gauged", "question.every-piece", [&](Part& p) {
      of_all(p, [](Element& e) {
        if (e.size.toleranced || !e.size.letters.empty()) e.gauge_share = 1;
      });
    });
  }
  void centres() {
    if (part_.centres.keep == CentreUse::unsaid)
      if_planned("question.centre-holes", "question.no",
                 [](Part& p) { p.centres.keep = CentreUse::no; });
  }
  void supply() {
    if (part_.stock.customers) return;
    // Without its price another method may lead: as the shop would then quote it.
    Part part = part_;
    part.stock.customers = true;
    if (const auto each = quoted_each(part))
      add("question.material-supplied", "question.by-the-customer", *each);
  }
  void hardness() {
    const double hb = std::round(quote_.route.job.material.hardness.mean() * harder);
    if (part_.like || hb <= 0) return;
    if (const Material* other = other_condition(part_, shop_)) {
      if_planned({"question.condition", {{"read", quote_.route.job.material.name}}},
                 {"question.condition-other", {{"other", other->name}}},
                 [&](Part& p) { p.material = other->name; });
      return;
    }
    if_planned("question.hardness", {"question.hb", {{"hb", static_cast<int>(hb)}}}, [&](Part& p) {
      MaterialLike like;
      like.like = p.material;
      like.hardness = hb;
      p.like = like;
    });
  }

  const MethodResult& method_;
  const Quote& quote_;
  HeldBack held_back_;
  const Shop& shop_;
  const FixedMethod& fixed_;
  const Part& part_;
  int quantity_;
  Money price_;
  std::vector<Question> found_;
};

}  // namespace

std::vector<Question> open_questions(const MethodResult& method, const Shop& shop,
                                     const FixedMethod& fixed, int quantity) {
  return QuestionFinder(method, shop, fixed, quantity).all();
}

}  // namespace turnwright
