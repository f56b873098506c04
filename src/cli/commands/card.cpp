// SPDX-License-Identifier: MIT
#include <filesystem>
#include <ostream>

#include "command.hpp"
#include "outputs.hpp"
#include "turnwright/output/bench.hpp"

namespace turnwright::cli {
namespace {

// "A, B" as its items.
std::vector<std::string> items_of(const std::string& text) {
  std::vector<std::string> items;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find(',', from), text.size());
    std::string item = text.substr(from, to - from);
    item.erase(0, item.find_first_not_of(' '));
    if (!item.empty()) items.push_back(item);
    from = to + 1;
  }
  return items;
}

// A shop is called like its folder.
std::string shop_name(const std::string& folder) {
  return std::filesystem::path(folder + "/").parent_path().filename().string();
}

Message unknown_material(const Shop& shop, const std::string& name) {
  return with_near({"bench.unknown-material", {{"name", name}}},
                   nearest(name, shop.material_names(name)));
}

Message read_diameters(const Options& o, CardRequest& request) {
  for (const std::string& item : items_of(o.diameters)) {
    TextFault fault;
    const auto read = read_quantity(item, o.inch ? Unit(unit::inch) : Unit(unit::mm), fault);
    if (!read) return fault.what;
    if (read->si <= 0) return {"bench.no-such-size", {{"text", item}}};
    request.diameters.emplace_back(read->si);
  }
  return {};
}

Message read_materials(const Session& session, CardRequest& request) {
  request.materials = items_of(session.options.materials);
  for (const std::string& name : request.materials)
    if (session.shop.material(name) == nullptr) return unknown_material(session.shop, name);
  return {};
}

// The day that the card bears: nothing takes it from the clock.
Message read_day(const Options& o, CardRequest& request) {
  if (o.date.empty()) return {};
  request.date = read_date(o.date);
  return request.date ? Message() : Message{"card.no-such-day", {{"text", o.date}}};
}

void put_card(Outputs& outputs, const SpeedCard& card, const Options& o, const Words& words) {
  switch (o.json ? FileFormat::json : format_of(o.output)) {
    case FileFormat::json:
      return outputs.put_json(o.output, card_json(card));
    case FileFormat::page:
    case FileFormat::pdf:
      return outputs.put_paper(o.output, card_paper(card, words));
    case FileFormat::table:
      return outputs.put(o.output, card_table(card));
    default:
      return outputs.put(o.output, card_text(card, words));
  }
}

}  // namespace

Exit card(Session& session) {
  const Options& o = session.options;
  if (!o.operands.empty()) return session.wrong({"cli.no-file", {{"path", o.operands[0]}}});
  if (o.machine.empty()) return session.wrong("card.which-machine");
  if (const Message fault =
          output_fault(session, {".txt", ".html", ".pdf", ".csv", ".json"}, false);
      !fault.empty())
    return session.wrong(fault);
  if (!ready(session)) return Exit::input_wrong;
  CardRequest request;
  request.machine = o.machine;
  request.inch = o.inch;
  request.shop = shop_name(o.shop);
  if (const Message fault = read_diameters(o, request); !fault.empty()) return session.wrong(fault);
  if (const Message fault = read_materials(session, request); !fault.empty())
    return session.wrong(fault);
  if (const Message fault = read_day(o, request); !fault.empty()) return session.wrong(fault);
  const SpeedCard card = speed_card(request, session.shop);
  Outputs outputs(session, false);
  put_card(outputs, card, o, session.words);
  return Exit::done;
}

}  // namespace turnwright::cli
