// SPDX-License-Identifier: MIT
#include "turnwright/shop/shop.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "turnwright/quantity/text.hpp"

namespace turnwright {

Shop::Shop() = default;
Shop::Shop(const Shop&) = default;
Shop::Shop(Shop&&) noexcept = default;
Shop& Shop::operator=(const Shop&) = default;
Shop& Shop::operator=(Shop&&) noexcept = default;
Shop::~Shop() = default;

namespace {

template <class T>
const T* by_name(const std::vector<T>& records, std::string_view name) {
  for (const T& record : records)
    if (record.name == name) return &record;
  return nullptr;
}

// "42CrMo4 +QT", "42crmo4+qt" and "42CrMo4+QT" are one name.
std::string folded(std::string_view text) {
  std::string key;
  for (const char c : text)
    if (c != ' ' && c != '-') key += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return key;
}

// Reading made sure that every row which is looked up by an id is there.
template <class T, class Id>
const T& row_of(const std::vector<T>& records, Id id) {
  return *by_name(records, name_of(id));
}

}  // namespace

double Shop::correction(std::string_view machine, bool of_setup) const {
  for (const Correction& c : corrections)
    if (c.machine == machine && c.setup == of_setup) return c.factor;
  return 1;
}

Money Policy::step_of(Amount price) const {
  for (const PriceStep& s : price_steps)
    if (s.below.hundredths() == 0 || price < s.below.amount()) return s.step;
  return price_steps.back().step;
}

Basis Policy::basis_of(const std::string& row) const {
  const auto found = sources.find(row);
  return found == sources.end() ? Basis::typical : found->second.basis;
}

const Material* Shop::material(std::string_view name) const {
  const std::string key = folded(name);
  for (const Material& m : materials) {
    if (folded(m.name) == key) return &m;
    for (const std::string& other : m.also)
      if (folded(other) == key) return &m;
  }
  return nullptr;
}

std::vector<std::string> Shop::material_names(std::string_view near) const {
  std::vector<std::pair<std::size_t, std::string>> found;
  const std::string key = folded(near);
  auto likeness = [&key](const std::string& name) {
    const std::string other = folded(name);
    std::size_t same = 0;
    while (same < std::min(key.size(), other.size()) && key[same] == other[same]) ++same;
    return same;
  };
  for (const Material& m : materials) {
    std::size_t best = likeness(m.name);
    for (const std::string& other : m.also) best = std::max(best, likeness(other));
    found.emplace_back(best, m.name);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min<std::size_t>(found.size(), 4); ++i)
    names.push_back(found[i].second);
  return names;
}

const CuttingGroup* Shop::cutting_group(std::string_view name) const {
  return by_name(cutting_groups, name);
}
const Grade* Shop::grade(std::string_view name) const { return by_name(grades, name); }
const StepFactor& Shop::step_factor(StepFactorId id) const { return row_of(step_factors, id); }
const Tool* Shop::tool(std::string_view name) const { return by_name(tools, name); }
const OtherMachine* Shop::other_machine(std::string_view name) const {
  return by_name(other_machines, name);
}
const CustomerTerms* Shop::customer(std::string_view name) const {
  return by_name(customers, name);
}
const Machine* Shop::machine(std::string_view name) const { return by_name(machines, name); }
const HandlingElement& Shop::element(HandlingId id) const { return row_of(handling, id); }
const HandlingElement& Shop::setup_element(SetupId id) const { return row_of(setup, id); }
Time Shop::edge_change(const Tool& tool, MachineKind kind, bool fine) const {
  return (tool.edge_change.si > 0 ? tool.edge_change : element(HandlingId::edge_change).on(kind)) +
         (fine ? element(HandlingId::offset_after_edge_change).on(kind) : 15.0 * unit::s);
}
const StockCondition* Shop::condition(std::string_view name) const {
  return by_name(conditions, name);
}
double Shop::factor(FactorId id) const { return factors.at(std::string(name_of(id))); }
double Shop::skin_factor(std::string_view condition) const {
  const auto found = factors.find("skin " + std::string(condition));
  return found == factors.end() ? 1.0 : found->second;
}
double Shop::gauging_share(int grade) const {
  const GaugingShare* best = nullptr;
  for (const GaugingShare& row : gauging)
    if (grade >= row.from_grade && (best == nullptr || row.from_grade > best->from_grade))
      best = &row;
  return best == nullptr ? 1.0 : best->share;
}
const ChipShare& Shop::chip_share(bool short_chips) const {
  return row_of(chips, short_chips ? ChipId::short_chips : ChipId::long_chips);
}

Length Shop::accuracy(AccuracyId id) const { return row_of(clampings, id).accuracy; }
const OutsideWork* Shop::outside(OutsideWorkId id) const {
  return by_name(outside_work, name_of(id));
}

std::string Shop::source_text(const Source& source) const {
  std::string text;
  std::size_t i = 0;
  auto part_of_name = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-';
  };
  while (i < source.text.size()) {
    std::size_t end = i;
    while (end < source.text.size() && part_of_name(source.text[end])) ++end;
    const std::string word = source.text.substr(i, std::max<std::size_t>(end - i, 1));
    const auto title = source_titles.find(word);
    text += title == source_titles.end() ? word : title->second;
    i += word.size();
  }
  return text;
}

bool Tool::has_size(Length d) const {
  return std::any_of(sizes.begin(), sizes.end(),
                     [d](Length size) { return std::abs(size.si - d.si) < 1e-6; });
}

const char* name_of(Basis basis) {
  switch (basis) {
    case Basis::given:
      return "given";
    case Basis::own_records:
      return "own-records";
    case Basis::found:
      return "found";
    case Basis::common_practice:
      return "common-practice";
    case Basis::from_memory:
      return "from-memory";
    case Basis::typical:
      break;
  }
  return "typical";
}

Message rate_in_words(const Machine& machine) {
  const HourlyRate& rate = machine.rate;
  auto hour = [](Rate r) { return Measure{r.si, unit::money_per_h, 6}; };
  if (rate.all_in) return {"rate.all-in", {{"rate", hour(*rate.all_in)}}};
  return {"rate.split",
          {{"machine", hour(rate.machine)},
           {"person", hour(rate.person)},
           {"overhead", Share{rate.overhead}}}};
}

Length StockCondition::over(Length size) const {
  for (std::size_t i = 0; i < upper_to.size(); ++i)
    if (size.si <= upper_to[i].si + 1e-9) return upper_over[i];
  return upper_over.empty() ? Length(0.0) : upper_over.back();
}
Length StockCondition::clean_up_at(Length size) const {
  for (std::size_t i = 0; i < clean_up_to.size(); ++i)
    if (size.si <= clean_up_to[i].si + 1e-9) return clean_up[i];
  return clean_up.empty() ? Length(0.0) : clean_up.back();
}

}  // namespace turnwright
