// SPDX-License-Identifier: MIT
#include "xlsx/quiet.hpp"

#include <cstdio>
#include <mutex>

namespace turnwright {
namespace {

// Several books are closed at the same time when a list is priced.
struct Streams {
  std::mutex mutex;
  int standing = 0;
  std::FILE* usual = nullptr;
};
Streams& streams() {
  static Streams all;
  return all;
}

// Only the GNU library lets the stream be replaced.
void redirect([[maybe_unused]] std::FILE* to) {
#if defined(__GLIBC__)
  if (to != nullptr) stderr = to;
#endif
}

std::FILE* nowhere() {
  static std::FILE* file = std::fopen("/dev/null", "w");
  return file;
}

}  // namespace

Quiet::Quiet() {
  Streams& s = streams();
  const std::lock_guard lock(s.mutex);
  if (s.standing++ > 0) return;
  s.usual = stderr;
  redirect(nowhere());
}

Quiet::~Quiet() {
  Streams& s = streams();
  const std::lock_guard lock(s.mutex);
  if (--s.standing == 0) redirect(s.usual);
}

}  // namespace turnwright
