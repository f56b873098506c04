// SPDX-License-Identifier: MIT
#include "formatting.hpp"

namespace turnwright {

std::string signed_text(Amount amount, const Words& words) {
  const Money money = rounded(amount);
  return (money.hundredths() > 0 ? "+" : "") + words.money(money);
}

std::string signed_percent(double share, const Words& words, int places) {
  return (share > 0 ? "+" : "") + percent_text(share, words, places);
}

std::string fixed_measure(double si, const Unit& metric, int places, const Words& words) {
  const Unit unit = words.inch() ? counterpart(metric) : metric;
  return words.fixed(shown(si, unit), places) + " " + words.unit(metric);
}

std::string part_title(const Part& part, const Words& words) {
  std::string text = words.name(part.number);
  if (!part.name.empty()) text += "  " + words.name(part.name);
  if (!part.revision.empty())
    text += "  " + words({"text.revision", {{"revision", part.revision}}});
  return text + "  (" + words(part.repeat ? "text.repeat-order" : "text.new-order") + ")";
}

}  // namespace turnwright
