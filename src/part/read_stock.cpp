// SPDX-License-Identifier: MIT
// What the part is made of: material and stock.
#include <array>

#include "examples.hpp"
#include "part_sections.hpp"

namespace turnwright {
namespace {

constexpr double softest = 10, hardest = 800;  // HB
constexpr UnitPrice dearest_metal(1e7);        // a kilogram, in any currency

// "300 HB"
std::optional<double> read_hardness(const SectionReading& in, const Node& node) {
  std::string text = node.text;
  if (text.ends_with(" HB")) text.resize(text.size() - 3);
  const auto hardness = read_number(text);
  if (!hardness || *hardness < softest || *hardness > hardest)
    in.problems.add(node, found(node), Message{"part.wants-hardness", {{"example", "300 HB"}}});
  return hardness;
}

MaterialLike read_like(const SectionReading& in, const Node& node) {
  MapReader map(node, in.problems, section("material"));
  MaterialLike m;
  if (map.need("like") != nullptr) m.like = map.text_or("like", "");
  if (const Node* hardness = map.find("hardness")) m.hardness = read_hardness(in, *hardness);
  m.density = map.quantity("density", unit::kg_per_m3);
  m.price = map.quantity("price", unit::money_per_kg);
  if (m.density && m.density->si <= 0)
    in.problems.add(node, "part.density-zero", "part.wants-density");
  if (m.price && (m.price->si < 0 || *m.price > dearest_metal))
    in.problems.add(node, "part.absurd-metal-price",
                    Message{"part.wants-metal-price", {{"most", Figure{dearest_metal.si, 8}}}});
  map.finish();
  return m;
}

void read_solid(const SectionReading& in, MapReader& map, PartStock& stock) {
  static constexpr std::array forms{
      std::pair{"round", StockForm::round}, std::pair{"hexagon", StockForm::hexagon},
      std::pair{"square", StockForm::square}, std::pair{"casting", StockForm::casting},
      std::pair{"forging", StockForm::forging}};
  int said = map.find("tube") != nullptr ? 1 : 0;
  for (const auto& [key, form] : forms) said += map.find(key) != nullptr ? 1 : 0;
  if (said > 1) in.problems.add(map.node(), "part.two-stocks", such_as("round: 55", "tube: 70x12"));
  for (const auto& [key, form] : forms)
    if (const auto size = map.quantity(key, in.bare.length)) {
      stock.form = form;
      stock.size = *size;
      if (size->si <= 0) in.problems.add(map.node(), "part.stock-zero", "part.wants-stock-size");
    }
}

// "70x12"
void read_tube(const SectionReading& in, const Node& node, PartStock& stock) {
  const std::size_t x = node.text.find('x');
  const auto d = read_number(node.text.substr(0, x));
  const auto wall = read_number(x == std::string::npos ? "" : node.text.substr(x + 1));
  if (!d || !wall || *wall <= 0 || 2 * *wall >= *d) {
    in.problems.add(node, found(node), Message{"part.wants-tube", {{"example", "70x12"}}});
    return;
  }
  stock.form = StockForm::tube;
  stock.size = *d * in.bare.length;
  stock.wall = *wall * in.bare.length;
}

}  // namespace

void read_material(const SectionReading& in, const Node& node, Part& part) {
  part.material_at = node.at;
  if (in.is_open(node)) return;
  if (node.kind == Node::Kind::map) {
    part.like = read_like(in, node);
    part.material = part.like->like;
    return;
  }
  part.material =
      read_text(node, in.problems, Message{"part.wants-material", {{"example", "42CrMo4 +QT"}}})
          .value_or("");
}

PartStock read_stock(const SectionReading& in, const Node& node) {
  PartStock stock;
  stock.at = node.at;
  if (node.kind == Node::Kind::text) {
    if (node.text != "auto")
      in.problems.add(node, found(node),
                      Message{"part.wants-stock",
                              {{"word", "auto"}, {"map", "{round: 55, condition: hot rolled}"}}});
    return stock;
  }
  MapReader map(node, in.problems, section("stock"));
  read_solid(in, map, stock);
  if (const Node* tube = map.find("tube")) read_tube(in, *tube, stock);
  stock.condition = map.text_or("condition", "");
  stock.length = map.quantity("length", in.bare.length);
  stock.facing = map.quantity("facing", in.bare.length);
  if (stock.facing && stock.facing->si < 0)
    in.problems.add(*map.find("facing"), found(*map.find("facing")), "part.0-or-more");
  const auto fed = map.one_of("fed from", {"bar", "blank"});
  stock.feed_said = fed.has_value();
  stock.from_bar = fed == "bar";
  stock.customers = map.one_of("supplied by", {"us", "customer"}) == "customer";
  map.finish();
  return stock;
}

}  // namespace turnwright
