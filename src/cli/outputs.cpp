// SPDX-License-Identifier: MIT
#include "outputs.hpp"

#include <algorithm>
#include <cctype>
#include <ostream>

#include "files.hpp"
#include "pdf_printer.hpp"
#include "turnwright/output/workbook.hpp"

namespace turnwright::cli {
namespace {

// The document without the line ends and indents between its members; texts hold none.
std::string in_one_line(const std::string& json) {
  std::string line;
  for (std::size_t i = 0; i < json.size(); ++i) {
    if (json[i] != '\n') {
      line += json[i];
      continue;
    }
    while (i + 1 < json.size() && json[i + 1] == ' ') ++i;
  }
  return line + "\n";
}

// A file that the shop's folder is read from.
bool is_of_shop(const std::string& shop, const std::string& path) {
  if (shop.empty() || format_of(path) == FileFormat::yaml) return false;
  return same_file(shop + "/templates", folder_of(path));
}

bool reads(const Session& session, const std::string& path) {
  const Options& o = session.options;
  const auto same = [&](const std::string& input) {
    return !input.empty() && !is_standard_input(input) && same_file(input, path);
  };
  return std::any_of(o.operands.begin(), o.operands.end(), same) || same(o.posted) ||
         same(o.booked) || same(o.week) || same(o.columns) || same(o.since) ||
         (exists(path) && is_of_shop(o.shop, path));
}

}  // namespace

Message output_fault(const Session& session, std::initializer_list<std::string_view> kinds,
                     bool folder) {
  const std::string& path = session.options.output;
  if (path.empty()) return {};
  if (folder && is_folder(path)) return {};
  if (std::none_of(kinds.begin(), kinds.end(),
                   [&](std::string_view kind) { return path.ends_with(kind); })) {
    Messages names;
    for (const std::string_view kind : kinds) names.push_back(verbatim(std::string(kind)));
    return {"cli.output-kind", {{"path", path}, {"kinds", names}}};
  }
  if (reads(session, path)) return {"cli.output-is-input", {{"path", path}}};
  if (format_of(path) != FileFormat::pdf) return {};
  const Message why = PdfPrinter().fault();
  return why.empty() ? why : Message{"pdf.or-page", {{"why", why}}};
}

std::string FileNames::path(const std::string& number, std::string_view kind) {
  const std::string name = file_name(number);
  auto lower = [](std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
  };
  std::string own = name;
  const auto whole = [&] { return folder_ + "/" + own + std::string(kind); };
  for (int count = 2; !used_.insert(lower(own) + std::string(kind)).second || is_taken(whole());
       ++count)
    own = name + "-" + std::to_string(count);
  return whole();
}

bool FileNames::is_taken(const std::string& path) const {
  return std::any_of(taken_.begin(), taken_.end(), [&](const std::string& other) {
    return !other.empty() && same_file(other, path);
  });
}

Outputs::Outputs(const Session& session, bool several)
    : session_(session),
      several_(several),
      names_(session.options.output, session.options.operands) {}

std::string Outputs::path(const std::string& number, std::string_view kind) {
  const std::string& output = session_.options.output;
  return output.empty() || !is_folder(output) ? output : names_.path(number, kind);
}

void Outputs::put(const std::string& path, const std::string& text) {
  if (path.empty()) {
    session_.streams.out << text;
    return;
  }
  write_text(path, text);
  session_.note({"cli.written", {{"path", path}}});
}

void Outputs::put_json(const std::string& path, const std::string& text) {
  put(path, path.empty() && several_ ? in_one_line(text) : text);
}

void Outputs::put_paper(const std::string& path, const paper::Paper& paper) {
  put(path, format_of(path) == FileFormat::pdf ? PdfPrinter().drawn(paper) : paper_page(paper));
}

void put_verified_workbook(const std::string& path,
                           const std::function<void(const std::string&)>& write) {
  write_whole(path, write);
}

void Outputs::put_workbook(const std::string& path,
                           const std::function<void(const std::string&)>& write) {
  put_verified_workbook(path, write);
  session_.note({"cli.written", {{"path", path}}});
}

}  // namespace turnwright::cli
