// SPDX-License-Identifier: MIT
#include "turnwright/part/request.hpp"

#include <algorithm>
#include <array>

#include "examples.hpp"
#include "pieces.hpp"
#include "request_sections.hpp"
#include "turnwright/part/file_kind.hpp"

namespace turnwright {
namespace {

constexpr int first_year = 1970, last_year = 2200;

bool in_calendar(int year) { return year >= first_year && year <= last_year; }

Date day_in(int year, unsigned month, unsigned day) {
  return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
}

}  // namespace

std::optional<Date> read_day(MapReader& map, std::string_view key) {
  const Node* node = map.find(key);
  if (node == nullptr) return std::nullopt;
  const auto day = read_date(node->text);
  if (!day)
    map.notes().add(*node, Message{"request.not-a-day", {{"what", described(*node)}}},
                    Message{"request.wants-day", {{"example", "2026-12-01"}}});
  else if (!in_calendar(static_cast<int>(day->year())))
    map.notes().add(
        *node, Message{"request.day-out-of-range", {{"day", *day}}},
        Message{"request.wants-day-between",
                {{"first", day_in(first_year, 1, 1)}, {"last", day_in(last_year, 12, 31)}}});
  else
    return day;
  return std::nullopt;
}

namespace {

constexpr int most_releases = 1000, most_revisions = 9999, most_valid_days = 3650;
std::string read_week_of_year(const Node& node, ProblemList& problems) {
  if (!is_week(node.text))
    problems.add(node, found(node), Message{"request.wants-week", {{"example", "2027-W03"}}});
  else if (!in_calendar(static_cast<int>(read_number(node.text.substr(0, 4)).value_or(0))))
    problems.add(
        node, Message{"request.week-out-of-range", {{"week", node.text}}},
        Message{"request.wants-year-between",
                {{"first", std::to_string(first_year)}, {"last", std::to_string(last_year)}}});
  return node.text;
}

// "30 days"
int read_valid_for(const Node& node, ProblemList& problems) {
  std::string text = node.text;
  for (const std::string_view tail : {" days", " day"})
    if (text.ends_with(tail)) text.resize(text.size() - tail.size());
  if (const auto days = read_whole(text, 1, most_valid_days)) return *days;
  problems.add(node, found(node), such_as("30 days"));
  return 0;
}

void read_head(const Node& node, ProblemList& problems, Request& request) {
  MapReader head(node, problems, section("request"));
  if (head.need("customer") != nullptr) request.customer = head.text_or("customer", "");
  request.contact = head.text_or("contact", "");
  if (const Node* lines = head.find("address"))
    for (const Node* line : as_list(*lines))
      request.address.push_back(
          read_text(*line, problems, "request.wants-address-line").value_or(""));
  request.reference = head.text_or("their reference", "");
  if (head.need("our number") != nullptr) request.number = head.text_or("our number", "");
  request.revision = head.whole("revision", 0, most_revisions).value_or(0);
  if (head.need("date") != nullptr) request.date = read_day(head, "date").value_or(Date());
  if (const Node* valid = head.find("valid for"))
    request.valid_days = read_valid_for(*valid, problems);
  head.finish();
}

void read_delivery(const Node& node, ProblemList& problems, Request& request) {
  MapReader map(node, problems, section("delivery"));
  request.terms = map.text_or("terms", "");
  request.wanted = read_day(map, "wanted");
  request.packing = map.text_or("packing", "");
  request.tolerance = read_tolerance(map);
  map.finish();
  if (request.wanted && problems.clean() && *request.wanted < request.date)
    problems.add(node, Message{"request.wanted-before", {{"wanted", *request.wanted}}},
                 Message{"request.wants-day-after", {{"day", request.date}}});
}

void read_quantities(const Node& list, ProblemList& problems, RequestItem& item) {
  for (const Node* node : as_list(list)) {
    const auto n = read_whole(*node, problems, 1, most_pieces);
    if (!n) continue;
    if (!item.quantities.empty() && *n <= item.quantities.back())
      problems.add(
          *node,
          Message{"request.not-rising", {{"quantity", *n}, {"before", item.quantities.back()}}},
          "request.wants-rising");
    else
      item.quantities.push_back(*n);
  }
}

// The whole number that a word is, from 1; 0 when it is none.
int count_of(const std::string& word) { return read_whole(word, 1, most_pieces).value_or(0); }

// "once", "4 of 60"
void read_releases(const Node& node, ProblemList& problems, RequestItem& item) {
  if (node.text == "once") return;
  const auto words = split_words(node.text);
  const bool spelt = words.size() == 3 && words[1].text == "of";
  const int count = spelt ? count_of(words[0].text) : 0, each = spelt ? count_of(words[2].text) : 0;
  if (count < 2 || count > most_releases || each < 1 || each > most_pieces / count) {
    problems.add(node, found(node), such_as("once", "4 of 60"));
    return;
  }
  const int sum = count * each;
  item.releases = count;
  item.released = sum;
  if (item.quantities.empty()) item.quantities = {sum};
  if (std::find(item.quantities.begin(), item.quantities.end(), sum) == item.quantities.end())
    problems.add(node,
                 Message{"request.releases-not-listed", {{"releases", node.text}, {"sum", sum}}},
                 "request.wants-listed-quantity");
}

int read_price_unit(MapReader& map, const Node& node) {
  const int pieces = map.whole("price unit", 1, 1000).value_or(1);
  if (pieces != 1 && pieces != 100 && pieces != 1000)
    map.notes().add(node, found(node), one_of({"1", "100", "1000"}));
  return pieces;
}

void read_item_map(const Node& node, ProblemList& problems, RequestItem& item) {
  MapReader map(node, problems, "request.an-item");
  if (const Node* path = map.need("part")) {
    item.part = map.text_or("part", "");
    item.at = path->at;
  }
  if (const Node* list = map.find("quantities")) read_quantities(*list, problems, item);
  if (const Node* releases = map.find("releases")) read_releases(*releases, problems, item);
  item.customers_material = map.one_of("customer supplies", {"material", "nothing"}) == "material";
  if (const auto order = map.one_of("order", {"new", "repeat"})) item.repeat = *order == "repeat";
  if (const Node* unit = map.find("price unit")) item.price_unit = read_price_unit(map, *unit);
  item.condition = map.text_or("condition", "");
  read_selling(map, item);
  if (const Node* week = map.find("week")) item.week = read_week_of_year(*week, problems);
  if (const Node* lead = map.find("lead time")) read_lead_times(*lead, problems, item);
  item.not_offered = map.text_or("not offered", "");
  map.finish();
}

RequestItem read_item(const Node& node, ProblemList& problems) {
  RequestItem item;
  item.at = node.at;
  if (node.kind == Node::Kind::text)
    item.part = node.text;
  else
    read_item_map(node, problems, item);
  return item;
}

Showing read_show(const Node& node, ProblemList& problems) {
  static const std::vector<std::string> words{"material certificate", "delivery week", "work",
                                              "mass"};
  static constexpr std::array members{&Showing::material_certificate, &Showing::delivery_week,
                                      &Showing::work, &Showing::mass};
  Showing show;
  for (const Node* item : as_list(node)) {
    const auto word = std::find(words.begin(), words.end(), item->text);
    if (word == words.end())
      problems.add(*item, found(*item), one_of(words), nearest(item->text, words));
    else
      show.*members[static_cast<std::size_t>(word - words.begin())] = true;
  }
  return show;
}

// Nothing is delivered before it is asked for.
void check_week(const Node& node, ProblemList& problems, const Request& request,
                const RequestItem& item) {
  if (item.week.empty() || !problems.clean() || item.week >= week_of(request.date)) return;
  problems.add(node, Message{"request.week-before", {{"week", item.week}}},
               Message{"request.wants-week-from", {{"week", week_of(request.date)}}});
}

Request read(const Document& document, ProblemList& problems) {
  Request request;
  request.file = document.file;
  MapReader map(document.root, problems, "request.a-request");
  if (const Node* node = map.need("request")) read_head(*node, problems, request);
  if (const Node* node = map.find("delivery")) read_delivery(*node, problems, request);
  if (const Node* node = map.find("order")) read_order(*node, problems, request);
  if (const Node* node = map.need("parts")) {
    for (const Node* item : as_list(*node)) {
      request.parts.push_back(read_item(*item, problems));
      check_week(*item, problems, request, request.parts.back());
    }
    if (request.parts.empty() && problems.clean())
      problems.add(*node, "request.no-parts",
                   such_as("[{part: spindle.yaml, quantities: [10, 50]}]"));
  }
  if (const Node* node = map.find("show")) request.show = read_show(*node, problems);
  map.finish();
  return request;
}

}  // namespace

bool is_request(std::string_view text) { return kind_of_file(text) == FileKind::request; }

Checked<Request> read_request(std::string file, std::string_view text,
                              const Currencies& currencies) {
  const auto document = read_document(std::move(file), text);
  if (!document) return document.problems();
  ProblemList problems(*document, currencies);
  Request request = read(*document, problems);
  if (!problems.clean()) return problems.problems();
  return request;
}

Checked<Part> ordered(Part part, const RequestItem& item, const Request& request) {
  if (!item.quantities.empty()) part.quantities = item.quantities;
  part.releases = item.releases;
  part.released = item.released;
  part.price_unit = item.price_unit;
  part.selling = item.selling;
  part.selling.request = request.file;
  part.selling.rebate = request.rebate;
  part.selling.rebate_of = request.rebate_of;
  part.selling.whole_order = request.parts.size() <= 1;
  if (!item.condition.empty()) part.stock.condition = item.condition;
  if (item.customers_material) part.stock.customers = true;
  if (item.repeat) part.repeat = *item.repeat;
  const auto odd = std::find_if(part.quantities.begin(), part.quantities.end(),
                                [&](int q) { return q % part.releases_at(q) != 0; });
  if (odd == part.quantities.end()) return part;
  Problem p;
  p.file = request.file;
  p.at = item.at;
  p.what = Message{"request.unequal-releases", {{"n", *odd}, {"releases", item.releases}}};
  p.expected = "request.wants-equal-releases";
  return Problems{p};
}

}  // namespace turnwright
