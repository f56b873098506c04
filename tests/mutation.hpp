// SPDX-License-Identifier: MIT
// Changes that are all compiled in and switched on one at a time; tests/mutation.py writes them
// into the sources. The environment names the change that is on (TURNWRIGHT_CHANGE), and a file to
// which each process adds the numbers of the changes that it came past (TURNWRIGHT_PASSED).
#pragma once
#include <algorithm>
#include <atomic>
#include <concepts>
#include <cstdio>
#include <cstdlib>
#include <initializer_list>
#include <type_traits>
#include <utility>

// A changed condition or number warns where the plain one does not.
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#pragma GCC diagnostic ignored "-Wsign-compare"
#pragma GCC diagnostic ignored "-Wnarrowing"
#pragma GCC diagnostic ignored "-Wparentheses"
#pragma GCC diagnostic ignored "-Wfloat-equal"
#pragma GCC diagnostic ignored "-Wunused"

namespace mutation {

constexpr int most = 4096;
// Each change: 1 where the program came past it, 2 where the changed form does not compile.
struct Record {
  std::atomic<char> at[most]{};
  int on = std::getenv("TURNWRIGHT_CHANGE") ? std::atoi(std::getenv("TURNWRIGHT_CHANGE")) : -1;
  ~Record() {
    const char* path = std::getenv("TURNWRIGHT_PASSED");
    std::FILE* file = path ? std::fopen(path, "a") : nullptr;
    for (int n = 0; file && n < most; ++n)
      if (at[n]) std::fprintf(file, "%d %d\n", n, at[n].load());
    if (file) std::fclose(file);
  }
};
inline Record& record() {
  static Record all;
  return all;
}
inline bool on(int n) {
  Record& all = record();
  if (!all.at[n].load(std::memory_order_relaxed)) all.at[n].store(1, std::memory_order_relaxed);
  return all.on == n;
}
inline bool mark_impossible(int n) {
  record().at[n] = 2;
  return true;
}
template <int n>
inline const bool impossible = mark_impossible(n);

// `a < b` is written `a < At<7>{} < b`: the same precedence, whatever stands around it.
template <int n>
struct At {};
template <int n, class L>
struct Held {
  L left;
};

#define MUTATION_OPERATOR(sign, changed)                                                          \
  template <class L, int n>                                                                       \
  Held<n, L&&> operator sign(L&& left, At<n>) {                                                   \
    return {std::forward<L>(left)};                                                               \
  }                                                                                               \
  template <int n, class L, class R>                                                              \
  auto operator sign(Held<n, L> held, R&& right) {                                                \
    using Plain = std::decay_t<decltype(std::forward<L>(held.left) sign std::forward<R>(right))>; \
    if constexpr (requires {                                                                      \
                    {                                                                             \
                      std::forward<L>(held.left) changed std::forward<R>(right)                   \
                      } -> std::convertible_to<Plain>;                                            \
                  }) {                                                                            \
      if (on(n))                                                                                  \
        return static_cast<Plain>(std::forward<L>(held.left) changed std::forward<R>(right));     \
    } else {                                                                                      \
      (void)impossible<n>;                                                                        \
    }                                                                                             \
    return static_cast<Plain>(std::forward<L>(held.left) sign std::forward<R>(right));            \
  }
MUTATION_OPERATOR(<, <=)
MUTATION_OPERATOR(<=, <)
MUTATION_OPERATOR(>, >=)
MUTATION_OPERATOR(>=, >)
MUTATION_OPERATOR(==, !=)
MUTATION_OPERATOR(!=, ==)
MUTATION_OPERATOR(+, -)
MUTATION_OPERATOR(-, +)
MUTATION_OPERATOR(*, /)
MUTATION_OPERATOR(/, *)
#undef MUTATION_OPERATOR

// `a += b` is written `a += At<7>{} += b`, which binds to the right.
#define MUTATION_ASSIGNMENT(sign, changed)                                 \
  template <int n, class R>                                                \
  Held<n, R&&> operator sign(At<n>, R&& right) {                           \
    return {std::forward<R>(right)};                                       \
  }                                                                        \
  template <class L, int n, class R>                                       \
  decltype(auto) operator sign(L&& left, Held<n, R> held) {                \
    if constexpr (requires { left changed std::forward<R>(held.left); }) { \
      if (on(n)) return left changed std::forward<R>(held.left);           \
    } else {                                                               \
      (void)impossible<n>;                                                 \
    }                                                                      \
    return left sign std::forward<R>(held.left);                           \
  }
MUTATION_ASSIGNMENT(+=, -=)
MUTATION_ASSIGNMENT(-=, +=)
MUTATION_ASSIGNMENT(*=, /=)
MUTATION_ASSIGNMENT(/=, *=)
#undef MUTATION_ASSIGNMENT

// `a && b`, each a function.
template <class L, class R>
bool both(int n, L left, R right) {
  return on(n) ? left() || right() : left() && right();
}
template <class L, class R>
bool either(int n, L left, R right) {
  return on(n) ? left() && right() : left() || right();
}
template <class T>
T number(int n, T plain, T changed) {
  return on(n) ? changed : plain;
}
// `-a` is written `Minus<7>{} - a`.
template <int n>
struct Minus {};
template <int n, class T>
auto operator-(Minus<n>, const T& value) {
  return on(n) ? static_cast<decltype(-value)>(value) : -value;
}
template <int n, bool least>
struct Extreme {
  template <class... T>
  auto operator()(T&&... of) const {
    using std::max, std::min;
    if (on(n) == least) return max(std::forward<T>(of)...);
    return min(std::forward<T>(of)...);
  }
  template <class T>
  T operator()(std::initializer_list<T> of) const {
    return on(n) == least ? std::max(of) : std::min(of);
  }
};

}  // namespace mutation
