// SPDX-License-Identifier: MIT
#pragma once
// What kind of file a text is, so that one given to the wrong command is named as what it is.
#include <string_view>

namespace turnwright {

/// `list`: a table of parts, also as a workbook; `other`: none of these.
enum class FileKind { part, request, week, shop, list, other };
const char* name_of(FileKind kind);

/// Judged by the keys at the top of a file, or the first line of a table; what is wrong below them
/// does not matter, nor whether the text can be read at all.
FileKind kind_of_file(std::string_view text);

}  // namespace turnwright
