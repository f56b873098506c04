// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "turnwright/document/reader.hpp"
#include "turnwright/part/request.hpp"

namespace turnwright {
namespace {

constexpr int most_pieces = 10000000;

class RequestReader {
 public:
  RequestReader(const Document& document, ProblemList& notes)
      : map_(document.root, notes, "a request"), notes_(notes) {
    request_.file = document.file;
  }

  Request read() {
    head();
    if (const Node* node = map_.find("delivery")) delivery(*node);
    if (const Node* node = map_.need("parts")) {
      for (const Node* item : as_list(*node)) request_.parts.push_back(part(*item));
      if (request_.parts.empty() && notes_.clean())
        notes_.add(*node, "no parts", "[{part: spindle.yaml, quantities: [10, 50]}]");
    }
    if (const Node* node = map_.find("show")) show(*node);
    map_.finish();
    return std::move(request_);
  }

 private:
  std::optional<Date> date(MapReader& map, std::string_view key) {
    const Node* node = map.find(key);
    if (node == nullptr) return std::nullopt;
    const auto found = read_date(node->text);
    if (!found)
      notes_.add(*node, "found " + described(*node) + ", which is no day",
                 "a day of the calendar as 2026-12-01");
    return found;
  }
  void head() {
    const Node* node = map_.need("request");
    if (node == nullptr) return;
    MapReader head(*node, notes_, "request");
    if (head.need("customer") != nullptr) request_.customer = head.text_or("customer", "");
    request_.contact = head.text_or("contact", "");
    if (const Node* lines = head.find("address"))
      for (const Node* line : as_list(*lines))
        request_.address.push_back(read_text(*line, notes_, "a line of the address").value_or(""));
    request_.reference = head.text_or("their reference", "");
    if (head.need("our number") != nullptr) request_.number = head.text_or("our number", "");
    request_.revision = head.whole("revision", 0, 9999).value_or(0);
    if (head.need("date") != nullptr) request_.date = date(head, "date").value_or(Date());
    if (const Node* valid = head.find("valid for")) valid_for(*valid);
    head.finish();
  }
  // "30 days"
  void valid_for(const Node& node) {
    std::string text = node.text;
    for (const char* tail : {" days", " day"})
      if (text.ends_with(tail)) text.resize(text.size() - std::string_view(tail).size());
    const auto days = read_number(text);
    if (days && *days >= 1 && *days <= 3650 && *days == std::floor(*days))
      request_.valid_days = static_cast<int>(*days);
    else
      notes_.add(node, "found " + described(node), "30 days");
  }
  void delivery(const Node& node) {
    MapReader map(node, notes_, "delivery");
    request_.terms = map.text_or("terms", "");
    request_.wanted = date(map, "wanted");
    request_.packing = map.text_or("packing", "");
    map.finish();
    if (request_.wanted && notes_.clean() && *request_.wanted < request_.date)
      notes_.add(node, "wanted " + text_of(*request_.wanted) + ", before the request itself",
                 "a day after " + text_of(request_.date));
  }
  RequestItem part(const Node& node) {
    RequestItem item;
    item.at = node.at;
    if (node.kind == Node::Kind::text) {
      item.part = node.text;
      return item;
    }
    MapReader map(node, notes_, "a part of a request");
    if (const Node* path = map.need("part")) {
      item.part = map.text_or("part", "");
      item.at = path->at;
    }
    if (const Node* list = map.find("quantities")) quantities(*list, item);
    if (const Node* call = map.find("releases")) releases(*call, item);
    item.customers_material =
        map.one_of("customer supplies", {"material", "nothing"}) == "material";
    if (const auto order = map.one_of("order", {"new", "repeat"})) item.repeat = *order == "repeat";
    if (const Node* unit = map.find("price unit")) {
      item.price_unit = map.whole("price unit", 1, 1000).value_or(1);
      if (item.price_unit != 1 && item.price_unit != 100 && item.price_unit != 1000)
        notes_.add(*unit, "found " + described(*unit), "1, 100 or 1000");
    }
    if (const Node* week = map.find("week")) {
      item.week = week->text;
      if (!is_week(item.week))
        notes_.add(*week, "found " + described(*week), "a week of the calendar as 2027-W03");
    }
    map.finish();
    return item;
  }
  void quantities(const Node& list, RequestItem& item) {
    for (const Node* node : as_list(list)) {
      const auto n = read_whole(*node, notes_, 1, most_pieces);
      if (!n) continue;
      if (!item.quantities.empty() && *n <= item.quantities.back())
        notes_.add(*node, std::to_string(*n) + " after " + std::to_string(item.quantities.back()),
                   "quantities that rise");
      else
        item.quantities.push_back(*n);
    }
  }
  // "once", "4 releases of 60"
  void releases(const Node& node, RequestItem& item) {
    if (node.text == "once") return;
    std::vector<std::string> words;
    std::string word;
    for (const char c : node.text + " ")
      if (c != ' ')
        word += c;
      else if (!word.empty())
        words.push_back(std::move(word)), word.clear();
    auto whole = [&](std::size_t i) {
      const auto n = i < words.size() ? read_number(words[i]) : std::nullopt;
      return n && *n >= 1 && *n <= most_pieces && *n == std::floor(*n) ? static_cast<int>(*n) : 0;
    };
    const bool spelt = words.size() == 4 && words[1] == "releases" && words[2] == "of";
    const int count = whole(0), each = whole(3);
    if (!spelt || count < 2 || count > 1000 || each < 1 || each > most_pieces / count) {
      notes_.add(node, "found " + described(node), "once, or as 4 releases of 60");
      return;
    }
    item.releases = count;
    if (item.quantities.empty()) item.quantities = {count * each};
    if (std::find(item.quantities.begin(), item.quantities.end(), count * each) ==
        item.quantities.end())
      notes_.add(
          node,
          node.text + " is " + std::to_string(count * each) + ", which is none of the quantities",
          "that quantity in the list");
  }
  void show(const Node& node) {
    static constexpr std::array words{
        std::pair{"material certificate", &Showing::material_certificate},
        std::pair{"delivery week", &Showing::delivery_week}, std::pair{"work", &Showing::work},
        std::pair{"mass", &Showing::mass}};
    for (const Node* item : as_list(node)) {
      const auto* found = std::find_if(words.begin(), words.end(),
                                       [&](const auto& w) { return item->text == w.first; });
      if (found != words.end()) {
        request_.show.*found->second = true;
        continue;
      }
      std::vector<std::string> names;
      names.reserve(words.size());
      for (const auto& w : words) names.emplace_back(w.first);
      notes_.add(*item, "found " + described(*item),
                 "material certificate, delivery week, work or mass", nearest(item->text, names));
    }
  }

  MapReader map_;
  ProblemList& notes_;
  Request request_;
};

}  // namespace

bool is_request(std::string_view text) {
  return text.starts_with("request:") || text.find("\nrequest:") != std::string_view::npos;
}

Checked<Request> read_request(std::string file, std::string_view text) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList notes(*document);
  Request request = RequestReader(*document, notes).read();
  if (!notes.clean()) return notes.problems();
  return request;
}

Checked<Part> ordered(Part part, const RequestItem& item, const Request& request) {
  if (!item.quantities.empty()) part.quantities = item.quantities;
  part.releases = item.releases;
  part.price_unit = item.price_unit;
  if (item.customers_material) part.stock.customers = true;
  if (item.repeat) part.repeat = *item.repeat;
  for (const int q : part.quantities)
    if (q % item.releases != 0) {
      Problem p;
      p.file = request.file;
      p.at = item.at;
      p.what = std::to_string(q) + " pieces do not go into " + std::to_string(item.releases) +
               " equal releases";
      p.expected = "quantities that do";
      return Problems{p};
    }
  return part;
}

}  // namespace turnwright
