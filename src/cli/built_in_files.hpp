// SPDX-License-Identifier: MIT
#pragma once
// Files of the project that the program has within it, by their names there.
#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/shop/shop.hpp"

namespace turnwright {

const std::vector<NamedText>& starter_files();  // templates/new
const std::vector<NamedText>& schema_files();   // rates/schema
const std::vector<NamedText>& offer_files();    // templates/offer

namespace cli {

/// Who sends a quotation; among the offer's files, and in a shop's folder `templates`.
inline constexpr const char* sender_file = "sender.txt";

/// The text of the file of this name; null: there is none.
inline const std::string* text_named(const std::vector<NamedText>& files, std::string_view name) {
  const auto found =
      std::find_if(files.begin(), files.end(), [&](const NamedText& f) { return f.name == name; });
  return found == files.end() ? nullptr : &found->text;
}

}  // namespace cli
}  // namespace turnwright
