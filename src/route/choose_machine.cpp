// SPDX-License-Identifier: MIT
#include "choose_machine.hpp"

#include "length_text.hpp"

namespace turnwright {
namespace {

constexpr Length flange_in_front(60e-3);  // a flange the tool reaches over the slide (typical)

// The length over which the blank is larger than a diameter.
Length wider_than(const Job& job, Length diameter) {
  if (job.stock.upper <= diameter) return Length(0.0);
  if (job.rough.empty()) return job.stock.length;
  Length sum(0.0);
  for (const Segment& s : job.rough.pieces())
    if (2.0 * max(s.from.r, s.to.r) > diameter) sum = sum + (s.to.z - s.from.z);
  return sum;
}

// What a machine cannot take of this job, or "".
std::string refused_by(const Machine& m, const Job& job, Mass blank) {
  const Stock& s = job.stock;
  if (s.upper > m.largest_diameter)
    return "the work of " + length_text(job, s.upper) + " is larger than the swing over bed, " +
           length_text(job, m.largest_diameter);
  // A flange may turn in front of the cross slide; a long body may not.
  const Length wide = wider_than(job, m.swing_over_cross_slide);
  if (wide > flange_in_front)
    return "the work is larger than the swing over cross slide, " +
           length_text(job, m.swing_over_cross_slide) + ", over " + length_text(job, wide);
  if (s.length > m.largest_length)
    return "the work of " + length_text(job, s.length) + " is longer than the " +
           length_text(job, m.largest_length) + " it takes";
  if (s.upper > m.chuck.diameter && !m.four_jaw)
    return "the work of " + length_text(job, s.upper) + " is larger than its chuck of " +
           length_text(job, m.chuck.diameter);
  if (blank > m.heaviest_work)
    return "the blank of " + with_unit(blank.si, unit::kg, 3) + " is heavier than the " +
           with_unit(m.heaviest_work.si, unit::kg, 3) + " it takes";
  if (s.from_bar && s.upper > m.spindle_bore)
    return "bar of " + length_text(job, s.upper) + " does not pass the spindle bore of " +
           length_text(job, m.spindle_bore);
  return "";
}

MachineChoice asked_for(const Job& job, const Shop& shop, std::string_view wanted, Mass blank) {
  const Machine* machine = shop.machine(wanted);
  if (machine == nullptr) {
    std::vector<std::string> names;
    for (const Machine& m : shop.machines) names.push_back(m.name);
    const std::string near = nearest(wanted, names);
    return {nullptr,
            "the shop has no machine '" + std::string(wanted) + "'",
            near.empty() ? "a machine of the shop" : "'" + near + "'",
            {}};
  }
  const std::string why = refused_by(*machine, job, blank);
  if (why.empty()) return {machine, "", "", {}};
  for (const Machine& m : shop.machines)
    if (refused_by(m, job, blank).empty()) return {nullptr, machine->name + ": " + why, m.name, {}};
  return {nullptr, machine->name + ": " + why, "a smaller part", {}};
}

}  // namespace

MachineChoice choose_machine(const Job& job, const Shop& shop, std::string_view wanted,
                             Mass blank) {
  if (!wanted.empty()) return asked_for(job, shop, wanted, blank);
  std::vector<std::pair<const Machine*, std::string>> passed_over;
  // Bar work goes to a bar-fed machine first, other work away from it.
  for (const bool bar_fed : {job.stock.from_bar, !job.stock.from_bar})
    for (const Machine& m : shop.machines) {
      if (m.bar_fed != bar_fed) continue;
      const std::string why = refused_by(m, job, blank);
      if (!why.empty()) {
        passed_over.emplace_back(&m, m.name + ": " + why);
        continue;
      }
      MachineChoice choice{&m, "", "", {}};
      for (const auto& [other, note] : passed_over)
        if (other == &shop.machines.front())
          choice.cautions.push_back(note + "; taken instead: " + m.name);
      return choice;
    }
  return {nullptr,
          passed_over.empty() ? "the shop has no machine" : passed_over.front().second,
          "a larger lathe, or the work put out",
          {}};
}

}  // namespace turnwright
