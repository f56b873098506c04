// SPDX-License-Identifier: MIT
#include "files.hpp"

#include <fcntl.h>
#include <nettle/sha2.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <memory>

#include "paths.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest_name = 120;  // disks hold 255 bytes, with endings of ours

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

}  // namespace

DiskFailed::DiskFailed(Message message)
    : std::runtime_error(Words()(message)), why(std::move(message)) {}

std::string read_file(const std::string& path) {
  const Handle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.fd < 0) fail(path, "cli.cannot-read");
  std::string bytes;
  std::array<char, 65536> buffer{};
  for (;;) {
    const ssize_t n = ::read(file.fd, buffer.data(), buffer.size());
    if (n < 0) fail(path, "cli.cannot-read");
    if (n == 0) return bytes;
    bytes.append(buffer.data(), static_cast<std::size_t>(n));
    // The reader refuses more than this; no need to take in a device without end.
    if (bytes.size() > largest_document + 1) return bytes;
  }
}

std::ifstream open_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in || is_folder(path)) throw DiskFailed({"cli.cannot-open", {{"path", path}}});
  return in;
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

PendingFile::PendingFile(std::string path)
    : path_(std::move(path)), temporary_(path_ + ".part" + std::to_string(::getpid())) {
  // Here and not later, where a library would say so in its own words.
  const Handle file(
      ::open(temporary_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666));
  if (file.fd < 0) fail(path_, "cli.cannot-write");
}
PendingFile::~PendingFile() {
  if (!kept_) ::unlink(temporary_.c_str());
}
void PendingFile::keep() {
  sync(temporary_);
  if (std::rename(temporary_.c_str(), path_.c_str()) != 0) fail(path_, "cli.cannot-write");
  kept_ = true;
}

void write_whole(const std::string& path, const std::function<void(const std::string&)>& write) {
  PendingFile file(path);
  write(file.temporary());
  file.keep();
}

WholeFile::WholeFile(std::string path)
    : file_(std::move(path)), stream_(file_.temporary(), std::ios::binary | std::ios::trunc) {
  if (!stream_) fail(file_.path(), "cli.cannot-write");
}
void WholeFile::keep() {
  stream_.close();
  if (!stream_) fail(file_.path(), "cli.cannot-write");
  file_.keep();
}

void write_text(const std::string& path, const std::string& text) {
  write_whole(path, [&](const std::string& temporary) {
    const Handle file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (file.fd < 0) fail(path, "cli.cannot-write");
    std::size_t done = 0;
    while (done < text.size()) {
      const ssize_t n = ::write(file.fd, text.data() + done, text.size() - done);
      if (n <= 0) fail(path, "cli.cannot-write");
      done += static_cast<std::size_t>(n);
    }
  });
}

std::string file_name(const std::string& number) {
  std::string name;
  for (const char c : number)
    name += std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_' ? c : '_';
  if (name.size() > longest_name) name.resize(longest_name);
  return name.empty() ? "_" : name;
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
