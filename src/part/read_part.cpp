// SPDX-License-Identifier: MIT
#include "turnwright/part/part.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "element_text.hpp"
#include "examples.hpp"
#include "part_sections.hpp"

namespace turnwright {
namespace {

constexpr std::size_t most_elements = 500;

class PartReader {
 public:
  PartReader(const Document& document, ProblemList& problems)
      : map_(document.root, problems, "part.a-part-file"), problems_(problems) {
    part_.file = document.file;
  }

  Part read() {
    units();
    if (const Node* node = map_.find("to confirm")) {
      part_.to_confirm = read_to_confirm(in_, *node);
      in_.draft = true;
    }
    head();
    if (const Node* node = map_.need("material")) read_material(in_, *node, part_);
    if (const Node* node = map_.find("stock")) part_.stock = read_stock(in_, *node);
    if (const Node* node = map_.find("quantities")) quantities(*node);
    drawing();
    if (const Node* node = map_.find("faces")) read_faces(in_, *node, part_);
    if (const Node* node = map_.need("outside")) outside(*node);
    if (const Node* node = map_.find("bore from right"))
      part_.bore_right = elements(*node, Region::bore_right);
    if (const Node* node = map_.find("bore from left"))
      part_.bore_left = elements(*node, Region::bore_left);
    if (problems_.clean()) check_seats(part_, problems_);
    if (problems_.clean()) place_edges_between_bores(part_, problems_);
    if (const Node* node = map_.find("overall")) overall(*node);
    if (const Node* node = map_.find("centres")) part_.centres = read_centres(in_, *node);
    work();
    map_.finish();
    return std::move(part_);
  }

 private:
  void units() {
    part_.inch = map_.one_of("units", {"metric", "inch"}) == "inch";
    if (!part_.inch) return;
    bare_.length = unit::inch;
    bare_.roughness = unit::uin;
  }
  void head() {
    const Node* node = map_.need("part");
    if (node == nullptr) return;
    MapReader head(*node, problems_, section("part"));
    if (head.need("number") != nullptr) part_.number = head.text_or("number", "");
    part_.name = head.text_or("name", "");
    part_.revision = head.text_or("revision", "");
    part_.repeat = head.one_of("order", {"new", "repeat"}) == "repeat";
    head.finish();
  }
  void quantities(const Node& node) {
    std::vector<int>& list = part_.quantities;
    list.clear();
    for (const Node* item : as_list(node))
      if (const auto n = read_whole(*item, problems_, 1, most_pieces)) list.push_back(*n);
    if (list.empty()) {
      if (problems_.clean()) problems_.add(node, "part.no-quantity", such_as("[10, 50, 250]"));
      list.push_back(1);
    }
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  void drawing() {
    part_.drawing.edges = small_edge();
    if (const Node* node = map_.find("drawing")) part_.drawing = read_drawing(in_, *node);
  }
  std::vector<Element> elements(const Node& node, Region region) {
    std::vector<Element> list;
    for (const Node& map : element_maps(node, problems_)) {
      if (list.size() >= most_elements) {
        problems_.add(map.at, 1, Message{"part.too-many-elements", {{"most", most_elements}}},
                      "part.wants-turned-part");
        break;
      }
      append_with_edges(list, read_element(map, bare_, problems_), region, problems_);
    }
    if (problems_.clean()) place_elements(list, region, part_.overall, problems_);
    return list;
  }
  void outside(const Node& node) {
    part_.outside = elements(node, Region::outside);
    if (part_.outside.empty()) {
      if (problems_.clean()) problems_.add(node, "part.no-elements", "part.wants-elements");
      return;
    }
    part_.overall = part_.outside.back().to;
    if (!part_.drawing.ra) return;
    for (Element& e : part_.outside)
      if (!e.ra && !e.as_drawn) e.ra = part_.drawing.ra;
  }
  void overall(const Node& node) {
    const Size stated = read_size(node, bare_, problems_);
    if (!problems_.clean() || std::abs(stated.nominal.si - part_.overall.si) <= 1e-7) return;
    problems_.add(node,
                  Message{"part.overall-differs",
                          {{"stated", measure(stated.nominal, bare_.length, 7)},
                           {"sum", measure(part_.overall, bare_.length, 7)}}},
                  "part.wants-lengths-that-add-up");
  }
  void work() {
    if (const Node* node = map_.find("other work"))
      for (const Node* item : as_list(*node))
        part_.other_work.push_back(read_other_work(in_, *item));
    if (const Node* node = map_.find("one-offs"))
      for (const Node* item : as_list(*node)) part_.one_offs.push_back(read_one_off(in_, *item));
    if (const Node* node = map_.find("learning")) part_.learning = read_learning(in_, *node);
  }

  MapReader map_;
  ProblemList& problems_;
  BareUnits bare_;
  SectionReading in_{bare_, problems_};
  Part part_;
};

}  // namespace

Checked<Part> read_part(const Document& document, const Currencies& currencies) {
  ProblemList problems(document, currencies);
  Part part = PartReader(document, problems).read();
  if (!problems.clean()) return problems.problems();
  return part;
}

Checked<Part> read_part(std::string file, std::string_view text, const Currencies& currencies) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  return read_part(*document, currencies);
}

}  // namespace turnwright
