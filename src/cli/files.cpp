// SPDX-License-Identifier: MIT
#include "files.hpp"

#include <fcntl.h>
#include <nettle/sha2.h>
#include <poll.h>
#include <stdio.h>  // renameat2
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <memory>

#include "paths.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr int writer_wait_ms = 2000;
constexpr int most_links = 40;  // of a path, as the system has it
constexpr auto oldest_leftover = std::chrono::hours(24);

[[noreturn]] void fail(const std::string& path, const char* id) {
  throw DiskFailed({id, {{"path", path}, {"why", std::strerror(errno)}}});
}

struct Handle {
  int fd = -1;
  explicit Handle(int f) : fd(f) {}
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  ~Handle() {
    if (fd >= 0) ::close(fd);
  }
};

void sync(const std::string& path) {
  const Handle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.fd < 0 || ::fsync(file.fd) != 0) fail(path, "cli.cannot-sync");
}

// Where a link leads, so that not the link is replaced but what it stands for.
std::string target_of(const std::string& path) {
  fs::path target = path;
  std::error_code error;
  for (int i = 0; i < most_links && fs::is_symlink(target, error); ++i)
    target = target.parent_path() / fs::read_symlink(target, error);
  return target.string();
}

}  // namespace

DiskFailed::DiskFailed(Message message)
    : std::runtime_error(Words()(message)), why(std::move(message)) {}

InputFile::InputFile(const std::string& path) : path_(path) {
  // Opening a pipe that nobody writes to would wait for ever.
  fd_ = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (fd_ < 0) fail(path, "cli.cannot-read");
  struct stat about {};
  const bool known = ::fstat(fd_, &about) == 0;
  if (known && S_ISDIR(about.st_mode)) errno = EISDIR;
  if (!known || S_ISDIR(about.st_mode)) {
    ::close(fd_);
    fail(path, "cli.cannot-read");
  }
  if (S_ISFIFO(about.st_mode) && !has_writer()) {
    ::close(fd_);
    throw DiskFailed({"cli.no-writer", {{"path", path}}});
  }
  device_ = S_ISCHR(about.st_mode) || S_ISBLK(about.st_mode);
  ::fcntl(fd_, F_SETFL, ::fcntl(fd_, F_GETFL) & ~O_NONBLOCK);
}
InputFile::~InputFile() { ::close(fd_); }

// One may be about to open it: a moment is waited.
bool InputFile::has_writer() {
  pollfd waiting{fd_, POLLIN, 0};
  ::poll(&waiting, 1, writer_wait_ms);
  const ssize_t n = ::read(fd_, buffer_.data(), buffer_.size());
  if (n > 0) setg(buffer_.data(), buffer_.data(), buffer_.data() + n);
  return n > 0 || (n < 0 && errno == EAGAIN);
}

InputFile::int_type InputFile::underflow() {
  if (gptr() < egptr()) return traits_type::to_int_type(*gptr());
  const ssize_t n = ::read(fd_, buffer_.data(), buffer_.size());
  if (n < 0) fail(path_, "cli.cannot-read");
  if (n == 0) return traits_type::eof();
  setg(buffer_.data(), buffer_.data(), buffer_.data() + n);
  return traits_type::to_int_type(*gptr());
}

InputTable::InputTable(const std::string& path) : file_(path), stream_(&file_) {
  if (file_.device()) throw DiskFailed({"cli.no-plain-file", {{"path", path}}});
  // What the disk fails with is no end of the table.
  stream_.exceptions(std::ios::badbit);
}

std::string read_file(const std::string& path) {
  InputFile file(path);
  // The reader refuses more than this; no need to take in a device without end.
  std::string bytes;
  std::array<char, 65536> part{};
  for (std::streamsize n = 1; n > 0 && bytes.size() <= largest_document;) {
    n = file.sgetn(part.data(), static_cast<std::streamsize>(part.size()));
    bytes.append(part.data(), static_cast<std::size_t>(n));
  }
  return bytes;
}

std::vector<NamedText> read_folder(const std::string& path) {
  std::error_code error;
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(path, error))
    if (format_of(entry.path().string()) == FileFormat::yaml)
      names.push_back(entry.path().string());
  if (error) throw DiskFailed({"cli.cannot-read", {{"path", path}, {"why", error.message()}}});
  std::sort(names.begin(), names.end());
  std::vector<NamedText> files;
  files.reserve(names.size());
  for (const std::string& name : names) files.push_back({name, read_file(name)});
  return files;
}

PendingFile::PendingFile(const std::string& path) : path_(target_of(path)) {
  struct stat old {};
  old_ = ::stat(path_.c_str(), &old) == 0;
  if (old_ && !S_ISREG(old.st_mode)) throw DiskFailed({"cli.no-plain-file", {{"path", path}}});
  // Never wider than the old one, not for a moment.
  const mode_t mode = old_ ? old.st_mode & 07777 : 0666;
  temporary_ = temporary_beside(path_);
  // Here and not later, where a library would say so in its own words.
  const Handle file(::open(temporary_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW,
                           mode | S_IWUSR));
  if (file.fd < 0) fail(path, "cli.cannot-write");
  if (!old_) return;
  if (::fchown(file.fd, old.st_uid, old.st_gid) != 0) errno = 0;  // ours alone: the mode counts
  if (::fchmod(file.fd, mode) != 0) {
    ::unlink(temporary_.c_str());
    fail(path, "cli.cannot-write");
  }
}
PendingFile::~PendingFile() {
  if (!kept_) ::unlink(temporary_.c_str());
}
void PendingFile::keep() { keep_all({this}); }

// The old file takes the temporary's name where the disk can exchange them.
void PendingFile::put_in_place(bool for_good) {
  exchanged_ =
      old_ && !for_good &&
      ::renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, path_.c_str(), RENAME_EXCHANGE) == 0;
  if (!exchanged_ && std::rename(temporary_.c_str(), path_.c_str()) != 0)
    fail(path_, "cli.cannot-write");
  kept_ = !exchanged_;
}
void PendingFile::take_back() {
  if (exchanged_)
    ::renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, path_.c_str(), RENAME_EXCHANGE);
  else if (!old_)
    ::unlink(path_.c_str());
}

void keep_all(const std::vector<PendingFile*>& files) {
  for (const PendingFile* file : files) sync(file->temporary());
  for (std::size_t i = 0; i < files.size(); ++i) try {
      files[i]->put_in_place(i + 1 == files.size());
    } catch (const DiskFailed&) {
      while (i-- > 0) files[i]->take_back();
      throw;
    }
}

void sweep(const std::string& folder) {
  std::error_code error;
  const auto old = fs::file_time_type::clock::now() - oldest_leftover;
  std::vector<fs::path> left;
  for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    std::error_code unknown;
    if (is_temporary(at->path().filename().string()) &&
        at->symlink_status(unknown).type() == fs::file_type::regular &&
        at->last_write_time(unknown) < old && !unknown)
      left.push_back(at->path());
  }
  for (const fs::path& path : left) fs::remove(path, error);
}

void write_whole(const std::string& path, const std::function<void(const std::string&)>& write) {
  PendingFile file(path);
  write(file.temporary());
  file.keep();
}

WholeFile::WholeFile(const std::string& path)
    : file_(path), stream_(file_.temporary(), std::ios::binary | std::ios::trunc) {
  if (!stream_) fail(file_.path(), "cli.cannot-write");
}
PendingFile& WholeFile::finished() {
  stream_.close();
  if (!stream_) fail(file_.path(), "cli.cannot-write");
  return file_;
}

void write_text(const std::string& path, const std::string& text) {
  write_whole(path, [&](const std::string& temporary) {
    const Handle file(::open(temporary.c_str(), O_WRONLY | O_TRUNC | O_CLOEXEC | O_NOFOLLOW));
    if (file.fd < 0) fail(path, "cli.cannot-write");
    std::size_t done = 0;
    while (done < text.size()) {
      const ssize_t n = ::write(file.fd, text.data() + done, text.size() - done);
      if (n <= 0) fail(path, "cli.cannot-write");
      done += static_cast<std::size_t>(n);
    }
  });
}

bool same_file(const std::string& a, const std::string& b) {
  std::error_code error;
  if (fs::equivalent(a, b, error)) return true;
  const auto path_a = fs::absolute(a, error).lexically_normal();
  return path_a == fs::absolute(b, error).lexically_normal();
}

bool is_folder(const std::string& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}
std::string usual_shop() {
  const auto value = [](const char* name) {
    const char* set = std::getenv(name);
    return std::string(set == nullptr ? "" : set);
  };
  if (const std::string own = value("TURNWRIGHT_SHOP"); !own.empty()) return own;
  // XDG Base Directory Specification 0.8.
  std::string settings = value("XDG_CONFIG_HOME");
  if (settings.empty()) settings = value("HOME") + "/.config";
  const std::string shop = settings + "/turnwright/shop";
  return settings.starts_with('/') && is_folder(shop) ? shop : "";
}
bool exists(const std::string& path) {
  std::error_code error;
  return fs::exists(path, error);
}
void make_folder(const std::string& path) {
  std::error_code error;
  fs::create_directories(path, error);
  if (error) throw DiskFailed({"cli.cannot-make", {{"path", path}, {"why", error.message()}}});
}

std::string sha256(const std::string& bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  std::string text;
  for (const std::uint8_t byte : digest) {
    constexpr const char* hex = "0123456789abcdef";
    text += hex[byte >> 4];
    text += hex[byte & 15];
  }
  return text;
}

}  // namespace turnwright::cli
