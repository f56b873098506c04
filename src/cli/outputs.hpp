// SPDX-License-Identifier: MIT
#pragma once
// Where a command's answer goes: standard output, a file by the kind of its name, a file a part in
// a folder. Nothing overwrites an input, and no two parts one file.
#include <functional>
#include <initializer_list>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "paths.hpp"
#include "session.hpp"
#include "turnwright/output/paper.hpp"

namespace turnwright::cli {

/// What is wrong with --output for a command that writes these kinds (".xlsx", ".html"), or that
/// nothing here draws PDF; empty: nothing. A folder is right where `folder`.
Message output_fault(const Session& session, std::initializer_list<std::string_view> kinds,
                     bool folder);

/// Names of files in a folder, one each, whatever the parts are called.
class FileNames {
 public:
  /// None of `taken`, which are paths, is given.
  explicit FileNames(std::string folder, std::vector<std::string> taken = {})
      : folder_(std::move(folder)), taken_(std::move(taken)) {}
  /// The path of the file of a part number.
  std::string path(const std::string& number, std::string_view kind);

 private:
  bool is_taken(const std::string& path) const;
  std::string folder_;
  std::vector<std::string> taken_;
  std::set<std::string> used_;  // in lower case: some disks know no other
};

/// A workbook by `write`, which reads it back, put in place.
void put_verified_workbook(const std::string& path,
                           const std::function<void(const std::string& temporary)>& write);

/// Writes the answers of a command, one a part.
class Outputs {
 public:
  /// `several`: more than one document will come; JSON on standard output is then one a line.
  Outputs(const Session& session, bool several);
  /// Where the answer of this part goes: "" is standard output. `kind`: of files in a folder.
  std::string path(const std::string& number, std::string_view kind);
  /// Text to a path of `path()`.
  void put(const std::string& path, const std::string& text);
  /// The same of a JSON document.
  void put_json(const std::string& path, const std::string& text);
  /// The same of a document for paper, as HTML or PDF by the path.
  void put_paper(const std::string& path, const paper::Paper& paper);
  /// The same of a workbook, verified.
  void put_workbook(const std::string& path,
                    const std::function<void(const std::string& temporary)>& write);

 private:
  const Session& session_;
  bool several_;
  FileNames names_;
};

}  // namespace turnwright::cli
