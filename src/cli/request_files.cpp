// SPDX-License-Identifier: MIT
#include "request_files.hpp"

#include <filesystem>

#include "files.hpp"
#include "print.hpp"
#include "turnwright/document/node.hpp"

namespace turnwright::cli {

OrderedPart part_beside(const std::string& file, const std::string& name, Position at,
                        const char* from) {
  namespace fs = std::filesystem;
  const std::string path = (fs::path(file).parent_path() / name).lexically_normal().string();
  if (!exists(path) || is_folder(path)) {
    Problem p;
    p.file = file;
    p.at = at;
    p.what = "there is no part file '" + name + "'";
    p.expected = std::string("a path from the folder of the ") + from + ", as '" + path + "'";
    return {path, "", Problems{p}};
  }
  std::string text = read_file(path);
  auto part = read_part(path, text);
  return {path, std::move(text), std::move(part)};
}

std::vector<OrderedPart> ordered_parts(const Request& request) {
  std::vector<OrderedPart> parts;
  for (const RequestItem& item : request.parts) {
    OrderedPart& read =
        parts.emplace_back(part_beside(request.file, item.part, item.at, "request"));
    if (read.part) read.part = ordered(std::move(*read.part), item, request);
  }
  return parts;
}

std::optional<Job> job_of(const Checked<Part>& part, const std::string& text, const Shop& shop,
                          std::ostream& err) {
  if (!part) {
    print(part.problems(), err);
    return std::nullopt;
  }
  const auto job = prepare(*part, shop);
  if (job) return *job;
  Problems problems = job.problems();
  for (Problem& p : problems) p.source_line = line_of(text, p.at.line);
  print(problems, err);
  return std::nullopt;
}

}  // namespace turnwright::cli
