// SPDX-License-Identifier: MIT
#include "view/labels.hpp"

#include "turnwright/quantity/money.hpp"

namespace turnwright {
namespace {

Message word(const char* topic, const char* name) { return Message(std::string(topic) + name); }

Message price_part(const OtherWork& work, const std::string& currency) {
  const Message per = word("text.per-", name_of(work.per));
  if (work.price)
    return {"text.work-price",
            {{"price", rounded(*work.price)}, {"currency", currency}, {"per", per}}};
  return {"text.work-time", {{"time", work.time.value_or(Time(0.0))}, {"per", per}}};
}

}  // namespace

Message word_of(StepKind kind) { return word("step.", name_of(kind)); }
Message word_of(CostKind kind) { return word("cost.", name_of(kind)); }
Message word_of(BandRowId row) { return word("band.", name_of(row)); }
Message word_of(Basis basis) { return word("basis.", name_of(basis)); }
Message word_of(LimitId limit) { return word("limit.", name_of(limit)); }
Message word_of(InputId input) { return word("input.", name_of(input)); }
Message word_of(PriceStatus status) { return word("status.", name_of(status)); }
Message word_of(TuneRule rule) { return word("rule.", name_of(rule)); }
Message word_of(const ElementTime& element) {
  return {std::string("element.") + name_of(element.id),
          {{"count", element.count}, {"n", element.count}, {"factor", Figure{element.factor}}}};
}

Message beside_label(const ElementTime& element) {
  if (element.away) return "text.away-from-machine";
  return element.internal ? Message("text.beside-cutting") : Message();
}
Message word_of(Remedy remedy) {
  return remedy == Remedy::none ? Message() : word("remedy.", name_of(remedy));
}

Message operation_label(const Operation& operation) {
  return {"text.op", {{"op", operation.number}}};
}

Messages other_work_parts(const OtherWork& work, const std::string& currency) {
  Messages parts{{std::string("text.work-after-") + name_of(work.after), {{"what", work.what}}},
                 price_part(work, currency)};
  if (!work.machine.empty()) parts.push_back({"text.work-at", {{"machine", work.machine}}});
  if (work.price && work.time) parts.push_back({"text.work-minutes", {{"time", *work.time}}});
  if (work.minimum.si > 0)
    parts.push_back({"text.work-minimum", {{"amount", rounded(work.minimum)}}});
  if (work.certificate.si > 0)
    parts.push_back({"text.work-certificate", {{"amount", rounded(work.certificate)}}});
  if (work.transport.si > 0)
    parts.push_back({"text.work-transport", {{"amount", rounded(work.transport)}}});
  if (work.scrap > 0) parts.push_back({"text.work-scrap", {{"share", Share{work.scrap}}}});
  if (work.setup.si > 0) parts.push_back({"text.work-setup", {{"time", work.setup}}});
  if (work.days > 0) parts.push_back({"text.work-days", {{"days", Figure{work.days}}}});
  return parts;
}

Message for_unit(Message message, const char* per_pieces, int price_unit) {
  if (price_unit == 1) return message;
  message.id = per_pieces;
  message.places.emplace_back("pieces", price_unit);
  return message;
}

Message price_heading(const Price& price) {
  return for_unit("text.price-each", "text.price-per", price.price_unit);
}

Message price_heading_at(int quantity, int price_unit) {
  return for_unit({"text.price-at", {{"qty", quantity}}}, "text.price-per-at", price_unit);
}

Message pass_count(std::size_t passes) { return {"text.passes", {{"n", passes}}}; }

Message limit_label(const LimitCheck& check) {
  std::vector<Place> places{{"limit", word_of(check.limit)},
                            {"actual", Measure{check.actual, check.unit, 3}},
                            {"allowed", Measure{check.allowed, check.unit, 3}}};
  if (!check.binding || check.changed == Remedy::none) return {"text.limit", std::move(places)};
  places.emplace_back("changed", word_of(check.changed));
  return {"text.limit-changed", std::move(places)};
}

Message source_label(const Shop& shop, const Source& source) {
  return {"text.source", {{"source", shop.source_text(source)}, {"basis", word_of(source.basis)}}};
}

}  // namespace turnwright
