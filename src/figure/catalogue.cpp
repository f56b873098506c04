// SPDX-License-Identifier: MIT
#include "turnwright/figure/catalogue.hpp"

#include <cstdlib>
#include <type_traits>

#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/feeds.hpp"
#include "turnwright/figure/finish.hpp"
#include "turnwright/figure/money.hpp"
#include "turnwright/figure/slope.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/figure/stiffness.hpp"
#include "turnwright/figure/stock.hpp"
#include "turnwright/figure/sure_quantity.hpp"
#include "turnwright/figure/tapers.hpp"
#include "turnwright/figure/threads.hpp"
#include "turnwright/figure/times.hpp"
#include "turnwright/figure/tolerance.hpp"
#include "turnwright/figure/tool_life.hpp"

namespace turnwright::figure {
namespace {

// The members of an Inputs or Results struct, one call of `visit` each, in order.
template <std::size_t Count, class T, class Visit>
void each_member(T& object, Visit visit) {
  if constexpr (Count == 1) {
    auto& [a] = object;
    visit(a);
  } else if constexpr (Count == 2) {
    auto& [a, b] = object;
    visit(a), visit(b);
  } else if constexpr (Count == 3) {
    auto& [a, b, c] = object;
    visit(a), visit(b), visit(c);
  } else if constexpr (Count == 4) {
    auto& [a, b, c, d] = object;
    visit(a), visit(b), visit(c), visit(d);
  } else if constexpr (Count == 5) {
    auto& [a, b, c, d, e] = object;
    visit(a), visit(b), visit(c), visit(d), visit(e);
  } else if constexpr (Count == 6) {
    auto& [a, b, c, d, e, f] = object;
    visit(a), visit(b), visit(c), visit(d), visit(e), visit(f);
  } else {
    static_assert(Count == 7);
    auto& [a, b, c, d, e, f, g] = object;
    visit(a), visit(b), visit(c), visit(d), visit(e), visit(f), visit(g);
  }
}

template <class T>
struct IsList : std::false_type {};
template <Dim D, class N>
struct IsList<List<D, N>> : std::true_type {};

template <class T>
constexpr Dim dimension_of() {
  if constexpr (std::is_enum_v<T>)
    return {};
  else if constexpr (IsList<T>::value)
    return T::value_type::dimension;
  else
    return T::dimension;
}

template <class T, class Make>
void load(T& member, const Numbers& numbers, const Field& field, Make make) {
  if constexpr (std::is_enum_v<T>) {
    member = static_cast<T>(static_cast<int>(numbers.front()));
  } else if constexpr (IsList<T>::value) {
    for (const double si : numbers) member.emplace_back(make(si, field));
  } else {
    member = T(make(numbers.front(), field));
  }
}

template <class F, class N, class Make>
typename F::template Inputs<N> loaded(std::span<const Numbers> given, Make make) {
  constexpr std::size_t count = F::identity.inputs.size();
  typename F::template Inputs<N> inputs;
  std::size_t i = 0;
  each_member<count>(inputs, [&](auto& member) {
    load(member, given[i], F::identity.inputs[i], make);
    ++i;
  });
  return inputs;
}

template <class F>
std::vector<Numbers> worked_out(std::span<const Numbers> given) {
  const auto inputs = loaded<F, double>(given, [](double si, const Field&) { return si; });
  auto results = F::template work_out<double>(inputs);
  std::vector<Numbers> found;
  each_member<F::identity.results.size()>(results, [&](auto& member) {
    Numbers numbers;
    if constexpr (IsList<std::remove_cvref_t<decltype(member)>>::value)
      for (const auto& item : member) numbers.push_back(item.si);
    else
      numbers.push_back(member.si);
    found.push_back(std::move(numbers));
  });
  return found;
}

template <class F>
std::vector<Explanation> explained(std::span<const Numbers> given, const QuantityText& written) {
  ExpressionGraph record;
  std::vector<Expression> leaves(F::identity.inputs.size());
  const auto inputs = loaded<F, Expression>(given, [&](double si, const Field& field) {
    if (std::isinf(si)) return Expression(si);
    const Expression leaf = record.leaf(std::string(field.symbol), si, field.unit);
    for (std::size_t k = 0; k < leaves.size(); ++k)
      if (F::identity.inputs[k].name == field.name && !field.list) leaves[k] = leaf;
    return leaf;
  });
  auto results = F::template work_out<Expression>(inputs);
  std::vector<Explanation> found;
  std::size_t i = 0;
  each_member<F::identity.results.size()>(results, [&](auto& member) {
    Explanation e;
    if constexpr (!IsList<std::remove_cvref_t<decltype(member)>>::value) {
      const Field& field = F::identity.results[i];
      const std::string left = std::string(field.symbol) + " = ";
      e.symbols = left + in_symbols(record, member.si);
      e.numbers = left + with_numbers(record, member.si, written);
      for (const Expression& leaf : leaves)
        e.slopes.push_back(leaf.record == nullptr || member.si.value == 0
                               ? std::nan("")
                               : slope(record, member.si, leaf) * leaf.value / member.si.value);
      record.place(member.si, std::string(field.symbol), field.unit, -1);
    }
    found.push_back(std::move(e));
    ++i;
  });
  return found;
}

// Whether every field's unit measures what the member holds: a slip here would be a wrong answer.
template <class T, std::size_t Count>
bool units_agree(const std::array<Field, Count>& fields) {
  T object;
  bool agree = true;
  std::size_t i = 0;
  each_member<Count>(object, [&](auto& member) {
    agree = agree && fields[i].unit.dim == dimension_of<std::remove_cvref_t<decltype(member)>>();
    ++i;
  });
  return agree;
}

template <class F>
Entry entry() {
  const auto& id = F::identity;
  if (!units_agree<typename F::template Inputs<double>>(id.inputs) ||
      !units_agree<typename F::template Results<double>>(id.results))
    std::abort();
  return {id.name, id.formula, id.source, id.inputs, id.results, &worked_out<F>, &explained<F>};
}

template <class... Figures>
std::vector<Entry> entries() {
  return {entry<Figures>()...};
}

}  // namespace

std::span<const Entry> all() {
  static const std::vector<Entry> table =
      entries<SurfaceSpeed, SpindleSpeed, SpindleSpeedShopRule, SpeedLadder, LadderSpeed, FeedRate,
              ShopFeed, TurningTime, TurningTimeAtSpeed, FacingTime, FacingTimeConstantSurfaceSpeed,
              SweptTime, SlopedPathTime, CurvedPathTime, TaperTurningTime, DrillingTime,
              ThreadingTime, RemovalRate, RemovalRateTurned, DrillingRemovalRate, CuttingForce,
              PassiveForce, SpecificForce, CuttingPower, DrillLoad, UnitPower, SpindleTorque,
              Roughness, RoughnessSharp, ToolLife, ToolLifeExponent, ToolLifeRatio,
              LifeForLeastTime, LifeForLeastCost, SpeedForLeastTime, SpeedForLeastCost, PieceCost,
              WearTime, WearTimeOneSpindleSpeed, WearTimeSlopedPath, EdgeShare, ThreadDepth,
              ThreadLead, ThreadInfeed, ThreadGrooveVolume, KnurlStartDiameter, TaperAngle,
              TailstockOffset, DeflectionChuck, DeflectionCentres, DeflectionChuckCentre, BarWeight,
              PartsPerBar, ToleranceGrade, LotTime, StandardTime, TimeCost, BreakEvenQuantity,
              MakeQuantity, SureQuantity, OutsideCharge, LearningUnit, LearningAverage,
              PriceFromMargin, PriceFromMarkup, StraightLineDepreciation, CapitalRecovery,
              MachineHour, EconomicBatch, RatedCapacity>();
  return table;
}

const Entry* find(std::string_view name) {
  for (const Entry& candidate : all())
    if (candidate.name == name) return &candidate;
  return nullptr;
}

std::vector<std::string> names() {
  std::vector<std::string> list;
  for (const Entry& candidate : all()) list.emplace_back(candidate.name);
  return list;
}

}  // namespace turnwright::figure
