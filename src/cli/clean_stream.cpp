// SPDX-License-Identifier: MIT
#include "clean_stream.hpp"

#include "turnwright/quantity/text.hpp"

namespace turnwright::cli {
namespace {

constexpr std::size_t longest_character = 4;

// Bytes at the end that begin a character which is not whole yet.
std::size_t begun_at_end(std::string_view text) {
  for (std::size_t n = 1; n < std::min(longest_character, text.size() + 1); ++n) {
    const auto byte = static_cast<unsigned char>(text[text.size() - n]);
    if ((byte & 0xC0) == 0x80) continue;
    const std::size_t wants = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 1;
    return wants > n ? n : 0;
  }
  return 0;
}

}  // namespace

CleanStream::CleanStream(std::ostream& stream) : stream_(stream), to_(stream.rdbuf(this)) {}
CleanStream::~CleanStream() {
  const auto state = stream_.rdstate();
  stream_.rdbuf(to_);  // which clears the state
  stream_.setstate(state);
}

CleanStream::int_type CleanStream::overflow(int_type c) {
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  const char one = traits_type::to_char_type(c);
  return xsputn(&one, 1) == 1 ? c : traits_type::eof();
}

std::streamsize CleanStream::xsputn(const char* text, std::streamsize size) {
  held_.append(text, static_cast<std::size_t>(size));
  const std::size_t whole = held_.size() - begun_at_end(held_);
  const std::string shown_text = showable(std::string_view(held_).substr(0, whole), true);
  held_.erase(0, whole);
  const auto n = static_cast<std::streamsize>(shown_text.size());
  return to_->sputn(shown_text.data(), n) == n ? size : 0;
}

int CleanStream::sync() { return to_->pubsync(); }

}  // namespace turnwright::cli
