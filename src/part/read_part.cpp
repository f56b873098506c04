// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "element_text.hpp"
#include "read_element.hpp"
#include "turnwright/part/part.hpp"

namespace turnwright {
namespace {

constexpr std::size_t most_elements = 500;
constexpr int most_pieces = 10000000;

class PartReader {
 public:
  PartReader(const Document& document, ProblemList& notes)
      : map_(document.root, notes, "a part file"), notes_(notes) {
    part_.file = document.file;
  }

  Part read() {
    units();
    head();
    material();
    if (const Node* node = map_.find("stock")) stock(*node);
    quantities();
    if (const Node* node = map_.find("drawing"))
      drawing(*node);
    else
      part_.drawing.edges = 0.3 * unit::mm;
    if (const Node* node = map_.find("faces")) faces(*node);
    outside();
    bore("bore from right", Region::bore_right, part_.bore_right);
    bore("bore from left", Region::bore_left, part_.bore_left);
    overall();
    if (const Node* node = map_.find("centres")) centres(*node);
    if (const Node* node = map_.find("other work"))
      for (const Node* item : as_list(*node)) other_work(*item);
    if (const Node* node = map_.find("one-offs"))
      for (const Node* item : as_list(*node)) one_off(*item);
    if (const Node* node = map_.find("learning")) learning(*node);
    map_.finish();
    return part_;
  }

 private:
  void units() {
    part_.inch = map_.one_of("units", {"metric", "inch"}) == "inch";
    if (part_.inch) {
      bare_.length = unit::inch;
      bare_.roughness = unit::uin;
    }
  }
  void head() {
    const Node* node = map_.need("part");
    if (node == nullptr) return;
    MapReader head(*node, notes_, "part");
    if (head.need("number") != nullptr) part_.number = head.text_or("number", "");
    part_.name = head.text_or("name", "");
    part_.revision = head.text_or("revision", "");
    part_.repeat = head.one_of("order", {"new", "repeat"}) == "repeat";
    head.finish();
  }
  void material() {
    const Node* node = map_.need("material");
    if (node == nullptr) return;
    part_.material_at = node->at;
    if (node->kind != Node::Kind::map) {
      part_.material = read_text(*node, notes_, "a material as 42CrMo4 +QT").value_or("");
      return;
    }
    MapReader like(*node, notes_, "material");
    MaterialLike m;
    if (like.need("like") != nullptr) m.like = like.text_or("like", "");
    if (const Node* hb = like.find("hardness")) {
      std::string text = hb->text;
      if (text.ends_with(" HB")) text.resize(text.size() - 3);
      m.hardness = read_number(text);
      if (!m.hardness || *m.hardness < 10 || *m.hardness > 800)
        notes_.add(*hb, "found " + described(*hb), "a Brinell hardness as 300 HB");
    }
    m.density = like.quantity("density", unit::kg_per_m3);
    m.price = like.quantity("price", unit::money_per_kg);
    if (m.density && m.density->si <= 0) notes_.add(*node, "a density of 0", "a density above 0");
    part_.material = m.like;
    part_.like = m;
    like.finish();
  }
  void stock(const Node& node) {
    PartStock& s = part_.stock;
    s.at = node.at;
    if (node.kind == Node::Kind::text) {
      if (node.text != "auto")
        notes_.add(node, "found " + described(node),
                   "auto, or a map as {round: 55, condition: hot rolled}");
      return;
    }
    MapReader map(node, notes_, "stock");
    static constexpr std::array forms{
        std::pair{"round", StockForm::round}, std::pair{"hexagon", StockForm::hexagon},
        std::pair{"square", StockForm::square}, std::pair{"casting", StockForm::casting},
        std::pair{"forging", StockForm::forging}};
    for (const auto& [word, form] : forms)
      if (const auto size = map.quantity(word, bare_.length)) {
        s.form = form;
        s.size = *size;
        if (size->si <= 0) notes_.add(node, "a stock of no size", "a size above 0");
      }
    if (const Node* tube = map.find("tube")) {
      const std::size_t x = tube->text.find('x');
      const auto d = read_number(tube->text.substr(0, x));
      const auto wall =
          x == std::string::npos ? std::nullopt : read_number(tube->text.substr(x + 1));
      if (!d || !wall || *wall <= 0 || 2 * *wall >= *d)
        notes_.add(*tube, "found " + described(*tube), "outside diameter x wall, as 70x12");
      else
        s.form = StockForm::tube, s.size = *d * bare_.length, s.wall = *wall * bare_.length;
    }
    s.condition = map.text_or("condition", "");
    s.length = map.quantity("length", bare_.length);
    s.facing = map.quantity("facing", bare_.length);
    s.from_bar = map.one_of("fed from", {"bar", "blank"}) == "bar";
    s.customers = map.one_of("supplied by", {"us", "customer"}) == "customer";
    map.finish();
  }
  void quantities() {
    const Node* node = map_.find("quantities");
    if (node == nullptr) return;
    part_.quantities.clear();
    for (const Node* item : as_list(*node))
      if (const auto n = read_whole(*item, notes_, 1, most_pieces)) part_.quantities.push_back(*n);
    if (part_.quantities.empty()) {
      if (notes_.clean()) notes_.add(*node, "no quantity", "[10, 50, 250]");
      part_.quantities.push_back(1);
    }
    std::sort(part_.quantities.begin(), part_.quantities.end());
    part_.quantities.erase(std::unique(part_.quantities.begin(), part_.quantities.end()),
                           part_.quantities.end());
  }
  void drawing(const Node& node) {
    MapReader map(node, notes_, "drawing");
    Drawing& d = part_.drawing;
    if (const Node* general = map.find("general")) general_tolerance(*general);
    d.ra = map.quantity("Ra", bare_.roughness);
    d.edges = map.quantity_or("edges", bare_.length, 0.3 * unit::mm);
    if (d.ra && d.ra->si <= 0) notes_.add(node, "a roughness of 0", "an Ra above 0");
    map.finish();
  }
  void general_tolerance(const Node& node) {
    std::string text = node.text;
    if (text.starts_with("\xC2\xB1")) {
      TextFault fault;
      const auto v = read_quantity(text.substr(2), bare_.length, fault);
      if (v && v->si > 0) {
        part_.drawing.general.plus_minus = Length(v->si);
        return;
      }
    } else if (text.starts_with("ISO 2768-") && text.size() > 9 &&
               std::string("fmcv").find(text[9]) != std::string::npos) {
      part_.drawing.general.iso_class = text.substr(9, 1);
      return;
    }
    notes_.add(node, "found " + described(node),
               "ISO 2768-m, ISO 2768-mK or \xC2\xB1"
               "0.1");
  }
  void faces(const Node& node) {
    MapReader map(node, notes_, "faces");
    for (const auto& [key, face] :
         {std::pair{"right", &part_.right_face}, std::pair{"left", &part_.left_face}}) {
      const Node* item = map.find(key);
      if (item == nullptr) continue;
      if (item->kind == Node::Kind::map)
        face_map(*item, *face);
      else
        face_of(*item, *face);
    }
    map.finish();
  }
  void face_map(const Node& node, FaceRequest& face) {
    MapReader map(node, notes_, "a face");
    face.machined = map.one_of("as", {"machined", "sawn"}) != "sawn";
    face.ra = map.quantity("Ra", bare_.roughness);
    if (const Node* grooves = map.find("groove"))
      for (const Node* item : as_list(*grooves)) {
        MapReader groove(*item, notes_, "a face groove");
        FaceGroove g;
        g.at = item->at;
        g.width = groove.needed("width", bare_.length);
        g.depth = groove.needed("depth", bare_.length);
        g.inner = groove.needed("from", bare_.length);
        groove.finish();
        if (g.width.si <= 0 || g.depth.si <= 0 || g.inner.si < 0)
          notes_.add(*item, "a face groove of no size", "width and depth above 0");
        face.grooves.push_back(g);
      }
    map.finish();
  }
  // "machined, Ra 1.6, groove 4 wide 3 deep from 36"
  void face_of(const Node& node, FaceRequest& face) {
    std::size_t offset = 0;
    bool first = true;
    while (offset <= node.text.size()) {
      const std::size_t comma = std::min(node.text.find(',', offset), node.text.size());
      const auto words =
          words_of(std::string_view(node.text).substr(offset, comma - offset), offset);
      const std::string head = words.empty() ? "" : words[0].text;
      if (first && words.size() == 2 && head == "as" && words[1].text == "sawn") {
        face.machined = false;
      } else if (words.size() == 2 && head == "Ra") {
        const auto v = read_number(words[1].text);
        if (v && *v > 0)
          face.ra = *v * bare_.roughness;
        else
          notes_.add_inside(node, words[1].offset, characters(words[1].text),
                            "'" + words[1].text + "' is no roughness", "an Ra above 0");
      } else if (head == "groove") {
        face_groove(node, words, face);
      } else if (!(first && words.size() == 1 && head == "machined")) {
        notes_.add(node, "found " + described(node),
                   "machined or as sawn, then Ra 3.2 or 'groove 4 wide 3 deep from 36'",
                   "machined");
        return;
      }
      first = false;
      offset = comma + 1;
    }
  }
  void face_groove(const Node& node, const std::vector<Piece>& words, FaceRequest& face) {
    FaceGroove g;
    g.at = node.at;
    auto value = [&](std::size_t k) {
      return read_length(piece_node(node, words[k].offset, words[k].text), bare_, notes_)
          .value_or(Length(0.0));
    };
    const bool spelt = words.size() == 7 && words[2].text == "wide" && words[4].text == "deep" &&
                       words[5].text == "from";
    if (spelt) {
      g.width = value(1);
      g.depth = value(3);
      g.inner = value(6);
    }
    if (!spelt || g.width.si <= 0 || g.depth.si <= 0 || g.inner.si < 0)
      notes_.add(node, "a face groove that cannot be read",
                 "'groove 4 wide 3 deep from 36': width, depth, smaller diameter");
    face.grooves.push_back(g);
  }
  std::vector<Element> elements(const Node& node, Region region) {
    std::vector<Element> list;
    for (const Node& map : element_maps(node, notes_)) {
      if (list.size() >= most_elements) {
        notes_.add(map.at, 1, "more than 500 elements", "a turned part");
        break;
      }
      list.push_back(read_element(map, bare_, notes_));
    }
    if (notes_.clean()) place_elements(list, region, part_.overall, notes_);
    return list;
  }
  void outside() {
    const Node* node = map_.need("outside");
    if (node == nullptr) return;
    part_.outside = elements(*node, Region::outside);
    if (part_.outside.empty()) {
      if (notes_.clean()) notes_.add(*node, "no elements", "elements from the right-hand face");
      return;
    }
    part_.overall = part_.outside.back().to;
    if (!part_.drawing.ra) return;
    for (Element& e : part_.outside)
      if (!e.ra && !e.as_drawn) e.ra = part_.drawing.ra;
  }
  void bore(std::string_view key, Region region, std::vector<Element>& into) {
    if (const Node* node = map_.find(key)) into = elements(*node, region);
  }
  void overall() {
    const Node* node = map_.find("overall");
    if (node == nullptr) return;
    const Size length_text = read_size(*node, bare_, notes_);
    if (!notes_.clean()) return;
    if (std::abs(length_text.nominal.si - part_.overall.si) > 1e-7)
      notes_.add(*node,
                 "overall is " + readable(in(length_text.nominal, bare_.length), 7) +
                     ", but the elements add up to " + readable(in(part_.overall, bare_.length), 7),
                 "lengths that add up");
  }
  void centres(const Node& node) {
    MapReader map(node, notes_, "centres");
    CentreRequest& c = part_.centres;
    for (const auto& [key, right, left] :
         {std::tuple{"right", true, false}, std::tuple{"left", false, true},
          std::tuple{"both ends", true, true}}) {
      const Node* item = map.find(key);
      if (item == nullptr) continue;
      c.right = c.right || right;
      c.left = c.left || left;
      const std::string form = item->text.substr(0, 1);
      if (form != "A" && form != "B" && form != "R")
        notes_.add(*item, "found " + described(*item), "A, B or R, with a size as B 2.5");
      c.form = form;
      if (item->text.size() > 2)
        if (const auto d = read_number(item->text.substr(2))) c.pilot = *d * unit::mm;
    }
    const auto keep = map.one_of("keep", {"yes", "may", "no"});
    c.keep = keep == "yes"   ? CentreUse::yes
             : keep == "no"  ? CentreUse::no
             : keep == "may" ? CentreUse::may
                             : CentreUse::unsaid;
    map.finish();
  }
  // "keyway 10 P9 x36 on 35 h6, 6 min": what, then its time.
  void other_work(const Node& node) {
    OtherWork w;
    w.at = node.at;
    if (node.kind == Node::Kind::text) {
      what_and_value(node, w.what, w.time, w.price);
    } else {
      MapReader map(node, notes_, "other work");
      if (map.need("what") != nullptr) w.what = map.text_or("what", "");
      w.time = map.quantity("minutes", unit::min);
      w.price = map.quantity("price", unit::money);
      charged(map, w);
      w.setup = map.quantity_or("setup", unit::min, Time(0.0));
      w.after = map.one_of("after", {"turning", "roughing"}).value_or("turning");
      w.days = map.quantity_or("days", unit::ratio, Number(0.0)).si;
      if (!w.time && !w.price)
        notes_.add(node, "other work without minutes or price", "minutes: 6 or price: 4.50");
      map.finish();
    }
    if (below_zero(w.time) || below_zero(w.price) || w.setup.si < 0 || w.days < 0)
      notes_.add(node, "a negative time or price", "0 or more");
    part_.other_work.push_back(w);
  }
  // What only bought work has.
  void charged(MapReader& map, OtherWork& w) {
    static const std::vector<std::string> words{"piece", "lot", "kg", "minute", "dm2"};
    const std::string per = map.one_of("per", words).value_or("piece");
    w.per = static_cast<ChargedBy>(std::find(words.begin(), words.end(), per) - words.begin());
    w.minimum = map.quantity_or("minimum", unit::money, Amount(0.0));
    w.certificate = map.quantity_or("certificate", unit::money, Amount(0.0));
    w.transport = map.quantity_or("transport", unit::money, Amount(0.0));
    w.scrap = map.quantity_or("scrap", unit::ratio, Number(0.0)).si;
    if (w.minimum.si < 0 || w.certificate.si < 0 || w.transport.si < 0)
      notes_.add(map.node(), "a negative price", "0 or more");
    if (w.scrap < 0 || w.scrap >= 0.95)
      notes_.add(map.node(), "a scrap of " + readable(w.scrap), "a share from 0 to below 0.95");
    if (w.per == ChargedBy::minute && (!w.time || !w.price))
      notes_.add(map.node(), "work by the minute without its minutes or price",
                 "minutes: 6 and price: 1.10, a minute's");
    if (w.per != ChargedBy::minute && w.time && w.price)
      notes_.add(map.node(), "both minutes and a price",
                 "own work with minutes, bought work with a price, or per: minute");
    if (w.per != ChargedBy::piece && w.per != ChargedBy::lot && !w.price)
      notes_.add(map.node(), "work by the " + per + " without a price", "price: 2.10");
    if (!w.price && (w.minimum.si > 0 || w.certificate.si > 0 || w.transport.si > 0))
      notes_.add(map.node(), "own work with a bought price beside it", "price: 4.50");
  }
  // "keyway 10 P9 x36 on 35 h6, 6 min", "soft jaws, 180 EUR"
  void what_and_value(const Node& node, std::string& what, std::optional<Time>& time,
                      std::optional<Amount>& price) {
    const std::size_t comma = node.text.rfind(',');
    what = node.text.substr(0, comma);
    TextFault fault;
    const std::string tail = comma == std::string::npos ? "" : node.text.substr(comma + 1);
    const auto minutes = tail.empty() ? std::nullopt : read_quantity(tail, unit::min, fault);
    const auto money = tail.empty() ? std::nullopt : read_quantity(tail, unit::money, fault);
    if (minutes && !minutes->bare)
      time = Time(minutes->si);
    else if (money && !money->bare)
      price = Amount(money->si);
    else
      notes_.add(node, "other work without a time or price",
                 "'" + what + ", 6 min' or ', 4.50 EUR'");
  }
  template <class Q>
  static bool below_zero(const std::optional<Q>& q) {
    return q && q->si < 0;
  }
  // "soft jaws, 180 EUR", or a map with how it is paid
  void one_off(const Node& node) {
    OneOff o;
    o.at = node.at;
    if (node.kind == Node::Kind::text) {
      what_and_value(node, o.what, o.time, o.price);
    } else {
      MapReader map(node, notes_, "a one-off");
      if (map.need("what") != nullptr) o.what = map.text_or("what", "");
      o.time = map.quantity("minutes", unit::min);
      o.price = map.quantity("price", unit::money);
      if (o.time.has_value() == o.price.has_value())
        notes_.add(node, "a one-off with both or neither of minutes and price",
                   "minutes: 90 or price: 180");
      const std::string paid =
          map.one_of("paid", {"as a line", "in the first order", "over pieces"})
              .value_or("as a line");
      o.paid = paid == "as a line"     ? PaidBy::line
               : paid == "over pieces" ? PaidBy::pieces
                                       : PaidBy::first_order;
      o.pieces = map.whole("pieces", 1, most_pieces).value_or(0);
      if ((o.paid == PaidBy::pieces) != (o.pieces > 0))
        notes_.add(node, "'over pieces' and its number go together",
                   "paid: over pieces, pieces: 500");
      map.finish();
    }
    if (below_zero(o.time) || below_zero(o.price))
      notes_.add(node, "a negative time or price", "0 or more");
    part_.one_offs.push_back(o);
  }
  void learning(const Node& node) {
    MapReader map(node, notes_, "learning");
    Learning l;
    l.rate = map.needed("rate", unit::ratio).si;
    l.planned_at = map.whole("planned time at piece", 1, most_pieces).value_or(1);
    if (l.rate < 0.5 || l.rate > 1)
      notes_.add(node, "a learning rate of " + readable(l.rate), "0.5 to 1, as 0.9");
    map.finish();
    part_.learning = l;
  }

  MapReader map_;
  ProblemList& notes_;
  BareUnits bare_;
  Part part_;
};

}  // namespace

const char* name_of(ChargedBy per) {
  static constexpr std::array names{"piece", "lot", "kg", "minute", "dm2"};
  return names[static_cast<std::size_t>(per)];
}

Checked<Part> read_part(const Document& document) {
  ProblemList notes(document);
  Part part = PartReader(document, notes).read();
  if (!notes.clean()) return notes.problems();
  return part;
}

Checked<Part> read_part(std::string file, std::string_view text) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  return read_part(*document);
}

}  // namespace turnwright
