// SPDX-License-Identifier: MIT
#include "turnwright/week/calendar.hpp"

#include <algorithm>

namespace turnwright {

std::vector<Span> joined(std::vector<Span> spans) {
  std::erase_if(spans, [](const Span& s) { return s.from >= s.to; });
  std::sort(spans.begin(), spans.end(),
            [](const Span& a, const Span& b) { return a.from < b.from; });
  std::vector<Span> out;
  for (const Span& s : spans) {
    if (!out.empty() && s.from <= out.back().to)
      out.back().to = std::max(out.back().to, s.to);
    else
      out.push_back(s);
  }
  return out;
}

std::vector<Span> without(const std::vector<Span>& a, const std::vector<Span>& b) {
  std::vector<Span> out;
  std::size_t k = 0;
  for (Span s : a) {
    while (k < b.size() && b[k].to <= s.from) ++k;
    for (std::size_t i = k; i < b.size() && b[i].from < s.to && s.from < s.to; ++i) {
      if (b[i].from > s.from) out.push_back({s.from, b[i].from});
      s.from = std::max(s.from, b[i].to);
    }
    if (s.from < s.to) out.push_back(s);
  }
  return out;
}

std::vector<Span> in_both(const std::vector<Span>& a, const std::vector<Span>& b) {
  std::vector<Span> out;
  for (std::size_t i = 0, k = 0; i < a.size() && k < b.size();) {
    const Span s{std::max(a[i].from, b[k].from), std::min(a[i].to, b[k].to)};
    if (s.from < s.to) out.push_back(s);
    if (a[i].to < b[k].to)
      ++i;
    else
      ++k;
  }
  return out;
}

Calendar::Calendar(std::vector<Span> open) : open_(joined(std::move(open))) {
  Minute sum = 0;
  before_.reserve(open_.size());
  for (const Span& s : open_) {
    before_.push_back(sum);
    sum += s.to - s.from;
  }
}
Calendar Calendar::always() { return Calendar({{0, never}}); }

std::size_t Calendar::span_at(Minute t) const {
  return static_cast<std::size_t>(
      std::partition_point(open_.begin(), open_.end(), [t](const Span& s) { return s.to <= t; }) -
      open_.begin());
}
Minute Calendar::next(Minute t) const {
  const std::size_t i = span_at(t);
  return i == open_.size() ? never : std::max(t, open_[i].from);
}
Minute Calendar::after(Minute t, Minute work) const {
  if (work <= 0) return t;
  const std::size_t i = span_at(t);
  if (i == open_.size()) return never;
  // So many open minutes from the calendar's start.
  const Minute target = before_[i] + std::max(t - open_[i].from, 0) + work;
  const auto last =
      std::lower_bound(before_.begin() + static_cast<std::ptrdiff_t>(i), before_.end(), target) -
      before_.begin() - 1;
  const Span& s = open_[static_cast<std::size_t>(last)];
  const Minute end = s.from + target - before_[static_cast<std::size_t>(last)];
  return end <= s.to ? end : never;
}
Minute Calendar::between(Minute from, Minute to) const {
  Minute sum = 0;
  for (std::size_t i = span_at(from); i < open_.size() && open_[i].from < to; ++i)
    sum += std::min(open_[i].to, to) - std::max(open_[i].from, from);
  return sum;
}

}  // namespace turnwright
