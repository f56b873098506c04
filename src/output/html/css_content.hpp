// SPDX-License-Identifier: MIT
#pragma once
#include <string>

namespace turnwright {

/// What `content` of a style sheet shows: what could end the text, or the sheet, goes as a code
/// point. With `counters` the marks of a page's number become that.
std::string css_content(const std::string& text, bool counters = false);

}  // namespace turnwright
