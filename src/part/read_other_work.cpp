// SPDX-License-Identifier: MIT
// Work beside the turning: other work, what is paid for once, learning.
#include <algorithm>
#include <array>

#include "examples.hpp"
#include "given.hpp"
#include "part_sections.hpp"

namespace turnwright {
namespace {

constexpr UnitOf<Dim{2}> unit_dm2{"dm2", 1, 100};
constexpr double most_scrap = 0.5, steepest_learning = 0.5;

// Takes "6 min" or "4.50 EUR" into the work; false when it is neither. Each stands once.
template <class Work>
bool take_value(const SectionReading& in, const Node& node, const std::string& text, Work& work) {
  TextFault fault;
  const auto minutes = read_quantity(text, unit::min, fault);
  const auto money = read_quantity(text, unit::money, fault);
  const bool is_time = minutes && !minutes->bare, is_price = money && !money->bare;
  if ((is_time && work.time) || (is_price && work.price))
    in.problems.add(
        node, Message{"part.value-twice", {{"value", text.substr(text.find_first_not_of(" "))}}},
        Message{"part.wants-one-value"});
  if (is_time) work.time = Time(minutes->si);
  if (is_price) work.price = Amount(in_own_currency(*money, node, in.problems).value_or(0));
  return is_time || is_price;
}

// "keyway 10 P9 x36 on 35 h6, 6 min", "program, 90 min, 120 EUR": what is done, then what it takes.
template <class Work>
void read_what_and_value(const SectionReading& in, const Node& node, Work& work) {
  work.what = node.text;
  for (std::size_t comma = work.what.rfind(','); comma != std::string::npos;
       comma = work.what.rfind(',')) {
    if (!take_value(in, node, work.what.substr(comma + 1), work)) break;
    work.what.resize(comma);
  }
  if (!work.time && !work.price) {
    const std::string what = work.what.substr(0, work.what.rfind(','));
    in.problems.add(node, "part.no-time-or-price", such_as(what + ", 6 min", what + ", 4.50 EUR"));
  }
}

template <class Work>
void read_value_map(const SectionReading& in, MapReader& map, Work& work) {
  if (map.need("what") != nullptr) work.what = map.text_or("what", "");
  if (const Node* minutes = map.find("minutes"); minutes != nullptr && !in.is_open(*minutes))
    work.time = map.quantity("minutes", unit::min);
  work.price = map.quantity("price", unit::money);
}

void check_scrap(MapReader& map, const OtherWork& w) {
  if (w.scrap < 0 || w.scrap > most_scrap)
    map.notes().add(map.node(), Message{"part.scrap", {{"scrap", Share{w.scrap}}}},
                    Message{"part.wants-scrap", {{"most", Share{most_scrap}}}});
}

void check_charges(MapReader& map, const OtherWork& w) {
  ProblemList& problems = map.notes();
  const Node& node = map.node();
  for (const Amount charge : {w.minimum, w.certificate, w.transport})
    if (charge.si < 0 || charge > dearest)
      problems.add(node, "part.absurd-time-or-price", wants_sensible());
  check_scrap(map, w);
  const bool by_minute = w.per == ChargedBy::minute;
  if (by_minute && (!w.time || !w.price))
    problems.add(node, "part.by-minute-without", such_as("minutes: 6, price: 1.10"));
  if (!by_minute && w.time && w.price)
    problems.add(node, "part.both-minutes-and-price",
                 Message{"part.wants-minutes-or-price", {{"entry", "per: minute"}}});
  if (w.per != ChargedBy::piece && w.per != ChargedBy::lot && !w.price)
    problems.add(
        node, Message{"part.per-without-price", {{"entry", std::string("per: ") + name_of(w.per)}}},
        such_as("price: 2.10"));
  if (!w.price && (w.minimum.si > 0 || w.certificate.si > 0 || w.transport.si > 0))
    problems.add(node, "part.own-work-with-charges", such_as("price: 4.50"));
}

// What only bought work has.
void read_charges(MapReader& map, OtherWork& w) {
  static const std::vector<std::string> words{"piece", "lot", "kg", "minute", "dm2"};
  const std::string per = map.one_of("per", words).value_or("piece");
  w.per = static_cast<ChargedBy>(std::find(words.begin(), words.end(), per) - words.begin());
  w.minimum = map.quantity_or("minimum", unit::money, Amount(0.0));
  w.certificate = map.quantity_or("certificate", unit::money, Amount(0.0));
  w.transport = map.quantity_or("transport", unit::money, Amount(0.0));
  w.scrap = map.quantity_or("scrap", unit::ratio, Number(0.0)).si;
  w.area = map.quantity("area", unit_dm2);
  if (w.area && (w.per != ChargedBy::dm2 || w.area->si <= 0))
    map.notes().add(map.node(), "part.area-without-dm2", such_as("per: dm2, area: 3.4 dm2"));
  check_charges(map, w);
}

void other_work_map(const SectionReading& in, const Node& node, OtherWork& w) {
  MapReader map(node, in.problems, section("other work"));
  read_value_map(in, map, w);
  read_charges(map, w);
  w.setup = map.quantity_or("setup", unit::min, Time(0.0));
  w.machine = map.text_or("at", "");
  if (!w.machine.empty() && w.price)
    in.problems.add(*map.find("at"), "part.bought-work-at-machine",
                    such_as("at: mill, minutes: 6"));
  if (map.one_of("after", {"turning", "roughing"}) == "roughing") w.after = WorkAfter::roughing;
  w.days = map.quantity_or("days", unit::ratio, Number(0.0)).si;
  if (w.is_open() && !in.draft)
    in.problems.add(node, "part.no-minutes-or-price", such_as("minutes: 6", "price: 4.50"));
  map.finish();
}

PaidBy paid_named(const std::optional<std::string>& word) {
  if (word == "over pieces") return PaidBy::pieces;
  if (word == "in the first order") return PaidBy::first_order;
  return PaidBy::line;
}

void one_off_map(const SectionReading& in, const Node& node, OneOff& o) {
  MapReader map(node, in.problems, "part.a-one-off");
  read_value_map(in, map, o);
  if (!o.time && !o.price)
    in.problems.add(node, "part.no-minutes-or-price", such_as("minutes: 90", "price: 180"));
  o.paid = paid_named(map.one_of("paid", {"as a line", "in the first order", "over pieces"}));
  o.pieces = map.whole("pieces", 1, most_pieces).value_or(0);
  if ((o.paid == PaidBy::pieces) != (o.pieces > 0))
    in.problems.add(node, Message{"part.over-pieces", {{"words", "over pieces"}}},
                    such_as("paid: over pieces, pieces: 500"));
  map.finish();
}

}  // namespace

OtherWork read_other_work(const SectionReading& in, const Node& node) {
  OtherWork w;
  w.at = node.at;
  if (node.kind == Node::Kind::text)
    read_what_and_value(in, node, w);
  else
    other_work_map(in, node, w);
  if (node.kind == Node::Kind::text && w.time && w.price)
    in.problems.add(node, "part.both-minutes-and-price",
                    Message{"part.wants-minutes-or-price", {{"entry", "per: minute"}}});
  if (is_absurd(w.time, longest) || is_absurd(w.price, dearest) || w.setup.si < 0 ||
      w.setup > longest || w.days < 0 || w.days > longest_away)
    in.problems.add(node, "part.absurd-time-or-price", wants_sensible());
  return w;
}

// "soft jaws, 180 EUR", or a map with how it is paid
OneOff read_one_off(const SectionReading& in, const Node& node) {
  OneOff o;
  o.at = node.at;
  if (node.kind == Node::Kind::text)
    read_what_and_value(in, node, o);
  else
    one_off_map(in, node, o);
  if (is_absurd(o.time, longest) || is_absurd(o.price, dearest))
    in.problems.add(node, "part.absurd-time-or-price", wants_sensible());
  return o;
}

Learning read_learning(const SectionReading& in, const Node& node) {
  MapReader map(node, in.problems, section("learning"));
  Learning learning;
  learning.rate = map.needed("rate", unit::ratio).si;
  learning.planned_at = map.whole("planned time at piece", 1, most_pieces).value_or(1);
  if (learning.rate < steepest_learning || learning.rate > 1)
    in.problems.add(
        node, Message{"part.learning-rate", {{"rate", Figure{learning.rate}}}},
        Message{"part.wants-learning-rate",
                {{"least", Figure{steepest_learning}}, {"most", 1}, {"example", "0.9"}}});
  map.finish();
  return learning;
}

const char* name_of(ChargedBy per) {
  static constexpr std::array names{"piece", "lot", "kg", "minute", "dm2"};
  return names[static_cast<std::size_t>(per)];
}

const char* name_of(WorkAfter after) {
  return after == WorkAfter::roughing ? "roughing" : "turning";
}

}  // namespace turnwright
