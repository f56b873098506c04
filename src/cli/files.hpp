// SPDX-License-Identifier: MIT
#pragma once
// The disk: whole files in, whole files out or nothing at all.
#include <fstream>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

#include "turnwright/quantity/message.hpp"
#include "turnwright/shop/shop.hpp"

namespace turnwright::cli {

/// Thrown when the disk fails; caught once, in `run`. what() is the English sentence.
struct DiskFailed : std::runtime_error {
  explicit DiskFailed(Message message);
  Message why;
};

std::string read_file(const std::string& path);
/// A file to be read bit by bit.
std::ifstream open_file(const std::string& path);
/// The .yaml files of a folder, in the order of their names.
std::vector<NamedText> read_folder(const std::string& path);
/// A file to be: `temporary` is written beside `path`; `keep` syncs it and renames it into place,
/// and without that nothing of it stays.
class PendingFile {
 public:
  explicit PendingFile(std::string path);
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  ~PendingFile();
  const std::string& path() const { return path_; }
  const std::string& temporary() const { return temporary_; }
  void keep();

 private:
  std::string path_, temporary_;
  bool kept_ = false;
};
/// Lets `write` fill a temporary file beside `path`, syncs it and renames it into place.
void write_whole(const std::string& path,
                 const std::function<void(const std::string& temporary)>& write);
/// A file written bit by bit, that appears whole when kept, else not at all.
class WholeFile {
 public:
  explicit WholeFile(std::string path);
  std::ostream& stream() { return stream_; }
  void keep();

 private:
  PendingFile file_;
  std::ofstream stream_;
};
void write_text(const std::string& path, const std::string& text);
/// Whether two paths lead to one file.
bool same_file(const std::string& a, const std::string& b);
/// A part number as the name of a file: letters, digits, - and _; long ones are cut.
std::string file_name(const std::string& number);
bool is_folder(const std::string& path);
void make_folder(const std::string& path);
bool exists(const std::string& path);
std::string sha256(const std::string& bytes);

}  // namespace turnwright::cli
