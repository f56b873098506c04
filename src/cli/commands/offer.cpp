// SPDX-License-Identifier: MIT
#include "turnwright/output/offer.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <ostream>
#include <sstream>

#include "built_in_files.hpp"
#include "command.hpp"
#include "files.hpp"
#include "infeasible.hpp"
#include "inputs.hpp"
#include "outputs.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/order.hpp"
#include "turnwright/estimate/pricing.hpp"
#include "turnwright/output/workbook.hpp"
#include "turnwright/part/request_changes.hpp"
#include "week_inputs.hpp"

namespace turnwright::cli {
namespace {

std::string own_template(const Session& session, const std::string& name) {
  return session.options.shop + "/templates/" + name;
}

// The shop's own file of this name in its templates folder, else the one that ships.
std::optional<NamedText> template_file(const Session& session, const std::string& name) {
  const std::string own = own_template(session, name);
  if (!session.options.shop.empty() && exists(own)) return NamedText{own, read_file(own)};
  const std::string* shipped = text_named(offer_files(), name);
  if (shipped == nullptr) return std::nullopt;
  return NamedText{name, *shipped};
}

// Without the blanks around them, and line ends of any kind.
std::vector<std::string> filled_lines(const std::string& text) {
  constexpr const char* blanks = " \t\r";
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    if (const std::size_t from = line.find_first_not_of(blanks); from != std::string::npos)
      lines.push_back(line.substr(from, line.find_last_not_of(blanks) + 1 - from));
  return lines;
}

// What is wrong with the sender: there is none, or a line is still that of the starter.
Message sender_fault(const Session& session) {
  if (session.options.shop.empty()) return "cli.no-shop-for-sender";
  const std::string path = own_template(session, sender_file);
  if (!exists(path)) return {"cli.no-sender", {{"path", path}}};
  const std::vector<std::string> own = filled_lines(read_file(path));
  if (own.empty()) return {"cli.no-sender", {{"path", path}}};
  const std::string* starter = text_named(offer_files(), sender_file);
  for (const std::string& line : filled_lines(starter != nullptr ? *starter : ""))
    if (std::find(own.begin(), own.end(), line) != own.end())
      return {"cli.sender-unfinished", {{"path", path}, {"line", line}}};
  return {};
}

Checked<OfferTexts> offer_texts(const Session& session, const CustomerQuote& quote) {
  const Words& words = session.words;
  const std::string language = words.language() == Language::de ? "de" : "en";
  OfferTexts texts;
  Problems problems;
  const std::array<std::pair<std::string, std::string*>, 4> files{
      {{sender_file, &texts.sender},
       {"opening." + language + ".txt", &texts.opening},
       {"terms." + language + ".txt", &texts.terms},
       {"closing." + language + ".txt", &texts.closing}}};
  for (const auto& [name, into] : files) {
    const auto text = template_file(session, name);
    if (!text) continue;
    const auto done = filled(text->name, text->text, quote, words);
    if (done)
      *into = *done;
    else
      problems.insert(problems.end(), done.problems().begin(), done.problems().end());
  }
  if (!problems.empty()) return problems;
  texts.provisional = session.options.provisional;
  // Nobody sends what the starter says.
  if (!sender_fault(session).empty()) texts.sender.clear();
  return texts;
}

// Nothing where the part is not offered: it cannot be made here, or the request says so.
std::optional<Quote> quoted(const Session& session, const PartInput& input, const Request& request,
                            const RequestItem& item) {
  if (!item.not_offered.empty() && input.part) return std::nullopt;
  const auto job = job_of(session, input);
  if (!job) return std::nullopt;
  const auto part = price_part(*job, session.shop, session.fixed);
  if (!part) {
    say_infeasible(session, *job, part.infeasible());
    return std::nullopt;
  }
  Quote quote = part->quote;
  mark_old_price(quote, request.date, session.shop.policy);
  return quote;
}

// Delivery weeks from the plan of --week, for the parts that name none.
bool put_weeks(const Session& session, Request& request) {
  const auto inputs = week_inputs(session, session.options.week);
  if (!inputs) return false;
  const std::filesystem::path folder = std::filesystem::path(request.file).parent_path();
  const auto weeks = put_delivery_weeks(
      request, inputs->week, inputs->planning(session), [&](const RequestItem& item) {
        return beside_week(inputs->week, (folder / item.part).string());
      });
  if (!weeks) {
    session.print(weeks.problems());
    return false;
  }
  session.print(weeks->problems);
  for (const Message& without : weeks->without) session.note(without);
  for (const Message& early : weeks->early) session.note(early);
  return true;
}

Exit put_offer(const Session& session, const CustomerQuote& quote) {
  const Words& words = session.words;
  const auto texts = offer_texts(session, quote);
  if (!texts) {
    session.print(texts.problems());
    return Exit::input_wrong;
  }
  Outputs outputs(session, false);
  const std::string& to = session.options.output;
  if (format_of(to) == FileFormat::workbook)
    outputs.put_workbook(to, [&](const std::string& temporary) {
      write_offer_workbook(quote, *texts, words, temporary);
    });
  else
    outputs.put_paper(to, offer_paper(quote, *texts, words));
  return Exit::done;
}

// What the estimator must know before it is sent stays here.
void note_unconfirmed(const Session& session, const Quote& quote) {
  for (const Message& unconfirmed : to_confirm(quote))
    session.note(
        {"cli.not-confirmed", {{"part", quote.route.job.part.number}, {"what", unconfirmed}}});
  for (const Message& odd : odd_hand_prices(quote))
    session.note({"cli.caution-of", {{"part", quote.route.job.part.number}, {"what", odd}}});
}

// With its customer's terms; nothing, and why is said, where it cannot be read.
std::optional<Request> request_in(const Session& session, const std::string& path) {
  const std::string text = text_of(session, path);
  if (const Message fault = other_kind(session, path, text, {FileKind::request}); !fault.empty()) {
    session.say(fault);
    return std::nullopt;
  }
  auto request = read_request(path, text, session.shop.currencies);
  if (request) return with_customer_terms(std::move(*request), session.shop);
  session.print(request.problems());
  return std::nullopt;
}

// By its number and revision, never by its file: that is ours.
LineName name_of(const Session& session, const Request& request, const RequestItem& item) {
  const PartInput part = part_beside(session, request.file, item.part, item.at);
  if (!part.part) return {session.words("request.a-part"), ""};
  return {part.part->number, part.part->revision};
}

LinePrices line_prices(const std::vector<Price>& prices) {
  LinePrices by_quantity;
  for (const Price& price : prices) by_quantity[price.quantity] = price.each;
  return by_quantity;
}

// What the line would be offered at by the shop as it is now; nothing where it cannot be made.
std::optional<LinePrices> offered_now(const Session& session, const Request& request,
                                      const RequestItem& item) {
  const PartInput input = part_beside(session, request.file, item.part, item.at);
  if (!input.part) return std::nullopt;
  const auto part = ordered(*input.part, item, request);
  if (!part) return std::nullopt;
  const auto job = prepare(*part, session.shop);
  if (!job) return std::nullopt;
  const auto priced = price_part(*job, session.shop, session.fixed);
  if (!priced) return std::nullopt;
  const auto rate = exchange_of(request, session.shop.currencies);
  if (!rate) return line_prices(priced->quote.prices);
  return line_prices(in_currency(priced->quote, *rate, session.shop.policy).prices);
}

LinePrices line_prices(const CustomerItem& item) {
  LinePrices by_quantity;
  for (const CustomerPrice& price : item.prices) by_quantity[price.quantity] = price.each;
  return by_quantity;
}

Messages changes_of(const Session& session, const Request& now, const Request& before,
                    const CustomerQuote& quote) {
  const Messages changes = changes_since(
      now, before,
      [&](const Request& request, const RequestItem& item) {
        return name_of(session, request, item);
      },
      [&](const Request& request, const RequestItem& item) -> std::optional<LinePrices> {
        if (&request != &now) return offered_now(session, request, item);
        const auto& line = quote.items[static_cast<std::size_t>(&item - now.parts.data())];
        if (!line.offered) return std::nullopt;
        return line_prices(line);
      });
  Messages lines;
  for (const Message& change : changes)
    lines.push_back(
        before.revision > 0
            ? Message{"request.since", {{"revision", before.revision}, {"change", change}}}
            : Message{"request.since-before", {{"change", change}}});
  return lines;
}

// In the currency that the customer pays in.
CustomerQuote priced_for(const Session& session, const Request& request,
                         const std::vector<OfferedPart>& offered) {
  const Policy& policy = session.shop.policy;
  const auto rate = exchange_of(request, session.shop.currencies);
  if (!rate) return customer_quote(request, offered, policy);
  std::vector<Quote> exchanged;
  exchanged.reserve(offered.size());
  std::vector<OfferedPart> parts = offered;
  for (OfferedPart& part : parts)
    if (part.quote != nullptr)
      part.quote = &exchanged.emplace_back(in_currency(*part.quote, *rate, policy));
  CustomerQuote quote =
      customer_quote(in_currency(request, *rate), parts, in_currency(policy, *rate));
  quote.exchange = {"offer.exchange",
                    {{"currency", rate->currency},
                     {"rate", Figure{rate->rate, 6}},
                     {"own", session.shop.currencies.own},
                     {"day", rate->date}}};
  return quote;
}

// The rates have no price of a certificate of the material that the shop buys.
void note_free_certificate(const Session& session, const Request& request,
                           const CustomerQuote& quote) {
  const bool buys = std::any_of(
      quote.items.begin(), quote.items.end(),
      [](const CustomerItem& item) { return item.offered && !item.customers_material; });
  if (buys && request.show.material_certificate && request.charges.empty())
    session.note("cli.certificate-without-charge");
}

// A part that cannot be made is a line that says so: the others are offered all the same.
Exit put_quoted(const Session& session, const std::shared_ptr<const Request>& request,
                const std::optional<Request>& before) {
  const std::vector<PartInput> parts = parts_of(session, request);
  std::vector<std::optional<Quote>> quotes;
  std::vector<OfferedPart> offered;
  std::size_t unreadable = 0, refused = 0, priced = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const RequestItem& item = request->parts[i];
    quotes.push_back(quoted(session, parts[i], *request, item));
    priced += quotes.back() ? 1 : 0;
    unreadable += parts[i].part ? 0 : 1;
    refused += !quotes.back() && item.not_offered.empty() ? 1 : 0;
    if (quotes.back()) note_unconfirmed(session, *quotes.back());
  }
  if (unreadable > 0 || priced == 0) {
    session.note({"cli.no-offer", {{"n", std::max(refused, unreadable)}, {"all", parts.size()}}});
    return priced == 0 ? Exit::input_wrong : Exit::answer_is_no;
  }
  for (std::size_t i = 0; i < parts.size(); ++i)
    offered.push_back({&*parts[i].part, quotes[i] ? &*quotes[i] : nullptr});
  CustomerQuote quote = priced_for(session, *request, offered);
  note_free_certificate(session, *request, quote);
  if (before) quote.changes = changes_of(session, *request, *before, quote);
  const Exit done = put_offer(session, quote);
  if (refused == 0 || done != Exit::done) return done;
  session.note({"cli.not-all-offered", {{"n", refused}, {"all", parts.size()}}});
  return Exit::answer_is_no;
}

}  // namespace

Exit offer(Session& session) {
  const Options& o = session.options;
  if (o.operands.size() != 1) return session.wrong("cli.which-request");
  if (const Message fault = output_fault(session, {".html", ".pdf", ".xlsx"}, false);
      !fault.empty())
    return session.wrong(fault);
  if (!ready(session)) return Exit::input_wrong;
  auto request = request_in(session, o.operands[0]);
  if (!request) return Exit::input_wrong;
  if (const Message fault = sender_fault(session); !o.provisional && !fault.empty())
    return session.wrong(fault);
  note_after_wanted(session, *request);
  if (!o.week.empty() && !put_weeks(session, *request)) return Exit::input_wrong;
  std::optional<Request> before;
  if (!o.since.empty()) {
    before = request_in(session, o.since);
    if (!before) return Exit::input_wrong;
  }
  return put_quoted(session, std::make_shared<const Request>(std::move(*request)), before);
}

}  // namespace turnwright::cli
