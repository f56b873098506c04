// SPDX-License-Identifier: MIT
#pragma once
// What goes to a terminal: nothing that would repaint it, whatever the data holds.
#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace turnwright::cli {

/// While one stands, the stream passes on only what may be shown; a "?" for the rest.
class CleanStream : private std::streambuf {
 public:
  explicit CleanStream(std::ostream& stream);
  CleanStream(const CleanStream&) = delete;
  CleanStream& operator=(const CleanStream&) = delete;
  ~CleanStream() override;

 private:
  int_type overflow(int_type c) override;
  std::streamsize xsputn(const char* text, std::streamsize size) override;
  int sync() override;

  std::ostream& stream_;
  std::streambuf* to_;
  std::string held_;  // the beginning of a character
};

}  // namespace turnwright::cli
