// SPDX-License-Identifier: MIT
#include "request_files.hpp"

#include <filesystem>

#include "files.hpp"

namespace turnwright::cli {

std::vector<OrderedPart> ordered_parts(const Request& request) {
  namespace fs = std::filesystem;
  const fs::path folder = fs::path(request.file).parent_path();
  std::vector<OrderedPart> parts;
  for (const RequestItem& item : request.parts) {
    const std::string path = (folder / item.part).lexically_normal().string();
    if (!exists(path) || is_folder(path)) {
      Problem p;
      p.file = request.file;
      p.at = item.at;
      p.what = "there is no part file '" + item.part + "'";
      p.expected = "a path from the folder of the request, as '" + path + "'";
      parts.push_back({path, "", Problems{p}});
      continue;
    }
    std::string text = read_file(path);
    auto part = read_part(path, text);
    if (part) part = ordered(std::move(*part), item, request);
    parts.push_back({path, std::move(text), std::move(part)});
  }
  return parts;
}

}  // namespace turnwright::cli
