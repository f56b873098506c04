// SPDX-License-Identifier: MIT
#pragma once
// What the program has to say, before it is said: an id of the words catalogue and the values that
// its sentence has places for. Made where the fact is known, turned into words in output only:
//   Message{"centre.face-too-small", {{"end", diameter}}}
//   Message{"caution.deep-hole", {{"ratio", Figure{4.2}}, {"tool", tool.name}}}
#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "turnwright/quantity/date.hpp"
#include "turnwright/quantity/money.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {

struct Message;

/// A plain number with the digits worth showing.
struct Figure {
  double value = 0;
  int digits = 4;  // significant
  bool operator==(const Figure&) const = default;
};
/// A share of one, shown in percent.
struct Share {
  double value = 0;
  bool operator==(const Share&) const = default;
};
/// A dimensioned number; the reader's system decides between `unit` and its inch counterpart.
struct Measure {
  double si = 0;
  Unit unit;
  int digits = 4;  // significant
  bool operator==(const Measure& other) const {
    return si == other.si && unit.name == other.unit.name;
  }
};
template <Dim D>
Measure measure(Quantity<D> value, const UnitOf<D>& unit, int digits = 4) {
  return {value.si, unit, digits};
}

/// What stands in a place of a sentence. Text is a name or a text from data, shown as it is;
/// messages are words of the catalogue themselves, a list of them is joined in the language's way.
using MessageValue = std::variant<std::string, std::int64_t, Figure, Share, Measure, Money, Date,
                                  std::vector<Message>>;

/// A value under the name of its place. Its members, as those of Message, are compiled once: every
/// file of the project uses them.
struct Place {
  std::string name;
  MessageValue value;

  Place(std::string n, std::string text);
  Place(std::string n, const char* text);
  Place(std::string n, std::string_view text);
  Place(std::string n, int count);
  Place(std::string n, std::int64_t count);
  Place(std::string n, std::size_t count);
  Place(std::string n, Figure figure);
  Place(std::string n, Share share);
  Place(std::string n, const Measure& m);
  Place(std::string n, Money money);
  Place(std::string n, Date date);
  Place(std::string n, Length l);
  Place(std::string n, Speed v);
  Place(std::string n, Frequency f);
  Place(std::string n, Time t);
  Place(std::string n, Mass m);
  Place(std::string n, Message message);
  Place(std::string n, std::vector<Message> messages);

  Place(const Place&);
  Place(Place&&) noexcept;
  Place& operator=(const Place&);
  Place& operator=(Place&&) noexcept;
  ~Place();
  bool operator==(const Place& other) const;
};

struct Message {
  std::string id;  // empty: nothing to say
  std::vector<Place> places;

  Message();
  Message(const char* message_id);  // NOLINT: a word of its own
  Message(std::string message_id);  // NOLINT
  Message(std::string message_id, std::vector<Place> values);
  Message(const Message&);
  Message(Message&&) noexcept;
  Message& operator=(const Message&);
  Message& operator=(Message&&) noexcept;
  ~Message();

  bool empty() const { return id.empty(); }
  bool operator==(const Message& other) const;
};
using Messages = std::vector<Message>;

/// What holds for several things alike is said once.
inline void add_once(Messages& list, Message message) {
  if (std::find(list.begin(), list.end(), message) == list.end())
    list.push_back(std::move(message));
}

/// Text from data as a message of its own, where a list of messages may hold both.
inline constexpr const char* verbatim_id = "verbatim";
inline Message verbatim(std::string text) { return {verbatim_id, {{"text", std::move(text)}}}; }
inline Messages verbatims(const std::vector<std::string>& texts) {
  Messages list;
  for (const std::string& text : texts) list.push_back(verbatim(text));
  return list;
}

}  // namespace turnwright
