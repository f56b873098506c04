// SPDX-License-Identifier: MIT
// How many pieces of a lot are run, and what own work beside the turning takes of them.
#include <cmath>

#include "formatting.hpp"
#include "text/explain_lot.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

// One stage that loses some: so many go in, so many come out good.
struct Stage {
  Message what;  // empty: the turning
  Number out = Number(0.0), in = Number(0.0);
  double scrap = 0;
};

Figure pieces_of(Number n) { return {n.si, 9}; }

// Work of other firms, in the order of the model's stages.
std::vector<const OtherWork*> bought(const Part& part) {
  std::vector<const OtherWork*> list;
  for (const OtherWork& work : part.other_work)
    if (work.price) list.push_back(&work);
  return list;
}

bool turning_plans_scrap(const ExplainedLot& lot) {
  return !(lot.good() < lot.in.scrap_from) && lot.in.scrap_share.si > 0;
}

// From the good ones back, as the model goes.
std::vector<Stage> stages_of(const ExplainedLot& lot) {
  const auto pieces = model::stage_pieces(lot.in, lot.good());
  const auto work = bought(lot.what.quote.route.job.part);
  std::vector<Stage> stages;
  Number good = lot.good();
  const auto add = [&](Message what, Number in, double scrap) {
    if (scrap > 0) stages.push_back({std::move(what), good, in, scrap});
    good = in;
  };
  for (const bool roughing : {false, true}) {
    for (std::size_t i = work.size(); i-- > 0;)
      if (lot.in.outside[i].after_roughing == roughing)
        add(verbatim(work[i]->what), pieces.outside[i], lot.in.outside[i].scrap.si);
    if (!roughing) add({}, pieces.finished, turning_plans_scrap(lot) ? lot.in.scrap_share.si : 0);
  }
  return stages;
}

Message line_of(const Stage& stage, bool only) {
  std::vector<Place> places{{"qty", pieces_of(stage.out)},
                            {"share", Figure{stage.scrap, 3}},
                            {"pieces", pieces_of(stage.in)}};
  if (only) return {"explain.pieces-with-scrap", std::move(places)};
  if (stage.what.empty()) return {"explain.scrap-of-turning", std::move(places)};
  places.emplace_back("what", stage.what);
  return {"explain.scrap-of-work", std::move(places)};
}

void pieces_by_shares(TextWriter& out, const ExplainedLot& lot) {
  const std::vector<Stage> stages = stages_of(lot);
  if (stages.size() == 1 && stages[0].what.empty() && lot.releases() == 1)
    return out.line(line_of(stages[0], true));
  out.line({"explain.pieces-run", {{"pieces", pieces_of(lot.lines.pieces)}}});
  if (lot.releases() > 1)
    out.line(
        {"explain.good-of-releases",
         {{"qty", lot.quantity}, {"releases", lot.releases()}, {"each", Figure{lot.good().si, 4}}}},
        2);
  for (const Stage& stage : stages) out.line(line_of(stage, false), 2);
  if (!turning_plans_scrap(lot) && lot.in.scrap_share.si > 0)
    out.line({"explain.scrap-from", {{"from", pieces_of(lot.in.scrap_from)}}}, 2);
}

Message pieces_for_service(const ExplainedLot& lot) {
  std::vector<Place> places{{"qty", Figure{lot.good().si, 4}},
                            {"pieces", pieces_of(lot.lines.pieces)},
                            {"share", percent_text(lot.what.quote.service_level, lot.words)}};
  if (lot.releases() == 1) return {"explain.pieces-for-service", std::move(places)};
  places.emplace_back("releases", lot.releases());
  return {"explain.pieces-for-service-of-releases", std::move(places)};
}

void blanks(TextWriter& out, const ExplainedLot& lot) {
  std::vector<Place> places{
      {"n", static_cast<std::int64_t>(std::llround(lot.in.setting_pieces.si))},
      {"make", pieces_of(lot.lines.made)}};
  if (lot.releases() == 1) return out.line({"explain.blanks", std::move(places)});
  places.emplace_back("releases", lot.releases());
  places.emplace_back("pieces", pieces_of(lot.lines.pieces));
  out.line({"explain.blanks-of-releases", std::move(places)});
}

// The minutes of one own work for each release.
Message minutes_of(const ExplainedLot& lot, const OtherWork& work) {
  const bool by_lot = work.per == ChargedBy::lot;
  const Time each = work.price ? Time(0.0) : work.time.value_or(Time(0.0));
  const Time once = work.setup + (by_lot ? each : Time(0.0));
  std::vector<Place> places{{"setup", minutes_text(once, lot.words)}};
  if (by_lot || each.si <= 0) return {"explain.work-once", std::move(places)};
  places.emplace_back("pieces", pieces_of(model::stage_pieces(lot.in, lot.good()).finished));
  places.emplace_back("minutes", minutes_text(each, lot.words));
  return {once.si > 0 ? "explain.work-and-setup" : "explain.work-each", std::move(places)};
}

Messages rates_of(const ExplainedLot& lot, const OtherWork& work) {
  if (const OtherMachine* at = lot.what.shop.other_machine(work.machine))
    return {{"explain.work-rate",
             {{"machine", at->name},
              {"rate", lot.words.fixed(in(at->rate, unit::money_per_h), 2)},
              {"currency", lot.what.quote.currency}}}};
  return rates_of(lot);
}

// Bought work has a price, and may have a setup of our own.
bool takes_own_time(const OtherWork& work) { return !work.price || work.setup.si > 0; }

}  // namespace

void explain_pieces(TextWriter& out, const ExplainedLot& lot) {
  if (lot.in.service_pieces.si > 0)
    out.line(pieces_for_service(lot));
  else
    pieces_by_shares(out, lot);
  blanks(out, lot);
}

Messages explain_other_work(const ExplainedLot& lot) {
  Messages parts;
  for (const OtherWork& work : lot.what.quote.route.job.part.other_work) {
    if (!takes_own_time(work)) continue;
    Message minutes = minutes_of(lot, work);
    if (lot.releases() > 1)
      minutes = {"explain.work-of-releases",
                 {{"releases", lot.releases()}, {"minutes", std::move(minutes)}}};
    parts.push_back({"explain.work", {{"what", work.what}, {"minutes", std::move(minutes)}}});
    for (Message& rate : rates_of(lot, work)) parts.push_back(std::move(rate));
  }
  return parts;
}

}  // namespace turnwright
