// SPDX-License-Identifier: MIT
#pragma once
// What the targets share: bytes as text, the shop read once, files of the repository, and what has
// to hold of whatever is read.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/output/words.hpp"
#include "turnwright/part/part.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::fuzz {

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
  return std::string(reinterpret_cast<const char*>(data), size);
}
/// A file of the repository, read once.
const std::string& file(const std::string& path);
/// The shop of the samples over the shipped rates, read once.
const Shop& shop();
const Words& english();
const Words& german();

/// The job of a part file for that shop; none where its bytes are no part, or not made here.
std::optional<Job> job_of(const std::uint8_t* data, std::size_t size);

/// Ends the run: the input is kept as a finding.
void hold(bool holds, const char* what);
/// All words of a message stand in both catalogues, and what they become may be shown.
void speakable(const Message& message);
void speakable(const Messages& messages);
void speakable(const Problems& problems);
/// The JSON is whole.
void whole_json(const std::string& json);

}  // namespace turnwright::fuzz
