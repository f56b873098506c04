// SPDX-License-Identifier: MIT
#pragma once
// The disk: whole files in, whole files out or nothing at all.
#include <array>
#include <fstream>
#include <functional>
#include <istream>
#include <stdexcept>
#include <streambuf>
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

/// A file that is read, bit by bit: a plain one, a device, or a pipe that somebody writes to.
class InputFile : public std::streambuf {
 public:
  explicit InputFile(const std::string& path);
  InputFile(const InputFile&) = delete;
  InputFile& operator=(const InputFile&) = delete;
  ~InputFile() override;
  bool device() const { return device_; }

 protected:
  int_type underflow() override;

 private:
  bool has_writer();
  std::string path_;
  int fd_ = -1;
  bool device_ = false;
  std::array<char, 65536> buffer_{};
};
/// A table to be read row by row, whose end is awaited: no device.
class InputTable {
 public:
  explicit InputTable(const std::string& path);
  std::istream& stream() { return stream_; }

 private:
  InputFile file_;
  std::istream stream_;
};
/// The whole of a file, as far as a reader takes it.
std::string read_file(const std::string& path);
/// The .yaml files of a folder, in the order of their names.
std::vector<NamedText> read_folder(const std::string& path);
/// A file to be: `temporary` is written beside `path`; `keep` syncs it and puts it in place, and
/// without that nothing of it stays. The place keeps its mode; of a link, what it leads to is
/// replaced.
class PendingFile {
 public:
  explicit PendingFile(const std::string& path);
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  ~PendingFile();
  const std::string& path() const { return path_; }
  const std::string& temporary() const { return temporary_; }
  void keep();

 private:
  friend void keep_all(const std::vector<PendingFile*>& files);
  void put_in_place(bool for_good);
  void take_back();
  std::string path_, temporary_;
  bool old_ = false, exchanged_ = false, kept_ = false;
};
/// All of them, or none.
void keep_all(const std::vector<PendingFile*>& files);
/// Removes from a folder what runs that were killed more than a day ago have left there.
void sweep(const std::string& folder);
/// Lets `write` fill a temporary file beside `path`, syncs it and renames it into place.
void write_whole(const std::string& path,
                 const std::function<void(const std::string& temporary)>& write);
/// A file written bit by bit, that appears whole when kept, else not at all.
class WholeFile {
 public:
  explicit WholeFile(const std::string& path);
  std::ostream& stream() { return stream_; }
  /// All is written: to be kept.
  PendingFile& finished();

 private:
  PendingFile file_;
  std::ofstream stream_;
};
void write_text(const std::string& path, const std::string& text);
/// Whether two paths lead to one file.
bool same_file(const std::string& a, const std::string& b);
bool is_folder(const std::string& path);
/// The shop folder where none is named: TURNWRIGHT_SHOP, else turnwright/shop among the user's
/// settings where it is there; "": none.
std::string usual_shop();
void make_folder(const std::string& path);
bool exists(const std::string& path);
std::string sha256(const std::string& bytes);

}  // namespace turnwright::cli
