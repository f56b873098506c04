// SPDX-License-Identifier: MIT
#include "turnwright/quantity/message.hpp"

namespace turnwright {

Place::Place(std::string n, std::string text) : name(std::move(n)), value(std::move(text)) {}
Place::Place(std::string n, const char* text) : name(std::move(n)), value(std::string(text)) {}
Place::Place(std::string n, std::string_view text) : name(std::move(n)), value(std::string(text)) {}
Place::Place(std::string n, int count) : name(std::move(n)), value(std::int64_t{count}) {}
Place::Place(std::string n, std::int64_t count) : name(std::move(n)), value(count) {}
Place::Place(std::string n, std::size_t count)
    : name(std::move(n)), value(static_cast<std::int64_t>(count)) {}
Place::Place(std::string n, Figure figure) : name(std::move(n)), value(figure) {}
Place::Place(std::string n, Share share) : name(std::move(n)), value(share) {}
Place::Place(std::string n, const Measure& m) : name(std::move(n)), value(m) {}
Place::Place(std::string n, Money money) : name(std::move(n)), value(money) {}
Place::Place(std::string n, Date date) : name(std::move(n)), value(date) {}
Place::Place(std::string n, Length l) : Place(std::move(n), measure(l, unit::mm, 5)) {}
Place::Place(std::string n, Speed v) : Place(std::move(n), measure(v, unit::m_per_min)) {}
Place::Place(std::string n, Frequency f) : Place(std::move(n), measure(f, unit::rev_per_min)) {}
Place::Place(std::string n, Time t) : Place(std::move(n), measure(t, unit::min)) {}
Place::Place(std::string n, Mass m) : Place(std::move(n), measure(m, unit::kg)) {}
Place::Place(std::string n, Message message)
    : name(std::move(n)), value(Messages{std::move(message)}) {}
Place::Place(std::string n, std::vector<Message> messages)
    : name(std::move(n)), value(std::move(messages)) {}

Place::Place(const Place&) = default;
Place::Place(Place&&) noexcept = default;
Place& Place::operator=(const Place&) = default;
Place& Place::operator=(Place&&) noexcept = default;
Place::~Place() = default;

Message::Message() = default;
Message::Message(const char* message_id) : id(message_id) {}
Message::Message(std::string message_id) : id(std::move(message_id)) {}
Message::Message(std::string message_id, std::vector<Place> values)
    : id(std::move(message_id)), places(std::move(values)) {}
Message::Message(const Message&) = default;
Message::Message(Message&&) noexcept = default;
Message& Message::operator=(const Message&) = default;
Message& Message::operator=(Message&&) noexcept = default;
Message::~Message() = default;
bool Message::operator==(const Message& other) const = default;

bool Place::operator==(const Place& other) const {
  return name == other.name && value == other.value;
}

}  // namespace turnwright
