// SPDX-License-Identifier: MIT
#include "inputs.hpp"

#include <algorithm>
#include <filesystem>
#include <istream>
#include <iterator>

#include "files.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/document/table.hpp"
#include "turnwright/estimate/order.hpp"

namespace turnwright::cli {
namespace {

// What takes a file of a kind.
const char* taker_of(FileKind kind) {
  switch (kind) {
    case FileKind::request:
      return "offer";
    case FileKind::week:
      return "load";
    case FileKind::shop:
      return "--shop";
    default:
      return "quote";
  }
}

// With the lines that the problems are in.
Problems with_lines(Problems problems, const std::string& text) {
  for (Problem& p : problems)
    if (p.source_line.empty()) p.source_line = line_of(text, p.at.line);
  return problems;
}

PartInput read_input(const Session& session, std::string path, std::string text) {
  auto part = read_part(path, text, session.shop.currencies);
  return {std::move(path), std::move(text), std::move(part), nullptr};
}

// Of the whole file, which its sentence names.
Problems refused(Message what) {
  Problem problem;
  problem.what = std::move(what);
  return {problem};
}

}  // namespace

ReadAhead::ReadAhead(std::istream& in) : in_(in) {
  for (char c = 0; line_.size() < largest_row && in.get(c);) {
    line_ += c;
    if (c == '\n') break;
  }
  setg(line_.data(), line_.data(), line_.data() + line_.size());
}

ReadAhead::int_type ReadAhead::underflow() {
  if (gptr() < egptr()) return traits_type::to_int_type(*gptr());
  if (!in_.get(next_)) return traits_type::eof();
  setg(&next_, &next_, &next_ + 1);
  return traits_type::to_int_type(next_);
}

std::string text_of(const Session& session, const std::string& path) {
  if (!is_standard_input(path)) return read_file(path);
  std::istream& in = session.streams.in;
  std::string text;
  for (char c = 0; text.size() <= largest_document && in.get(c);) text += c;
  return text;
}

Message other_kind(const Session& session, const std::string& path, std::string_view text,
                   std::initializer_list<FileKind> wanted) {
  const FileKind kind = kind_of_file(text);
  if (kind == FileKind::other || std::find(wanted.begin(), wanted.end(), kind) != wanted.end())
    return {};
  return {"cli.other-kind",
          {{"path", path},
           {"kind", Message{"file." + std::string(name_of(kind))}},
           {"command", session.options.command},
           {"taker", taker_of(kind)}}};
}

std::vector<PartInput> part_inputs(const Session& session, const std::vector<std::string>& paths) {
  std::vector<PartInput> inputs;
  for (const std::string& path : paths) {
    std::string text = text_of(session, path);
    const std::string name = is_standard_input(path) ? session.words("cli.standard-input") : path;
    if (Message fault = other_kind(session, name, text, {FileKind::part, FileKind::request});
        !fault.empty()) {
      inputs.push_back({name, std::move(text), refused(std::move(fault)), nullptr});
      continue;
    }
    if (!is_request(text)) {
      inputs.push_back(read_input(session, name, std::move(text)));
      continue;
    }
    const auto request = read_request(name, text, session.shop.currencies);
    if (!request) {
      inputs.push_back({name, std::move(text), request.problems(), nullptr});
      continue;
    }
    note_after_wanted(session, *request);
    for (PartInput& part : parts_of(
             session, std::make_shared<const Request>(with_customer_terms(*request, session.shop))))
      inputs.push_back(std::move(part));
  }
  return inputs;
}

std::string part_path(const std::string& file, const std::string& name) {
  return (std::filesystem::path(file).parent_path() / name).lexically_normal().string();
}

PartInput part_beside(const Session& session, const std::string& file, const std::string& name,
                      Position at) {
  const std::string path = part_path(file, name);
  if (exists(path) && !is_folder(path)) return read_input(session, path, read_file(path));
  Problem p;
  p.file = file;
  p.at = at;
  p.what = {"cli.no-part-file", {{"name", name}}};
  p.expected = {"cli.path-beside", {{"path", path}}};
  return {path, "", Problems{p}, nullptr};
}

std::vector<PartInput> parts_of(const Session& session, std::shared_ptr<const Request> request) {
  std::vector<PartInput> parts;
  for (const RequestItem& item : request->parts) {
    PartInput& read = parts.emplace_back(part_beside(session, request->file, item.part, item.at));
    read.request = request;
    if (read.part) read.part = ordered(std::move(*read.part), item, *request);
  }
  return parts;
}

void note_after_wanted(const Session& session, const Request& request) {
  if (!request.wanted) return;
  for (const RequestItem& item : request.parts) {
    if (!item.not_offered.empty()) continue;
    if (item.week > week_of(*request.wanted))
      session.note({"cli.week-after-wanted",
                    {{"part", item.part}, {"week", item.week}, {"wanted", *request.wanted}}});
    const auto longest = std::max_element(item.lead_days.begin(), item.lead_days.end());
    if (longest != item.lead_days.end() && days_after(request.date, *longest) > *request.wanted)
      session.note({"cli.lead-after-wanted",
                    {{"part", item.part}, {"n", *longest}, {"wanted", *request.wanted}}});
  }
}

std::optional<Job> job_of(const Session& session, const PartInput& input) {
  if (!input.part) {
    session.print(input.part.problems());
    return std::nullopt;
  }
  const auto job = prepare(*input.part, session.shop);
  if (job) return *job;
  session.print(with_lines(job.problems(), input.text));
  return std::nullopt;
}

}  // namespace turnwright::cli
